"""A picture's bytes, opened within bounds.

This file decides what is accepted as a photo: its formats, its bytes and its pixels, which are
counted before any is decoded. What comes out is the light of each pixel the right way up and
nothing else: what was written into the file beside it (where and when it was taken, by whom) is
left behind. It does not know what is on the picture.
"""

from __future__ import annotations

import io
import warnings
from typing import Any

import numpy as np
from PIL import Image, ImageOps

from bot.photos.bounds import MOST_BYTES
from bot.photos.lighting import Light

FORMATS = ("JPEG", "PNG", "WEBP")
MOST_PIXELS = 40_000_000
LEAST_SIDE = 40
"""Pixels: on less there is nothing to read."""
WORKING_SIDE = 1600
"""Pixels: the longest side that is looked at. A ticket's small print is still 15 of them high."""


class NotAPicture(Exception):
    """Bytes that are no picture of a kind that is read, or a broken one."""


class TooLarge(Exception):
    """More bytes or pixels than are looked at."""


def opened(picture: bytes) -> Light:
    """The light of a picture, upright and of a working size; raises NotAPicture or TooLarge."""
    if len(picture) > MOST_BYTES:
        raise TooLarge
    try:
        with warnings.catch_warnings():
            # Pillow warns of twice its own bound of pixels and of broken EXIF; ours is checked
            # below, and EXIF is left behind.
            warnings.simplefilter("ignore")
            with Image.open(io.BytesIO(picture), formats=FORMATS) as image:
                return _light(image)
    except Image.DecompressionBombError as error:
        raise TooLarge from error
    except _BROKEN as error:
        raise NotAPicture from error


_BROKEN = (OSError, SyntaxError, ValueError, TypeError, LookupError, EOFError, OverflowError)
"""What Pillow's decoders raise for bytes that are not what they claim to be."""


def _light(image: Any) -> Light:
    width, height = image.size
    if width * height > MOST_PIXELS:
        raise TooLarge
    # A JPEG that holds a second picture (a gain map, a preview) is still one photo.
    if getattr(image, "n_frames", 1) > 1 and image.format != "MPO":
        raise NotAPicture
    if min(width, height) < LEAST_SIDE:
        raise NotAPicture
    image.draft("L", (WORKING_SIDE, WORKING_SIDE))
    image = ImageOps.exif_transpose(image)
    if image.has_transparency_data:
        image = image.convert("RGBA")
        white = Image.new("RGBA", image.size, "white")
        image = Image.alpha_composite(white, image)
    grey = image.convert("L")
    grey.thumbnail((WORKING_SIDE, WORKING_SIDE))
    return np.array(grey, dtype=np.uint8)
