"""Full-to-full: tanks cut out of a log."""

from __future__ import annotations

from math import inf

import pytest
from scipy.stats import norm

from domain.entries import Fill, Rating
from domain.fuel import BELIEVABLE, NINETY, Rate, Tank, only_mode, pooled, truck_fuel
from domain.modes import SOLO
from domain.quantities import Quantity, economy
from tests.domain.driving_log import Page, gal, mi, usd


def mpg(rate: Rate) -> float:
    return economy(Quantity(1.0, "km"), Quantity(rate.rate, "L"), "mi/gal").value


def tanks(page: Page) -> list[tuple[float, float]]:
    """Miles and gallons of each tank."""
    return [
        (
            round(Quantity(tank.km, "km").amount("mi"), 6),
            round(Quantity(tank.litres, "L").amount("gal"), 6),
        )
        for tank in page.driven.chain.tanks
    ]


def the_tank(page: Page) -> Tank:
    (tank,) = page.driven.chain.tanks
    return tank


def test_the_first_fill_only_sets_the_start() -> None:
    page = Page()
    page.fill(0, 48000, 30)
    assert page.driven.chain.tanks == ()


def test_two_full_fills_give_the_road_between_over_the_second_ones_fuel() -> None:
    page = Page()
    page.fill(0, 48000, 30)
    page.fill(5, 48400, 32)
    (tank,) = page.driven.chain.tanks
    assert mpg(tank.rate) == pytest.approx(400 / 32)


def test_fuel_that_cannot_belong_to_the_road_makes_no_tank_and_starts_anew() -> None:
    page = Page()
    page.fill(0, 48000, 30)
    page.fill(1, 48010, 31)
    page.fill(2, 48410, 32)
    page.fill(3, 49210, 5)
    (tank,) = page.driven.chain.tanks
    assert mpg(tank.rate) == pytest.approx(400 / 32)
    assert [each.entry.volume for each in page.driven.chain.unbelievable] == [gal(31), gal(5)]


def test_a_short_road_on_a_little_fuel_is_believed_within_its_doubt() -> None:
    page = Page()
    page.fill(0, 48000, 30)
    page.fill(1, 48001, 0.7)
    assert len(page.driven.chain.tanks) == 1


def test_what_a_truck_can_burn_lies_between_a_hundred_and_two_miles_a_gallon() -> None:
    """By hand: 235.215 over mpg are litres for 100 km, so 2.352 and 117.6."""
    assert [100 * each for each in BELIEVABLE] == pytest.approx([2.35215, 117.607], rel=1e-5)


def test_a_partial_fill_is_carried_over_to_the_next_full_one() -> None:
    page = Page()
    page.fill(0, 48000, 30)
    page.fill(3, 48200, 12, full=False)
    page.fill(6, 48400, 20)
    (tank,) = page.driven.chain.tanks
    assert mpg(tank.rate) == pytest.approx(400 / 32)
    assert len(tank.fills) == 2


def test_a_partial_fill_first_of_all_opens_nothing() -> None:
    page = Page()
    page.fill(0, 48000, 12, full=False)
    page.fill(3, 48200, 20)
    page.fill(6, 48400, 20)
    (tank,) = page.driven.chain.tanks
    assert mpg(tank.rate) == pytest.approx(10)


def test_a_missed_fill_breaks_the_chain_and_the_next_tank_starts_there() -> None:
    page = Page()
    page.fill(0, 48000, 30)
    page.fill(5, 48700, 30, missed=True)
    page.fill(9, 49000, 25)
    (tank,) = page.driven.chain.tanks
    assert mpg(tank.rate) == pytest.approx(300 / 25)


def test_after_a_missed_fill_that_was_partial_the_next_full_one_only_sets_the_start() -> None:
    page = Page()
    page.fill(0, 48000, 30)
    page.fill(5, 48700, 12, missed=True, full=False)
    assert page.driven.chain.full is None
    page.fill(9, 49000, 25)
    assert tanks(page) == []
    page.fill(12, 49300, 20)
    assert tanks(page) == [(300, 20)]


