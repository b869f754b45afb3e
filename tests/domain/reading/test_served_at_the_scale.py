"""People in a message about a weighing: who let us weigh, who took the money, who stood ahead."""

from __future__ import annotations

from dataclasses import replace

import pytest

from domain.entries import Observation, Odometer, Rating, Weighing
from domain.quantities import Quantity
from domain.verdicts import Facts, Silent
from tests.domain.reading.chats import Reader, on_the_road
from tests.domain.scale_house import lb

LOADS = {"steer": lb(5_140), "drive": lb(6_620), "trailer": lb(9_310)}
WEIGHED = Weighing(loads=LOADS, rig="hitched")
ROW = "steer 5,140, drive 6,620, trailer 9,310"
BEHIND = "5,140 steer, 6,620 drive, 9,310 trailer"


@pytest.mark.parametrize(
    "text",
    [
        f"he let us roll on axle by axle: {ROW}",
        f"they made us go one axle at a time so {ROW}",
        f"they gave us {ROW}",
        f"the fella waved us on and it was {ROW}",
        f"they weighed us at {BEHIND}",
        f"stood ages behind a dude who lost his card but we got our weights, {BEHIND}",
        f"the lady in front dropped her phone, then we rolled on: {ROW}",
        f"waiting behind a cattle truck but we got it done, {BEHIND}",
        f"we're on the plates now and it reads {BEHIND}",
    ],
)
def test_people_beside_a_weighing_leave_it_ours(text: str, reads: Reader) -> None:
    assert reads(text, on_the_road()) == Facts((WEIGHED,))


def test_wheel_by_wheel_the_first_is_ours_too(reads: Reader) -> None:
    text = "they let us do every wheel so steer left 2,560, steer right 2,580"
    loads = {"steer_left": lb(2_560), "steer_right": lb(2_580)}
    assert reads(text, on_the_road()) == Facts((Weighing(loads=loads),))


@pytest.mark.parametrize(
    "text",
    [
        f"guy ahead of us weighed {BEHIND}, he was over",
        f"my brother's rig was {BEHIND}",
        f"his numbers were {BEHIND}",
        "heifers 620, steers 655, hauled them home",
        "dad gave me $60 for gas",
        "he let us have 30 gallons of honey",
        "they let us sleep in till 9",
    ],
)
def test_what_others_have_stays_theirs(text: str, reads: Reader) -> None:
    assert reads(text, on_the_road()) == Silent()


@pytest.mark.parametrize(
    "text",
    [
        f"the woman at the desk charged us $13, {ROW}",
        f"{ROW}, the lady wanted $13 for it",
        f"{ROW} and they wanted $13 for it",
        f"paid the lady $13, {ROW}",
        f"the kid in the booth took $13 off us. {ROW}",
    ],
)
def test_what_people_took_for_it_is_the_fee(text: str, reads: Reader) -> None:
    verdict = reads(text, on_the_road())
    assert isinstance(verdict, Facts), verdict
    (entry,) = verdict.entries
    assert isinstance(entry, Weighing)
    assert (entry.loads, entry.cost, entry.place) == (LOADS, Quantity(13, "USD"), None)


@pytest.mark.parametrize("text", [f"{ROW}, lunch was $13", f"{ROW}, he charged us $13 for pie"])
def test_what_something_else_cost_is_no_fee(text: str, reads: Reader) -> None:
    verdict = reads(text, on_the_road())
    assert isinstance(verdict, Facts), verdict
    (entry,) = verdict.entries
    assert isinstance(entry, Weighing)
    assert entry.cost is None


def test_a_truck_as_a_unit_is_the_truck(reads: Reader) -> None:
    text = "truck as a unit 11,760, trailer 9,310, whole shebang 21,070"
    loads = {"truck": lb(11_760), "trailer": lb(9_310), "gross": lb(21_070)}
    assert reads(text, on_the_road()) == Facts((Weighing(loads=loads, rig="hitched"),))


@pytest.mark.parametrize(
    "text",
    [
        "read the door sticker for you: gvwr 11,200, front gawr 5,400",
        "got you the truck's plate: GVWR 11,200, GAWR front 5,400",
        "door jamb says, for your records, gvwr 11,200, front gawr 5,400",
    ],
)
def test_what_is_handed_to_drawbar_is_ours(text: str, reads: Reader) -> None:
    verdict = reads(text, on_the_road())
    assert isinstance(verdict, Facts), verdict
    assert [(each.rating, each.value) for each in verdict.entries if isinstance(each, Rating)] == [
        ("gvwr", lb(11_200)),
        ("gawr_front", lb(5_400)),
    ]


def test_a_reading_is_handed_over_too(reads: Reader) -> None:
    reading = Odometer(odometer=Quantity(48_320, "mi"))
    assert reads("odo for you: 48,320", on_the_road()) == Facts((reading,))


@pytest.mark.parametrize("text", ["your gvwr is 11,200", "who told you: his gvwr is 11,200"])
def test_what_is_yours_is_not(text: str, reads: Reader) -> None:
    assert reads(text, on_the_road()) == Silent()


@pytest.mark.parametrize(
    "text",
    [
        "revs at 2,250",
        "revs at twenty two fifty",
        "rpm's at 2,250",
        "tach says 2,250",
        "engine's turning twenty two fifty",
        "turning 2,250 rpm on the grade",
    ],
)
def test_how_fast_the_engine_turns(text: str, reads: Reader) -> None:
    gauged = Observation(subject="engine_speed", value=Quantity(2_250, "rpm"))
    assert reads(text, on_the_road()) == Facts((gauged,))


@pytest.mark.parametrize("said", ["cost 14.50", "cost me 14.50", "$14.50", "paid 14.50"])
def test_what_the_weighing_cost(said: str, reads: Reader) -> None:
    paid = replace(WEIGHED, cost=Quantity(14.5, "USD"))
    assert reads(f"{ROW}, {said}", on_the_road()) == Facts((paid,))


@pytest.mark.parametrize(
    "said", ["lunch cost 14.50", "paid 14.50 for lunch", "paid 95 for fuel", "$95 diesel"]
)
def test_what_lunch_cost_is_no_fee(said: str, reads: Reader) -> None:
    read = reads(f"{ROW}, {said}", on_the_road())
    assert isinstance(read, Facts)
    assert [getattr(each, "cost", None) for each in read.entries] == [None]
