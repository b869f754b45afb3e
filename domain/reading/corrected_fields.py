"""The field that a correction names, and the figure as a value of that field.

This file decides which field of the log a label, a unit or a word stands for, whether a figure
can be of it, and in what unit it is meant where none was said.
"""

from __future__ import annotations

from itertools import pairwise

from domain.context import MASS_UNIT, TEMPERATURE_UNIT, VOLUME_UNIT, Context
from domain.quantities import Quantity
from domain.reading.dearest_fuel import dearest
from domain.reading.figures import (
    DISTANCE,
    LENGTH,
    MONEY,
    PRESSURE,
    PRICE,
    TEMPERATURE,
    TONS,
    VOLUME,
    Figure,
)
from domain.reading.fill_roles import LARGEST_TANK, SMALL_TANK
from domain.reading.label import Label
from domain.reading.scene import Scene
from domain.reading.tokens import WORD

FIELD_OF_CLASS = (
    ("odometer", "odometer"),
    ("trip_meter", "distance"),
    ("ticket", "ticket"),
    ("fee", "cost"),
    ("dash", "dash_economy"),
)


UNIT_FIELDS = {"gal": "volume", "L": "volume", "gal_imp": "volume"}


FIELD_DIMENSIONS = {
    "volume": (VOLUME,),
    "odometer": (DISTANCE,),
    "distance": (DISTANCE,),
    "tyre": (PRESSURE, TEMPERATURE),
    "unit_price": (PRICE, MONEY),
    "cost": (MONEY,),
}


TEMPERATURE_FIELDS = frozenset(("transmission", "coolant", "oil", "exhaust", "hub", "ambient"))


FORECAST = frozenset(("wind", "speed", "ambient"))
"""Fields of which 'should be' is said ahead: 'wind should be 15 mph'."""

LEAST_ODOMETER, LEAST_LOAD = 100, 20
LEAST_IN_KG = 40
"""A load of less, with decimals, in a chat that weighs in kilograms, is in tonnes."""


MOST_POURED = 1_000
"""Gallons or litres: no pickup's tanks take as much."""

GAUGED = TEMPERATURE_FIELDS | {"tyre", "wind", "speed"}
MOST_SHOWN = 2_500
"""Degrees, psi or kPa: no gauge of a rig shows as much."""


def fits_field(context: Context, value: Figure, field: str) -> bool:
    """Whether the figure can be of the field: a tyre is not 20 ft, a litre does not cost $99."""
    if field == "place" or (field == "ticket" and value.dimension is not None):
        return False
    if field == "odometer" and value.value < LEAST_ODOMETER:
        return False
    if field == "unit_price" and _price(value) > dearest(context.currency):
        return False
    if field == "volume" and value.value > MOST_POURED:
        return False  # 'swapped the fuel filter 51,300'
    if field in GAUGED and value.value > MOST_SHOWN:
        return False  # 'change the oil at 52,000'
    if value.dimension is None:
        few = value.token.decimals == 0 and value.value < LEAST_LOAD
        return not (few and field in MASS_FIELDS)  # 'make it to the trailer by 6'
    if field in TEMPERATURE_FIELDS:
        return value.dimension == TEMPERATURE
    if field in FIELD_DIMENSIONS:
        return value.dimension in FIELD_DIMENSIONS[field]
    return value.dimension not in (LENGTH, VOLUME, DISTANCE) or field in ("wind", "speed", "tank")


def field_of(scene: Scene, figure: Figure) -> str | None:
    """The field that a figure is meant for, by label, unit or a word for it; None if unsaid."""
    said = _field_said(scene, figure)
    cents = figure.token.decimals == PENNIES and figure.unit not in TONS
    money = figure.dimension == MONEY or cents
    if said == "cost" and figure.dimension is None and figure.value > MOST_FEE:
        return "ticket" if scene.has("fee") else said  # 'that ticket was 4471 not 4417'
    if said == "volume" and figure.dimension is None and _is_pumps_price(scene, figure):
        return "unit_price"  # 'I said diesel was 3.899'
    if said in ("volume", None) and "product" in scene.by_class:
        said = _field_of_product(scene, figure) or said
    if said in WHEELS and figure.dimension is None and LEAST_PSI <= figure.value <= MOST_PSI:
        return "tyre"  # 'left rear was 75 not 57'
    if said == "odometer" and _is_of_trip(scene, figure):
        return "distance"
    if said is None and figure.dimension == MONEY and scene.has("fuel_cue"):
        return "cost"  # 'fuel came to $142.30'
    return "cost" if said == "gross" and money else said  # 'total was 118.20'


