"""How many messages a second some workers take in on one PostgreSQL, and one on SQLite.

Every worker is the whole of Drawbar as it is served, with the soak's chats and networks but
without faults and pauses: each chat tells the next once the last was taken. What is counted is
taken and in the log; the answers leave beside. Workers, server and the people share the machine, so
that more workers than it has cores gain little there.
"""

from __future__ import annotations

import asyncio
from collections.abc import Iterator
from pathlib import Path

import pytest

from tests.bench.figures import Figures
from tests.soak.soak import Group
from tests.soak.traffic import Chat
from tests.store import postgres

pytestmark = pytest.mark.bench

CHATS = 256
"""Enough that no person texts so fast as to be taken for a flood (bot/floods.py)."""
WARM_UP, SECONDS = 15.0, 15.0


@pytest.fixture(scope="module")
def server() -> Iterator[postgres.Server]:
    with postgres.running() as server:
        yield server


async def taken_a_second(group: Group) -> float:
    """Events a second, once the workers are warm."""

    async def live(chat: Chat) -> None:
        while True:
            await group.far.give(chat.network, chat.next())

    server = await asyncio.start_unix_server(group.far.connected, group.socket)
    try:
        for worker in group.workers:
            await worker.start()
        await group.far.all_connected(len(group.workers))
        lives = [asyncio.create_task(live(chat)) for chat in group.ledger.chats]
        await asyncio.sleep(WARM_UP)
        before = group.ledger.events
        await asyncio.sleep(SECONDS)
        taken = group.ledger.events - before
        for each in lives:
            each.cancel()
        await asyncio.wait(lives)
    finally:
        for worker in group.workers:
            await worker.kill()
        server.close()
        group.store.close()
    assert group.errors() == []
    return taken / SECONDS


@pytest.mark.parametrize("workers", [1, 2, 4])
async def test_messages_a_second_on_postgresql(
    workers: int, server: postgres.Server, tmp_path: Path, figures: Figures
) -> None:
    name = f"workers_{workers}"
    server.create(name, postgres.TEMPLATE)
    group = Group("postgresql", server.address(name), tmp_path, workers, CHATS)
    rate = await taken_a_second(group)
    print(f"{workers} workers on PostgreSQL: {rate:.0f} messages/s")
    figures.note(f"messages taken by {workers} served on PostgreSQL", rate, "/s")
    assert rate > 0


async def test_messages_a_second_on_sqlite(tmp_path: Path, figures: Figures) -> None:
    group = Group("sqlite", f"sqlite:///{tmp_path / 'workers.db'}", tmp_path, 1, CHATS)
    rate = await taken_a_second(group)
    print(f"1 worker on SQLite: {rate:.0f} messages/s")
    figures.note("messages taken by 1 served on SQLite", rate, "/s")
    assert rate > 0
