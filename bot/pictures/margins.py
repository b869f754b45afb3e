"""Margins, drawn as bars that begin at the line of the rating.

This file decides the scale: what is left of a rating, as a share of it, runs to the left of the
line, what is over to the right. A bar so begins at zero, and a small margin is seen for what it
is, as it would not be at the end of a long bar of load. The whisker is the uncertainty.
"""

from __future__ import annotations

from bot.answers.pictures import Bar, MarginsPicture
from bot.pictures.palette import LOOKS
from bot.pictures.sheet import INNER, LEADING, MARGIN, PLAIN, RIGHT, SMALL, Sheet

THICK = 11.0
CAP = 4.0
LEAST_LEFT, MOST_LEFT = 0.10, 0.40
LEAST_OVER, MOST_OVER = 0.15, 0.20
"""Shares of a rating that the scale shows at least and at most, on either side of the line; what
it has for being over is at least that share of what it has for being inside."""

STEPS = (0.02, 0.05, 0.10, 0.20)


def draw_margins(sheet: Sheet, picture: MarginsPicture) -> None:
    """The picture on an empty sheet."""
    sheet.head(picture.title, picture.when, picture.verdict)
    if picture.bars:
        _bars(sheet, picture)
    sheet.foot(*picture.notes, picture.caution)


def _bars(sheet: Sheet, picture: MarginsPicture) -> None:
    scheme = sheet.scheme
    scale = _Scale(picture)
    sheet.text(
        scale.line - 6,
        sheet.y,
        picture.inside,
        size=SMALL,
        colour=scheme.soft,
        align="right",
        width=120,
    )
    sheet.text(
        scale.line + 6,
        sheet.y,
        picture.outside,
        size=SMALL,
        colour=scheme.soft,
        width=RIGHT - scale.line - 6,
    )
    sheet.line((scale.line, sheet.y + 3), (scale.line, sheet.y + SMALL + 1), width=2.2)
    sheet.y += SMALL * LEADING + 4
    for bar in picture.bars:
        _row(sheet, bar, scale)
    for share in scale.ticks:
        at = scale.at(share)
        sheet.line((at, sheet.y - 8), (at, sheet.y - 4), colour=scheme.soft)
        sheet.text(
            at,
            sheet.y - 2,
            f"{abs(share) * 100:.0f} %" if share else picture.line,
            size=SMALL,
            colour=scheme.soft,
            align="center",
        )
    sheet.y += SMALL * LEADING + 8


class _Scale:
    """Where a share of the rating that is left (above zero) or over (below) stands."""

    def __init__(self, picture: MarginsPicture) -> None:
        ends = [1 - bar.used for bar in picture.bars]
        doubt = max(bar.doubt for bar in picture.bars)
        self.most = min(max(LEAST_LEFT, max(ends) + doubt), MOST_LEFT)
        least = max(LEAST_OVER * self.most, doubt - min(ends))
        self.least = -min(least, MOST_OVER)
        self.line = RIGHT + INNER * self.least / (self.most - self.least)
        step = next(
            (each for each in STEPS if INNER * each / (self.most - self.least) > 55), STEPS[-1]
        )
        up = [step * count for count in range(int(self.most / step + 1e-9) + 1)]
        down = [-step * count for count in range(1, int(-self.least / step + 1e-9) + 1)]
        self.ticks = [each for each in (*up, *down) if MARGIN + 12 < self.at(each) < RIGHT - 12]

    def at(self, share: float) -> float:
        """Where a share is across the sheet; what is off the scale, at its end."""
        shown = min(max(share, self.least), self.most)
        return self.line - INNER * shown / (self.most - self.least)

    def beyond(self, share: float) -> bool:
        """Whether a share is off the scale."""
        return not self.least <= share <= self.most


def _row(sheet: Sheet, bar: Bar, scale: _Scale) -> None:
    scheme, look = sheet.scheme, LOOKS[bar.state]
    y = sheet.y
    sheet.mark(MARGIN + 5, y + PLAIN / 2 + 2, look.mark, size=8, fill=look.colour)
    said = sheet.text(RIGHT, y, bar.left, bold=True, align="right", width=INNER * 0.5, whole=True)
    room = INNER - said - 25
    name = sheet.text(MARGIN + 15, y, bar.name, width=room * 0.62)
    sheet.text(
        MARGIN + 15 + name + 6,
        y + 1,
        bar.against,
        size=SMALL,
        colour=scheme.soft,
        width=room - name - 6,
        whole=True,
    )
    y += PLAIN * LEADING + 2
    left = 1 - bar.used
    end = scale.at(left)
    sheet.box(MARGIN, y, INNER, THICK, fill=scheme.track)
    sheet.box(
        min(end, scale.line),
        y,
        abs(end - scale.line),
        THICK,
        fill=look.colour,
        edge=scheme.edge,
        hatch=look.hatch,
    )
    if scale.beyond(left):
        _break(sheet, end, y, 1 if left > 0 else -1)
    else:
        _whisker(sheet, scale.at(left + bar.doubt), scale.at(left - bar.doubt), y + THICK / 2)
    sheet.line((scale.line, y - 3), (scale.line, y + THICK + 3), width=2.2)
    sheet.y = y + THICK + 9


def _whisker(sheet: Sheet, start: float, end: float, y: float) -> None:
    """How unsure the end of a bar is, edged so that it stands out from bar and track."""
    caps = [((at, y - CAP), (at, y + CAP)) for at in (start, end)]
    for colour, width in ((sheet.scheme.ground, 4.0), (sheet.scheme.ink, 1.8)):
        sheet.lines([((start, y), (end, y)), *caps], colour=colour, width=width)


def _break(sheet: Sheet, end: float, y: float, way: int) -> None:
    """Two slashes through a bar that goes on beyond the scale."""
    for at in (7.0, 12.0):
        x = end + way * at
        sheet.line((x - 3, y + THICK), (x + 3, y), colour=sheet.scheme.ground, width=2.5)
