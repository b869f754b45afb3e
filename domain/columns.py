"""Rows of a page as the lines that a person would read of it.

This file decides which label a figure belongs to: the one in its own row however far away, the
one above it in its cell, or its row's name with its column's heading; and that a unit which a
heading gives is that of the figures below. A letter that stands where only a digit can is mended,
and the figure is then not certain. What a line means is for the reader of messages.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from itertools import pairwise

from domain.page import Cell, Row
from domain.quantities import MASSES, VOLUMES
from domain.reading.tables import Column, column_of, row_told

LONGEST_HEADING = 4
"""Words; more are a sentence."""

_FIGURE = re.compile(r"(?:[A-Z]{3} ?|[$£€] ?)?[\d.,']*\d(.*)", re.ASCII)
_UNITS = frozenset(
    (*(unit.casefold() for unit in (*MASSES, *VOLUMES)), "lbs", "kgs", "gals", "ltr", "litres")
)


@dataclass(frozen=True, slots=True)
class Line:
    """One line of text, and the confidence of the least certain word with a digit on it."""

    text: str
    confidence: float


def lines(rows: Sequence[Row]) -> tuple[Line, ...]:
    """The lines of a page, from top to bottom."""
    mended = [tuple(_mended(cell, rows) for cell in row) for row in rows]
    read: list[Line | None] = []
    heading: Row = ()
    heading_at = 0
    for row in mended:
        if not any(_has_digit(cell.text) for cell in row):
            heading, heading_at = _heading(row), len(read)
            read.append(_line(row, " ".join(cell.text for cell in row)))
            continue
        told = _told_by(heading, row)
        if told is None:
            read.append(_line(row, _side_by_side(row)))
        else:
            read.append(_line(row, told))
            read[heading_at] = None
    return tuple(line for line in read if line is not None)


def _line(row: Row, text: str) -> Line:
    sure = [
        confidence
        for cell in row
        for word, confidence in zip(cell.words, cell.confidences, strict=True)
        if _has_digit(word)
    ]
    return Line(text, min(sure, default=1.0))


def _heading(row: Row) -> Row:
    """A row as headings of what comes below, where it can be some."""
    return row if all(len(cell.words) <= LONGEST_HEADING for cell in row) else ()


def _told_by(heading: Row, row: Row) -> str | None:
    """A row with what its headings say, or None where they say nothing of it."""
    figures = [cell for cell in row if _is_figure(cell.text)]
    above = _above(heading, figures)
    if not above:
        return None
    columns = [_column(above[cell]) if cell in above else Column("", "") for cell in figures]
    cells = [cell.text for cell in figures]
    if len(figures) == len(row) == len(above):
        # Labels above figures: each is a name.
        return ", ".join(column.told(cell) for column, cell in zip(columns, cells, strict=True))
    named = len(figures) == len(row) - 1 and not _has_digit(row[0].text)
    if named and len(figures) == 1 and columns[0].unit:
        return Column(row[0].text, columns[0].unit).told(cells[0])
    if named and len(figures) == len(above) > 1:
        return row_told(row[0].text, columns, cells)
    return None


def _above(heading: Row, figures: Sequence[Cell]) -> Mapping[Cell, Cell]:
    """Which heading stands over which figure; none stands over two."""
    found: dict[Cell, Cell] = {}
    for figure in figures:
        over = max(heading, key=lambda cell: _shared(cell, figure), default=None)
        if over is not None and _shared(over, figure) > 0 and over not in found.values():
            found[figure] = over
    return found


def _shared(one: Cell, other: Cell) -> float:
    """How much of the page's width two cells share; below 0, how far they are apart."""
    return min(one.right, other.right) - max(one.left, other.left)


def _column(heading: Cell) -> Column:
    """A heading with its unit: 'WEIGHT (LB)', 'WEIGHT LB' or 'LB' alone."""
    column = column_of(heading.text)
    last = heading.words[-1].casefold().strip("().")
    if column.unit or last not in _UNITS:
        return column
    return Column(" ".join(heading.words[:-1]), last)


def _side_by_side(row: Row) -> str:
    """The cells of a row, with a comma where one begins that has a label of its own."""
    text = row[0].text
    for before, cell in pairwise(row):
        labelled = cell.text[0].isalpha() and cell.text.casefold().strip("().") not in _UNITS
        joint = ", " if labelled and _has_digit(before.text) else " "
        text += joint + cell.text
    return text


_LETTER_FOR_DIGIT = str.maketrans("OoQDlI|iSsBZzg", "00001111558229")
_LIKE_A_FIGURE = re.compile(r"[$£€]?[\dOoQDlI|iSsBZzg.,]+")
LEAST_DIGITS = 2


def _is_figure(text: str) -> bool:
    """Whether a cell is one number with its unit or money and nothing else."""
    found = _FIGURE.fullmatch(text)
    if found is None:
        return False
    unit = found[1].rpartition("/")[2].casefold().strip(" .()")
    return not unit or unit in _UNITS


def _mended(cell: Cell, rows: Sequence[Row]) -> Cell:
    """A cell with digits in place of the letters that look like them, where a figure stands.

    A figure stands behind a sign of money, before a unit, or under or over another figure that
    ends or begins where it does.
    """
    words, confidences = list(cell.words), list(cell.confidences)
    for index, word in enumerate(cell.words):
        digits = sum(character.isdigit() for character in word)
        whole = _LIKE_A_FIGURE.fullmatch(word) is not None
        if not whole or digits < LEAST_DIGITS or not any(letter.isalpha() for letter in word):
            continue
        unit = index + 1 < len(words) and words[index + 1].casefold().strip(".") in _UNITS
        if word[0] in "$£€" or unit or (len(words) == 1 and _in_a_column(cell, rows)):
            words[index] = word.translate(_LETTER_FOR_DIGIT)
            confidences[index] = 0.0
    return replace(cell, words=tuple(words), confidences=tuple(confidences))


def _in_a_column(cell: Cell, rows: Sequence[Row]) -> bool:
    return any(
        _is_figure(other.text)
        and min(abs(other.right - cell.right), abs(other.left - cell.left)) < cell.height / 2
        for other in _others(cell, rows)
    )


def _others(cell: Cell, rows: Sequence[Row]) -> Iterator[Cell]:
    return (other for row in rows for other in row if other is not cell)


def _has_digit(text: str) -> bool:
    return any(character.isdigit() for character in text)
