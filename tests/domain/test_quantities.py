"""Quantities stay as stated until they are computed with, and convert there and back."""

from __future__ import annotations

from itertools import combinations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from bot.shared_data import read_toml
from domain.quantities import (
    DISTANCES,
    MASSES,
    PINT_NAMES,
    VOLUMES,
    MixedDimensions,
    Quantity,
    UnknownUnit,
    economy,
    economy_to,
    is_currency,
)

ECONOMIES = ("mi/gal", "mi/gal_imp", "km/L", "L/100km")
FIGURES = st.floats(min_value=0.01, max_value=1e7)


def alike(*families: tuple[str, ...]) -> st.SearchStrategy[tuple[str, str]]:
    return st.sampled_from([pair for family in families for pair in combinations(family, 2)])


@given(FIGURES, alike(MASSES, DISTANCES, VOLUMES, ("psi", "kPa", "bar"), ("degF", "degC")))
def test_a_figure_converted_and_back_is_the_figure(value: float, pair: tuple[str, str]) -> None:
    there, here = pair
    back = Quantity(value, there).to(here).to(there)
    assert back.unit == there
    assert back.value == pytest.approx(value, rel=1e-9, abs=1e-9)


def test_every_unit_that_people_text_converts() -> None:
    # A bare degree is of Fahrenheit or Celsius by its chat; a torque is in no entry.
    for unit in set(read_toml("phrasebook/en.toml")["unit"]) - {"degree", "lbf ft", "Nm"}:
        parts = [unit] if unit in PINT_NAMES else unit.replace("L/100km", "L/km").split("/")
        assert set(parts) <= set(PINT_NAMES), unit


def test_a_length_in_millimetres_is_one_in_metres() -> None:
    assert Quantity(4060, "mm").amount("m") == pytest.approx(4.06)
    assert Quantity(120, "cm").amount("m") == pytest.approx(1.2)


@given(FIGURES, st.sampled_from(sorted(PINT_NAMES)))
def test_a_figure_in_its_own_unit_is_left_untouched(value: float, unit: str) -> None:
    stated = Quantity(value, unit)
    assert stated.to(unit) is stated


@given(FIGURES, FIGURES, alike(MASSES))
def test_the_heavier_of_two_stays_the_heavier_in_any_unit(
    one: float, other: float, pair: tuple[str, str]
) -> None:
    light, heavy = sorted((one, other))
    there, here = pair
    assert Quantity(light, there).amount(here) <= Quantity(heavy, there).amount(here)


def test_both_ends_of_a_range_convert() -> None:
    cooled = Quantity(212, "degF", low=32).to("degC")
    assert cooled.value == pytest.approx(100)
    assert cooled.low == pytest.approx(0)


@pytest.mark.parametrize(
    ("stated", "unit"),
    [
        (Quantity(5280, "lb"), "mi"),
        (Quantity(31.4, "gal"), "lb"),
        (Quantity(195, "degF"), "psi"),
        (Quantity(62, "mph"), "km"),
    ],
)
def test_two_different_kinds_of_measure_never_convert(stated: Quantity, unit: str) -> None:
    with pytest.raises(MixedDimensions, match=f"{stated.unit} and {unit}"):
        stated.to(unit)


@pytest.mark.parametrize("unit", ["stone", "LB", "", "USD", "pounds"])
def test_a_unit_that_is_not_listed_is_named_in_the_error(unit: str) -> None:
    with pytest.raises(UnknownUnit, match=repr(unit)):
        Quantity(1, "kg").to(unit)
    with pytest.raises(UnknownUnit, match=repr(unit)):
        Quantity(1, unit).to("kg")


@given(
    st.floats(min_value=1, max_value=100),
    st.sampled_from([(one, other) for one in ECONOMIES for other in ECONOMIES]),
)
def test_an_economy_converted_and_back_is_the_economy(value: float, pair: tuple[str, str]) -> None:
    there, here = pair
    back = economy_to(economy_to(Quantity(value, there), here), there)
    assert back.unit == there
    assert back.value == pytest.approx(value, rel=1e-9)


def test_more_miles_a_gallon_are_fewer_litres_a_hundred() -> None:
    loaded, empty = Quantity(11.2, "mi/gal"), Quantity(19.6, "mi/gal")
    assert economy_to(loaded, "L/100km").value > economy_to(empty, "L/100km").value


def test_no_fuel_gives_no_economy() -> None:
    with pytest.raises(ZeroDivisionError):
        economy(Quantity(300, "mi"), Quantity(0, "gal"), "mi/gal")


def test_no_distance_gives_no_litres_a_hundred() -> None:
    with pytest.raises(ZeroDivisionError):
        economy(Quantity(0, "km"), Quantity(40, "L"), "L/100km")


@pytest.mark.parametrize("unit", ["gal/mi", "mi", "mi/lb", "L/100mi"])
def test_what_is_no_unit_of_economy_is_said_to_be_none(unit: str) -> None:
    with pytest.raises(UnknownUnit, match="not a unit of economy"):
        economy(Quantity(300, "mi"), Quantity(20, "gal"), unit)


@pytest.mark.parametrize(
    ("symbol", "currency"),
    [("USD", True), ("CAD", True), ("usd", False), ("US", False), ("$", False), ("gal", False)],
)
def test_a_currency_is_three_capitals(symbol: str, currency: bool) -> None:
    assert is_currency(symbol) is currency
