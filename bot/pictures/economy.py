"""Economy over time, drawn: a tank a mark with its interval, a band for each way of driving.

This file decides the axes and how ways of driving are told apart: by colour, by the shape of
their marks, and by the list below in which each has its figure.
"""

from __future__ import annotations

from dataclasses import dataclass
from math import ceil, floor

from bot.answers.pictures import EconomyPicture, Series
from bot.pictures.lettering import wide
from bot.pictures.palette import SERIES_MARKS
from bot.pictures.sheet import LEADING, MARGIN, PLAIN, RIGHT, SMALL, Sheet

HIGH = 220.0
LEFT = MARGIN + 26
END = RIGHT - 6
STEPS = (1.0, 2.0, 5.0, 10.0, 20.0, 50.0)
MOST_LINES = 7
GAP = 6.0
"""Between two days that are written."""

MARK, SMALL_MARK = 7.5, 5.0
BAND = 0.22


def draw_economy(sheet: Sheet, picture: EconomyPicture) -> None:
    """The picture on an empty sheet."""
    sheet.head(picture.title, picture.days, picture.headline)
    sheet.text(MARGIN, sheet.y, picture.unit, size=SMALL, colour=sheet.scheme.soft)
    sheet.y += SMALL * LEADING + 8
    plot = _Plot(picture, sheet.y)
    _grid(sheet, picture, plot)
    styled = [(each, _style(sheet, each, number)) for number, each in enumerate(picture.series)]
    for series, style in reversed(styled):
        _band(sheet, series, style, plot)
    for series, style in reversed(styled):
        _tanks(sheet, series, style, plot)
    sheet.y += HIGH + SMALL * LEADING + 16
    for series, style in styled:
        _listed(sheet, series, style)
    sheet.foot(*picture.notes)


@dataclass(frozen=True, slots=True)
class _Style:
    """How a series is told apart: its colour, and the shape and size of its marks."""

    colour: str
    mark: str
    size: float

    @property
    def edge(self) -> str | None:
        """A cross has nothing but its edge."""
        return self.colour if self.mark == "x" else None


def _style(sheet: Sheet, series: Series, number: int) -> _Style:
    """Tanks that tell nothing of one way of driving stay in the background."""
    if not series.figure:
        return _Style(sheet.scheme.series[-1], SERIES_MARKS[-1], SMALL_MARK)
    return _Style(sheet.scheme.series[number], SERIES_MARKS[number], MARK)


class _Plot:
    """Where a day and a figure are on the sheet."""

    def __init__(self, picture: EconomyPicture, top: float) -> None:
        middles = [point.value for series in picture.series for point in series.points]
        bands = [end for series in picture.series for end in (series.low, series.high) if end]
        ends = [end for each in picture.series for p in each.points for end in (p.low, p.high)]
        room = 0.35 * (max(middles) - min(middles)) + 0.03 * max(middles)
        # One tank with a wide interval must not press all the others flat.
        low = max(min(ends), min(middles) - room)
        high = min(max(ends), max(middles) + room)
        low, high = max(min([low, *bands]), 0.0), max([high, *bands])
        self.step = next(
            (each for each in STEPS if (high - low) / each < MOST_LINES - 1), STEPS[-1]
        )
        self.low = self.step * floor(low / self.step)
        self.high = self.step * ceil(high / self.step)
        self.top = top

    def x(self, at: float) -> float:
        """Where a day is."""
        return LEFT + 10 + (END - LEFT - 18) * at

    def y(self, value: float) -> float:
        """Where a figure is; what is off the scale, at its end."""
        shown = min(max(value, self.low), self.high)
        return self.top + HIGH * (self.high - shown) / (self.high - self.low)


def _grid(sheet: Sheet, picture: EconomyPicture, plot: _Plot) -> None:
    scheme = sheet.scheme
    for number in range(round((plot.high - plot.low) / plot.step) + 1):
        value = plot.low + number * plot.step
        y = plot.y(value)
        sheet.line((LEFT, y), (END, y), colour=scheme.rule, width=0.7)
        sheet.text(
            LEFT - 5,
            y - SMALL * 0.62,
            f"{value:.0f}",
            size=SMALL,
            colour=scheme.soft,
            align="right",
            width=LEFT - 8,
        )
    base = plot.top + HIGH
    written = MARGIN - GAP
    for tick in picture.ticks:
        x = plot.x(tick.at)
        sheet.line((x, base), (x, base + 4), colour=scheme.soft)
        half = wide(tick.label, SMALL) / 2
        middle = min(max(x, MARGIN + half), RIGHT - half)
        if middle - half < written + GAP:
            continue
        sheet.text(middle, base + 5, tick.label, size=SMALL, colour=scheme.soft, align="center")
        written = middle + half


def _band(sheet: Sheet, series: Series, style: _Style, plot: _Plot) -> None:
    """The interval of a way of driving, across all days."""
    if not series.high:
        return
    top, bottom = sorted((plot.y(series.high), plot.y(series.low)))
    sheet.veil(LEFT, top, END - LEFT, max(bottom - top, 1.5), fill=style.colour, alpha=BAND)
    middle = plot.y(series.value)
    sheet.line((LEFT, middle), (END, middle), colour=style.colour, width=1.4)


def _tanks(sheet: Sheet, series: Series, style: _Style, plot: _Plot) -> None:
    spans = [
        ((plot.x(point.at), plot.y(point.low)), (plot.x(point.at), plot.y(point.high)))
        for point in series.points
    ]
    if spans:
        sheet.lines(spans, colour=style.colour, width=style.size / 5)
    sheet.marks(
        [(plot.x(point.at), plot.y(point.value)) for point in series.points],
        style.mark,
        size=style.size,
        fill=style.colour,
        edge=style.edge,
    )


def _listed(sheet: Sheet, series: Series, style: _Style) -> None:
    """A way of driving with its mark and figure."""
    scheme = sheet.scheme
    sheet.mark(
        MARGIN + 6,
        sheet.y + PLAIN * 0.6 + 1,
        style.mark,
        size=style.size + 1.5,
        fill=style.colour,
        edge=style.edge,
    )
    taken = sheet.text(
        RIGHT, sheet.y, series.figure or series.grounds, bold=bool(series.figure), align="right",
        width=190,
    )  # fmt: skip
    sheet.text(MARGIN + 20, sheet.y, series.name, bold=True, width=RIGHT - MARGIN - taken - 30)
    sheet.y += PLAIN * LEADING
    if series.figure:
        sheet.text(MARGIN + 20, sheet.y, series.grounds, size=SMALL, colour=scheme.soft)
        sheet.y += SMALL * LEADING
    sheet.y += 6