def test_what_was_pumped_before_a_missed_fill_is_of_no_tank() -> None:
    page = Page()
    page.fill(0, 48000, 30)
    page.fill(3, 48200, 12, full=False)
    page.fill(5, 48700, 30, missed=True)
    page.fill(9, 49000, 25)
    assert tanks(page) == [(300, 25)]


def test_a_fill_whose_volume_nobody_told_is_as_good_as_missed() -> None:
    page = Page()
    page.fill(0, 48000, 30)
    page.add(5, Fill(odometer=mi(48700), cost=usd(90)))
    page.fill(9, 49000, 25)
    assert tanks(page) == [(300, 25)]


def test_topping_up_on_the_spot_is_counted_with_the_next_road() -> None:
    page = Page()
    page.fill(0, 48000, 30)
    page.fill(0.5, 48000, 1)
    page.fill(5, 48400, 31)
    assert tanks(page) == [(400, 32)]


@pytest.mark.parametrize(("gallons", "after"), [(0, 32), (-3, 35)], ids=["nothing", "drained"])
def test_a_fill_of_nothing_or_less_closes_no_tank(gallons: float, after: float) -> None:
    page = Page()
    page.fill(0, 48000, 30)
    page.fill(3, 48200, gallons)
    page.fill(5, 48400, after)
    assert tanks(page) == [(400, 32)]


def test_a_top_up_after_a_few_miles_is_a_tank_however_small() -> None:
    page = Page()
    page.fill(0, 48000, 30)
    page.fill(0.5, 48003, 0.2)
    assert tanks(page) == [(3, 0.2)]
    by_trip_meter = Page()
    by_trip_meter.fill(0, None, 30)
    by_trip_meter.fill(0.2, None, 0.1, distance=mi(0.5))
    assert tanks(by_trip_meter) == [(0.5, 0.1)]


def test_a_full_fill_that_nothing_places_on_the_road_opens_no_tank() -> None:
    page = Page()
    page.fill(0, None, 30)
    page.fill(5, 48400, 32)
    page.fill(9, 48700, 25)
    assert tanks(page) == [(300, 25)]


def test_what_went_in_since_the_last_full_tank_is_told() -> None:
    page = Page()
    page.fill(0, 48000, 30)
    full = page.fill(5, 48400, 32)
    partial = page.fill(7, 48500, 9, full=False)
    chain = page.driven.chain
    assert (chain.full, chain.since_full) == (full, (partial,))


def test_the_tank_that_a_fill_closed_is_found_by_it() -> None:
    page = Page()
    first = page.fill(0, 48000, 30)
    partial = page.fill(3, 48200, 12, full=False)
    second = page.fill(5, 48400, 20)
    page.fill(9, 48700, 25)
    chain = page.driven.chain
    assert chain.closed_by(second) == chain.tanks[0]
    assert chain.closed_by(first) is None
    assert chain.closed_by(partial) is None


def test_a_tank_costs_what_all_its_fills_cost_the_opening_one_left_out() -> None:
    page = Page()
    page.fill(0, 48000, 30, cost=usd(99))
    page.fill(3, 48200, 12, full=False, cost=usd(49))
    page.fill(6, 48400, 20, unit_price=Quantity(4.0, "USD/gal"))
    assert the_tank(page).cost == (usd(129),)


def test_a_tank_with_a_fill_of_unknown_price_has_no_cost() -> None:
    page = Page()
    page.fill(0, 48000, 30)
    page.fill(3, 48200, 12, full=False)
    page.fill(6, 48400, 20, cost=usd(80))
    assert the_tank(page).cost is None


def test_diesel_exhaust_fluid_is_never_fuel() -> None:
    page = Page()
    page.fill(0, 48000, 30)
    page.fill(2, 48100, 2.5, product="def")
    page.fill(5, 48400, 32)
    (tank,) = page.driven.chain.tanks
    assert mpg(tank.rate) == pytest.approx(400 / 32)


