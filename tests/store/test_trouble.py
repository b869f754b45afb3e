"""The disk is full, the database is locked or away: the sender is told, and nothing is lost."""

from __future__ import annotations

import asyncio
import resource
import sqlite3
import threading
from collections.abc import Callable, Iterator
from concurrent.futures import ThreadPoolExecutor
from itertools import pairwise
from pathlib import Path

import pytest
from sqlalchemy import event, text
from sqlalchemy.exc import OperationalError

from bot.intake import NEXT_IN_LINE, TELL_AFTER, Intake
from bot.messages import Delivered, Host, Letter, Outcome
from bot.settings import Settings
from bot.store.database import Store, open_store
from bot.store.journal import record
from bot.wiring import Drawbar
from domain.entries import Odometer
from tests.store.logbooks import HOME, START, as_told, conversation, mi, replies, standing, told

AWAY = 8
"""How often a message is tried before the trouble is over."""


class Line:
    """A network that keeps what it was told."""

    name = "test"
    once_by_key = True

    def __init__(self) -> None:
        self.heard: list[str] = []

    async def send(self, letter: Letter) -> Outcome:
        self.heard.append(letter.answer.headline)
        return Delivered()


@pytest.fixture
def worker() -> Iterator[ThreadPoolExecutor]:
    with ThreadPoolExecutor(1) as pool:
        yield pool


def write_ahead(store: Store) -> Path:
    return Path(f"{store.engine.url.database}-wal")


class Rest:
    """Waiting that takes no time, and ends the trouble after so many turns."""

    def __init__(self, turns: int, end: Callable[[], None]) -> None:
        self.slept: list[float] = []
        self._turns = turns
        self._end = end

    async def __call__(self, seconds: float) -> None:
        self.slept.append(seconds)
        if len(self.slept) == self._turns:
            self._end()


async def test_a_message_waits_while_the_database_is_away_and_its_sender_is_told_once(
    store: Store, worker: ThreadPoolExecutor
) -> None:
    def away(*_: object) -> None:
        raise OperationalError("BEGIN", None, Exception("the server closed the connection"))

    event.listen(store.engine, "before_cursor_execute", away)
    rest = Rest(AWAY, lambda: event.remove(store.engine, "before_cursor_execute", away))
    line = Line()
    intake = Intake(conversation(store), {"test": line}, worker, rest)
    assert await intake.take(as_told("odo 48211"))
    assert line.heard == ["I can't write that down just now."]
    assert sum(rest.slept) >= 30, "away for half a minute and more"
    assert standing(store) == [Odometer(odometer=mi(48211))]
    assert replies(store) == ["Odometer 48,211 mi."]


async def test_talk_is_not_answered_while_the_database_is_away(
    store: Store, worker: ThreadPoolExecutor
) -> None:
    def away(*_: object) -> None:
        raise OperationalError("BEGIN", None, Exception("the server closed the connection"))

    event.listen(store.engine, "before_cursor_execute", away)
    rest = Rest(AWAY, lambda: event.remove(store.engine, "before_cursor_execute", away))
    line = Line()
    intake = Intake(conversation(store), {"test": line}, worker, rest)
    assert not await intake.take(as_told("did you feed the dog"))
    assert line.heard == []


@pytest.mark.parametrize("kind", ["postgresql"])
async def test_a_server_that_cuts_every_connection_and_refuses_new_ones_loses_nothing(
    store: Store, address: str, worker: ThreadPoolExecutor
) -> None:
    told(store, as_told("odo 48001", at=0))
    name = store.engine.url.database
    other = open_store(address.replace(str(name), "drawbar_template"))
    admin = other.engine.execution_options(isolation_level="AUTOCOMMIT")

    def run(statement: str) -> None:
        with admin.connect() as connection:
            connection.execute(text(statement))

    run(f"ALTER DATABASE {name} ALLOW_CONNECTIONS false")
    run(f"SELECT pg_terminate_backend(pid) FROM pg_stat_activity WHERE datname = '{name}'")
    rest = Rest(TELL_AFTER, lambda: run(f"ALTER DATABASE {name} ALLOW_CONNECTIONS true"))
    line = Line()
    intake = Intake(conversation(store), {"test": line}, worker, rest)
    assert await intake.take(as_told("odo 48211", at=1))
    other.close()
    assert line.heard == ["I can't write that down just now."]
    assert standing(store) == [Odometer(odometer=mi(each)) for each in (48001, 48211)]


