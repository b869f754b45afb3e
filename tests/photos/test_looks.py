"""Two looks at one place, and which way the text of a picture runs."""

from __future__ import annotations

import cmath
import math

import numpy as np
import pytest

from bot.photos.lighting import evenly_lit
from bot.photos.looks import Letter, Look, look_of
from bot.photos.places import Place, running_line


def look(text: str, confidence: float = 0.9, steps: dict[int, float] | None = None) -> Look:
    """A look whose letters stand evenly, but for wider `steps` before some of them."""
    letters, along = [], 0.0
    for index, letter in enumerate(text.replace(" ", "")):
        along += (steps or {}).get(index, 1.0) / 40
        letters.append(Letter(letter, along, confidence))
    return look_of(text, letters)


def said(of: Look) -> list[tuple[str, float]]:
    return [(part.text, part.confidence) for part in of.parts]


def place(x: float, y: float, width: float, height: float, degrees: float = 0) -> Place:
    """A place whose top left is at x and y, turned clockwise around it."""
    turn = cmath.exp(1j * math.radians(degrees))
    corners = [
        complex(x, y) + turn * point
        for point in (0j, complex(width), complex(width, height), complex(0, height))
    ]
    return Place(np.array([[each.real, each.imag] for each in corners], dtype=np.float32))


def test_what_two_looks_agree_about_is_as_sure_as_the_surer_had_it() -> None:
    assert said(look("5,280 lb", 0.8).confirmed_by(look("5,280 lb", 0.97))) == [
        ("5,280", 0.97), ("lb", 0.97),
    ]  # fmt: skip


@pytest.mark.parametrize("other", ["5,260 lb", "5,28 lb", "15,280 lb", ""])
def test_a_figure_that_two_looks_disagree_about_is_not_certain(other: str) -> None:
    sure = dict(said(look("5,280 lb", 0.99).confirmed_by(look(other, 0.6))))
    assert sure["5,280"] == 0.0
    assert sure["lb"] == (0.99 if other else 0.0)


def test_words_are_apart_that_either_look_had_apart() -> None:
    joined, parted = look("DIESELNO 2", 0.99), look("DIESEL NO 2", 0.7)
    assert [part.text for part in joined.confirmed_by(parted).parts] == ["DIESEL", "NO", "2"]
    assert [part.text for part in parted.confirmed_by(joined).parts] == ["DIESEL", "NO", "2"]


def test_a_number_is_not_parted_by_a_less_sure_look() -> None:
    whole, parted = look("19,940", 0.99), look("19 ,94 0", 0.7)
    assert [part.text for part in whole.confirmed_by(parted).parts] == ["19,940"]


def test_room_between_a_letter_and_a_digit_is_a_space_and_between_digits_is_none() -> None:
    assert [part.text for part in look("DATE07", steps={4: 2.5}).parts] == ["DATE", "07"]
    assert [part.text for part in look("DATE07").parts] == ["DATE07"]
    assert [part.text for part in look("4,440", steps={3: 2.5}).parts] == ["4,440"]


@pytest.mark.parametrize("degrees", range(-80, 100, 20))
def test_text_runs_along_its_long_places_whatever_their_corners_say(degrees: int) -> None:
    places = [
        place(10, 10, 200, 30, degrees), place(10, 90, 340, 28, degrees + 2).turned(1),
        place(300, 90, 34, 30, 77), place(10, 200, 120, 30, degrees - 2).turned(2),
    ]  # fmt: skip
    line = running_line(places)
    off = (math.degrees(cmath.phase(line)) - degrees + 90) % 180 - 90
    assert abs(off) < 2
    assert all(each.along(line).width > each.along(line).height for each in places[:2])


def test_a_place_at_the_edge_may_go_on_outside_the_picture() -> None:
    light = np.full((100, 200), 200, dtype=np.uint8)
    assert place(150, 40, 49, 20).is_cut_off(light)
    assert not place(100, 40, 49, 20).is_cut_off(light)


def test_paper_in_shadow_is_as_light_as_paper_in_the_sun() -> None:
    sheet = np.full((400, 600), 230, dtype=np.uint8)
    sheet[:, 300:] = 70
    sheet[190:200, 100:120] = 40
    sheet[190:200, 480:500] = 12
    even = evenly_lit(sheet)
    assert abs(int(even[50, 80]) - int(even[50, 520])) < 12
    assert int(even[195, 110]) < 80
    assert int(even[195, 490]) < 80
