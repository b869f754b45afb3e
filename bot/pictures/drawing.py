"""Which function draws what.

This file is the table of contents of the pictures. What it imports imports matplotlib, which
takes its time; `studio.py` does so where the first picture is wanted, away from the event loop.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from typing import Any

from bot.answers.pictures import (
    EconomyPicture,
    MarginsPicture,
    Picture,
    RigPicture,
    WeekPicture,
)
from bot.pictures.economy import draw_economy
from bot.pictures.margins import draw_margins
from bot.pictures.palette import PANEL, Scheme
from bot.pictures.rig import draw_rig
from bot.pictures.sheet import INNER, MARGIN, PLAIN, WIDTH, Sheet
from bot.pictures.week import draw_week

DRAWN_BY: Mapping[type[Picture], Callable[[Sheet, Any], None]] = {
    RigPicture: draw_rig,
    MarginsPicture: draw_margins,
    EconomyPicture: draw_economy,
    WeekPicture: draw_week,
}


def drawn(picture: Picture, scheme: Scheme = PANEL) -> Sheet:
    """A picture on its sheet."""
    sheet = Sheet(scheme)
    DRAWN_BY[type(picture)](sheet, picture)
    sheet.finish()
    return sheet


def png(picture: Picture, scheme: Scheme = PANEL) -> bytes:
    """A picture as PNG, 1,080 pixels wide; the same bytes for the same picture."""
    return _taken_off(drawn(picture, scheme))


def try_out() -> None:
    """Draw something of each kind of mark, so that what the first drawing loads is there."""
    sheet = Sheet(PANEL)
    sheet.head("title", "when", "verdict")
    sheet.box(MARGIN, sheet.y, INNER, PLAIN, fill=PANEL.track, edge=PANEL.ink, hatch="//")
    sheet.mark(WIDTH / 2, sheet.y, "o", size=PLAIN, fill=PANEL.ink)
    sheet.finish()
    _taken_off(sheet)


def _taken_off(sheet: Sheet) -> bytes:
    """A finished sheet as PNG; nothing stays on it."""
    png = sheet.png()
    sheet.let_go()
    return png
