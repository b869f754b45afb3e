"""Tables and records as files: CSV, XLSX and JSON Lines, by the file's ending.

This file decides how a file is written so that no spreadsheet program runs what it holds (a
text that could be a formula is quoted with an apostrophe, and read back without it), and how
one from elsewhere is read: its encoding, what separates its columns, where its headings
stand. Written numbers come back as the same numbers. It does not know what a column means.

Which characters begin a formula: OWASP, 'CSV Injection'. How XLSX writes characters that XML
can't hold: ECMA-376 part 1, 22.9.2.19 (ST_Xstring).
"""

from __future__ import annotations

import csv
import io
import json
import re
from collections.abc import Iterable, Iterator, Sequence
from datetime import date, datetime
from pathlib import Path
from typing import Any
from zipfile import BadZipFile

from bot.exchange.columns import Cell
from domain.records import Record

CSV, XLSX, JSONL = ".csv", ".xlsx", ".jsonl"
FORMATS = (CSV, XLSX, JSONL)
QUOTE = "'"
FORMULA_STARTS = tuple("=+-@\t\r\n＝＋－＠")  # noqa: RUF001 - full-width forms count too
ENCODINGS = ("utf-8-sig", "cp1252")
SEPARATORS = ",;\t"
MOST_BEFORE_HEADINGS = 20
_CONTROL = re.compile("[\x00-\x08\x0b-\x1f\ufffe\uffff]|_(?=x[0-9A-Fa-f]{4}_)")
_ESCAPED = re.compile("_x([0-9A-Fa-f]{4})_")


class NotReadable(ValueError):
    """A file that can't be read or written as asked; the sentence says why."""


def format_of(path: Path) -> str:
    """The format that a file's ending names; raises NotReadable."""
    ending = path.suffix.casefold()
    if ending not in FORMATS:
        raise NotReadable(f"{path.name} ends in none of {', '.join(FORMATS)}.")
    return ending


def defused(cell: Cell) -> Cell:
    """A cell that no spreadsheet program takes for a formula; numbers stay numbers."""
    if isinstance(cell, str) and cell.startswith((*FORMULA_STARTS, QUOTE)):
        return QUOTE + cell
    return cell


def undefused(cell: Cell) -> Cell:
    """The cell as it was before it was defused."""
    if isinstance(cell, str) and cell[:1] == QUOTE and cell[1:2] in (*FORMULA_STARTS, QUOTE):
        return cell[1:]
    return cell


def write_csv(headings: Sequence[str], rows: Iterable[Sequence[Cell]]) -> bytes:
    """A table as CSV (RFC 4180), UTF-8 with the mark that spreadsheet programs look for."""
    out = io.StringIO(newline="")
    writer = csv.writer(out)
    writer.writerow(headings)
    writer.writerows([defused(cell) for cell in row] for row in rows)
    return out.getvalue().encode(ENCODINGS[0])


def write_xlsx(headings: Sequence[str], rows: Iterable[Sequence[Cell]]) -> bytes:
    """A table as a workbook of one sheet, every text a text whatever it begins with."""
    from openpyxl import Workbook
    from openpyxl.cell import WriteOnlyCell

    book = Workbook(write_only=True)
    sheet = book.create_sheet("logbook")
    sheet.freeze_panes = "A2"

    def dressed(cell: Cell) -> Any:
        if isinstance(cell, float) and float(f"{cell:.16g}") != cell:
            # The library writes sixteen digits; this number needs all seventeen.
            cell = repr(cell)
        if not isinstance(cell, str):
            return cell
        made = WriteOnlyCell(sheet, _CONTROL.sub(_as_escape, str(defused(cell))))
        made.data_type = "s"
        return made

    sheet.append(list(headings))
    for row in rows:
        sheet.append([dressed(cell) for cell in row])
    out = io.BytesIO()
    book.save(out)
    return out.getvalue()


def _as_escape(found: re.Match[str]) -> str:
    return f"_x{ord(found.group()):04X}_"


def write_jsonl(records: Iterable[Record]) -> bytes:
    """Records as JSON, one a line."""
    return b"".join(
        json.dumps(each, ensure_ascii=False, allow_nan=False).encode() + b"\n" for each in records
    )


def read_jsonl(data: bytes) -> Iterator[tuple[int, Any]]:
    """What each line holds, with its number from 1; raises NotReadable."""
    # Only a line feed ends a line: JSON texts may hold other separators unescaped.
    for number, line in enumerate(data.decode("utf-8-sig", "replace").split("\n"), start=1):
        if not line.strip():
            continue
        try:
            yield number, json.loads(line)
        except ValueError as error:
            raise NotReadable(f"Line {number} is no JSON ({error}).") from error


def read_table(path: Path) -> tuple[list[str], list[tuple[int, list[Cell]]]]:
    """The headings and the rows of a CSV or XLSX file, each row with its number in the file.

    Headings are the first row of which at least two cells are filled. Raises NotReadable.
    """
    data = path.read_bytes()
    rows = _csv_rows(data) if format_of(path) == CSV else _xlsx_rows(data, path.name)
    numbered = list(enumerate(rows, start=1))
    for index, (_, row) in enumerate(numbered[:MOST_BEFORE_HEADINGS]):
        if sum(cell not in (None, "") for cell in row) > 1:
            headings = ["" if cell is None else str(cell).strip() for cell in row]
            below = numbered[index + 1 :]
            filled = [
                (number, [undefused(cell) for cell in cells])
                for number, cells in below
                if any(cell not in (None, "") for cell in cells)
            ]
            return headings, filled
    raise NotReadable(f"{path.name} has no row of headings.")


def _csv_rows(data: bytes) -> list[list[Cell]]:
    text = _decoded(data)
    first = text.split("\n", 1)[0]
    separator = max(SEPARATORS, key=first.count)
    try:
        return [list(row) for row in csv.reader(io.StringIO(text, newline=""), delimiter=separator)]
    except csv.Error as error:
        raise NotReadable(f"It is no table ({error}).") from error


def _decoded(data: bytes) -> str:
    for encoding in ENCODINGS:
        try:
            return data.decode(encoding)
        except UnicodeDecodeError:
            continue
    raise NotReadable("Its text is in no encoding that is known here; save it as UTF-8.")


def _xlsx_rows(data: bytes, name: str) -> list[list[Cell]]:
    from openpyxl import load_workbook
    from openpyxl.utils.exceptions import InvalidFileException

    try:
        book = load_workbook(io.BytesIO(data), read_only=True, data_only=True)
    except (BadZipFile, InvalidFileException, KeyError, ValueError, OSError) as error:
        raise NotReadable(f"{name} is no workbook ({error}).") from error
    try:
        sheet = book.worksheets[0]
        return [[_plain(value) for value in row] for row in sheet.iter_rows(values_only=True)]
    finally:
        book.close()


def _plain(value: object) -> Cell:
    if isinstance(value, str):
        return _ESCAPED.sub(lambda found: chr(int(found.group(1), 16)), value)
    if value is None or isinstance(value, bool | int | float | datetime | date):
        return value
    return str(value)
