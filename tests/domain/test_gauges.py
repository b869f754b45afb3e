"""Which temperatures are worth a word of caution."""

from __future__ import annotations

import pytest

from bot.reference import heat_table
from domain.entries import Observation
from domain.gauges import hot
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
    assert [each.value.value for each in hot(readings, heat_table())] == which


def test_a_part_that_is_hot_is_hot_in_either_unit() -> None:
    (degrees,) = hot(read("coolant", 239), heat_table())
    assert hot(read("coolant", degrees.value.amount("degC"), unit="degC"), heat_table())
