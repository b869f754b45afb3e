"""Logs that tell a message by its trace alone, and figures for whatever watches over Drawbar."""

from __future__ import annotations

import io
import logging
import socket
from collections.abc import Iterator
from datetime import UTC, datetime, timedelta
from pathlib import Path

import aiohttp
import pytest

from bot.answers.answer import Answer
from bot.health import LATE_SECONDS, Watched, watched
from bot.logs import about, log_to, trace_of
from bot.messages import Message, Moved
from bot.metrics import Figures
from bot.settings import WrongSetting
from bot.store import journal, outbox
from bot.store.database import open_store
from domain.log import Preferences

NOON = datetime(2026, 7, 11, 18, tzinfo=UTC)
MESSAGE = Message(
    network="telegram",
    chat="-1001",
    id="77",
    author="11",
    name="Wren",
    sent_at=NOON,
    text="the gate code is 4711",
)


@pytest.fixture
def logged() -> Iterator[io.StringIO]:
    root = logging.getLogger()
    before = root.handlers[:], root.level
    stream = io.StringIO()
    log_to(stream)
    yield stream
    root.handlers, root.level = before[0], before[1]


def test_a_line_tells_when_how_bad_where_what_and_about_which_message(logged: io.StringIO) -> None:
    with about(MESSAGE):
        logging.getLogger("bot.delivery").warning("an answer to %s may be lost", "telegram")
    logging.getLogger("bot.wiring").warning("the database can't be used now")
    first, second = logged.getvalue().splitlines()
    assert 'level=warning logger=bot.delivery event="an answer to telegram' in first
    assert first.startswith("timestamp=20")
    assert f"trace={trace_of(MESSAGE)}" in first
    assert "trace=" not in second
    for told in ("4711", "Wren", "-1001"):
        assert told not in first


def test_a_failure_is_logged_with_where_it_came_from(logged: io.StringIO) -> None:
    try:
        raise KeyError("steer")
    except KeyError:
        logging.getLogger("bot.wiring").exception("message 7 could not be handled and is kept")
    said = logged.getvalue()
    assert len(said.splitlines()) == 1, "a line break could forge a line"
    assert "KeyError" in said


def test_a_trace_is_the_same_at_every_try_and_another_for_each_message() -> None:
    other = Moved(network="telegram", chat="-1001", to="-1002")
    assert trace_of(MESSAGE) == trace_of(MESSAGE)
    assert trace_of(MESSAGE) != trace_of(other)


def free_port() -> int:
    with socket.socket() as probe:
        probe.bind(("127.0.0.1", 0))
        return int(probe.getsockname()[1])


async def asked(port: int, path: str) -> tuple[int, str]:
    address = f"http://127.0.0.1:{port}/{path}"
    async with aiohttp.ClientSession() as web, web.get(address) as answer:
        return answer.status, await answer.text()


async def test_ready_means_that_the_database_answers_and_nothing_is_overdue(tmp_path: Path) -> None:
    store = open_store(tmp_path / "logbook.db")
    clock, counts = [NOON], Figures()

    async def figures() -> bytes:
        return counts.exposition(store, lambda: clock[0])

    port = free_port()
    async with watched(Watched(port=port), figures):
        assert await asked(port, "live") == (200, "alive\n")
        assert await asked(port, "ready") == (200, "ready\n")
        with store.work() as session:
            home = Preferences(time_zone="America/Boise")
            chat = journal.open_chat(session, "telegram", "-1001", home, NOON)
            outbox.queue(session, chat.id, Answer(headline="Odometer 48,211 mi."), NOON)
            session.commit()
        status, told = await asked(port, "metrics")
        assert status == 200
        assert "drawbar_queue_length 1.0" in told
        clock[0] += timedelta(seconds=LATE_SECONDS + 1)
        assert await asked(port, "ready") == (503, "not ready: an answer waits for 61 s\n")
        store.engine.dispose()
        (tmp_path / "logbook.db").write_bytes(b"gone" * 1000)
        status, told = await asked(port, "ready")
        assert (status, told) == (503, "not ready: DatabaseError\n")
        assert await asked(port, "live") == (200, "alive\n")


async def test_a_port_that_is_taken_is_told_in_one_sentence() -> None:
    async def figures() -> bytes:
        return b""

    with socket.socket() as taken:
        taken.bind(("127.0.0.1", 0))
        taken.listen()
        port = taken.getsockname()[1]
        with pytest.raises(WrongSetting, match=f"health.port is {port}; .* can't be listened on"):
            async with watched(Watched(port=port), figures):
                pass
