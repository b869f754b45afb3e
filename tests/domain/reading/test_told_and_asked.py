"""What is told before it is asked about is kept: its answer says what was asked."""

from __future__ import annotations

import pytest

from domain.entries import Check, Entry, Fill, Hitch, Observation, Odometer, Weighing
from domain.verdicts import Facts, Question, Silent
from tests.domain.reading.chats import Reader, chat, on_the_road

TOLD = {
    "just got 5,180 / 6,900 / 9,420, are we legal?": Weighing,
    "5180 6900 9420, are we ok?": Weighing,
    "5180/6900/9420 how'd we do": Weighing,
    "scale says 5,180 6,900 9,420, we over?": Weighing,
    "5180 6900 9420 21500 legal?": Weighing,
    "steer 5180 drive 6900 trailer 9420, are we over?": Weighing,
    "steer 5180 drive 6900 trailer 9420 are we over?": Weighing,
    "5180 steer, 6900 drive, 9420 trailer, over anything?": Weighing,
    "steer 5180, drive 6900, trailer 9420 - we over?": Weighing,
    "4980 6120 8390 whats our tongue weight now": Weighing,
    "ticket reads 4980 / 6120 / 8390. what does that leave us?": Weighing,
    "drive 7120, is that over?": Weighing,
    "drives 7,120, are we over?": Weighing,
    "tongue came in at 1,240, is that too much?": Weighing,
    "48502, 31.2 gal, full, what'd we get?": Fill,
    "31.2 gal 48502 full, what did we get?": Fill,
    "odo 48502, 31.2 gallons full, how far can we go?": Fill,
    "odo 48502 how far have we come today?": Odometer,
    "trans 212, coolant 203, is that ok?": Observation,
    "trans is running 215 on this grade, too hot?": Observation,
    "left rear is at 58 psi, too low?": Observation,
}

ASKED = {
    "is 5,640 on the steer axle over": "margin",
    "1,150 miles, how much fuel is that?": "plan",
    "6,500 lb skid steer, how many chains do i need?": "tiedown",
    "600 lb in the bed, would we be over?": "whatif",
    "at 62 mph what mpg should i get?": "economy",
    "410 miles to go, do we need fuel?": "range",
}

TALK = """
    2500 2700 2900, which one should we pick?
    rent is 1,450, 1,600 next year, is that normal?
    his truck was 5180 6900 9420, is that legal?
    they said 5180 6900 9420, is that legal?
    would 5180 6900 9420 be ok?
    the pressure cooker says 15 psi for 25 min, right?
    12 bags at 80, 14 at 60, how much is that?
    5 bales at 60 lb, will it fit?
    1200 1400 1600 sq ft, which is ours?
    the lots went for 5180, 6900 and 9420, is that too much?
    he wants 9500 for it, is that too much?
"""


@pytest.mark.parametrize(("text", "kind"), TOLD.items())
def test_what_is_told_is_kept_whatever_is_asked_of_it(text: str, kind: type, reads: Reader) -> None:
    verdict = reads(text, on_the_road())
    assert isinstance(verdict, Facts), verdict
    assert {type(entry) for entry in verdict.entries} == {kind}


def test_a_tank_stays_full_whatever_is_asked_of_it(reads: Reader) -> None:
    verdict = reads("48,502 28.4 gal full how'd we do on that one", on_the_road())
    assert isinstance(verdict, Facts)
    (fill,) = verdict.entries
    assert isinstance(fill, Fill)
    assert fill.full is True


def test_all_of_it_is_kept(reads: Reader) -> None:
    verdict = reads("just got 5,180 / 6,900 / 9,420, are we legal?", on_the_road())
    assert isinstance(verdict, Facts)
    (weighing,) = verdict.entries
    assert isinstance(weighing, Weighing)
    loads = {where: load.value for where, load in weighing.loads.items()}
    assert loads == {"steer": 5180, "drive": 6900, "trailer": 9420}


@pytest.mark.parametrize(("text", "topic"), ASKED.items())
def test_a_figure_that_is_asked_about_is_not_told(text: str, topic: str, reads: Reader) -> None:
    verdict = reads(text, on_the_road())
    assert isinstance(verdict, Question), verdict
    assert verdict.topic == topic


@pytest.mark.parametrize("text", [line.strip() for line in TALK.strip().splitlines()])
@pytest.mark.parametrize("context", [chat(), on_the_road()], ids=["new", "known"])
def test_figures_that_people_ask_each_other_about_are_talk(
    text: str, context: object, reads: Reader
) -> None:
    assert isinstance(reads(text, context), Silent)


DONE: dict[str, tuple[type[Entry], ...]] = {
    "hitched the camper, what does it weigh": (Hitch,),
    "hooked up the flatdeck, how much can we load on it": (Hitch,),
    "just hitched up, are we legal": (Hitch,),
    "camper's hitched. are we legal?": (Hitch,),
    "dropped the camper, mpg on that trip?": (Hitch,),
    "hitched up at 48,211, oil due?": (Hitch, Odometer),
    "hitched the camper at 48,211, what does it weigh": (Hitch, Odometer),
    "odo 48,220, how far on this tank": (Odometer,),
    "lugs torqued, how we looking on weight": (Check,),
}


@pytest.mark.parametrize(("text", "kinds"), DONE.items())
def test_what_was_done_is_kept_before_it_is_asked_about(
    text: str, kinds: tuple[type[Entry], ...], reads: Reader
) -> None:
    verdict = reads(text, on_the_road())
    assert isinstance(verdict, Facts), verdict
    assert tuple(type(entry) for entry in verdict.entries) == kinds


@pytest.mark.parametrize(
    "text",
    [
        "with the camper hitched, what do we weigh",
        "once the camper is hitched, what do we weigh",
        "if we hitched the camper, what would we weigh",
        "when we hitched up, what did we weigh",
        "is the camper hitched, are we legal",
        "did we hitch the camper, what do we weigh",
    ],
)
def test_what_is_only_supposed_was_not_done(text: str, reads: Reader) -> None:
    assert isinstance(reads(text, on_the_road()), Question)


@pytest.mark.parametrize(
    "text",
    [
        "paid 450 for the couch, how much was yours",
        "he has 51,200 on it, what do you weigh",
        "their truck weighs 8,400, how much does ours weigh",
        "she eats 12 lb, what does yours weigh",
    ],
)
def test_figures_of_other_people_are_not_told(text: str, reads: Reader) -> None:
    assert reads(text, on_the_road()) == Silent()
