"""Pictures from strangers: what is attempted, and what comes of it."""

from __future__ import annotations

import io
import random
import struct
import sys
import zipfile
import zlib
from collections.abc import Callable

import numpy as np
import pytest
from PIL import Image

from bot.photos.bounds import MOST_BYTES
from bot.photos.opening import (
    MOST_PIXELS,
    WORKING_SIDE,
    NotAPicture,
    TooLarge,
    opened,
)
from bot.photos.recognition import Recogniser
from domain.columns import lines
from domain.page import Word, rows

GPS, LATITUDE, MAKE, ORIENTATION = 0x8825, 2, 0x010F, 0x0112
SECRET_PLACE = "Where the hives stand"


def saved(picture: Image.Image, form: str, **options: object) -> bytes:
    kept = io.BytesIO()
    picture.save(kept, form, **options)
    return kept.getvalue()


def plain(width: int = 300, height: int = 200) -> Image.Image:
    return Image.new("RGB", (width, height), (200, 190, 170))


def chunk(kind: bytes, body: bytes) -> bytes:
    return struct.pack(">I", len(body)) + kind + body + struct.pack(">I", zlib.crc32(kind + body))


def png_of(width: int, height: int, *extra: bytes) -> bytes:
    """A PNG that claims a size and holds a few bytes of pixels."""
    head = struct.pack(">IIBBBBB", width, height, 8, 0, 0, 0, 0)
    pixels = zlib.compress(b"\0" * 1000)
    return b"".join(
        (b"\x89PNG\r\n\x1a\n", chunk(b"IHDR", head), *extra, chunk(b"IDAT", pixels),
         chunk(b"IEND", b""))
    )  # fmt: skip


def animated(form: str) -> bytes:
    frames = [Image.new("L", (80, 80), shade) for shade in (10, 200, 90)]
    return saved(frames[0], form, save_all=True, append_images=frames[1:])


def bomb_of_text() -> bytes:
    """A PNG whose caption unpacks to 200 MB."""
    body = b"Comment\0\0" + zlib.compress(b"A" * 200_000_000, 9)
    return png_of(300, 300, chunk(b"zTXt", body))


def full_of_pixels() -> bytes:
    """A PNG of 400 megapixels, all of which are there, in half a megabyte."""
    head = struct.pack(">IIBBBBB", 20_000, 20_000, 8, 0, 0, 0, 0)
    packer = zlib.compressobj(9)
    row = b"\0" * 20_001
    packed = b"".join(packer.compress(row) for _ in range(20_000)) + packer.flush()
    return b"".join(
        (b"\x89PNG\r\n\x1a\n", chunk(b"IHDR", head), chunk(b"IDAT", packed), chunk(b"IEND", b""))
    )


TOO_LARGE: dict[str, Callable[[], bytes]] = {
    "a header that claims 65,000 by 65,000 pixels": lambda: png_of(65_000, 65_000),
    "a header that claims two thousand million columns": lambda: png_of(2**31 - 1, 2**31 - 1),
    "a PNG of 400 megapixels in half a megabyte": full_of_pixels,
    "a JPEG of 60 megapixels": lambda: saved(Image.new("L", (10_000, 6_000)), "JPEG"),
    "just over 40 megapixels": lambda: saved(Image.new("L", (6_326, 6_326)), "JPEG"),
    "a byte more than 8 MB": lambda: b"\xff\xd8" + b"\0" * (MOST_BYTES - 1),
}

NO_PICTURE: dict[str, Callable[[], bytes]] = {
    "nothing": lambda: b"",
    "noise": lambda: np.random.default_rng(7).bytes(50_000),
    "a JPEG cut in half": lambda: saved(plain(), "JPEG")[:-900],
    "a JPEG of its first bytes": lambda: saved(plain(), "JPEG")[:200],
    "a PNG cut off": lambda: saved(plain(), "PNG")[:60],
    "a GIF that moves": lambda: animated("GIF"),
    "a GIF that stands still": lambda: saved(plain(), "GIF"),
    "a PNG that moves": lambda: animated("PNG"),
    "a WebP that moves": lambda: animated("WEBP"),
    "a TIFF": lambda: saved(plain(), "TIFF"),
    "a BMP": lambda: saved(plain(), "BMP"),
    "an icon": lambda: saved(plain(), "ICO"),
    "an EPS, which a program would draw": lambda: saved(plain(), "EPS"),
    "a PDF called a photo": lambda: saved(plain(), "PDF"),
    "an SVG called a photo": lambda: b'<svg xmlns="http://www.w3.org/2000/svg"><script/></svg>',
    "a page called a photo": lambda: b"<!doctype html><script>fetch('/')</script>",
    "a JPEG's first bytes before a script": lambda: b"\xff\xd8\xff\xe0#!/bin/sh\nexit 1\n",
    "a caption that unpacks to 200 MB": bomb_of_text,
    "one row of pixels": lambda: saved(plain(5_000, 1), "PNG"),
    "pixels that are missing": lambda: png_of(3_000, 3_000),
}


@pytest.mark.parametrize("attack", TOO_LARGE)
def test_more_than_is_looked_at_is_refused_before_it_is_decoded(attack: str) -> None:
    with pytest.raises(TooLarge):
        opened(TOO_LARGE[attack]())


@pytest.mark.parametrize("attack", NO_PICTURE)
def test_what_is_no_still_picture_of_three_formats_is_refused(attack: str) -> None:
    with pytest.raises(NotAPicture):
        opened(NO_PICTURE[attack]())


