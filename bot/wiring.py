"""How the parts are put together, in plain calls from top to bottom.

This file decides which store, reader, clock and networks a running Drawbar has. It does
nothing with a message.
"""

from __future__ import annotations

import asyncio
import logging
from collections.abc import Awaitable, Callable, Iterable, Sequence
from concurrent.futures import ThreadPoolExecutor
from datetime import UTC, datetime
from functools import partial
from types import TracebackType
from typing import TYPE_CHECKING, Self, TypeVar

from bot import schedule
from bot.admission import Door
from bot.answers.answer import Answer
from bot.answers.language import speaking
from bot.answers.trouble import undecryptable_answer
from bot.conversation import Conversation, NotHandled, Reader
from bot.delivery import Delivery
from bot.floods import Floods
from bot.intake import Intake
from bot.logs import about
from bot.memory import give_back_what_is_free, set_aside_what_stays
from bot.messages import Edited, Event, Network, NetworkRefused, Served
from bot.phrasebook import book_for, phrasebook
from bot.pictures.studio import Studio
from bot.settings import Settings
from bot.sight import Eyes, Sight
from bot.store import journal
from bot.store.database import TROUBLE, Store, open_store
from domain.context import Context
from domain.reading import read
from domain.verdicts import Verdict

if TYPE_CHECKING:
    from bot.metrics import Figures

BETWEEN_ROUNDS = 2.0
"""Seconds after which a server looks again for what other workers left and what is due."""

BETWEEN_TRIMS = 10.0
"""Seconds after which a server gives memory back that it does not use."""

logger = logging.getLogger(__name__)
Result = TypeVar("Result")


def now() -> datetime:
    """The time, aware."""
    return datetime.now(UTC)


def reader() -> Reader:
    """The reader, with the phrasebook of each chat's language."""
    phrasebook()  # before the first message, not while it waits

    def read_with_book(text: str, context: Context) -> Verdict:
        return read(text, context, book_for(context))

    return read_with_book


def _figures() -> Figures:
    # Imported here: the terminal starts without it.
    from bot.metrics import Figures

    return Figures()


