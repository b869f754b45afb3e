"""Upkeep that falls due, faults that are carried, and the walk-round."""

from __future__ import annotations

from datetime import date, timedelta

import pytest

from bot.reference import points_table, upkeep_table
from domain.entries import EVERY_ONE, MENDED, Check, Fill, Rating
from domain.exhaust_fluid import exhaust_fluid
from domain.log import Log
from domain.quantities import Quantity
from domain.upkeep import Due, due, old_tyres
from domain.walkround import points_of, walk_round
from tests.domain.driving_log import START, Page, gal, mi

DAY = 24


def only(page: Page, days: float) -> Due:
    (found,) = due(page.driven, upkeep_table(), START + timedelta(days=days))
    return found


def miles(km: float | None) -> float | None:
    return None if km is None else round(Quantity(km, "km").amount("mi"), 3)


def test_oil_is_due_so_many_miles_after_it_was_last_changed() -> None:
    page = Page()
    page.add(0, Rating(subject="oil", rating="every", value=mi(5000)))
    page.reads(1, 48000)
    page.add(1, Check(item="oil change", state="done"))
    page.reads(30 * DAY, 52600)
    found = only(page, 30)
    assert (miles(found.km_left), found.soon, found.overdue) == (400, True, False)
    page.reads(40 * DAY, 53200)
    assert only(page, 40).overdue


def test_upkeep_that_was_done_before_it_was_logged_is_counted_from_its_reading() -> None:
    page = Page()
    page.reads(1, 48000)
    page.reads(5 * DAY, 50300)
    page.add(6 * DAY, Rating(subject="oil", rating="every", value=mi(5000)))
    page.add(6 * DAY, Rating(subject="oil change", rating="done_at", value=mi(46000)))
    found = only(page, 7)
    # By hand: 46,000 and 5,000 are 51,000, of which 50,300 are driven.
    assert (miles(found.km_left), miles(found.done_km)) == (700, 46000)
    page.add(8 * DAY, Check(item="oil", state="done"))
    again = only(page, 9)
    assert (miles(again.km_left), again.done_km) == (5000, None)
    page.add(10 * DAY, Rating(subject="oil", rating="done_at", value=mi(49000)))
    assert miles(only(page, 11).km_left) == 3700


def test_a_reading_of_then_tells_the_day_where_the_log_knows_the_road() -> None:
    page = Page()
    page.reads(1, 48000)
    page.reads(5 * DAY, 50300)
    page.add(6 * DAY, Rating(subject="service", rating="every_days", value=100.0))
    page.add(6 * DAY, Rating(subject="service", rating="done_at", value=mi(49000)))
    assert only(page, 51).days_left == pytest.approx(50, abs=1)
    page.add(7 * DAY, Rating(subject="service", rating="done_at", value=mi(47000)))
    # Before the first reading nobody knows the day.
    found = only(page, 51)
    assert (found.days_left, found.is_counted, miles(found.done_km)) == (None, False, 47000)


def test_what_is_due_once_is_counted_from_where_it_was_told_until_it_is_done() -> None:
    page = Page()
    page.reads(0, 48000)
    page.add(1, Rating(subject="bearings", rating="due_in", value=mi(9000)))
    page.reads(2 * DAY, 50000)
    found = only(page, 3)
    assert (miles(found.km_left), found.done, found.overdue) == (7000, None, False)
    page.reads(4 * DAY, 57500)
    assert only(page, 5).overdue
    page.add(6 * DAY, Check(item="bearings", state="done"))
    assert due(page.driven, upkeep_table(), START + timedelta(days=7)) == ()


def test_what_is_due_once_by_the_calendar_counts_the_days() -> None:
    page = Page()
    page.add(0, Check(item="brakes", state="done"))
    page.add(1, Rating(subject="brakes", rating="due_in_days", value=183.0))
    assert only(page, 100).days_left == pytest.approx(83, abs=0.1)
    assert only(page, 184).overdue


def test_upkeep_by_the_calendar_is_due_without_driving() -> None:
    page = Page()
    page.add(0, Rating(subject="bearings", rating="every_days", value=365.0, trailer="camper"))
    page.add(1, Check(item="wheel bearings", state="done", trailer="camper"))
    assert only(page, 300).days_left == pytest.approx(65, abs=0.1)
    assert only(page, 370).overdue


