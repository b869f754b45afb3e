"""Every picture can be read on a phone: its size, its contrast, and that no text meets another.

Contrast is computed from the pixels that were drawn, by the definitions of relative luminance and
contrast ratio in WCAG 2.2 (W3C Recommendation, 5 October 2023), against the 4.5 to 1 that its
success criterion 1.4.3 asks for at level AA, and the 3 to 1 of 1.4.11 for marks and bars.
"""

from __future__ import annotations

from dataclasses import replace
from functools import cache
from io import BytesIO
from itertools import combinations

import numpy as np
import pytest
from matplotlib.backends.backend_agg import FigureCanvasAgg
from matplotlib.text import Text
from matplotlib.transforms import Bbox
from numpy.typing import NDArray
from PIL import Image

from bot.pictures.drawing import drawn, png
from bot.pictures.lettering import LEAST_WHOLE, SCALE, drawable
from bot.pictures.palette import LOOKS, PANEL, PAPER, Scheme
from bot.pictures.sheet import WIDTH, Sheet
from tests.pictures.examples import UNBROKEN, economy, examples, extreme_rig

EXAMPLES = examples()
SCHEMES = {"panel": PANEL, "paper": PAPER}
AA, AA_MARKS = 4.5, 3.0
LONGEST_ON_A_PHONE = 800
"""CSS pixels that a phone's screen is high (common practice, no source)."""

Pixels = NDArray[np.float64]
PACKED = np.array([65536.0, 256.0, 1.0])


def luminance(colours: Pixels) -> Pixels:
    """Relative luminance of sRGB colours from 0 to 255 (WCAG 2.2)."""
    share = colours / 255
    linear = np.where(share <= 0.04045, share / 12.92, ((share + 0.055) / 1.055) ** 2.4)
    found: Pixels = linear @ np.array([0.2126, 0.7152, 0.0722])
    return found


def contrast(one: Pixels, other: Pixels) -> Pixels:
    """The contrast ratio of colours (WCAG 2.2)."""
    light, dark = (luminance(each) + 0.05 for each in (one, other))
    found: Pixels = np.maximum(light / dark, dark / light)
    return found


def rgb(colour: str) -> Pixels:
    return np.array([int(colour[at : at + 2], 16) for at in (1, 3, 5)], dtype=float)


@cache
def sheet_of(name: str, scheme: str = "panel") -> Sheet:
    return drawn(EXAMPLES[name], SCHEMES[scheme])


@cache
def png_of(name: str, scheme: str = "panel") -> bytes:
    return sheet_of(name, scheme).png()


def texts(sheet: Sheet) -> list[tuple[Text, Bbox]]:
    canvas = sheet.figure.canvas
    assert isinstance(canvas, FigureCanvasAgg)
    renderer = canvas.get_renderer()
    found = sheet.figure.findobj(Text)
    return [(each, each.get_window_extent(renderer)) for each in found if each.get_text()]


def test_black_on_white_has_the_contrast_that_the_standard_says() -> None:
    assert contrast(rgb("#000000"), rgb("#FFFFFF")) == pytest.approx(21)
    # The grey that is commonly named as the lightest that passes on white (from memory).
    assert contrast(rgb("#767676"), rgb("#FFFFFF")) == pytest.approx(4.54, abs=0.01)


@pytest.mark.parametrize("name", EXAMPLES)
def test_a_picture_is_as_wide_as_a_phone_and_no_longer_than_its_screen(name: str) -> None:
    image = Image.open(BytesIO(png_of(name)))
    assert image.format == "PNG"
    assert image.width == WIDTH * SCALE == 1080
    assert image.height == sheet_of(name).height * SCALE
    assert image.height / SCALE < LONGEST_ON_A_PHONE
    assert "transparency" not in image.info


@pytest.mark.parametrize(
    ("name", "scheme"),
    [*((name, "panel") for name in EXAMPLES), ("rig near and over", "paper"), ("week", "paper")],
)
def test_words_stand_out_from_what_is_behind_them(name: str, scheme: str) -> None:
    sheet = sheet_of(name, scheme)
    pixels = np.array(Image.open(BytesIO(png_of(name, scheme))).convert("RGB"), dtype=float)
    for text, box in texts(sheet):
        rows = slice(round(len(pixels) - box.y1), round(len(pixels) - box.y0))
        part = pixels[rows, round(box.x0) : round(box.x1)].reshape(-1, 3)
        colours, counts = np.unique(part @ PACKED, return_counts=True)
        behind = part[(part @ PACKED) == colours[counts.argmax()]][0]
        # The ink is what stands out most, and more of it than a speck.
        inked = contrast(part, behind)
        assert np.quantile(inked, 0.97) >= AA, text.get_text()


