"""Every rating against what loads it, and when a margin is over, near or clear."""

from __future__ import annotations

from math import inf
from typing import Literal

import pytest

from domain.bounds import NEEDS_WHEELS, margins, tongue_share
from domain.countries import ANYWHERE, Custom
from domain.entries import Rating
from domain.margins import (
    Clear,
    Limit,
    Margin,
    Near,
    Over,
    Share,
    Unknown,
    governing,
    judged,
    share_allowed,
    too_close,
)
from domain.passes import latest_session
from domain.quantities import Quantity
from domain.rig import rig_of
from domain.uncertainty import exact, measured
from domain.wanted import missing
from domain.weighing import weights_of
from tests.domain.scale_house import Ticket, flatdeck, juniper, lb, pounds, truck_ratings

LOAD_INDEX = {121: 1450.0, 126: 1700.0}


def limit(pounds_allowed: float) -> Limit:
    return Limit(
        subject="truck", rating="gawr_rear", bounds="drive", value=lb(pounds_allowed).amount("kg")
    )


def found(ticket: Ticket) -> tuple[Margin, ...]:
    session = latest_session(ticket.log)
    assert session is not None
    return margins(rig_of(ticket.log), weights_of(session), LOAD_INDEX)


def left(ticket: Ticket, subject: str, rating: str, bounds: str | None = None) -> float:
    """Pounds left to one rating."""
    margin = next(
        each
        for each in found(ticket)
        if (each.limit.subject, each.limit.rating) == (subject, rating)
        and bounds in (None, each.limit.bounds)
    )
    assert not isinstance(margin, Unknown)
    return pounds(margin.left.nominal_value)


def test_a_pound_over_a_pound_inside_and_a_doubtful_margin_are_three_outcomes() -> None:
    over = judged(limit(7000), exact(lb(7001).amount("kg")))
    inside = judged(limit(7000), exact(lb(6999).amount("kg")))
    doubtful = judged(limit(7000), measured(lb(6999).amount("kg"), 5.0))
    assert isinstance(over, Over)
    assert not too_close(over)
    assert isinstance(inside, Near)
    assert not too_close(inside)
    assert isinstance(doubtful, Near)
    assert too_close(doubtful)


def test_a_load_equal_to_its_limit_is_not_over() -> None:
    for pounds_allowed in range(5000, 7000, 37):
        at_limit = judged(limit(pounds_allowed), exact(lb(pounds_allowed).amount("kg")))
        assert isinstance(at_limit, Near)


def test_within_a_twentieth_is_near_and_beyond_it_is_clear() -> None:
    assert isinstance(judged(limit(7000), exact(lb(6650).amount("kg"))), Near)
    assert isinstance(judged(limit(7000), exact(lb(6649).amount("kg"))), Clear)


def test_a_wide_uncertainty_keeps_a_margin_from_being_clear() -> None:
    assert isinstance(judged(limit(7000), measured(lb(6400).amount("kg"), 200.0)), Near)


def test_a_margin_just_as_wide_as_its_uncertainty_can_be_told() -> None:
    """Spread is 2.2 deviations: 22 kg is what a deviation of 10 kg leaves open."""
    at_it = judged(Limit(subject="hitch", rating="tow", bounds="", value=200), measured(178, 10))
    inside = judged(Limit(subject="hitch", rating="tow", bounds="", value=200), measured(179, 10))
    over = judged(Limit(subject="hitch", rating="tow", bounds="", value=200), measured(221, 10))
    assert isinstance(at_it, Clear)
    assert not too_close(at_it)
    assert isinstance(inside, Near)
    assert too_close(inside)
    assert isinstance(over, Over)
    assert too_close(over)


def test_what_nobody_weighed_is_never_too_close_to_call() -> None:
    unweighed = judged(limit(7000), None, "the drive axle by itself")
    assert unweighed == Unknown(limit(7000), "the drive axle by itself")
    assert not too_close(unweighed)


