"""Answers leave the outbox in order, and their fate decides what happens next."""

from __future__ import annotations

import asyncio
from collections.abc import Callable, Iterator
from concurrent.futures import ThreadPoolExecutor
from dataclasses import replace
from datetime import UTC, datetime, timedelta

import pytest
from sqlalchemy import event, select
from sqlalchemy.exc import OperationalError

from bot.answers.answer import Answer, Row
from bot.delivery import LONGEST_PAUSE, SIDE_BY_SIDE, Delivery, pause_after
from bot.messages import Delivered, Letter, MovedTo, NotSent, Outcome, Refused, Unknown
from bot.store import journal, outbox, replies
from bot.store.database import Store
from bot.store.tables import ChatRow, OutboxRow
from tests.store.logbooks import HOME, START, Clock, as_told, told, waiting


class Line:
    """A network that meets each send with the next of its outcomes, then delivers."""

    name = "test"
    once_by_key = False

    def __init__(self, *outcomes: Outcome) -> None:
        self._outcomes = list(outcomes)
        self.tried: list[tuple[str, str, str]] = []

    async def send(self, letter: Letter) -> Outcome:
        self.tried.append((letter.chat, letter.answer.headline, letter.key))
        return self._outcomes.pop(0) if self._outcomes else Delivered()


@pytest.fixture
def worker() -> Iterator[ThreadPoolExecutor]:
    with ThreadPoolExecutor(1) as pool:
        yield pool


def queue(store: Store, chat: str, *headlines: str, network: str = "test") -> None:
    with store.work() as session:
        row = journal.chat_of(session, network, chat) or journal.open_chat(
            session, network, chat, HOME, START
        )
        for headline in headlines:
            outbox.queue(session, row.id, Answer(headline=headline), START)
            session.flush()
        session.commit()


def states(store: Store) -> list[tuple[str, str, int]]:
    with store.look() as session:
        rows = session.scalars(select(OutboxRow).order_by(OutboxRow.id))
        return [(row.body["headline"], row.state, row.attempts) for row in rows]


async def test_a_chats_answers_leave_in_the_order_in_which_they_were_queued(
    store: Store, worker: ThreadPoolExecutor
) -> None:
    queue(store, "barn", "one", "two")
    queue(store, "orchard", "uno", "due")
    line = Line()
    assert await Delivery(store, {"test": line}, Clock(), worker).deliver() is None
    for chat, expected in (("barn", ["one", "two"]), ("orchard", ["uno", "due"])):
        assert [headline for where, headline, _ in line.tried if where == chat] == expected
    assert {state for _, state, _ in states(store)} == {outbox.SENT}


async def test_what_was_sent_is_not_sent_again(store: Store, worker: ThreadPoolExecutor) -> None:
    queue(store, "barn", "one")
    line = Line()
    delivery = Delivery(store, {"test": line}, Clock(), worker)
    await delivery.deliver()
    await delivery.deliver()
    assert len(line.tried) == 1


async def test_an_answer_that_did_not_arrive_is_repeated_under_its_key_after_growing_pauses(
    store: Store, worker: ThreadPoolExecutor
) -> None:
    queue(store, "barn", "one", "two")
    line, clock = Line(NotSent("no route"), NotSent("no route")), Clock()
    delivery = Delivery(store, {"test": line}, clock, worker)
    assert await delivery.deliver() == START + timedelta(seconds=1)
    assert await delivery.deliver() == START + timedelta(seconds=1)
    assert len(line.tried) == 1, "not before it is due, and nothing overtakes it"
    clock.now += timedelta(seconds=1)
    assert await delivery.deliver() == clock.now + timedelta(seconds=2)
    clock.now += timedelta(seconds=2)
    assert await delivery.deliver() is None
    assert [headline for _, headline, _ in line.tried] == ["one", "one", "one", "two"]
    assert len({key for _, headline, key in line.tried if headline == "one"}) == 1
    assert states(store) == [("one", outbox.SENT, 3), ("two", outbox.SENT, 1)]


def queue_urgent(store: Store, chat: str, headline: str) -> None:
    with store.work() as session:
        row = journal.open_chat(session, "test", chat, HOME, START)
        outbox.queue(session, row.id, Answer(headline=headline, urgent=True), START)
        session.commit()


