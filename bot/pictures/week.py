"""The week on one card, drawn: the distance large, then what it cost, weighed and wants.

This file decides the order on the card and that what is missing leaves no hole in it.
"""

from __future__ import annotations

from collections.abc import Sequence

from bot.answers.pictures import Fact, Part, Section, WeekPicture
from bot.pictures.gauge import gauge
from bot.pictures.lettering import wide
from bot.pictures.sheet import HUGE, INNER, LEADING, MARGIN, PLAIN, RIGHT, SMALL, Sheet

STRIP = 14.0
LABEL = 84.0


def draw_week(sheet: Sheet, picture: WeekPicture) -> None:
    """The picture on an empty sheet."""
    sheet.head(picture.title, picture.days, picture.verdict)
    _distance(sheet, picture)
    for section in picture.sections:
        _section(sheet, section)
    sheet.foot(picture.caution)


def _distance(sheet: Sheet, picture: WeekPicture) -> None:
    """How far, and of that towed and solo."""
    large = picture.total[:1].isdigit()
    size = HUGE if large else PLAIN
    # So much of large type is empty above its figures.
    sheet.y -= HUGE / 4 if large else 0
    sheet.text(MARGIN, sheet.y, picture.total, size=size, bold=large)
    sheet.y += size * LEADING
    if picture.parts:
        _strip(sheet, picture.parts)


def _strip(sheet: Sheet, parts: Sequence[Part]) -> None:
    """One bar for all that was driven, a part of it for each; then the parts by name."""
    scheme = sheet.scheme
    x = MARGIN
    for number, part in enumerate(parts):
        width = INNER * part.share / sum(each.share for each in parts)
        sheet.box(
            x,
            sheet.y,
            width,
            STRIP,
            fill=scheme.series[0] if number == 0 else scheme.track,
            edge=scheme.edge if number == 0 else scheme.soft,
            hatch="" if number == 0 else "....",
        )
        x += width
    sheet.y += STRIP + 5
    half = INNER / 2 - 4
    first, last = parts[0], parts[-1]
    sheet.text(MARGIN, sheet.y, f"{first.name} {first.figure}", width=half)
    if last is not first:
        sheet.text(RIGHT, sheet.y, f"{last.name} {last.figure}", align="right", width=half)
    sheet.y += PLAIN * LEADING + 2


def _section(sheet: Sheet, section: Section) -> None:
    scheme = sheet.scheme
    sheet.y += 5
    sheet.line((MARGIN, sheet.y), (RIGHT, sheet.y), colour=scheme.rule)
    sheet.y += 7
    sheet.text(MARGIN, sheet.y, section.title, size=SMALL, colour=scheme.soft)
    sheet.y += SMALL * LEADING + 3
    for fact in section.facts:
        _fact(sheet, fact)
    if section.bar is not None:
        sheet.y += 2
        gauge(sheet, section.bar)
    for line in section.lines:
        sheet.paragraph(line, most=3)
        sheet.y += 3


def _fact(sheet: Sheet, fact: Fact) -> None:
    """A name, its figure, and the remark beside it; below it where there is no room."""
    name = sheet.text(MARGIN, sheet.y, fact.name, width=150)
    at = MARGIN + max(name + 10, LABEL)
    figure = sheet.text(at, sheet.y, fact.figure, bold=True, width=RIGHT - at)
    if wide(fact.remark, SMALL) > RIGHT - at - figure - 10:
        sheet.y += PLAIN * LEADING
        sheet.text(at, sheet.y, fact.remark, size=SMALL, colour=sheet.scheme.soft, width=RIGHT - at)
        sheet.y += SMALL * LEADING + 3
        return
    sheet.text(RIGHT, sheet.y + 1, fact.remark, size=SMALL, colour=sheet.scheme.soft, align="right")
    sheet.y += PLAIN * LEADING + 3
