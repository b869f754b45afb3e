"""Names of the rig, and which statements close an open question."""

from __future__ import annotations

from datetime import UTC, datetime, timedelta

import pytest

from domain.doubts import answers_doubt, picked
from domain.entries import Check, Correction, Entry, Fill, Hitch, Odometer, Rating, Weighing
from domain.log import Log, Logged
from domain.naming import Names, names_in, settled, which_trailer_is_open
from domain.quantities import Quantity
from domain.verdicts import Ask, Choice
from tests.domain.scale_house import lb

AT = datetime(2026, 7, 11, 20, 22, tzinfo=UTC)
ONE = Names(("Juniper",), ("flatdeck",))
TWO = Names(("Juniper",), ("flatdeck", "camper"))


def gvwr(subject: str, truck: str | None = None, trailer: str | None = None) -> Rating:
    return Rating(subject=subject, rating="gvwr", value=lb(12000), truck=truck, trailer=trailer)


def test_the_first_truck_told_is_the_logbooks_truck_whenever_its_ratings_were_read() -> None:
    told = [gvwr("truck", "Juniper"), gvwr("truck", "Old Red"), gvwr("trailer", trailer="flatdeck")]
    log = Log(
        Logged(entry=entry, at=AT - timedelta(hours=key), key=key)
        for key, entry in enumerate(told, 1)
    )
    names = names_in(log)
    assert names == Names(("Juniper", "Old Red"), ("flatdeck",))
    assert names.truck == "Juniper"
    assert names_in(Log()).truck is None


@pytest.mark.parametrize(
    ("entry", "names", "expected"),
    [
        (gvwr("truck"), ONE, gvwr("truck", "Juniper")),
        (gvwr("trailer"), ONE, gvwr("trailer", trailer="flatdeck")),
        (gvwr("trailer"), TWO, gvwr("trailer")),
        (gvwr("hitch"), ONE, gvwr("hitch")),
        (gvwr("trailer", trailer="Flatdeck"), ONE, gvwr("trailer", trailer="flatdeck")),
        (gvwr("trailer", trailer="bee wagon"), ONE, gvwr("trailer", trailer="bee wagon")),
        (Hitch(action="hitched"), ONE, Hitch(action="hitched", trailer="flatdeck")),
        (Hitch(action="hitched"), TWO, Hitch(action="hitched")),
        (Hitch(action="unhitched"), ONE, Hitch(action="unhitched", trailer="flatdeck")),
        (Odometer(odometer=Quantity(1, "mi")), ONE, Odometer(odometer=Quantity(1, "mi"))),
    ],
)
def test_a_nameless_entry_is_about_the_only_one_it_can_be_about(
    entry: Entry, names: Names, expected: Entry
) -> None:
    assert settled(entry, names) == expected


def test_the_trailer_that_comes_off_is_the_one_that_is_on() -> None:
    on = Log([Logged(entry=Hitch(action="hitched", trailer="camper"), at=AT, key=3)])
    names = names_in(on).after(gvwr("trailer", trailer="flatdeck"))
    off = settled(Hitch(action="unhitched"), names)
    assert off == Hitch(action="unhitched", trailer="camper")
    assert names.after(off).on is None
    assert names.after(off).after(Hitch(action="hitched", trailer="flatdeck")).on == "flatdeck"


def test_which_trailer_went_on_is_open_only_among_several() -> None:
    assert which_trailer_is_open(Hitch(action="hitched"), TWO)
    assert not which_trailer_is_open(Hitch(action="hitched"), ONE)
    assert not which_trailer_is_open(Hitch(action="hitched", trailer="camper"), TWO)
    assert not which_trailer_is_open(Hitch(action="unhitched"), TWO)
    assert not which_trailer_is_open(Check(item="lug nuts", state="done"), TWO)


TICKET = Weighing(loads={"gross": lb(23360)})


@pytest.mark.parametrize(
    ("ask", "said", "closes"),
    [
        (Ask("gross"), TICKET, True),
        (Ask("gross"), Check(item="lug nuts", state="done"), False),
        (Ask("volume"), Fill(volume=Quantity(31.4, "gal")), True),
        (Ask("odometer"), Odometer(odometer=Quantity(48211, "mi")), True),
        (Ask("odometer"), Fill(odometer=Quantity(48211, "mi")), True),
        (Ask("weighing"), TICKET, True),
        (Ask("weighing"), Fill(), False),
        (
            Ask("odometer", (Choice("fill", (Fill(),)),)),
            Odometer(odometer=Quantity(1, "mi")),
            False,
        ),
        (Ask("correction"), Correction(action="amend"), True),
    ],
)
def test_a_doubt_is_closed_by_a_statement_of_its_own_kind(
    ask: Ask, said: Entry, closes: bool
) -> None:
    assert answers_doubt((said,), ask) is closes


def test_a_choice_is_picked_when_exactly_its_entries_are_stated() -> None:
    ask = Ask("gross", (Choice("23,360", (TICKET,)),))
    assert picked((Weighing(loads={"gross": lb(23360)}, words=(("gross", "1"),)),), ask)
    assert not picked((TICKET, TICKET), ask)
