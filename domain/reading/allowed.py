"""Figures that are said to be allowed: '1,340 allowed on the tongue', 'no more than 1,200'.

This file decides which figures are a limit by the words of their own clause. Which rating such a
figure is, is decided in `ratings`; none of them was weighed.
"""

from __future__ import annotations

from domain.reading.figures import LEAST_LOAD, MASS, Figure
from domain.reading.scene import Scene
from domain.reading.tokens import MARK, NUMBER

ALLOWS = frozenset(("allows", "bounds_above", "registered"))
"""Groups of words one of which a message has that says what is allowed."""

LEADS = frozenset(("for", "to", "bounds_above"))
"""Groups of words between what is registered and for how much."""

FARTHEST = 4
"""Tokens from the word that allows to how much: 'is allowed to pull about 12,500'."""


def is_allowed(scene: Scene, figure: Figure) -> bool:
    """Whether the words beside a figure say that so much is allowed, and no more."""
    if ALLOWS.isdisjoint(scene.groups) or figure.dimension not in (None, MASS):
        return False
    behind = scene.tokens[figure.end] if figure.end < len(scene.tokens) else None
    if behind is not None and "allows" in behind.groups:
        return True
    start, _ = scene.clause_of(figure.start)
    lead = scene.tokens[max(start, figure.start - 2) : figure.start]
    if len(lead) > 1 and "registered" in lead[0].groups and lead[1].groups & LEADS:
        return True  # 'registered for 26,000 combined', 'legal to 26,000'
    for index in range(figure.start - 1, max(start, figure.start - FARTHEST) - 1, -1):
        token = scene.tokens[index]
        if token.kind in (NUMBER, MARK) and token.raw != "'":
            return False
        if "allows" in token.groups:
            return True
        if "bounds_above" in token.groups:
            return scene.phrase_said("at_the_most", max(start, index - 3), index + 1) is not None
    return False


def leave_allowed(scene: Scene) -> None:
    """What is allowed and no rating was read of, is no load either."""
    for figure in scene.live:
        if figure.role is None and figure.value >= LEAST_LOAD and is_allowed(scene, figure):
            scene.claim(figure, "what is allowed")