def test_every_rating_is_held_against_what_loads_it() -> None:
    """By hand: solo 4,900 + 3,600, hitched 5,100 + 4,480 + 8,020."""
    ticket = (
        Ticket(*juniper(), *flatdeck())
        .hitched()
        .weighs(steer=5100, drive=4480, trailer=8020)
        .weighs("solo", steer=4900, drive=3600)
    )
    tongue = 5100 + 4480 - 4900 - 3600
    trailer = 8020 + tongue
    tyre = 1450 / 0.45359237
    expected = {
        ("truck", "gcwr", "gross"): 27000 - 17600,
        ("truck", "gvwr", "truck"): 11500 - 9580,
        ("truck", "gawr_front", "steer"): 5600 - 5100,
        ("truck", "gawr_rear", "drive"): 7000 - 4480,
        ("truck", "payload", "payload"): 3500 - (9580 - 8000),
        ("truck", "tow", "trailer weight"): 15000 - trailer,
        ("trailer", "gvwr", "trailer weight"): 12000 - trailer,
        ("trailer", "gawr", "trailer"): 12000 - 8020,
        ("hitch", "tow", "trailer weight"): 14000 - trailer,
        ("hitch", "tongue", "tongue"): 1400 - tongue,
        ("trailer tyres", "load", "trailer"): 4 * tyre - 8020,
        ("truck tyres", "front", "steer"): 2 * tyre - 5100,
        ("truck tyres", "rear", "drive"): 2 * tyre - 4480,
    }
    assert len(found(ticket)) == len(expected)
    for (subject, rating, bounds), value in expected.items():
        assert left(ticket, subject, rating, bounds) == pytest.approx(value), (subject, rating)
    told = found(ticket)
    assert governing(told) == told
    axles = {each.limit.rating: each.limit.count for each in told}
    assert (axles["gawr"], axles["gawr_rear"]) == (2, 1)


def test_the_trailers_own_tongue_rating_bounds_the_tongue_too() -> None:
    """A drawbar's or a coupling head's limit, by the same figures as above: 1,080 lb of tongue."""
    own = Rating(subject="trailer", rating="tongue", value=lb(1000))
    ticket = (
        Ticket(*juniper(), *flatdeck(), own)
        .hitched()
        .weighs(steer=5100, drive=4480, trailer=8020)
        .weighs("solo", steer=4900, drive=3600)
    )
    assert left(ticket, "trailer", "tongue", "tongue") == pytest.approx(1000 - 1080)
    assert left(ticket, "hitch", "tongue", "tongue") == pytest.approx(1400 - 1080)


def test_the_tightest_margin_comes_first_and_the_unknown_last() -> None:
    ticket = Ticket(*juniper(), *flatdeck()).hitched().weighs(steer=5500, drive=6940, trailer=9840)
    judged_ones = [each for each in found(ticket) if not isinstance(each, Unknown)]
    shares = [each.left.nominal_value / each.limit.value for each in judged_ones]
    assert shares == sorted(shares)
    assert judged_ones[0].limit.rating == "payload"
    assert all(isinstance(each, Unknown) for each in found(ticket)[len(judged_ones) :])


def test_the_weakest_part_of_the_hitch_speaks_for_all() -> None:
    ticket = (
        Ticket(*juniper(), *flatdeck(), Rating(subject="coupler", rating="tow", value=lb(9000)))
        .hitched()
        .weighs(steer=5100, drive=4480, trailer=8020)
        .weighs("solo", steer=4900, drive=3600)
    )
    assert left(ticket, "coupler", "tow") == pytest.approx(9000 - 9100)
    assert not [each for each in found(ticket) if each.limit.subject == "ball"]


