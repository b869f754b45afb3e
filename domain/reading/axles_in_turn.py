"""Axles that are counted without being called so again: 'trailer axle one 5,910, two 6,020'.

This file decides which numbers behind a numbered axle and its load count the next one.
"""

from __future__ import annotations

from collections.abc import Sequence

from domain.reading.figures import Figure
from domain.reading.label import Label, make_label
from domain.reading.labels import AXLE_NUMBER, LEAST_ON_AXLE
from domain.reading.tokens import Token

LEAST_IN_TURN = 4
"""Figures of two such axles: a number and a load each."""


def count_on(tokens: Sequence[Token], figures: Sequence[Figure], labels: list[Label]) -> None:
    """Give each number that counts the next axle a label of its own, and claim it."""
    at = {figure.start: figure for figure in figures if figure.claimed is None}
    counted = [label for label in labels if label.wheel == "axle" and label.ordinal]
    for first in counted:
        last = first
        while (following := _next_axle(tokens, at, last)) is not None:
            number, start = following
            number.claimed = AXLE_NUMBER
            last = make_label(start)
            last.vehicle, last.name, last.wheel = first.vehicle, first.name, "axle"
            last.ordinal = int(number.value)
            labels.append(last)
    if len(counted) < len(labels):
        labels.sort(key=_where)


def _next_axle(
    tokens: Sequence[Token], at: dict[int, Figure], label: Label
) -> tuple[Figure, int] | None:
    """The number behind an axle's load which counts the one behind it, and where it stands."""
    load = _load(tokens, at, label.end)
    if load is None or label.ordinal is None:
        return None
    start = load.end
    while start < len(tokens) and _parts(tokens[start]):
        start += 1
    number = at.get(start)
    if number is None or number.unit or number.end != start + 1:
        return None
    if number.value != label.ordinal + 1 or _load(tokens, at, number.end) is None:
        return None
    return number, start


def _load(tokens: Sequence[Token], at: dict[int, Figure], index: int) -> Figure | None:
    """The load that stands behind an axle's number, or behind its colon."""
    if index < len(tokens) and tokens[index].raw in ":=":
        index += 1
    load = at.get(index)
    return load if load is not None and load.value >= LEAST_ON_AXLE else None


def _parts(token: Token) -> bool:
    """Whether a token only parts one axle from the next: a mark, 'and', 'then'."""
    return token.raw in "/|,-&;" or not token.groups.isdisjoint(("and", "then"))


def _where(label: Label) -> int:
    return label.start
