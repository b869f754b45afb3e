"""Whether a label can name a figure.

This file decides by dimension and size: 'on the climb' is no label for 195, and a tank is not
named by a mass. Which of several fitting labels is meant is decided in `pairing`.
"""

from __future__ import annotations

from domain.reading.figures import (
    DISTANCE,
    ECONOMY,
    LENGTH,
    MASS,
    MONEY,
    PRESSURE,
    ROTATION,
    SHARE,
    SPEED,
    TEMPERATURE,
    VOLUME,
    Figure,
)
from domain.reading.label import Label
from domain.reading.tokens import CENTS

PLACE_DIMENSIONS = (None, MASS)
_PLACE_OR_GAUGE_DIMENSIONS = (*PLACE_DIMENSIONS, PRESSURE, TEMPERATURE)


_FIELD_DIMENSIONS: dict[str, tuple[str | None, ...]] = {
    "odometer": (None, DISTANCE),
    "trip_meter": (None, DISTANCE),
    "dash": (None, ECONOMY),
    "ticket": (None,),
    "fee": (None, MONEY),
}


SUBJECT_DIMENSIONS: dict[str, tuple[str | None, ...]] = {
    "transmission": (None, TEMPERATURE),
    "coolant": (None, TEMPERATURE),
    "oil": (None, TEMPERATURE, PRESSURE),
    "exhaust": (None, TEMPERATURE),
    "hub": (None, TEMPERATURE),
    "ambient": (None, TEMPERATURE),
    "tyre": (None, PRESSURE, TEMPERATURE),
    "speed": (None, SPEED),
    "engine_speed": (None, ROTATION),
    "grade": (None, SHARE),
    "wind": (None, SPEED),
}


_RATING_DIMENSIONS: dict[str, tuple[str | None, ...]] = {
    "tank": (None, VOLUME),
    "load_index": (None,),
    "pressure": (None, PRESSURE),
    "d_value": (None, "force"),
    "wheelbase": (None, LENGTH),
    "overhang": (None, LENGTH),
    "coupler_to_axle": (None, LENGTH),
    "deck": (LENGTH,),
    "date_code": (None,),
}


def fits(label: Label, figure: Figure, gauge: str | None = None) -> bool:
    """Whether a label can name a figure of that dimension; `gauge` is a subject said before."""
    dimension = figure.dimension
    if dimension is None and not _sized(label, figure):
        return False
    if label.aside and label.only_vehicle:
        return False
    if label.rating:
        return dimension in _RATING_DIMENSIONS.get(label.rating, PLACE_DIMENSIONS)
    if label.field:
        return dimension in _FIELD_DIMENSIONS[label.field]
    subject = label.subject
    if subject is None and gauge is not None and label.places and not label.whole:
        subject = gauge
    if label.subject == "tyre" and dimension == MASS:
        return True
    if subject:
        return dimension in SUBJECT_DIMENSIONS[subject] or (
            not label.subject and dimension in (MASS, PRESSURE)
        )
    if label.whole == "gross" and dimension in (MONEY, VOLUME):
        return dimension == MONEY
    if label.places:
        return dimension in _PLACE_OR_GAUGE_DIMENSIONS
    return label.rating_subject is not None and dimension in PLACE_DIMENSIONS


MOST_DEGREES = 9_999
"""More than a slip of a digit makes of what a gauge shows: beside it, another figure is meant."""


BARE_SIZE = {
    "fee": (0, 500),
    "grade": (0, 40),
    "wind": (10, 150),
    "speed": (0, 130),
    "tyre": (10, 1200),
    "engine_speed": (400, 6000),
    "dash": (1, 80),
    "odometer": (100, 2_000_000),
    "load_index": (50, 180),
    "date_code": (100, 5399),
    "transmission": (0, MOST_DEGREES),
    "coolant": (0, MOST_DEGREES),
    "oil": (0, MOST_DEGREES),
    "exhaust": (0, MOST_DEGREES),
    "hub": (0, MOST_DEGREES),
    "ambient": (0, MOST_DEGREES),
    "tongue": (40, 20_000),
}
"""What a label without a unit can name at all: 'on the climb' is no label for 195."""


def _sized(label: Label, figure: Figure) -> bool:
    key = label.rating or label.field or label.subject or label.whole
    if key == "tongue" and label.rating:
        return True
    if key not in BARE_SIZE:
        return True
    low, high = BARE_SIZE[key]
    if key == "odometer" and figure.token.decimals == CENTS:
        return False  # '100.29, odo 51,488 mi': a sum of money, and no reading
    return low <= figure.value <= high
