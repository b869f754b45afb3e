"""Fuel and people between passes, against figures done by hand.

Diesel is 0.820 to 0.845 kg/L (EN 590), the middle of which is 6.947 lb a gallon; a person is
150 lb (49 CFR 571.110), 68 kg as manuals print it.
"""

from __future__ import annotations

import pytest

from domain.carried import Change
from domain.passes import latest_session
from domain.reference import references_from
from domain.rig import rig_of
from domain.uncertainty import spread
from domain.weighing import Weights, weigh
from tests.domain.scale_house import POUND, Ticket, flatdeck, juniper, pounds

DENSITIES = references_from(
    load_index=[],
    working_loads=[],
    densities=[
        {"product": "diesel", "low_kg_per_l": "0.820", "high_kg_per_l": "0.845"},
        {"product": "gasoline", "low_kg_per_l": "0.720", "high_kg_per_l": "0.775"},
        {"product": "def", "low_kg_per_l": "1.087", "high_kg_per_l": "1.093"},
    ],
).densities

LITRES = 3.785411784
DIESEL_GALLON = 0.8325 * LITRES / POUND
PERSON = 68 / POUND


def corrected_weights(ticket: Ticket) -> tuple[Weights, tuple[Change, ...]]:
    session = latest_session(ticket.log)
    assert session is not None
    return weigh(ticket.log, session, rig_of(ticket.log), DENSITIES)


def tongue(ticket: Ticket) -> float:
    weights, _ = corrected_weights(ticket)
    assert weights.tongue is not None
    return pounds(weights.tongue.load.nominal_value)


def rig() -> Ticket:
    return Ticket(*juniper(), *flatdeck()).hitched()


def test_fuel_bought_between_the_passes_is_not_tongue_weight() -> None:
    ticket = rig().weighs(steer=5100, drive=4480, trailer=8020).fills(20)
    ticket.weighs("solo", steer=5000, drive=3640)
    assert tongue(ticket) == pytest.approx(9580 - (8640 - 20 * DIESEL_GALLON), abs=0.5)


def test_fuel_bought_before_the_hitched_pass_is_added_to_the_solo_one() -> None:
    ticket = Ticket(*juniper(), *flatdeck()).weighs("solo", steer=4900, drive=3600).fills(20)
    ticket.hitched().weighs(steer=5200, drive=4520, trailer=8020)
    assert tongue(ticket) == pytest.approx(9720 - (8500 + 20 * DIESEL_GALLON), abs=0.5)


def test_every_pass_is_brought_to_what_was_carried_on_the_road() -> None:
    """Twelve gallons before the pass with the bars off, eight more before the solo one."""
    ticket = (
        rig()
        .weighs(bars="on", steer=5100, drive=4480, trailer=8020)
        .fills(12)
        .weighs(bars="off", steer=4900, drive=4900, trailer=7880)
        .fills(8)
        .weighs("solo", steer=5000, drive=3640)
    )
    weights, changes = corrected_weights(ticket)
    off = 9800 - 12 * DIESEL_GALLON
    solo = 8640 - 20 * DIESEL_GALLON
    assert weights.tongue is not None
    assert pounds(weights.tongue.load.nominal_value) == pytest.approx(off - solo, abs=0.5)
    assert {each.at: round(pounds(each.fuel.nominal_value)) for each in changes} == {
        "bars off": round(-12 * DIESEL_GALLON),
        "solo": round(-20 * DIESEL_GALLON),
    }
    assert weights.bars is not None
    assert weights.drift is None


def test_levels_that_were_stated_do_where_nothing_was_bought() -> None:
    ticket = rig().weighs(steer=5100, drive=4480, trailer=8020, fuel_level=0.5)
    ticket.weighs("solo", steer=4900, drive=3600, fuel_level=1.0)
    weights, _ = corrected_weights(ticket)
    assert weights.tongue is not None
    assert pounds(weights.tongue.load.nominal_value) == pytest.approx(
        1080 + 17 * DIESEL_GALLON, abs=0.5
    )
    # Two needles good to a sixteenth of 34 gallons outweigh the scale.
    assert pounds(spread(weights.tongue.load)) > 2 * 34 / 16 / 3**0.5 * DIESEL_GALLON


def test_fuel_burnt_between_the_passes_follows_from_the_miles() -> None:
    """The log's last tank: 200 miles on 20 gallons; then 50 miles between the passes."""
    ticket = rig().reads(48000).fills(20).later(hours=4).reads(48200).fills(20)
    ticket.weighs(steer=5100, drive=4480, trailer=8020).reads(48250)
    ticket.weighs("solo", steer=4900, drive=3600)
    assert tongue(ticket) == pytest.approx(1080 - 5 * DIESEL_GALLON, abs=1)


def test_no_more_fuel_is_gained_or_burnt_than_the_tank_holds() -> None:
    """An odometer of a month ago, then 1,900 miles of which nobody logged the fuel."""
    ticket = rig().reads(46_100).later(hours=4)
    ticket.weighs("solo", steer=4900, drive=3600).fills(30).reads(48_000)
    ticket.weighs(steer=5100, drive=4480, trailer=8020)
    weights, _ = corrected_weights(ticket)
    assert weights.tongue is not None
    assert pounds(weights.tongue.load.nominal_value) == pytest.approx(1080, abs=0.5)
    # Anywhere within a tank of 34 gallons, whose weight outweighs the scale.
    assert pounds(spread(weights.tongue.load)) > 34 / 3**0.5 * DIESEL_GALLON


def test_people_who_got_out_are_not_tongue_weight() -> None:
    ticket = rig().weighs(steer=5100, drive=4480, trailer=8020, aboard=3)
    ticket.weighs("solo", steer=4900, drive=3600, aboard=1)
    assert tongue(ticket) == pytest.approx(1080 - 2 * PERSON, abs=0.5)


def test_people_who_were_not_counted_are_left_alone() -> None:
    ticket = rig().weighs(steer=5100, drive=4480, trailer=8020, aboard=3)
    ticket.weighs("solo", steer=4900, drive=3600)
    _, changes = corrected_weights(ticket)
    assert not changes
    assert tongue(ticket) == pytest.approx(1080)


def test_exhaust_fluid_counts_with_its_own_weight() -> None:
    ticket = rig().weighs(steer=5100, drive=4480, trailer=8020).fills(5, product="def")
    ticket.weighs("solo", steer=4900, drive=3600)
    assert tongue(ticket) == pytest.approx(1080 + 5 * 1.090 * LITRES / POUND, abs=0.5)


def test_a_fuel_that_nobody_named_is_anything_from_gasoline_to_diesel() -> None:
    ticket = Ticket().hitched().weighs(steer=5100, drive=4480, trailer=8020).fills(30, None)
    ticket.weighs("solo", steer=4900, drive=3600)
    weights, changes = corrected_weights(ticket)
    assert weights.tongue is not None
    low, high = (30 * LITRES * each / POUND for each in (0.720, 0.845))
    middle = -pounds(changes[0].fuel.nominal_value)
    assert low < middle < high
    assert pounds(spread(changes[0].fuel)) > (high - low) / 2


def test_a_fill_without_a_volume_leaves_the_passes_as_they_were() -> None:
    ticket = rig().weighs(steer=5100, drive=4480, trailer=8020).fills(None)
    ticket.weighs("solo", steer=4900, drive=3600)
    assert tongue(ticket) == pytest.approx(1080)
