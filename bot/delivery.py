"""Sending what waits in the outbox.

This file decides order and patience: a chat's answers leave one by one in the order in which
they were queued, a few chats' side by side and first of all those in which somebody waits for a
reply; one that did not arrive is tried again after growing pauses, and one that a
network refuses is parked and told to another keeper of the logbook. Where an answer may have
arrived all the same it is tried again under its key on a network that shows it once; elsewhere
once more where it is urgent, and not at all where it is routine: shown twice is worse than a
missing tick. It does not know any network.

The one window in which an answer can be shown twice: the network has it, and the process dies
before that is noted. Under a key that the network knows again nothing shows; elsewhere the
answer appears a second time, one at the most in each chat that was being sent to. Nothing stands
between the two but the note itself.
"""

from __future__ import annotations

import asyncio
import logging
from collections.abc import Awaitable, Callable, Mapping
from concurrent.futures import Executor
from contextlib import suppress
from dataclasses import replace
from datetime import datetime, timedelta
from functools import partial
from typing import TypeVar, assert_never

from sqlalchemy.exc import DBAPIError
from sqlalchemy.orm import Session

from bot.answers.answer import Answer
from bot.answers.language import language_of, speaking
from bot.answers.trouble import undelivered_answer, unprinted_answer
from bot.messages import (
    Delivered,
    Drawn,
    Letter,
    MovedTo,
    Network,
    NotSent,
    Outcome,
    Printed,
    Refused,
    Unknown,
)
from bot.pictures.studio import Studio
from bot.store import journal, outbox, sharing
from bot.store.database import Store
from bot.store.outbox import Parcel, Turn
from domain.log import Preferences

FIRST_PAUSE = timedelta(seconds=1)
LONGEST_PAUSE = timedelta(minutes=15)
MOST_DOUBLINGS = 20
SIDE_BY_SIDE = 8
"""Chats that are sent to at once. Where a network takes a quarter of a second for each that makes
32 a second, as many as Telegram lets a bot send (Bots FAQ, 'My bot is hitting limits')."""

logger = logging.getLogger(__name__)
Result = TypeVar("Result")


def pause_after(attempts: int) -> timedelta:
    """How long to wait after so many attempts that failed: 1 s, 2 s, 4 s, up to 15 min."""
    doublings = min(max(attempts - 1, 0), MOST_DOUBLINGS)
    return min(FIRST_PAUSE * float(2**doublings), LONGEST_PAUSE)


