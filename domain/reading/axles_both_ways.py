"""The truck's axles weighed with the trailer on and off: 'steer 5,180 hitched, 5,260 not'.

This file decides that the figure of the second pass is of the axle that the first one names, and
that two rows of two are the truck's axles. Which words part the two is decided in `both_ways`.
"""

from __future__ import annotations

from collections.abc import Sequence
from copy import copy

from domain.reading.figures import MASS, Figure
from domain.reading.how_it_stood import stated_rig
from domain.reading.label import AXLE_AT, Label, make_label
from domain.reading.passes import Pass
from domain.reading.scene import Scene

AXLES = ("steer", "drive")

CHANGED = {"steer": (0.75, 1.35), "drive": (0.97, 2.5)}
"""What an axle bears with the trailer on over what it bears without: the tongue rests behind the
drive axle, and lifts the steer axle a little; common practice, no source."""


def carry_axles(scene: Scene, passes: Sequence[Pass], named: str | None) -> None:
    """Give the figures of both passes the axle that they are of, where they bear it out."""
    one, other = passes
    count = len(one.figures)
    if len(other.figures) != count or count > len(AXLES):
        return
    stood = {stated_rig(scene, each, len(passes), named): each.figures for each in passes}
    hitched = stood.get("hitched") or stood.get(None)  # 'steer 4,860, 5,210 solo'
    if len(stood) < len(passes) or hitched is None or "solo" not in stood:
        return
    pairs = list(zip(hitched, stood["solo"], strict=True))
    if count == 1:
        told = [each for each in pairs[0] if each.label is not None]
        if len(told) == 1 and isinstance(told[0].label, Label):
            axle = _axle_of(told[0].label)
            if axle is not None and _bear(axle, *pairs[0]):
                _name(pairs[0], told[0].label)
    elif all(each.label is None for pair in pairs for each in pair) and all(
        _bear(axle, *pair) for axle, pair in zip(AXLES, pairs, strict=True)
    ):
        for axle, pair in zip(AXLES, pairs, strict=True):
            label = make_label(pair[0].start)
            label.end, label.axle = label.start, axle
            _name(pair, label)
        scene.labels = [figure.label for figure in scene.figures if isinstance(figure.label, Label)]


def _axle_of(label: Label) -> str | None:
    if label.vehicle == "trailer" or label.side or label.ordinal:
        return None
    return label.axle or AXLE_AT.get(label.end_of or "")


def _bear(axle: str, hitched: Figure, solo: Figure) -> bool:
    low, high = CHANGED[axle]
    return low <= hitched.value / solo.value <= high


def _name(figures: Sequence[Figure], label: Label) -> None:
    unit = next((each.unit for each in figures if each.dimension == MASS), None)
    for figure in figures:
        if figure.label is None:
            figure.label = copy(label)
            figure.label.bound = figure
        if figure.unit is None and unit is not None:
            figure.unit, figure.dimension = unit, MASS
