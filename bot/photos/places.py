"""Places on a picture where a word or a line stands: four corners, and what follows from them.

This file decides along which line the text of a picture runs, and how a place is cut out of it
straight. It does not know what is written there.
"""

from __future__ import annotations

import cmath
import math
from collections.abc import Sequence
from dataclasses import dataclass

import cv2
import numpy as np
from numpy.typing import NDArray

from bot.photos.lighting import Light
from domain.page import Corner

Quad = NDArray[np.float32]
"""Four points: a place's top left, top right, bottom right and bottom left, as it is read."""

EDGE = 3.0
"""Pixels from the edge of a picture within which a place may go on outside it."""
GROWTH = 0.08
"""How much is added around a place that is looked at again, in its heights."""
LEAST_CUT = 4
"""Pixels: the models take no thinner piece."""


@dataclass(frozen=True, slots=True, eq=False)
class Place:
    """A place by its corners, in the order in which they are read."""

    corners: Quad

    @property
    def width(self) -> float:
        """Pixels along its text."""
        top_left, top_right, bottom_right, bottom_left = self.corners
        return (_apart(top_left, top_right) + _apart(bottom_left, bottom_right)) / 2

    @property
    def height(self) -> float:
        """Pixels across its text."""
        top_left, top_right, bottom_right, bottom_left = self.corners
        return (_apart(top_left, bottom_left) + _apart(top_right, bottom_right)) / 2

    def turned(self, quarters: int) -> Place:
        """The same place, its text beginning at another corner."""
        return Place(np.roll(self.corners, -quarters, axis=0))

    def along(self, line: complex) -> Place:
        """The same place with its text running along a line."""
        return max(
            (self.turned(quarters) for quarters in range(4)),
            key=lambda way: (
                (_point(way.corners[1] - way.corners[0]) * line.conjugate()).real
                / max(way.width, 1.0)
            ),
        )

    def grown(self) -> Place:
        """The place with a little more around it."""
        along = (self.corners[1] - self.corners[0]) / max(self.width, 1.0)
        down = (self.corners[3] - self.corners[0]) / max(self.height, 1.0)
        outward = (-along - down, along - down, along + down, down - along)
        room = GROWTH * self.height
        return Place((self.corners + room * np.array(outward)).astype(np.float32))

    def is_cut_off(self, light: Light) -> bool:
        """Whether it reaches the edge of the picture: there may have been more of it."""
        height, width = float(light.shape[0]), float(light.shape[1])
        x, y = self.corners[:, 0], self.corners[:, 1]
        room = (float(x.min()), float(y.min()), width - float(x.max()), height - float(y.max()))
        return min(room) < EDGE

    def cut_from(self, light: Light) -> Light:
        """The piece of a picture inside the place, straight."""
        width, height = max(LEAST_CUT, round(self.width)), max(LEAST_CUT, round(self.height))
        flat = np.array([[0, 0], [width, 0], [width, height], [0, height]], dtype=np.float32)
        piece = cv2.warpPerspective(
            light,
            cv2.getPerspectiveTransform(self.corners, flat),
            (width, height),
            flags=cv2.INTER_CUBIC,
            borderMode=cv2.BORDER_REPLICATE,
        )
        return np.asarray(piece, dtype=np.uint8)

    def between(self, left: float, right: float) -> tuple[Corner, Corner, Corner, Corner]:
        """The corners of a part of it; `left` and `right` are shares of its width."""

        def at(start: int, end: int, share: float) -> Corner:
            x, y = self.corners[start] + (self.corners[end] - self.corners[start]) * share
            return float(x), float(y)

        return at(0, 1, left), at(0, 1, right), at(3, 2, right), at(3, 2, left)


def running_line(places: Sequence[Place]) -> complex:
    """The direction along which most text runs, one way or the other, as a number of length 1.

    Long places count most and square ones not at all; doubled angles make the two ways of a line
    one.
    """
    doubled = 0j
    for place in places:
        shorter, longer = sorted((place.width, place.height))
        way = place if place.width == longer else place.turned(1)
        side = _point(way.corners[1] - way.corners[0])
        doubled += side * side / max(abs(side), 1.0) * (1 - shorter / longer)
    angle = cmath.phase(doubled) / 2
    return complex(math.cos(angle), math.sin(angle))


def _apart(one: NDArray[np.float32], other: NDArray[np.float32]) -> float:
    return abs(_point(one - other))


def _point(corner: NDArray[np.float32]) -> complex:
    return complex(float(corner[0]), float(corner[1]))
