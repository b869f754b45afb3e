"""Range and plans: what lies ahead, and what they say when they cannot know."""

from __future__ import annotations

import pytest

from domain.driving import Driving, driving
from domain.economy import estimate
from domain.entries import Rating
from domain.modes import SOLO
from domain.plans import NotEnoughTold, plan, rate_ahead, reach
from domain.quantities import Quantity
from tests.domain.driving_log import Page, gal, mi
from tests.domain.simulated import Habits, live


def solo_page(*, tank: bool = True) -> Page:
    """Six tanks at 15 mpg, the last filled at 49,800, and 75 miles driven since."""
    page = Page()
    if tank:
        page.add(0, Rating(subject="truck", rating="tank", value=gal(34), note="diesel"))
    page.hitches(0, "camper")
    page.unhitches(0)
    for stop in range(7):
        page.fill(
            24 * stop + 1, 48000 + 300 * stop, 20, unit_price=Quantity(4 + stop / 100, "USD/gal")
        )
    page.reads(170, 49875)
    return page


def estimated(page: Page) -> tuple[Driving, float]:
    driven = page.driven
    return driven, estimate(driven.chain.tanks).rates[SOLO].rate


def test_what_is_left_is_the_tank_less_what_was_driven_since_it_was_full() -> None:
    driven, rate = estimated(solo_page())
    told = reach(driven, estimate(driven.chain.tanks))
    assert Quantity(told.left, "L").amount("gal") == pytest.approx(34 - 75 / 15, abs=0.01)
    usable = told.left - 3.4 * gal(1).amount("L")
    assert told.km == pytest.approx(usable / rate)
    assert told.sure_km < told.km < told.empty_km


def test_a_partial_fill_since_is_added() -> None:
    page = solo_page()
    page.fill(171, 49900, 3, full=False)
    told = reach(page.driven, estimate(page.driven.chain.tanks))
    assert Quantity(told.left, "L").amount("gal") == pytest.approx(34 - 100 / 15 + 3, abs=0.01)


def test_the_range_is_in_the_mode_that_is_on_now() -> None:
    page = solo_page()
    page.hitches(171, "camper")
    told = reach(page.driven, estimate(page.driven.chain.tanks))
    assert (told.mode, told.grounds) == (SOLO, "own")  # still at the last reading
    page.reads(171, 49875, "depart")
    told = reach(page.driven, estimate(page.driven.chain.tanks))
    assert (told.mode, told.grounds) == ("camper", "assumed")


def test_a_range_without_the_tanks_size_asks_for_it() -> None:
    driven = solo_page(tank=False).driven
    with pytest.raises(NotEnoughTold) as error:
        reach(driven, estimate(driven.chain.tanks))
    assert error.value.lacks == "tank"


def test_a_range_before_any_full_tank_asks_for_one() -> None:
    page = Page()
    page.add(0, Rating(subject="truck", rating="tank", value=gal(34)))
    page.reads(1, 48000)
    with pytest.raises(NotEnoughTold) as error:
        reach(page.driven, estimate(()))
    assert error.value.lacks == "full"


def test_a_plan_gives_fuel_cost_and_stops_from_the_rigs_own_tanks() -> None:
    driven, rate = estimated(solo_page())
    km = mi(900).amount("km")
    told = plan(driven, estimate(driven.chain.tanks), km, SOLO)
    assert told.litres == pytest.approx(km * rate)
    assert told.low < told.litres < told.high
    assert told.price == Quantity(4.05, "USD/gal")  # the middle one of the last three
    cost = told.cost(told.litres)
    assert cost is not None
    assert cost.value == pytest.approx(4.05 * 900 / 15, rel=0.001)
    assert told.stops == 1  # 60 gal and its margin are just inside two lots of nine tenths of 34


def test_a_trailer_never_towed_before_is_reckoned_by_the_others() -> None:
    page = Page()
    page.hitches(0, "flatdeck")
    for stop in range(7):
        page.fill(24 * stop + 1, 48000 + 200 * stop, 20)
    estimates = estimate(page.driven.chain.tanks)
    rate, grounds = rate_ahead(estimates, "camper", 500)
    assert grounds == "others"
    assert Quantity(rate.rate, "L").amount("gal") / Quantity(1, "km").amount("mi") == (
        pytest.approx(20 / 200, rel=0.01)
    )


def test_a_plan_without_history_says_that_it_assumes() -> None:
    page = Page()
    page.reads(0, 48000)
    _, grounds = rate_ahead(estimate(()), "camper", 500)
    told = plan(page.driven, estimate(()), 500, "camper")
    assert (grounds, told.grounds, told.price, told.stops) == ("assumed", "assumed", None, None)
    assert (told.high - told.low) / told.litres > 0.5


def test_nine_simulated_trips_in_ten_burn_what_their_plan_said() -> None:
    """Each life's last 300 miles or so, planned from the year before them."""
    inside: list[bool] = []
    for seed in range(60):
        life = live(seed, Habits(days=200, missed_unsaid=0, missed_and_said=0, partial=0))
        driven = driving(life.log)
        tanks = driven.chain.tanks
        *known, last = tanks
        mode = next(iter(last.split))
        if len(last.split) > 1:
            continue
        start, end = last.opened.at, last.closed.at
        told = plan(driven, estimate(known), last.km, mode)
        burnt = Quantity(life.burnt_by[end] - life.burnt_by[start], "gal").amount("L")
        inside.append(told.low <= burnt <= told.high)
    share = sum(inside) / len(inside)
    print(f"plans that held: {share:.0%} of {len(inside)}")
    assert len(inside) >= 15
    assert share >= 0.8
