"""Telegram as a network that Drawbar serves.

This file decides the order of things: connect, say what the bot is for, then listen until
cancelled. How anything is translated is decided beside it.
"""

from __future__ import annotations

import asyncio
import logging
import secrets
from collections.abc import Callable
from datetime import UTC, datetime

import httpx
from telegram.error import BadRequest, TelegramError

from bot.answers.language import SOURCE
from bot.answers.menu import introductions
from bot.messages import Host, Letter, NetworkRefused, NotFetched, NotSent, Outcome
from bot.networks.telegram.client import Client, Rest, patiently, pause_after
from bot.networks.telegram.incoming import KINDS, NAME
from bot.networks.telegram.outcomes import trouble
from bot.networks.telegram.receiving import Receiver, poll
from bot.networks.telegram.sending import Sender
from bot.networks.telegram.settings import SETTING, TelegramSettings, Webhook, check
from bot.networks.telegram.webhook import called_in

FETCHES = 3

logger = logging.getLogger(__name__)


def _now() -> datetime:
    return datetime.now(UTC)


class Telegram:
    """A bot on Telegram, by polling or by webhook."""

    name = NAME
    once_by_key = False

    def __init__(
        self,
        settings: TelegramSettings,
        clock: Callable[[], datetime] = _now,
        rest: Rest = asyncio.sleep,
    ) -> None:
        self._settings = settings
        self._clock = clock
        self._rest = rest
        self._client: Client | None = None
        self._sender: Sender | None = None

    async def send(self, letter: Letter) -> Outcome:
        """Send an answer, once."""
        if self._sender is None:
            return NotSent("not connected to Telegram yet")
        return await self._sender.send(letter)

    async def run(self, host: Host) -> None:
        """Connect, and hand over what people write until cancelled; raises NetworkRefused."""
        check(self._settings)
        client = Client(self._settings)
        try:
            await patiently(client.initialize, self._rest)
            self._client, self._sender = client, Sender(client)
            logger.info("%s", self.about())
            await self._introduce(client)
            receiver = Receiver(client, host, self._clock)
            if self._settings.webhook is None:
                await patiently(client.delete_webhook, self._rest)
                await poll(client, receiver, self._rest)
            else:
                await self._be_called(client, receiver, self._settings.webhook)
        finally:
            self._client = self._sender = None
            await client.shutdown()

    async def fetch(self, reference: str, most: int) -> bytes:
        """The bytes of a photo; raises NotFetched."""
        for failures in range(FETCHES):
            if self._client is not None:
                try:
                    return await self._client.download(reference, most)
                except (TelegramError, httpx.HTTPError):
                    pass
            await self._rest(pause_after(failures))
        raise NotFetched("out of reach")

    def about(self) -> str:
        """What is served, as whom, and how much of a group the bot gets to see."""
        webhook = self._settings.webhook
        way = "polling" if webhook is None else f"webhook at {webhook.host}"
        if self._client is None:
            return f"Telegram by {way}, not connected yet"
        me = self._client.bot
        seen = "all messages" if me.can_read_all_group_messages else "commands and replies only"
        return f"Telegram as @{me.username} by {way}; sees {seen} in groups"

    async def _introduce(self, client: Client) -> None:
        """Fill the app's menu and the bot's page; it works without, so it is tried once."""
        try:
            for each in introductions():
                # Without a language it is for everybody whose own has none.
                code = None if each.language == SOURCE else each.language
                await client.set_my_commands(list(each.menu.items()), language_code=code)
                await client.set_my_short_description(each.about, language_code=code)
                await client.set_my_description(each.description, language_code=code)
        except TelegramError as error:
            logger.warning("the menu of commands was not set: %s", trouble(error))

    async def _be_called(self, client: Client, receiver: Receiver, webhook: Webhook) -> None:
        secret = webhook.secret or secrets.token_urlsafe(32)

        async def ask() -> None:
            try:
                await client.set_webhook(
                    webhook.url, allowed_updates=list(KINDS), secret_token=secret
                )
            except BadRequest as error:
                raise NetworkRefused(
                    f"Telegram does not take {SETTING}WEBHOOK_URL {webhook.url!r}:"
                    f" {trouble(error)}."
                ) from None

        async with called_in(webhook, secret, receiver.receive):
            await patiently(ask, self._rest)
            await asyncio.Event().wait()
