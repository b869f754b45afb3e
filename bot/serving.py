"""`drawbar serve`: the networks that are set, served until told to stop.

This file decides what is said at the start (what is served, as whom, and the owner's code) and
that a signal to stop lets what is under way be finished, within a bound. It handles no message.
"""

from __future__ import annotations

import asyncio
import signal
from collections.abc import Callable
from contextlib import suppress

from bot.configuration import Configuration
from bot.health import watched
from bot.messages import Served
from bot.phrasebook import book_in
from bot.wiring import drawbar

FEW_SECONDS = 4.0
"""How long a stop may take; systemd and container engines kill after 10 to 90 s."""

STOPS = (signal.SIGTERM, signal.SIGINT)


def networks(chosen: Configuration) -> list[Served]:
    """The networks that are set; a library is imported only where its network is."""
    found: list[Served] = []
    if chosen.telegram is not None:
        from bot.networks.telegram.network import Telegram

        found.append(Telegram(chosen.telegram))
    if chosen.matrix is not None:
        from bot.networks.matrix.network import Matrix

        found.append(Matrix(chosen.matrix))
    return found


async def serve(chosen: Configuration, say: Callable[[str], None]) -> None:
    """Serve until a signal; raises DatabaseTrouble, and NetworkRefused for wrong settings."""
    from bot.photos.reader import PhotoReader

    served = networks(chosen)
    eyes = PhotoReader(book_in)
    stop = asyncio.Event()
    loop = asyncio.get_running_loop()
    for each in STOPS:
        loop.add_signal_handler(each, stop.set)
    try:
        async with (
            drawbar(chosen.settings, (), served, eyes) as running,
            watched(chosen.health, running.figures),
        ):
            for network in served:
                say(network.about())
            code = await running.owners_code()
            if code is not None:
                say(f"Nobody is let in yet. Text this from your chat to be the owner: {code}")
            work = asyncio.create_task(running.serve())
            stopping = asyncio.create_task(stop.wait())
            await asyncio.wait({work, stopping}, return_when=asyncio.FIRST_COMPLETED)
            stopping.cancel()
            if not work.done():
                say("Stopping.")
                await running.wind_up(FEW_SECONDS / 2)
                work.cancel()
                await asyncio.wait({work}, timeout=FEW_SECONDS / 2)
            if work.done():
                with suppress(asyncio.CancelledError):
                    await work
    finally:
        await eyes.close()
        for each in STOPS:
            loop.remove_signal_handler(each)
