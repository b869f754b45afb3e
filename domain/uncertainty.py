"""How far a figure can be trusted: the error of a scale, and how it spreads.

This file decides what a platform reading is good for, and how two readings off the same
platform hang together. A figure is a `Measured`: a nominal value and a standard
deviation that remembers where it came from, so that a difference of two sums which share
a reading does not count that reading's error twice. It does not know what is weighed.

The arithmetic is the `uncertainties` library's (first-order propagation, GUM 5.1 and 5.2).
Masses are in kilograms.
"""

from __future__ import annotations

from collections.abc import Iterable
from math import ceil, floor, log10, sqrt
from typing import Protocol, cast

from uncertainties import ufloat
from uncertainties.core import (
    AffineScalarFunc,
    LinearCombination,
)

from domain.quantities import Quantity

COVERAGE = 2.2
"""Standard deviations in a stated uncertainty: 95 % and a little more.

The deviations are themselves no better known than to a fifth (the tolerance table is from
memory, a person's weight a guess), which leaves about eleven degrees of freedom by GUM G.4.2,
(G.3), and Student's t of 2.2 at 95 % by its Table G.2; both from memory.
"""

USUAL_DIVISION = {"lb": 20.0, "ton": 20.0, "kg": 10.0, "t": 10.0}
"""Division of a platform scale that states none: 20 lb (trade pages), 10 kg beside it."""

FINER_DIVISIONS = (10.0, 5.0, 2.0, 1.0)
"""Divisions that HB 44 allows below the usual one, coarsest first, in lb or kg."""


class Measured(Protocol):
    """A figure with its uncertainty, in the units of whoever made it.

    Sums, differences, products and quotients keep the correlation between their parts.
    """

    @property
    def nominal_value(self) -> float:
        """The best estimate."""
        ...

    @property
    def std_dev(self) -> float:
        """One standard deviation."""
        ...

    def __add__(self, other: Measured | float, /) -> Measured: ...
    def __radd__(self, other: float, /) -> Measured: ...
    def __sub__(self, other: Measured | float, /) -> Measured: ...
    def __rsub__(self, other: float, /) -> Measured: ...
    def __mul__(self, other: Measured | float, /) -> Measured: ...
    def __rmul__(self, other: float, /) -> Measured: ...
    def __truediv__(self, other: Measured | float, /) -> Measured: ...
    def __neg__(self) -> Measured: ...


def measured(value: float, deviation: float) -> Measured:
    """A figure with its own, independent standard deviation, in the same unit."""
    return cast(Measured, ufloat(value, deviation)) if deviation else exact(value)


def exact(value: float) -> Measured:
    """A figure that is taken as it stands: a rating, a stated lever arm."""
    return cast(Measured, AffineScalarFunc(value, LinearCombination({})))


def spread(figure: Measured) -> float:
    """Half-width of the interval that holds the true value about 95 times in a hundred."""
    return COVERAGE * figure.std_dev


def evenly(half_width: float) -> float:
    """Standard deviation of an error that is anywhere within ± half_width (GUM 4.3.7)."""
    return half_width / sqrt(3)


def tolerance(load: float, division: float) -> float:
    """Maintenance tolerance of a class III L scale at a load, in the load's own unit.

    NIST Handbook 44, 2.20 Table 6: one division up to 500 divisions, two up to 1,000, then
    one more for each further 500 or part. The table was written down from memory and wants
    a look at the handbook before anything but a caution rests on it.
    """
    return max(1, ceil(round(abs(load) / division, 6) / 500)) * division


def division_of(readings: Iterable[Quantity]) -> Quantity:
    """The division that a scale's figures betray: the usual one, or a finer that fits all."""
    figures = tuple(readings)
    unit = "lb" if all(each.unit in ("lb", "ton") for each in figures) else "kg"
    values = [each.amount(unit) for each in figures if each.unit in USUAL_DIVISION]
    for division in (USUAL_DIVISION[unit], *FINER_DIVISIONS):
        if all(abs(value / division - round(value / division)) < 1e-6 for value in values):
            return Quantity(division, unit)
    return Quantity(FINER_DIVISIONS[-1], unit)


class Scale:
    """One scale during one weighing session, and the errors that its readings share.

    Each platform (steer, drive, trailer) may read high or low by up to its tolerance, and
    does so alike in every pass; that error is proportional to the load. Beside it every
    reading has an error of its own: repeat weighings of one load agree within the tolerance
    (HB 44 2.20 T.N.5, from memory), and the last digit is rounded to the division.
    """

    def __init__(self, division: Quantity) -> None:
        self._division = division.amount("kg")
        self._spans: dict[str, Measured] = {}

    def reading(self, platform: str, load: float) -> Measured:
        """What the platform's figure, in kg, is worth."""
        allowed = tolerance(load, self._division)
        own = sqrt(evenly(allowed / 2) ** 2 + evenly(self._division / 2) ** 2)
        if platform not in self._spans:
            self._spans[platform] = measured(0.0, evenly(allowed) / abs(load) if load else 0.0)
        return measured(load, own) + load * self._spans[platform]


def good_for(uncertainty: float) -> float:
    """The step to which a figure with this uncertainty is worth writing: 1, 5, 10, 50 ...

    Common practice, no source: the largest such step that is no wider than half the
    uncertainty, and never finer than one.
    """
    if uncertainty <= 2:
        return 1.0
    half = uncertainty / 2
    decade = 10.0 ** floor(log10(half))
    return max(1.0, 5 * decade if half >= 5 * decade else decade)


def worth(value: float, uncertainty: float) -> float:
    """A figure rounded to what it is good for."""
    step = good_for(uncertainty)
    return round(value / step) * step
