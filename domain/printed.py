"""What a figure looks like on paper, and the letters that were seen in place of its digits.

This file decides which cell of a page is a figure, with its money and its unit, and where a
letter can only be a digit (an O in a weight, an l in a price) or a digit only a letter (GR0SS). A
figure with a letter mended is never certain. It does not know what a figure is of.
"""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import replace

from domain.page import Cell, Row
from domain.quantities import MASSES, VOLUMES

MONEY_SIGNS = frozenset("$£€")

_FIGURE = re.compile(r"(?:[A-Z]{3} ?|[$£€] ?)?[\d.,']*\d(.*)", re.ASCII)
_UNITS = frozenset(
    (
        *(unit.casefold() for unit in (*MASSES, *VOLUMES)),
        "lbs",
        "kgs",
        "gals",
        "ltr",
        "litres",
        "libras",
        "kilos",
        "galones",
        "lts",
        "litros",
    )
)

_ALIKE = {"O": "0", "o": "0", "Q": "0", "D": "0", "l": "1", "I": "1", "|": "1", "i": "1",
          "s": "5", "S": "5", "B": "8", "Z": "2", "z": "2", "g": "9"}  # fmt: skip
"""Letters and the digits that they are taken for."""
_DIGITS = str.maketrans(_ALIKE)
_LIKE_A_FIGURE = re.compile(rf"[$£€]?[\d.,{''.join(map(re.escape, _ALIKE))}]+")

LEAST_DIGITS = 2
"""Digits that were seen as such in a word before any letter of it is taken for one."""


def has_digit(text: str) -> bool:
    """Whether a digit stands in a text."""
    return not text.isalpha() and any(character.isdigit() for character in text)


def bare(unit: str) -> str:
    """A unit without its brackets and its dot, in small letters."""
    return unit.casefold().strip(" .()")


def is_unit(text: str) -> bool:
    """Whether a text is a unit of mass or volume and nothing else."""
    return bare(text) in _UNITS


def is_figure(text: str) -> bool:
    """Whether a text is one number with its money and its unit, and nothing else."""
    found = _FIGURE.fullmatch(text)
    if found is None:
        return False
    unit = found[1].rpartition("/")[2]
    return not bare(unit) or is_unit(unit)


def mended(rows: Sequence[Row]) -> tuple[Row, ...]:
    """Rows with digits in place of the letters that look like them, where figures stand.

    A date or a clock that was seen without the space beside it is a word of its own. A figure
    stands behind a sign of money, before a unit, or under or over another figure that ends or
    begins where it does.
    """
    figures = [cell for row in rows for cell in row if is_figure(cell.text)]
    return tuple(
        tuple(
            _mended(_parted(cell), is_unit(after) or _in_a_column(cell, figures))
            for cell, after in zip(row, (*(cell.text for cell in row[1:]), ""), strict=True)
        )
        for row in rows
    )


_DATE, _CLOCK = r"\d{1,2}[/.-]\d{1,2}[/.-]\d{4}", r"\d{1,2}:\d{2}(?::\d{2})?"
_MOMENT = re.compile(rf"({_DATE}|(?:19|20)\d\d(?={_CLOCK})|{_CLOCK})")


def _parted(cell: Cell) -> Cell:
    """A cell with the dates and clocks in its words apart: 'DATE07/11/202614:22'."""
    parted = [
        (part, confidence)
        for word, confidence in zip(cell.words, cell.confidences, strict=True)
        for part in _MOMENT.split(word)
        if part
    ]
    words, confidences = zip(*parted, strict=True)
    return replace(cell, words=words, confidences=confidences)


_DIGIT_IN_WORD = re.compile(
    r"(?<=[A-Z])[015](?=[A-Z])|(?<=[a-z])[015](?=[a-z])|(?<=[A-Za-z])0(?![\w])"
)
_LETTERS = {"0": "O", "1": "I", "5": "S"}
LEAST_LETTERS = 4


def _spelled(word: str) -> str:
    """A word with a letter in place of the one digit inside it, or a nought that ends it.

    'GR0SS', and 'TRASER0', as words in Spanish end.
    """
    if sum(character.isalpha() for character in word) < LEAST_LETTERS:
        return word
    found = _DIGIT_IN_WORD.findall(word)
    if len(found) != 1 or sum(character.isdigit() for character in word) != 1:
        return word
    letter = _LETTERS[found[0]]
    return _DIGIT_IN_WORD.sub(letter if word.isupper() else letter.lower(), word)


def _mended(cell: Cell, figured: bool) -> Cell:
    """A cell with the letters of its figures mended; `figured` says that a figure ends it."""
    words, confidences = list(cell.words), list(cell.confidences)
    for index, (word, after) in enumerate(zip(words, (*words[1:], ""), strict=True)):
        alike = _LIKE_A_FIGURE.fullmatch(word) is not None
        enough = sum(character.isdigit() for character in word) >= LEAST_DIGITS
        placed = word[0] in MONEY_SIGNS or is_unit(after) or (not after and figured)
        meant = word.translate(_DIGITS)
        if alike and enough and placed and meant != word:
            words[index], confidences[index] = meant, 0.0
        else:
            words[index] = _spelled(word)
    return replace(cell, words=tuple(words), confidences=tuple(confidences))


def _in_a_column(cell: Cell, figures: Sequence[Cell]) -> bool:
    near = cell.height / 2
    return any(
        abs(figure.right - cell.right) < near or abs(figure.left - cell.left) < near
        for figure in figures
        if figure is not cell
    )
