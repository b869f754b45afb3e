"""Carbon dioxide from the fuel that was burnt.

This file decides nothing but a product: litres times the published grams of the fuel. The
factors are handed in with their source (`shared/reference/fuel.toml`).
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any

from domain.quantities import Quantity


@dataclass(frozen=True, slots=True)
class FuelFacts:
    """Kilograms of carbon dioxide a litre, by product."""

    co2: Mapping[str, float]

    def co2_kg(self, litres: float, product: str | None) -> float | None:
        """What burning so many litres gives off, in kg; None for a fuel without a factor."""
        factor = self.co2.get(product or "")
        return None if factor is None else litres * factor


def fuel_facts_from(table: Mapping[str, Any]) -> FuelFacts:
    """The factors from their table (grams a US gallon); raises KeyError where one lacks."""
    gallon = Quantity(1.0, "gal").amount("L")
    return FuelFacts(
        {product: row["grams_per_gallon"] / 1000 / gallon for product, row in table["co2"].items()}
    )