def test_a_receiver_without_bars_is_held_to_its_carrying_rating() -> None:
    ratings = [
        Rating(subject="hitch", rating="tow", value=lb(6000), note="weight carrying"),
        Rating(subject="hitch", rating="tow", value=lb(12000), note="weight distributing"),
    ]
    without = Ticket(*ratings).hitched().weighs(steer=4900, drive=3900, trailer=6200)
    without.weighs("solo", steer=4900, drive=3300)
    assert left(without, "hitch", "tow") == pytest.approx(6000 - 6800)
    with_bars = Ticket(*ratings).hitched()
    for bars in ("off", "on"):
        with_bars.weighs(bars=bars, steer=4900, drive=3900, trailer=6200)
    with_bars.weighs("solo", steer=4900, drive=3300)
    assert left(with_bars, "hitch", "tow") == pytest.approx(12000 - 6800)


@pytest.mark.parametrize(
    ("trailer", "rated"), [("flatdeck", 15000), ("fifth wheel", 20000)], ids=["a ball", "a pin"]
)
def test_a_truck_is_held_to_its_tow_rating_for_the_coupling_that_is_on(
    trailer: str, rated: float
) -> None:
    ticket = Ticket(
        Rating(subject="truck", rating="tow", value=lb(15000)),
        Rating(subject="truck", rating="tow", value=lb(20000), note="fifth wheel"),
    )
    ticket.hitched(trailer).weighs(truck=9600, trailer=14400).weighs("solo", truck=7500)
    assert left(ticket, "truck", "tow") == pytest.approx(rated - 16500)
    one = Ticket(Rating(subject="truck", rating="tow", value=lb(15000)))
    one.hitched(trailer).weighs(truck=9600, trailer=14400).weighs("solo", truck=7500)
    assert left(one, "truck", "tow") == pytest.approx(15000 - 16500)


def test_a_trailers_dual_wheels_are_four_to_an_axle() -> None:
    tyres = Rating(
        subject="tyres", trailer="flatdeck", rating="load_index", value=121.0, note="duals"
    )
    ticket = Ticket(*flatdeck(), tyres).hitched().weighs(truck=9600, trailer=8000)
    assert left(ticket, "trailer tyres", "load") == pytest.approx(8 * 1450 / 0.45359237 - 8000)


def test_axles_of_unknown_number_are_judged_as_one_as_long_as_one_would_carry_them() -> None:
    rating = Rating(subject="trailer", rating="gawr", value=lb(6000))
    light = Ticket(rating).hitched().weighs(truck=9600, trailer=5000)
    assert left(light, "trailer", "gawr") == pytest.approx(1000)
    full = Ticket(rating).hitched().weighs(truck=9600, trailer=6000)
    assert left(full, "trailer", "gawr") == pytest.approx(0)
    more = Ticket(rating).hitched().weighs(truck=9600, trailer=6020)
    assert isinstance(found(more)[0], Unknown)


def test_what_the_axles_may_weigh_together_is_held_beside_what_each_may() -> None:
    """GTM: on the ground by all axles of a coupled trailer (Australian Design Rules; memory)."""
    together = Rating(subject="trailer", rating="gtm", value=lb(5600))
    each = Rating(subject="trailer", rating="gawr", value=lb(3300), note="2 axles")
    ticket = Ticket(together, each).hitched().weighs(truck=9600, trailer=5750)
    assert left(ticket, "trailer", "gtm") == pytest.approx(-150)
    assert left(ticket, "trailer", "gawr") == pytest.approx(850)
    alone = Ticket(together).hitched().weighs(truck=9600, trailer=5750)
    assert left(alone, "trailer", "gtm") == pytest.approx(-150)
    session = latest_session(alone.log)
    assert session is not None
    assert ("trailer", "gawr") not in missing(rig_of(alone.log), weights_of(session), ANYWHERE)


def test_each_trailer_axle_that_was_weighed_is_held_to_its_own_rating() -> None:
    ticket = Ticket(*flatdeck()).hitched().weighs(truck=9600, trailer_1=5900, trailer_2=6100)
    assert left(ticket, "trailer", "gawr", "trailer_1") == pytest.approx(100)
    assert left(ticket, "trailer", "gawr", "trailer_2") == pytest.approx(-100)


