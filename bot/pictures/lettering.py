"""Lines of type: how wide they are, and how they are made to fit.

This file decides the face, which signs of a name can be set in it, and what happens to words and
figures that are too wide for their place. Measures are a sheet's (see `sheet.py`).
"""

from __future__ import annotations

import re
from bisect import bisect_left
from functools import lru_cache
from pathlib import Path

import matplotlib as mpl
from matplotlib.backends.backend_agg import RendererAgg
from matplotlib.font_manager import FontProperties, get_font

POINTS = 72
SCALE = 3
"""Pixels to a unit."""

LEAST = 10.5
"""Words are set no smaller than this to fit their place; they are cut instead."""

LEAST_WHOLE = 7.0
"""Figures are set no smaller than this; they are left out instead, since one that is cut lies."""

_FACES = Path(mpl.get_data_path()) / "fonts" / "ttf"
_PLAIN, _BOLD = _FACES / "DejaVuSans.ttf", _FACES / "DejaVuSans-Bold.ttf"


@lru_cache(maxsize=1)
def _ruler() -> RendererAgg:
    return RendererAgg(1, 1, POINTS * SCALE)


@lru_cache(maxsize=128)
def type_of(size: float, bold: bool) -> FontProperties:
    """The face that ships with matplotlib, whatever else is installed."""
    return FontProperties(fname=str(_BOLD if bold else _PLAIN), size=size)


@lru_cache(maxsize=2048)
def drawable(text: str) -> str:
    """A text on one line, without the signs that the face does not have.

    People's names have any: an emoji is left out, letters of another script become an ellipsis.
    """
    face = get_font(str(_PLAIN))

    def told(sign: str) -> str:
        if face.get_char_index(ord(sign)):
            return sign
        return "…" if sign.isalpha() else " "

    return re.sub("…+", "…", " ".join("".join(map(told, " ".join(text.split()))).split()))


@lru_cache(maxsize=2048)
def wide(text: str, size: float, bold: bool = False) -> float:
    """How wide a line of text is."""
    width, _, _ = _ruler().get_text_width_height_descent(text, type_of(size, bold), ismath=False)
    return float(width) / SCALE


def fitted(
    text: str, width: float, size: float, bold: bool = False, whole: bool = False
) -> tuple[str, float]:
    """A line that is no wider than that: smaller where it must be, and at last cut.

    A `whole` one is not cut, but empty.
    """
    least = LEAST_WHOLE if whole else LEAST
    full = wide(text, size, bold)
    if full <= width:
        return text, size
    smaller = max(least, int(2 * size * width / full) / 2)
    while smaller > least and wide(text, smaller, bold) > width:
        smaller -= 0.5
    if wide(text, smaller, bold) <= width:
        return text, smaller
    if whole:
        return "", smaller

    def cut(length: int) -> str:
        return f"{text[:length].rstrip(' ,.')}…"

    too_long = bisect_left(
        range(1, len(text)), True, key=lambda length: wide(cut(length), smaller, bold) > width
    )
    return cut(too_long), smaller


def wrapped(text: str, width: float, size: float, bold: bool, most: int) -> list[str]:
    """Text in lines no wider than that; the last of `most` takes what is left, and is cut."""
    lines: list[str] = []
    words = text.split()
    while words and len(lines) < most - 1:
        ends = range(2, len(words) + 1)
        fit = 1 + bisect_left(
            ends, True, key=lambda end: wide(" ".join(words[:end]), size, bold) > width
        )
        lines.append(" ".join(words[:fit]))
        words = words[fit:]
    return [*lines, " ".join(words)] if words else lines
