"""Whether the log says that the rig is on the move."""

from __future__ import annotations

from datetime import UTC, datetime, timedelta

import pytest

from domain.entries import Cargo, Entry, Fill, Odometer, Weighing
from domain.log import Log, Logged
from domain.motion import LONGEST_LEG, is_moving, is_stop
from domain.quantities import Quantity

NOON = datetime(2026, 7, 11, 12, tzinfo=UTC)
LEFT = Odometer(odometer=Quantity(48011, "mi"), event="depart")
THERE = Odometer(odometer=Quantity(48111, "mi"), event="arrive")
PASSED = Odometer(odometer=Quantity(48050, "mi"))
FUEL = Fill(volume=Quantity(31.4, "gal"))
SCALE = Weighing(loads={"gross": Quantity(19460, "lb")})


def log(*entries: Entry) -> Log:
    return Log(
        Logged(entry=each, at=NOON + timedelta(minutes=number), key=number)
        for number, each in enumerate(entries)
    )


@pytest.mark.parametrize(
    ("entries", "moving"),
    [
        ((), False),
        ((PASSED,), False),
        ((LEFT,), True),
        ((LEFT, PASSED), True),
        ((LEFT, THERE), False),
        ((LEFT, FUEL), False),
        ((LEFT, SCALE), False),
        ((FUEL, LEFT), True),
        ((LEFT, FUEL, LEFT), True),
    ],
)
def test_it_moves_from_leaving_to_the_next_stop(entries: tuple[Entry, ...], moving: bool) -> None:
    assert is_moving(log(*entries), NOON + timedelta(hours=1)) is moving


def test_nobody_drives_for_ever() -> None:
    assert is_moving(log(LEFT), NOON + LONGEST_LEG)
    assert not is_moving(log(LEFT), NOON + LONGEST_LEG + timedelta(seconds=1))


def test_what_comes_later_does_not_count() -> None:
    assert is_moving(log(LEFT, THERE), NOON)


@pytest.mark.parametrize(
    ("entry", "stop"), [(FUEL, True), (SCALE, True), (THERE, True), (LEFT, False), (PASSED, False)]
)
def test_a_stop_is_what_is_done_standing(entry: Entry, stop: bool) -> None:
    hay = Cargo(item="hay", value=Quantity(600, "lb"))
    assert is_stop((hay, entry)) is stop
