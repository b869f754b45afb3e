"""Taking in what a network hands over while the database may be in trouble.

This file decides patience: a message that can't be written is tried again after growing pauses
and handed back to nobody until it is, its sender is told so once, and talk is not answered. It
does not know what a message does.
"""

from __future__ import annotations

import asyncio
import logging
from collections.abc import Awaitable, Callable, Mapping
from concurrent.futures import Executor
from datetime import timedelta

from sqlalchemy.exc import InterfaceError, InternalError, OperationalError

from bot.answers.trouble import not_written_answer
from bot.conversation import Conversation
from bot.delivery import pause_after
from bot.messages import Event, Message, Network

TROUBLE = (OperationalError, InterfaceError, InternalError)
"""Errors of the database's own: full disk, lock, lost connection; any other is a bug."""

LONGEST_PAUSE = timedelta(seconds=5)
TELL_AFTER = 3
"""Attempts after which the sender is told; most trouble is over before."""

logger = logging.getLogger(__name__)


class Intake:
    """Takes events through a conversation, in `worker`, until they are in the log."""

    def __init__(
        self,
        conversation: Conversation,
        networks: Mapping[str, Network],
        worker: Executor,
        rest: Callable[[float], Awaitable[None]] = asyncio.sleep,
    ) -> None:
        self._conversation = conversation
        self._networks = networks
        self._worker = worker
        self._rest = rest

    async def take(self, event: Event) -> bool:
        """Take an event through; returns once it is in the log, or known to be talk."""
        attempts = 0
        while True:
            try:
                loop = asyncio.get_running_loop()
                return await loop.run_in_executor(self._worker, self._conversation.take, event)
            except TROUBLE as error:
                attempts += 1
                logger.warning("a message can't be written yet: %s", error.orig)
                if attempts == TELL_AFTER:
                    await self._tell(event)
                await self._rest(min(pause_after(attempts), LONGEST_PAUSE).total_seconds())

    async def _tell(self, event: Event) -> None:
        """Tell the sender, past the outbox, which can't be written to either."""
        if not isinstance(event, Message) or not self._conversation.is_for_log(event):
            return
        network = self._networks.get(event.network)
        if network is not None:
            await network.send(event.chat, not_written_answer(), f"trouble-{event.id}")
