"""What a gauge shows: its unit where none is said, and what it can't show.

This file decides in what unit a bare reading is meant, by its gauge, the readings beside it and the
chat, and which readings are beyond what such a gauge shows.
"""

from __future__ import annotations

from domain.context import PRESSURE_UNIT, SPEED_UNIT, TEMPERATURE_UNIT
from domain.quantities import Quantity
from domain.reading.figures import PRESSURE, TEMPERATURE, Figure
from domain.reading.label import Label
from domain.reading.scene import Scene

PLAUSIBLE = {
    "transmission": (-20.0, 320.0),
    "coolant": (-20.0, 300.0),
    "oil": (-20.0, 325.0),
    "exhaust": (100.0, 1800.0),
    "hub": (-20.0, 500.0),
    "ambient": (-60.0, 135.0),
    "tyre": (-20.0, 350.0),
}
"""What a gauge can show, in °F; common practice, no source. More is asked about."""

RUN_HOT = ("transmission", "coolant", "oil", "exhaust", "hub")

TYRE_KPA = (60.0, 1_000.0)
OIL_KPA = (0.0, 1_000.0)
SPEED_KMH = (5.0, 180.0)
ENGINE_RPM = (400.0, 6_000.0)
WIND_KMH = (3.0, 200.0)
GRADE = (0.5, 40.0)

POSITIONED = ("tyre", "hub")


def shown(scene: Scene, figure: Figure, subject: str) -> Quantity | None:
    """What the gauge shows; None where the figure is of a kind without a unit."""
    units = scene.context.units
    value = -figure.value if figure.negative else figure.value
    unit = figure.unit
    if figure.dimension is not None:
        return Quantity(value, unit or "", figure.low) if unit else None
    if subject == "tyre" and not _of_heat(scene, figure):
        unit = _pressure_unit(scene, value)
    elif subject == "oil" and _of_pressure(scene, figure):
        unit = PRESSURE_UNIT[units]
    elif subject in PLAUSIBLE:
        told = [each.unit for each in scene.figures if each.dimension == TEMPERATURE]
        one = told[0] if len(set(told)) == 1 else None
        meant = subject in POSITIONED or (subject in RUN_HOT and one == _warm_in(value))
        unit = one if one is not None and meant else TEMPERATURE_UNIT[units]
    elif subject in ("speed", "wind"):
        unit = SPEED_UNIT[units]
    elif subject == "engine_speed":
        unit = "rpm"
    else:
        unit = "%"
    return Quantity(value, unit, figure.low)


def _warm_in(value: float) -> str:
    """The unit in which what runs hot is as warm as a figure says: 88 °C, or 190 °F."""
    return "degC" if value <= HOTTEST else "degF"


HOTTEST = 125
"""Degrees Celsius of a gearbox, oil or water that still runs; in Fahrenheit it would be cold."""


def _of_heat(scene: Scene, figure: Figure) -> bool:
    """'tire temps LF 118 LR 121': the word before says that tyres were hot, and not how hard."""
    before = [token for token in scene.tokens[: figure.start] if token.groups & HEAT_OR_PRESSURE]
    if before:
        return "temps_word" in before[-1].groups
    return _beside_heat(scene, figure)


def _beside_heat(scene: Scene, figure: Figure) -> bool:
    """'tires ran hot, front 118 and rear 131 degrees': the last of a row says of what it is."""
    start, end = scene.sentence_of(figure.start)
    beside = [each for each in scene.figures if start <= each.start < end and each is not figure]
    if any(each.dimension == PRESSURE for each in beside):
        return False
    return any(
        each.dimension == TEMPERATURE
        and isinstance(each.label, Label)
        and each.label.places
        and not each.label.subject
        for each in beside
    )


def _of_pressure(scene: Scene, figure: Figure) -> bool:
    """'oil pressure 48', 'oil pressure dropped to 28'."""
    label = figure.label
    named = [scene.tokens[figure.start - 1]] if figure.start else []
    if isinstance(label, Label):
        named += scene.tokens[label.start : label.end]
    words = [word for token in named for word in token.text.split()]
    return any(word in scene.book.groups["pressure_word"] for word in words)


HEAT_OR_PRESSURE = frozenset(("temps_word", "pressure_word"))


def _pressure_unit(scene: Scene, value: float) -> str:
    """That of the other pressures in the message, else the chat's; 35 is psi and 240 kPa."""
    for figure in scene.figures:
        if figure.dimension == PRESSURE and figure.unit:
            return figure.unit
    unit = PRESSURE_UNIT[scene.context.units]
    if unit == "kPa" and value < 10:
        return "bar"
    if unit == "kPa" and value < 130:
        return "psi"
    if unit == "psi" and value < 10 and value % 1:
        return "bar"
    return unit


def reads_gauge_behind(scene: Scene, volume: Figure) -> bool:
    """'26.2 gal trans 197': a gauge that runs hot, and no fluid that was bought or poured in."""
    if volume.unit is None or volume.end >= len(scene.tokens):
        return False
    if Quantity(volume.value, volume.unit).amount("L") < MOST_OF_A_FLUID:
        return False
    called, _, fluid = scene.tokens[volume.end].text.rpartition(" ")
    if called and fluid in scene.book.groups["names_fluid"]:
        return False  # '12 gal trans fluid 240'
    return any(
        label.start == volume.end
        and label.subject in ("transmission", "coolant")
        and label.bound is not None
        and label.bound.start == label.end
        and label.bound.whole
        and label.bound.value >= LEAST_RUNNING
        for label in scene.labels
    )


MOST_OF_A_FLUID = 45.0
"""Litres: more of what cools or shifts is in no pickup."""

LEAST_RUNNING = 60
"""Degrees, in either unit, of what has run."""


def is_of_other_water(scene: Scene, figure: Figure, value: Quantity) -> bool:
    """'pool water temp 82', 'fryer water temp 140': no engine that is told of is so cold.

    Nor is what nobody knows before it an engine.
    """
    label = figure.label
    if not isinstance(label, Label) or "any_water" not in scene.tokens[label.start].groups:
        return False
    return value.amount("degF") < LEAST_ENGINE_WATER or label.start - 1 in scene.unknown


LEAST_ENGINE_WATER = 120.0
"""Degrees Fahrenheit."""


def implausible(subject: str, value: Quantity) -> bool:
    """Whether no such gauge shows that."""
    if value.unit in ("degF", "degC"):
        low, high = PLAUSIBLE.get(subject, (-60.0, 500.0))
        return not low <= value.amount("degF") <= high
    if subject == "oil":
        return not OIL_KPA[0] <= value.amount("kPa") <= OIL_KPA[1]
    if subject == "tyre":
        return not TYRE_KPA[0] <= value.amount("kPa") <= TYRE_KPA[1]
    if subject == "engine_speed":
        return not ENGINE_RPM[0] <= value.value <= ENGINE_RPM[1]
    if subject == "grade":
        return not GRADE[0] <= value.value <= GRADE[1]
    low, high = SPEED_KMH if subject == "speed" else WIND_KMH
    return not low <= value.amount("km/h") <= high
