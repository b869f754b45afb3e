"""Which of the temperatures that were just read are hot.

This file decides when a gauge is worth a word of caution: above what people who tow take for
hot, or one of several alike far above the coolest. It knows no maker's limit. Degrees Fahrenheit
as in the table; readings may have either unit.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Any

from domain.entries import Observation
from domain.quantities import Quantity

DEGREES = ("degF", "degC")


@dataclass(frozen=True, slots=True)
class HeatTable:
    """Subject -> from which temperature it is hot, and how far above its likes (°F)."""

    hot: Mapping[str, float]
    apart: Mapping[str, float]


def heat_table_from(table: Mapping[str, Any]) -> HeatTable:
    """The table from its data; raises KeyError where a part is missing."""
    return HeatTable(hot=table["hot"], apart=table["apart"])


def hot(readings: Sequence[Observation], table: HeatTable) -> tuple[Observation, ...]:
    """The readings that are hot, in order."""
    return tuple(each for each in readings if _is_hot(each, readings, table))


def _is_hot(reading: Observation, readings: Sequence[Observation], table: HeatTable) -> bool:
    heat = _degrees(reading.value)
    if heat is None:
        return False
    alike = [_degrees(each.value) for each in readings if each.subject == reading.subject]
    coolest = min((each for each in alike if each is not None), default=heat)
    apart = table.apart.get(reading.subject, float("inf"))
    return heat >= table.hot.get(reading.subject, float("inf")) or heat - coolest >= apart


def _degrees(value: Quantity) -> float | None:
    return value.amount("degF") if value.unit in DEGREES else None