class Drawbar:
    """A running Drawbar: messages in, answers out. Use as `async with`."""

    def __init__(
        self,
        store: Store,
        settings: Settings,
        networks: Iterable[Network],
        served: Sequence[Served] = (),
        eyes: Eyes | None = None,
    ) -> None:
        self._store = store
        self._settings = settings
        self._served = served
        # One thread handles messages and nothing else touches the store.
        self._worker = ThreadPoolExecutor(max_workers=1, thread_name_prefix="drawbar")
        self._figures = _figures() if served else None
        read = reader() if self._figures is None else self._figures.counted(reader())
        self._conversation = Conversation(store, read, now, settings.preferences)
        self._door = Door(
            store,
            now,
            settings.preferences,
            {each.name for each in served},
            open_to_all=settings.open_to_all,
        )
        all_of_them: dict[str, Network] = {each.name: each for each in (*networks, *served)}
        self._intake = Intake(
            self._conversation,
            all_of_them,
            self._worker,
            door=self._door,
            sight=Sight(all_of_them, eyes) if eyes is not None else None,
            floods=Floods(now) if served else None,
        )
        # A terminal shows no pictures.
        self._studio = Studio() if served else None
        # One for each network, so that the trouble of one holds up no other.
        self._deliveries = {
            name: Delivery(
                store,
                {name: each},
                now,
                self._worker,
                studio=self._studio,
                watch=None if self._figures is None else self._figures.count_send,
            )
            for name, each in all_of_them.items()
        }
        self._delivering: list[asyncio.Task[None]] = []

    async def prefer(self, network: str, chat: str) -> None:
        """Let a chat's logbook have the preferences that were set for this run."""
        await self._run(lambda: self._prefer(network, chat))

    def _prefer(self, network: str, chat: str) -> None:
        with self._store.work() as session:
            row = journal.chat_of(session, network, chat)
            if row is not None and self._settings.given:
                wanted = self._settings
                journal.set_preferences(session, row, wanted.preferences, wanted.given)

    async def take(self, event: Event) -> None:
        """Take an event through until it is in the log, and see that what is due is sent.

        While networks are served, sending goes on beside it, so that a chat which has to wait
        holds up no other. What fails in the program itself stays in the journal for another try.
        """
        with about(event):
            try:
                await self._intake.take(event)
            except NotHandled as error:
                if self._figures is not None:
                    self._figures.count_failure()
                logger.exception("%s", error)
        if self._delivering:
            # What it brought about is for its own network; all else is found at the next round.
            message = event.message if isinstance(event, Edited) else event
            self._deliveries[message.network].wake()
        else:
            await self._deliver_all()

    async def knows(self, network: str, author: str) -> bool:
        """Whether someone has texted in a chat that shares a logbook here."""
        return await self._patiently(lambda: self._door.knows(network, author))

    async def sealed_answer(self, network: str, chat: str) -> Answer:
        """What is said, in the language of its logbook, where the key to a message did not come."""
        known = partial(self._conversation.language_in, network, chat)
        with speaking(await self._patiently(known)):
            return undecryptable_answer()

    async def _patiently(self, look: Callable[[], Result]) -> Result:
        """What a look into the database gives, however long it can't be used."""
        while True:
            try:
                return await self._run(look)
            except TROUBLE as error:
                logger.warning("a network waits, the database can't be used now: %s", error.orig)
                await asyncio.sleep(BETWEEN_ROUNDS)

    async def figures(self) -> bytes:
        """What was counted, and how long answers wait, as Prometheus reads it.

        Nothing where no network is served.
        """
        if self._figures is None:
            return b""
        return await self._run(partial(self._figures.exposition, self._store, now))

    async def owners_code(self) -> str | None:
        """A one-time code for the owner, where nobody was let in yet."""
        return await self._run(self._door.owners_code)

    async def serve(self) -> None:
        """Until cancelled: keep the networks connected, and see to what is left and what is due.

        Raises NetworkRefused where a network's settings can't be right.
        """
        if self._studio is not None:
            await self._studio.open()
        set_aside_what_stays()
        try:
            async with asyncio.TaskGroup() as group:
                for each in self._served:
                    group.create_task(each.run(self))
                group.create_task(self._every_round(self._resume))
                group.create_task(self._every_round(self.summarise))
                group.create_task(self._give_memory_back())
                self._delivering = [
                    group.create_task(each.keep_delivering(BETWEEN_ROUNDS))
                    for each in self._deliveries.values()
                ]
        except* NetworkRefused as refused:
            raise refused.exceptions[0] from None

    async def wind_up(self, seconds: float) -> None:
        """Let the answers that are on their way arrive, for so long, and begin no others."""
        for each in self._deliveries.values():
            each.stop()
        if self._delivering:
            await asyncio.wait(self._delivering, timeout=seconds)

    async def _resume(self) -> None:
        """See to messages that another worker, or an earlier run, took and did not finish."""
        await self._run(lambda: self._conversation.resume(wait=False))

    async def _every_round(self, work: Callable[[], Awaitable[None]]) -> None:
        """Do something now and then; it may take long, and what else is done so does not wait."""
        while True:
            try:
                await work()
            except TROUBLE as error:
                logger.warning("the database can't be used now: %s", error.orig)
            self._wake()
            await asyncio.sleep(BETWEEN_ROUNDS)

    async def _give_memory_back(self) -> None:
        while True:
            await asyncio.sleep(BETWEEN_TRIMS)
            await self._run(give_back_what_is_free)

    def _wake(self) -> None:
        for each in self._deliveries.values():
            each.wake()

    async def _run(self, work: Callable[[], Result]) -> Result:
        return await asyncio.get_running_loop().run_in_executor(self._worker, work)

    async def _deliver_all(self) -> None:
        await asyncio.gather(*(each.try_to_deliver() for each in self._deliveries.values()))

    async def summarise(self) -> None:
        """Queue the weekly summaries that are due; called at the start and now and then."""
        moment = now()
        await self._run(lambda: schedule.plan(self._store, moment))
        while await self._run(lambda: schedule.queue_some(self._store, moment)) is not None:
            self._wake()

    async def __aenter__(self) -> Self:
        """Finish what an earlier run left: messages, weekly summaries, answers not sent.

        Where networks are served that is seen to beside serving: there may be much of it, and
        the database may be away just then.
        """
        if not self._served:
            await self._run(self._conversation.resume)
            await self.summarise()
            await self._deliver_all()
        return self

    async def __aexit__(
        self,
        kind: type[BaseException] | None,
        error: BaseException | None,
        trace: TracebackType | None,
    ) -> None:
        """Let the worker finish, and close the store."""
        if self._studio is not None:
            self._studio.close()
        self._worker.shutdown()
        self._store.close()


def drawbar(
    settings: Settings,
    networks: Iterable[Network],
    served: Sequence[Served] = (),
    eyes: Eyes | None = None,
) -> Drawbar:
    """Open the database and put Drawbar together; raises DatabaseTrouble."""
    return Drawbar(open_store(settings.database), settings, networks, served, eyes)
