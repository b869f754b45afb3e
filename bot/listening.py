"""An HTTP application that answers for as long as a context lasts.

This file decides how a port is had and given back. It knows neither who calls nor what is
answered.
"""

from __future__ import annotations

from collections.abc import AsyncIterator
from contextlib import asynccontextmanager

from aiohttp import web

FINISH_WITHIN = 0.5
"""Seconds that a call under way has to be answered as the context ends."""


@asynccontextmanager
async def listening(application: web.Application, address: str, port: int) -> AsyncIterator[None]:
    """Answer at an address; raises OSError where the port can't be had."""
    runner = web.AppRunner(application, access_log=None, shutdown_timeout=FINISH_WITHIN)
    await runner.setup()
    try:
        await web.TCPSite(runner, address, port).start()
        yield
    finally:
        await runner.cleanup()
