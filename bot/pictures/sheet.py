"""A sheet to draw on: as wide as a phone, as long as what is on it.

This file decides the measure (360 units across, three pixels each, so that a unit is a CSS pixel
of a phone and a point of type), the sizes of type, and how marks and lines come onto the sheet. It
does not know what is drawn. matplotlib's figures are used without its pyplot, whose list of open
figures would hold every one of them.
"""

from __future__ import annotations

from collections.abc import Sequence
from io import BytesIO
from typing import Literal

from matplotlib.artist import Artist
from matplotlib.backends.backend_agg import FigureCanvasAgg, RendererAgg
from matplotlib.figure import Figure
from matplotlib.lines import Line2D
from matplotlib.patches import PathPatch, Polygon, Rectangle
from matplotlib.path import Path as Outline
from PIL import Image

from bot.pictures.lettering import POINTS, SCALE, drawable, fitted, type_of, wide, wrapped
from bot.pictures.palette import Scheme

WIDTH = 360.0
MARGIN = 14.0
RIGHT = WIDTH - MARGIN
INNER = WIDTH - 2 * MARGIN

SMALL, PLAIN, TITLE, HUGE = 11.5, 13.0, 16.0, 34.0
"""Sizes of type, in CSS pixels."""

LEADING = 1.3
VERDICT_LINES = 6
"""More than any verdict takes: what it ends with (not to tow it like this) is never cut."""

COLOURS = 128
"""Colours in a picture; flat shapes and their soft edges need fewer."""

Align = Literal["left", "center", "right"]
Point = tuple[float, float]


