"""Who rode along, and that a name in such a list is no place."""

from __future__ import annotations

import pytest

from domain.entries import Weighing
from domain.verdicts import Facts
from tests.domain.reading.chats import Reader, on_the_road
from tests.domain.reading.test_told_at_the_scale import told

LOADS = "5,140 6,620 8,880 gross 20,640"


@pytest.mark.parametrize(
    ("said", "aboard"),
    [
        ("me, Odile and the two little ones:", 4),
        ("me and Odile,", 2),
        ("just me n Odile.", 2),
        ("Odile and me.", 2),
        ("me, the missus and a kid:", 3),
        ("with me, Odile, Piet and 2 kids in the cab.", 5),
        ("Odile and two little ones aboard.", 3),
        ("2 kids and me,", 3),
        ("me and the kids.", None),
        ("bars on, 2 in cab,", 2),
        ("half tank, 2 guys in it,", 2),
        ("three lads in her.", 3),
        ("me and the lad in it,", 2),
        ("driver and two guys in the truck,", 3),
        ("driver plus a passenger,", 2),
        ("driver and wife, 2 in the truck,", 2),
        ("2 guys ahead of us,", None),
        ("2 boxes in it,", None),
    ],
)
def test_a_list_of_people_is_counted(said: str, aboard: int | None, reads: Reader) -> None:
    verdict = reads(f"{said} {LOADS}", on_the_road())
    assert isinstance(verdict, Facts)
    (weighing,) = verdict.entries
    assert isinstance(weighing, Weighing)
    assert (weighing.aboard, weighing.place) == (aboard, None)


@pytest.mark.parametrize("said", ["Elk Fork, 4 of us and the dog:", "Elk Fork, 4 people."])
def test_a_place_beside_a_count_stays_a_place(said: str, reads: Reader) -> None:
    verdict = reads(f"{said} {LOADS}", on_the_road())
    assert isinstance(verdict, Facts)
    (weighing,) = verdict.entries
    assert isinstance(weighing, Weighing)
    assert (weighing.aboard, weighing.place) == (4, "Elk Fork")


@pytest.mark.parametrize(
    ("said", "level"),
    [
        ("3/8 of the tank,", 0.375),
        ("7/8 of a tank:", 0.875),
        ("gauge reads 1/4,", 0.25),
        ("needle sat on 7/8:", 0.875),
        ("1/2 on the gauge,", 0.5),
        ("with five eighths in the tank:", 0.625),
    ],
)
def test_a_fraction_of_a_tank_is_no_date(said: str, level: float, reads: Reader) -> None:
    verdict = reads(f"{said} {LOADS}", on_the_road())
    assert isinstance(verdict, Facts)
    (weighing,) = verdict.entries
    assert isinstance(weighing, Weighing)
    assert (weighing.fuel_level, weighing.at) == (level, None)


def test_a_day_is_no_level_where_no_gauge_shows_it(reads: Reader) -> None:
    verdict = reads(f"scaled on 3/4: {LOADS}", on_the_road())
    assert isinstance(verdict, Facts)
    (weighing,) = verdict.entries
    assert isinstance(weighing, Weighing)
    assert weighing.fuel_level is None
    assert weighing.at is not None


@pytest.mark.parametrize(
    ("text", "entries"),
    [
        ("steer 5,280, drive 4,140. One aboard.", ["weighing aboard=1 drive=4140 steer=5280"]),
        ("the one aboard, steer 5,280 drive 4,140", ["weighing drive=4140 steer=5280"]),
    ],
)
def test_one_aboard_is_counted(text: str, entries: list[str], reads: Reader) -> None:
    assert told(reads, text) == entries
