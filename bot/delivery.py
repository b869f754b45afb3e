"""Sending what waits in the outbox.

This file decides order and patience: a chat's answers leave one by one in the order in which
they were queued, an answer whose fate is unknown is tried again under the same key after
growing pauses, and one that a network refuses is parked. It does not know any network.
"""

from __future__ import annotations

import asyncio
import logging
from collections.abc import Callable, Mapping
from concurrent.futures import Executor
from datetime import datetime, timedelta
from typing import TypeVar, assert_never

from bot.messages import Delivered, Network, Outcome, Refused, Unknown
from bot.store import outbox
from bot.store.database import Store
from bot.store.outbox import Parcel

FIRST_PAUSE = timedelta(seconds=1)
LONGEST_PAUSE = timedelta(minutes=15)
MOST_DOUBLINGS = 20
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
    ) -> None:
        self._store = store
        self._networks = networks
        self._clock = clock
        self._worker = worker

    async def deliver(self) -> datetime | None:
        """Send everything that is due; when the next attempt is due, or None if all is done.

        Answers for a network that is not served here stay where they are.
        """
        while True:
            waiting = await self._run(self._heads)
            now = self._clock()
            due = [parcel for parcel in waiting if parcel.due_at <= now]
            if not due:
                return min((parcel.due_at for parcel in waiting), default=None)
            await asyncio.gather(*(self._send(parcel) for parcel in due))

    def _heads(self) -> tuple[Parcel, ...]:
        with self._store.look() as session:
            return tuple(each for each in outbox.heads(session) if each.network in self._networks)

    async def _send(self, parcel: Parcel) -> None:
        network = self._networks[parcel.network]
        outcome = await network.send(parcel.chat, parcel.answer, f"drawbar-{parcel.key}")
        await self._run(lambda: self._note(parcel, outcome))

    def _note(self, parcel: Parcel, outcome: Outcome) -> None:
        with self._store.work() as session:
            match outcome:
                case Delivered():
                    outbox.mark_sent(session, parcel.key)
                case Refused(reason):
                    logger.warning("%s refused an answer: %s", parcel.network, reason)
                    outbox.park(session, parcel.key, reason)
                case Unknown(reason, retry_after):
                    wait = max(retry_after or timedelta(), pause_after(parcel.attempts + 1))
                    outbox.put_off(session, parcel.key, reason, self._clock() + wait)
                case _:
                    assert_never(outcome)

    async def _run(self, work: Callable[[], Result]) -> Result:
        return await asyncio.get_running_loop().run_in_executor(self._worker, work)