def test_petrol_for_the_generator_stays_out_of_a_diesel_trucks_tank() -> None:
    page = Page()
    page.fill(0, 48000, 30, product="diesel")
    page.fill(2, 48100, 5, product="gasoline")
    page.fill(5, 48400, 32, product="diesel")
    chain = page.driven.chain
    assert mpg(chain.tanks[0].rate) == pytest.approx(400 / 32)
    assert [each.entry.product for each in chain.other] == ["gasoline"]


def test_the_truck_burns_what_its_fills_name_most_often_and_that_is_never_exhaust_fluid() -> None:
    page = Page()
    page.fill(0, 48000, 30)
    assert truck_fuel(page.log) is None
    for hours, product in enumerate(("def", "gasoline", "def", "diesel", "diesel", "def"), 1):
        page.fill(hours, None, 5, product=product)
    assert truck_fuel(page.log) == "diesel"


def test_a_full_fill_without_the_odometer_counts_with_the_next_that_has_one() -> None:
    page = Page()
    page.fill(0, 48000, 30)
    page.fill(3, None, 15)
    page.fill(6, 48400, 17)
    (tank,) = page.driven.chain.tanks
    assert mpg(tank.rate) == pytest.approx(400 / 32)


def test_an_odometer_texted_at_the_same_stop_belongs_to_the_fill() -> None:
    page = Page()
    page.fill(0, 48000, 30)
    page.fill(5, None, 32)
    page.reads(5.1, 48400)
    (tank,) = page.driven.chain.tanks
    assert mpg(tank.rate) == pytest.approx(400 / 32)


def test_the_trip_meter_stands_in_for_the_odometer() -> None:
    page = Page()
    page.fill(0, None, 30)
    page.fill(5, None, 24.9, distance=mi(288.4))
    (tank,) = page.driven.chain.tanks
    assert mpg(tank.rate) == pytest.approx(288.4 / 24.9)


def test_the_trip_meter_adds_up_over_a_partial_fill() -> None:
    page = Page()
    page.fill(0, None, 30)
    page.fill(3, None, 12, full=False, distance=mi(150.0))
    page.fill(5, None, 20, distance=mi(138.4))
    assert tanks(page) == [(288.4, 32)]


@pytest.mark.parametrize("odometer", [None, 48000], ids=["trip meter alone", "odometer before"])
def test_a_trip_meter_is_as_far_out_as_its_odometer(odometer: float | None) -> None:
    page = Page()
    page.add(-1, Rating(subject="odometer", rating="factor", value=0.982))
    page.fill(0, odometer, 30)
    page.fill(5, None, 24, distance=mi(300))
    assert tanks(page) == [(294.6, 24)]


@pytest.mark.parametrize(
    "distance", [None, mi(0), mi(-300)], ids=["not told", "nought", "backwards"]
)
def test_a_trip_meter_that_tells_no_distance_gives_no_tank(distance: Quantity | None) -> None:
    page = Page()
    page.fill(0, None, 30)
    page.fill(3, None, 12, full=False, distance=distance)
    page.fill(5, None, 20, distance=distance)
    assert tanks(page) == []


def test_a_leg_that_nobody_told_leaves_the_trip_meters_road_unknown() -> None:
    page = Page()
    page.fill(0, None, 30)
    page.fill(3, None, 12, full=False)
    page.fill(5, None, 20, distance=mi(138.4))
    assert tanks(page) == []


def test_a_road_by_the_trip_meter_counts_for_the_trailer_that_was_on_throughout() -> None:
    page = Page()
    page.hitches(-1, "flatdeck")
    page.fill(0, None, 30)
    page.fill(5, None, 24.9, distance=mi(288.4))
    page.unhitches(5)
    page.hitches(7, "camper")
    tank = the_tank(page)
    assert tank.split == {"flatdeck": tank.km}
    assert only_mode(tank) == "flatdeck"


