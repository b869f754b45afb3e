"""What a truck or a trailer weighs empty, as its maker or its owner tells it.

This file decides by the words beside a figure that it is of the vehicle without any load. What a
scale showed of an empty one is a weighing.
"""

from __future__ import annotations

from domain.reading.figures import MASS, Figure
from domain.reading.framing import LEAST_STAMPED
from domain.reading.label import Label
from domain.reading.scene import Scene
from domain.reading.tokens import MARK
from domain.reading.whose_plate import is_trailers


def is_unladen(scene: Scene, figure: Figure) -> bool:
    """'camper dry 7,200 gvwr 9,800': what it weighs empty, and no limit."""
    before = scene.tokens[figure.start - 1] if figure.start else None
    mass = figure.dimension in (None, MASS) and figure.value >= LEAST_STAMPED
    return mass and before is not None and "unladen" in before.groups


def is_empty_told(scene: Scene, figure: Figure) -> bool:
    """'camper dry 7,640, gross 9,920'; 'camper alone and empty 6,240' stood on a scale."""
    return STOOD.isdisjoint(scene.by_class) and is_unladen(scene, figure)


STOOD = frozenset(("alone", "rig", "weigh_cue"))
"""Classes of term that say that a vehicle stood on a scale, and how."""


def is_dry(scene: Scene, figure: Figure) -> bool:
    """'pin 3,300 dry', 'dry 7,160, hitch 860': what a maker prints of it empty, and no limit.

    So is 'UVW 7,640, hitch weight 980', but for 'max hitch weight'.
    """
    label = figure.label
    if not isinstance(label, Label) or figure.dimension not in (None, MASS):
        return False
    if label.whole == "tongue":
        if is_told_unladen(scene, figure):
            return True
        most = label.start > 0 and "rating_cue" in scene.tokens[label.start - 1].senses
        return "printed_dry" in scene.groups and not most and _rests_of_dry(scene, figure)
    if label.rating_subject != "hitch":
        return False
    if "printed_dry" not in scene.groups and not is_trailers(scene, figure):
        return False
    if figure.value < LEAST_STAMPED:
        return "unladen" in scene.groups or any(each.rating == "curb" for each in scene.labels)
    return any(_rests_of(figure, each) for each in scene.figures if _is_of_empty(scene, each))


def _is_of_empty(scene: Scene, figure: Figure) -> bool:
    label = figure.label
    return (isinstance(label, Label) and label.rating == "curb") or is_unladen(scene, figure)


def _rests_of(tongue: Figure, whole: Figure) -> bool:
    """Whether so much may rest on the hitch of what weighs so much, as makers print them."""
    return TONGUE[0] * whole.value <= tongue.value <= TONGUE[1] * whole.value


TONGUE = (0.08, 0.25)
"""Share of a trailer that makers print of what rests on the hitch; common practice, no source."""


def weighs_unladen(scene: Scene, figure: Figure) -> bool:
    """'flatdeck weighs 2,460 empty', 'the camper is 6,240 dry': what it weighs without a load.

    'weighed 2,460 empty' tells what a scale showed.
    """
    label = figure.label
    if not isinstance(label, Label) or not label.only_vehicle or label.end > figure.start:
        return False
    if figure.dimension not in (None, MASS) or figure.value < LEAST_STAMPED:
        return False
    before = scene.tokens[label.start - 1] if label.start else None
    ours = before is None or before.kind is MARK or "our" in before.groups
    if not ours or not is_told_unladen(scene, figure):
        return False  # 'Mike's camper is 7,800 dry'
    between = scene.tokens[label.end : figure.start]
    return bool(between) and all(
        "is_so_heavy" in token.groups or "around" in token.groups for token in between
    )


def is_told_unladen(scene: Scene, figure: Figure) -> bool:
    """Whether the word for it stands right behind the figure."""
    behind = scene.tokens[figure.end : figure.end + 1]
    return any("unladen" in token.groups for token in behind)


def leave_dry(scene: Scene) -> None:
    """'7,140 dry, 1,020 on the hitch', 'hitch weight dry is 1,020': printed, and never weighed."""
    for figure in scene.live:
        label = figure.label
        tongue = isinstance(label, Label) and (label.whole or label.rating_subject) in ON_HITCH
        if _is_printed_dry(scene, figure) or (tongue and _rests_of_dry(scene, figure)):
            scene.claim(figure, "what it weighs dry")


def _rests_of_dry(scene: Scene, tongue: Figure) -> bool:
    """Whether so much may rest on the hitch of what is printed to weigh so much dry."""
    return any(_rests_of(tongue, each) for each in scene.figures if _is_printed_dry(scene, each))


ON_HITCH = ("tongue", "hitch")


def _is_printed_dry(scene: Scene, figure: Figure) -> bool:
    """Whether 'dry' stands right at a figure, or at the words that name it."""
    if figure.dimension not in (None, MASS) or figure.value < LEAST_PRINTED:
        return False
    label = figure.label
    ahead = figure.start - 1
    if isinstance(label, Label) and label.start < figure.start:
        ahead = label.start - 1
    said = scene.tokens[max(0, ahead) : figure.end + 1]
    return any("printed_dry" in token.groups for token in said)


LEAST_PRINTED = 400
"""Pounds or kilograms: so little of a trailer that is towed behind a pickup rests on its hitch."""
