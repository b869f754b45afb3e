"""The two axles of a truck, told in a row behind both: 'truck axles 5,160 and 6,880'.

This file decides which two loads those are, and names each by its axle.
"""

from __future__ import annotations

from collections.abc import Sequence
from copy import copy
from itertools import pairwise

from domain.context import MASS_UNIT
from domain.entries import SUM_TOLERANCE
from domain.reading.bare_loads import HEAVIEST_STEER
from domain.reading.figures import Figure, kilograms
from domain.reading.label import Label
from domain.reading.scene import Scene
from domain.reading.tokens import MARK

BOTH = ("steer", "drive")
"""The axles of a pickup, from the front."""


def name_truck_axles(scene: Scene, figures: Sequence[Figure]) -> None:
    """Name two loads in a row behind 'truck axles' by the axles; of more it is not said which."""
    for number, (first, second) in enumerate(pairwise(figures)):
        label, third = first.label, figures[number + 2 : number + 3]
        if not (isinstance(label, Label) and _heads_axles(scene, label, first)):
            continue
        if _goes_on(scene, first, second) and not any(_goes_on(scene, second, f) for f in third):
            for figure, axle in zip((first, second), BOTH, strict=True):
                own = copy(label)
                own.axle, own.wheel, own.bound = axle, None, figure
                figure.label = own
        return


def are_trucks_two(scene: Scene, labelled: Sequence[Figure], bare: Figure, rig: str | None) -> bool:
    """'camper 9,240, truck 5,180 6,900': beside its trailer the two behind the truck are its axles.

    So are two ahead of it where it stood alone. They are named so from here on.
    """
    last = _told_behind_both(scene, labelled, bare, rig)
    if last is not None:
        _name(bare, last)
        return True
    heads = [figure for figure in labelled if 0 <= bare.start - figure.end <= 1]
    others = [figure.label for figure in labelled if figure not in heads]
    if len(heads) != 1 or len(others) != 1 or not isinstance(others[0], Label):
        return False
    label = heads[0].label
    if not isinstance(label, Label) or not label.only_vehicle or label.vehicle != "truck":
        return False
    steers = kilograms(heads[0], MASS_UNIT[scene.context.units]) <= HEAVIEST_STEER
    if not steers or label.start > heads[0].start or others[0].vehicle != "trailer":
        return False
    whole = sum(figure.value for figure in labelled)
    if abs(whole - bare.value) <= SUM_TOLERANCE * whole:
        return False  # 'trailer 1,940, the truck 2,980, 4,920 the pair of them'
    _name(heads[0], bare)
    return True


def _told_behind_both(
    scene: Scene, labelled: Sequence[Figure], bare: Figure, rig: str | None
) -> Figure | None:
    """'5,010 and 4,380 for the truck, 9,390 total': the second, which the truck is told behind.

    That it stood alone is said, or follows from a gross that the two make.
    """
    last = next((each for each in labelled if each.start >= bare.end), None)
    label = last.label if last else None
    if last is None or not isinstance(label, Label) or label.start < last.end:
        return None
    if label.vehicle != "truck" or not label.only_vehicle or not _in_a_row(scene, bare, last):
        return None
    if kilograms(bare, MASS_UNIT[scene.context.units]) > HEAVIEST_STEER:
        return None
    whole, others = bare.value + last.value, [each for each in labelled if each is not last]
    if any(not isinstance(each.label, Label) or each.label.whole != "gross" for each in others):
        return None
    made = [abs(each.value - whole) <= SUM_TOLERANCE * whole for each in others]
    return last if (all(made) if made else rig == "solo") else None


def _name(steer: Figure, drive: Figure) -> None:
    """Label two loads, of which one is told of the truck, as its axles."""
    label = drive.label if isinstance(drive.label, Label) else steer.label
    if not isinstance(label, Label):
        return
    for figure, axle in zip((steer, drive), BOTH, strict=True):
        own = copy(label)
        own.axle, own.bound, figure.label = axle, figure, own


def _heads_axles(scene: Scene, label: Label, figure: Figure) -> bool:
    if label.vehicle != "truck" or not label.only_its_axles or label.end > figure.start:
        return False
    steers = kilograms(figure, MASS_UNIT[scene.context.units]) <= HEAVIEST_STEER
    return steers and any("axles" in each.groups for each in scene.tokens[label.start : label.end])


def _goes_on(scene: Scene, before: Figure, figure: Figure) -> bool:
    """Whether a figure goes on a row; a label behind a comma is not its own."""
    label = figure.label
    if isinstance(label, Label):
        behind = scene.tokens[figure.end : figure.end + 1]
        if label.start <= figure.end or not any(token.raw == "," for token in behind):
            return False
    return _in_a_row(scene, before, figure)


def _in_a_row(scene: Scene, before: Figure, figure: Figure) -> bool:
    between = scene.tokens[before.end : figure.start]
    return len(between) <= 1 and all(t.kind is MARK or "and" in t.groups for t in between)
