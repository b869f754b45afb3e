"""Carbon dioxide against the factors that the EPA and the EIA publish."""

from __future__ import annotations

import pytest

from bot.reference import fuel_facts
from domain.quantities import Quantity

GALLON = Quantity(1, "gal").amount("L")


@pytest.mark.parametrize(
    ("product", "grams", "pounds"),
    [
        ("gasoline", 8887, 19.59),  # EPA-420-F-11-041, V
        ("diesel", 10180, 22.44),  # EPA-420-F-11-041, V
    ],
)
def test_a_gallon_gives_off_what_the_epa_says(product: str, grams: float, pounds: float) -> None:
    kilograms = fuel_facts().co2_kg(GALLON, product)
    assert kilograms == pytest.approx(grams / 1000)
    assert Quantity(grams / 1000, "kg").amount("lb") == pytest.approx(pounds, abs=0.01)


@pytest.mark.parametrize(
    ("product", "pounds", "within"),
    [
        ("gasoline", 19.60, 0.02),  # EIA coefficients of 2016, archived page, V
        ("diesel", 22.40, 0.05),  # the same, V; the EPA's own figure is 0.04 lb higher
        ("e10", 18.95, 0.005),  # EIA frequently asked question 307 of 2015, ethanol counted, V
        ("b20", 20.22, 0.005),  # the same, biodiesel counted, V
    ],
)
def test_the_factors_agree_with_those_of_the_energy_administration(
    product: str, pounds: float, within: float
) -> None:
    kilograms = fuel_facts().co2_kg(GALLON, product)
    assert kilograms is not None
    assert Quantity(kilograms, "kg").amount("lb") == pytest.approx(pounds, abs=within)


def test_a_fuel_without_a_published_factor_is_not_guessed() -> None:
    assert fuel_facts().co2_kg(100, "hydrogen") is None
    assert fuel_facts().co2_kg(100, None) is None
