"""Entries kept, read back, withdrawn and restored."""

from __future__ import annotations

from datetime import UTC, date, datetime, timedelta, timezone

import pytest
from sqlalchemy import select

from bot.store import journal, logbook, standing
from bot.store.database import Store
from bot.store.records import TABLES
from bot.store.tables import ChangeRow, EntryRow
from domain.entries import (
    KIND_NAMES,
    KINDS,
    Cargo,
    Check,
    Correction,
    Entry,
    Fill,
    Hitch,
    Note,
    Observation,
    Odometer,
    Rating,
    Weighing,
)
from domain.log import Reach
from domain.quantities import Quantity
from tests.store.logbooks import HOME, START, as_told, first_message, lb, mi

ONE_OF_EACH: tuple[Entry, ...] = (
    Weighing(
        loads={"steer": lb(5280), "drive": lb(6940.5), "trailer_1_left": Quantity(1.25, "t")},
        rig="hitched",
        bars="off",
        aboard=2,
        fuel_level=0.75,
        ticket="0118274",
        cost=Quantity(14.5, "USD"),
        at=datetime(2026, 7, 10, 16, 12, tzinfo=timezone(timedelta(hours=-6))),
        place="Saltlick",
        trailer="flatdeck",
        words=(("steer", "frt 5280"), ("drive", "6940.5")),
    ),
    Fill(
        product="diesel",
        volume=Quantity(31.4, "gal"),
        odometer=mi(48211),
        distance=mi(312.7),
        unit_price=Quantity(3.899, "USD/gal"),
        cost=Quantity(122.43, "USD"),
        full=True,
        missed=False,
        dash_economy=Quantity(11.2, "mi/gal"),
        truck="Juniper",
    ),
    Odometer(odometer=mi(48011), event="depart", at=date(2026, 7, 9)),
    Hitch(action="hitched", trailer="camper", note="chains crossed"),
    Observation(subject="hub", value=Quantity(205, "degF", 190), position="trailer left rear"),
    Rating(subject="truck", rating="gvwr", value=lb(11500), truck="Juniper"),
    Rating(subject="tyres", rating="load_index", value=121.0, trailer="flatdeck"),
    Cargo(item="extractor", value=lb(340), position="ahead of axle", distance=Quantity(6, "ft")),
    Check(item="lug nuts", state="done"),
    Note(note="pull in from the back ⚖️", place="Saltlick"),
)


def test_every_kind_is_kept_but_corrections_which_change_others() -> None:
    assert {KINDS[name] for name in TABLES} == {type(each) for each in ONE_OF_EACH}
    assert set(KINDS.values()) - {type(each) for each in ONE_OF_EACH} == {Correction}


@pytest.mark.parametrize("entry", ONE_OF_EACH, ids=lambda each: KIND_NAMES[type(each)])
def test_an_entry_comes_back_as_it_was_stated(store: Store, entry: Entry) -> None:
    book, message = first_message(store)
    with store.work() as session:
        kept = logbook.keep(session, book, message, entry, START)
        session.commit()
    with store.look() as session:
        (found,) = standing.log(session, book)
    assert found == kept
    assert found.entry == entry
    assert found.entry.words == entry.words
    assert (found.at, found.by) == (START, "Ana")


def test_figures_no_one_said_stay_unsaid(store: Store) -> None:
    book, message = first_message(store)
    bare = (Fill(), Hitch(action="unhitched"), Weighing(loads={"gross": lb(8840)}), Note())
    with store.work() as session:
        for entry in bare:
            logbook.keep(session, book, message, entry, START)
        session.commit()
    with store.look() as session:
        assert [each.entry for each in standing.log(session, book)] == list(bare)


def test_a_correction_is_no_entry(store: Store) -> None:
    book, message = first_message(store)
    with store.work() as session, pytest.raises(TypeError, match="not kept as one"):
        logbook.keep(session, book, message, Correction(action="undo"), START)


def test_an_amended_entry_counts_in_place_of_the_first_and_the_story_stays(store: Store) -> None:
    book, message = first_message(store)
    with store.work() as session:
        first = logbook.keep(session, book, message, Odometer(odometer=mi(47211)), START)
        second = logbook.keep(
            session, book, message, Odometer(odometer=mi(48211)), START, first.key
        )
        assert [each.key for each in standing.log(session, book)] == [second.key]
        logbook.withdraw(session, message, [second.key])
        logbook.restore(session, message, [first.key])
        session.commit()
    with store.look() as session:
        assert [each.entry for each in standing.log(session, book)] == [first.entry]
        acts = session.execute(select(ChangeRow.entry_id, ChangeRow.act).order_by(ChangeRow.id))
        story = [(key, act) for key, act in acts]
    one, two = first.key, second.key
    assert story == [
        (one, "kept"), (two, "kept"), (one, "withdrawn"), (two, "withdrawn"), (one, "restored"),
    ]  # fmt: skip


def test_recent_changes_name_what_each_message_left_standing_and_what_it_replaced(
    store: Store,
) -> None:
    book, message = first_message(store)
    with store.writing() as unit:
        session = unit.session
        key = journal.record(unit, as_told("y", at=1), HOME, START)
        assert key is not None
        later = journal.find_by_key(session, key).message
        first = logbook.keep(session, book, message, Odometer(odometer=mi(47211)), START)
        hitch = logbook.keep(session, book, message, Hitch(action="hitched"), START)
        second = logbook.keep(session, book, later, Odometer(odometer=mi(48211)), START, first.key)
        newest, oldest = logbook.recent(session, book)
    assert (newest.kept, newest.replaced) == ((second,), (first,))
    assert (oldest.kept, oldest.replaced) == ((hitch,), ())


def test_the_latest_of_a_kind_are_those_that_happened_last(store: Store) -> None:
    book, message = first_message(store)
    with store.work() as session:
        for hours in (3, 1, 2):
            entry = Odometer(odometer=mi(48000 + hours))
            logbook.keep(session, book, message, entry, START + timedelta(hours=hours))
        found = standing.log(session, book, Reach(kinds=(Odometer,), latest=2))
    assert [each.entry for each in found] == [
        Odometer(odometer=mi(48002)),
        Odometer(odometer=mi(48003)),
    ]


@pytest.mark.parametrize(
    ("stated", "expected"),
    [
        (None, START),
        (date(2026, 7, 11), START),
        (date(2026, 7, 5), datetime(2026, 7, 5, 18, tzinfo=UTC)),
        (datetime(2026, 7, 10, 16, 12), datetime(2026, 7, 10, 22, 12, tzinfo=UTC)),  # noqa: DTZ001
        (datetime(2026, 7, 10, 16, tzinfo=UTC), datetime(2026, 7, 10, 16, tzinfo=UTC)),
    ],
)
def test_an_entry_happened_when_it_says_else_when_it_was_sent(
    stated: date | datetime | None, expected: datetime
) -> None:
    entry = Odometer(odometer=mi(48011), at=stated)
    assert logbook.happened_at(entry, START, HOME) == expected


def test_an_entry_cannot_be_kept_without_its_message(store: Store) -> None:
    book, message = first_message(store)
    with store.work() as session:
        kept = logbook.keep(session, book, message, Note(note="x"), START)
        session.commit()
        row = session.get_one(EntryRow, kept.key)
        assert row.message_id == message.id