def _field_of_product(scene: Scene, figure: Figure) -> str | None:
    """'diesel was 91.40 not 94.10', 'the def was 14.99': what it cost, by its cents.

    So much is no volume that fits into the tank.
    """
    index, _, product = next(scene.find("product"))
    if figure.dimension is not None or index > FIRST or figure.token.decimals == 0:
        return None
    unit = VOLUME_UNIT[scene.context.units]
    tank = scene.context.tank.amount(unit) if scene.context.tank else LARGEST_TANK[unit]
    most = LARGEST_TANK[unit] * SMALL_TANK if product.startswith("def") else tank
    if figure.token.decimals == PENNIES and figure.value > most:
        return "cost"
    return "volume" if figure.value <= most else None


FIRST = 1
"""The token at which a product stands that a correction names, or before: 'the def was ...'."""

PENNIES = 2
"""Decimals of what was paid."""

WHEELS = frozenset(("steer_left", "steer_right", "drive_left", "drive_right"))
LEAST_PSI, MOST_PSI = 20, 150
"""What a tyre of a pickup holds in psi; no wheel of it carries as little in pounds."""


def _is_pumps_price(scene: Scene, figure: Figure) -> bool:
    """Three decimals, of so little that it is what a litre or a gallon costs."""
    return figure.token.decimals == PUMPS and figure.value <= dearest(scene.context.currency)


def _is_of_trip(scene: Scene, figure: Figure) -> bool:
    """'make that 312 miles': too few for the odometer that is known, so the trip meter's."""
    known = scene.context.odometer
    if known is None or "odometer" in scene.by_class or figure.dimension != DISTANCE:
        return False
    return figure.value * LEAST_TURNS < known.value


LEAST_TURNS = 3
"""An odometer that is known to have turned so many times a distance does not show it."""

PUMPS = 3
"""Decimals of a price on a pump."""


MOST_FEE = 500
"""No weighing costs more in dollars, pounds or euros; common practice, no source."""


PRESSURES = ("psi", "kPa", "bar")


def _field_said(scene: Scene, figure: Figure) -> str | None:
    pressed = figure.dimension == PRESSURE or (
        figure.dimension is None and any(scene.has("unit", unit) for unit in PRESSURES)
    )
    if pressed and not scene.has("subject"):
        return "tyre"  # 'left rear should be 72 psi' is no load
    if figure.dimension != MONEY and (scene.has("ticket") or scene.has("fee")):
        read_off = _read_off(scene, figure)
        if read_off is not None:
            return read_off
    label = figure.label
    if isinstance(label, Label) and scene.sentence_of(label.start) == scene.sentence_of(
        figure.start
    ):
        named = field_of_label(label)
        if named:
            return named
    if figure.dimension == VOLUME:
        return "volume"
    if figure.dimension == PRICE:
        return "unit_price"
    for index, token in enumerate(scene.tokens):
        named = scene.book.keys["corrected_field"].get(token.text) if token.kind is WORD else None
        if named is not None and fits_field(scene.context, figure, named):
            return named  # and 'fuel cost was $122' is no volume
        unit = token.senses.get("unit")
        if unit in UNIT_FIELDS and index < figure.start:
            return UNIT_FIELDS[unit]
        for term_class, field in FIELD_OF_CLASS:
            if term_class in token.senses:
                return (_wrong_on(scene, index) if field == "ticket" else None) or field
    for other in scene.labels:
        if other.end <= figure.start:
            named = field_of_label(other)
            if named:
                return named
    return None


def _wrong_on(scene: Scene, document: int) -> str | None:
    """'gross is wrong on that ticket. 24,210': the field that a sentence finds wrong on paper."""
    start, _ = scene.sentence_of(document)
    for label in scene.labels:
        between = scene.tokens[label.end : document]
        if start <= label.start and any("found_wrong" in token.groups for token in between):
            return field_of_label(label)
    return None


def _read_off(scene: Scene, figure: Figure) -> str | None:
    """'steer on that ticket was 5,240': the ticket is named for what was read off it."""
    start, _ = scene.sentence_of(figure.start)
    told = _told_by_document(scene, figure, start)
    if told is not None:
        return told
    documents = {*scene.by_class.get("ticket", ()), *scene.by_class.get("fee", ())}
    if figure.end + 1 in documents and "read_off" in scene.tokens[figure.end].groups:
        ahead = [each for each in scene.labels if start <= each.start < each.end <= figure.start]
        return field_of_label(ahead[-1]) if ahead else None  # 'steer is 5,020 on the slip'
    document = next((at for at in sorted(documents) if start < at < figure.start), None)
    if document is None:
        return None
    for label in scene.labels:
        inside = start <= label.start < label.end < document
        led = label.end + (inside and "weigh_cue" in scene.tokens[label.end].senses)
        if inside and "read_off" in scene.tokens[led].groups:  # 'the trailer weight on that ticket'
            return field_of_label(label)
    for token in scene.tokens[start:document]:
        named, _, leads = token.text.partition(" ")
        if "rig" in token.senses and leads in scene.book.groups["read_off"]:
            return scene.book.words.get(named, {}).get("vehicle")  # 'trailer on that slip'
    return None