@pytest.mark.parametrize("kind", ["sqlite"])
async def test_a_full_disk_loses_nothing(store: Store, worker: ThreadPoolExecutor) -> None:
    told(store, as_told("odo 48001", at=0))
    # The disk of the test's own process is full: the write-ahead log can't grow.
    full = write_ahead(store).stat().st_size
    soft, hard = resource.getrlimit(resource.RLIMIT_FSIZE)
    resource.setrlimit(resource.RLIMIT_FSIZE, (full, hard))

    def freed() -> None:
        resource.setrlimit(resource.RLIMIT_FSIZE, (soft, hard))

    rest = Rest(TELL_AFTER, freed)
    line = Line()
    intake = Intake(conversation(store), {"test": line}, worker, rest)
    try:
        await intake.take(as_told("odo 48211", at=1))
    finally:
        freed()
    assert line.heard == ["I can't write that down just now."]
    assert standing(store) == [Odometer(odometer=mi(each)) for each in (48001, 48211)]
    with store.look() as session:
        assert session.scalar(text("PRAGMA integrity_check")) == "ok"


@pytest.mark.parametrize("kind", ["sqlite"])
async def test_a_database_that_another_program_has_locked_is_waited_for(
    store: Store, worker: ThreadPoolExecutor
) -> None:
    told(store, as_told("odo 48001", at=0))

    def impatient(connection: sqlite3.Connection, *_: object) -> None:
        connection.execute("PRAGMA busy_timeout = 1").close()

    event.listen(store.engine, "checkout", impatient)
    path = str(store.engine.url.database)
    with sqlite3.connect(path, isolation_level=None) as other:
        other.execute("BEGIN IMMEDIATE")
        rest = Rest(TELL_AFTER, lambda: other.execute("COMMIT").close())
        line = Line()
        intake = Intake(conversation(store), {"test": line}, worker, rest)
        assert await intake.take(as_told("odo 48211", at=1))
    assert len(line.heard) == 1
    assert standing(store) == [Odometer(odometer=mi(each)) for each in (48001, 48211)]


@pytest.mark.parametrize("kind", ["sqlite"])
def test_a_short_lock_is_waited_out_in_silence(store: Store) -> None:
    told(store, as_told("odo 48001", at=0))
    path = str(store.engine.url.database)
    other = sqlite3.connect(path, isolation_level=None, check_same_thread=False)
    other.execute("BEGIN IMMEDIATE")
    threading.Timer(0.2, lambda: other.execute("COMMIT").close()).start()
    assert told(store, as_told("odo 48211", at=1)) == [True]
    other.close()


async def test_sending_does_not_wait_for_all_that_is_texted_at_once(
    store: Store, worker: ThreadPoolExecutor
) -> None:
    texted = [as_told(f"odo {48211 + number}", chat=f"chat {number}") for number in range(40)]
    intake = Intake(conversation(store), {"test": Line()}, worker)
    taking = [asyncio.create_task(intake.take(each)) for each in texted]
    done_before = []
    for _ in range(5):
        await asyncio.sleep(0)
        # What delivery asks of the worker.
        await asyncio.get_running_loop().run_in_executor(worker, lambda: None)
        done_before.append(sum(each.done() for each in taking))
    assert all(await asyncio.gather(*taking))
    steps = [later - earlier for earlier, later in pairwise([0, *done_before])]
    assert max(steps) <= 2 * NEXT_IN_LINE, "between any two looks a few messages, not all"


class Busy(Line):
    """A network on which somebody texts as soon as it is connected."""

    def __init__(self) -> None:
        super().__init__()
        self.taken = asyncio.Event()

    async def run(self, host: Host) -> None:
        await host.take(as_told("odo 48211"))
        self.taken.set()
        await asyncio.Event().wait()

    async def fetch(self, reference: str, most: int) -> bytes:
        raise NotImplementedError

    def about(self) -> str:
        return "a busy network"


async def test_a_server_that_is_started_while_the_database_is_away_waits_for_it(
    store: Store,
) -> None:
    with store.writing() as unit:
        record(unit, as_told("odo 48011", -5), HOME, START)
    asked = asyncio.Event()
    loop = asyncio.get_running_loop()

    def away(*_: object) -> None:
        loop.call_soon_threadsafe(asked.set)
        raise OperationalError("SELECT", None, Exception("the server is away"))

    event.listen(store.engine, "before_cursor_execute", away)
    network = Busy()
    wanted = Settings(database="", preferences=HOME, open_to_all=True)
    async with Drawbar(store, wanted, (), [network]) as running:
        serving = asyncio.create_task(running.serve())
        async with asyncio.timeout(20):
            await asked.wait()
            event.remove(store.engine, "before_cursor_execute", away)
            await network.taken.wait()
            while len(network.heard) < 2:  # noqa: ASYNC110 - nobody tells when
                await asyncio.sleep(0.01)
        assert not serving.done()
        assert len(standing(store)) == 2, "what an earlier run left is seen to as well"
        serving.cancel()
        await asyncio.wait({serving})
