"""Telegram running between the stand-in server and a host that takes what it hands over."""

from __future__ import annotations

import asyncio
from collections.abc import AsyncIterator, Callable
from contextlib import asynccontextmanager, suppress
from datetime import UTC, datetime

from bot.answers.answer import Answer
from bot.messages import Event
from bot.networks.telegram.network import Telegram
from bot.networks.telegram.settings import Pace, TelegramSettings, Webhook
from tests.networks.telegram.bot_api import TOKEN, BotApi

FAST = Pace(chat_a_second=20_000, group_a_minute=1_200_000, overall_a_second=500)
"""Telegram's limits, on both sides alike: for a chat sped up so far that no test comes too soon."""

AT = datetime(2026, 5, 30, 13, 50, tzinfo=UTC)


class Taken:
    """A host that remembers what it took, and may be held up or fail."""

    def __init__(self) -> None:
        self.events: list[Event] = []
        self.begun: list[Event] = []
        self.before: Callable[[Event], object] = lambda event: None
        self.free = asyncio.Event()
        self.free.set()

    async def take(self, event: Event) -> None:
        self.begun.append(event)
        self.before(event)
        await self.free.wait()
        self.events.append(event)

    async def knows(self, network: str, author: str) -> bool:
        return False

    async def sealed_answer(self, network: str, chat: str) -> Answer:
        raise AssertionError("nothing is sealed on Telegram")


async def soon(seconds: float) -> None:
    """A pause that is over at once, so that a test need not wait."""
    await asyncio.sleep(min(seconds, 0.01))


def telegram(api: BotApi, webhook: Webhook | None = None, pace: Pace = FAST) -> Telegram:
    settings = TelegramSettings(token=TOKEN, api=api.url, webhook=webhook, pace=pace)
    return Telegram(settings, clock=lambda: AT, rest=soon)


@asynccontextmanager
async def served(network: Telegram, host: Taken) -> AsyncIterator[Telegram]:
    """Telegram connected to, for as long as the block runs."""
    task = asyncio.create_task(network.run(host))
    try:
        await until(lambda: task.done() or "not connected" not in network.about())
        yield network
    finally:
        task.cancel()
        with suppress(asyncio.CancelledError):
            await task


async def until(holds: Callable[[], object], seconds: float = 5, every: float = 0.005) -> None:
    """Until something holds, so long at most."""
    async with asyncio.timeout(seconds):
        while not holds():  # noqa: ASYNC110 - nobody tells when
            await asyncio.sleep(every)
