"""What a truck may tow, which differs with how the trailer is hitched.

'Tow rating 14,000 conventional and 20,100 fifth wheel': this file decides that a second figure is
such a limit, too, and which of them holds for trailers on a pin.
"""

from __future__ import annotations

from collections.abc import Mapping
from itertools import pairwise

from domain.context import MASS_UNIT
from domain.reading.figures import MASS, Figure, kilograms
from domain.reading.framing import LABEL_STEP, LEAST_STAMPED
from domain.reading.label import Label
from domain.reading.scene import Scene
from domain.reading.tokens import MARK, Token

HITCH_KINDS = frozenset(("pin_hitch", "bumper_pull"))
"""Groups of words for how a trailer is hitched."""


def tows_by_hitch(scene: Scene) -> Mapping[int, tuple[str, str]]:
    """Subject and rating of limits of what is towed that no label names, by where they start.

    Mostly none; most often it is the second, which another way of hitching is for.
    """
    tows = [figure.start for figure in scene.figures if _tows(scene, figure)]
    tows += [
        second.start
        for first, second in pairwise(scene.figures)
        if _parted_at(scene, first, second) is not None
    ]
    return dict.fromkeys(tows, ("truck", "tow"))


def _tows(scene: Scene, figure: Figure) -> bool:
    """'truck tows 14,200 conventional': how much, and how it is hitched."""
    label = figure.label
    if not (isinstance(label, Label) and label.only_vehicle and label.vehicle == "truck"):
        return False
    verb, kind = scene.tokens[figure.start - 1], scene.tokens[figure.end : figure.end + 1]
    told = any(not HITCH_KINDS.isdisjoint(token.groups) for token in kind)
    return told and "tows_much" in verb.groups and figure.value >= LEAST_STAMPED


def _parted_at(scene: Scene, first: Figure, second: Figure) -> int | None:
    """Where what is said of one limit ends, and what is said of the next begins; mostly nowhere."""
    label, own = first.label, second.label
    if not isinstance(label, Label) or not (label.rating == "tow" or _tows(scene, first)):
        return None
    if own is not None and not (isinstance(own, Label) and own.only_vehicle):
        return None
    if second.dimension not in (None, MASS) or min(first.value, second.value) < LEAST_STAMPED:
        return None
    between = range(first.end, second.start)
    behind = scene.tokens[second.end : second.end + 1]
    around = [*(scene.tokens[at] for at in between), *behind]
    if all(HITCH_KINDS.isdisjoint(token.groups) for token in around):
        return None
    if not all(_is_small(scene.tokens[at]) for at in between):
        return None
    joined = next((at for at in between if _joins(scene.tokens[at])), None)
    if joined is None and len(between) == 1 and not HITCH_KINDS.isdisjoint(around[0].groups):
        return first.end + 1  # 'tows 14,200 conventional 18,700 gooseneck'
    return joined


def _joins(token: Token) -> bool:
    return token.raw in ",/;" or "and" in token.groups


def _is_small(token: Token) -> bool:
    """Whether a word may stand between two limits: which hitch they are for, and little words."""
    if "weigh_cue" in token.senses:
        return False  # 'tow rating 14,000 and the fifth wheel weighs 12,400'
    small = token.kind is MARK or "glue" in token.senses or "unit" in token.senses
    return small or not HITCH_KINDS.isdisjoint(token.groups)


def by_pin(scene: Scene, figure: Figure) -> str | None:
    """'tow rating 20,000 fifth wheel': it holds for trailers on a pin, and for no others.

    What leads to another figure is said of that: 'bumper 14,000 and gooseneck 20,100'.
    """
    start, end = scene.clause_of(figure.start)
    for first, second in pairwise(scene.figures):
        parted = _parted_at(scene, first, second) if figure in (first, second) else None
        if parted is not None:
            start, end = (start, parted) if figure is first else (parted, end)
    following = next((each.start for each in scene.figures if each.start >= figure.end), end)
    if following < end and scene.phrase_said("pin_hitch", figure.end, following):
        joined = any("and" in each.groups for each in scene.tokens[figure.end : following])
        end = figure.start if joined else end
    return scene.phrase_said("pin_hitch", start, end)


def pin_said(scene: Scene, figure: Figure, subject: str) -> str | None:
    """'fifth wheel gvwr 16,500', 'hitch 20k, 5k pin': what says that the trailer has a pin."""
    label = figure.label
    if isinstance(label, Label) and "pin_load" in scene.tokens[label.start].groups:
        return scene.words_between(label.start, label.end)
    part = scene.clause_of(figure.start) if subject == "hitch" else (0, None)
    return scene.phrase_said("pin_hitch", *part)


def pulls_so_much(scene: Scene, figure: Figure) -> bool:
    """'towball 3500 kg': a maker's round figure, of which hardly a tenth rests on a ball."""
    stamped = not figure.value % LABEL_STEP and "weigh_cue" not in scene.by_class
    return stamped and kilograms(figure, MASS_UNIT[scene.context.units]) >= LEAST_PULLED


LEAST_PULLED = 1_000.0
"""Kilograms: so much rests on no ball (common practice, no source)."""
