"""Where pictures are drawn: apart from the event loop and from the store, one at a time.

This file decides how long a picture is waited for and how many are remembered, and that one
which can't be drawn is left out: the words tell all of it. It does not know how one is drawn.
"""

from __future__ import annotations

import asyncio
import logging
from collections.abc import Callable
from concurrent.futures import ThreadPoolExecutor
from contextlib import suppress
from functools import lru_cache, partial

from bot.answers.pictures import Picture
from bot.messages import Drawn, Printed
from bot.report.value import Report

PATIENCE = 15.0
"""Seconds that a picture is waited for; the first one loads the library that draws, unless the
studio was opened."""

KEPT = 32
"""Pictures remembered, of at most some hundred kilobytes each: a week goes to several chats."""

PATIENCE_FOR_PRINT = 60.0
"""Seconds that a report is waited for; that of a log of 20,000 entries takes some ten."""

logger = logging.getLogger(__name__)


def _load() -> None:
    # Where it can't be, each picture is left out, and said so, when it is wanted.
    with suppress(Exception):
        from bot.pictures.drawing import try_out

        try_out()


def _png(picture: Picture) -> bytes:
    from bot.pictures.drawing import png

    return png(picture)


def _pdf(report: Report) -> bytes:
    from bot.pictures.drawing import png
    from bot.pictures.palette import PAPER
    from bot.report.paper import pdf

    return pdf(report, partial(png, scheme=PAPER))


class Studio:
    """Draws pictures in a thread of its own, since the library is not made for several."""

    def __init__(
        self,
        draw: Callable[[Picture], bytes] = _png,
        patience: float = PATIENCE,
        print_: Callable[[Report], bytes] = _pdf,
    ) -> None:
        self._print = print_
        self._draw = lru_cache(maxsize=KEPT)(draw)
        self._patience = patience
        self._worker = ThreadPoolExecutor(max_workers=1, thread_name_prefix="drawbar-pictures")

    async def open(self) -> None:
        """Load what draws, and draw once, so that no answer waits for it (a second and more)."""
        await asyncio.get_running_loop().run_in_executor(self._worker, _load)

    async def drawn(self, picture: Picture) -> Drawn | None:
        """A picture as it is sent; None where it can't be drawn, or not soon enough."""
        loop = asyncio.get_running_loop()
        try:
            async with asyncio.timeout(self._patience):
                png = await loop.run_in_executor(self._worker, self._draw, picture)
        except TimeoutError:
            logger.warning("a picture took too long and is left out")
            return None
        # Whatever goes wrong in drawing must not keep back the words.
        except Exception:
            logger.exception("a picture can't be drawn and is left out")
            return None
        return Drawn(png=png, alt=picture.alt)

    async def printed(self, report: Report) -> Printed | None:
        """A report as it is sent; None where it can't be printed, or not soon enough."""
        loop = asyncio.get_running_loop()
        try:
            async with asyncio.timeout(PATIENCE_FOR_PRINT):
                pdf = await loop.run_in_executor(self._worker, self._print, report)
        except TimeoutError:
            logger.warning("a report took too long and is left out")
            return None
        except Exception:
            logger.exception("a report can't be printed and is left out")
            return None
        return Printed(pdf=pdf, name=f"{report.title}, {report.span}.pdf".replace("/", "-"))

    def close(self) -> None:
        """Let go of the thread, once it is done with what it is at."""
        self._worker.shutdown(cancel_futures=True)
