"""How fast a backlog of summaries leaves, and how long a reply waits that comes meanwhile.

The network takes a quarter of a second for each answer, as one far away does. Nothing is drawn.
"""

from __future__ import annotations

import asyncio
import time
from concurrent.futures import ThreadPoolExecutor
from pathlib import Path

import pytest

from bot.answers.answer import Answer
from bot.delivery import SIDE_BY_SIDE, Delivery
from bot.messages import Delivered, Letter, Outcome
from bot.store import journal, outbox
from bot.store.database import open_store
from bot.wiring import now
from tests.bench.figures import Figures
from tests.store.logbooks import HOME, as_told, told

pytestmark = pytest.mark.bench

LATENCY = 0.25
BACKLOG, MEASURED = 2_000, 300
TELEGRAM = 30
"""Messages a second that Telegram lets a bot send (Bots FAQ, 'My bot is hitting limits')."""


class Far:
    """A network far away."""

    name = "test"
    once_by_key = False

    def __init__(self) -> None:
        self.shown: dict[str, float] = {}

    async def send(self, letter: Letter) -> Outcome:
        await asyncio.sleep(LATENCY)
        self.shown[letter.chat] = time.perf_counter()
        return Delivered()


async def test_a_backlog_leaves_as_fast_as_telegram_takes_it_and_a_reply_passes_it(
    tmp_path: Path, figures: Figures
) -> None:
    store = open_store(tmp_path / "logbook.db")
    with store.work() as session:
        for number in range(BACKLOG):
            chat = journal.open_chat(session, "test", f"chat {number}", HOME, now())
            outbox.queue(session, chat.id, Answer(headline="A week."), now())
        session.commit()
    far = Far()
    with ThreadPoolExecutor(1) as worker:
        delivery = Delivery(store, {"test": far}, now, worker)
        began = time.perf_counter()
        delivering = asyncio.create_task(delivery.keep_delivering(2))
        while len(far.shown) < MEASURED:  # noqa: ASYNC110 - nobody tells when
            await asyncio.sleep(0.01)
        rate = len(far.shown) / (time.perf_counter() - began)
        asked = time.perf_counter()
        await asyncio.get_running_loop().run_in_executor(
            worker, lambda: told(store, as_told("odo 48211", chat="barn"))
        )
        delivery.wake()
        while "barn" not in far.shown:  # noqa: ASYNC110 - nobody tells when
            await asyncio.sleep(0.01)
        waited = far.shown["barn"] - asked
        delivery.stop()
        await delivering
    left = BACKLOG - len(far.shown)
    store.close()
    most = SIDE_BY_SIDE / LATENCY
    print(f"{rate:.1f} answers/s of at most {most:.0f}; a reply passed {left:,} in {waited:.2f} s")
    figures.note(
        f"backlog: answers sent at {LATENCY} s each", rate, "/s", f"{most:.0f}; Telegram {TELEGRAM}"
    )
    figures.note(f"backlog: a reply that passes {BACKLOG - MEASURED:,} summaries", waited, "s")
    assert "barn" in far.shown
    assert left > BACKLOG / 2, "it did not wait for them"
