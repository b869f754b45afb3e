"""A side said once for several places: 'left: steer 560, drive 690. right: steer 570, drive 680'.

This file decides which labels without a side are of the side that was named before them. It
shows where a place is told twice, once after the left and once after the right; an axle that
is told once stays whole, whatever side stands before it.
"""

from __future__ import annotations

from collections.abc import Sequence
from copy import copy
from itertools import pairwise

from domain.reading.figures import Figure
from domain.reading.label import Label
from domain.reading.tokens import MARK, NUMBER, Token

SIDED = frozenset(("side", "corner"))
"""Classes of term that name a side."""

BOTH = {"left", "right"}


def carry_sides(
    tokens: Sequence[Token], figures: Sequence[Figure], labels: Sequence[Label]
) -> None:
    """Give the places that are told once a side the side that they are told under."""
    both = _in_turn(tokens, labels)
    if both:
        _carry_in_turn(tokens, figures, labels, both)
        return
    if len(labels) == len(BOTH) + 1 and labels[0].bound is None:
        _leave_place(*labels)
    told: dict[tuple[object, ...], list[tuple[Label, str]]] = {}
    side: str | None = None
    for number, label in enumerate(labels):
        if label.side:
            side = label.side if not label.only_side or _heads(tokens, labels, number) else None
        elif label.axle or label.end_of or (label.wheel and label.ordinal) or _is_trailer(label):
            if side is not None and label.bound is not None and not label.rating:
                place = (label.axle, label.end_of, label.vehicle, label.ordinal)
                told.setdefault(place, []).append((label, side))
        elif not label.subject:
            side = None
    for each in told.values():
        if len(each) == len(BOTH) and {side for _, side in each} == BOTH:
            for label, side in each:
                label.side = side


def _leave_place(one: Label, other: Label, place: Label) -> None:
    """'left 2,580 right 2,610 on the steer': a side for each, and the place behind is of both."""
    first, second = other.bound, place.bound
    if first is None or second is None or not (one.only_side and other.only_side):
        return
    if one.end == first.start and other.end == second.start:
        first.label, one.bound = one, first
        second.label, other.bound = other, second
        place.bound = None


def _in_turn(tokens: Sequence[Token], labels: Sequence[Label]) -> tuple[str, str] | None:
    """'lefts then rights: ...', 'left/right by axle: ...': the order of two figures of a place."""
    if _names_both(tokens, labels):
        return "left", "right"
    for label in labels:
        free = label.side == "left" and label.only_side and not label.bound
        if free and label.start and "right_then" in tokens[label.start - 1].groups:
            return "right", "left"
    for one, other in pairwise(labels):
        if not (one.only_side and other.only_side) or one.bound or other.bound:
            continue
        if one.side and other.side and one.side != other.side and other.start - one.end == 1:
            between = tokens[one.end]
            if between.raw in "/-&," or not between.groups.isdisjoint(("then", "and")):
                return one.side, other.side
    return None


def _names_both(tokens: Sequence[Token], labels: Sequence[Label]) -> bool:
    """'steer L/R 2,440/2,390': both sides by one word, which leaves its label without one."""
    both = False
    for label in labels:
        named = tokens[label.start : label.end]
        if any("left_then_right" in token.groups and "side" in token.senses for token in named):
            both, label.side = True, None
    return both


def _carry_in_turn(
    tokens: Sequence[Token],
    figures: Sequence[Figure],
    labels: Sequence[Label],
    sides: tuple[str, str],
) -> None:
    """'steer 2,660 and 2,700, drive 3,380 and 3,460': two figures of a place, a side each."""
    for one, other in pairwise(figures):
        label = one.label
        if not isinstance(label, Label) or label.bound is not one or other.label is not None:
            continue
        if label.side or label.whole or label.subject or label.field or label.rating:
            continue
        if other.claimed or other.start - one.end > 1 or not label.end <= one.start:
            continue
        label.side, behind = sides[0], copy(label)
        behind.side, behind.bound, other.label = sides[1], other, behind


def number_wheels(figures: Sequence[Figure], labels: Sequence[Label]) -> None:
    """'camper left wheels 2,440 2,470 right wheels 2,380 2,410': a side's wheels, from the front.

    Only a trailer has axles enough alike for it; both sides have as many.
    """
    heads = [label for label in labels if label.side and label.bound is not None]
    sided = len(heads) == len(BOTH) and {label.side for label in heads} == BOTH
    if not sided or any(label.axle or label.end_of or label.ordinal for label in heads):
        return
    if all(label.vehicle != "trailer" for label in heads):
        return
    rows = [_row_behind(figures, label) for label in heads]
    if len(rows[0]) != len(rows[1]) or len(rows[0]) not in AXLES:
        return
    for label, row in zip(heads, rows, strict=True):
        label.vehicle, label.wheel, label.ordinal = "trailer", "axle", 1
        for number, figure in enumerate(row[1:], 2):
            own = copy(label)
            own.ordinal, own.bound, figure.label = number, figure, own


AXLES = (2, 3)
"""How many axles a trailer has whose wheels are told one by one."""


def _row_behind(figures: Sequence[Figure], label: Label) -> list[Figure]:
    """The figure of a label, and those without a label right behind it."""
    row: list[Figure] = []
    for figure in figures:
        if figure is label.bound or (
            row and figure.label is None and not figure.claimed and figure.start - row[-1].end <= 1
        ):
            row.append(figure)
        elif row:
            break
    return row


def _is_trailer(label: Label) -> bool:
    return label.only_vehicle and label.vehicle == "trailer"


def _heads(tokens: Sequence[Token], labels: Sequence[Label], number: int) -> bool:
    """Whether a place follows right behind a side that has no figure of its own."""
    label = labels[number]
    behind = labels[number + 1].start if number + 1 < len(labels) else len(tokens)
    return label.bound is None and all(
        token.kind in (MARK, NUMBER) or token.raw in ":=" or "unit" in token.senses
        for token in tokens[label.end : behind]
    )
