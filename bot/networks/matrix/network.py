"""Matrix as a network like any other.

This file decides what an outcome of sending is, and how long is waited when the homeserver is
away. Everything else is done by the parts beside it.
"""

from __future__ import annotations

import asyncio
import logging
import time
from collections.abc import Awaitable, Callable
from dataclasses import dataclass
from datetime import timedelta
from typing import Any

import aiohttp
from nio import AsyncClient, MatrixRoom
from nio.exceptions import EncryptionError, LocalProtocolError

from bot.answers.trouble import unprinted_answer
from bot.messages import (
    Delivered,
    Host,
    Letter,
    MovedTo,
    NotFetched,
    NotSent,
    Outcome,
    Refused,
    Unknown,
)
from bot.networks.matrix import media
from bot.networks.matrix.connecting import close, connect, ended
from bot.networks.matrix.dressing import content_of, reaction, relation
from bot.networks.matrix.identity import vouch
from bot.networks.matrix.keys import RoomKeys
from bot.networks.matrix.listening import Listener
from bot.networks.matrix.memory import Memory
from bot.networks.matrix.reading import NAME
from bot.networks.matrix.requests import BROKEN, LOGGED_OUT, Unsuccessful, checked
from bot.networks.matrix.settings import MatrixSettings

LONGEST_PAUSE = 60.0
KEY_MAY_BE_LATE = timedelta(seconds=20)
MEMORY = "matrix.db"
NOT_CONNECTED = "Matrix is not connected yet"
logger = logging.getLogger(__name__)


@dataclass(frozen=True, slots=True)
class _Connection:
    client: AsyncClient
    keys: RoomKeys
    listener: Listener


class Matrix:
    """A Matrix account that hears and answers in encrypted rooms and others."""

    name = NAME
    once_by_key = True

    def __init__(
        self,
        settings: MatrixSettings,
        *,
        patience: timedelta = KEY_MAY_BE_LATE,
        clock: Callable[[], float] = time.time,
        rest: Callable[[float], Awaitable[None]] = asyncio.sleep,
    ) -> None:
        self._settings = settings
        self._patience = patience
        self._clock = clock
        self._rest = rest
        self._connection: _Connection | None = None
        # nio quotes whole messages where one is not formed as it should be.
        logging.getLogger("nio").setLevel(logging.CRITICAL)

    def about(self) -> str:
        """Matrix, as whom and where."""
        return f"Matrix as {self._settings.user} at {self._settings.homeserver}"

    async def run(self, host: Host) -> None:
        """Hand over what is said in our rooms until cancelled; raises NetworkRefused."""
        folder = self._settings.folder
        folder.mkdir(parents=True, exist_ok=True, mode=0o700)
        memory = Memory(folder / MEMORY)
        try:
            client = await self._until_done(lambda: connect(self._settings, memory))
            try:
                await self._listen(client, memory, host)
            finally:
                self._connection = None
                await close(client)
        finally:
            memory.close()

    async def _listen(self, client: AsyncClient, memory: Memory, host: Host) -> None:
        keys = RoomKeys(client, memory, self._clock)
        listener = Listener(
            client,
            memory,
            keys,
            host,
            owners=self._settings.owners,
            send=self.send,
            clock=self._clock,
            patience=self._patience,
        )
        self._connection = _Connection(client, keys, listener)
        logger.info("%s, device %s", self.about(), client.device_id)
        # The first sync comes before anybody can know the device: from there on nothing is missed.
        await self._until_done(listener.hear)
        await self._until_done(lambda: vouch(client, memory, self._settings.password))
        while True:
            await listener.join_where_asked()
            await self._until_done(listener.hear)

    async def _until_done(self, work: Callable[[], Awaitable[Any]]) -> Any:
        """Do something that a server may refuse for now: again after 1 s, 2 s, 4 s, to 60 s."""
        pause = 1.0
        while True:
            try:
                return await work()
            except Unsuccessful as error:
                if wrong := ended(error, self._settings):
                    raise wrong from None
                wait = max(pause, error.wait.total_seconds() if error.wait else 0.0)
                logger.warning("Matrix: the homeserver answers '%s'", error)
            except BROKEN as error:
                wait = pause
                logger.warning("Matrix: the homeserver can't be reached: %r", error)
            await self._rest(wait)
            pause = min(pause * 2, LONGEST_PAUSE)

    async def send(self, letter: Letter) -> Outcome:
        """Send an answer, encrypted where the room is; the same key is shown once."""
        connection = self._connection
        if connection is None or not connection.listener.in_rooms:
            return NotSent(NOT_CONNECTED)
        room = connection.client.rooms.get(letter.chat)
        if room is None:
            joining = letter.chat in connection.listener.joining
            return NotSent("the room is being joined") if joining else self._gone(letter.chat)
        kind, content = await self._content(connection.client, room, letter)
        try:
            if room.encrypted:
                await connection.keys.share(room)
        except Unsuccessful as error:
            return self._failed(error, letter.chat, sent=False)
        except (*BROKEN, EncryptionError) as error:
            return NotSent(repr(error))
        try:
            # The key was shared with everybody a moment ago: nio encrypts before it awaits.
            sent = checked(
                await connection.client.room_send(
                    letter.chat, kind, content, tx_id=letter.key, ignore_unverified_devices=True
                )
            )
        except Unsuccessful as error:
            return self._failed(error, letter.chat, sent=True)
        except (EncryptionError, LocalProtocolError, aiohttp.ClientConnectorError) as error:
            return NotSent(repr(error))
        except BROKEN as error:
            return Unknown(repr(error))
        return Delivered(str(sent.event_id))

    async def _content(
        self, client: AsyncClient, room: MatrixRoom, letter: Letter
    ) -> tuple[str, dict[str, Any]]:
        """The type and the content of what is sent: a sign, or words, beneath a picture or not."""
        if letter.answer.quiet and letter.reply_to:
            return "m.reaction", reaction(letter.reply_to)
        document = (
            await media.store_document(client, letter.document, encrypted=room.encrypted)
            if letter.document is not None
            else None
        )
        lost = letter.document is not None and document is None
        content = content_of(unprinted_answer(letter.answer) if lost else letter.answer)
        content |= document or {}
        if related := relation(letter, private=room.joined_count == 2):
            content["m.relates_to"] = related
        # A client that knows no captions shows the picture alone: a warning takes no such risk.
        if letter.picture is not None and not letter.answer.urgent:
            content |= await media.store(client, letter.picture, encrypted=room.encrypted) or {}
        return "m.room.message", content

    def _failed(self, error: Unsuccessful, chat: str, *, sent: bool) -> Outcome:
        """What an error means. `sent`: the answer itself was on its way."""
        if error.limited:
            return NotSent(str(error), error.wait)
        if error.code in LOGGED_OUT:
            return NotSent(str(error))
        if error.code == "M_DUPLICATE_ANNOTATION":
            return Delivered()
        if error.code in ("M_FORBIDDEN", "M_NOT_FOUND"):
            return self._gone(chat, str(error))
        if error.final:
            return Refused(str(error))
        return Unknown(str(error)) if sent else NotSent(str(error))

    def _gone(self, chat: str, reason: str = "Drawbar is not in the room") -> Outcome:
        to = self._connection.listener.replaced.get(chat) if self._connection else None
        return MovedTo(to) if to else Refused(reason)

    async def fetch(self, reference: str, most: int) -> bytes:
        """The bytes of a picture; raises NotFetched."""
        if self._connection is None:
            raise NotFetched("out of reach", NOT_CONNECTED)
        return await media.fetch(self._connection.client, reference, most)