async def test_a_routine_answer_that_may_have_arrived_is_not_repeated(
    store: Store, worker: ThreadPoolExecutor
) -> None:
    queue(store, "barn", "one", "two")
    line = Line(Unknown("timed out"))
    assert await Delivery(store, {"test": line}, Clock(), worker).deliver() is None
    assert [headline for _, headline, _ in line.tried] == ["one", "two"]
    assert states(store) == [("one", outbox.UNCERTAIN, 1), ("two", outbox.SENT, 1)]


async def test_a_warning_that_may_have_arrived_is_repeated_once(
    store: Store, worker: ThreadPoolExecutor
) -> None:
    queue_urgent(store, "barn", "120 lb over the drive axle.")
    line, clock = Line(Unknown("timed out"), Unknown("timed out")), Clock()
    delivery = Delivery(store, {"test": line}, clock, worker)
    clock.now = await delivery.deliver() or clock.now
    assert await delivery.deliver() is None
    assert len(line.tried) == 2
    assert states(store) == [("120 lb over the drive axle.", outbox.UNCERTAIN, 2)]


async def test_where_a_key_is_known_again_what_may_have_arrived_is_repeated_until_it_has(
    store: Store, worker: ThreadPoolExecutor
) -> None:
    queue(store, "barn", "one")
    line, clock = Line(*[Unknown("timed out")] * 3), Clock()
    line.once_by_key = True
    delivery = Delivery(store, {"test": line}, clock, worker)
    while due := await delivery.deliver():
        clock.now = due
    assert states(store) == [("one", outbox.SENT, 4)]


async def test_a_chat_that_moved_is_followed_and_gets_its_answers_there(
    store: Store, worker: ThreadPoolExecutor
) -> None:
    queue(store, "barn", "one", "two")
    line = Line(MovedTo("big barn"))
    await Delivery(store, {"test": line}, Clock(), worker).deliver()
    assert [(chat, headline) for chat, headline, _ in line.tried] == [
        ("barn", "one"),
        ("big barn", "one"),
        ("big barn", "two"),
    ]
    with store.look() as session:
        assert journal.chat_of(session, "test", "barn") is None


async def test_a_reply_knows_the_message_that_it_answers(
    store: Store, worker: ThreadPoolExecutor
) -> None:
    told(store, replace(as_told("odo 48211", id="m7"), thread="trips"))
    letters: list[Letter] = []

    class Kept(Line):
        async def send(self, letter: Letter) -> Outcome:
            letters.append(letter)
            return Delivered("a1")

    await Delivery(store, {"test": Kept()}, Clock(), worker).deliver()
    assert [(each.reply_to, each.thread) for each in letters] == [("m7", "trips")]
    with store.look() as session:
        chat = journal.chat_of(session, "test", "barn")
        assert chat is not None
        assert replies.about(session, chat.id, "a1") == replies.about(session, chat.id, "m7")


async def test_a_network_that_names_a_wait_is_given_it(
    store: Store, worker: ThreadPoolExecutor
) -> None:
    queue(store, "barn", "one")
    line = Line(NotSent("flood", retry_after=timedelta(seconds=40)))
    due = await Delivery(store, {"test": line}, Clock(), worker).deliver()
    assert due == START + timedelta(seconds=40)


async def test_a_refused_answer_is_parked_and_the_next_one_goes(
    store: Store, worker: ThreadPoolExecutor
) -> None:
    queue(store, "barn", "one", "two")
    line = Line(Refused("the chat is gone"))
    delivery = Delivery(store, {"test": line}, Clock(), worker)
    assert await delivery.deliver() is None
    assert states(store) == [("one", outbox.PARKED, 1), ("two", outbox.SENT, 1)]
    with store.look() as session:
        assert session.scalar(select(OutboxRow.reason)) == "the chat is gone"


