"""Coupling values held against makers' pages on UN Regulation 55, whose text was not read."""

from __future__ import annotations

import pytest

from domain.bounds import margins
from domain.couplings import d_fifth_wheel, d_value, dc_value, v_value
from domain.entries import Rating
from domain.margins import Over, Unknown
from domain.passes import latest_session
from domain.quantities import Quantity
from domain.rig import rig_of
from domain.weighing import weights_of
from tests.domain.scale_house import Ticket


def test_the_published_d_value() -> None:
    """C01, an engineering reference page: 18 t and 22 t print 97 kN."""
    assert d_value(18, 22) == pytest.approx(97.1, abs=0.05)


@pytest.mark.parametrize(
    ("truck", "trailer", "kilonewtons"),
    [
        pytest.param(18, 14, 77.25, id="C02: inputs from a truck maker's glossary"),
        pytest.param(3.5, 3.5, 17.17, id="C04: the formula"),
    ],
)
def test_d_values_by_the_formula(truck: float, trailer: float, kilonewtons: float) -> None:
    assert d_value(truck, trailer) == pytest.approx(kilonewtons, abs=0.01)


def test_the_d_value_of_a_fifth_wheel() -> None:
    """C03: 0.6 g T R / (T + R - U) of 16, 16 and 8 t."""
    assert d_fifth_wheel(16, 16, 8) == pytest.approx(62.78, abs=0.01)


def test_a_centre_axle_trailer_counts_what_its_axles_carry() -> None:
    """Two makers' pages: Dc = g T C / (T + C); by hand for 3.5 t and 3.15 t."""
    assert dc_value(3.5, 3.15) == pytest.approx(9.81 * 3.5 * 3.15 / 6.65)


def test_the_v_value_with_its_floor() -> None:
    """C05 and C06, an engineering reference page on 94/20/EC: ratio 1, and floored at 1."""
    assert v_value(16, 6, 6, "air") == pytest.approx(28.8, abs=0.01)
    assert v_value(2, 3, 4, "other") == pytest.approx(4.8, abs=0.01)


def rated(d: float) -> Ticket:
    ratings = [
        Rating(subject="truck", rating="gvwr", value=Quantity(3500, "kg")),
        Rating(subject="trailer", rating="gvwr", value=Quantity(3500, "kg")),
        Rating(subject="coupler", rating="d", value=d),
    ]
    return Ticket(*ratings).hitched().weighs(truck=3100, trailer=3000, unit="kg")


@pytest.mark.parametrize(("stamped", "over"), [(17.1, True), (17.2, False)])
def test_a_stamped_d_value_is_held_against_the_rated_masses(stamped: float, over: bool) -> None:
    log = rated(stamped).log
    session = latest_session(log)
    assert session is not None
    found = margins(rig_of(log), weights_of(session), {})
    margin = next(each for each in found if each.limit.unit == "kN")
    assert not isinstance(margin, Unknown)
    assert isinstance(margin, Over) is over
    assert margin.load.nominal_value == pytest.approx(17.17, abs=0.01)
