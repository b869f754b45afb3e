"""The week on one card, drawn: the distance large, then what it cost, weighed and wants.

This file decides the order on the card and that what is missing leaves no hole in it.
"""

from __future__ import annotations

from collections.abc import Sequence

from bot.answers.pictures import Fact, Part, WeekPicture
from bot.pictures.gauge import gauge
from bot.pictures.sheet import HUGE, INNER, LEADING, MARGIN, PLAIN, RIGHT, SMALL, Sheet

STRIP = 14.0
LABEL = 96.0


def draw_week(sheet: Sheet, picture: WeekPicture) -> None:
    """The picture on an empty sheet."""
    sheet.head("The week", picture.days, picture.verdict)
    _distance(sheet, picture)
    if picture.facts or picture.economy:
        _section(sheet, "Fuel")
        for fact in picture.facts:
            _fact(sheet, fact)
        for fact in picture.economy:
            _fact(sheet, fact, below=True)
    if picture.heaviest or picture.tightest:
        _section(sheet, "At the scale")
        if picture.heaviest:
            _fact(sheet, picture.heaviest)
        if picture.tightest:
            sheet.y += 2
            gauge(sheet, picture.tightest)
    if picture.attention:
        _section(sheet, "Wants attention")
        for each in picture.attention:
            sheet.paragraph(each, most=3)
            sheet.y += 3
    if picture.logged:
        _section(sheet, "Logged by")
        sheet.paragraph(", ".join(picture.logged), most=3)
        sheet.y += 3
    sheet.foot(picture.caution)


def _distance(sheet: Sheet, picture: WeekPicture) -> None:
    """How far, and of that towed and solo."""
    large = picture.distance[:1].isdigit()
    size = HUGE if large else PLAIN
    sheet.text(MARGIN, sheet.y, picture.distance, size=size, bold=large)
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


def _section(sheet: Sheet, title: str) -> None:
    scheme = sheet.scheme
    sheet.y += 5
    sheet.line((MARGIN, sheet.y), (RIGHT, sheet.y), colour=scheme.rule)
    sheet.y += 7
    sheet.text(MARGIN, sheet.y, title, size=SMALL, colour=scheme.soft)
    sheet.y += SMALL * LEADING + 3


def _fact(sheet: Sheet, fact: Fact, *, below: bool = False) -> None:
    """A name, its figure, and the remark beside it, or below where it is a longer one."""
    soft = sheet.scheme.soft
    if below:
        taken = sheet.text(RIGHT, sheet.y, fact.figure, bold=True, align="right", width=190)
        sheet.text(MARGIN, sheet.y, fact.name, width=INNER - taken - 10)
        sheet.y += PLAIN * LEADING
        sheet.text(RIGHT, sheet.y, fact.remark, size=SMALL, colour=soft, align="right")
        sheet.y += SMALL * LEADING + 3
        return
    name = sheet.text(MARGIN, sheet.y, fact.name, width=150)
    at = MARGIN + max(name + 10, LABEL)
    figure = sheet.text(at, sheet.y, fact.figure, bold=True, width=RIGHT - at)
    sheet.text(
        RIGHT,
        sheet.y,
        fact.remark,
        size=SMALL,
        colour=soft,
        align="right",
        width=RIGHT - at - figure - 8,
    )
    sheet.y += PLAIN * LEADING + 3
