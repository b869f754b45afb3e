"""Which temperatures are worth a word of caution."""

from __future__ import annotations

import pytest

from bot.reference import gauge_table
from domain.entries import Observation
from domain.gauges import hot, soft
from domain.quantities import Quantity


def read(subject: str, *values: float, unit: str = "degF") -> list[Observation]:
    return [Observation(subject=subject, value=Quantity(value, unit)) for value in values]


@pytest.mark.parametrize(
    ("readings", "which"),
    [
        (read("hub", 240), [240]),
        (read("hub", 116, unit="degC"), [116]),
        (read("hub", 112, 118, 170, 122), [170]),
        (read("hub", 112, 118, 140, 122), []),
        (read("transmission", 204), []),
        (read("transmission", 255), [255]),
        ([*read("hub", 110), *read("transmission", 190)], []),
        (read("tyre", 80, unit="psi"), []),
        (read("wind", 240, unit="mph"), []),
    ],
)
def test_what_is_hot_by_itself_or_beside_its_likes(
    readings: list[Observation], which: list[float]
) -> None:
    assert [each.value.value for each in hot(readings, gauge_table())] == which


def test_a_part_that_is_hot_is_hot_in_either_unit() -> None:
    (degrees,) = hot(read("coolant", 239), gauge_table())
    assert hot(read("coolant", degrees.value.amount("degC"), unit="degC"), gauge_table())


def tyres(**pressures: float) -> list[Observation]:
    return [
        Observation(subject="tyre", position=place.replace("_", " "), value=Quantity(value, "psi"))
        for place, value in pressures.items()
    ]


@pytest.mark.parametrize(
    ("readings", "which"),
    [
        (read("tyre", 80, 79, 80, 58, unit="psi"), [58]),
        (read("tyre", 80, 79, 80, 66, unit="psi"), []),
        (read("tyre", 58, unit="psi"), []),
        (read("tyre", 2.4, 2.5, 1.7, unit="bar"), [1.7]),
        (tyres(trailer_left_front=65, trailer_right_rear=48), [48]),
        # A truck's axles want pressures of their own, and a spare is no part of any.
        (tyres(left_front=55, right_front=56, left_rear=80, right_rear=79), []),
        (tyres(left_front=55, right_front=40, left_rear=80, right_rear=79), [40]),
        (tyres(left_rear=80, spare=50, trailer=50), []),
    ],
)
def test_a_tyre_is_soft_a_quarter_below_its_likes(
    readings: list[Observation], which: list[float]
) -> None:
    """49 CFR 571.138 S4.2 has a car warn at a quarter below its placard (from memory)."""
    assert [each.value.value for each in soft(readings, gauge_table())] == which
