"""Updates on their way in, whether they were asked for or called in.

This file decides when an update counts as received: once Drawbar has taken it. Chats do not
wait for each other, and what is of one chat stays in order. An update that can't be read, or
that can't be taken again and again, is noted (never what it says) and passed over.
"""

from __future__ import annotations

import asyncio
import logging
import traceback
from collections import Counter
from collections.abc import Awaitable, Callable, Mapping
from datetime import datetime
from functools import partial
from typing import Any
from weakref import WeakValueDictionary

from telegram import CallbackQuery, Update
from telegram.error import TelegramError

from bot.messages import Edited, Event, Host
from bot.networks.telegram.client import Client, Rest, patiently, pause_after
from bot.networks.telegram.incoming import event_of
from bot.networks.telegram.outcomes import trouble

MOST_TRIES = 3
"""How often Drawbar may fail on an update before it is passed over."""

logger = logging.getLogger(__name__)


class Receiver:
    """Hands updates to Drawbar."""

    def __init__(self, client: Client, host: Host, clock: Callable[[], datetime]) -> None:
        self._client = client
        self._host = host
        self._clock = clock
        self._lanes: WeakValueDictionary[str, asyncio.Lock] = WeakValueDictionary()
        self._tries: Counter[int] = Counter()

    async def receive(self, raw: Mapping[str, Any]) -> bool:
        """Take an update through; whether it counts as received.

        Those of a chat are taken in the order of the calls.
        """
        number = raw["update_id"]
        try:
            update = Update.de_json(dict(raw), self._client)
            event = event_of(update, self._client.bot, self._clock())
        except Exception as error:  # noqa: BLE001 - whatever it is, others must not wait for it
            _note(number, "can't be read", error)
            return True
        work: list[Awaitable[None]] = [] if event is None else [self._take(event)]
        if update.callback_query is not None:
            work.append(self._answer(update.callback_query))
        try:
            await asyncio.gather(*work)
        except Exception as error:  # noqa: BLE001 - a bug, which others must not wait for either
            _note(number, "could not be taken", error)
            self._tries[number] += 1
            if self._tries[number] < MOST_TRIES:
                return False
        del self._tries[number]
        return True

    async def _take(self, event: Event) -> None:
        chat = event.message.chat if isinstance(event, Edited) else event.chat
        async with self._lanes.setdefault(chat, asyncio.Lock()):
            await self._host.take(event)

    async def _answer(self, tap: CallbackQuery) -> None:
        """Tell the tapping person's app that it was received; no matter where it was too late."""
        try:
            await self._client.answer_callback_query(tap.id)
        except TelegramError as error:
            logger.info("a tap stays without its sign: %s", trouble(error))


async def poll(client: Client, receiver: Receiver, rest: Rest) -> None:
    """Ask for updates for ever; each question confirms what was received, and no more."""
    offset: int | None = None
    failures = 0
    while True:
        batch = await patiently(partial(client.updates, offset), rest)
        received = await asyncio.gather(*(receiver.receive(each) for each in batch))
        left = [each["update_id"] for each, taken in zip(batch, received, strict=True) if not taken]
        if left:
            offset = min(left)
            await rest(pause_after(failures))
            failures += 1
        elif batch:
            offset = max(each["update_id"] for each in batch) + 1
            failures = 0


def _note(number: int, what: str, error: Exception) -> None:
    """Log where something went wrong, but not the error's own words, which may hold a text."""
    where = "".join(traceback.format_tb(error.__traceback__))
    logger.error("Telegram update %s %s (%s)\n%s", number, what, type(error).__name__, where)