class Delivery:
    """Takes answers from the outbox to their networks. The store is used in `worker` alone."""

    def __init__(
        self,
        store: Store,
        networks: Mapping[str, Network],
        clock: Callable[[], datetime],
        worker: Executor,
        rest: Callable[[float], Awaitable[None]] = asyncio.sleep,
        studio: Studio | None = None,
        watch: Callable[[str, Outcome], None] | None = None,
    ) -> None:
        self._watch = watch
        self._store = store
        self._networks = networks
        self._clock = clock
        self._worker = worker
        self._rest = rest
        self._studio = studio
        self._claims = store.claims
        self._stopped = False
        self._woken = asyncio.Event()

    async def keep_delivering(self, longest_rest: float) -> None:
        """Deliver what is due, when it is due or `wake` is called, until stopped."""
        while True:
            due = await self.try_to_deliver()
            if self._stopped:
                return
            rest = longest_rest if due is None else (due - self._clock()).total_seconds()
            with suppress(TimeoutError):
                async with asyncio.timeout(min(max(rest, 0), longest_rest)):
                    await self._woken.wait()

    def wake(self) -> None:
        """Something may be due."""
        self._woken.set()

    def stop(self) -> None:
        """Begin no more sends; those that are under way go on to their end."""
        self._stopped = True
        self._woken.set()

    async def try_to_deliver(self) -> datetime | None:
        """`deliver`, where a database that can't be used leaves the answers for later."""
        try:
            return await self.deliver()
        except DBAPIError as error:
            logger.warning("answers wait, the database can't be used now: %s", error.orig)
            return None

    async def deliver(self) -> datetime | None:
        """Send everything that is due; when the next attempt is due, or None if all is done.

        Answers for a network that is not served here stay where they are, and those of a chat
        that is being served by another worker, or by another call, are left to it.
        """
        under_way: set[asyncio.Task[None]] = set()
        try:
            while True:
                self._woken.clear()
                room = 0 if self._stopped else SIDE_BY_SIDE - len(under_way)
                claimed, later = await self._run(partial(self._claim, room))
                under_way |= {asyncio.create_task(self._send(each)) for each in claimed}
                if not under_way:
                    return later
                under_way = await self._until_one_is_through(under_way, later)
        except Exception:
            # What is on its way arrives all the same: its fate is waited for and noted.
            await asyncio.gather(*under_way, return_exceptions=True)
            raise
        finally:
            for each in under_way:
                each.cancel()
            await asyncio.gather(*under_way, return_exceptions=True)

    async def _until_one_is_through(
        self, under_way: set[asyncio.Task[None]], later: datetime | None
    ) -> set[asyncio.Task[None]]:
        """The sends that are still under way once one is through, or something may be due."""
        woken = asyncio.create_task(self._woken.wait())
        rest = None if later is None else max((later - self._clock()).total_seconds(), 0)
        try:
            done, _ = await asyncio.wait(
                {*under_way, woken}, timeout=rest, return_when=asyncio.FIRST_COMPLETED
            )
        finally:
            woken.cancel()
        for each in under_way & done:
            each.result()
        return under_way - done

    def _claim(self, room: int) -> tuple[list[Parcel], datetime | None]:
        """Answers that are due and now ours to send, as many as there is room for.

        And when the next of the others is due, where there is more room than answers.
        """
        if not room:
            return [], None
        now = self._clock()
        with self._store.look() as session:
            turns = outbox.turns(session, self._networks, now)
            later = None if len(turns) > room else outbox.next_due(session, self._networks, now)
        ours: list[Turn] = []
        parcels: list[Parcel] = []
        try:
            for turn in turns:
                if len(ours) < room and self._claims.take(turn.chat_key):
                    ours.append(turn)
            if ours:
                # Another worker may have sent it between the look and the claim.
                with self._store.look() as session:
                    found = (outbox.parcel(session, each.key) for each in ours)
                    parcels = [each for each in found if each is not None]
        finally:
            claimed = {each.key for each in parcels}
            for each in ours:
                if each.key not in claimed:
                    self._claims.leave(each.chat_key)
        return parcels, now if len(parcels) < len(ours) else later

    async def _send(self, parcel: Parcel) -> None:
        network = self._networks[parcel.network]
        letter = Letter(
            chat=parcel.chat,
            answer=parcel.answer,
            key=f"drawbar-{parcel.key}",
            reply_to=parcel.reply_to,
            thread=parcel.thread,
            picture=await self._drawn(parcel.answer),
            document=await self._printed(parcel.answer),
        )
        # A network may have a word to add, such as how to choose.
        with speaking(language_of(Preferences(language=parcel.language))):
            if parcel.answer.document is not None and letter.document is None:
                letter = replace(letter, answer=unprinted_answer(parcel.answer))
            outcome = await network.send(letter)
        if self._watch is not None:
            self._watch(parcel.network, outcome)
        tries = 0
        while True:
            try:
                return await self._run(lambda: self._note(parcel, outcome))
            except DBAPIError:
                # Sent, and not noted yet: it must not be sent again, so this goes on until it is.
                tries += 1
                logger.warning("the fate of answer %s can't be noted yet", parcel.key)
                await self._rest(pause_after(tries).total_seconds())

    async def _drawn(self, answer: Answer) -> Drawn | None:
        """The answer's picture; None where it has none, or where none are drawn."""
        if answer.picture is None or self._studio is None:
            return None
        return await self._studio.drawn(answer.picture)

    async def _printed(self, answer: Answer) -> Printed | None:
        """The answer's document; None where it has none, or where none are printed."""
        if answer.document is None or self._studio is None:
            return None
        return await self._studio.printed(answer.document)

    def _note(self, parcel: Parcel, outcome: Outcome) -> None:
        with self._store.work() as session:
            match outcome:
                case Delivered(reference):
                    outbox.mark_sent(session, parcel.key, reference)
                case Refused(reason):
                    self._park(session, parcel, reason)
                case NotSent(reason, retry_after):
                    wait = max(retry_after or timedelta(), pause_after(parcel.attempts + 1))
                    outbox.put_off(session, parcel.key, reason, self._clock() + wait)
                case Unknown(reason) if self._may_repeat(parcel):
                    due = self._clock() + pause_after(parcel.attempts + 1)
                    outbox.put_off(session, parcel.key, reason, due, doubtful=True)
                case Unknown(reason):
                    logger.warning("an answer to %s may not have arrived", parcel.network)
                    outbox.mark_uncertain(session, parcel.key, reason)
                case MovedTo(chat):
                    sharing.follow(session, parcel.network, parcel.chat, chat)
                    outbox.put_off(session, parcel.key, "the chat has moved", self._clock())
                case _:
                    assert_never(outcome)
        self._claims.leave(parcel.chat_key)

    def _may_repeat(self, parcel: Parcel) -> bool:
        """Whether an answer that may have arrived is sent once more."""
        once_by_key = self._networks[parcel.network].once_by_key
        return once_by_key or (parcel.answer.urgent and parcel.doubtful == 0)

    def _park(self, session: Session, parcel: Parcel, reason: str) -> None:
        """Give an answer up, and tell another keeper of the logbook in the same transaction."""
        logger.warning("%s refused an answer: %s", parcel.network, reason)
        keeper = outbox.keeper_to_tell(session, parcel.key)
        if keeper is not None:
            with speaking(language_of(journal.preferences_in(session, keeper))):
                notice = undelivered_answer(parcel.network, parcel.chat, reason)
            outbox.queue(session, keeper, notice, self._clock(), about=parcel.key)
        outbox.park(session, parcel.key, reason)

    async def _run(self, work: Callable[[], Result]) -> Result:
        return await asyncio.get_running_loop().run_in_executor(self._worker, work)
