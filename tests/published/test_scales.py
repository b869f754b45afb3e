"""Scale tolerances held against NIST Handbook 44.

Table 6 of 2.20 (class III L, maintenance) was written down from memory, as the module that
carries it says; what was read in a reprint is that vehicle scales are class III L (2.20,
Table 7a) and that 20 lb divisions are the usual ones (a scale service page, 2022).
"""

from __future__ import annotations

import pytest

from domain.quantities import Quantity
from domain.uncertainty import Scale, spread, tolerance


@pytest.mark.parametrize(
    ("load", "allowed"),
    [(20, 20), (5_000, 20), (10_000, 20), (10_020, 40), (20_000, 40), (40_000, 80), (80_000, 160)],
)
def test_maintenance_tolerance_of_a_class_iii_l_scale_at_twenty_pounds(
    load: float, allowed: float
) -> None:
    """HB 44 2.20 Table 6, from memory: at d = 20 lb, 20 to 10,000 lb, then 40, 80, 160."""
    assert tolerance(load, 20.0) == allowed


def test_the_tolerance_is_wider_than_the_tenth_of_a_percent_that_trade_pages_quote() -> None:
    """A scale service page of 2022 quotes 0.1 % (25 lb at 25,000 lb); the table gives 60."""
    assert tolerance(25_000, 20.0) == 60


def test_four_readings_rounded_to_twenty_pounds_carry_twelve_by_root_sum_square() -> None:
    """Derived: 4 x (20 lb)^2 / 12, whose root is 11.5 lb; the tolerance comes on top."""
    scale = Scale(Quantity(20.0, "lb"))
    kilograms = [Quantity(load, "lb").amount("kg") for load in (5100, 4480, 4900, 3600)]
    hitched = scale.reading("steer", kilograms[0]) + scale.reading("drive", kilograms[1])
    alone = scale.reading("steer", kilograms[2]) + scale.reading("drive", kilograms[3])
    rounding = (4 * 20.0**2 / 12) ** 0.5
    stated = Quantity(spread(hitched - alone) / 2, "kg").amount("lb")
    assert rounding == pytest.approx(11.5, abs=0.1)
    assert rounding < stated < 2 * rounding
