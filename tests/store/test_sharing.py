"""A logbook's chats and people, and what is told of a wish that can't be met."""

from __future__ import annotations

import pytest

from bot.store import journal, sharing
from bot.store.database import Store
from bot.store.sharing import NotShared
from bot.store.tables import LogbookRow
from domain.entries import Odometer
from tests.store.logbooks import as_told, logged, mi, replies, standing, told


def test_a_chat_that_joins_as_keeper_brings_its_entries_along(store: Store) -> None:
    told(store, as_told("odo 48011", at=0), as_told("odo 48211", at=1, chat="orchard"))
    with store.work() as session:
        barn, orchard = (sharing.chat_named(session, name) for name in ("barn", "test:orchard"))
        sharing.join(session, orchard, barn.logbook_id, "keeper")
        assert session.query(LogbookRow).count() == 1
    both = [Odometer(odometer=mi(48011)), Odometer(odometer=mi(48211))]
    assert standing(store, "barn") == standing(store, "orchard") == both
    told(store, as_told("odo 48300", at=2, chat="orchard"))
    assert len(standing(store, "barn")) == 3


def test_a_reader_may_not_leave_entries_behind(store: Store) -> None:
    told(store, as_told("odo 48011", at=0), as_told("odo 48211", at=1, chat="orchard"))
    with store.work() as session:
        barn, orchard = (sharing.chat_named(session, name) for name in ("barn", "orchard"))
        with pytest.raises(NotShared, match="1 entries of its own"):
            sharing.join(session, orchard, barn.logbook_id, "reader")


def test_a_logbook_keeps_a_keeper(store: Store) -> None:
    told(store, as_told("odo 48011"))
    with store.work() as session:
        barn = sharing.chat_named(session, "barn")
        with pytest.raises(NotShared, match="only chat that keeps"):
            sharing.join(session, barn, barn.logbook_id, "reader")


def test_what_a_reader_states_is_not_kept_and_it_is_told_so(store: Store) -> None:
    told(store, as_told("odo 48011", at=0), as_told("odo 7", at=1, chat="office"))
    with store.work() as session:
        barn, office = (sharing.chat_named(session, name) for name in ("barn", "office"))
        sharing.join(session, office, barn.logbook_id, "keeper")
        sharing.join(session, office, barn.logbook_id, "reader")
    before = standing(store)
    replies(store)
    told(store, as_told("odo 48300", at=2, chat="office"))
    assert standing(store) == before
    assert replies(store) == ["This chat reads the logbook; nothing was kept."]


def test_one_person_on_two_networks_has_one_name(store: Store) -> None:
    told(store, as_told("odo 48011", at=0, author="ana"), as_told("odo 48012", at=1, author="am7"))
    with store.work() as session:
        ana, other = (sharing.person_named(session, name) for name in ("Ana", "test:am7"))
        sharing.same_person(session, ana, other)
        sharing.name_person(session, ana, "Ana Marsh")
        assert sharing.identities(session, ana) == ["test:ana", "test:am7"]
    told(store, as_told("odo 48013", at=2, author="am7"))
    assert {each.by for each in logged(store)} == {"Ana Marsh"}


def test_a_name_that_means_nobody_or_several_is_told(store: Store) -> None:
    told(store, as_told("odo 48011", at=0), as_told("odo 48012", at=1, author="ben"))
    with store.work() as session:
        sharing.name_person(session, sharing.person_named(session, "Ben"), "ana")
        with pytest.raises(NotShared, match="test:ana, test:ben; say which"):
            sharing.person_named(session, "ANA")
        with pytest.raises(NotShared, match="No chat is called 'attic'"):
            sharing.chat_named(session, "attic")


def test_the_members_are_listed_with_what_stands(store: Store) -> None:
    told(store, as_told("odo 48011", at=0), as_told("odo 48012", at=1))
    with store.look() as session:
        (member,) = sharing.members(session)
    assert (member.name, member.role, member.entries) == ("test:barn", journal.KEEPER, 2)


@pytest.mark.parametrize(("day", "hour"), [(7, 7), (-1, 7), (0, 24)])
def test_a_week_without_such_a_day_or_hour_is_told(store: Store, day: int, hour: int) -> None:
    told(store, as_told("odo 48011"))
    with store.work() as session, pytest.raises(NotShared, match="days 0 to 6"):
        sharing.set_week(session, sharing.chat_named(session, "barn").logbook_id, day, hour)