def test_trailers_swapped_at_the_pump_do_not_mix_the_road_after_it() -> None:
    page = Page()
    page.hitches(-3, "camper")
    page.unhitches(0)
    page.hitches(0, "flatdeck")
    page.fill(0, None, 30)
    page.fill(5, None, 24.9, distance=mi(288.4))
    assert only_mode(the_tank(page)) == "flatdeck"


@pytest.mark.parametrize("hitched_at", [2, -1], ids=["put on on the way", "taken off on the way"])
def test_a_road_by_the_trip_meter_with_a_trailer_on_for_a_part_counts_for_none(
    hitched_at: float,
) -> None:
    page = Page()
    page.hitches(hitched_at, "flatdeck")
    page.fill(0, None, 30)
    page.fill(1, None, 5, full=False, distance=mi(58.4))
    page.fill(5, None, 19.9, distance=mi(230.0))
    page.unhitches(hitched_at + 4)
    tank = the_tank(page)
    assert tank.split == {}
    assert only_mode(tank) is None


def test_a_road_by_the_odometer_is_split_at_the_hitching() -> None:
    page = Page()
    page.fill(0, 48000, 30)
    page.hitches(2, "flatdeck")
    page.reads(2, 48100)
    page.fill(5, 48400, 32)
    tank = the_tank(page)
    assert {mode: round(Quantity(km, "km").amount("mi")) for mode, km in tank.split.items()} == {
        SOLO: 100,
        "flatdeck": 300,
    }
    assert only_mode(tank) is None


@pytest.mark.parametrize(
    ("hitched_at", "split"),
    [
        pytest.param(48002, {"flatdeck": 400}, id="the pump is on the way to the yard"),
        pytest.param(48007, {"flatdeck": 400}, id="a little under a fiftieth"),
        pytest.param(48008, {"flatdeck": 392, SOLO: 8}, id="a fiftieth"),
        pytest.param(48396, {SOLO: 400}, id="hitched on the last miles"),
    ],
)
def test_the_few_miles_to_the_yard_make_no_mixed_tank(
    hitched_at: float, split: dict[str, float]
) -> None:
    page = Page()
    page.fill(0, 48000, 20)
    page.reads(1, hitched_at)
    page.hitches(1, "flatdeck")
    page.fill(9, 48400, 40)
    (tank,) = page.driven.chain.tanks
    assert tank.km == pytest.approx(mi(400).amount("km"))
    assert tank.split == {mode: pytest.approx(mi(far).amount("km")) for mode, far in split.items()}


def test_a_fill_told_in_money_and_price_has_its_volume_worked_out() -> None:
    page = Page()
    page.fill(0, 48000, 30)
    page.add(5, _paid(48400))
    (tank,) = page.driven.chain.tanks
    assert mpg(tank.rate) == pytest.approx(400 / 32)


def _paid(odometer: float) -> Fill:
    return Fill(odometer=mi(odometer), cost=usd(128), unit_price=Quantity(4.0, "USD/gal"))


def test_pooled_economy_is_all_distance_over_all_fuel() -> None:
    page = Page()
    page.fill(0, 48000, 30)
    page.fill(5, 48170, 10)
    page.fill(9, 48410, 10)
    pool = pooled(page.driven.chain.tanks)
    assert pool is not None
    assert mpg(pool) == pytest.approx(410 / 20)


