"""Numbers that are no figures by how they are written or by what is typed to them.

This file decides it of versions, sizes, numbers with letters, of axles and of rows, whatever else
is said; who else may own a number is decided in `claims`.
"""

from __future__ import annotations

from collections.abc import Sequence
from itertools import takewhile

from domain.reading.claimed_prices import SPEAKS_OF_FUEL
from domain.reading.figures import DURATION, VOLUME, Figure, token_at
from domain.reading.tokens import BREAK, NUMBER, WORD, Token


def owner_by_form(
    figure: Figure,
    tokens: Sequence[Token],
    before: Token | None,
    after: Token | None,
    said: frozenset[str],
) -> str | None:
    """What the number is by how it is written and what is typed to it, whatever else is said."""
    dimension, token, start = figure.dimension, figure.token, figure.start
    if dimension == DURATION:
        return "a duration"
    typed_to = before is not None and before.end == tokens[start].start
    if typed_to and _is_part_of_word(tokens, start):
        return "a number with letters"
    if dimension == VOLUME and tokens[figure.end - 1].text == "g":
        return "a number with letters" if _is_generation(tokens, figure, said) else None
    if token.raw[0] == "0" and token.decimals == 0 and len(token.raw) > 2:
        return "a number with leading zeros"
    if dimension is not None:
        return None
    if token.decimals == -1:
        return "a fraction"
    if after is None:
        return None
    if after.glued and _is_word_of_its_own(figure, before, after):
        return f"{token.raw}{after.raw}"
    if figure.value > MOST_ROWS:
        return None
    if after.raw == ")" and _is_in_brackets(tokens, start):
        return "an axle's number"
    if _numbers_row(tokens, figure):
        return "a row's number"
    counts = figure.value <= MOST_OF_AXLES and figure.count is None
    return COUNT_OF_AXLES if counts and _are_axles(tokens, figure.end) else None


MOST_OF_AXLES = 4


def _is_in_brackets(tokens: Sequence[Token], start: int) -> bool:
    """'AXLE 3 (TRAILER 1)  4,720': which of them it is, told once more."""
    before, further = token_at(tokens, start - 1), token_at(tokens, start - 2)
    if before is None or further is None or further.raw != "(":
        return False
    return not before.senses.keys().isdisjoint(COUNTED)


def _is_generation(tokens: Sequence[Token], figure: Figure, said: frozenset[str]) -> bool:
    """'a 3G phone', '15g of pepper', '894,3G': a g is gallons where fuel is spoken of."""
    if not LEAST_PUMPED <= figure.value <= MOST_PUMPED:
        # 'dsl 412g od 212766': nothing but a slip, which the tank's size then tells
        return not (said >= NAMES_FILL and MOST_PUMPED < figure.value < LEAST_ODOMETER)
    if not said.isdisjoint(SPEAKS_OF_FUEL):
        return False
    if figure.value < LEAST_UNNAMED:
        return True
    # '30.2g $3.899' and '30g 48,290' are fills.
    return figure.whole and not any(token.value >= LEAST_ODOMETER for token in tokens)


NAMES_FILL = frozenset(("product", "odometer"))
"""Classes of term that together name a fill, whatever its volume."""


LEAST_PUMPED, MOST_PUMPED, LEAST_UNNAMED = 0.5, 150, 5
"""Gallons at a pump, and those that are taken for some without a word for fuel."""


LEAST_ODOMETER = 1_000


def _is_part_of_word(tokens: Sequence[Token], start: int) -> bool:
    """'D7000', 'f/1.8', 'reza_99999': typed to a letter that names nothing, or to a mark."""
    before, further = tokens[start - 1], token_at(tokens, start - 2)
    glued = further is not None and further.kind is NUMBER and further.end == before.start
    if glued and "unit" in before.senses:
        return False  # '31.2g51440'
    if before.kind is WORD and len(before.raw) == 1 and before.raw.isalpha():
        return before.senses.keys().isdisjoint(PLACES_BY_LETTER)
    if further is None or further.kind is not WORD or further.end != before.start:
        return False
    lens = len(further.raw) == 1 and further.raw.isalpha() and not further.glued
    return before.raw == "_" or (before.raw == "/" and lens)


def is_size(tokens: Sequence[Token], figure: Figure) -> bool:
    """'1280x800': two numbers with nothing but an x between, both too big for a count of axles."""
    return _times(tokens, figure.start - 1) or _times(tokens, figure.end)


def _times(tokens: Sequence[Token], index: int) -> bool:
    if not 0 < index < len(tokens) - 1 or tokens[index].text != "x" or not tokens[index].glued:
        return False
    before, after = tokens[index - 1], tokens[index + 1]
    numbers = before.kind is NUMBER and after.kind is NUMBER and after.glued
    return numbers and min(before.value, after.value) >= LEAST_SIZE


