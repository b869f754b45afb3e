"""Lines of a pasted ticket or receipt that say nothing of the log: an address, a code, a slogan.

On paper what stands on a labelled line counts. This file decides which lines of a message with
several are such: lines with words that nobody knows and a number that has no unit and no label.
Their numbers are left aside. A single line is never decided here, nor one of a bare number.
"""

from __future__ import annotations

from collections.abc import Sequence
from itertools import pairwise

from domain.context import Context
from domain.reading.claims import HEADS_AMOUNT
from domain.reading.figures import Figure, follows_odometer
from domain.reading.label import Label
from domain.reading.tokens import BREAK, WORD, Token

LEAST_BREAKS = 3
LEAST_TOLD = 2
"""Lines with a label or a unit and a figure: from so many on a message is a ticket or a receipt."""


def leave_headings(tokens: Sequence[Token], figures: Sequence[Figure], context: Context) -> None:
    """Claim the bare numbers on lines of a ticket or a receipt that name nothing of the log."""
    breaks = [index for index, token in enumerate(tokens) if token.kind is BREAK]
    if len(breaks) < LEAST_BREAKS:
        return
    lines = list(pairwise([-1, *breaks, len(tokens)]))
    told = [_says(tokens, figures, *line) for line in lines]
    if sum(told) < LEAST_TOLD:
        return
    for (start, end), says in zip(lines, told, strict=True):
        if says or not any(_is_strange(token) for token in tokens[start + 1 : end]):
            continue
        for figure in _within(figures, start, end):
            if not follows_odometer(figure.value, context):
                figure.claimed = "a line of its own on the paper"


def _within(figures: Sequence[Figure], start: int, end: int) -> list[Figure]:
    """The figures between two breaks that nobody claims yet."""
    return [each for each in figures if start < each.start < end and each.claimed is None]


def _says(tokens: Sequence[Token], figures: Sequence[Figure], start: int, end: int) -> bool:
    """Whether a line has a figure, and a label or a unit for it."""
    own = _within(figures, start, end)
    return any(_is_named(each) or each.dimension is not None for each in own) or (
        bool(own)
        and any(
            not (TELLING.isdisjoint(token.senses) and HEADS_AMOUNT.isdisjoint(token.groups))
            for token in tokens[start + 1 : end]
        )
    )


def _is_named(figure: Figure) -> bool:
    """Whether a label names it; the '3RD' of a street names nothing."""
    return isinstance(figure.label, Label) and not figure.label.only_ordinal


TELLING = frozenset(("unit", "per_volume", "odometer", "trip_meter"))
"""Classes of term that say what a figure of their line is."""


def _is_strange(token: Token) -> bool:
    """A word that no phrase knows and no group has, or that names the paper itself."""
    known = token.senses or token.groups - ON_PAPER
    return token.kind is WORD and not known and len(token.raw) > 1


ON_PAPER = frozenset(("document",))
