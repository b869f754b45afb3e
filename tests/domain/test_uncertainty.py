"""How far a figure can be trusted."""

from __future__ import annotations

from math import sqrt

import pytest
from scipy.stats import t as student_t

from domain.quantities import Quantity
from domain.uncertainty import (
    Scale,
    division_of,
    good_for,
    measured,
    spread,
    worth,
)

D = Quantity(20.0, "lb").amount("kg")


def test_a_figure_off_a_twenty_pound_scale_betrays_its_division() -> None:
    assert division_of([Quantity(5280, "lb"), Quantity(22060, "lb")]) == Quantity(20.0, "lb")
    assert division_of([Quantity(5280, "lb"), Quantity(5290, "lb")]) == Quantity(10.0, "lb")
    assert division_of([Quantity(5281, "lb")]) == Quantity(1.0, "lb")
    assert division_of([Quantity(5.55, "t"), Quantity(2150, "kg")]) == Quantity(10.0, "kg")
    assert division_of([Quantity(5.555, "t")]) == Quantity(5.0, "kg")


def test_two_passes_over_one_platform_share_its_error() -> None:
    """Each alone is good to its tolerance; the span cancels in the difference of equal loads."""
    scale = Scale(Quantity(20.0, "lb"))
    one, other = scale.reading("steer", 2400.0), scale.reading("steer", 2400.0)
    own = sqrt((D / 2) ** 2 / 3 + (D / 2) ** 2 / 3)
    assert (one - other).std_dev == pytest.approx(sqrt(2) * own)
    elsewhere = Scale(Quantity(20.0, "lb")).reading("steer", 2400.0)
    assert (one - elsewhere).std_dev == pytest.approx(sqrt(2) * sqrt(own**2 + D**2 / 3))


def test_a_reading_that_is_added_and_taken_away_leaves_no_error() -> None:
    steer = measured(2400.0, 5.0)
    drive = measured(3000.0, 5.0)
    assert ((steer + drive) - steer).std_dev == pytest.approx(5.0)


@pytest.mark.parametrize(
    ("uncertainty", "step"), [(0.4, 1), (2, 1), (12, 5), (33, 10), (80, 10), (120, 50), (450, 100)]
)
def test_a_figure_is_written_to_what_it_is_good_for(uncertainty: float, step: float) -> None:
    assert good_for(uncertainty) == step


def test_a_tongue_of_814_good_to_33_is_written_810() -> None:
    assert worth(814.0, 33.0) == 810.0
    assert spread(measured(814.0, 15.0)) == pytest.approx(33.0)


def test_a_stated_uncertainty_is_students_t_at_95_percent_for_eleven_degrees_of_freedom() -> None:
    """GUM G.4.2 (G.3), from memory: deviations known to about a fifth leave 1 / (2 x 0.21^2)."""
    assert spread(measured(0.0, 1.0)) == pytest.approx(student_t.ppf(0.975, 11), abs=0.005)
