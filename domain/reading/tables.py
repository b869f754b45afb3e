"""Pasted tables: a row of headings over rows of figures, told as sentences.

This file decides whether a message is a table (comma, bar, tab or wide spaces between cells),
and says each row as people would text it: 'steer left 2,540, steer right 2,600'. What the
sentences mean is for the ordinary steps; nothing here knows a weight from a price.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Sequence
from dataclasses import dataclass

from domain.printed import has_digit

LEAST_COLUMNS = 2
LONGEST_TABLE = 40
"""Lines: a ticket or a page of a logbook; more is read as it stands."""

_WIDE = re.compile(r"\t|\s{2,}")
_FIGURE = re.compile(r"[$£€]?\s?[\d.,'’:/-]*\d[\d.,'’:/-]*\s?[A-Za-z%°]{0,4}$")
_NUMBERED = re.compile(r"(?<=[A-Za-z]) ?[1-6]$")
_THOUSANDS = re.compile(r"\d,\d{1,3}(?!\d)")
"""A comma inside a number: 'trailer 1,558', and not 'trailer 1,5580'."""

_UNIT = re.compile(r"\s*\(([A-Za-z/]{1,6})\)\s*$")

Split = Callable[[str], list[str]]

Heads = Callable[[str], bool]
"""Whether a name heads its figures, as how the rig stood does: 'bars off: steer 5,140, ...'."""


@dataclass(frozen=True, slots=True)
class Column:
    """A heading without its unit, and the unit that stood in brackets behind it."""

    name: str
    unit: str

    def told(self, cell: str) -> str:
        """The heading's name and a cell, with the unit where the cell has none."""
        unit = f" {self.unit}" if self.unit and cell[-1:].isdigit() else ""
        return f"{self.name} {cell}{unit}"


def unfold(text: str, heads: Heads) -> list[str]:
    """The sentences of a table, one for each message that it is; empty where it is none.

    Rows that begin with a name belong to one message (the axles of a ticket); rows of bare
    figures are a message each (the lines of a log).
    """
    lines = [line for line in text.split("\n") if line.strip()]
    if not 2 <= len(lines) <= LONGEST_TABLE:
        return []
    dated = _dated(lines)
    if dated:
        return dated
    for split in (_by_bars, _by_commas, _by_width):
        for top in range(min(MOST_ABOVE, len(lines) - 1)):
            found = _read(lines, top, split, heads)
            if found:
                return found
    return []


MOST_ABOVE = 6
"""Lines above a table's headings: where and when it was printed."""

_DATE = re.compile(
    r"\s*\d\d?(?:[/-]\d\d?(?:[/-]\d{2,4})?|\.\d\d?\.(?:\d{2,4})?)[\s:,]"  # '24.6 gal' is none
)


def _told(columns: Sequence[Column], cells: Sequence[str]) -> str:
    return ", ".join(column.told(cell) for column, cell in zip(columns, cells, strict=True))


def _dated(lines: Sequence[str]) -> list[str]:
    """The lines of a page of a log, each of which begins with its day; a heading is left out."""
    days = [line.strip() for line in lines if _DATE.match(line)]
    headings = [line for line in lines if not _DATE.match(line)]
    if len(days) < LEAST_COLUMNS or any(map(has_digit, headings)):
        return []
    return days if all(has_digit(_DATE.sub("", day, count=1)) for day in days) else []


def _read(lines: Sequence[str], top: int, split: Split, heads: Heads) -> list[str]:
    headings = [cell for cell in split(lines[top]) if cell]
    if len(headings) < LEAST_COLUMNS or any(has_digit(heading) for heading in headings):
        return []
    columns = [column_of(heading) for heading in headings]
    named: list[str] = []
    bare: list[str] = []
    rows: list[Sequence[str]] = []
    for line in lines[top + 1 :]:
        cells = split(line)
        own = columns if len(cells) == len(columns) + 1 else columns[1:]
        if len(cells) == len(own) + 1 and _is_named(cells):
            rows.append(cells)
            told = _headed if heads(cells[0]) else row_told
            named.append(told(cells[0], own, cells[1:]))
        elif len(cells) == len(columns) and all(_FIGURE.match(cell) for cell in cells):
            bare.append(_told(columns, cells))
        elif len(cells) < len(columns) and (named or bare):
            named.append(line.strip())
        else:
            return []
    before = [line.strip() for line in lines[:top]]
    if bare and not named:
        return [", ".join([*before, row]) for row in bare]
    if bare and not rows:
        # what stands below one row is of it; below several it may be of all, and is read as it is
        return ["\n".join([*before, *bare, *named])] if len(bare) == 1 else []
    if rows and len({len(cells) for cells in rows}) == 1:
        named = _headed_by_columns(columns[1 - len(rows[0]) :], rows, heads) or named
    return ["\n".join([*before, *named])] if len(named) >= LEAST_COLUMNS else []


def _headed(name: str, columns: Sequence[Column], cells: Sequence[str]) -> str:
    """'bars off: steer 5,140, drive 6,120': a row of what its name heads."""
    parts = [column.told(cell) for column, cell in zip(columns, cells, strict=True)]
    return f"{name}: {', '.join(parts)}"


def _headed_by_columns(
    columns: Sequence[Column], rows: Sequence[Sequence[str]], heads: Heads
) -> list[str]:
    """The columns told one by one, where each heads what is in it; empty where they do not."""
    if not all(heads(column.name) for column in columns):
        return []
    named = [Column(cells[0], "") for cells in rows]
    return [
        _headed(column.name, named, [cells[at] for cells in rows])
        for at, column in enumerate(columns, 1)
    ]


def column_of(heading: str) -> Column:
    """A heading taken apart: its name, and its unit where that stands in brackets."""
    heading = heading.replace("_", " ")  # 'price_per_gal'
    unit = _UNIT.search(heading)
    if unit is None:
        return Column(heading.strip(), "")
    return Column(heading[: unit.start()].strip(), unit[1].casefold())


def row_told(name: str, columns: Sequence[Column], cells: Sequence[str]) -> str:
    """'steer left 2,540, steer right 2,600'; a column without a name of its own is the name's."""
    parts = [
        f"{name} {cell}"
        if column.name.casefold() in SAME_AS_NAME
        else f"{name} {column.told(cell)}"
        for column, cell in zip(columns, cells, strict=True)
    ]
    return ", ".join(parts)


SAME_AS_NAME = frozenset(
    ("total", "sum", "weight", "wt", "load", "kg", "lb", "lbs", "suma", "peso", "carga")
)
"""Headings under which stands what the row's name says, the axle's own load; in each language."""


def _is_named(cells: Sequence[str]) -> bool:
    first, rest = cells[0], cells[1:]
    named = bool(first) and not has_digit(_NUMBERED.sub("", first)) and bool(rest)
    return named and all(_FIGURE.match(cell) for cell in rest)


def _by_bars(line: str) -> list[str]:
    return [cell.strip() for cell in line.strip().strip("|").split("|")] if "|" in line else []


def _by_commas(line: str) -> list[str]:
    parted = line.count(",") > 1 or ("," in line and not _THOUSANDS.search(line))
    return [cell.strip() for cell in line.split(",")] if parted else []


def _by_width(line: str) -> list[str]:
    return [cell for cell in _WIDE.split(line.strip()) if cell]