@pytest.mark.parametrize("scheme", SCHEMES.values(), ids=SCHEMES)
def test_marks_and_bars_stand_out_by_their_colour_or_their_edge(scheme: Scheme) -> None:
    colours = [look.colour for look in LOOKS.values() if look.colour != "none"]
    for colour in (*colours, *scheme.series):
        ratios = [contrast(rgb(each), rgb(scheme.ground)) for each in (colour, scheme.edge)]
        assert max(ratios) >= AA_MARKS, colour
    # The line of a rating, where it crosses a track, and where it ends above it.
    for behind in (scheme.track, scheme.ground):
        assert contrast(rgb(scheme.ink), rgb(behind)) >= AA_MARKS


@pytest.mark.parametrize("name", EXAMPLES)
def test_no_text_meets_another_or_leaves_the_picture(name: str) -> None:
    sheet = sheet_of(name)
    found = texts(sheet)
    width, height = sheet.figure.canvas.get_width_height()
    for text, box in found:
        assert box.x0 >= 0, text.get_text()
        assert box.x1 <= width, text.get_text()
        assert box.y0 >= 0, text.get_text()
        assert box.y1 <= height, text.get_text()
    for (one, first), (other, second) in combinations(found, 2):
        across = min(first.x1, second.x1) - max(first.x0, second.x0)
        down = min(first.y1, second.y1) - max(first.y0, second.y0)
        # A pixel is less than a third of a phone's.
        assert across <= 1 or down <= 1, (one.get_text(), other.get_text())


@pytest.mark.parametrize("name", EXAMPLES)
def test_type_is_large_enough_for_a_phone(name: str) -> None:
    sizes = [float(text.get_fontsize()) for text, _ in texts(sheet_of(name))]
    least = LEAST_WHOLE if "longest" in name else 10.5
    assert min(sizes) >= least


def test_the_states_differ_in_mark_and_hatch_and_not_by_colour_alone() -> None:
    judged = [LOOKS[state] for state in ("inside", "near", "over")]
    for attribute in ("colour", "hatch", "mark"):
        assert len({getattr(look, attribute) for look in judged}) == 3


def test_names_are_cut_and_figures_are_not() -> None:
    shown = [text.get_text() for text, _ in texts(sheet_of("rig at its longest"))]
    assert UNBROKEN not in shown
    assert any(each.endswith("…") and UNBROKEN.startswith(each[:-1]) for each in shown)
    assert shown.count("104,980 lb over") == len(extreme_rig().trailer) + 6
    assert not [each for each in shown if each.endswith("…") and each[:-1].isdigit()]


@pytest.mark.parametrize(
    ("name", "as_drawn"),
    [
        ("Wren \N{HONEYBEE} Ash", "Wren Ash"),
        ("\N{HONEYBEE}\N{TRACTOR}", ""),
        ("山田 15", "… 15"),
        ("Зоя Ясная", "Зоя Ясная"),
        ("Señora\nNúñez\t", "Señora Núñez"),
        ("x" * 5 + "\ud800", "xxxxx"),
    ],
)
def test_names_are_drawn_as_far_as_the_face_has_their_letters(name: str, as_drawn: str) -> None:
    picture = replace(economy(), title=name)
    shown = [text.get_text() for text, _ in texts(drawn(picture))]
    assert drawable(name) == as_drawn
    assert as_drawn in (*shown, "")


def test_money_is_no_mathematics() -> None:
    shown = [text.get_text() for text, _ in texts(sheet_of("week"))]
    assert "$278.84, 3 fills" in shown
    assert all(not text.get_parse_math() for text, _ in texts(sheet_of("week")))


@pytest.mark.parametrize("name", ["rig near and over", "margins inside", "economy", "week"])
def test_the_same_picture_is_drawn_as_the_same_bytes(name: str) -> None:
    assert png(EXAMPLES[name]) == png_of(name)


def test_another_picture_is_drawn_otherwise() -> None:
    assert len({png_of(name) for name in EXAMPLES}) == len(EXAMPLES)


def test_an_economy_of_one_way_of_driving_and_of_two_days_is_drawn() -> None:
    alone = replace(economy(), series=economy().series[:1], ticks=(), notes=())
    assert png(alone)
