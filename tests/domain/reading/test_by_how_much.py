"""By how much something changed is no reading, and what else a gauge's words can be of."""

from __future__ import annotations

import pytest

from domain.entries import Check, Observation, Weighing
from domain.quantities import Quantity
from domain.verdicts import Facts, Silent
from tests.domain.reading.chats import Reader, on_the_road


@pytest.mark.parametrize(
    "text",
    [
        "left side tires running 12 degrees hotter than the right",
        "gained 20 degrees on the trans going up",
        "trans dropped 15 degrees after the crest",
        "coolant climbed 12 degrees",
        "left tires are 12 psi lower than the right",
        "averaged 11.9 towing into the wind",
        "passenger rear hub is running 40 hotter than the rest",
        "trans 30 above normal",
        "hubs within 10 degrees of each other",
        "tires down 5 psi from yesterday",
        "left front tire 10 psi low",
    ],
)
def test_a_difference_is_not_read_off_a_gauge(reads: Reader, text: str) -> None:
    assert reads(text, on_the_road()) == Silent()


@pytest.mark.parametrize(
    ("text", "value"),
    [
        ("trans climbed to 221", 221),
        ("trans 221, hotter than yesterday", 221),
        ("trans temp up 221 at the top", 221),
        ("oil went up to 230 degrees", 230),
    ],
)
def test_where_it_got_to_is(reads: Reader, text: str, value: float) -> None:
    read = reads(text, on_the_road())
    assert isinstance(read, Facts), read
    (entry,) = read.entries
    assert isinstance(entry, Observation)
    assert entry.value == Quantity(value, "degF")


@pytest.mark.parametrize(
    ("text", "item"),
    [
        ("trailer brakes grabbed on the hill", "trailer brakes"),
        ("brakes pulling to the right", "brakes"),
    ],
)
def test_what_brakes_did_wrong_is_a_fault(reads: Reader, text: str, item: str) -> None:
    assert reads(text, on_the_road()) == Facts((Check(item=item, state="fault"),))


@pytest.mark.parametrize("text", ["truck by itself 8,140 (4,740 front)", "solo 8,140, front 4,740"])
def test_a_truck_alone_and_one_of_its_axles(reads: Reader, text: str) -> None:
    read = reads(text, on_the_road())
    assert isinstance(read, Facts), read
    (entry,) = read.entries
    assert isinstance(entry, Weighing)
    assert entry.rig == "solo"
    assert entry.loads == {"steer": Quantity(4_740, "lb"), "gross": Quantity(8_140, "lb")}


@pytest.mark.parametrize(
    "text", ["60 lb under gvwr lol close", "300 over the gawr", "200 shy of gvwr"]
)
def test_how_far_from_a_limit_is_no_limit(reads: Reader, text: str) -> None:
    assert reads(text, on_the_road()) == Silent()


def test_what_no_axle_weighs_presses_in_its_tyres(reads: Reader) -> None:
    read = reads("fronts 62 rears 74", on_the_road())
    assert isinstance(read, Facts), read
    seen = [(each.position, each.value) for each in read.entries if isinstance(each, Observation)]
    assert seen == [("front", Quantity(62, "psi")), ("rear", Quantity(74, "psi"))]


def test_on_its_own_may_stand_behind_the_load(reads: Reader) -> None:
    read = reads("camper weighed in at 9,240 on its own", on_the_road())
    assert isinstance(read, Facts), read
    (entry,) = read.entries
    assert isinstance(entry, Weighing)
    assert (entry.rig, entry.loads) == ("trailer", {"gross": Quantity(9_240, "lb")})
