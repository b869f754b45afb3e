"""Words with their places on a picture, and the lines that a person would read of them.

This file decides what stands in one row though it is tilted or far apart, which label belongs to
which figure across columns and cells, and what a heading says of the figures below it. It does
not know what a picture is, how words were recognised, or what a line means.
"""

from __future__ import annotations

from dataclasses import dataclass

Corner = tuple[float, float]
"""Pixels from the picture's left and from its top."""


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
