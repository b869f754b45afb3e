"""Whether Drawbar is alive and ready, and its figures, for whatever watches over it.

This file decides the three addresses and what they answer: /live (the process works), /ready
(the database answers and no answer is overdue) and /metrics. It listens on loopback unless told
otherwise, and tells no chat, person or text.
"""

from __future__ import annotations

from collections.abc import AsyncIterator, Awaitable, Callable
from contextlib import AsyncExitStack, asynccontextmanager
from dataclasses import dataclass

from aiohttp import web

from bot.listening import listening
from bot.settings import WrongSetting

LATE_SECONDS = 60.0
"""An answer that waits this long although it is due means that sending is stuck."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Watched:
    """Where to listen."""

    listen: str = "127.0.0.1"
    port: int


@asynccontextmanager
async def watched(
    where: Watched | None, figures: Callable[[], Awaitable[bytes]]
) -> AsyncIterator[None]:
    """Answer for as long as the context lasts, where that is wanted.

    Raises WrongSetting where the port can't be listened on.
    """
    if where is None:
        yield
        return

    async def live(_: web.Request) -> web.Response:
        return web.Response(text="alive\n")

    async def ready(_: web.Request) -> web.Response:
        try:
            told = await figures()
        except Exception as error:  # noqa: BLE001 - whatever it is, Drawbar is not ready
            return web.Response(status=503, text=f"not ready: {type(error).__name__}\n")
        age = _figure(told, "drawbar_queue_age_seconds")
        if age > LATE_SECONDS:
            return web.Response(status=503, text=f"not ready: an answer waits for {age:,.0f} s\n")
        return web.Response(text="ready\n")

    async def metrics(_: web.Request) -> web.Response:
        return web.Response(
            body=await figures(),
            headers={"Content-Type": "text/plain; version=0.0.4; charset=utf-8"},
        )

    app = web.Application()
    for path, answer in (("/live", live), ("/ready", ready), ("/metrics", metrics)):
        app.router.add_get(path, answer)
    async with AsyncExitStack() as stack:
        try:
            await stack.enter_async_context(listening(app, where.listen, where.port))
        except OSError as error:
            raise WrongSetting(
                f"health.port is {where.port}; {where.listen}:{where.port} can't be listened on"
                f" ({error.strerror}). Set another one."
            ) from error
        yield


def _figure(told: bytes, name: str) -> float:
    lines = (line.split(" ") for line in told.decode().splitlines())
    return next(float(words[1]) for words in lines if words[0] == name)
