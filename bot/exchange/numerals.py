"""Numbers as the tables of other countries write them.

This file decides whether a comma or a point stands before the decimals, by the number itself,
else by the others of its table, else by the customs of the logbook's country: 1.480,5 and
1,480.5 are one figure, and 1.489 is a price or a load. It does not know what a number is of.
"""

from __future__ import annotations

import re
from collections import Counter
from collections.abc import Iterable, Sequence

from bot.exchange.columns import Cell

COMMA, POINT = ",", "."
OTHER = {COMMA: POINT, POINT: COMMA}

_NUMERAL = re.compile(r"(?<![\d.,])\d+(?:[.,]\d+)+(?![\d.,]*\d)")
_LONE = re.compile(r"[^\d\n]{0,6}(\d+(?:[.,]\d+)+)[^\d\n]{0,12}")
"""A cell that is one number, with its sign of money or its unit."""


def decimal_sign(rows: Iterable[Sequence[Cell]], usual: str) -> str:
    """What stands before the decimals in a table: as most of its numbers show, else as usual."""
    texts = (cell.strip() for row in rows for cell in row if isinstance(cell, str))
    found = (_LONE.fullmatch(text) for text in texts)
    shown = Counter(sign for each in found if each and (sign := _shown_by(each[1])))
    if shown[COMMA] == shown[POINT]:
        return usual
    return max(shown, key=lambda sign: shown[sign])


def plain_numerals(text: str, decimal: str) -> str:
    """A text whose numbers are written without groups and with a decimal point."""
    return _NUMERAL.sub(lambda found: _plain(found.group(), decimal), text)


def _plain(numeral: str, decimal: str) -> str:
    sign = _shown_by(numeral) or (decimal if _is_grouped(numeral) else None)
    if sign is None:
        return numeral  # a date, a version, an address
    return numeral.replace(OTHER[sign], "").replace(sign, POINT)


def _shown_by(numeral: str) -> str | None:
    """The sign before a number's decimals, where the number itself shows it."""
    signs = [each for each in numeral if each in OTHER]
    last = signs[-1]
    if len(set(signs)) == 2:
        whole = numeral.rpartition(last)[0]
        return last if signs.count(last) == 1 and _is_grouped(whole) else None
    if len(signs) > 1:
        return OTHER[last] if _is_grouped(numeral) else None
    return None if _is_grouped(numeral) else last


def _is_grouped(numeral: str) -> bool:
    """Whether a number's digits could stand in groups of three."""
    return re.fullmatch(r"[1-9]\d{0,2}(?:([.,])\d{3})(?:\1\d{3})*", numeral) is not None
