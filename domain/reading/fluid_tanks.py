"""Whether a tank that is told holds exhaust fluid: 'tank 34 gal diesel, DEF tank 7 gal'.

This file decides which of several tanks is the fluid's, by what is named in the figure's own part
of the message. That a size is told at all is decided in `tank_sizes`.
"""

from __future__ import annotations

from domain.reading.figures import Figure
from domain.reading.scene import Scene
from domain.reading.tank_sizes import TANK_FILLED, says_tank, tanks_named

FLUID = "def"
"""The product of the phrasebook that a truck's exhaust is treated with."""


def holds_fluid(scene: Scene, size: Figure) -> bool:
    """Whether the fluid is named between the figure before and the next, in the size's clause.

    Behind a tank that is named before its size stands what is of the next: 'fuel tank 34 gal def
    tank 6 gal'.
    """
    start, end = scene.clause_of(size.start)
    for figure in scene.figures:
        if figure.end <= size.start:
            start = max(start, figure.end)
        elif figure.start >= size.end:
            end = min(end, figure.start)
    if any(says_tank(scene, token) for token in scene.tokens[start : size.start]):
        end = size.start
    return any(start <= index < end for index, _, _ in scene.find("product", FLUID))


def is_fluid_tank(scene: Scene, size: Figure) -> bool:
    """'fuel tank 34 gal, def tank 7 gal': told beside a limit, and no fluid that was bought."""
    start, end = scene.clause_of(size.start)
    filled = any(not TANK_FILLED.isdisjoint(token.senses) for token in scene.tokens[start:end])
    named = not filled and any(start <= at < end for at in tanks_named(scene))
    listed = any(label.rating is not None and label.bound is not None for label in scene.labels)
    return named and listed and holds_fluid(scene, size)
