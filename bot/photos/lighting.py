"""The light of a picture, and how shadows are taken out of it."""

from __future__ import annotations

import cv2
import numpy as np
from numpy.typing import NDArray

Light = NDArray[np.uint8]
"""The light of a picture: rows of pixels from 0, black, to 255, white."""

DARKEST = 12
"""The paper's light below which a picture is no longer brightened."""
WHITE = 225
"""The paper's light afterwards."""
COARSE = 8
"""How much smaller the copy is that the paper's light is taken from."""


def evenly_lit(light: Light) -> Light:
    """A picture with its paper equally bright everywhere: shadows, folds and dusk are gone.

    Each pixel is set against the brightest of its neighbourhood, taken from a smaller
    copy; what is nearly black all around stays so.
    """
    height, width = light.shape
    small = cv2.resize(
        light, (max(1, width // COARSE), max(1, height // COARSE)), interpolation=cv2.INTER_AREA
    )
    paper = cv2.GaussianBlur(cv2.dilate(small, np.ones((5, 5), dtype=np.uint8)), (0, 0), 6)
    paper = cv2.resize(paper, (width, height), interpolation=cv2.INTER_LINEAR)
    lit = light.astype(np.float32) / np.maximum(paper, DARKEST) * WHITE
    return np.clip(lit, 0, 255).astype(np.uint8)


def in_colours(light: Light) -> NDArray[np.uint8]:
    """Grey as three equal colours, as the models take it."""
    return np.repeat(light[:, :, None], 3, axis=2)
