"""Words with their places on a picture, put in the rows and cells in which they stand.

This file decides what stands in one row though the picture is askew or seen from the side, and
which words of a row stand together. Everything is measured in the height of the letters. It does
not know what a picture is, how words were recognised, or what a row means; what headings say of
the figures below them is decided in `columns`.
"""

from __future__ import annotations

import unicodedata
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, replace

Corner = tuple[float, float]
"""Pixels from the picture's left and from its top."""

SAME_ROW = 0.55
"""How far apart, in heights, the middles of two words of one row can be."""
SAME_CELL = 1.0
"""How wide, in heights, a gap between two words of one cell can be; a space is a third."""
WIDE = 2.0
"""How many heights long a word is whose slope can be trusted."""


@dataclass(frozen=True, slots=True)
class Word:
    """What was recognised in one place.

    `corners` go round the word as it is read: its top left, top right, bottom right and bottom
    left, whichever way the picture lies. `confidence` is that of its least certain character,
    from 0 to 1.
    """

    text: str
    corners: tuple[Corner, Corner, Corner, Corner]
    confidence: float


@dataclass(frozen=True, slots=True)
class Cell:
    """Words that stand together in a row: where, in levelled pixels, and how sure each is."""

    words: tuple[str, ...]
    confidences: tuple[float, ...]
    left: float
    right: float
    height: float

    @property
    def text(self) -> str:
        """Its words with a space between."""
        return " ".join(self.words)

    @property
    def middle(self) -> float:
        """Half-way between its ends."""
        return (self.left + self.right) / 2


Row = tuple[Cell, ...]


@dataclass(frozen=True, slots=True)
class _Box:
    """A word by the middles of its two ends, as points of the complex plane."""

    text: str
    confidence: float
    start: complex
    end: complex
    height: float

    @property
    def run(self) -> complex:
        """From its beginning to its end."""
        return self.end - self.start

    @property
    def at(self) -> complex:
        """Its middle."""
        return (self.start + self.end) / 2


def rows(words: Iterable[Word]) -> tuple[Row, ...]:
    """The rows of a page from top to bottom, each with its cells from left to right."""
    boxes = [box for word in words if (box := _boxed(word)) is not None]
    if not boxes:
        return ()
    gathered = _gathered(_levelled(boxes))
    gathered.sort(key=lambda row: sum(box.at.imag for box in row) / len(row))
    return tuple(tuple(_cells(row)) for row in gathered)


def seen(text: str) -> str:
    """What can be seen of a word, in one form of Unicode: no mark of direction, nothing hidden."""
    return "".join(
        character
        for character in unicodedata.normalize("NFKC", text)
        if unicodedata.category(character)[0] not in "CZ"
    )


def _boxed(word: Word) -> _Box | None:
    text = seen(word.text)
    top_left, top_right, bottom_right, bottom_left = (complex(*corner) for corner in word.corners)
    height = (abs(bottom_left - top_left) + abs(bottom_right - top_right)) / 2
    start, end = (top_left + bottom_left) / 2, (top_right + bottom_right) / 2
    if not text or height == 0 or start == end:
        return None
    return _Box(text, word.confidence, start, end, height)


def _levelled(boxes: Sequence[_Box]) -> list[_Box]:
    """The page turned so that its rows run to the right, and sheared so that all run level.

    Seen from the side, rows at the top slope otherwise than those at the bottom: what slope is
    left after turning is taken to change evenly from top to bottom.
    """
    upright = abs(run) / run if (run := sum(box.run for box in boxes)) else 1
    turned = [replace(box, start=box.start * upright, end=box.end * upright) for box in boxes]
    wide = [box for box in turned if box.run.real > WIDE * box.height]
    level, change = _line(
        [(box.at.imag, box.run.imag / box.run.real, abs(box.run)) for box in wide]
    )
    middle = sum(box.at.real for box in turned) / len(turned)

    def sheared(box: _Box, point: complex) -> complex:
        slope = level + change * box.at.imag
        return point - 1j * slope * (point.real - middle)

    return [
        replace(box, start=sheared(box, box.start), end=sheared(box, box.end)) for box in turned
    ]


def _line(points: Sequence[tuple[float, float, float]]) -> tuple[float, float]:
    """The straight line through points (x, y, weight): its height at 0 and its slope."""
    whole = sum(weight for _, _, weight in points)
    if not whole:
        return 0.0, 0.0
    x = sum(x * weight for x, _, weight in points) / whole
    y = sum(y * weight for _, y, weight in points) / whole
    spread = sum(weight * (each - x) ** 2 for each, _, weight in points)
    if len(points) < LEAST_FOR_CHANGE or not spread:
        return y, 0.0
    slope = sum(weight * (a - x) * (b - y) for a, b, weight in points) / spread
    return y - slope * x, slope


LEAST_FOR_CHANGE = 6
"""Words, below which their slopes say nothing of how the page was seen."""


def _gathered(boxes: Iterable[_Box]) -> list[list[_Box]]:
    """Words by rows: each joins the row whose latest word is most nearly level with it."""
    gathered: list[list[_Box]] = []
    for box in sorted(boxes, key=lambda box: box.start.real):
        nearest = min(gathered, key=lambda row: _apart(row[-1], box), default=None)
        if nearest is not None and _apart(nearest[-1], box) <= SAME_ROW:
            nearest.append(box)
        else:
            gathered.append([box])
    return gathered


def _apart(one: _Box, other: _Box) -> float:
    """How far two words are from being level, in heights of the lower of them."""
    return abs(one.at.imag - other.at.imag) / min(one.height, other.height)


def _cells(row: Sequence[_Box]) -> Iterator[Cell]:
    """The words of a row, parted where the gap is wider than a space."""
    begin = 0
    for index in range(1, len(row) + 1):
        if index < len(row):
            gap = row[index].start.real - row[index - 1].end.real
            if gap < SAME_CELL * min(row[index].height, row[index - 1].height):
                continue
        part = row[begin:index]
        begin = index
        yield Cell(
            words=tuple(box.text for box in part),
            confidences=tuple(box.confidence for box in part),
            left=part[0].start.real,
            right=max(box.end.real for box in part),
            height=sum(box.height for box in part) / len(part),
        )