def test_forty_megapixels_are_scaled_down_to_a_working_size() -> None:
    side = int(MOST_PIXELS**0.5)
    light = opened(saved(Image.new("L", (side, side), 255), "JPEG"))
    assert light.shape == (WORKING_SIDE, WORKING_SIDE)


@pytest.mark.parametrize("form", ["JPEG", "PNG", "WEBP"])
def test_where_and_with_what_a_photo_was_taken_is_gone(form: str) -> None:
    exif = Image.Exif()
    exif[MAKE] = SECRET_PLACE
    exif.get_ifd(GPS)[LATITUDE] = (43.0, 36.0, 54.0)
    picture = saved(plain(), form, exif=exif)
    assert SECRET_PLACE.encode() in picture
    light = opened(picture)
    assert type(light) is np.ndarray
    assert light.dtype == np.uint8
    assert light.shape == (200, 300)
    assert SECRET_PLACE.encode() not in light.tobytes()


@pytest.mark.parametrize("orientation", range(1, 9))
def test_a_photo_that_says_it_was_held_sideways_is_set_upright(orientation: int) -> None:
    """The eight orientations of EXIF 2.32 (CIPA DC-008), section 4.6.4, tag 0112."""
    upright = Image.new("L", (120, 80), 255)
    upright.paste(0, (0, 0, 60, 40))  # dark in the upper left alone
    stored = {
        1: None, 2: Image.Transpose.FLIP_LEFT_RIGHT, 3: Image.Transpose.ROTATE_180,
        4: Image.Transpose.FLIP_TOP_BOTTOM, 5: Image.Transpose.TRANSPOSE,
        6: Image.Transpose.ROTATE_90, 7: Image.Transpose.TRANSVERSE,
        8: Image.Transpose.ROTATE_270,
    }[orientation]  # fmt: skip
    exif = Image.Exif()
    exif[ORIENTATION] = orientation
    held = upright if stored is None else upright.transpose(stored)
    light = opened(saved(held, "PNG", exif=exif))
    assert np.array_equal(light, np.asarray(upright))


def test_a_broken_exif_does_not_cost_the_photo() -> None:
    picture = saved(plain(), "JPEG", exif=b"Exif\0\0MM\0\x2a\xff\xff\xff\xff" + b"\xff" * 500)
    assert opened(picture).shape == (200, 300)


def test_an_archive_behind_a_photo_is_left_behind() -> None:
    behind = io.BytesIO()
    with zipfile.ZipFile(behind, "w") as archive:
        archive.writestr("payload.sh", "exit 1")
    picture = saved(plain(), "PNG")
    assert np.array_equal(opened(picture + behind.getvalue()), opened(picture))


@pytest.mark.parametrize("mode", ["1", "P", "L", "LA", "RGBA", "I;16", "CMYK"])
def test_a_photo_in_any_colours_becomes_light(mode: str) -> None:
    form = "JPEG" if mode == "CMYK" else "PNG"
    light = opened(saved(Image.new(mode, (90, 60)), form))
    assert light.shape == (60, 90)


def test_what_is_seen_through_is_paper() -> None:
    light = opened(saved(Image.new("RGBA", (90, 60), (0, 0, 0, 0)), "PNG"))
    assert int(light.min()) == 255


def test_a_photo_with_a_second_picture_inside_is_one_photo() -> None:
    """Phones keep a preview or a gain map in the same file (Multi-Picture Format)."""
    picture = saved(plain(), "MPO", save_all=True, append_images=[plain(60, 40)])
    assert opened(picture).shape == (200, 300)


@pytest.mark.parametrize("form", ["JPEG", "PNG", "WEBP"])
def test_a_spoilt_picture_is_opened_or_refused_and_nothing_else(form: str) -> None:
    chance = random.Random(form)
    whole = saved(plain(64, 48), form, exif=Image.Exif())
    outcomes: set[np.dtype[np.uint8] | None] = set()
    for _ in range(400):
        spoilt = bytearray(whole)
        for _ in range(chance.choice((1, 1, 2, 8))):
            spoilt[chance.randrange(len(spoilt))] = chance.randrange(256)
        try:
            outcomes.add(opened(bytes(spoilt)).dtype)
        except (NotAPicture, TooLarge):
            outcomes.add(None)
    assert outcomes == {np.dtype(np.uint8), None}


def test_marks_of_direction_among_recognised_words_change_no_line() -> None:
    corners = ((0.0, 0.0), (100.0, 0.0), (100.0, 20.0), (0.0, 20.0))
    further = ((300.0, 0.0), (380.0, 0.0), (380.0, 20.0), (300.0, 20.0))
    page = [
        Word("STE\u200bER\u202e", corners, 0.99), Word("\u20665,2\u200f80\u2069", further, 0.99),
    ]  # fmt: skip
    assert [line.text for line in lines(rows(page))] == ["STEER 5,280"]


class Listener:
    """Hears when Python reaches out to a network, while it is asked to."""

    REACHING_OUT = ("socket.connect", "socket.getaddrinfo", "urllib.Request")

    def __init__(self) -> None:
        self.heard: list[str] = []
        self.on = True
        sys.addaudithook(self._hear)

    def _hear(self, event: str, _arguments: tuple[object, ...]) -> None:
        if self.on and event in self.REACHING_OUT:
            self.heard.append(event)


def test_nothing_is_fetched_to_look_at_a_photo() -> None:
    listener = Listener()
    Recogniser().words(opened(saved(plain(), "JPEG")))
    listener.on = False
    assert listener.heard == []
