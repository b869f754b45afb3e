"""Rows of a page as the lines that a person would read of it.

This file decides which label a figure belongs to: the one in its own row however far away, the
one above it in its cell, or its row's name with its column's heading; and that a unit which a
heading gives is that of the figures below. What a figure looks like is decided in `printed`, and
what a line means by the reader of messages.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from itertools import pairwise

from domain.page import Cell, Row
from domain.printed import bare, has_digit, is_figure, is_unit, mended
from domain.reading.tables import Column, column_of, row_told

LONGEST_HEADING = 4
"""Words; more are a sentence."""


@dataclass(frozen=True, slots=True)
class Line:
    """One line of text, and the confidence of the least certain word with a digit on it."""

    text: str
    confidence: float


def lines(rows: Sequence[Row]) -> tuple[Line, ...]:
    """The lines of a page, from top to bottom."""
    read: list[Line] = []
    printed = mended(rows)
    begin = 0
    while begin < len(printed):
        end = begin + 1
        while end < len(printed) and not _is_heading(printed[end]):
            end += 1
        read.extend(_block(printed[begin], printed[begin + 1 : end]))
        begin = end
    return tuple(read)


def _block(first: Row, below: Sequence[Row]) -> Iterator[Line]:
    """A row that may be a heading, and the rows down to the next that may be one."""
    heading = first if _is_heading(first) else ()
    columns = _counted(heading, below)
    if columns:
        yield from _down(columns, below)
        return
    told = [_told_by(heading, row) for row in below]
    if not any(told):
        yield _line(first, _side_by_side(first))
    for row, text in zip(below, told, strict=True):
        yield _line(row, text or _side_by_side(row))


def _is_heading(row: Row) -> bool:
    """Whether a row can head what is below it: short names without figures, or with a number."""
    return all(
        not is_figure(cell.text) and len(cell.words) <= LONGEST_HEADING for cell in row
    ) and (not any(has_digit(cell.text) for cell in row) or len(_counted_cells(row)) > 1)


_NUMBERED = re.compile(r"(?:\D*\b)?([1-9])(?:st|nd|rd)?(?:\b\D*)?", re.IGNORECASE)
_ORDINALS = {
    "first": 1, "second": 2, "third": 3, "fourth": 4,
    "primera": 1, "segunda": 2, "tercera": 3, "cuarta": 4,
    "primer": 1, "segundo": 2, "tercer": 3, "cuarto": 4,
}  # fmt: skip
"""What columns count up by, in the languages that are read."""


def _counted_cells(row: Row) -> Row:
    """The cells of a row that count up from one: 'PASS 1' and 'PASS 2', 'FIRST' and 'SECOND'."""
    counted = tuple(cell for cell in row if _number(cell.text) is not None)
    numbers = [_number(cell.text) for cell in counted]
    return counted if numbers == list(range(1, len(numbers) + 1)) else ()


def _number(text: str) -> int | None:
    found = _NUMBERED.fullmatch(text)
    if found is not None:
        return int(found[1])
    return _ORDINALS.get(text.split(maxsplit=1)[0].casefold())


def _counted(heading: Row, below: Sequence[Row]) -> Row:
    """The columns of a table that are read down, one after the other, as passes are."""
    columns = _counted_cells(heading)
    tall = [row for row in below if len(_figures(row)) == len(columns)]
    named = all(len(row) == len(columns) + 1 and not has_digit(row[0].text) for row in tall)
    return columns if len(columns) > 1 and len(tall) > 1 and named else ()


def _down(columns: Row, below: Sequence[Row]) -> Iterator[Line]:
    """Each column with its heading and its rows' names; what is in no column comes after."""
    for index, column in enumerate(columns):
        yield _line((column,), column.text)
        for row in below:
            figures = _figures(row)
            if len(figures) == len(columns):
                cells = (row[0], figures[index])
                yield _line(cells, _side_by_side(cells))
    for row in below:
        if len(_figures(row)) != len(columns):
            yield _line(row, _side_by_side(row))


def _figures(row: Row) -> Row:
    return tuple(cell for cell in row if is_figure(cell.text))


def _line(row: Row, text: str) -> Line:
    sure = [
        confidence
        for cell in row
        for word, confidence in zip(cell.words, cell.confidences, strict=True)
        if has_digit(word)
    ]
    return Line(text, min(sure, default=1.0))


def _told_by(heading: Row, row: Row) -> str | None:
    """A row with what its headings say, or None where they say nothing of it."""
    figures = _figures(row)
    above = _above(heading, figures)
    if not above:
        return None
    columns = [_column(above[cell]) if cell in above else Column("", "") for cell in figures]
    cells = [cell.text for cell in figures]
    if len(figures) == len(row) == len(above):
        # Labels above figures: each is a name.
        return ", ".join(column.told(cell) for column, cell in zip(columns, cells, strict=True))
    named = len(figures) == len(row) - 1 and not has_digit(row[0].text)
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
    last = heading.words[-1]
    if column.unit or not is_unit(last):
        return column
    return Column(" ".join(heading.words[:-1]), bare(last))


def _side_by_side(row: Row) -> str:
    """The cells of a row, with a comma where one begins that has a label of its own."""
    text = row[0].text
    for before, cell in pairwise(row):
        labelled = cell.text[0].isalpha() and not is_unit(cell.text)
        joint = ", " if labelled and has_digit(before.text) else " "
        text += joint + cell.text
    return text
