"""One trip's account: fuel shared out of tanks, money, weighings and gauges."""

from __future__ import annotations

import pytest

from bot.reference import references
from domain.account import Account, account, burnt
from domain.driving import driving
from domain.economy import estimate
from domain.entries import Check, Note, Observation, Rating, Weighing
from domain.margins import Over
from domain.quantities import Quantity
from tests.domain.driving_log import Page, gal, mi, usd
from tests.domain.scale_house import lb
from tests.domain.simulated import Habits, live


def told(page: Page) -> Account:
    driven = page.driven
    return account(driven, driven.trips[-1], estimate(driven.chain.tanks), references())


def a_trip() -> Page:
    """50 solo miles, then 350 towed; filled before, on the way, and 50 solo miles after."""
    page = Page()
    page.add(0, Rating(subject="truck", rating="gawr_rear", value=lb(7000), truck="Juniper"))
    page.fill(0, 48000, 20, cost=usd(80))
    page.hitches(2, "flatdeck")
    page.reads(2, 48050, "depart")
    page.fill(6, 48250, 23, cost=usd(92))
    page.reads(9, 48400, "arrive", "home")
    page.unhitches(9)
    page.fill(30, 48450, 18, cost=usd(72))
    return page


def test_a_tank_that_began_before_the_trip_is_shared_by_distance_where_rates_are_unknown() -> None:
    account_of = told(a_trip())
    assert account_of.burnt is not None
    litres = gal(23 * 200 / 250 + 18 * 150 / 200).amount("L")
    assert account_of.burnt.litres == pytest.approx(litres)
    assert account_of.burnt.reckoned_km == pytest.approx(0)
    assert account_of.burnt.cost is not None
    assert account_of.burnt.cost[0].value == pytest.approx(92 * 0.8 + 72 * 0.75)


def test_no_road_burns_nothing_and_fuel_of_unknown_price_has_no_cost() -> None:
    page = Page()
    page.fill(0, 48000, 20)
    page.fill(6, 48250, 23)
    driven = page.driven
    estimates = estimate(driven.chain.tanks)
    start, end = mi(48000).amount("km"), mi(48100).amount("km")
    assert burnt(driven, estimates, start, start) is None
    assert burnt(driven, estimates, end, start) is None
    spent = burnt(driven, estimates, start, end)
    assert spent is not None
    assert spent.litres == pytest.approx(gal(23 * 100 / 250).amount("L"))
    assert spent.cost is None


def test_the_parts_of_a_road_burn_what_the_whole_burns() -> None:
    driven = driving(live(9, Habits(days=200)).log)
    estimates = estimate(driven.chain.tanks)
    ends = [tank.end_km for tank in driven.chain.tanks if tank.end_km is not None]
    start, middle, end = ends[0], (ends[0] + ends[-1]) / 2, ends[-1]
    parts = [burnt(driven, estimates, *each) for each in ((start, middle), (middle, end))]
    whole = burnt(driven, estimates, start, end)
    assert whole is not None
    assert sum(each.litres for each in parts if each) == pytest.approx(whole.litres)


def test_the_trips_fuel_is_right_within_its_interval_nine_times_in_ten() -> None:
    inside: list[bool] = []
    for seed in range(12):
        life = live(seed, Habits(days=150, missed_unsaid=0, missed_and_said=0))
        driven = driving(life.log)
        estimates = estimate(driven.chain.tanks)
        marks = sorted(life.burnt_by)
        for first, last in zip(marks[2:-4:5], marks[4:-2:5], strict=False):
            spent = burnt(
                driven,
                estimates,
                mi(life.miles_by[first]).amount("km"),
                mi(life.miles_by[last]).amount("km"),
            )
            true = gal(life.burnt_by[last] - life.burnt_by[first]).amount("L")
            if spent is not None and spent.measured:
                inside.append(abs(spent.litres - true) <= 1.645 * spent.sd)
    share = sum(inside) / len(inside)
    print(f"trips' fuel within the interval: {share:.0%} of {len(inside)}")
    assert share >= 0.85


def test_a_trip_from_the_yard_shares_a_tank_that_is_all_towing_but_for_that() -> None:
    page = Page()
    page.fill(0, 48000, 20, cost=usd(80))
    page.reads(1, 48004, "depart")
    page.hitches(1, "flatdeck")
    page.fill(9, 48400, 40, cost=usd(160))
    page.reads(10, 48420, "arrive", "home")
    page.unhitches(10)
    page.fill(20, 48500, 8, cost=usd(32))
    fuel = told(page).burnt
    assert fuel is not None
    # By hand: 396 of the first tank's 400 miles, by distance as nobody can tell the other four.
    first = 40 * 396 / 400
    assert Quantity(fuel.litres, "L").amount("gal") == pytest.approx(first + 1.4, abs=0.7)


