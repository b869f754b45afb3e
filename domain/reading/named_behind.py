"""A row whose names stand behind its loads: '4,410 front 3,020 rear 7,430'.

This file decides, where each name was taken for that of the load behind it, that the last load is
what the others make, so that each name is of the load before.
"""

from __future__ import annotations

from collections.abc import Sequence
from itertools import pairwise

from domain.entries import SUM_TOLERANCE
from domain.reading.figures import Figure
from domain.reading.label import Label

SHORTEST = 3
"""Loads: two axles and what they make."""


def name_by_sum(figures: Sequence[Figure]) -> bool:
    """Give each name to the load before it, where the last makes the sum of the others."""
    if len(figures) < SHORTEST or figures[0].label is not None:
        return False
    *parts, whole = figures
    if abs(sum(each.value for each in parts) - whole.value) > SUM_TOLERANCE * whole.value:
        return False
    labels = [each.label for each in figures[1:]]
    for (before, after), label in zip(pairwise(figures), labels, strict=True):
        if not isinstance(label, Label) or label.whole or not before.end <= label.start:
            return False
        if label.end > after.start:
            return False
    for figure, label in zip(parts, labels, strict=True):
        if isinstance(label, Label):
            figure.label, label.bound = label, figure
    whole.label = None
    return True
