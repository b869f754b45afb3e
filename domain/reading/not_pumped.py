"""Figures told beside a fill that were not pumped: what was still in the tank, or what it holds.

This file decides by the words around a figure that it is of the tank, or of the road that it would
have lasted for. It leaves those aside, and knows nothing of the fill.
"""

from __future__ import annotations

from itertools import pairwise

from domain.reading.figures import DISTANCE, VOLUME, Figure
from domain.reading.scene import Scene
from domain.reading.tokens import MARK

NOT_PUMPED = frozenset(("left", "of", "surely_range"))
"""Groups of words of which one stands beside such a figure."""


def leave_not_pumped(scene: Scene) -> None:
    """Leave aside what was left, what a tank holds, and how far one would come."""
    groups = scene.groups
    if "left" in groups or "surely_range" in groups:
        for figure in scene.live:
            if _is_left(scene, figure):
                scene.claim(figure, "what was still in the tank")
            elif _is_range(scene, figure):
                scene.claim(figure, "how far the tank would last")
    if "of" in groups:
        for one, other in pairwise(scene.live):
            if _is_of_tank(scene, one, other):
                scene.claim(other, "what the tank holds")


def _is_left(scene: Scene, figure: Figure) -> bool:
    """'had 8 gal left, took 28', '8 gal left when we filled'; '24.6 gal left Pell' drove off."""
    behind = scene.tokens[figure.end : figure.end + 2]
    if figure.dimension != VOLUME or not behind or "left" not in behind[0].groups:
        return False
    further = behind[1:]
    return not further or further[0].kind is MARK or not AFTER_LEFT.isdisjoint(further[0].groups)


AFTER_LEFT = frozenset(("clause_behind", "into", "and"))
"""Groups of words behind what was left: 'when we filled', 'in it'."""


def _is_range(scene: Scene, figure: Figure) -> bool:
    """'dte said 40', 'dte 40'."""
    before = scene.tokens[max(0, figure.start - 2) : figure.start]
    driven = figure.dimension in (None, DISTANCE)
    return driven and any("surely_range" in token.groups for token in before)


def _is_of_tank(scene: Scene, one: Figure, other: Figure) -> bool:
    """'took 24.6 of its 36': so much of what there is room for."""
    between = scene.tokens[one.end : other.start]
    of = bool(between) and len(between) <= OF_ITS and "of" in between[0].groups
    its = all("article" in token.groups or "our" in token.groups for token in between[1:])
    poured = {one.dimension, other.dimension} <= {None, VOLUME}
    return of and its and poured and other.whole and one.value <= other.value


OF_ITS = 2
"""Tokens of 'of its'."""
