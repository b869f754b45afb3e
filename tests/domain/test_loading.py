"""What a load does where it is put, how much fits, and what is lacking to tell."""

from __future__ import annotations

import pytest

from domain.bounds import margins
from domain.entries import Rating
from domain.loading import (
    BehindCoupling,
    Effect,
    InBed,
    InCab,
    Lacks,
    Levers,
    OnTrailer,
    Place,
    Spread,
    effect,
    levers,
    place_for_share,
    predicted,
    room,
)
from domain.passes import latest_session
from domain.quantities import Quantity
from domain.rig import rig_of
from domain.uncertainty import exact
from domain.weighing import Weights, weights_of
from tests.domain.scale_house import POUND, Ticket, flatdeck, lb, pounds, truck_ratings

NO_LENGTHS = Levers(overhang=None, learned=False, reach=None, wheelbase=None)
LENGTHS = Levers(overhang=exact(0.4), learned=False, reach=5.0, wheelbase=4.0)


def weighed(ticket: Ticket) -> Weights:
    session = latest_session(ticket.log)
    assert session is not None
    return weights_of(session)


def hitched() -> Ticket:
    return Ticket(*flatdeck()).hitched().weighs(steer=5100, drive=4480, trailer=8020)


def told(place: Place, arms: Levers = LENGTHS) -> Effect:
    found = effect(place, arms, weighed(hitched()))
    assert isinstance(found, Effect)
    return found


def test_whoever_sits_in_the_cab_is_on_the_trucks_axles_alone() -> None:
    """Half on either axle, give or take a fifth (common practice, no source)."""
    in_cab = told(InCab(), NO_LENGTHS)
    assert in_cab.on("truck").nominal_value == pytest.approx(1)
    assert in_cab.on("truck").std_dev == pytest.approx(0)
    assert in_cab.on("steer").nominal_value == pytest.approx(0.5)
    assert in_cab.on("steer").std_dev == pytest.approx(0.2)
    assert in_cab.on("trailer weight").nominal_value == 0
    assert in_cab.on("payload").nominal_value == pytest.approx(1)


@pytest.mark.parametrize(
    "place", [InBed(0.0), InBed(-0.5), OnTrailer(0.0), OnTrailer(-1.0), BehindCoupling(2.0)]
)
def test_a_kilogram_is_a_kilogram_wherever_it_stands(place: Place) -> None:
    """Forces balance: what the axles take adds up, and the tongue is what the truck takes."""
    found = told(place)
    assert found.on("gross").nominal_value == pytest.approx(1)
    on_trailer = isinstance(place, OnTrailer | BehindCoupling)
    assert found.on("trailer weight").nominal_value == pytest.approx(1 if on_trailer else 0)
    tongue = found.on("truck").nominal_value if on_trailer else 0
    assert found.on("tongue").nominal_value == pytest.approx(tongue)


def test_a_load_behind_the_drive_axle_lifts_the_steer_axle() -> None:
    assert told(InBed(-0.5)).steer.nominal_value == pytest.approx(-0.125)


@pytest.mark.parametrize(
    ("place", "what"),
    [
        (InBed(0.5), "wheelbase"),
        (OnTrailer(1.2), "coupler_to_axle"),
        (BehindCoupling(0.5), "coupler_to_axle"),
        (BehindCoupling(0.0), "overhang"),
        (Spread(), "tongue"),
    ],
)
def test_the_length_or_load_that_is_lacking_is_named(place: Place, what: str) -> None:
    assert effect(place, NO_LENGTHS, weighed(hitched())) == Lacks(what)


def test_over_the_axles_no_length_is_wanted() -> None:
    assert told(InBed(0.0), NO_LENGTHS).drive.nominal_value == 1
    assert told(OnTrailer(0.0), NO_LENGTHS).trailer.nominal_value == 1


def test_a_place_for_a_share_wants_the_tongue_and_then_the_reach() -> None:
    without, known = weighed(hitched()), weighed(hitched().weighs("solo", truck=8500))
    assert place_for_share(without, LENGTHS, 0.12, 300, None) == Lacks("tongue")
    assert place_for_share(known, NO_LENGTHS, 0.12, 300, None) == Lacks("coupler_to_axle")


