"""A place that something else is measured from: 'it sits 2 ft ahead of the rear axle'.

This file decides that such a place bears nothing: the figure behind it is of what stands there.
"""

from __future__ import annotations

from domain.reading.figures import LENGTH
from domain.reading.label import Label
from domain.reading.scene import Scene

LENGTHS = "length_word"
"""A group of words for a length, of which one stands where a place is measured from."""

MEASURED = "measured_lead"
"""A group of words that lead from a length to a place."""


def leave_measured(scene: Scene) -> None:
    """Leave the figures of places that are measured from."""
    for figure in scene.live:
        if isinstance(figure.label, Label) and _is_measured_from(scene, figure.label):
            scene.claim(figure, "what stands there")


def _is_measured_from(scene: Scene, label: Label) -> bool:
    """Whether a length and its leading words stand right before a place, or begin its label."""
    for figure in scene.figures:
        if figure.dimension != LENGTH or not figure.end <= label.start <= figure.end + FARTHEST:
            continue
        between = scene.tokens[figure.end : label.start + 1]
        if any(MEASURED in token.groups for token in between) and all(
            not LEADING.isdisjoint(token.groups) for token in between[:-1]
        ):
            return True
    return False


FARTHEST = 4
"""Tokens from a length to the place: 'in front of the'."""

LEADING = frozenset((MEASURED, "of", "in", "from", "article"))