LEAST_SIZE = 100


def names_file(tokens: Sequence[Token], index: int) -> bool:
    """'16772.itcrypt': a point and a word that nobody knows, typed to a number."""
    point, word = tokens[index], token_at(tokens, index + 1)
    if word is None or not (point.glued and word.glued):
        return False
    return word.kind is WORD and not (word.senses or word.groups)


PLACES_BY_LETTER = frozenset(("axle", "vehicle", "whole", "side"))
"""What a letter before a load can name: 'S5,180 D6,240 T8,860'."""


def _are_axles(tokens: Sequence[Token], index: int) -> bool:
    """'3 axles', 'two trailer axles'."""
    after, behind = tokens[index], token_at(tokens, index + 1)
    if behind is not None and after.senses.keys() & {"vehicle", "name"}:
        after = behind
    return "axle_noun" in after.senses


COUNT_OF_AXLES = "a count of axles"


COUNTED = frozenset(("axle_noun", "axle", "vehicle"))
"""Classes of term whose things are weighed one by one and have no price."""


def _is_word_of_its_own(figure: Figure, before: Token | None, after: Token) -> bool:
    """'2moro', '4ever': letters typed to a number that are no unit make a word of it."""
    return (
        after.kind is WORD
        and not after.senses
        and figure.token.end == after.start
        and not figure.token.said.spoken
        and not (before is not None and before.raw == "/" and len(after.text) == 1)  # '121/118Q'
    )


def _numbers_row(tokens: Sequence[Token], figure: Figure) -> bool:
    """'1 Steer  1.30': a small number that opens a line with a label and a figure behind it.

    A word may name what is numbered: 'PAD 1 STEER .... 5,380'.
    """
    if not figure.whole:
        return False
    at = figure.start - 1
    if at >= 0 and tokens[at].kind is not BREAK:
        opens = tokens[at].kind is WORD and (not at or tokens[at - 1].kind is BREAK)
        return opens and _is_listed(tokens, figure) and _counts_rows(tokens, at)
    label, other = token_at(tokens, figure.end), token_at(tokens, figure.end + 1)
    labelled = label is not None and bool(label.senses.keys() & ROW_NAMES)
    return labelled and other is not None and (other.kind is NUMBER or other.raw in ":=")


def _is_listed(tokens: Sequence[Token], figure: Figure) -> bool:
    """Whether a place stands behind a row's number, and its load at the end of the line."""
    behind = tokens[figure.end : figure.end + LONGEST_LINE]
    line = list(takewhile(lambda token: token.kind is not BREAK, behind))
    placed = bool(line) and not line[0].senses.keys().isdisjoint(ROW_NAMES)
    return placed and [token.value >= LEAST_LISTED for token in line if token.kind is NUMBER] == [
        True
    ]


def _counts_rows(tokens: Sequence[Token], at: int) -> bool:
    """Whether a word numbers rows: a strange one, or one that numbers the truck's axles too.

    A trailer has one row among them; of several the number says which axle it is.
    """
    senses = tokens[at].senses
    if not senses:
        return True
    if "axle_noun" not in senses:
        return False
    rows = [
        named.senses
        for first, number, named in zip(tokens, tokens[1:], tokens[2:], strict=False)
        if first.text == tokens[at].text and number.kind is NUMBER
    ]
    of_truck = any("axle" in row for row in rows)
    return of_truck and sum("vehicle" in row for row in rows) <= 1


LONGEST_LINE = 24
"""Tokens behind a row's number, the dots that lead to its load among them."""

LEAST_LISTED = 100

ROW_NAMES = frozenset(("axle", "vehicle", "whole", "end"))
"""Classes of term for what a row of a ticket is of."""


MOST_ROWS = 6
"""Lines that a ticket numbers."""


def is_hyphened(tokens: Sequence[Token], index: int) -> bool:
    """'WB-3391': capitals that name nothing, a hyphen and a number, without a space."""
    letters, hyphen = token_at(tokens, index - 2), token_at(tokens, index - 1)
    return (
        letters is not None
        and hyphen is not None
        and hyphen.raw == "-"
        and hyphen.glued
        and hyphen.end == tokens[index].start
        and letters.raw.isupper()
        and letters.senses.keys().isdisjoint(PLACES)
    )


def dot_joins(tokens: Sequence[Token], index: int) -> bool:
    """Whether a dot joins two numbers, without a space between."""
    if not 0 < index < len(tokens) - 1 or tokens[index].raw != ".":
        return False
    before, after = tokens[index - 1], tokens[index + 1]
    numbers = before.kind is NUMBER and after.kind is NUMBER
    return numbers and tokens[index].glued and after.glued


PLACES = frozenset(("axle", "vehicle", "whole", "initial", "corner", "end", "side", "unit"))
"""Classes of term that a figure may be hyphened to."""
