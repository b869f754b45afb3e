"""What is remembered of a logbook is what its rows say, whoever changed it."""

from __future__ import annotations

import random
from collections.abc import Iterator
from contextlib import contextmanager
from datetime import timedelta

import pytest

from bot.store import journal, logbook, standing
from bot.store.database import Store
from bot.store.seen import Journalled
from bot.store.shelf import Book, Shelf
from bot.store.tables import LogbookRow
from domain.entries import Entry, Fill, Hitch, Odometer, Rating, Weighing
from domain.log import EVERYTHING, Log, Logged, Reach
from domain.odometer import last_shown
from tests.store.logbooks import START, first_message, lb, mi

HOURS = 60
FEW = Reach(latest=3)


def at(hours: float) -> Reach:
    return Reach(latest=3, until=START + timedelta(hours=hours))


@contextmanager
def opened(store: Store, shelf: Shelf, key: int) -> Iterator[tuple[Book, Journalled]]:
    """A logbook taken from the shelf, changed and put back, as one message does."""
    with store.writing() as unit:
        row = unit.session.get_one(LogbookRow, key)
        book = shelf.take(unit, key, row.revision)
        yield book, journal.find_by_key(unit.plain, 1).message
        row.revision += 1
        unit.commit()
        shelf.put_back(book, row.revision)


def some_entry(chance: random.Random) -> Entry:
    return chance.choice(
        (
            Odometer(odometer=mi(48_000 + chance.randrange(1000))),
            Fill(odometer=mi(48_000), volume=None),
            Hitch(action=chance.choice(("hitched", "unhitched"))),
            Rating(subject="truck", rating="gvwr", value=lb(11_500)),
            Weighing(loads={"gross": lb(18_000)}),
        )
    )


@pytest.mark.parametrize("seed", range(6))
def test_a_remembered_logbook_says_what_its_rows_say(store: Store, seed: int) -> None:
    chance = random.Random(seed)
    key, _ = first_message(store)
    shelves = [Shelf(), Shelf()]
    kept: list[Logged[Entry]] = []
    for _ in range(40):
        with opened(store, chance.choice(shelves), key) as (book, message):
            # Few different hours, so that many entries happened at the same moment.
            when = START + timedelta(hours=chance.randrange(12))
            gone = chance.choice(kept) if kept and chance.random() < 0.3 else None
            match chance.randrange(4):
                case 0 if gone is not None:
                    book.withdraw(message, [gone.key])
                    kept.remove(gone)
                case 1 if gone is not None:
                    kept.append(book.keep(message, some_entry(chance), when, gone.key))
                    kept.remove(gone)
                case _:
                    kept.append(book.keep(message, some_entry(chance), when))
            reaches = (
                FEW, at(chance.randrange(12)), EVERYTHING,
                Reach(since=START + timedelta(hours=chance.randrange(12))),
                Reach(kinds=(Odometer, Rating), latest=5),
            )  # fmt: skip
            for reach in chance.sample(reaches, 2):
                assert list(book.log(reach)) == list(standing.log(book.session, key, reach))


def test_what_another_worker_kept_is_seen(store: Store) -> None:
    key, _ = first_message(store)
    ours, theirs = Shelf(), Shelf()
    with opened(store, ours, key) as (book, message):
        first = book.keep(message, Odometer(odometer=mi(48_011)), START)
        assert list(book.log(EVERYTHING)) == [first]
    with opened(store, theirs, key) as (book, message):
        second = book.keep(message, Odometer(odometer=mi(48_213)), START)
    with opened(store, ours, key) as (book, _message):
        assert list(book.log(EVERYTHING)) == [first, second]


def test_what_was_rolled_back_is_not_remembered(store: Store) -> None:
    key, _ = first_message(store)
    shelf = Shelf()
    with opened(store, shelf, key) as (book, message):
        first = book.keep(message, Odometer(odometer=mi(48_011)), START)
        assert list(book.log(EVERYTHING)) == [first]
    with store.writing() as unit:
        row = unit.session.get_one(LogbookRow, key)
        book = shelf.take(unit, key, row.revision)
        message = journal.find_by_key(unit.plain, 1).message
        book.keep(message, Odometer(odometer=mi(48_213)), START)
    with opened(store, shelf, key) as (book, _message):
        assert list(book.log(EVERYTHING)) == [first]


