"""The soak notices what it is there for: what is lost, what is double, what waits, what grows."""

from __future__ import annotations

import time
from collections.abc import Iterator
from datetime import UTC, datetime
from pathlib import Path

import pytest
from sqlalchemy import delete, select, update

from bot.conversation import Conversation
from bot.store import journal, outbox
from bot.store.database import Store, open_store
from bot.store.tables import ChangeRow, EntryRow, MessageRow, OdometerRow, OutboxRow
from bot.wiring import now, reader
from tests.soak import soak
from tests.soak.ledger import Ledger
from tests.soak.soak import Ages, Group, Worker
from tests.soak.traffic import Chat
from tests.soak.wire import KEYED, PLAIN
from tests.store.logbooks import HOME


@pytest.fixture
def store(tmp_path: Path) -> Iterator[Store]:
    opened = open_store(tmp_path / "logbook.db")
    yield opened
    opened.close()


@pytest.fixture
def ledger(store: Store) -> Ledger:
    """Sixty events of two chats, taken, answered and shown as they should be."""
    began = datetime.now(UTC)
    kept = Ledger([Chat(network, number, began) for number, network in enumerate((KEYED, PLAIN))])
    talk = Conversation(store, reader(), now, HOME)
    for chat in kept.chats:
        while len(chat.odometers) < 3:
            talk.take(chat.next())
    with store.work() as session:
        for network in (KEYED, PLAIN):
            while turns := outbox.turns(session, {network}, now()):
                for turn in turns:
                    parcel = outbox.parcel(session, turn.key)
                    assert parcel is not None
                    kept.show(network, parcel.chat, f"drawbar-{turn.key}")
                    outbox.mark_sent(session, turn.key)
    return kept


def test_a_run_in_which_all_went_well_has_nothing_to_tell(store: Store, ledger: Ledger) -> None:
    assert ledger.lost(store) == []
    assert ledger.double(store) == []


def test_an_answer_that_no_chat_shows_is_lost(store: Store, ledger: Ledger) -> None:
    shown = ledger.shown[KEYED, ledger.chats[0].name]
    key = shown.pop().removeprefix("drawbar-")
    assert ledger.lost(store) == [f"answer {key} in {ledger.chats[0].name} is sent"]


@pytest.mark.parametrize("state", [outbox.QUEUED, outbox.PARKED, outbox.UNCERTAIN])
def test_an_answer_whose_fate_nothing_explains_is_lost(
    store: Store, ledger: Ledger, state: str
) -> None:
    with store.work() as session:
        first = select(OutboxRow.id).order_by(OutboxRow.id).limit(1).scalar_subquery()
        session.execute(update(OutboxRow).where(OutboxRow.id == first).values(state=state))
        session.commit()
    (told,) = ledger.lost(store)
    assert told.endswith(f"is {state}")


def test_a_reading_that_is_not_in_the_log_is_lost(store: Store, ledger: Ledger) -> None:
    chat = ledger.chats[1]
    with store.work() as session:
        entry = session.scalars(
            select(EntryRow.id)
            .join(MessageRow, MessageRow.id == EntryRow.message_id)
            .where(MessageRow.message == chat.odometers[0])
        ).all()
        for table, column in (
            (ChangeRow, ChangeRow.entry_id), (OdometerRow, OdometerRow.entry_id),
            (EntryRow, EntryRow.id),
        ):  # fmt: skip
            session.execute(delete(table).where(column.in_(entry)))
        session.commit()
    assert f"{chat.name} {chat.odometers[0]} is not kept once" in ledger.lost(store)


def test_a_message_that_is_still_to_be_handled_is_lost(store: Store, ledger: Ledger) -> None:
    with store.work() as session:
        session.execute(update(MessageRow).values(state=journal.WAITING))
        session.commit()
    assert len([each for each in ledger.lost(store) if "waiting" in each]) > 20


def test_what_is_shown_again_is_double_unless_a_fault_explains_it(
    store: Store, ledger: Ledger
) -> None:
    place = PLAIN, ledger.chats[1].name
    key = ledger.shown[place][-1]
    ledger.show(*place, key)
    assert ledger.double(store) == [f"answer {key} is shown again"]
    ledger.cut_off.add(key)
    assert ledger.double(store) == []
    ledger.show(KEYED, ledger.chats[0].name, ledger.shown[KEYED, ledger.chats[0].name][0])
    assert ledger.double(store) == [], "under its key it shows once"


def test_an_answer_out_of_order_is_told(store: Store, ledger: Ledger) -> None:
    shown = ledger.shown[PLAIN, ledger.chats[1].name]
    shown[0], shown[1] = shown[1], shown[0]
    (told,) = ledger.double(store)
    assert told.endswith(f"shows {shown[1]} after {shown[0]}")


def test_a_second_answer_to_a_message_is_double(store: Store, ledger: Ledger) -> None:
    with store.work() as session:
        row = session.scalars(select(OutboxRow).order_by(OutboxRow.id)).first()
        assert row is not None
        assert row.message_id is not None
        told = row.message_id
        session.execute(update(OutboxRow).where(OutboxRow.id == row.id + 1).values(message_id=told))
        session.commit()
    assert ledger.double(store) == [f"message {told} is answered 2 times"]


def test_summaries_are_counted(store: Store, ledger: Ledger) -> None:
    with store.look() as session:
        row = journal.chat_of(session, KEYED, ledger.chats[0].name)
        assert row is not None
    ledger.summaries[row.logbook_id] = 1
    assert ledger.lost(store) == [f"1 summaries of logbook {row.logbook_id} never came"]


def test_the_oldest_answer_ages_until_it_is_gone_and_outages_do_not_count() -> None:
    ages = Ages()
    ages.look([1, 2], outage=False)
    time.sleep(0.05)
    ages.look([2], outage=False)
    ages.look([2], outage=True)
    ages.look([3], outage=False)
    first, second, third = ages.looks
    assert second >= first + 0.05
    assert third < second


def test_memory_is_held_against_what_it_was_once_warm(tmp_path: Path) -> None:
    group = Group("sqlite", f"sqlite:///{tmp_path / 'soak.db'}", tmp_path, 1, 1)
    worker = Worker(group, 0, tmp_path / "log")
    worker.memory = [(at, 100.0 + at / 10) for at in range(100)]
    grown = worker.grown(warm=30, end=100)
    assert grown is not None
    assert grown == pytest.approx((103.3, 109.6), abs=0.2)
    assert grown[1] > grown[0] * (1 + soak.MOST_GROWTH)
    worker.born = 40
    assert worker.grown(warm=30, end=100) is None, "it was never warm for long enough"
    group.store.close()
