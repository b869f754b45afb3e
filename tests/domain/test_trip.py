"""Trips: where they begin and end, and what belongs to them."""

from __future__ import annotations

from datetime import timedelta

import pytest

from domain.quantities import Quantity
from domain.trip import gaps, open_trip, to_ask_about
from tests.domain.driving_log import START, Page


def miles(km: float | None) -> float | None:
    return None if km is None else round(Quantity(km, "km").amount("mi"), 6)


def test_a_trip_runs_from_leaving_hitched_to_arriving_home() -> None:
    page = Page()
    page.hitches(0, "flatdeck")
    page.reads(0, 48011, "depart")
    page.reads(6, 48300, "arrive", "Lake Orrin")
    page.reads(30, 48300, "depart")
    page.reads(36, 48590, "arrive", "home")
    (trip,) = page.driven.trips
    assert (miles(trip.km), trip.legs, trip.ending) == (579, 2, "home")
    assert list(trip.split) == ["flatdeck"]


def test_unhitching_after_an_arrival_nowhere_in_particular_ends_the_trip() -> None:
    page = Page()
    page.hitches(0, "camper")
    page.reads(0, 48880, "depart")
    page.reads(4, 49002, "arrive")
    page.unhitches(4)
    (trip,) = page.driven.trips
    assert (miles(trip.km), trip.ending) == (122, "unhitched")


def test_a_trailer_dropped_at_the_lake_leaves_the_trip_open_until_home() -> None:
    page = Page()
    page.hitches(0, "camper")
    page.reads(0, 48000, "depart")
    page.reads(5, 48200, "arrive", "Lake Orrin")
    page.unhitches(5)
    page.reads(26, 48200, "depart")
    page.reads(30, 48260, "arrive", "Lake Orrin")
    page.hitches(50, "camper")
    page.reads(50, 48260, "depart")
    page.reads(55, 48460, "arrive", "home")
    page.unhitches(55)
    (trip,) = page.driven.trips
    assert trip.ending == "home"
    assert {mode: miles(km) for mode, km in trip.split.items()} == {"camper": 400, "solo": 60}


def test_a_hitching_without_a_reading_is_where_the_truck_sets_out_from() -> None:
    page = Page()
    page.reads(0, 47900)
    page.hitches(48, "flatdeck")
    page.reads(49, 48011, "depart")
    page.reads(52, 48111, "arrive", "home")
    (trip,) = page.driven.trips
    assert miles(trip.km) == 100


def test_a_trip_that_nobody_closed_ends_when_the_trailer_is_hitched_again() -> None:
    page = Page()
    page.hitches(0, "flatdeck")
    page.reads(0, 48000, "depart")
    page.reads(6, 48300)
    page.hitches(100, "flatdeck")
    page.reads(100, 48320, "depart")
    page.reads(105, 48400, "arrive", "home")
    first, second = page.driven.trips
    assert (miles(first.km), first.ending) == (300, "untold")
    assert miles(second.km) == 80


def test_an_open_trip_is_asked_about_after_two_silent_days() -> None:
    page = Page()
    page.hitches(0, "flatdeck")
    page.reads(0, 48000, "depart")
    page.reads(6, 48300)
    found = page.driven.trips
    assert open_trip(found, START + timedelta(hours=20)) is not None
    assert to_ask_about(found, START + timedelta(hours=20)) is None
    assert to_ask_about(found, START + timedelta(hours=60)) is not None
    assert open_trip(found, START + timedelta(days=20)) is None


def test_distance_between_trips_that_none_of_them_covers_is_named() -> None:
    page = Page()
    page.reads(0, 48000, "depart")
    page.reads(3, 48100, "arrive", "home")
    page.reads(50, 48254, "depart")
    page.reads(53, 48300, "arrive", "home")
    (gap,) = gaps(page.driven.trips)
    assert miles(gap.km) == pytest.approx(154)


def test_turning_round_and_fuelling_on_the_way_do_not_end_a_trip() -> None:
    page = Page()
    page.reads(0, 48000, "depart")
    page.fill(2, 48100, 8)
    page.reads(3, 48150, "turnaround")
    page.reads(6, 48300, "arrive", "home")
    (trip,) = page.driven.trips
    assert (miles(trip.km), trip.legs) == (300, 1)
