"""A trailer's axles of a size: '7k axles', '3 axles 7000 each', 'rated 3,500 per axle'.

This file decides which figures are what each axle of a trailer is made for. Axles that stand on a
label by themselves are read by `ratings`, and what was weighed of them by `positions`.
"""

from __future__ import annotations

from domain.reading.figures import MASS, Figure, token_at
from domain.reading.framing import LABEL_STEP, LEAST_STAMPED
from domain.reading.label import Label
from domain.reading.scene import Scene
from domain.reading.tokens import NUMBER, WORD
from domain.reading.weighed_not_rated import is_weighed


def is_rated_axle(scene: Scene, figure: Figure, label: Label) -> bool:
    """'6,000 lb axles on the trailer', '3 axles 7000 each': axles of a size, and none weighed."""
    beside = (*scene.tokens[figure.end : figure.end + 1], *scene.tokens[label.end : figure.start])
    if label.wheel == "axle" and any("each_one" in token.groups for token in beside):
        whole = figure.value >= LEAST_STAMPED and figure.dimension in (None, MASS)
        return whole and label.axle is None and not is_weighed(scene)
    if figure.count and label.wheel == "axle" and label.axle is None:
        return not scene.has("weigh_cue")  # 'camper axles 6000 x 2': no two weigh the same
    return (
        figure.dimension == MASS
        and label.start == figure.end
        and label.wheel == "axle"
        and "axle_word" in scene.tokens[label.start].groups
        and not scene.has("weigh_cue")
        and len([other for other in scene.figures if other.dimension == MASS]) == 1
    )


def is_axle_size(scene: Scene, figure: Figure) -> bool:
    """'dump trailer, 7k axles, gvwr 14k': axles of a size, with their trailer before them."""
    behind = scene.tokens[figure.end] if figure.end < len(scene.tokens) else None
    taken = any(
        label.start == figure.end
        and not label.rating
        and label.bound is not None
        and label.bound.value >= LEAST_STAMPED
        for label in scene.labels
    )
    return (
        behind is not None
        and not taken  # 'flatdeck 9,200 axles 4600 4600'
        and "axle_word" in behind.groups
        and figure.value >= LEAST_STAMPED
        and not figure.value % LABEL_STEP  # 'van on: 2,480 axles, 265 ball'
        and figure.dimension in (None, MASS)
        and not scene.has("weigh_cue")
    )


def is_per_axle(scene: Scene, figure: Figure) -> bool:
    """'rated 7,000 per axle', '3,500 lb on each axle': what one axle is made for, and no whole."""
    if "axle_word" not in scene.groups or figure.dimension not in (None, MASS):
        return False
    if figure.value < LEAST_STAMPED or figure.value % LABEL_STEP:
        return False
    behind = scene.tokens[figure.end : figure.end + FARTHEST_AXLE]
    at = next((at for at, token in enumerate(behind) if "axle_word" in token.groups), 0)
    if not at or behind[at - 1].groups.isdisjoint(OF_ONE):
        return False
    return all(each.kind is WORD and "and" not in each.groups for each in behind[:at]) and not (
        _has_figure(scene, figure.end + at)
    )


def _has_figure(scene: Scene, axle: int) -> bool:
    """'gvwr 14k, each axle gawr 7k': a figure of its own behind it, or behind a word for one."""
    first, second = (token_at(scene.tokens, axle + 1), token_at(scene.tokens, axle + 2))
    if first is None or "and" in first.groups or first.raw == ",":
        return False
    return first.kind is NUMBER or (second is not None and second.kind is NUMBER)


FARTHEST_AXLE = 3
"""Tokens: 'on each axle', 'for every axle'."""

OF_ONE = frozenset(("per_one", "each_one", "every_one"))
"""Groups of words before the axle that a figure is told of."""
