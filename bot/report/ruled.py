"""Tables on paper: as wide as what stands in them, their heads repeated on every page.

This file decides how wide a column is and where a page ends in a table: never within a row,
unless one row fills more than a page. The library's own tables take a millisecond a cell, which
would be minutes for the log of some years.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence

from bot.report.sheets import INK, LEADING, MARGIN, RULE, SOFT, Sheets
from bot.report.value import Column, Table

SIZE, SMALLER = 8.0, 7.0
MANY = 7
"""Columns from which on a table is set smaller."""

GAP = 3.0
"""Between two columns, in millimetres."""

ABOVE = 1.1
"""Between a row's words and its rules."""

Row = Sequence[str]


def ruled(sheets: Sheets, table: Table) -> None:
    """A table from where the sheets are filled down to, and on over as many as it takes."""
    _Ruled(sheets, table).draw()


class _Ruled:
    """A table with its columns measured."""

    def __init__(self, sheets: Sheets, table: Table) -> None:
        self._sheets = sheets
        self._table = table
        self._size = SMALLER if len(table.columns) >= MANY else SIZE
        self._widths = self._measured()
        self._lefts = [MARGIN]
        for width in self._widths:
            self._lefts.append(self._lefts[-1] + width + GAP)

    def draw(self) -> None:
        """Caption, head, rows and total; the first row stays with the head."""
        sheets, table = self._sheets, self._table
        rows = [*table.rows, *([table.total] if table.total else [])]
        sheets.type(self._size)
        first = self._height(self._broken(rows[0]))
        sheets.make_room(self._line() * 5 + first)
        sheets.paragraph(table.caption, self._size, colour=SOFT)
        self._head()
        for number, row in enumerate(rows):
            self._row(row, bold=number == len(table.rows))
        sheets.set_y(sheets.y + 4)

    def _head(self) -> None:
        self._row([column.heading for column in self._table.columns], bold=True, head=True)

    def _row(self, row: Row, *, bold: bool = False, head: bool = False) -> None:
        sheets = self._sheets
        sheets.type(self._size, bold=bold)
        broken = self._broken(row)
        while broken:
            room = max(int((sheets.bottom - sheets.y - 2 * ABOVE) / self._line()), 0)
            most = max(map(len, broken))
            if most > room and not head:
                # A row that is longer than what is below a head goes on over pages.
                if sheets.y > MARGIN + 3 * self._line():
                    sheets.add_page()
                    self._head()
                    sheets.type(self._size, bold=bold)
                room = int((sheets.bottom - sheets.y - 2 * ABOVE) / self._line())
            part, rest = [cell[:room] for cell in broken], [cell[room:] for cell in broken]
            self._write(part, head=head)
            broken = rest if any(rest) else []

    def _write(self, broken: Sequence[list[str]], *, head: bool) -> None:
        sheets = self._sheets
        for column, lines, left, width in zip(
            self._table.columns, broken, self._lefts, self._widths, strict=False
        ):
            sheets.put(lines, left, sheets.y + ABOVE, self._place(column, width))
        sheets.set_y(sheets.y + self._height(broken))
        sheets.set_draw_color(*(INK if head else RULE))
        sheets.set_line_width(0.3 if head else 0.15)
        sheets.line(MARGIN, sheets.y, self._lefts[-1] - GAP, sheets.y)

    def _place(self, column: Column, width: float) -> Callable[[str], float]:
        """Where in its column a line begins."""
        if column.align == "left":
            return lambda line: 0.0
        return lambda line: width - self._sheets.wide(line)

    def _broken(self, row: Row) -> list[list[str]]:
        return [
            self._sheets.lines(cell, width) for cell, width in zip(row, self._widths, strict=True)
        ]

    def _height(self, broken: Sequence[list[str]]) -> float:
        return max(map(len, broken)) * self._line() + 2 * ABOVE

    def _line(self) -> float:
        return self._sheets.font_size * LEADING

    def _measured(self) -> list[float]:
        """Each column as wide as its widest cell, as far as the page allows.

        Columns that want less than an even share get it; the others share what is left.
        """
        sheets, table = self._sheets, self._table
        sheets.type(self._size, bold=True)
        headed = [[sheets.wide(column.heading)] for column in table.columns]
        totals = [[sheets.wide(cell)] for cell in table.total] or [[] for _ in table.columns]
        sheets.type(self._size)
        cells = zip(*table.rows, strict=True)
        wanted = [
            max([*head, *total, *(sheets.wide(cell) for cell in set(column))])
            for head, total, column in zip(headed, totals, cells, strict=True)
        ]
        room = sheets.inner - GAP * (len(wanted) - 1)
        left = sorted(range(len(wanted)), key=lambda each: wanted[each])
        widths = [0.0] * len(wanted)
        while left:
            share = room / len(left)
            each = left.pop(0)
            widths[each] = min(wanted[each], share)
            room -= widths[each]
        return widths
