"""Tyres: what they carry by load index, and when they were made.

This file decides what a load index is worth on an axle and how a date code reads. The
load index table is handed in. It does not know which axle was weighed. Masses are in
kilograms.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date, timedelta

LoadIndex = Mapping[int, float]
"""Kilograms that one tyre carries, by load index (ISO 4000-1; UN Regulations 30 and 54)."""

CAR_TYRE_DIVISOR = 1.10
"""A car tyre on a truck or trailer carries its marked load over this (49 CFR 571.110, .120)."""

OLD_YEARS = 6
"""From this age tyres want an inspection whatever their tread; common practice, no source."""

DAYS_A_YEAR = 365.25


def tyre_load(table: LoadIndex, index: float) -> float | None:
    """What one tyre carries, in kg; None for an index that the table doesn't have."""
    return table.get(int(index)) if float(index).is_integer() else None


def axle_load(one_tyre: float, tyres: int, *, car_tyre: bool = False) -> float:
    """What the tyres of one axle carry together, in kg."""
    return one_tyre * tyres / (CAR_TYRE_DIVISOR if car_tyre else 1.0)


@dataclass(frozen=True, slots=True)
class Made:
    """The week in which a tyre was made; `week_of` is its first day, a Sunday."""

    week: int
    year: int

    @property
    def week_of(self) -> date:
        """The Sunday that begins it; week 1 is the first full week, Sunday to Saturday."""
        return _first_sunday(self.year) + timedelta(weeks=self.week - 1)

    def age(self, on: date) -> float:
        """Years from then to a day."""
        return (on - self.week_of).days / DAYS_A_YEAR


@dataclass(frozen=True, slots=True)
class Undated:
    """A code that tells no date, and why: `three digits`, `no such week`, `not a code`."""

    code: str
    why: str


def code_digits(stated: float) -> str:
    """A date code that was kept as a bare number, with its leading nought: `0301`."""
    return f"{int(stated):04d}"


def date_code(code: str, on: date) -> Made | Undated:
    """When a tyre was made, from the last four digits of its code: week, then year.

    49 CFR 574.5: 2501 is week 25 of 2001. Three digits are from before 2000 and leave the
    decade open. `on` is today, which settles the century.
    """
    digits = code.strip()
    if not digits.isdigit() or len(digits) not in (3, 4):
        return Undated(code, "not a code")
    if len(digits) == 3:
        return Undated(code, "three digits")
    week, short_year = int(digits[:2]), int(digits[2:])
    year = on.year - on.year % 100 + short_year
    if year > on.year:
        year -= 100
    if not 1 <= week <= 53 or Made(week, year).week_of > on:
        return Undated(code, "no such week")
    return Made(week, year)


def _first_sunday(year: int) -> date:
    first = date(year, 1, 1)
    # Monday is 0, so that a year that starts on a Sunday starts its first full week then.
    return first + timedelta(days=(6 - first.weekday()) % 7)
