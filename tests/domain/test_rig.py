"""Whose a rating is, and which statement of it counts."""

from __future__ import annotations

import pytest

from domain.entries import Hitch, Rating
from domain.rig import rig_of
from tests.domain.scale_house import Ticket, flatdeck, juniper, lb, pounds


def test_the_latest_statement_of_a_rating_wins() -> None:
    log = Ticket(*juniper()).add(Rating(subject="truck", rating="gvwr", value=lb(11200))).log
    gvwr = rig_of(log).mass("truck", "gvwr")
    assert gvwr is not None
    assert pounds(gvwr) == pytest.approx(11200)


def test_a_rating_without_a_name_belongs_to_the_only_trailer() -> None:
    log = Ticket(Rating(subject="trailer", rating="gvwr", value=lb(9900))).hitched("camper").log
    assert pounds(rig_of(log).mass("trailer", "gvwr") or 0) == pytest.approx(9900)


def test_each_trailer_keeps_its_own_plate() -> None:
    ticket = Ticket(
        *flatdeck(), Rating(subject="trailer", trailer="camper", rating="gvwr", value=lb(7600))
    ).hitched("flatdeck")
    assert pounds(rig_of(ticket.log).mass("trailer", "gvwr") or 0) == pytest.approx(12000)
    ticket.add(Hitch(action="unhitched")).hitched("camper")
    camper = rig_of(ticket.log)
    assert camper.trailer == "camper"
    assert pounds(camper.mass("trailer", "gvwr") or 0) == pytest.approx(7600)
    assert camper.mass("trailer", "gawr") is None


def test_a_rating_without_a_name_goes_to_the_trailer_named_last() -> None:
    ticket = Ticket(*flatdeck()).hitched("camper")
    ticket.add(Rating(subject="coupler", rating="tow", value=lb(7000)))
    assert rig_of(ticket.log, trailer="camper").mass("coupler", "tow") is not None
    assert rig_of(ticket.log, trailer="flatdeck").mass("coupler", "tow") is None


def test_a_trailer_that_has_come_off_is_still_the_one_last_weighed_with() -> None:
    ticket = Ticket(*flatdeck()).hitched("Flatdeck").add(Hitch(action="unhitched"))
    assert (rig_of(ticket.log).trailer or "").casefold() == "flatdeck"
    assert rig_of(ticket.log).mass("trailer", "gvwr") is not None


def test_two_axles_of_six_thousand_are_counted_from_the_note() -> None:
    assert rig_of(Ticket(*flatdeck()).log).axles == 2
    assert rig_of(Ticket(Rating(subject="trailer", rating="axles", value=3.0)).log).axles == 3
    assert (
        rig_of(Ticket(Rating(subject="trailer", rating="gawr", value=lb(6000))).log).axles is None
    )


def test_tyres_without_an_owner_are_the_trailers() -> None:
    trailer = Ticket(Rating(subject="tyres", rating="load_index", value=121.0)).log
    assert rig_of(trailer).number("trailer tyres", "load_index") == 121
    truck = Ticket(Rating(subject="tires", truck="Juniper", rating="load_index", value=126.0)).log
    assert rig_of(truck).number("truck tyres", "load_index") == 126
    assert rig_of(truck).number("trailer tyres", "load_index") is None


@pytest.mark.parametrize(
    ("said", "owner"),
    [
        ("truck tyres load index", "truck"),
        ("pickup's tyres LI", "truck"),
        ("ute tyres load index", "truck"),
        ("llantas de la camioneta índice de carga", "truck"),
        ("neumáticos del coche índice de carga", "truck"),
        ("trailer tyres load index", "trailer"),
        ("neumáticos del remolque índice de carga", "trailer"),
        ("llantas índice de carga", "trailer"),
        ("front tires rated", "truck"),
        ("llantas traseras índice de carga", "truck"),
        ("front tires of the trailer load index", "trailer"),
    ],
)
def test_tyres_are_of_the_vehicle_that_the_words_name(said: str, owner: str) -> None:
    tyres = Rating(subject="tyres", rating="load_index", value=121.0, words=(("subject", said),))
    found = rig_of(Ticket(tyres).log)
    assert [key[0] for key in found.ratings] == [f"{owner} tyres"]


def test_tyres_of_one_end_bear_that_axle() -> None:
    front, rear = (
        Rating(subject="tyres", rating="tyre_load", value=lb(value), words=(("subject", said),))
        for value, said in ((2680, "front tires rated"), (3195, "drive tires rated"))
    )
    rig = rig_of(Ticket(front, rear).log)
    assert pounds(rig.mass("truck tyres", "load", "front") or 0) == pytest.approx(2680)
    assert pounds(rig.mass("truck tyres", "load", "rear") or 0) == pytest.approx(3195)


def test_a_receiver_has_one_rating_with_bars_and_one_without() -> None:
    log = Ticket(
        Rating(subject="receiver", rating="tow", value=lb(6000), note="weight carrying"),
        Rating(subject="receiver", rating="tow", value=lb(12000), note="weight distributing"),
    ).log
    rig = rig_of(log)
    assert pounds(rig.mass("hitch", "tow", "carrying") or 0) == pytest.approx(6000)
    assert pounds(rig.mass("hitch", "tow", "bars") or 0) == pytest.approx(12000)


def test_a_pin_box_makes_it_a_fifth_wheel() -> None:
    assert rig_of(Ticket(*juniper()).log).coupling == "conventional"
    pinned = Ticket(Rating(subject="pin box", rating="tow", value=lb(16000))).log
    assert rig_of(pinned).coupling == "pin"


def tow(value: float, note: str | None = None) -> Rating:
    return Rating(subject="truck", truck="Juniper", rating="tow", value=lb(value), note=note)


def test_what_a_truck_may_tow_by_a_pin_makes_no_fifth_wheel_of_a_flatdeck() -> None:
    both = Ticket(tow(15000), tow(20000, "fifth wheel"), *flatdeck())
    assert rig_of(both.log).coupling == "conventional"
    pin_box = Rating(subject="pin box", rating="tow", value=lb(16000))
    assert rig_of(both.add(pin_box).log).coupling == "pin"


def test_a_truck_whose_only_tow_rating_is_by_a_pin_tows_by_one() -> None:
    assert rig_of(Ticket(tow(20000, "gooseneck"), *flatdeck()).log).coupling == "pin"


def test_the_tanks_note_says_what_the_truck_burns() -> None:
    assert rig_of(Ticket(*juniper()).log).fuel == "diesel"
    assert rig_of(Ticket().log).fuel is None


def test_a_trailer_that_was_said_to_have_a_pin_rests_on_one() -> None:
    said = Rating(
        subject="trailer",
        trailer="Clover",
        rating="gvwr",
        value=lb(16500),
        words=(("value", "16,500"), ("coupling", "fifth wheel")),
    )
    assert rig_of(Ticket(*juniper(), said).log, trailer="Clover").coupling == "pin"
    assert (
        rig_of(Ticket(*juniper(), said, *flatdeck()).log, trailer="flatdeck").coupling
        == "conventional"
    )
