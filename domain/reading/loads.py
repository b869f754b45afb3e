"""Figures as loads: the unit meant, and whether the axles make the gross.

This file decides the unit of a load that has none, and compares the sum of a pass's parts with
its gross, within what a scale rounds.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence

from domain.context import MASS_UNIT
from domain.entries import SUM_TOLERANCE
from domain.quantities import Quantity, converted
from domain.reading.figures import MASS, TONS, Figure
from domain.reading.label import Label
from domain.reading.scene import Scene


def common_unit(scene: Scene, figures: Iterable[Figure]) -> str:
    """The unit meant where a load has none: that of its neighbours, or the chat's."""
    for figure in figures:
        if figure.dimension == MASS and figure.unit:
            return figure.unit
    for index, _, key in scene.find("unit"):
        # 'in pounds', 'Mass (t)': a unit said once for the whole message.
        before = scene.tokens[index - 1].groups if index else frozenset()
        led = "before_common_unit" in before or (index and scene.tokens[index - 1].raw == "(")
        if (
            key in ("lb", "kg", "t")
            and (led or _heads(scene, index))
            and not any(figure.start <= index < figure.end for figure in scene.figures)
        ):
            return key
        if key == "t" and any(figure.end == index + 1 for figure in scene.figures):
            return key  # 'van weighs 2.48 t, 215 on the ball'
    return MASS_UNIT[scene.context.units]


def _heads(scene: Scene, unit: int) -> bool:
    """'MASS kg: A1 1,340 ...': a unit over a row, which a colon ends."""
    return any(token.raw == ":" for token in scene.tokens[unit + 1 : unit + 2])


def loads_of(scene: Scene, placed: Mapping[str, Figure]) -> dict[str, Quantity]:
    """The figures of a pass as loads, in the unit meant: their own, each other's, or the chat's."""
    unit = common_unit(scene, placed.values())
    if unit in SMALLER:
        return _beside_tons(placed, unit)
    short = max([figure.value for figure in placed.values()]) < SAID_SHORT
    loads: dict[str, Quantity] = {}
    for position, figure in placed.items():
        if figure.unit is not None and figure.dimension == MASS:
            loads[position] = Quantity(figure.value, figure.unit, figure.low)
        elif short and unit in ("lb", "kg") and (len(placed) > 1 or not figure.whole):
            # 'steer 5.2 drive 6.9': thousands of pounds, or tonnes.
            thousands = unit == "lb"
            value = round(figure.value * 1000, 3) if thousands else figure.value
            loads[position] = Quantity(value, "lb" if thousands else "t")
        else:
            loads[position] = Quantity(figure.value, unit, figure.low)
    return loads


def _beside_tons(placed: Mapping[str, Figure], unit: str) -> dict[str, Quantity]:
    """'axles 2.48 t, ball 215': hundreds of tons are none, and are in the smaller unit."""
    return {
        position: Quantity(
            figure.value,
            figure.unit or (unit if figure.value < SAID_SHORT else SMALLER[unit]),
            figure.low,
        )
        for position, figure in placed.items()
    }


SMALLER = {"t": "kg", "ton": "lb"}
"""What a bare load or limit is in beside one in tons, where it is too much for these."""


SAID_SHORT = 60
"""Below it, a figure is no load in pounds or kilograms, but thousands of them."""


def makes_gross(loads: Mapping[str, Quantity]) -> bool | None:
    """Whether the parts make the gross: True, False, or None where that can't be told."""
    gross = loads.get("gross")
    if gross is None:
        return None
    unit = gross.unit
    truck, complete_truck = _part(loads, ("steer", "drive"), "truck", unit)
    trailer, has_trailer = _trailer_part(loads, unit)
    if "tongue" in loads and has_trailer and not complete_truck:
        parts = trailer + loads["tongue"].amount(unit)
    elif complete_truck:
        parts = truck + trailer
    else:
        return None
    off = abs(parts - gross.value)
    if off <= SUM_TOLERANCE * gross.value or off <= _rounding(loads, unit):
        return True
    if complete_truck and not has_trailer and parts < gross.value:
        return None
    return False


def _rounding(loads: Mapping[str, Quantity], unit: str) -> float:
    """Half of the last digit typed, for each load: '5.2k' is good to 50 lb."""
    slack = 0.0
    for load in loads.values():
        if load.unit in TONS:
            slack += converted(0.006, load.unit, unit)
        elif load.value % 100 == 0:
            slack += converted(50.0, load.unit, unit)
    return slack if all(load.value % 100 == 0 or load.unit == "t" for load in loads.values()) else 0


def _part(
    loads: Mapping[str, Quantity], axles: Sequence[str], whole: str, unit: str
) -> tuple[float, bool]:
    if whole in loads:
        return loads[whole].amount(unit), True
    total, complete = 0.0, True
    for axle in axles:
        if axle in loads:
            total += loads[axle].amount(unit)
        elif f"{axle}_left" in loads and f"{axle}_right" in loads:
            total += loads[f"{axle}_left"].amount(unit) + loads[f"{axle}_right"].amount(unit)
        else:
            complete = False
    return total, complete


def _trailer_part(loads: Mapping[str, Quantity], unit: str) -> tuple[float, bool]:
    """The load on the trailer's axles, and whether any of it was given.

    Each axle counts once: as given, else by its wheels.
    """
    whole, complete = _part(loads, ("trailer",), "trailer", unit)
    if complete:
        return whole, True
    parts = [
        load.amount(unit)
        for position, load in loads.items()
        if position.startswith("trailer") and position.rpartition("_")[0] not in loads
    ]
    return sum(parts), bool(parts)


def bears_apart(figures: Sequence[Figure]) -> bool:
    """'flatdeck loaded: 5,160 front 6,840 rear 9,220 trailer': two ends, and a trailer's load.

    It is another than what the ends bear together, so they are the truck's.
    """
    labels = [(each, each.label) for each in figures if isinstance(each.label, Label)]
    ends = [each.value for each, label in labels if label.only_end]
    towed = [each.value for each, label in labels if label.only_vehicle]
    if len(ends) != BOTH_ENDS or len(towed) != 1:
        return False
    return abs(sum(ends) - towed[0]) > SUM_TOLERANCE * towed[0]


BOTH_ENDS = 2
"""Axles of a truck."""
