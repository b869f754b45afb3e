"""One figure that is the load of several places: 'drive 3,470 each side', 'both axles 4,240 each'.

This file decides which places those are. Where a load is by its label is decided in `positions`.
"""

from __future__ import annotations

from domain.entries import SINGLE_AXLES
from domain.reading.figures import Figure
from domain.reading.how_many import counted_behind
from domain.reading.label import Label
from domain.reading.positions import IN_ORDER, axles_counted
from domain.reading.scene import Scene


def of_each(scene: Scene, placed: dict[str, Figure]) -> dict[str, Figure]:
    """'drive 3,470 each side', 'both trailer axles 4,240 each': one figure, and several places.

    How many axles a trailer has must be said; else the figure has no place.
    """
    groups = scene.groups
    if not ("each_one" in groups or ("per_one" in groups and "axle_noun" in scene.by_class)):
        return placed
    spread: dict[str, Figure] = {}
    for position, figure in placed.items():
        if not _is_of_each(scene, position, figure):
            spread[position] = figure
        elif position in ("steer", "drive"):
            spread |= {f"{position}_left": figure, f"{position}_right": figure}
        elif position == "trailer":
            axles = axles_counted(scene) or counted_behind(scene, figure)
            spread |= dict.fromkeys(SINGLE_AXLES[:axles], figure)
        elif position == "truck" and _are_both_axles(scene, figure):
            spread |= dict.fromkeys(IN_ORDER[:2], figure)  # '2,200 each on the steer and drive'
        else:
            spread[position] = figure
    return spread


def _is_of_each(scene: Scene, position: str, figure: Figure) -> bool:
    """'3,470 each', 'each of the two trailer axles 4,800', 'trailer 4,800 per axle'."""
    label, beside = figure.label, scene.tokens[figure.end : figure.end + 1]
    if position == "trailer" and isinstance(label, Label) and label.start <= figure.start:
        beside = [*beside, *scene.tokens[max(0, label.start - EACH_OF) : label.start]]
    if any("each_one" in token.groups for token in beside):
        return True
    one = scene.tokens[figure.end + 1 : figure.end + 2]
    return bool(one) and "per_one" in beside[0].groups and "axle" in one[0].groups


EACH_OF = 4
"""Tokens: 'each of the two'."""


def _are_both_axles(scene: Scene, figure: Figure) -> bool:
    """Whether a load of the truck is told of its axles, by their names."""
    label = figure.label
    named = scene.tokens[label.start : label.end] if isinstance(label, Label) else ()
    return any("axle" in token.senses for token in named)