def test_a_trailers_upkeep_counts_only_the_miles_that_it_was_towed() -> None:
    page = Page()
    page.add(0, Rating(subject="bearings", rating="every", value=mi(1000), trailer="camper"))
    page.reads(0, 48000)
    page.add(0, Check(item="bearings", state="done", trailer="camper"))
    page.reads(10, 48700)
    page.hitches(20, "camper")
    page.reads(20, 48700, "depart")
    page.reads(30, 49000, "arrive", "home")
    page.unhitches(30)
    assert miles(only(page, 2).km_left) == 700


def test_what_was_never_logged_as_done_is_named_and_not_counted() -> None:
    page = Page()
    page.add(0, Rating(subject="brakes", rating="every", value=mi(12000)))
    page.reads(1, 48000)
    found = only(page, 2)
    assert (found.done, found.km_left, found.overdue) == (None, None, False)


def test_wheel_nuts_want_another_turn_fifty_miles_after_a_wheel_was_off() -> None:
    """Common practice, no source."""
    page = Page()
    page.reads(0, 48000)
    page.add(0, Check(item="tire rotation", state="done"))
    page.reads(3, 48060)
    found = only(page, 1)
    assert (found.chore, found.overdue) == ("wheel nuts", True)
    page.add(3, Check(item="lug nuts", state="done"))
    assert due(page.driven, upkeep_table(), START + timedelta(days=1)) == ()


def test_the_most_pressing_upkeep_comes_first() -> None:
    page = Page()
    page.reads(0, 48000)
    for item, every in (("oil", 5000), ("fuel filter", 900), ("air filter", 20000)):
        page.add(0, Rating(subject=item, rating="every", value=mi(every)))
        page.add(0, Check(item=item, state="done"))
    page.reads(9, 49000)
    found = due(page.driven, upkeep_table(), START + timedelta(days=1))
    assert [each.chore for each in found] == ["fuel filter", "oil", "air filter"]


def test_tyres_grow_old_by_their_date_code() -> None:
    page = Page()
    page.add(0, Rating(subject="tyres", rating="date_code", value=2519.0, trailer="flatdeck"))
    page.add(0, Rating(subject="tyres", rating="date_code", value=1024.0, truck="Juniper"))
    (old,) = old_tyres(page.driven, date(2026, 7, 4))
    assert old.owner == "flatdeck"
    assert old.years == pytest.approx(7.0, abs=0.1)


def test_tyres_that_nobody_named_are_the_trailers() -> None:
    page = Page()
    page.add(0, Rating(subject="tyres", rating="date_code", value=2217.0))
    (old,) = old_tyres(page.driven, date(2026, 11, 27))
    assert old.owner == "trailer"
    assert int(old.years) == 9


def test_exhaust_fluid_goes_at_what_was_poured_in_after_the_first_fill() -> None:
    page = Page()
    for hours, odometer, gallons in ((0, 48000, 2.5), (100, 49000, 2.0), (200, 50000, 2.4)):
        page.reads(hours, odometer)
        page.add(hours, Fill(product="def", volume=gal(gallons)))
    told = exhaust_fluid(page.driven)
    assert told is not None
    a_thousand = Quantity(told.rate * mi(1000).amount("km"), "L").amount("gal")
    assert (round(a_thousand, 6), told.left) == (2.2, None)


def test_exhaust_fluid_left_needs_the_tank_and_a_full_fill() -> None:
    page = Page()
    page.add(0, Rating(subject="truck", rating="def_tank", value=gal(5)))
    page.reads(0, 48000)
    page.add(0, Fill(product="def", volume=gal(2)))
    page.reads(100, 49000)
    page.add(100, Fill(product="def", volume=gal(2), full=True))
    page.reads(200, 49500)
    told = exhaust_fluid(page.driven)
    assert told is not None
    assert told.left is not None
    assert Quantity(told.left, "L").amount("gal") == pytest.approx(4.0)


def checks(*stated: tuple[float, str, str]) -> Log:
    page = Page()
    for hours, item, state in stated:
        page.add(hours, Check(item=item, state=state))  # type: ignore[arg-type]
    return page.log


def test_a_point_is_ticked_under_any_of_its_names_and_says_who() -> None:
    stands = walk_round(checks((1, "Safety chains", "done")), points_table(), START)
    assert stands.ticked["chains crossed"].by == "Ana"
    assert "brake test" in stands.left


