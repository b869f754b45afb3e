"""General extractors of quantities, to measure the reader against on the same messages.

They find figures and units in any text and know nothing of trucks; what a figure is of is not
asked of them. Both are optional (the `bench` extra), and are absent from the figures where they
are not installed. Their names for units are put into the symbols of the `read` contract here.
"""

from __future__ import annotations

import importlib
from collections.abc import Callable, Iterator
from typing import Any

Found = set[tuple[float, str]]
"""Figures with the symbol of their unit, or with '' where it has none that we know."""

Extractor = Callable[[str], Found]

QUANTULUM = {
    "pound-mass": "lb", "kilogram": "kg", "tonne": "t", "ton": "ton", "mile": "mi",
    "kilometre": "km", "gallon": "gal", "litre": "L", "degree fahrenheit": "degF",
    "degree celsius": "degC", "pound per square inch": "psi", "kilopascal": "kPa",
    "mile per hour": "mph", "kilometre per hour": "km/h", "revolutions per minute": "rpm",
    "foot": "ft", "inch": "in", "metre": "m", "hour": "h", "percentage": "%", "dollar": "USD",
    "pound sterling": "GBP", "euro": "EUR", "dollar per gallon": "USD/gal",
}  # fmt: skip

RECOGNIZERS = {
    "Pound": "lb", "Kilogram": "kg", "Metric ton": "t", "Ton": "ton", "Mile": "mi",
    "Kilometer": "km", "Gallon": "gal", "Liter": "L", "F": "degF", "C": "degC",
    "Pound per square inch": "psi", "Kilopascal": "kPa", "Mile per hour": "mph",
    "Kilometer per hour": "km/h", "Foot": "ft", "Inch": "in", "Meter": "m", "Dollar": "USD",
    "British pound": "GBP", "Euro": "EUR",
}  # fmt: skip


def installed() -> Iterator[tuple[str, Extractor]]:
    """Each extractor that is installed, by name, ready to run."""
    for name, load in (("quantulum3", _quantulum), ("recognizers-text", _recognizers)):
        try:
            yield name, load()
        except ImportError:
            continue


def _quantulum() -> Extractor:
    parser: Any = importlib.import_module("quantulum3.parser")

    def extract(text: str) -> Found:
        return {
            (float(each.value), QUANTULUM.get(each.unit.name, "")) for each in parser.parse(text)
        }

    return extract


def _recognizers() -> Extractor:
    # The release that installs today calls its modules by other names than its documents do.
    units: Any = importlib.import_module("ms_recognizers_number_with_unit")
    numbers: Any = importlib.import_module("ms_recognizers_number")
    recognize = (
        units.recognize_dimension,
        units.recognize_currency,
        units.recognize_temperature,
        numbers.recognize_number,
    )

    def extract(text: str) -> Found:
        found: Found = set()
        for each in recognize:
            for model in each(text, "en-us"):
                value = model.resolution.get("value")
                if value is not None:
                    unit = RECOGNIZERS.get(model.resolution.get("unit", ""), "")
                    found.add((float(value), unit))
        return found

    return extract