def test_axles_weighed_together_want_their_number() -> None:
    ticket = Ticket(Rating(subject="trailer", rating="gawr", value=lb(6000))).hitched()
    ticket.weighs(steer=5100, drive=4480, trailer=8020)
    margin = found(ticket)[0]
    assert isinstance(margin, Unknown)
    assert margin.needs == "the number of trailer axles"


def test_a_trailer_whose_axles_alone_are_too_heavy_is_over_without_a_solo_pass() -> None:
    ticket = Ticket(*flatdeck()).hitched().weighs(steer=5100, drive=6480, trailer=12400)
    assert left(ticket, "trailer", "gvwr") == pytest.approx(-400)
    lighter = Ticket(*flatdeck()).hitched().weighs(steer=5100, drive=6480, trailer=11900)
    gvwr = next(each for each in found(lighter) if each.limit.rating == "gvwr")
    assert isinstance(gvwr, Unknown)


def test_a_payload_without_a_curb_weight_counts_people_and_tongue_as_far_as_it_goes() -> None:
    """49 CFR 571.110: 150 lb a person; two people and 1,100 lb of tongue are 1,400 lb."""

    def payload(rated: float) -> Margin:
        ticket = Ticket(*truck_ratings(payload=rated)).hitched()
        ticket.weighs(steer=5100, drive=4500, trailer=8000, aboard=2)
        ticket.weighs("solo", steer=4900, drive=3600)
        return found(ticket)[0]

    over, unknown = payload(1300), payload(1500)
    assert isinstance(over, Over)
    assert pounds(over.load.nominal_value) == pytest.approx(1400, abs=1)
    assert isinstance(unknown, Unknown)


def test_dual_rear_tyres_carry_four_times_what_one_does() -> None:
    rating = Rating(
        subject="tyres", truck="Juniper", rating="load_index", value=121.0, note="rear dual"
    )
    ticket = Ticket(rating).weighs("solo", steer=4900, drive=3600)
    assert left(ticket, "truck tyres", "rear") == pytest.approx(4 * 1450 / 0.45359237 - 3600)
    assert len(found(ticket)) == 1


def sidewall(*loads: tuple[float, str | None]) -> list[Rating]:
    return [
        Rating(subject="tyres", truck="Juniper", rating="tyre_load", value=lb(load), note=note)
        for load, note in loads
    ]


BOTH = sidewall((3195, "single"), (2910, "dual"))
"""What is moulded on a light truck's tyre, whichever way it stands."""


@pytest.mark.parametrize(
    ("gawr", "tyres", "carried"),
    [
        (9750, BOTH, 4 * 2910),  # only four of them carry such an axle
        (6390, BOTH, 2 * 3195),
        (7000, BOTH, 2 * 3195),
        (None, sidewall((2910, "dual")), 4 * 2910),
        (None, sidewall((3195, None)), 2 * 3195),
        (7000, sidewall((3195, None)), 2 * 3195),
        (9750, sidewall((3195, "single")), 2 * 3195),
    ],
)
def test_the_gawr_tells_two_rear_tyres_from_four(
    gawr: float | None, tyres: list[Rating], carried: float
) -> None:
    """49 CFR 571.120 S5.1.2: the tyres fitted to an axle carry no less than its GAWR."""
    rated = [] if gawr is None else [axle_rating(gawr)]
    ticket = Ticket(*rated, *tyres).weighs("solo", steer=4900, drive=3600)
    assert left(ticket, "truck tyres", "rear") == pytest.approx(carried - 3600)


def axle_rating(pounds_rated: float) -> Rating:
    return Rating(subject="truck", truck="Juniper", rating="gawr_rear", value=lb(pounds_rated))


@pytest.mark.parametrize(
    "ratings", [[axle_rating(9750), *sidewall((3195, None))], BOTH], ids=["no dual load", "no gawr"]
)
def test_rear_tyres_are_not_judged_while_two_or_four_is_open(ratings: list[Rating]) -> None:
    margins = found(Ticket(*ratings).weighs("solo", steer=4900, drive=8900))
    [rear] = [each for each in margins if each.limit.rating == "rear"]
    assert isinstance(rear, Unknown)
    assert rear.needs == NEEDS_WHEELS