async def test_another_keeper_is_told_once_of_a_chat_that_cannot_be_reached(
    store: Store, worker: ThreadPoolExecutor
) -> None:
    queue(store, "barn", "one", "two")
    with store.work() as session:
        barn = journal.chat_of(session, "test", "barn")
        assert barn is not None
        session.add(
            ChatRow(
                network="test",
                chat="owner",
                logbook_id=barn.logbook_id,
                role=journal.KEEPER,
                created_at=START,
            )
        )
        session.commit()

    class Gone(Line):
        async def send(self, letter: Letter) -> Outcome:
            await super().send(letter)
            return Refused("the bot was blocked") if letter.chat == "barn" else Delivered()

    line = Gone()
    await Delivery(store, {"test": line}, Clock(), worker).deliver()
    told = [headline for chat, headline, _ in line.tried if chat == "owner"]
    assert told == ["Answers to the test chat barn can't be delivered."]


async def test_two_deliveries_at_once_send_each_answer_once(
    store: Store, worker: ThreadPoolExecutor
) -> None:
    queue(store, "barn", "one", "two")

    class Slow(Line):
        async def send(self, letter: Letter) -> Outcome:
            await asyncio.sleep(0)
            return await super().send(letter)

    line = Slow()
    delivery = Delivery(store, {"test": line}, Clock(), worker)
    await asyncio.gather(*(delivery.deliver() for _ in range(4)))
    assert [headline for _, headline, _ in line.tried] == ["one", "two"]


async def test_an_answer_that_was_sent_while_the_database_went_away_is_not_sent_again(
    store: Store, worker: ThreadPoolExecutor
) -> None:
    queue(store, "barn", "one")
    rested: list[float] = []

    async def rest(seconds: float) -> None:
        rested.append(seconds)
        event.remove(store.engine, "before_cursor_execute", away)

    def away(*_: object) -> None:
        raise OperationalError("UPDATE", None, Exception("the server is away"))

    class Last(Line):
        async def send(self, letter: Letter) -> Outcome:
            event.listen(store.engine, "before_cursor_execute", away)
            return await super().send(letter)

    line = Last()
    await Delivery(store, {"test": line}, Clock(), worker, rest).deliver()
    assert rested == [1.0]
    assert len(line.tried) == 1
    assert states(store) == [("one", outbox.SENT, 1)]


async def test_one_chats_trouble_does_not_hold_up_another(
    store: Store, worker: ThreadPoolExecutor
) -> None:
    queue(store, "barn", "one", "two")
    queue(store, "orchard", "uno")

    class Patchy(Line):
        async def send(self, letter: Letter) -> Outcome:
            await super().send(letter)
            return NotSent("no route") if letter.chat == "barn" else Delivered()

    await Delivery(store, {"test": Patchy()}, Clock(), worker).deliver()
    assert [state for _, state, _ in states(store)] == ["queued", "queued", "sent"]


class Far(Line):
    """A network that takes its time over some chats; the test lets it get on."""

    def __init__(self, *slow: str) -> None:
        super().__init__()
        self._slow = slow
        self.on = asyncio.Event()
        self.at_once: list[set[str]] = []
        self._under_way: set[str] = set()

    async def send(self, letter: Letter) -> Outcome:
        assert letter.chat not in self._under_way, "one at a time in each chat"
        self._under_way.add(letter.chat)
        self.at_once.append(set(self._under_way))
        outcome = await super().send(letter)
        if letter.chat in self._slow:
            await self.on.wait()
        else:
            await asyncio.sleep(0)
        self._under_way.remove(letter.chat)
        return outcome


def chats(count: int) -> list[str]:
    return [f"chat {number}" for number in range(count)]


def summarised(store: Store, *where: str) -> None:
    """Chats of which each has an answer that nobody asked for."""
    for chat in where:
        queue(store, chat, f"week of {chat}")


async def test_a_few_chats_are_sent_to_side_by_side_and_each_in_order(
    store: Store, worker: ThreadPoolExecutor
) -> None:
    for chat in chats(3 * SIDE_BY_SIDE):
        queue(store, chat, "one", "two", "three")
    line = Far()
    assert await Delivery(store, {"test": line}, Clock(), worker).deliver() is None
    assert max(len(each) for each in line.at_once) == SIDE_BY_SIDE
    for chat in chats(3 * SIDE_BY_SIDE):
        headlines = [headline for where, headline, _ in line.tried if where == chat]
        assert headlines == ["one", "two", "three"]


