"""Who is let in: codes, strangers, and who shares a logbook."""

from __future__ import annotations

import logging
from dataclasses import replace
from datetime import timedelta

import pytest
from sqlalchemy import func, select

from bot.admission import Dismissed, Door
from bot.answers import shared
from bot.messages import Message
from bot.store import codes, journal
from bot.store.database import Store
from bot.store.tables import ChatRow, MessageRow, StrangerRow
from domain.entries import Odometer
from domain.verdicts import Question
from tests.store.logbooks import (
    HOME,
    START,
    Clock,
    Scripted,
    as_told,
    mi,
    replies,
    standing,
    told,
    waiting,
)

DAY = timedelta(days=1)


@pytest.fixture
def clock() -> Clock:
    return Clock()


@pytest.fixture
def door(store: Store, clock: Clock) -> Door:
    return Door(store, clock, HOME, {"test"}, open_to_all=False)


def told_by(answer: Dismissed | None) -> str | None:
    assert answer is not None, "it went on"
    return answer.answer.headline if answer.answer else None


def texted(text: str, chat: str = "barn", id: str | None = None) -> Message:
    return replace(as_told(text, chat=chat, id=id or f"{chat} {text}"), title=chat.title())


def owner(door: Door) -> None:
    code = door.owners_code()
    assert code is not None
    assert told_by(door.meet(texted(code))) is None


INVITING = {
    "invite": Question(topic="invite", field="keeper"),
    "invite reader": Question(topic="invite", field="reader"),
    "members": Question(topic="members"),
    "remove 2": Question(topic="remove", item="2"),
    "remove 1": Question(topic="remove", item="1"),
}


def invited(store: Store, words: str = "invite", at: float = 30) -> str:
    told(store, as_told(words, at), reader=Scripted(INVITING))
    (headline,) = replies(store)[-1:]
    return headline.rpartition(" ")[2]


def test_a_stranger_gets_one_sentence_and_then_silence_and_nothing_is_kept(
    store: Store, door: Door
) -> None:
    assert told_by(door.meet(texted("odo 48211"))) == shared.stranger_answer().headline
    assert told_by(door.meet(texted("hello?"))) is None
    with store.look() as session:
        assert session.scalar(select(func.count()).select_from(MessageRow)) == 0
        assert session.scalar(select(func.count()).select_from(ChatRow)) == 0


def test_the_owners_code_opens_a_logbook_to_one_chat_once(store: Store, door: Door) -> None:
    code = door.owners_code()
    assert code is not None
    assert told_by(door.meet(texted(code.lower().replace("-", " ")))) is None
    assert replies(store) == ["This chat keeps the logbook now."]
    assert door.meet(texted("odo 48211")) is None
    assert door.owners_code() is None, "somebody is in"
    assert told_by(door.meet(texted(code, chat="orchard"))) == shared.wrong_code_answer().headline


def test_a_code_that_comes_twice_is_answered_once(store: Store, door: Door) -> None:
    code = door.owners_code()
    assert code is not None
    for _ in range(2):
        assert told_by(door.meet(texted(code, id="m1"))) is None
    assert len(replies(store)) == 1


def test_a_new_start_before_anybody_is_in_makes_the_last_code_worthless(door: Door) -> None:
    first, second = door.owners_code(), door.owners_code()
    assert first is not None
    assert second is not None
    assert told_by(door.meet(texted(first))) == shared.wrong_code_answer().headline
    assert told_by(door.meet(texted(second))) is None


def test_the_owner_takes_over_what_was_logged_in_the_terminal(store: Store, door: Door) -> None:
    told(store, replace(as_told("odo 48211"), network="terminal"))
    owner(door)
    assert standing(store, "barn") == [Odometer(odometer=mi(48211))]


@pytest.mark.parametrize(("words", "role"), [("invite", "keeper"), ("invite reader", "reader")])
def test_an_invitation_lets_one_more_chat_in_for_a_day(
    store: Store, door: Door, clock: Clock, words: str, role: str
) -> None:
    owner(door)
    code = invited(store, words)
    assert told_by(door.meet(texted(f"/start {code}", chat="orchard"))) is None
    with store.look() as session:
        chat = journal.chat_of(session, "test", "orchard")
        home = journal.chat_of(session, "test", "barn")
        assert chat is not None
        assert home is not None
        assert (chat.role, chat.logbook_id, chat.title) == (role, home.logbook_id, "Orchard")
    late = invited(store, words, at=40)
    clock.now += DAY
    wrong = door.meet(texted(late, chat="meadow"))
    assert told_by(wrong) == shared.wrong_code_answer().headline


