"""Odometer readings on one line of true distance."""

from __future__ import annotations

import pytest

from domain.entries import Rating
from domain.odometer import of_truck, track
from domain.quantities import Quantity
from tests.domain.driving_log import START, Page, mi


def driven_miles(page: Page) -> float:
    marks = track(page.log).marks
    return Quantity(marks[-1].km - marks[0].km, "km").amount("mi")


def test_a_five_digit_odometer_rolls_over() -> None:
    page = Page()
    page.reads(0, 99870)
    page.reads(5, 123)
    assert driven_miles(page) == pytest.approx(253)


def test_a_stated_number_of_digits_rolls_over_wherever_the_gap_is_large() -> None:
    page = Page()
    page.add(0, Rating(subject="odometer", rating="digits", value=5))
    page.reads(1, 93000)
    page.reads(900, 6000)
    assert driven_miles(page) == pytest.approx(13000)


def test_a_replaced_cluster_goes_on_from_where_the_old_one_stopped() -> None:
    page = Page()
    page.reads(0, 148_000)
    page.add(1, Rating(subject="odometer", rating="replaced", value=mi(12)))
    page.reads(2, 212)
    assert driven_miles(page) == pytest.approx(200)


def test_an_odometer_that_reads_high_is_scaled_by_its_factor() -> None:
    page = Page()
    page.add(0, Rating(subject="odometer", rating="factor", value=0.982))
    page.reads(1, 48000)
    page.reads(3, 48100)
    assert driven_miles(page) == pytest.approx(98.2)


def test_a_reading_that_fits_nowhere_is_set_aside_and_named() -> None:
    page = Page()
    for hour, shown in enumerate((48000, 48100, 84200, 48300, 48400)):
        page.reads(hour, shown)
    road = track(page.log)
    assert [each.shown.value for each in road.reversals] == [84200]
    assert driven_miles(page) == pytest.approx(400)


def test_order_of_arrival_changes_nothing() -> None:
    page = Page()
    page.reads(3, 48300)
    page.reads(0, 48000)
    page.reads(2, 48200)
    assert [mark.logged.entry.odometer.value for mark in track(page.log).marks] == [  # type: ignore[attr-defined]
        48000,
        48200,
        48300,
    ]


def test_each_truck_has_its_own_road_and_unnamed_entries_are_the_first_ones() -> None:
    page = Page()
    page.fill(0, 48000, 30, truck="Juniper")
    page.fill(1, 91000, 20, truck="Pickle")
    page.fill(2, 48400, 30)
    assert len(of_truck(page.log)) == 2
    assert len(of_truck(page.log, "pickle")) == 1


def test_a_fill_of_which_only_the_day_is_known_stands_where_its_reading_fits() -> None:
    """A receipt texted days later is kept at noon; its odometer says that it was the morning."""
    page = Page()
    page.fill(-20, 48000, 30)
    page.reads(-3, 48300)
    page.fill(0, 48240, 20, at=START.date())
    page.fill(20, 48500, 21)
    driven = page.driven
    assert driven.track.reversals == ()
    assert [round(Quantity(tank.km, "km").amount("mi")) for tank in driven.chain.tanks] == [
        240,
        260,
    ]


def test_a_fill_dated_to_a_day_that_its_reading_contradicts_is_named() -> None:
    page = Page()
    for day in range(5):
        page.reads(24 * day, 48000 + 300 * day)
    page.fill(24 * 3 + 6, 48100, 20, at=START.date())
    assert [each.shown.value for each in page.driven.track.reversals] == [48100]


def test_a_log_of_receipts_with_days_only_is_as_good_as_any() -> None:
    page = Page()
    for day in range(4):
        page.fill(24 * day, 48000 + 300 * day, 25, at=START.date())
    driven = page.driven
    assert driven.track.reversals == ()
    assert len(driven.chain.tanks) == 3
