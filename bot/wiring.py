"""How the parts are put together, in plain calls from top to bottom.

This file decides which store, reader, clock and networks a running Drawbar has. It does
nothing with a message.
"""

from __future__ import annotations

import asyncio
import logging
from collections.abc import Iterable
from concurrent.futures import ThreadPoolExecutor
from datetime import UTC, datetime
from types import TracebackType
from typing import Self

from bot import schedule
from bot.conversation import Conversation, Reader
from bot.delivery import Delivery
from bot.intake import TROUBLE, Intake
from bot.messages import Event, Network
from bot.phrasebook import phrasebook
from bot.settings import Settings
from bot.store import journal
from bot.store.database import Store, open_store
from domain.context import Context
from domain.reading import read
from domain.verdicts import Verdict

BETWEEN_ROUNDS = 2.0
"""Seconds after which a server looks again for what other workers left and what is due."""

logger = logging.getLogger(__name__)


def now() -> datetime:
    """The time, aware."""
    return datetime.now(UTC)


def reader() -> Reader:
    """The reader with the shared phrasebook."""
    book = phrasebook()

    def read_with_book(text: str, context: Context) -> Verdict:
        return read(text, context, book)

    return read_with_book


class Drawbar:
    """A running Drawbar: messages in, answers out. Use as `async with`."""

    def __init__(self, store: Store, settings: Settings, networks: Iterable[Network]) -> None:
        self._store = store
        self._settings = settings
        # One thread handles messages and nothing else touches the store.
        self._worker = ThreadPoolExecutor(max_workers=1, thread_name_prefix="drawbar")
        self._conversation = Conversation(store, reader(), now, settings.preferences)
        served = {each.name: each for each in networks}
        self._intake = Intake(self._conversation, served, self._worker)
        self._delivery = Delivery(store, served, now, self._worker)

    async def prefer(self, network: str, chat: str) -> None:
        """Let a chat's logbook have the preferences that were set for this run."""
        await asyncio.get_running_loop().run_in_executor(self._worker, self._prefer, network, chat)

    def _prefer(self, network: str, chat: str) -> None:
        with self._store.work() as session:
            row = journal.chat_of(session, network, chat)
            if row is not None and self._settings.given:
                wanted = self._settings
                journal.set_preferences(session, row, wanted.preferences, wanted.given)

    async def take(self, event: Event) -> None:
        """Take an event through until it is in the log, and send what is due."""
        await self._intake.take(event)
        await self._deliver()

    async def serve(self) -> None:
        """Until cancelled: see to what other workers left, to weekly summaries and to answers."""
        loop = asyncio.get_running_loop()
        while True:
            try:
                await loop.run_in_executor(self._worker, self._conversation.resume, False)
                await self.summarise()
            except TROUBLE as error:
                logger.warning("the database can't be used now: %s", error.orig)
            await self._deliver()
            await asyncio.sleep(BETWEEN_ROUNDS)

    async def _deliver(self) -> None:
        try:
            await self._delivery.deliver()
        except TROUBLE as error:
            logger.warning("answers wait, the database can't be used now: %s", error.orig)

    async def summarise(self) -> None:
        """Queue the weekly summaries that are due; called at the start and now and then."""
        loop = asyncio.get_running_loop()
        await loop.run_in_executor(self._worker, schedule.queue_due, self._store, now())

    async def __aenter__(self) -> Self:
        """Finish what an earlier run left: messages, weekly summaries, answers not sent."""
        loop = asyncio.get_running_loop()
        await loop.run_in_executor(self._worker, self._conversation.resume)
        await self.summarise()
        await self._delivery.deliver()
        return self

    async def __aexit__(
        self,
        kind: type[BaseException] | None,
        error: BaseException | None,
        trace: TracebackType | None,
    ) -> None:
        """Let the worker finish, and close the store."""
        self._worker.shutdown()
        self._store.close()


def drawbar(settings: Settings, networks: Iterable[Network]) -> Drawbar:
    """Open the database and put Drawbar together; raises DatabaseTrouble."""
    return Drawbar(open_store(settings.database), settings, networks)
