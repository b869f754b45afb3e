"""A report on paper, as PDF, with nothing but Python.

This file decides in which order a report fills its sheets and what stays together: a heading
with what it heads, two pictures side by side. How a sheet looks is `sheets.py`'s, a table
`ruled.py`'s.
"""

from __future__ import annotations

from collections.abc import Sequence
from io import BytesIO

from bot.answers.pictures import Picture
from bot.messages import Drawn
from bot.report.page import Draw
from bot.report.ruled import ruled
from bot.report.sheets import BODY, HEADING, INK, MARGIN, RULE, SOFT, TITLE, Sheets
from bot.report.value import Report, Section

BETWEEN = 6.0
"""Between two pictures, in millimetres."""

WITH_A_HEADING = 35.0
"""Of what follows a heading, so much stands on the same page."""


def pdf(report: Report, draw: Draw) -> bytes:
    """The report as PDF, its pictures drawn by `draw`; the same bytes for the same report."""
    sheets = Sheets(report.paper, report.caution, report.page)
    sheets.set_title(f"{report.title}, {report.span}")
    sheets.set_lang(report.language)
    _head(sheets, report)
    for section in report.sections:
        _section(sheets, section, draw)
    return bytes(sheets.output())


def _head(sheets: Sheets, report: Report) -> None:
    sheets.paragraph(report.title, TITLE, bold=True)
    sheets.paragraph(report.span, HEADING)
    sheets.paragraph(report.made, BODY, colour=SOFT)
    sheets.set_y(sheets.y + 2)
    sheets.set_draw_color(*INK)
    sheets.set_line_width(0.5)
    sheets.line(MARGIN, sheets.y, sheets.w - MARGIN, sheets.y)
    sheets.set_y(sheets.y + 3)


def _section(sheets: Sheets, section: Section, draw: Draw) -> None:
    sheets.set_y(sheets.y + 3)
    sheets.make_room(WITH_A_HEADING)
    sheets.start_section(section.title)
    sheets.paragraph(section.title, HEADING, bold=True)
    for paragraph in section.paragraphs:
        sheets.set_y(sheets.y + 1)
        sheets.paragraph(paragraph)
    sheets.set_y(sheets.y + 3)
    for at in range(0, len(section.pictures), 2):
        _pictures(sheets, section.pictures[at : at + 2], draw)
    for table in section.tables:
        ruled(sheets, table)


def _pictures(sheets: Sheets, pictures: Sequence[Picture], draw: Draw) -> None:
    """Pictures side by side, each with its words for those who do not see it."""
    width = (sheets.inner - BETWEEN) / 2
    drawn = [Drawn(png=draw(each), alt=each.alt) for each in pictures]
    heights = [width * each.size[1] / each.size[0] for each in drawn]
    sheets.make_room(max(heights))
    top, left = sheets.y, MARGIN
    sheets.set_draw_color(*RULE)
    sheets.set_line_width(0.15)
    for each, height in zip(drawn, heights, strict=True):
        sheets.image(BytesIO(each.png), left, top, width, height, alt_text=each.alt)
        sheets.rect(left, top, width, height)
        left += width + BETWEEN
    sheets.set_y(top + max(heights) + 4)
