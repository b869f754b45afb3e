"""Two limits under one word for axles, 'axles 5,250 and 7,000': the front's and the rear's.

This file decides when two figures are such a pair. A truck's two axles bear differently, and are
told from the front; a trailer's are alike, and one figure stands for them.
"""

from __future__ import annotations

from collections.abc import Mapping
from itertools import pairwise

from domain.reading.figures import MASS, Figure
from domain.reading.framing import LEAST_STAMPED
from domain.reading.label import Label
from domain.reading.scene import Scene
from domain.reading.whose_plate import is_trailers

AXLED = frozenset(("axle_noun", "rating"))
"""Classes of term that may name several axles at once."""

JOINING = "/,&"
MOST_BETWEEN = 2


def axle_pairs(scene: Scene, *, framed: bool) -> Mapping[int, tuple[str, str]]:
    """Subject and rating of each figure of a pair, by where the figure starts; mostly none."""
    if len(scene.figures) < 2 or AXLED.isdisjoint(scene.by_class):
        return {}
    for first, second in pairwise(scene.figures):
        label = first.label
        if not isinstance(label, Label) or not (framed or label.rating) or _goes_on(scene, second):
            continue
        if _names_axles(label) and label.end <= first.start and _is_pair(scene, first, second):
            if label.vehicle == "trailer" or is_trailers(scene, first):
                return {}
            return {
                first.start: ("truck", "gawr_front"),
                second.start: ("truck", "gawr_rear"),
            }
    return {}


def _names_axles(label: Label) -> bool:
    """Whether a label is of axles, and of none of them alone."""
    apart = label.axle or label.end_of or label.ordinal or label.side
    return not apart and (label.rating == "gawr" or (label.wheel == "axle" and not label.rating))


def _is_pair(scene: Scene, first: Figure, second: Figure) -> bool:
    stamped = all(
        each.dimension in (None, MASS) and each.value >= LEAST_STAMPED and each.claimed is None
        for each in (first, second)
    )
    between = scene.tokens[first.end : second.start]
    joined = 0 < len(between) <= MOST_BETWEEN and all(
        token.raw in JOINING or "and" in token.groups for token in between
    )
    return stamped and joined and second.label is None and first.value != second.value


def _goes_on(scene: Scene, figure: Figure) -> bool:
    """Whether a further figure without a label of its own follows: three are no pair."""
    behind = next((each for each in scene.figures if each.start >= figure.end), None)
    return behind is not None and behind.label is None and behind.start - figure.end <= 1
