"""Loads that can't be right, or could be two things.

This file decides what a position of a rig behind a pickup can weigh, and what is asked back with
which choices; each choice is an entry as the log would keep it.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from domain.choices import ChoiceLabel
from domain.context import MASS_UNIT
from domain.entries import AXLES, POSITIONS, SINGLE_AXLES, Weighing
from domain.quantities import Quantity, converted
from domain.reading.doubts import Doubt
from domain.reading.figures import Figure
from domain.reading.how_it_stood import rig_of
from domain.reading.label import Label
from domain.reading.positions import positions_in_order, two_axles
from domain.reading.scene import Scene
from domain.verdicts import Choice

LOAD_KG = (150.0, 30_000.0)
"""What one position of a rig behind a pickup can weigh; more or less is asked about."""


WHEEL_KG = (60.0, 5_000.0)


TONGUE_KG = (10.0, 2_500.0)


AXLE_KG = (200.0, 12_000.0)


HEAVY_STEER_KG = 4_000.0
"""A steer axle that bears more is no pickup's: behind it two axles drive, weighed as one."""


GROSS_KG = (700.0, 45_000.0)


LIMITS_OF = {at: WHEEL_KG for at in POSITIONS if at.endswith(("_left", "_right"))} | {
    "gross": GROSS_KG,
    "tongue": TONGUE_KG,
    "trailer": LOAD_KG,
    "truck": LOAD_KG,
}
"""What each position can weigh that is no axle."""


def impossible_position(
    placed: dict[str, Figure], loads: dict[str, Quantity], rig: str | None
) -> str | None:
    """The position whose figure can't be right, if any."""
    weights = {position: load.amount("kg") for position, load in loads.items()}
    for position, weight in weights.items():
        if placed[position].negative or not is_possible(position, weight, rig):
            if position == "drive" and _drives_on_two(weights):
                continue
            return position
    if "steer" in loads and "drive" in loads:
        steer, drive = weights["steer"], weights["drive"]
        if min(steer, drive) * 6 < max(steer, drive):
            return "steer" if steer < drive else "drive"
        if weights.get("trailer", 0.0) > MOST_TOWED * (steer + drive):
            return "trailer"
    if "gross" in loads and max(weights.values()) > weights["gross"] * 1.01:
        return "gross"
    return None


MOST_TOWED = 3.5
"""What a trailer's axles bear over its truck's, at most: common practice, no source. A figure with
a digit too many is asked about."""


def _drives_on_two(weights: Mapping[str, float]) -> bool:
    """'steers 12.1k drives 33.6k': a heavy truck, whose two drive axles are weighed as one."""
    return weights.get("steer", 0.0) >= HEAVY_STEER_KG and weights["drive"] <= LOAD_KG[1]


def is_possible(position: str, weight: float, rig: str | None) -> bool:
    """Whether a position of a rig behind a pickup can weigh so many kilograms."""
    trailer_whole = position == "gross" and rig == "trailer"
    low, high = LOAD_KG if trailer_whole else LIMITS_OF.get(position, AXLE_KG)
    return low <= weight <= high


def sides_doubt(loads: dict[str, Quantity], rig: str | None) -> Doubt | None:
    """An axle that its own two wheels do not make."""
    for axle, left_wheel, right_wheel in WHEELS:
        whole, left, right = loads.get(axle), loads.get(left_wheel), loads.get(right_wheel)
        if whole is None or left is None or right is None:
            continue
        made = left.amount(whole.unit) + right.amount(whole.unit)
        if abs(made - whole.value) > SIDES_TOLERANCE * whole.value:
            meant = Quantity(round(made, 2), whole.unit)
            mended = {**loads, axle: meant}
            choice = Choice(
                ChoiceLabel("one_axle", meant, axle),
                (Weighing(loads=mended, rig=rig_of(mended, rig)),),
            )
            return Doubt(axle, "does_not_sum", (meant, whole), (choice,))
    return None


WHEELS = tuple((axle, f"{axle}_left", f"{axle}_right") for axle in AXLES)
"""Each axle and its two wheels."""

SIDES_TOLERANCE = 0.02
"""Wheel scales read each wheel by itself, and add up less well than platforms."""


def unplaced_sides(scene: Scene, figures: Sequence[Figure]) -> Doubt | None:
    """'driver side 10,720 pass side 10,740, all hooked up': it is not said of what the sides are.

    What is told of how the rig stood tells that it was weighed.
    """
    labels = [each.label for each in figures if isinstance(each.label, Label)]
    if [label.side for label in labels if label.only_side] not in BOTH_SIDES:
        return None
    if min(each.value for each in figures) < LEAST_OF_A_SIDE:
        return None
    return Doubt("weighing", "unplaced", stated_loads(figures, MASS_UNIT[scene.context.units]))


BOTH_SIDES = (["left", "right"], ["right", "left"])

LEAST_OF_A_SIDE = 1_000
"""Pounds or kilograms: tyres and tanks have two sides as well."""


def digit_slips(
    loads: dict[str, Quantity], position: str, others: Sequence[float]
) -> tuple[Choice, ...]:
    """'53200' for 5320: with a digit less or more, without its minus, or not kept at all.

    `others` is what the words of a dictated figure could mean besides.
    """
    load = loads[position]
    choices = []
    for value in (*others, load.value * 0.1, load.value, load.value * 10):
        if AXLE_KG[0] <= converted(value, load.unit, "kg") <= AXLE_KG[1]:
            mended = Quantity(round(value, 3), load.unit)
            choices.append(
                Choice(
                    ChoiceLabel("figure", mended), (Weighing(loads={**loads, position: mended}),)
                )
            )
    rest = {place: kept for place, kept in loads.items() if place != position}
    if rest:
        choices.append(Choice(ChoiceLabel("rest", position=position), (Weighing(loads=rest),)))
    return tuple(choices)


