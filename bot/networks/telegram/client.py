"""Calls to the Bot API: the connection, and patience while it is down.

This file decides timeouts, and what is kept out of logs. It does not know what is sent or
received. An answer is sent again by delivery alone; what is patient here is everything else.
"""

from __future__ import annotations

import logging
import os
import ssl
from collections.abc import Awaitable, Callable
from functools import cache
from typing import Any, TypeVar

import httpx
from telegram.error import BadRequest, InvalidToken, TelegramError
from telegram.ext import ExtBot
from telegram.request import HTTPXRequest

from bot.messages import NetworkRefused, NotFetched
from bot.networks.telegram.incoming import KINDS
from bot.networks.telegram.outcomes import trouble, wait_of
from bot.networks.telegram.pace import Paced
from bot.networks.telegram.settings import TOKEN_REFUSED, TelegramSettings

# The library's own way to have waits as timedeltas; without it each one warns.
os.environ.setdefault("PTB_TIMEDELTA", "true")

Rest = Callable[[float], Awaitable[None]]
Result = TypeVar("Result")

LONG_POLL = 50
"""Seconds that Telegram may keep a question for news open."""

LONGEST_PAUSE = 30.0
MOST_DOUBLINGS = 10

logger = logging.getLogger(__name__)


def keep_quiet() -> None:
    """Keep tokens and texts out of logs: httpx logs addresses, which hold the token.

    python-telegram-bot logs what it can't read, so it is silenced; what it raises is seen to here.
    """
    for name, level in (("httpx", logging.WARNING), ("httpcore", logging.WARNING)):
        logging.getLogger(name).setLevel(level)
    logging.getLogger("telegram").setLevel(logging.CRITICAL + 1)


@cache
def _trusted() -> ssl.SSLContext:
    """The authorities that are trusted; reading them takes a tenth of a second."""
    return httpx.create_ssl_context()


class Client(ExtBot[int]):
    """The Bot API, for one bot."""

    def __init__(self, settings: TelegramSettings) -> None:
        keep_quiet()
        api = settings.api.rstrip("/")
        trusted = {"verify": _trusted()}
        super().__init__(
            token=settings.token,
            base_url=f"{api}/bot",
            base_file_url=f"{api}/file/bot",
            request=HTTPXRequest(
                read_timeout=20, write_timeout=10, connect_timeout=10, httpx_kwargs=trusted
            ),
            get_updates_request=HTTPXRequest(connection_pool_size=1, httpx_kwargs=trusted),
            rate_limiter=Paced(settings.pace),
        )

    def __repr__(self) -> str:
        # The library's own holds the token.
        return "Client()"

    async def updates(self, offset: int | None, wait: int = LONG_POLL) -> list[dict[str, Any]]:
        """What is new from `offset` on, as it came; everything before counts as received.

        The library's `get_updates` reads all of them at once, so that one which can't be read
        would hold up the others for ever.
        """
        asked = {"offset": offset, "timeout": wait, "allowed_updates": list(KINDS)}
        got: list[dict[str, Any]] = await self._post("getUpdates", asked, read_timeout=wait + 10)
        return got

    async def download(self, file_id: str, most: int) -> bytes:
        """A file's bytes; raises NotFetched where it is gone or has more than `most`."""
        try:
            file = await self.get_file(file_id)
        except BadRequest as error:
            raise NotFetched("gone") from error
        if file.file_path is None or (file.file_size or 0) > most:
            raise NotFetched("too large")
        got = bytearray()
        async with (
            httpx.AsyncClient(verify=_trusted()) as web,
            web.stream("GET", file.file_path) as answer,
        ):
            if answer.status_code != httpx.codes.OK:
                raise NotFetched("gone")
            async for piece in answer.aiter_bytes():
                got += piece
                if len(got) > most:
                    raise NotFetched("too large")
        return bytes(got)


async def patiently(call: Callable[[], Awaitable[Result]], rest: Rest) -> Result:
    """What a call gives, however long Telegram is out of reach.

    Raises NetworkRefused where the token is not accepted.
    """
    failures = 0
    while True:
        try:
            return await call()
        except InvalidToken:
            raise NetworkRefused(TOKEN_REFUSED) from None
        except TelegramError as error:
            pause = max(pause_after(failures), wait_of(error).total_seconds())
            logger.warning("%s; trying again in %.0f s", trouble(error), pause)
        failures += 1
        await rest(pause)


def pause_after(failures: int) -> float:
    """Seconds to wait after so many failures before: 1, 2, 4, up to 30."""
    return min(2.0 ** min(failures, MOST_DOUBLINGS), LONGEST_PAUSE)