@pytest.mark.parametrize(
    "ticket",
    [
        pytest.param(hitched(), id="no pass of the truck alone"),
        pytest.param(hitched().weighs("solo", truck=8500), id="its steer axle not by itself"),
        pytest.param(
            hitched().weighs("solo", steer=5060, drive=4500), id="a tongue within the scale's error"
        ),
        pytest.param(
            Ticket()
            .hitched()
            .weighs(bars="on", steer=5100, drive=4480, trailer=8020)
            .weighs("solo", steer=4900, drive=3600),
            id="a tongue that reads low",
        ),
    ],
)
def test_no_lever_is_learned_from_passes_that_do_not_show_it(ticket: Ticket) -> None:
    arms = levers(rig_of(ticket.log), weighed(ticket))
    assert arms.overhang is None


def test_single_axles_share_what_is_put_on_the_trailers_axles() -> None:
    ticket = Ticket(*flatdeck()).hitched().weighs(truck=9600, trailer_1=4000, trailer_2=4100)
    weights = weighed(ticket)
    after = predicted(weights, told(OnTrailer(0.0), NO_LENGTHS), 600 * POUND)
    loads = {name: round(pounds(each.nominal_value)) for name, each in after.loads.items()}
    assert loads == {
        "trailer_1": 4300,
        "trailer_2": 4400,
        "trailer": 8700,
        "truck": 9600,
        "gross": 18300,
    }


def test_what_fits_is_bounded_by_the_axle_that_is_full_first() -> None:
    """6,000 lb an axle, 4,100 on the second: 1,900 more there is 3,800 on both."""
    ticket = Ticket(*flatdeck()).hitched().weighs(truck=9600, trailer_1=4000, trailer_2=4100)
    found = margins(rig_of(ticket.log), weighed(ticket), {})
    fits = room(found, told(OnTrailer(0.0), NO_LENGTHS), 2)
    assert fits is not None
    assert pounds(fits.mass) == pytest.approx(3800)
    assert fits.binds.limit.bounds == "trailer_2"


def test_nothing_fits_where_a_rating_is_exceeded_and_no_room_is_told_where_none_is_known() -> None:
    over = Ticket(*truck_ratings(gvwr=9000)).hitched().weighs(truck=9600, trailer=8000)
    in_bed = told(InBed(0.0), NO_LENGTHS)
    fits = room(margins(rig_of(over.log), weighed(over), {}), in_bed, 1)
    assert fits is not None
    assert fits.mass == 0
    unrated = Ticket(Rating(subject="trailer", rating="gawr", value=lb(9000)))
    unrated.hitched().weighs(truck=9600, trailer=8000)
    assert room(margins(rig_of(unrated.log), weighed(unrated), {}), in_bed, 1) is None


def test_stated_lengths_are_believed_before_learned_ones() -> None:
    lengths = [
        Rating(subject="truck", rating=name, value=Quantity(value, "in"))
        for name, value in (("wheelbase", 150), ("overhang", 60))
    ]
    ticket = Ticket(*lengths).hitched().weighs(steer=5100, drive=4480, trailer=8020)
    arms = levers(rig_of(ticket.log), weighed(ticket.weighs("solo", steer=4900, drive=3600)))
    assert arms.overhang is not None
    assert arms.overhang.nominal_value == pytest.approx(0.4)
    assert not arms.learned


def test_a_load_divides_between_the_sides_as_the_axle_does() -> None:
    """By hand: the sides bear 3,100 and 2,900 of 6,000 lb, so 600 lb add 310 and 290."""
    ticket = Ticket(*flatdeck()).hitched()
    ticket.weighs(steer=5100, drive=4480, trailer_left=3100, trailer_right=2900)
    change = Effect(steer=exact(0), drive=exact(0), trailer=exact(1), tongue=exact(0))
    after = predicted(weighed(ticket), change, 600 * POUND)
    assert pounds(after.loads["trailer_left"].nominal_value) == pytest.approx(3410)
    assert pounds(after.loads["trailer_right"].nominal_value) == pytest.approx(3190)


def test_a_side_takes_half_of_what_fits_on_its_axle() -> None:
    """By hand: 50 lb are left on the heavier side, so that 100 lb fit on the axle."""
    rating = Rating(subject="tyres", truck="Juniper", rating="tyre_load", value=lb(2680))
    ticket = Ticket(rating, *flatdeck()).weighs("solo", steer_left=2630, steer_right=2490)
    found = margins(rig_of(ticket.log), weighed(ticket), {})
    change = Effect(steer=exact(1), drive=exact(0), trailer=exact(0), tongue=exact(0))
    most = room(found, change, 2)
    assert most is not None
    assert most.binds.limit.bounds == "steer_left"
    assert pounds(most.mass) == pytest.approx(100)