async def test_a_queue_longer_than_what_is_looked_at_is_emptied(
    store: Store, worker: ThreadPoolExecutor
) -> None:
    summarised(store, *chats(outbox.LOOKED_AT + 20))
    line = Line()
    assert await Delivery(store, {"test": line}, Clock(), worker).deliver() is None
    assert len({chat for chat, _, _ in line.tried}) == len(line.tried) == outbox.LOOKED_AT + 20


async def test_a_reply_passes_the_summaries_of_others_but_not_those_of_its_own_chat(
    store: Store, worker: ThreadPoolExecutor
) -> None:
    summarised(store, *chats(outbox.LOOKED_AT + 20), "barn")
    told(store, as_told("odo 48211"))
    line = Line()
    await Delivery(store, {"test": line}, Clock(), worker).deliver()
    barn = [number for number, (chat, _, _) in enumerate(line.tried) if chat == "barn"]
    assert barn[0] < SIDE_BY_SIDE, "its turn comes first, though it was queued last"
    assert barn[1] < 3 * SIDE_BY_SIDE
    assert line.tried[barn[0]][1] == "week of barn"


async def until(holds: Callable[[], object]) -> None:
    while not holds():  # noqa: ASYNC110 - nobody tells when
        await asyncio.sleep(0.005)


async def test_a_chat_whose_network_takes_its_time_holds_up_no_answer_that_comes_meanwhile(
    store: Store, worker: ThreadPoolExecutor
) -> None:
    summarised(store, "barn")
    line = Far("barn")
    delivery = Delivery(store, {"test": line}, Clock(), worker)
    running = asyncio.create_task(delivery.keep_delivering(60))
    async with asyncio.timeout(5):
        await until(lambda: line.tried)
        queue(store, "orchard", "uno")
        delivery.wake()
        await until(lambda: ("uno", outbox.SENT, 1) in states(store))
        assert states(store)[0] == ("week of barn", outbox.QUEUED, 0)
        delivery.stop()
        line.on.set()
        await running
    assert states(store)[0] == ("week of barn", outbox.SENT, 1), "a stop waits for it"


async def test_what_is_on_its_way_arrives_although_the_database_is_away_for_what_is_next(
    store: Store, worker: ThreadPoolExecutor
) -> None:
    summarised(store, "barn", "orchard")

    def away(*_: object) -> None:
        raise OperationalError("SELECT", None, Exception("the server is away"))

    class Away(Far):
        async def send(self, letter: Letter) -> Outcome:
            outcome = await super().send(letter)
            if letter.chat == "barn":
                # Once both are on their way and the next one is looked for.
                await asyncio.sleep(0.05)
                event.remove(store.engine, "before_cursor_execute", away)
            else:
                event.listen(store.engine, "before_cursor_execute", away)
            return outcome

    async def rest(seconds: float) -> None:
        await asyncio.sleep(0.01)

    line = Away()
    delivery = Delivery(store, {"test": line}, Clock(), worker, rest)
    assert await delivery.deliver() is None
    assert len(line.tried) == 2
    assert [state for _, state, _ in states(store)] == [outbox.SENT, outbox.SENT]


async def test_answers_for_a_network_that_is_not_served_wait(
    store: Store, worker: ThreadPoolExecutor
) -> None:
    queue(store, "barn", "one", network="elsewhere")
    assert await Delivery(store, {"test": Line()}, Clock(), worker).deliver() is None
    assert states(store) == [("one", outbox.QUEUED, 0)]


def test_pauses_double_up_to_a_quarter_of_an_hour() -> None:
    assert [pause_after(tries).total_seconds() for tries in (1, 2, 3, 4)] == [1, 2, 4, 8]
    assert pause_after(11) == LONGEST_PAUSE
    assert pause_after(10_000) == LONGEST_PAUSE


def test_an_answer_comes_out_of_the_outbox_as_it_went_in(store: Store) -> None:
    answer = Answer(
        headline="120 lb over the drive axle.",
        rows=(Row("Drive", "7,120 lb", "of 7,000 lb"), Row("Steer", "5,280 lb")),
        notes=("Door label governs — “always”.",),
        choices=("flatdeck", "camper"),
    )
    with store.work() as session:
        chat = journal.open_chat(session, "test", "barn", HOME, datetime.now(UTC))
        outbox.queue(session, chat.id, answer, START)
        session.flush()
        (parcel,) = waiting(session)
    assert parcel.answer == answer
    assert parcel.due_at == START