def test_the_walk_round_done_ticks_every_point_but_a_fault() -> None:
    stands = walk_round(
        checks((1, "walkaround", "done"), (1, "tires", "fault")), points_table(), START
    )
    assert stands.left == ("tyres",)
    assert len(stands.faults) == 1


@pytest.mark.parametrize(
    ("trailer", "chained"),
    [("fifth wheel", False), ("gooseneck", True), ("flatdeck", True)],
)
def test_a_fifth_wheel_has_no_chains_to_cross(trailer: str, chained: bool) -> None:
    page = Page()
    page.hitches(0, trailer)
    stands = walk_round(page.log, points_table(), START)
    assert ("chains crossed" in stands.left) is chained
    assert "breakaway lead on" in stands.left


def test_a_tick_from_before_the_trip_does_not_count() -> None:
    stands = walk_round(checks((-40, "chains", "done")), points_table(), START)
    assert not stands.begun


@pytest.mark.parametrize(
    ("later", "settled"),
    [
        ("left marker light", True),
        ("marker light", True),
        ("lights", False),
        ("light", False),
        ("right marker light", False),
    ],
)
def test_a_fault_is_carried_until_the_same_thing_is_put_right(later: str, settled: bool) -> None:
    log = checks((-200, "left marker light", "fault"), (1, later, "done"))
    assert bool(walk_round(log, points_table(), START).faults) is not settled


@pytest.mark.parametrize(
    ("fault", "later", "settled"),
    [
        ("left rear bearing", "bearings", True),
        ("bearing", "bearings", True),
        ("left marker light", "marker lights", True),
        ("left brake light", "marker lights", False),
        ("left rear tire", "bearings", False),
    ],
)
def test_what_was_done_to_all_of_them_puts_right_each(
    fault: str, later: str, *, settled: bool
) -> None:
    page = Page()
    page.add(1, Check(item=fault, state="fault"))
    page.add(2, Check(item=later, state="done", words=((EVERY_ONE, f"all {later}"),)))
    assert bool(walk_round(page.log, points_table(), START).faults) is not settled


@pytest.mark.parametrize(
    ("faults", "later", "left"),
    [
        (["trailer lights"], "lights", []),
        (["left marker light"], "light", []),
        (["left marker light", "left rear tire"], "lights", ["left rear tire"]),
        (["trailer lights"], "brakes", ["trailer lights"]),
        (["left marker light", "right marker light"], "light", 2 * ["marker"]),
    ],
)
def test_what_was_mended_is_the_only_one_of_its_kind_at_fault(
    faults: list[str], later: str, left: list[str]
) -> None:
    page = Page()
    for hour, fault in enumerate(faults, 1):
        page.add(hour, Check(item=fault, state="fault"))
    page.add(9, Check(item=later, state="done", words=((MENDED, "fixed"),)))
    standing = walk_round(page.log, points_table(), START).faults
    assert len(standing) == len(left)
    assert all(one in each.entry.item for one, each in zip(left, standing, strict=True))


@pytest.mark.parametrize(
    ("faulty", "later", "settled"),
    [
        ("camper", "flatdeck", False),
        ("camper", "Camper", True),
        ("camper", None, True),
        (None, "flatdeck", True),
    ],
)
def test_a_fault_of_one_trailer_is_not_put_right_on_another(
    faulty: str | None, later: str | None, *, settled: bool
) -> None:
    page = Page()
    page.add(1, Check(item="left marker light", state="fault", trailer=faulty))
    page.add(2, Check(item="left marker light", state="done", trailer=later))
    assert bool(walk_round(page.log, points_table(), START).faults) is not settled


def test_the_owner_adds_a_point_and_drops_one() -> None:
    page = Page()
    page.add(0, Rating(subject="walk-round", rating="hive straps", value=1.0))
    page.add(0, Rating(subject="walk-round", rating="mirrors", value=0.0))
    names = [point.name for point in points_of(page.log, points_table())]
    assert "hive straps" in names
    assert "mirrors" not in names


def test_no_word_belongs_to_two_points_or_two_kinds_of_upkeep() -> None:
    for words in (
        [word for point in points_table().points for word in point.words],
        [word for chore in upkeep_table().chores for word in chore.words],
    ):
        assert len(words) == len(set(words))