def test_entries_that_are_set_aside_are_out_of_sight_only_meanwhile(store: Store) -> None:
    key, _ = first_message(store)
    with opened(store, Shelf(), key) as (book, message):
        kept = book.keep(message, Odometer(odometer=mi(48_011)), START)
        assert list(book.log(EVERYTHING)) == [kept]
        with book.set_aside(message, [kept.key]):
            assert list(book.log(EVERYTHING)) == []
        assert list(book.log(EVERYTHING)) == [kept]


def test_an_answer_about_now_reads_no_row_a_second_time(
    store: Store, statements: list[str]
) -> None:
    key, _ = first_message(store)
    shelf = Shelf()
    with opened(store, shelf, key) as (book, message):
        for hours in range(5):
            book.keep(message, some_entry(random.Random(hours)), START + timedelta(hours=hours))
        book.log(FEW)
    with opened(store, shelf, key) as (book, message):
        book.keep(message, Odometer(odometer=mi(49_000)), START + timedelta(hours=9))
        statements.clear()
        found = list(book.log(FEW))
        assert not statements
        assert found == list(standing.log(book.session, key, FEW))


def test_what_was_worked_out_holds_until_one_of_its_kinds_changes(store: Store) -> None:
    key, _ = first_message(store)
    shelf = Shelf()
    reach = Reach(kinds=(Hitch,), latest=3)
    worked: list[int] = []

    def work(log: Log) -> int:
        worked.append(len(log))
        return len(log)

    with opened(store, shelf, key) as (book, message):
        book.keep(message, Hitch(action="hitched"), START)
        assert book.worked_out(reach, work) == 1
        book.keep(message, Odometer(odometer=mi(48_011)), START)
        assert book.worked_out(reach, work) == 1
    with opened(store, shelf, key) as (book, message):
        assert book.worked_out(reach, work) == 1
        kept = book.keep(message, Hitch(action="unhitched"), START)
        assert book.worked_out(reach, work) == 2
        book.withdraw(message, [kept.key])
        assert book.worked_out(reach, work) == 1
    assert worked == [1, 2, 1]


def test_a_worker_remembers_only_so_many_entries(store: Store) -> None:
    key, _ = first_message(store)
    with store.writing() as unit:
        message = journal.find_by_key(unit.plain, 1).message
        for hours in range(5):
            entry = Odometer(odometer=mi(48_000 + hours))
            logbook.keep(unit.plain, key, message, entry, START + timedelta(hours=hours))
        unit.commit()
        roomy, small = Shelf(most=5), Shelf(most=4)
        for shelf, remembers in ((roomy, True), (small, False)):
            book = shelf.take(unit, key, 0)
            book.log(EVERYTHING)
            shelf.put_back(book, 0)
            assert bool(shelf.take(unit, key, 0).known.runs) is remembers


def test_the_odometer_last_showed_what_was_read_last_off_a_fill_or_by_itself(
    store: Store,
) -> None:
    key, _ = first_message(store)
    hour = timedelta(hours=1)
    shelf = Shelf()

    def shown(book: Book, truck: str | None = None) -> object:
        return last_shown(book.log(EVERYTHING), truck, START + HOURS * hour)

    with opened(store, shelf, key) as (book, message):
        assert shown(book) is None
        book.keep(message, Fill(odometer=mi(48_300)), START)
        book.keep(message, Odometer(odometer=mi(48_011)), START - hour)
        assert shown(book) == mi(48_300)
        new = book.keep(message, Odometer(odometer=mi(48_350)), START + hour)
        assert shown(book) == mi(48_350)
        book.keep(message, Odometer(odometer=mi(90_000), truck="Big Red"), START + 2 * hour)
        assert (shown(book), shown(book, "Big Red")) == (mi(48_350), mi(90_000))
        book.withdraw(message, [new.key])
        assert shown(book) == mi(48_300)