def test_a_trailers_tyre_that_is_marked_for_both_stands_single() -> None:
    both = [
        Rating(subject="tyres", trailer="flatdeck", rating="tyre_load", value=lb(load), note=note)
        for load, note in ((2830, "single"), (2570, "dual"))
    ]
    ticket = Ticket(*flatdeck(), *both).hitched().weighs(truck=9600, trailer=8000)
    assert left(ticket, "trailer tyres", "load") == pytest.approx(4 * 2830 - 8000)


def test_tyres_go_by_their_stated_load_at_pressure_where_it_was_given() -> None:
    rating = Rating(
        subject="tyres", trailer="flatdeck", rating="load", value=lb(2830), note="65 psi"
    )
    ticket = Ticket(*flatdeck()).add(rating).hitched().weighs(truck=9600, trailer=11000)
    assert left(ticket, "trailer tyres", "load") == pytest.approx(4 * 2830 - 11000)


def test_a_solo_truck_is_not_held_to_the_combination() -> None:
    ticket = Ticket(*juniper()).weighs("solo", steer=4900, drive=3600)
    gcwr = next(each for each in found(ticket) if each.limit.rating == "gcwr")
    assert isinstance(gcwr, Unknown)


def test_missing_ratings_are_those_that_would_bound_something_weighed() -> None:
    ticket = Ticket(*truck_ratings(gvwr=11500, gawr_rear=7000)).hitched()
    ticket.weighs(steer=5100, drive=4480, trailer=8020)
    session = latest_session(ticket.log)
    assert session is not None
    lacking = set(missing(rig_of(ticket.log), weights_of(session), ANYWHERE))
    assert ("truck", "gcwr") in lacking
    assert ("trailer", "gvwr") in lacking
    assert ("truck", "gvwr") not in lacking
    complete = (
        Ticket(*juniper(), *flatdeck()).hitched().weighs(steer=5100, drive=4480, trailer=8020)
    )
    session = latest_session(complete.log)
    assert session is not None
    assert not missing(rig_of(complete.log), weights_of(session), ANYWHERE)


def test_a_coupling_stamped_with_a_d_value_lacks_no_mass_that_it_may_pull() -> None:
    """UN Regulation 55: a D value in kilonewtons instead."""
    stamped = Rating(subject="hitch", rating="d", value=Quantity(15.2, "kN"))
    ticket = Ticket(stamped).hitched().weighs(truck=8500, trailer=8400)
    session = latest_session(ticket.log)
    assert session is not None
    wanted = missing(rig_of(ticket.log), weights_of(session), ANYWHERE)
    assert ("hitch", "tow") not in wanted
    assert ("hitch", "tongue") in wanted


@pytest.mark.parametrize(
    ("tongue", "outside"), [(400, True), (1000, False), (1800, True)], ids=["5 %", "12 %", "21 %"]
)
def test_a_tongue_share_is_held_to_the_customary_range(tongue: float, outside: bool) -> None:
    ticket = Ticket().hitched().weighs(truck=8500 + tongue, trailer=8400 - tongue)
    ticket.weighs("solo", truck=8500)
    session = latest_session(ticket.log)
    assert session is not None
    share = tongue_share(rig_of(ticket.log), weights_of(session), ANYWHERE)
    assert share is not None
    assert share.outside is outside


def test_a_pin_carries_more_of_its_trailer_than_a_tongue_does() -> None:
    """15 to 25 % on a pin, 10 to 15 % on a tongue (common practice, no source)."""
    fifth = ANYWHERE.share_of("pin")
    assert (fifth.low, fifth.high, Share(exact(0.20), fifth).outside) == (0.15, 0.25, False)
    tongue = ANYWHERE.share_of("conventional")
    assert (tongue.low, tongue.high, Share(exact(0.20), tongue).outside) == (0.10, 0.15, True)


