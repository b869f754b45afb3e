"""A thing that stands on the tongue, and what bears down there: the same words tell of both.

This file decides which of the two a figure beside the tongue is: 'loaded the quad on the nose, 740'
is the quad's, and 'moved the quad back, 1,180 lb on the tongue' the tongue's.
"""

from __future__ import annotations

from domain.context import MASS_UNIT
from domain.reading.figures import Figure, kilograms
from domain.reading.how_it_stood import stood_alone
from domain.reading.label import Label
from domain.reading.scene import Scene
from domain.reading.things import noun_from
from domain.reading.tokens import MARK


def is_things(scene: Scene, figure: Figure, label: Label) -> bool:
    """'loaded the quad on the nose, 740': where it was put is told, and then what it weighs.

    So it is where what it weighs is told before: 'loaded the nose with 600 lb of hay'.
    """
    of = scene.tokens[figure.end : figure.end + 1]
    if any("of" in token.groups for token in of) and noun_from(scene, figure.end + 1):
        return True
    if "load_verb" not in scene.by_class or "weigh_cue" in scene.by_class:
        return False
    lead = scene.tokens[max(0, label.start - 2) : label.start]
    led = any(not token.groups.isdisjoint(("standing_on", "on_the")) for token in lead)
    parted = label.end <= figure.start and scene.tokens[figure.start - 1].raw == ","
    if not (led and parted):
        return False
    verbs = [index for index in scene.by_class["load_verb"] if index < label.start]
    return bool(verbs) and noun_from(scene, verbs[-1] + 1) is not None


def rests_on_scale(scene: Scene, label: Label) -> bool:
    """'put the coupler on the bathroom scale, 620 lb', of a trailer alone any load of a coupler."""
    behind = scene.tokens[label.end : label.end + FARTHEST_SCALE]
    laid = bool(behind) and ("on_the" in behind[0].groups or "weigh_cue" in behind[0].senses)
    laid = laid and any("weigh_cue" in each.senses for each in behind)
    laid = laid and label.bound is not None and label.bound.value >= LEAST_TONGUE
    return laid or stood_alone(scene) == "trailer"


FARTHEST_SCALE, LEAST_TONGUE = 3, 40
"""Tokens of 'on the bathroom scale', and pounds or kilograms: a coupler bears more there."""


def is_exact(scene: Scene, figure: Figure, label: Label) -> bool:
    """'weighed the flatdeck empty, 3,180 on the nose': to the pound, for no tongue bears as much.

    The figure is then that of the vehicle which the sentence names before.
    """
    said = label.start == figure.end + 1 and "on_the" in scene.tokens[figure.end].groups
    exact = said and "exact_or_tongue" in scene.tokens[label.start].groups
    unit = MASS_UNIT[scene.context.units]
    if not exact or label.vehicle or kilograms(figure, unit) < LEAST_EXACT:
        return False
    start, _ = scene.sentence_of(figure.start)
    heads = [
        other
        for other in scene.labels
        if start <= other.start < figure.start and other.bound is None and other.places
    ]
    label.bound, figure.label = None, heads[-1] if heads else None
    if heads:
        heads[-1].bound = figure
    return True


LEAST_EXACT = 1_000.0
"""Kilograms: a 'nose' that bears more is none (common practice, no source)."""


def bears_down(scene: Scene, figure: Figure) -> bool:
    """'moved the quad back, 1,180 lb on the tongue': what bears down since something was moved.

    So it is where the tongue is told first: 'tongue with the quad moved forward: 1,060'.
    """
    if _heads_sentence(scene, figure):
        return True
    label = figure.label
    if not isinstance(label, Label) or label.whole != "tongue" or label.start < figure.end:
        return False
    start, _ = scene.sentence_of(figure.start)
    ahead = scene.tokens[start : figure.start]
    verb = next((at for at, token in enumerate(ahead) if "moves" in token.groups), len(ahead))
    turned = any("back_word" in token.groups for token in ahead[verb:])
    return turned and ahead[-1].raw == ","


def _heads_sentence(scene: Scene, figure: Figure) -> bool:
    """Whether a sentence begins with the tongue and ends with a colon and this one figure."""
    start, end = scene.sentence_of(figure.start)
    if scene.tokens[figure.start - 1].raw != ":":
        return False
    if any(token.kind is not MARK for token in scene.tokens[figure.end : end]):
        return False
    while start < figure.start and "article" in scene.tokens[start].groups:
        start += 1
    others = [each for each in scene.figures if start <= each.start < end and each is not figure]
    heads = (each for each in scene.labels if each.start == start and each.whole == "tongue")
    return not others and next(heads, None) is not None
