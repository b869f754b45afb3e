"""A load as a bar that runs up to the line of its limit.

This file decides the row that a load takes: its name, its figures, the bar, and what is left.
All rows of a picture have their limit on one line, so that whatever is over stands out from it.
"""

from __future__ import annotations

from bot.answers.pictures import Bar
from bot.pictures.palette import LOOKS
from bot.pictures.sheet import LEADING, MARGIN, PLAIN, RIGHT, SMALL, Sheet

TRACK = 190.0
LINE = 158.0
"""Where a limit stands on its track; what is beyond is over."""

THICK = 10.0
HALF = THICK / 2
MOST = TRACK / LINE
NAME = 112.0
NAMES = 12.5
"""The size of a name, and of what is left."""


def gauge(sheet: Sheet, bar: Bar) -> None:
    """One row, at the sheet's `y`."""
    scheme, look = sheet.scheme, LOOKS[bar.state]
    y = sheet.y
    taken = sheet.text(MARGIN, y, bar.name, size=NAMES, width=NAME)
    room = RIGHT - MARGIN - taken - 8
    after = sheet.text(
        RIGHT, y + 1, bar.against, size=SMALL, colour=scheme.soft, align="right", width=room * 0.64
    )
    at = RIGHT - after - 6 if bar.against else RIGHT
    sheet.text(at, y, bar.load, bold=True, align="right", width=room - after - 6, whole=True)
    y += PLAIN * LEADING + 3
    track(sheet, bar, y)
    sheet.mark(
        MARGIN + TRACK + 14,
        y + HALF,
        look.mark,
        size=8,
        fill=look.colour,
        edge=scheme.soft if bar.state == "unrated" else None,
    )
    sheet.text(
        MARGIN + TRACK + 24,
        y + HALF - NAMES * 0.62,
        bar.left,
        size=SMALL if bar.state == "unrated" else NAMES,
        bold=bar.state in ("over", "near"),
        colour=scheme.soft if bar.state == "unrated" else scheme.ink,
        width=RIGHT - MARGIN - TRACK - 24,
        whole=True,
    )
    sheet.y = y + THICK + 8


def track(sheet: Sheet, bar: Bar, y: float) -> None:
    """The bar in its track, with the line of the limit and how unsure the load is."""
    scheme, look = sheet.scheme, LOOKS[bar.state]
    if bar.state == "unrated":
        sheet.box(MARGIN, y, TRACK, THICK, fill="none", edge=scheme.rule, dashed=True)
        return
    sheet.box(MARGIN, y, TRACK, THICK, fill=scheme.track)
    end = MARGIN + LINE * min(max(bar.used, 0.0), MOST)
    sheet.box(MARGIN, y, end - MARGIN, THICK, fill=look.colour, edge=scheme.edge, hatch=look.hatch)
    sheet.line((MARGIN + LINE, y - 2), (MARGIN + LINE, y + THICK + 2), width=2.2)