@pytest.mark.parametrize(
    ("percent", "deviation", "outside"),
    [
        pytest.param(10, 0, False, id="the least of the range"),
        pytest.param(15, 0, False, id="the most of the range"),
        pytest.param(9.5, 0.5, False, id="perhaps too little"),
        pytest.param(15.5, 0.5, False, id="perhaps too much"),
        pytest.param(8.5, 0.5, True, id="too little for sure"),
        pytest.param(16.5, 0.5, True, id="too much for sure"),
    ],
)
def test_a_share_is_outside_its_range_only_where_that_is_sure(
    percent: float, deviation: float, *, outside: bool
) -> None:
    assert Share(measured(percent, deviation), Custom(low=10, high=15, most=15)).outside is outside


def test_a_placard_without_a_curb_weight_goes_with_the_gvwr() -> None:
    """49 CFR 571.110: the placard is the GVWR less the truck as built."""
    ticket = Ticket(*truck_ratings(gvwr=11500, payload=3180)).weighs("solo", truck=10800)
    payload = next(each for each in found(ticket) if each.limit.rating == "payload")
    assert payload.limit.by_label
    assert left(ticket, "truck", "payload") == pytest.approx(700)
    assert left(ticket, "truck", "gvwr") == pytest.approx(700)
    assert [each.limit.rating for each in governing(found(ticket))] == ["gvwr"]


def a_limit(value: float, bounds: str = "tongue", unit: Literal["kg", "kN"] = "kg") -> Limit:
    return Limit(subject="hitch", rating="tongue", bounds=bounds, value=value, unit=unit)


def test_the_share_that_is_allowed_puts_the_tongue_at_the_lowest_of_its_ratings() -> None:
    on_tongue, share = exact(400.0), Share(exact(0.08), ANYWHERE.share_of("conventional"))
    ratings = [judged(a_limit(value), on_tongue) for value in (500.0, 450.0, 600.0)]
    assert share_allowed(share, ratings) == pytest.approx(0.09)
    # What bounds another load, is of another unit or can't be held against one says nothing.
    others = [
        judged(a_limit(404.0, bounds="drive"), on_tongue),
        judged(a_limit(404.0, bounds="truck"), on_tongue),
        judged(a_limit(402.0, unit="kN"), on_tongue),
        judged(a_limit(404.0), None, "a pass of the truck alone"),
    ]
    assert share_allowed(share, [*others, *ratings]) == pytest.approx(0.09)
    assert share_allowed(share, others) == inf
    # One that is exceeded already allows less than there is.
    assert share_allowed(share, [judged(a_limit(350.0), on_tongue)]) == pytest.approx(0.07)


def test_the_side_that_bears_more_is_held_to_its_own_tyres() -> None:
    """By hand: 5,230 lb are inside two tyres of 2,680 lb, and 2,740 lb on the left are not."""
    rating = Rating(
        subject="tyres", truck="Juniper", rating="tyre_load", value=lb(2680), note="front"
    )
    ticket = Ticket(rating).weighs("solo", steer_left=2740, steer_right=2490, drive=3600)
    assert left(ticket, "truck tyres", "front", "steer") == pytest.approx(130)
    assert left(ticket, "truck tyres", "front", "steer_left") == pytest.approx(-60)
    assert len(found(ticket)) == 2


def test_each_trailer_axle_is_held_to_its_heavier_side() -> None:
    rating = Rating(subject="tyres", trailer="flatdeck", rating="tyre_load", value=lb(3050))
    ticket = Ticket(rating).hitched()
    ticket.weighs(
        trailer_1_left=3100, trailer_1_right=2700, trailer_2_left=2650, trailer_2_right=3050
    )
    assert left(ticket, "trailer tyres", "load", "trailer_1") == pytest.approx(300)
    assert left(ticket, "trailer tyres", "load", "trailer_1_left") == pytest.approx(-50)
    assert left(ticket, "trailer tyres", "load", "trailer_2_right") == pytest.approx(0)
