"""Spans of days: what counts for them, and that they add up."""

from __future__ import annotations

from datetime import date, timedelta
from itertools import pairwise

import pytest

from domain.driving import driving
from domain.entries import Fill
from domain.quantities import Quantity
from domain.summary import before, eventful_week, span, summary, week_to
from tests.domain.driving_log import START, Page, gal, mi, usd
from tests.domain.simulated import Habits, live

ZONE = "America/Boise"


def a_week() -> Page:
    page = Page()
    page.reads(-40, 47900)
    page.fill(0, 48000, 20, cost=usd(80))
    page.hitches(1, "flatdeck")
    page.reads(1, 48010, "depart")
    page.fill(8, 48280, 24, unit_price=Quantity(4.0, "USD/gal"))
    page.reads(9, 48290, "arrive", "home")
    page.unhitches(9)
    page.fill(30, 48440, 10, cost=Quantity(60, "CAD"))
    return page


def test_a_week_ends_with_today_in_the_logbooks_own_days() -> None:
    days = week_to(START + timedelta(hours=14), ZONE)  # 9 pm on 4 July in Boise
    assert (days.first, days.last, days.days) == (date(2026, 6, 28), date(2026, 7, 4), 7)


def test_a_span_tells_distance_fuel_and_money_each_currency_by_itself() -> None:
    days = span(date(2026, 7, 4), date(2026, 7, 6), ZONE)
    told = summary(a_week().driven, days)
    assert told.km == pytest.approx(mi(540).amount("km"))  # on from the last reading before it
    assert told.litres == pytest.approx(gal(54).amount("L"))
    assert [(round(each.value, 2), each.unit) for each in told.spent] == [
        (176.0, "USD"),
        (60.0, "CAD"),
    ]
    assert Quantity(told.split["flatdeck"], "km").amount("mi") == pytest.approx(280)
    assert (len(told.tanks), len(told.trips)) == (2, 1)


def test_best_and_worst_tank_are_by_economy_and_not_by_size() -> None:
    told = summary(a_week().driven, span(date(2026, 7, 4), date(2026, 7, 6), ZONE))
    assert told.best is not None
    assert told.worst is not None
    assert told.best.litres == pytest.approx(gal(10).amount("L"))
    assert told.worst.litres == pytest.approx(gal(24).amount("L"))


def test_a_fill_without_a_price_is_counted_as_such() -> None:
    page = a_week()
    page.fill(31, 48450, 1)
    told = summary(page.driven, span(date(2026, 7, 4), date(2026, 7, 6), ZONE))
    assert told.unpriced == 1


def test_exhaust_fluid_is_kept_apart_from_fuel() -> None:
    page = a_week()
    page.add(10, Fill(product="def", volume=gal(2.5), cost=usd(9.75)))
    told = summary(page.driven, span(date(2026, 7, 4), date(2026, 7, 6), ZONE))
    assert told.litres == pytest.approx(gal(54).amount("L"))
    poured = told.exhaust_fluid
    assert poured.litres == pytest.approx(gal(2.5).amount("L"))
    assert (poured.fills, poured.spent, poured.unpriced) == (1, (usd(9.75),), 0)
    assert usd(9.75) not in told.spent


def test_months_add_up_to_the_year() -> None:
    """Distance, fuel and money of a simulated year, against its twelve months."""
    driven = driving(live(5, Habits(days=365)).log)
    year = summary(driven, span(date(2024, 1, 1), date(2024, 12, 31), ZONE))
    firsts = [date(2024, month, 1) for month in range(1, 13)] + [date(2025, 1, 1)]
    months = [
        summary(driven, span(first, following - timedelta(days=1), ZONE))
        for first, following in pairwise(firsts)
    ]
    assert sum(each.km or 0 for each in months) == pytest.approx(year.km)
    assert sum(each.litres for each in months) == pytest.approx(year.litres)
    assert sum(each.spent[0].value for each in months) == pytest.approx(year.spent[0].value)
    assert sum(len(each.tanks) for each in months) == len(year.tanks)
    assert sum(len(each.trips) for each in months) == len(year.trips)


def test_the_span_before_is_as_long_and_ends_the_day_before() -> None:
    days = span(date(2026, 7, 1), date(2026, 7, 10), ZONE)
    prior = before(days, ZONE)
    assert (prior.first, prior.last) == (date(2026, 6, 21), date(2026, 6, 30))
    assert prior.end == days.start


def test_a_week_without_anything_logged_sends_nothing() -> None:
    log = a_week().log
    assert eventful_week(log, START + timedelta(days=3), ZONE) is not None
    assert eventful_week(log, START + timedelta(days=30), ZONE) is None