def test_a_short_tow_is_quoted_with_the_click_off_of_both_ends() -> None:
    """0.3 gal a fill (common practice, no source): 115 mi on 10 gal is 11.5, give or take 0.8.

    Beside it stand the odometer's whole miles and the dispenser's 0.5 % (HB 44 3.30 Table T.2,
    from memory), each anywhere within its limits.
    """
    page = Page()
    page.fill(0, 48000, 30)
    page.fill(5, 48115, 10)
    rate = page.driven.chain.tanks[0].rate
    sd = (2 * 0.3**2 + (0.005 * 10) ** 2 / 3 + 2 / 12 * (10 / 115) ** 2) ** 0.5 / 115
    assert rate.sd == pytest.approx(Quantity(sd, "gal").amount("L") / mi(1).amount("km"))
    low = Quantity(rate.low, "km").amount("mi") / Quantity(1, "L").amount("gal")
    assert low == pytest.approx(1 / (10 / 115 + NINETY * sd))


def test_the_interval_holds_nine_tenths_and_is_open_where_the_rate_may_be_nought() -> None:
    """A normal distribution's 5th and 95th percentile, by SciPy."""
    assert pytest.approx(norm.ppf(0.95), abs=1e-4) == NINETY
    rate = Rate(rate=0.2, sd=0.02, tanks=1, km=300)
    assert 1 / rate.low == pytest.approx(norm.ppf(0.95, 0.2, 0.02), rel=1e-4)
    assert 1 / rate.high == pytest.approx(norm.ppf(0.05, 0.2, 0.02), rel=1e-4)
    assert Rate(rate=NINETY, sd=1.0, tanks=1, km=300).high == inf
    assert Rate(rate=0.02, sd=0.02, tanks=1, km=300).high == inf


def test_each_dispenser_and_each_trip_meter_errs_by_itself() -> None:
    """0.5 % (HB 44 3.30 Table T.2, from memory) of 12 and of 20 gal, 0.1 mi: rectangular."""
    page = Page()
    page.fill(0, None, 30)
    page.fill(3, None, 12, full=False, distance=mi(150))
    page.fill(5, None, 20, distance=mi(138.4))
    tank = the_tank(page)
    dispensed = 0.005 * (12**2 + 20**2) ** 0.5 / 3**0.5
    assert Quantity(tank.dispensed_sd, "L").amount("gal") == pytest.approx(dispensed)
    assert Quantity(tank.km_sd, "km").amount("mi") == pytest.approx(0.1 * (2 / 12) ** 0.5)
    assert (tank.rate.tanks, tank.rate.km) == (1, tank.km)


def test_tanks_apart_have_two_ends_each() -> None:
    """Two tanks in a run and one after a missed fill: four ends, each with its click-off."""
    page = Page()
    for hours, odometer in ((0, 48000), (5, 48300), (10, 48600)):
        page.fill(hours, odometer, 25)
    page.fill(15, 49000, 25, missed=True)
    page.fill(20, 49300, 25)
    pool = pooled(page.driven.chain.tanks)
    assert pool is not None
    assert pool.tanks == 3
    assert pool.km == pytest.approx(mi(900).amount("km"))
    ends = 4 * (0.3**2 + (75 / 900) ** 2 / 12)
    sd = (ends + 3 * (0.005 * 25) ** 2 / 3) ** 0.5 / 900
    assert pool.sd == pytest.approx(Quantity(sd, "gal").amount("L") / mi(1).amount("km"))


def test_no_tanks_have_no_economy() -> None:
    assert pooled(()) is None


def test_tanks_that_follow_on_share_a_click_off_so_a_long_run_is_surer() -> None:
    page = Page()
    for stop in range(5):
        page.fill(5 * stop, 48000 + 300 * stop, 25)
    tanks = page.driven.chain.tanks
    pool = pooled(tanks)
    assert pool is not None
    assert pool.sd == pytest.approx(tanks[0].rate.sd / 4, rel=0.05)


def test_a_volume_in_litres_and_a_road_in_miles_go_together() -> None:
    page = Page()
    page.fill(0, 61010, 10)
    page.add(5, Fill(odometer=mi(61204), volume=Quantity(58.8, "L")))
    (tank,) = page.driven.chain.tanks
    assert mpg(tank.rate) == pytest.approx(194 / gal(58.8 / 3.785411784).value)
