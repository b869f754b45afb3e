"""The address at which Telegram calls.

This file decides what a call must carry: the secret, and an update of bounded size. A call
counts as received, towards Telegram, once Drawbar has taken its update.
"""

from __future__ import annotations

import asyncio
import hmac
import json
from collections.abc import AsyncIterator, Awaitable, Callable, Mapping
from contextlib import AsyncExitStack, asynccontextmanager
from typing import Any

from aiohttp import web

from bot.listening import listening
from bot.messages import NetworkRefused
from bot.networks.telegram.settings import SETTING, Webhook

HEADER = "X-Telegram-Bot-Api-Secret-Token"
"""As Bot API's setWebhook names it."""

MOST_BYTES = 1024 * 1024
READ_WITHIN = 10
"""Seconds that a call has to come in."""


@asynccontextmanager
async def called_in(
    webhook: Webhook, secret: str, receive: Callable[[Mapping[str, Any]], Awaitable[bool]]
) -> AsyncIterator[None]:
    """Be there for Telegram's calls; raises NetworkRefused where the port can't be had."""
    async with AsyncExitStack() as stack:
        answers = application(webhook.path, secret, receive)
        try:
            await stack.enter_async_context(listening(answers, webhook.listen, webhook.port))
        except OSError as error:
            raise NetworkRefused(
                f"{SETTING}WEBHOOK_LISTEN {webhook.listen} with {SETTING}WEBHOOK_PORT"
                f" {webhook.port} can't be listened on: {error.strerror}."
            ) from None
        yield


def application(
    path: str, secret: str, receive: Callable[[Mapping[str, Any]], Awaitable[bool]]
) -> web.Application:
    """The server: POST at one path, answered with 200 once the update has been taken."""
    expected = secret.encode()

    async def called(request: web.Request) -> web.Response:
        given = request.headers.get(HEADER, "").encode("utf-8", "surrogateescape")
        if not hmac.compare_digest(given, expected):
            raise web.HTTPForbidden
        try:
            async with asyncio.timeout(READ_WITHIN):
                update = json.loads(await request.read())
        except (ValueError, RecursionError):
            raise web.HTTPBadRequest from None
        except TimeoutError:
            raise web.HTTPRequestTimeout from None
        if not isinstance(update, dict) or not isinstance(update.get("update_id"), int):
            raise web.HTTPBadRequest
        if not await receive(update):
            raise web.HTTPServiceUnavailable
        return web.Response()

    served = web.Application(client_max_size=MOST_BYTES)
    served.router.add_post(path, called)
    return served
