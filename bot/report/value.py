"""A report as a value, before it is a page of any kind.

This file decides what a report is made of: sections of paragraphs, tables and pictures, every
word and figure already written in the logbook's language and units. Whatever is shown as HTML
and on paper is the same value, so that the two can't differ. It goes through plain data and
back, to wait with its answer. It does not know where a figure comes from, nor how a page looks.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import asdict, dataclass
from typing import Any, Literal

from bot.answers.pictures import Picture, picture_from_record, picture_to_record

Align = Literal["left", "right"]
Paper = Literal["a4", "letter"]


@dataclass(frozen=True, slots=True)
class Column:
    """A column of a table: its heading, and the side on which its cells stand."""

    heading: str
    align: Align = "left"


@dataclass(frozen=True, slots=True, kw_only=True)
class Table:
    """Rows under headings, a cell a column; the first cell of a row says what the row is of.

    `total` is a last row that sums the others up; empty where there is none.
    """

    caption: str
    columns: tuple[Column, ...]
    rows: tuple[tuple[str, ...], ...]
    total: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class Section:
    """A part of a report, in this order: what is said, pictures side by side, tables."""

    title: str
    paragraphs: tuple[str, ...] = ()
    pictures: tuple[Picture, ...] = ()
    tables: tuple[Table, ...] = ()

    @property
    def empty(self) -> bool:
        """Whether there is nothing in it."""
        return not (self.paragraphs or self.pictures or self.tables)


@dataclass(frozen=True, slots=True, kw_only=True)
class Report:
    """A whole report. `language` is an ISO 639-1 code; `caution` stands on every page.

    `paper` is the size of its sheets, where it is printed; `page` what a page's number is called,
    with the places `{number}` and `{all}`.
    """

    language: str
    title: str
    span: str
    made: str
    page: str
    paper: Paper
    sections: tuple[Section, ...]
    caution: str


def table(
    caption: str,
    columns: Iterable[Column],
    rows: Sequence[Sequence[str]],
    total: Sequence[str] = (),
) -> tuple[Table, ...]:
    """A table without the columns that no row fills; none at all where there are no rows."""
    if not rows:
        return ()
    headed = list(columns)
    filled = [
        number for number in range(len(headed)) if number == 0 or any(row[number] for row in rows)
    ]
    kept = Table(
        caption=caption,
        columns=tuple(headed[number] for number in filled),
        rows=tuple(tuple(row[number] for number in filled) for row in rows),
        total=tuple(total[number] for number in filled) if total else (),
    )
    return (kept,)


def report_to_record(report: Report) -> dict[str, Any]:
    """A report as plain data."""
    pictures = [[picture_to_record(each) for each in part.pictures] for part in report.sections]
    record = asdict(report)
    for section, drawn in zip(record["sections"], pictures, strict=True):
        section["pictures"] = drawn
    return record


def report_from_record(record: Mapping[str, Any]) -> Report:
    """The report that plain data describes; raises KeyError or TypeError where it is none."""
    return Report(**{**record, "sections": tuple(_section(each) for each in record["sections"])})


def _section(record: Mapping[str, Any]) -> Section:
    return Section(
        title=record["title"],
        paragraphs=tuple(record["paragraphs"]),
        pictures=tuple(picture_from_record(each) for each in record["pictures"]),
        tables=tuple(_table(each) for each in record["tables"]),
    )


def _table(record: Mapping[str, Any]) -> Table:
    return Table(
        caption=record["caption"],
        columns=tuple(Column(**each) for each in record["columns"]),
        rows=tuple(tuple(row) for row in record["rows"]),
        total=tuple(record["total"]),
    )