def gross_doubt(loads: dict[str, Quantity], rig: str | None) -> Doubt:
    """The parts do not make the gross that was given."""
    parts = {position: load for position, load in loads.items() if position != "gross"}
    total = sum(load.amount("kg") for position, load in parts.items() if position != "tongue")
    unit = loads["gross"].unit
    meant = Quantity(round(converted(total, "kg", unit), 2), unit)
    return Doubt(
        "gross", "does_not_sum", (meant, loads["gross"]), _gross_choices(parts, meant, rig)
    )


def is_beyond_alone(loads: Mapping[str, Quantity]) -> bool:
    """'solo: steer 5,010 drive 4,380 gross 19,390': more than the truck's axles make alone."""
    return loads.keys() >= {"steer", "drive", "gross"} and rig_of(loads, "solo") != "solo"


def _gross_choices(
    parts: dict[str, Quantity], meant: Quantity, rig: str | None
) -> tuple[Choice, ...]:
    """The gross that the axles make, or the axles kept without a gross."""
    mended = {**parts, "gross": meant}
    return (
        Choice(
            ChoiceLabel("gross", meant),
            (Weighing(loads=mended, rig=rig_of(mended, rig)),),
        ),
        Choice(ChoiceLabel("no_gross"), (Weighing(loads=parts, rig=rig_of(parts, rig)),)),
    )


def sum_doubt(
    parts: Sequence[Figure], gross: Figure, unit: str, rig: str | None
) -> Doubt | dict[str, Figure]:
    """Bare axles that nearly make the gross beside them; no loads where places are unclear."""
    positions = positions_in_order(len(parts), solo=len(parts) == 2)
    if positions is None:
        return {}
    total = Quantity(round(sum(part.value for part in parts), 2), parts[0].unit or unit)
    loads = {
        position: Quantity(part.value, part.unit or unit)
        for position, part in zip(positions, parts, strict=True)
    }
    stated = Quantity(gross.value, gross.unit or unit)
    return Doubt("gross", "does_not_sum", (total, stated), _gross_choices(loads, total, rig))


def stated_loads(figures: Sequence[Figure], unit: str) -> tuple[Quantity, ...]:
    """Figures as loads, in the unit given where they have none."""
    return tuple(Quantity(figure.value, figure.unit or unit) for figure in figures)


def lone_doubt(figure: Figure, unit: str) -> Doubt:
    """One load and a word for weighing: all of it, or the load on the trailer's axles."""
    load = Quantity(figure.value, figure.unit or unit)
    return Doubt(
        "weighing",
        "lone_load",
        (load,),
        (
            Choice(ChoiceLabel("gross", load), (Weighing(loads={"gross": load}),)),
            Choice(
                ChoiceLabel("trailer_axles", load),
                (Weighing(rig="hitched", loads={"trailer": load}),),
            ),
        ),
    )


def two_choices(figures: Sequence[Figure], unit: str) -> tuple[Choice, ...]:
    """Two loads without labels: the truck's two axles, or truck and trailer."""
    first, second = stated_loads(figures, unit)
    return (
        Choice(
            ChoiceLabel("steer_and_drive"), (Weighing(loads={"steer": first, "drive": second}),)
        ),
        Choice(
            ChoiceLabel("truck_and_trailer"),
            (Weighing(rig="hitched", loads={"truck": first, "trailer": second}),),
        ),
    )


def vague_trailer(
    scene: Scene, placed: dict[str, Figure], loads: dict[str, Quantity], rig: str | None
) -> Doubt | None:
    """'trailer 9180' alone may be its axles, or all of it."""
    if rig is not None or placed.keys() != {"trailer"}:
        return None
    label = placed["trailer"].label
    if isinstance(label, Label) and label.wheel:
        return None
    load = loads["trailer"]
    if scene.context.hitched is not False:
        return Doubt(
            "weighing",
            "lone_load",
            (load,),
            (
                Choice(
                    ChoiceLabel("axles_hitched", load),
                    (Weighing(rig="hitched", loads={"trailer": load}),),
                ),
                Choice(
                    ChoiceLabel("all_unhitched", load),
                    (Weighing(rig="trailer", loads={"gross": load}),),
                ),
            ),
        )
    return None


def unlike_axles(
    figures: Sequence[Figure], loads: dict[str, Quantity], rig: str | None
) -> Doubt | None:
    """'tandem camper hitched: front axle 5,140, rear axle 6,280': too unlike for its two axles.

    They share what rests on them; the truck's seldom weigh the same.
    """
    if rig != "hitched" or [*loads] != [*SINGLE_AXLES[:2]] or not two_axles(figures):
        return None
    first, second = loads.values()
    if max(first.value, second.value) <= MOST_UNLIKE * min(first.value, second.value):
        return None
    trucks = {"steer": first, "drive": second}
    return Doubt(
        "weighing",
        "two_loads",
        (first, second),
        tuple(
            Choice(ChoiceLabel("loads", loads=each), (Weighing(loads=each, rig="hitched"),))
            for each in (trucks, loads)
        ),
    )


MOST_UNLIKE = 1.15
"""How much more one axle of a tandem bears than the other: common practice, no source."""
