"""Full-to-full: tanks cut out of a log."""

from __future__ import annotations

import pytest

from domain.entries import Fill
from domain.fuel import NINETY, Rate, pooled
from domain.quantities import Quantity, economy
from tests.domain.driving_log import Page, gal, mi, usd


def mpg(rate: Rate) -> float:
    return economy(Quantity(1.0, "km"), Quantity(rate.rate, "L"), "mi/gal").value


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
