"""Taking in what a network hands over, before and around the conversation.

This file decides patience and bounds: who is not let in gets no further, nor does a flood; a
photo is read first; a message that can't be written is tried again after growing pauses and
handed back to nobody until it is, its sender is told so once, and talk is not answered. It does
not know what a message does.
"""

from __future__ import annotations

import asyncio
import logging
from collections.abc import Awaitable, Callable, Mapping
from concurrent.futures import Executor
from contextvars import copy_context
from dataclasses import replace
from datetime import timedelta
from functools import partial
from typing import TypeVar

from bot.admission import Door
from bot.answers import trouble
from bot.answers.answer import Answer
from bot.answers.language import Language, speaking
from bot.cleaning import storable
from bot.conversation import Conversation
from bot.delivery import pause_after
from bot.floods import Floods
from bot.messages import Edited, Event, Letter, Message, Network
from bot.sight import NO_READER, NotRead, Sight
from bot.store.database import TROUBLE

LONGEST_PAUSE = timedelta(seconds=5)
TELL_AFTER = 3
"""Attempts after which the sender is told; most trouble is over before."""

NEXT_IN_LINE = 2
"""Messages that the worker is given at a time: one to handle and the next. All others wait where
they are, so that sending, which needs the worker too, gets its turn between any two."""

MOST_TEXT = 16_384
"""Characters of one message that are taken in; a season's log is shorter."""

logger = logging.getLogger(__name__)
Result = TypeVar("Result")


class Intake:
    """Takes events through a conversation, in `worker`, until they are in the log."""

    def __init__(
        self,
        conversation: Conversation,
        networks: Mapping[str, Network],
        worker: Executor,
        rest: Callable[[float], Awaitable[None]] = asyncio.sleep,
        *,
        door: Door | None = None,
        sight: Sight | None = None,
        floods: Floods | None = None,
    ) -> None:
        self._conversation = conversation
        self._networks = networks
        self._worker = worker
        self._rest = rest
        self._door = door
        self._sight = sight
        self._floods = floods
        self._turns = asyncio.Semaphore(NEXT_IN_LINE)

    async def take(self, event: Event) -> bool:
        """Take an event through; returns once it is in the log, or known not to be for it."""
        event = storable(event)
        if isinstance(event, Message) and self._floods is not None:
            # Not worth a look at the logbook, which may be what the flood is after.
            with speaking(self._conversation.language):
                flood = self._floods.meet(event)
            if flood is not None:
                return await self._dismiss(event, flood.answer)
        if self._door is not None:
            door = self._door
            dismissed = await self._patiently(event, lambda: door.meet(event))
            if dismissed is not None:
                return await self._dismiss(event, dismissed.answer)
        if isinstance(event, Message | Edited) and len(_message(event).text) > MOST_TEXT:
            return await self._aside(event, trouble.too_long_answer)
        unseen: NotRead | None = None
        if isinstance(event, Message | Edited) and _message(event).photo is not None:
            try:
                event = await self._look_at(event)
            except NotRead as error:
                if isinstance(event, Edited) and error.worth_telling:
                    # What was read off the photo before stands; it can't be read again.
                    return await self._aside(event, partial(trouble.not_seen_answer, str(error)))
                event, unseen = _without_photo(event), error
        taken = await self._patiently(event, lambda: self._conversation.take(event))
        if taken or not isinstance(event, Message) or not event.private:
            return taken
        if unseen is not None and unseen.worth_telling:
            return await self._aside(event, partial(trouble.not_seen_answer, str(unseen)))
        if _wants_a_word(event):
            known = await self._patiently(event, lambda: self._conversation.was_taken(event))
            if not known:
                await self._aside(event, trouble.not_read_answer)
        return taken

    async def _look_at(self, event: Message | Edited) -> Message | Edited:
        """The message with what its caption and its photo say together; raises NotRead."""
        message = _message(event)
        if self._sight is None or message.photo is None:
            raise NotRead(NO_READER, worth_telling=True)
        language = await self._language(event)
        text, sure = await self._sight.read(
            message.network, message.photo, message.text, language.code
        )
        seen = replace(message, text=text, photo=replace(message.photo, sure=sure))
        return replace(event, message=seen) if isinstance(event, Edited) else seen

    async def _patiently(self, event: Event, work: Callable[[], Result]) -> Result:
        attempts = 0
        while True:
            try:
                # The context goes along, so that what is logged there tells its trace.
                inside = partial(copy_context().run, work)
                async with self._turns:
                    return await asyncio.get_running_loop().run_in_executor(self._worker, inside)
            except TROUBLE as error:
                attempts += 1
                logger.warning("a message can't be written yet: %s", error.orig)
                if attempts == TELL_AFTER:
                    await self._tell_of_trouble(event)
                await self._rest(min(pause_after(attempts), LONGEST_PAUSE).total_seconds())

    async def _tell_of_trouble(self, event: Event) -> None:
        if isinstance(event, Message) and self._conversation.is_for_log(event):
            with speaking(self._conversation.language):
                answer = trouble.not_written_answer()
            await self._dismiss(event, answer)

    async def _aside(self, event: Message | Edited, worded: Callable[[], Answer]) -> bool:
        """Dismiss an event in the language of its chat's logbook."""
        with speaking(await self._language(event)):
            answer = worded()
        return await self._dismiss(event, answer)

    async def _language(self, event: Message | Edited) -> Language:
        """The language of the chat's logbook."""
        message = _message(event)
        known = partial(self._conversation.language_in, message.network, message.chat)
        return await self._patiently(event, known)

    async def _dismiss(self, event: Event, answer: Answer | None) -> bool:
        """Say something past the outbox, of what is not in the log; false."""
        if answer is not None and isinstance(event, Message | Edited):
            message = _message(event)
            network = self._networks.get(message.network)
            if network is not None:
                await network.send(
                    Letter(
                        chat=message.chat,
                        answer=answer,
                        key=f"drawbar-aside-{message.id}",
                        reply_to=message.id,
                        thread=message.thread,
                    )
                )
        return False


def _message(event: Message | Edited) -> Message:
    return event.message if isinstance(event, Edited) else event


def _without_photo(event: Message | Edited) -> Message | Edited:
    """A caption alone, where its photo says nothing for the log."""
    message = replace(_message(event), photo=None)
    return replace(event, message=message) if isinstance(event, Edited) else message


def _wants_a_word(message: Message) -> bool:
    """Whether somebody alone with Drawbar means it, by a figure or a question mark."""
    told = any(each.isdigit() or each == "?" for each in message.text)
    return message.photo is None and told