def test_road_since_the_last_full_tank_is_reckoned_and_said_to_be() -> None:
    page = a_trip()
    page.hitches(40, "flatdeck")
    page.reads(40, 48460, "depart")
    page.reads(44, 48660, "arrive", "home")
    account_of = told(page)
    assert account_of.burnt is not None
    assert account_of.burnt.reckoned_km == pytest.approx(mi(200).amount("km"))
    assert not account_of.burnt.measured


def test_the_heaviest_weighing_and_what_is_still_over_belong_to_the_trip() -> None:
    page = a_trip()
    page.add(3, Weighing(loads={"steer": lb(5200), "drive": lb(7400), "trailer": lb(9800)}))
    account_of = told(page)
    assert account_of.heaviest is not None
    assert account_of.heaviest.gross is not None
    gross = Quantity(account_of.heaviest.gross.nominal_value, "kg").amount("lb")
    assert gross == pytest.approx(22400)
    assert [each.limit.rating for each in account_of.heaviest.standing] == ["gawr_rear"]


def test_an_overload_put_right_at_the_next_weighing_no_longer_stands() -> None:
    page = a_trip()
    page.add(3, Weighing(loads={"steer": lb(5200), "drive": lb(7400), "trailer": lb(9800)}))
    page.add(7, Weighing(loads={"steer": lb(5300), "drive": lb(6700), "trailer": lb(9800)}))
    account_of = told(page)
    assert account_of.heaviest is not None
    assert isinstance(account_of.heaviest.tightest, Over)
    assert account_of.heaviest.standing == ()


def test_a_tongue_gauged_after_it_does_not_put_an_overload_right() -> None:
    page = a_trip()
    page.add(3, Weighing(loads={"steer": lb(5200), "drive": lb(7400), "trailer": lb(9800)}))
    page.add(8.5, Rating(subject="hitch", rating="tongue", value=lb(1400)))
    page.add(8.9, Weighing(loads={"tongue": lb(900)}))
    account_of = told(page)
    assert account_of.heaviest is not None
    assert [each.limit.rating for each in account_of.heaviest.standing] == ["gawr_rear"]


def test_a_weighing_that_can_not_judge_a_rating_does_not_put_it_right() -> None:
    """By hand: 13,000 less 11,500 lb are a tongue of 1,500, 100 over; later nobody weighed it."""
    page = a_trip()
    page.add(1, Rating(subject="hitch", rating="tongue", value=lb(1400)))
    page.add(3, Weighing(loads={"steer": lb(5700), "drive": lb(7300), "trailer": lb(9800)}))
    page.add(3.2, Weighing(rig="solo", loads={"steer": lb(6100), "drive": lb(5400)}))
    page.add(8, Weighing(loads={"steer": lb(5700), "drive": lb(6700), "trailer": lb(9800)}))
    account_of = told(page)
    assert account_of.heaviest is not None
    assert [each.limit.rating for each in account_of.heaviest.standing] == ["tongue"]


def test_the_solo_pass_before_a_hitch_was_named_does_not_either() -> None:
    page = Page()
    page.add(0, Rating(subject="truck", rating="gawr_rear", value=lb(7000), truck="Juniper"))
    page.reads(1, 48050, "depart")
    page.add(3, Weighing(loads={"steer": lb(5200), "drive": lb(7400), "trailer": lb(9800)}))
    page.add(8, Weighing(rig="solo", loads={"steer": lb(4900), "drive": lb(4100)}))
    page.reads(9, 48400, "arrive", "home")
    account_of = told(page)
    assert account_of.heaviest is not None
    assert [each.limit.rating for each in account_of.heaviest.standing] == ["gawr_rear"]


def test_the_solo_pass_after_it_does_not_put_an_overload_right() -> None:
    page = a_trip()
    page.add(3, Weighing(loads={"steer": lb(5200), "drive": lb(7400), "trailer": lb(9800)}))
    page.add(8.9, Weighing(rig="solo", loads={"steer": lb(4900), "drive": lb(4100)}))
    account_of = told(page)
    assert account_of.heaviest is not None
    assert [each.limit.rating for each in account_of.heaviest.standing] == ["gawr_rear"]


def test_the_hottest_reading_of_each_gauge_is_kept_and_the_weather_is_none() -> None:
    page = a_trip()
    for hours, subject, degrees in (
        (3, "transmission", 190),
        (4, "transmission", 215),
        (5, "transmission", 195),
        (5, "coolant", 205),
        (5, "ambient", 240),
    ):
        page.add(hours, Observation(subject=subject, value=Quantity(degrees, "degF")))
    hottest = told(page).hottest
    assert [(each.entry.subject, each.entry.value.value) for each in hottest] == [
        ("transmission", 215),
        ("coolant", 205),
    ]


def test_checks_and_notes_on_the_way_belong_to_the_trip() -> None:
    page = a_trip()
    page.add(3, Check(item="chains", state="done"), Note(note="hives fine at the orchard"))
    account_of = told(page)
    assert [each.entry.item for each in account_of.checks] == ["chains"]
    assert account_of.notes == ("hives fine at the orchard",)
