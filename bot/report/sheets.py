"""Sheets of paper: their size, their type, and what stands at the foot of each.

This file decides margins, faces and how a text is broken into lines. The faces are those that
ship with matplotlib, whatever else is installed. It does not know what is written on a sheet.
"""

from __future__ import annotations

import logging
from collections.abc import Callable
from datetime import UTC, datetime
from pathlib import Path

import matplotlib as mpl
from fpdf import FPDF
from fpdf.prefs import ViewerPreferences

from bot.report.value import Paper

MARGIN = 15.0
FOOT = 18.0
"""Millimetres below which nothing but the foot of the page stands."""

BODY, TITLE, HEADING, SMALL = 9.5, 20.0, 13.0, 7.5
"""Sizes of type, in points."""

LEADING = 1.35
MM = 25.4 / 72
"""Millimetres to the point."""

INK, SOFT, RULE = (18, 25, 29), (73, 85, 91), (183, 192, 196)
NEVER = datetime(1970, 1, 1, tzinfo=UTC)
"""Written as the time of making, so that the same report is the same file."""

_FACES = Path(mpl.get_data_path()) / "fonts" / "ttf"
_FAMILY = "DejaVu"


class Sheets(FPDF):
    """A document whose every page ends with a line and the page's number."""

    def __init__(self, paper: Paper, foot: str, page: str) -> None:
        super().__init__(format=paper)
        # It would quote what people texted where the face lacks one of their characters.
        logging.getLogger("fpdf").setLevel(logging.ERROR)
        logging.getLogger("fontTools").setLevel(logging.ERROR)
        self._foot, self._page = foot, page
        self._widths: dict[tuple[str, str, float], float] = {}
        for style, face in (("", "DejaVuSans.ttf"), ("B", "DejaVuSans-Bold.ttf")):
            self.add_font(_FAMILY, style, _FACES / face)
        self.set_margins(MARGIN, MARGIN)
        self.set_auto_page_break(False)
        self.c_margin = 0.0
        self.set_creation_date(NEVER)
        self.viewer_preferences = ViewerPreferences(display_doc_title=True)
        self.type()
        self.add_page()

    @property
    def inner(self) -> float:
        """How wide a line may be."""
        return self.w - 2 * MARGIN

    @property
    def bottom(self) -> float:
        """Down to where a page is filled."""
        return self.h - FOOT

    def type(
        self, size: float = BODY, *, bold: bool = False, colour: tuple[int, int, int] = INK
    ) -> None:
        """Set what follows in this type."""
        self.set_font(_FAMILY, "B" if bold else "", size)
        self.set_text_color(*colour)

    def footer(self) -> None:
        """The foot of every page; called by the library as a page ends."""
        self.set_y(self.h - FOOT + 4)
        self.type(SMALL, colour=SOFT)
        self.cell(self.inner * 0.8, 5, self._foot)
        page = self._page.format(number=self.page_no(), all=self.str_alias_nb_pages)
        self.cell(self.inner * 0.2, 5, page, align="R")

    def make_room(self, height: float) -> bool:
        """Begin a page where so much does not fit on this one; whether it did."""
        if self.y + height <= self.bottom:
            return False
        self.add_page()
        return True

    def wide(self, text: str) -> float:
        """How wide a text is in the type that is set; words are measured once."""
        words = text.split(" ")
        return sum(map(self._word, words)) + (len(words) - 1) * self._word(" ")

    def _word(self, word: str) -> float:
        key = word, self.font_style, self.font_size_pt
        known = self._widths.get(key)
        if known is None:
            known = self._widths[key] = self.get_string_width(word) if word else 0.0
        return known

    def lines(self, text: str, width: float) -> list[str]:
        """A text in lines no wider than that; a word that is wider is broken."""
        words = text.split()
        whole = " ".join(words)
        if self.wide(whole) <= width:
            return [whole]
        lines = [""]
        for word in words:
            longer = f"{lines[-1]} {word}" if lines[-1] else word
            if self.wide(longer) <= width:
                lines[-1] = longer
                continue
            pieces = [word] if self.wide(word) <= width else self._broken(word, width)
            lines += pieces
        return [line for line in lines if line]

    def _broken(self, word: str, width: float) -> list[str]:
        pieces = [""]
        for letter in word:
            if pieces[-1] and self.wide(pieces[-1]) + self.wide(letter) > width:
                pieces.append("")
            pieces[-1] += letter
        return pieces

    def put(self, lines: list[str], x: float, y: float, place: Callable[[str], float]) -> None:
        """Lines from `y` down, each moved to the right by what `place` says of it."""
        step = self.font_size * LEADING
        for number, line in enumerate(lines):
            self.text(x + place(line), y + number * step + self.font_size, line)

    def paragraph(
        self,
        text: str,
        size: float = BODY,
        *,
        bold: bool = False,
        colour: tuple[int, int, int] = INK,
    ) -> None:
        """A paragraph across the page, over as many pages as it takes."""
        self.type(size, bold=bold, colour=colour)
        for line in self.lines(text, self.inner):
            step = self.font_size * LEADING
            if self.make_room(step):
                self.type(size, bold=bold, colour=colour)
            self.text(MARGIN, self.y + self.font_size, line)
            self.set_y(self.y + step)