def test_only_a_chat_that_keeps_the_logbook_invites(store: Store, door: Door) -> None:
    owner(door)
    code = invited(store, "invite reader")
    door.meet(texted(code, chat="orchard"))
    replies(store)
    told(store, as_told("invite", 50, chat="orchard"), reader=Scripted(INVITING))
    assert replies(store) == ["This chat reads the logbook; nothing was kept."]


def test_wrong_codes_wait_twice_as_long_each_time(store: Store, door: Door, clock: Clock) -> None:
    wrong = [f"ABCD-EFG{letter}" for letter in "ABCDEFGH"]
    answers = [told_by(door.meet(texted(each))) for each in wrong[:3]]
    assert answers == [shared.wrong_code_answer().headline] * 3
    code = door.owners_code()
    assert code is not None
    assert told_by(door.meet(texted(code, id="early"))) is None
    assert not replies(store), "a right code has to wait as well"
    clock.now += timedelta(minutes=1)
    assert told_by(door.meet(texted(wrong[3]))) is None
    with store.look() as session:
        row = session.scalars(select(StrangerRow)).one()
        assert row.waits_until == clock.now + timedelta(minutes=2)
    clock.now += timedelta(minutes=2)
    door.meet(texted(code, id="later"))
    assert replies(store) == ["This chat keeps the logbook now."]


def test_no_wait_is_longer_than_a_day(store: Store) -> None:
    with store.work() as session:
        row, _ = codes.stranger(session, "test", "barn", START)
        for _ in range(200):
            codes.count_wrong(row, START)
        assert row.waits_until == START + DAY


def test_members_are_shown_and_one_is_taken_off(store: Store, door: Door) -> None:
    owner(door)
    door.meet(texted(invited(store), chat="orchard"))
    replies(store)
    told(store, as_told("members", 50), reader=Scripted(INVITING))
    with store.look() as session:
        (parcel,) = waiting(session)
    assert [row.figure for row in parcel.answer.rows] == [
        "Barn (test, keeps)",
        "Orchard (test, keeps)",
    ]
    told(store, as_told("remove 2", 51), reader=Scripted(INVITING))
    assert replies(store)[-1] == "Orchard (test, keeps) is off the logbook. What it logged stays."
    assert told_by(door.meet(texted("odo 48300", chat="orchard"))) is not None
    told(store, as_told("remove 1", 52), reader=Scripted(INVITING))
    assert replies(store) == ["That is the only chat that keeps this logbook; it stays."]


def test_where_all_are_welcome_each_chat_has_a_logbook_of_its_own(
    store: Store, clock: Clock
) -> None:
    door = Door(store, clock, HOME, {"test"}, open_to_all=True)
    assert door.owners_code() is None
    for chat in ("barn", "orchard"):
        assert door.meet(texted("odo 48211", chat=chat)) is None
        told(store, as_told("odo 48211", chat=chat))
    replies(store)
    door.meet(texted(invited(store), chat="orchard"))
    assert standing(store, "orchard") == [Odometer(odometer=mi(48211))] * 2


def test_a_chat_with_entries_of_its_own_does_not_lose_them_to_a_readers_code(
    store: Store, clock: Clock
) -> None:
    door = Door(store, clock, HOME, {"test"}, open_to_all=True)
    told(store, as_told("odo 1", chat="barn"), as_told("odo 2", chat="orchard"))
    replies(store)
    code = invited(store, "invite reader")
    assert told_by(door.meet(texted(code, chat="orchard"))) == shared.has_its_own_answer().headline
    assert standing(store, "orchard") == [Odometer(odometer=mi(2))]
    assert door.meet(texted("odo 3", chat="orchard")) is None


def test_the_terminal_needs_no_code(store: Store, clock: Clock) -> None:
    door = Door(store, clock, HOME, {"elsewhere"}, open_to_all=False)
    assert door.meet(texted("odo 48211")) is None


def test_invitations_to_rooms_are_followed_from_those_who_texted_in_a_chat_that_is_in(
    store: Store, door: Door
) -> None:
    assert not door.knows("test", "ana")
    owner(door)
    assert door.knows("test", "ana")
    assert not door.knows("test", "zoe")
    assert not door.knows("elsewhere", "ana")


def test_neither_codes_nor_texts_are_logged(
    store: Store, door: Door, caplog: pytest.LogCaptureFixture
) -> None:
    caplog.set_level(logging.DEBUG)
    code = door.owners_code()
    assert code is not None
    door.meet(texted("the gate is 4711", chat="orchard"))
    door.meet(texted(code))
    assert code not in caplog.text
    assert "4711" not in caplog.text


@pytest.mark.parametrize(
    "text", ["odo 48211", "ABCD EFGH please", "ABCD-EFG", "AB-CDEFGH", "code", "start", ""]
)
def test_what_is_no_code_is_not_taken_for_one(text: str) -> None:
    assert codes.code_in(text) is None
