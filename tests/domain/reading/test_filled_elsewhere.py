"""Fuel that was poured elsewhere than where the odometer was read: on the way, in another town."""

from __future__ import annotations

from typing import Any

import pytest

from domain.entries import Fill, Hitch, Odometer
from domain.quantities import Quantity
from domain.verdicts import Facts
from tests.domain.reading.chats import Reader, chat, on_the_road


def told(text: str, reads: Reader) -> list[tuple[str, float | None, str | None]]:
    """Kind, odometer and place of each entry that a message states."""
    verdict = reads(text, on_the_road())
    assert isinstance(verdict, Facts), text
    return [_row(each) for each in verdict.entries]


def _row(entry: Any) -> tuple[str, float | None, str | None]:
    assert isinstance(entry, (Fill, Hitch, Odometer))
    read = None if isinstance(entry, Hitch) else entry.odometer
    return type(entry).__name__, read.value if read else None, entry.place


@pytest.mark.parametrize(
    ("text", "entries"),
    [
        (
            "unhitched at home, 48,344, added 18.2 gal on the way",
            [("Hitch", None, "home"), ("Odometer", 48_344, "home"), ("Fill", None, None)],
        ),
        (
            "got 18.2 gal along the way, dropped the camper at Pell 48,344",
            [("Fill", None, None), ("Hitch", None, "Pell"), ("Odometer", 48_344, "Pell")],
        ),
        (
            "arrived Pell 48,344, fueled on the way, 18.2 gal",
            [("Odometer", 48_344, "Pell"), ("Fill", None, None)],
        ),
        (
            "home 48,344, filled in Dorset 18.2 gal",
            [("Odometer", 48_344, "home"), ("Fill", None, "Dorset")],
        ),
        (
            "filled up 48,340, 31 gal, hitched the camper and left at 48,344",
            [("Fill", 48_340, None), ("Hitch", None, None), ("Odometer", 48_344, None)],
        ),
    ],
)
def test_the_reading_is_of_where_one_came(
    text: str, entries: list[tuple[str, float | None, str | None]], reads: Reader
) -> None:
    assert told(text, reads) == entries


@pytest.mark.parametrize(
    ("text", "entry"),
    [
        ("stopped on the way, 48,344, 18.2 gal", ("Fill", 48_344, None)),
        ("fueled up at Pell on the way, 48,344, 18.2 gal", ("Fill", 48_344, "Pell")),
        ("home 48,344, filled up 18.2 gal", ("Fill", 48_344, "home")),
        ("home 48,344, put 18.2 gal in Juniper", ("Fill", 48_344, "home")),
        ("home 48,344, 18.2 gal at 3.799", ("Fill", 48_344, "home")),
    ],
)
def test_a_stop_is_read_at_its_pump(
    text: str, entry: tuple[str, float, str | None], reads: Reader
) -> None:
    assert told(text, reads) == [entry]


def test_who_is_home_safe_came_home(reads: Reader) -> None:
    assert told("home safe 48,344", reads) == [("Odometer", 48_344, "home")]


@pytest.mark.parametrize(
    ("text", "price", "distance"),
    [("64.1 L, 141.9, 48,402", 1.419, None), ("64.1 L, 141.6, 48,402", None, 141.6)],
)
def test_a_price_in_pence_ends_with_nine_tenths(
    text: str, price: float | None, distance: float | None, reads: Reader
) -> None:
    british = chat(units="imperial", currency="GBP", odometer=Quantity(48_010, "mi"))
    verdict = reads(text, british)
    assert isinstance(verdict, Facts)
    (fill,) = verdict.entries
    assert isinstance(fill, Fill)
    assert (fill.unit_price and fill.unit_price.value) == price
    assert (fill.distance and fill.distance.value) == distance


@pytest.mark.parametrize(
    ("text", "entries"),
    [
        (
            "left Pell 48,302, fueled Dorset 24.6 gal 48,533, home 48,811",
            [("Odometer", 48_302, "Pell"), ("Fill", 48_533, None), ("Odometer", 48_811, "home")],
        ),
        (
            "left Pell 48,302, 24.6 gal 48,533 in Dorset, got to Harlow 48,811",
            [
                ("Odometer", 48_302, "Pell"),
                ("Fill", 48_533, "Dorset"),
                ("Odometer", 48_811, "Harlow"),
            ],
        ),
    ],
)
def test_where_one_left_is_no_place_of_a_fill_miles_away(
    text: str, entries: list[tuple[str, float | None, str | None]], reads: Reader
) -> None:
    assert told(text, reads) == entries
