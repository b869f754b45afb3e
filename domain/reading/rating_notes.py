"""What a rating says besides its figure: a tank's fuel, how many axles, a tow by the pin.

This file decides what is noted of a rating that is told. Which rating it is decides `ratings`.
"""

from __future__ import annotations

from domain.reading.figures import Figure
from domain.reading.fluid_tanks import FLUID
from domain.reading.label import Label
from domain.reading.labels import AXLE_NUMBER
from domain.reading.positions import axles_counted
from domain.reading.scene import Scene
from domain.reading.stamped_pairs import hitched_how
from domain.reading.tow_ratings import by_pin
from domain.reading.tyre_ratings import how_mounted


def note_of(scene: Scene, figure: Figure, name: str) -> str | None:
    """What the figure alone does not carry: a tank's fuel, how many axles, a tow by the pin."""
    if name == "tank":
        held = [key.split()[0] for _, _, key in scene.find("product")]
        return next((product for product in held if product != FLUID), None)
    if name in ("tow", "tongue") and (how := hitched_how(scene, figure)) is not None:
        return how
    if name == "tow":
        return by_pin(scene, figure)
    if name in ("tyre_load", "load_index"):
        return how_mounted(scene, figure)
    count = axles_of(scene, figure) if name == "gawr" else 0
    return f"{count} axles" if count else None


def axles_of(scene: Scene, figure: Figure) -> int:
    """How many axles bear that much each: '2 x 6000', 'two axles', 'two 5,200 lb axles'."""
    counted = figure.count or axles_counted(scene)
    if counted:
        return counted
    # '2 ejes de 6000': the label may stand between the two.
    ends = [figure.start, *([figure.label.start] if isinstance(figure.label, Label) else [])]
    before = [each for each in scene.figures if each.end in ends and each.claimed != AXLE_NUMBER]
    return next((int(each.value) for each in before if each.whole and each.value in COUNTS), 0)


COUNTS = (2, 3, 4)
"""Axles that a trailer may have, of which each bears so much."""
