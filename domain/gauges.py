"""Which of the gauges that were just read are worth a word of caution.

This file decides when a part is hot: above what people who tow take for hot, or one of several
alike far above the coolest; and when a tyre is soft: far below the hardest on the same axle, or
of the same trailer. It knows no maker's limit. Degrees Fahrenheit as in the table; readings may
have either unit.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Any

from domain.entries import Observation
from domain.quantities import Quantity

DEGREES = ("degF", "degC")


@dataclass(frozen=True, slots=True)
class GaugeTable:
    """Subject -> from which temperature it is hot, and how far above its likes (°F).

    `soft` is the share of its likes' pressure at or below which a tyre is soft.
    """

    hot: Mapping[str, float]
    apart: Mapping[str, float]
    soft: float


def gauge_table_from(table: Mapping[str, Any]) -> GaugeTable:
    """The table from its data; raises KeyError where a part is missing."""
    return GaugeTable(hot=table["hot"], apart=table["apart"], soft=table["soft"]["share"])


def hot(readings: Sequence[Observation], table: GaugeTable) -> tuple[Observation, ...]:
    """The readings that are hot, in order."""
    return tuple(each for each in readings if _is_hot(each, readings, table))


def _is_hot(reading: Observation, readings: Sequence[Observation], table: GaugeTable) -> bool:
    heat = _degrees(reading.value)
    if heat is None:
        return False
    alike = [_degrees(each.value) for each in readings if each.subject == reading.subject]
    coolest = min((each for each in alike if each is not None), default=heat)
    apart = table.apart.get(reading.subject, float("inf"))
    return heat >= table.hot.get(reading.subject, float("inf")) or heat - coolest >= apart


def _degrees(value: Quantity) -> float | None:
    return value.amount("degF") if value.unit in DEGREES else None


def soft(
    readings: Sequence[Observation], table: GaugeTable, before: Sequence[Observation] = ()
) -> tuple[Observation, ...]:
    """The tyres that are soft beside their likes, in order, those read shortly before included."""
    return tuple(each for each in readings if _is_soft(each, (*before, *readings), table))


def _is_soft(reading: Observation, readings: Sequence[Observation], table: GaugeTable) -> bool:
    pressure = _pressure(reading)
    alike = [
        other
        for each in readings
        if _stands_with(each) == _stands_with(reading) and (other := _pressure(each)) is not None
    ]
    return pressure is not None and pressure <= table.soft * max(alike)


def _pressure(reading: Observation) -> float | None:
    """In kPa; None for what is no tyre's."""
    pressed = reading.subject == "tyre" and reading.value.unit in PRESSURES
    return reading.value.amount("kPa") if pressed else None


def _stands_with(reading: Observation) -> str:
    """Which tyres want the same pressure: a trailer's all, a truck's by its axle, no spare."""
    said = (reading.position or "").split()
    return next((each for each in ("trailer", "front", "rear", "spare") if each in said), "")


PRESSURES = ("psi", "kPa", "bar")