def _told_by_document(scene: Scene, figure: Figure, start: int) -> str | None:
    """'gross was wrong, ticket says 22,140': the field is named before what tells its figure."""
    says = any("document_says" in token.groups for token in scene.tokens[start : figure.start])
    for label in scene.labels if says else ():
        tells = scene.tokens[label.end : label.end + 1]
        if label.end > figure.start or any("document_says" in token.groups for token in tells):
            return None
        named = field_of_label(label) if start <= label.start and not label.field else None
        if named is not None:
            return named
    return None


def field_of_label(label: Label) -> str | None:
    """The field of the log that a label stands for."""
    if label.rating:
        return label.rating
    if label.field:
        return dict(FIELD_OF_CLASS)[label.field]
    if label.whole in ("gross", "tongue"):
        return label.whole
    if label.subject:
        return label.subject
    base: str | None = label.axle
    if base is None and label.vehicle == "trailer":
        base = "trailer"
        if label.ordinal:
            base = f"trailer_{label.ordinal}"
    if base is None and label.end_of:
        base = "steer" if label.end_of == "front" else "drive"
    if base is None and label.vehicle == "truck":
        base = "truck"
    if base and label.side:
        return f"{base}_{label.side}"
    return base


def value_of(context: Context, figure: Figure, field: str | None) -> Quantity | float:
    """The figure as a value of the field, in the unit meant; a number where it has none."""
    unit = _unit(context, figure, field)
    if field == "unit_price" and unit:
        return Quantity(_price(figure), unit)
    if unit is None:
        whole = figure.value.is_integer()
        return int(figure.value) if whole else figure.value
    return Quantity(figure.value, unit)


CENTS = (50, 500)
"""What a litre or a gallon costs in cents, as its tenth is put up: '189.9'."""


def _price(figure: Figure) -> float:
    """A price whose point was lost or is of cents: '3,899', 'three eighty nine', '189.9'."""
    token = figure.token
    if figure.dimension is None and token.decimals == 1 and CENTS[0] <= figure.value <= CENTS[1]:
        return figure.value / 100
    if token.said.in_digits and figure.value >= 100:
        return figure.value / (1000 if figure.value >= 1000 else 100)
    return figure.value / 1000 if token.grouped and figure.value >= 1000 else figure.value


MASS_FIELDS = frozenset(
    (
        "steer",
        "drive",
        "trailer",
        "gross",
        "truck",
        "tongue",
        "gvwr",
        "gcwr",
        "gawr",
        "gtm",
        "payload",
        "gawr_front",
        "gawr_rear",
        "tow",
        "curb",
    )
)


def _unit(context: Context, figure: Figure, field: str | None) -> str | None:
    if figure.unit is not None and figure.unit not in ("pence", "cents"):
        if field == "unit_price" and "/" not in figure.unit:
            return f"{figure.unit}/{VOLUME_UNIT[context.units]}"
        return figure.unit
    if field is None:
        return None
    if field in MASS_FIELDS or field.startswith(("trailer_", "steer_", "drive_")):
        unit = MASS_UNIT[context.units]
        tonnes = unit == "kg" and figure.token.decimals > 0 and figure.value < LEAST_IN_KG
        return "t" if tonnes else unit  # 'el remolque era 1.510'
    if field == "volume":
        return VOLUME_UNIT[context.units]
    if field in ("odometer", "distance"):
        return context.odometer_unit
    if field == "unit_price":
        return f"{context.currency}/{VOLUME_UNIT[context.units]}"
    if field == "cost":
        return context.currency
    if field in TEMPERATURE_FIELDS:
        return TEMPERATURE_UNIT[context.units]
    return None


def strangers(scene: Scene, end: int | None = None) -> int:
    """Words that neither the phrasebook nor a correction's own words for fields know.

    Those of one name, as of 'Emu Point', are one, and what joins clauses is none.
    """
    known, tokens = scene.book.keys["corrected_field"], scene.tokens
    unknown = [index for index in scene.unknown_words() if end is None or index < end]
    found = [
        index
        for index in unknown
        if tokens[index].text not in known and tokens[index].groups.isdisjoint(NO_STRANGERS)
    ]
    if len(found) < SEVERAL or scene.text.isupper():
        return len(found)
    return len(found) - sum(
        1
        for one, other in pairwise(found)
        if other == one + 1 and tokens[one].raw[0].isupper() and tokens[other].raw[0].isupper()
    )


NO_STRANGERS = frozenset(("clause_behind", "addresses"))
"""Groups of words that say nothing of what is put right."""

SEVERAL = 2
"""Words of a name that has more than one."""
