"""What changed since the weighing before, against differences done by hand."""

from __future__ import annotations

import pytest

from domain.passes import latest_session
from domain.rig import rig_of
from domain.since import Since, since_before
from domain.uncertainty import spread
from domain.weighing import weigh
from tests.domain.scale_house import Ticket, flatdeck, juniper, pounds
from tests.domain.test_carried import DENSITIES


def since(ticket: Ticket) -> Since | None:
    """What the last weighing's pass on the road, or of the one vehicle, says of the one before."""
    log = ticket.log
    session = latest_session(log)
    assert session is not None
    rig = rig_of(log, session.ended)
    weights, _ = weigh(log, session, rig, DENSITIES)
    return since_before(log, weights, session.standing.kind, rig, DENSITIES)


def gains(ticket: Ticket) -> dict[str, float]:
    found = since(ticket)
    assert found is not None
    return {name: round(pounds(gain.nominal_value)) for name, gain in found.changes.items()}


def rig() -> Ticket:
    return Ticket(*juniper(), *flatdeck()).hitched()


def test_a_first_weighing_has_none_before_it() -> None:
    assert since(rig().weighs(steer=5100, drive=6480, trailer=8020)) is None


def test_a_reweigh_is_held_against_the_pass_that_it_repeats() -> None:
    ticket = rig().weighs(steer=5100, drive=6480, trailer=8020)
    ticket.weighs(steer=5020, drive=6780, trailer=7800)
    assert gains(ticket) == {"steer": -80, "drive": 300, "trailer": -220, "gross": 0}


def test_the_tongue_is_held_against_the_tongue_where_the_truck_was_weighed_alone() -> None:
    ticket = rig().weighs("solo", steer=5000, drive=5600)
    ticket.weighs(steer=5100, drive=6480, trailer=8020).weighs(steer=5020, drive=6780, trailer=7800)
    assert gains(ticket)["tongue"] == (5020 + 6780) - (5100 + 6480)


def test_a_weighing_of_another_day_is_held_against_the_last_one_of_the_same_trailer() -> None:
    ticket = rig().weighs(steer=5100, drive=6480, trailer=8020)
    ticket.later(days=3).hitched("camper").weighs(steer=4900, drive=6200, trailer=6000)
    ticket.later(days=3).hitched("flatdeck").weighs(steer=5160, drive=6700, trailer=8500)
    assert gains(ticket) == {"steer": 60, "drive": 220, "trailer": 480, "gross": 760}


def test_a_trailer_that_was_not_named_then_is_the_only_one_there_is() -> None:
    ticket = Ticket(*juniper(), *flatdeck()).weighs(steer=5100, drive=6480, trailer=8020)
    ticket.later(days=3).hitched("flatdeck").weighs(steer=5160, drive=6700, trailer=8500)
    assert gains(ticket) == {"steer": 60, "drive": 220, "trailer": 480, "gross": 760}
    two = Ticket(*juniper(), *flatdeck()).weighs(steer=5100, drive=6480, trailer=8020)
    two.later(days=3).hitched("camper").weighs(steer=5160, drive=6700, trailer=8500)
    assert since(two) is None


def test_another_trailer_is_held_against_nothing() -> None:
    ticket = rig().weighs(steer=5100, drive=6480, trailer=8020)
    ticket.later(days=3).hitched("camper").weighs(steer=4900, drive=6200, trailer=6000)
    assert since(ticket) is None


def test_the_truck_alone_is_not_held_against_the_truck_with_a_trailer_on() -> None:
    ticket = rig().weighs(steer=5100, drive=6480, trailer=8020)
    assert since(ticket.later(days=1).weighs("solo", steer=5000, drive=5600)) is None
    again = ticket.later(days=1).weighs("solo", steer=5040, drive=5700)
    assert gains(again) == {"steer": 40, "drive": 100, "gross": 140}


def test_loads_that_one_pass_lacks_are_left_out() -> None:
    ticket = rig().weighs(steer=5100, drive=6480)
    assert gains(ticket.weighs(steer=5100, drive=6600, trailer=8020)) == {"steer": 0, "drive": 120}


def test_a_scale_that_reads_high_does_so_both_times_in_one_weighing() -> None:
    ticket = rig().weighs(steer=5100, drive=6480, trailer=8020)
    soon = since(ticket.weighs(steer=5020, drive=6780, trailer=7800))
    later = since(ticket.later(days=3).weighs(steer=5020, drive=6780, trailer=7800))
    assert soon is not None
    assert later is not None
    assert spread(soon.changes["gross"]) < spread(later.changes["gross"])
    assert later.changes["gross"].nominal_value == pytest.approx(0)
