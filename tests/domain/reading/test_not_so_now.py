"""What used to be, what somebody offers, and what was planned and never done: no facts of now."""

from __future__ import annotations

import pytest

from domain.records import verdict_to_record
from domain.verdicts import Silent
from tests.domain.reading.chats import Reader, on_the_road

TALK = [
    # What used to be.
    "the truck before this one used to run 225 on the trans",
    "we used to weigh 21,400 with the old camper",
    "Dad's rig used to hit 1,300 EGT on that hill",
    "I used to own a gasser, 31 gallons every 300 miles",
    "the camper we used to have had a GVWR of 7,500",
    # What is offered.
    "the ad says GVWR 12,500, tow rating 14,000",
    "listing says 2019, 61,000 miles, GVWR 8,600",
    "advertised at GVWR 9,990 and only 2,400 empty",
    "saw one with 7,000 GVWR, asking $8,200",
    "GVWR 14,000, asking 11,500",
    "asking price is 14,500 for a 2017, 14,000 GVWR",
    "asking price 4,800 for the trailer, i said 3,500",
    # What came to nothing.
    "was going to fill up at Larkfold, 30 gal at 3.89, but the pump was broken",
    "we were about to fuel up, 30 gallons at 3.799, when the lights went out",
    "had planned to weigh at the quarry, 21,000 gross, then they closed",
    "were gonna take on 80 litres at 1.62 but the queue put us off",
    "meant to top off at the border, 20 gallons, and drove right past",
]


@pytest.mark.parametrize("text", TALK)
def test_what_is_not_so_now_is_no_fact(text: str, reads: Reader) -> None:
    assert isinstance(reads(text, on_the_road()), Silent)


@pytest.mark.parametrize(
    ("text", "kind"),
    [
        ("meant to fill up at Larkfold, filled here instead, 28.1 gal at 3.899", "fill"),
        ("was going to fill at the border but filled up in Elm Creek, 28.1 gal at 3.899", "fill"),
        ("trans used to run 225 on this hill, now it's 204", "observation"),
        ("filled up like we used to, 28.1 gal", "fill"),
        ("meant to log this yesterday: 28.4 gal, 48,300", "fill"),
        ("sorry, forgot to log the last fill-up. odo 48,300 now", "odometer"),
    ],
)
def test_what_was_done_in_its_place_is_one(text: str, kind: str, reads: Reader) -> None:
    record = verdict_to_record(reads(text, on_the_road()))
    assert [entry["kind"] for entry in record["entries"]] == [kind]


@pytest.mark.parametrize(
    "text",
    [
        "never logged the fill-up before this one, sorry. This one: 30.2 gal, full.",
        "forgot to log the fill up before, my bad. Now 30.2 gal, filled up",
    ],
)
def test_a_fill_left_out_makes_no_correction(text: str, reads: Reader) -> None:
    (entry,) = verdict_to_record(reads(text, on_the_road()))["entries"]
    assert (entry["kind"], entry["missed"], entry["full"]) == ("fill", True, True)
