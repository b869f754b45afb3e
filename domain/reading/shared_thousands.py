"""Thousands said once for a row of loads: '5.2, 6.9 and 9.7 thousand', 'steer 5.2 drive 6.9k'.

This file decides which figures beside such a number are in thousands as it is, where they are
told in one row with it and differ no more from it than loads of one rig do.
"""

from __future__ import annotations

from collections.abc import Sequence
from typing import cast

from domain.reading.tokens import MARK, NUMBER, WORD, Number, Said, Token


def share_thousands(tokens: Sequence[Token]) -> None:
    """Scale the short figures that stand in one row with a number of thousands."""
    for index, token in enumerate(tokens):
        if token.said.scaled and LEAST <= token.value <= MOST:
            whole = token.value / 1000
            for row in (row_before(tokens, index, whole), _row_behind(tokens, index, whole)):
                first, last = sorted((row[-1] if row else index, index))
                if len(row) >= SHORTEST_ROW or any(map(_is_axle, tokens[first:last])):
                    for at in row:
                        _scale(cast(Number, tokens[at]))


def row_before(tokens: Sequence[Token], index: int, whole: float) -> list[int]:
    """Where the short figures of a row stand that ends with a number, the last first.

    `whole` is that number as they say theirs.
    """
    return _row(tokens, range(index - 1, -1, -1), whole)


def _row_behind(tokens: Sequence[Token], index: int, whole: float) -> list[int]:
    """'steer 5.2k drive 6.9 trailer 9.7': those behind it, up to one that has a unit."""
    row = _row(tokens, range(index + 1, len(tokens)), whole)
    behind = tokens[row[-1] + 1 :][:1] if row else ()
    return row[:-1] if any("unit" in token.senses for token in behind) else row


def _row(tokens: Sequence[Token], places: range, whole: float) -> list[int]:
    row: list[int] = []
    for at in places:
        token = tokens[at]
        if token.kind is NUMBER:
            if token.decimals not in SHORT or not 1 / UNLIKE < token.value / whole < UNLIKE:
                break
            row.append(at)
        elif not _leads_on(token):
            break
    return row


def _leads_on(token: Token) -> bool:
    """Whether a row goes on over it: a mark, a small word, the name of an axle."""
    if token.kind is MARK:
        return token.raw in ROW_MARKS
    return token.kind is WORD and not NAMES.isdisjoint(token.senses)


def _is_axle(token: Token) -> bool:
    return not AXLES.isdisjoint(token.senses)


def _scale(token: Number) -> None:
    token.value, token.decimals = round(token.value * 1000, 3), 0
    token.said = Said(spoken=token.said.spoken, scaled=True)


LEAST, MOST = 1_000, 30_000
"""Pounds or kilograms: what a row of thousands ends with; an odometer mostly shows more."""

SHORT = (1, 2)
"""Decimals of thousands: '5.2', '5.18'; with three a gallon is paid."""

UNLIKE = 6
"""Loads of one rig differ less than this many times."""

SHORTEST_ROW = 2
"""Figures beside it, of which no axle is named: '24.1, 28.3k' is a fill-up."""

ROW_MARKS = ",/|&-+"

AXLES = frozenset(("axle", "end"))
"""Classes of term of which one speaks for loads."""

NAMES = AXLES | {"glue", "vehicle", "axle_noun"}
"""Classes of term over which a row goes on."""