class Sheet:
    """A figure in units of a phone's screen, with the origin at the top left.

    `y` is how far down it is filled.
    """

    def __init__(self, scheme: Scheme) -> None:
        self.scheme = scheme
        self.figure = Figure(figsize=(WIDTH / POINTS, 1), dpi=POINTS * SCALE)
        self._canvas = FigureCanvasAgg(self.figure)
        self.figure.set_facecolor(scheme.ground)
        self.axes = self.figure.add_axes((0, 0, 1, 1))
        self.axes.set_axis_off()
        self.axes.set_xlim(0, WIDTH)
        self.y = MARGIN

    def text(
        self,
        x: float,
        y: float,
        text: str,
        *,
        size: float = PLAIN,
        bold: bool = False,
        colour: str | None = None,
        align: Align = "left",
        width: float = INNER,
        whole: bool = False,
    ) -> float:
        """One line whose top is at `y`, no wider than `width`; how wide it came out.

        A `whole` one is never cut, but left out where it has no room.
        """
        shown, set_in = fitted(drawable(text), width, size, bold, whole)
        if not shown:
            return 0.0
        self.axes.text(
            x,
            y + size,
            shown,
            fontproperties=type_of(set_in, bold),
            color=colour or self.scheme.ink,
            ha=align,
            va="baseline",
            parse_math=False,
        )
        return wide(shown, set_in, bold)

    def paragraph(
        self,
        text: str,
        *,
        size: float = PLAIN,
        bold: bool = False,
        colour: str | None = None,
        most: int = 4,
    ) -> None:
        """Lines across the sheet, from `y` on."""
        for line in wrapped(drawable(text), INNER, size, bold, most):
            self.text(MARGIN, self.y, line, size=size, bold=bold, colour=colour)
            self.y += size * LEADING

    def head(self, title: str, when: str, verdict: str) -> None:
        """What it is, when it was, and the verdict."""
        scheme = self.scheme
        taken = self.text(MARGIN, self.y, title, size=PLAIN, colour=scheme.soft, width=INNER / 2)
        self.text(
            RIGHT,
            self.y,
            when,
            size=PLAIN,
            colour=scheme.soft,
            align="right",
            width=INNER - taken - 10,
        )
        self.y += PLAIN * LEADING + 5
        self.line((MARGIN, self.y), (RIGHT, self.y), colour=scheme.rule)
        self.y += 8
        self.paragraph(verdict, size=TITLE, bold=True, most=VERDICT_LINES)
        self.y += 6

    def foot(self, *notes: str) -> None:
        """Notes in small type, where there are any."""
        for note in filter(None, notes):
            self.paragraph(note, size=SMALL, colour=self.scheme.soft)
            self.y += 3

    def line(
        self, start: Point, end: Point, *, colour: str | None = None, width: float = 1.0
    ) -> None:
        """A straight line."""
        self.lines([(start, end)], colour=colour or self.scheme.ink, width=width)

    def lines(self, segments: Sequence[tuple[Point, Point]], *, colour: str, width: float) -> None:
        """Straight lines of one kind."""
        points = [point for segment in segments for point in segment]
        steps = [Outline.MOVETO, Outline.LINETO] * len(segments)
        self._add(
            PathPatch(
                Outline(points, steps),
                facecolor="none",
                edgecolor=colour,
                linewidth=width,
                capstyle="butt",
            )
        )

    def box(
        self,
        x: float,
        y: float,
        width: float,
        height: float,
        *,
        fill: str,
        edge: str = "none",
        hatch: str = "",
        dashed: bool = False,
    ) -> None:
        """A rectangle; a hatch is drawn in the colour of the edge."""
        patch = Rectangle(
            (x, y),
            width,
            height,
            facecolor=fill,
            edgecolor=edge,
            linewidth=1.0,
            linestyle=(0, (3, 2)) if dashed else "-",
            hatch=hatch or None,
        )
        patch.set_hatch_linewidth(1.1)
        self._add(patch)

    def veil(
        self, x: float, y: float, width: float, height: float, *, fill: str, alpha: float
    ) -> None:
        """A rectangle that what lies below shows through."""
        self._add(Rectangle((x, y), width, height, facecolor=fill, edgecolor="none", alpha=alpha))

    def shape(self, points: Sequence[Point], *, fill: str) -> None:
        """A closed polygon."""
        self._add(Polygon(points, closed=True, facecolor=fill, edgecolor="none"))

    def mark(
        self, x: float, y: float, mark: str, *, size: float, fill: str, edge: str | None = None
    ) -> None:
        """A mark of a state or a series."""
        self.marks([(x, y)], mark, size=size, fill=fill, edge=edge)

    def marks(
        self,
        places: Sequence[Point],
        mark: str,
        *,
        size: float,
        fill: str,
        edge: str | None = None,
    ) -> None:
        """Marks of one kind."""
        self._add(
            Line2D(
                [x for x, _ in places],
                [y for _, y in places],
                marker=mark,
                markersize=size,
                markerfacecolor=fill,
                markeredgecolor=edge or self.scheme.edge,
                markeredgewidth=1.0 if mark != "x" else 2.0,
                linestyle="none",
            )
        )

    def _add(self, artist: Artist) -> None:
        # Not as a plot's own, which would be measured for a scale that nobody asks for.
        self.axes.add_artist(artist)

    @property
    def height(self) -> float:
        """How long the sheet is, as it is filled by now."""
        return round(self.y + MARGIN / 2)

    def finish(self) -> None:
        """Give the sheet its length."""
        self.figure.set_size_inches(WIDTH / POINTS, self.height / POINTS)
        self.axes.set_ylim(self.height, 0)

    def pixels(self) -> Image.Image:
        """The finished sheet, drawn."""
        # Not by the canvas, which would keep what it drew on: some eight megabytes.
        size = self._canvas.get_width_height()
        renderer = RendererAgg(*size, self.figure.dpi)
        self.figure.draw(renderer)
        return Image.frombuffer("RGBA", size, renderer.buffer_rgba()).convert("RGB")

    def png(self) -> bytes:
        """The finished sheet as PNG, in few colours, which makes it small for a weak network."""
        out = BytesIO()
        few = self.pixels().quantize(
            COLOURS, method=Image.Quantize.FASTOCTREE, dither=Image.Dither.NONE
        )
        few.save(out, "PNG", optimize=False)
        return out.getvalue()

    def let_go(self) -> None:
        """Let go of all that is on the sheet.

        Its parts know each other and what they were drawn on, so that all would stay until Python
        searches for such.
        """
        self.figure.clear()
