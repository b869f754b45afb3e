"""What happens to a sheet between the printer and the chat: how people photograph.

Each wear is a function from a sheet and a seeded source of chance to a photo of it, on a table,
as the bytes of a JPEG.
"""

from __future__ import annotations

import io
import random
from collections.abc import Callable

import numpy as np
from PIL import Image, ImageChops, ImageFilter

Wear = Callable[[Image.Image, random.Random], Image.Image]

LONGEST = 1280
"""Pixels: the longest side of a photo as chat networks hand it on."""


def on_a_table(sheet: Image.Image, chance: random.Random, tilt: float) -> Image.Image:
    """The sheet lying on boards, a little turned and seen a little from the side."""
    margin = 90
    width, height = sheet.width + 2 * margin, sheet.height + 2 * margin
    boards = np.full((height, width), chance.randint(70, 150), dtype=np.float32)
    grain = np.random.default_rng(chance.randrange(2**32)).normal(0, 8, (height, 1))
    table = Image.fromarray(np.clip(boards + grain, 0, 255).astype(np.uint8))
    table.paste(sheet, (margin, margin))
    shade = table.getpixel((3, 3))
    assert isinstance(shade, int)
    turned = table.rotate(tilt, expand=True, fillcolor=shade, resample=Image.Resampling.BICUBIC)
    return seen_from_the_side(turned, chance, shade)


def seen_from_the_side(picture: Image.Image, chance: random.Random, shade: int) -> Image.Image:
    """One side a few hundredths shorter than the other."""
    width, height = picture.size
    inset = chance.uniform(0, 0.03) * width
    corners = (-inset, 0, 0, height, width, height, width + inset, 0)
    return picture.transform(
        picture.size, Image.Transform.QUAD, corners, resample=Image.Resampling.BICUBIC,
        fillcolor=shade,
    )  # fmt: skip


def turned(sheet: Image.Image, chance: random.Random) -> Image.Image:
    """Sideways or upside down, and up to 15 degrees askew."""
    askew = on_a_table(sheet, chance, chance.uniform(-15, 15))
    return askew.rotate(chance.choice((90, 180, 270)), expand=True)


def blurred(sheet: Image.Image, chance: random.Random) -> Image.Image:
    """Out of focus."""
    photo = on_a_table(sheet, chance, chance.uniform(-4, 4))
    return photo.filter(ImageFilter.GaussianBlur(chance.uniform(1.5, 2.4)))


def noisy(sheet: Image.Image, chance: random.Random) -> Image.Image:
    """Taken in too little light: grain all over."""
    photo = on_a_table(sheet, chance, chance.uniform(-5, 5))
    grain = np.random.default_rng(chance.randrange(2**32)).normal(
        0, 26, (photo.height, photo.width)
    )
    return Image.fromarray(np.clip(np.asarray(photo) + grain, 0, 255).astype(np.uint8))


def folded(sheet: Image.Image, chance: random.Random) -> Image.Image:
    """Creased across: a dark line with a shadow that fades, one half a little shaded."""
    photo = sheet.copy()
    light = np.ones((sheet.height, sheet.width), dtype=np.float32)
    for _ in range(2):
        at, slope = chance.uniform(0.2, 0.8) * sheet.height, chance.uniform(-0.05, 0.05)
        rows = np.arange(sheet.height)[:, None] - slope * np.arange(sheet.width)[None, :] - at
        light *= np.where(rows > 0, 1 - 0.35 * np.exp(-np.abs(rows) / 60), 1 - 0.1)
        light *= 1 - 0.3 * np.exp(-np.abs(rows) / 2.5)
    creased = np.clip(np.asarray(photo) * light, 0, 255).astype(np.uint8)
    return on_a_table(Image.fromarray(creased), chance, chance.uniform(-6, 6))


def dark(sheet: Image.Image, chance: random.Random) -> Image.Image:
    """At night by a dome lamp: little light, less of it on one side, and some grain."""
    photo = on_a_table(sheet, chance, chance.uniform(-6, 6))
    fall = np.linspace(chance.uniform(0.4, 0.6), chance.uniform(0.12, 0.25), photo.width)
    grain = np.random.default_rng(chance.randrange(2**32)).normal(0, 3, (photo.height, photo.width))
    return Image.fromarray(
        np.clip(np.asarray(photo) * fall[None, :] + grain, 0, 255).astype(np.uint8)
    )


WEARS: tuple[Wear, ...] = (turned, blurred, noisy, folded, dark)


def as_sent(photo: Image.Image) -> bytes:
    """The bytes that a chat network hands on: scaled down, and a JPEG of middling quality."""
    small = photo.copy()
    small.thumbnail((LONGEST, LONGEST))
    tinted = ImageChops.multiply(
        small.convert("RGB"), Image.new("RGB", small.size, (255, 250, 238))
    )
    kept = io.BytesIO()
    tinted.save(kept, "JPEG", quality=72)
    return kept.getvalue()
