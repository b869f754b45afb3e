"""What was behind the truck, mile by mile."""

from __future__ import annotations

from datetime import timedelta

import pytest

from domain.modes import SOLO, UNNAMED, UNTOLD
from domain.quantities import Quantity
from tests.domain.driving_log import START, Page


def split(page: Page) -> dict[str, float]:
    """Miles in each mode over the whole log."""
    driven = page.driven
    first, last = driven.track.marks[0].km, driven.track.marks[-1].km
    return {
        mode: round(Quantity(km, "km").amount("mi"), 6)
        for mode, km in driven.modes.split(first, last).items()
    }


def test_miles_count_for_the_trailer_that_was_on() -> None:
    page = Page()
    page.reads(0, 48000)
    page.hitches(5, "flatdeck")
    page.reads(5, 48100, "depart")
    page.reads(8, 48250, "arrive")
    page.unhitches(8, "flatdeck")
    page.reads(20, 48300)
    assert split(page) == {SOLO: 150, "flatdeck": 150}


def test_unhitching_without_a_reading_happened_where_the_truck_last_stopped() -> None:
    page = Page()
    page.hitches(0, "camper")
    page.reads(0, 48000, "depart")
    page.reads(4, 48200, "arrive")
    page.unhitches(6)
    page.reads(30, 48230)
    assert split(page) == {"camper": 200, SOLO: 30}


def test_a_log_that_opens_with_an_unhitching_had_that_trailer_on_before() -> None:
    page = Page()
    page.reads(0, 48000)
    page.reads(3, 48120)
    page.unhitches(3, "camper")
    page.reads(9, 48150)
    assert split(page) == {"camper": 120, SOLO: 30}


def test_swapping_trailers_without_unhitching_counts_from_the_swap() -> None:
    page = Page()
    page.hitches(0, "flatdeck")
    page.reads(0, 48000)
    page.hitches(4, "camper")
    page.reads(4, 48100)
    page.reads(8, 48180)
    assert split(page) == {"flatdeck": 100, "camper": 80}


def test_a_hitching_that_names_no_trailer_takes_the_name_from_the_unhitching() -> None:
    page = Page()
    page.hitches(0)
    page.reads(0, 48000, "depart")
    page.reads(4, 48100, "arrive")
    page.unhitches(4, "Flatdeck")
    page.hitches(50, "camper")
    assert page.driven.modes.at(START + timedelta(hours=1)) == "Flatdeck"


def test_the_only_trailer_needs_no_name() -> None:
    page = Page()
    page.hitches(0, "flatdeck")
    page.unhitches(3)
    page.hitches(9)
    assert page.driven.modes.at(START + timedelta(hours=10)) == "flatdeck"


def test_a_trailer_without_any_name_is_the_trailer() -> None:
    page = Page()
    page.hitches(0)
    assert page.driven.modes.at(START) == UNNAMED


def test_without_any_hitching_nobody_told_what_was_on() -> None:
    page = Page()
    page.reads(0, 48000)
    page.reads(3, 48100)
    assert split(page) == {UNTOLD: 100}


def test_a_tank_counts_its_miles_by_mode() -> None:
    page = Page()
    page.fill(0, 48000, 30)
    page.hitches(2, "flatdeck")
    page.reads(2, 48090, "depart")
    page.fill(9, 48300, 22)
    (tank,) = page.driven.chain.tanks
    assert tank.split["flatdeck"] == pytest.approx(Quantity(210, "mi").amount("km"))
    assert tank.split[SOLO] == pytest.approx(Quantity(90, "mi").amount("km"))
