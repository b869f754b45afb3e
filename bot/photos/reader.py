"""Reads photos off the event loop, one at a time, and says kindly why not.

This file decides when the process that looks at photos starts and ends, how long it may take, and
what the sender is told where nothing comes of a photo. The process starts with the first photo
and is let go when no more come, as its models take half a gigabyte.
"""

from __future__ import annotations

import asyncio
import importlib.util
import logging
import os
import sys
from asyncio.subprocess import PIPE, Process
from collections.abc import Callable, Mapping, Sequence
from pathlib import Path

import bot
from bot.answers.language import SOURCE, marked
from bot.photos.crossing import NoReply, NotSeen, Ready, Reply, Seen, framed, reply_of
from bot.sight import NO_READER, NotRead
from domain.columns import lines
from domain.page import Word, rows
from domain.reading import Phrasebook
from domain.ticket_lines import captioned, told

logger = logging.getLogger(__name__)

NEEDED = ("rapidocr", "onnxruntime", "PIL", "cv2")
"""What the extra `photo` installs."""

LONGEST_START = 60.0
LONGEST_LOOK = 20.0
LONGEST_IDLE = 300.0
"""Seconds: until the models are loaded, on one photo, and without any."""

LONGEST_ANSWER = 1024 * 1024
"""Bytes of words; 150 places are some 30,000."""

KEPT_FROM_ENVIRONMENT = ("PATH", "LANG", "LC_ALL", "TMPDIR", "SYSTEMROOT")
"""What the process is told of its surroundings; tokens and passwords are not."""

TOLD_BESIDES = {
    # Else ONNX Runtime tells its makers of each start (its Privacy.md, 'Disabling Telemetry').
    "ORT_DISABLE_TELEMETRY": "1",
}

TOO_SLOW = marked("That photo takes me too long to read; text me the figures.")
NO_TICKET = marked("I can't make out a scale ticket or a receipt on that; text me the figures.")
REFUSED = {
    "too_large": marked(
        "That picture is too large for me (8 MB and 40 megapixels at most); text me the figures."
    ),
    "not_a_picture": marked(
        "I can't open that picture; send it as a photo, or text me the figures."
    ),
}


class PhotoReader:
    """Turns photos into the text that goes into the log; `close` it at the end."""

    def __init__(
        self,
        book_of: Callable[[str], Phrasebook],
        *,
        longest_look: float = LONGEST_LOOK,
        needed: Sequence[str] = NEEDED,
    ) -> None:
        self._book_of = book_of
        self._longest_look = longest_look
        self._needed = needed
        self._one_at_a_time = asyncio.Lock()
        self._process: Process | None = None
        self._closed = False
        self._idle: asyncio.TimerHandle | None = None

    async def read(
        self, picture: bytes, caption: str = "", language: str = SOURCE
    ) -> tuple[str, bool]:
        """The text of a ticket or receipt below its caption, and whether it is beyond doubt.

        `language` is that of the chat, in whose words the paper is looked at. Raises NotRead where
        there is nothing to read with, where the picture can't be opened in 8 MB, 40 megapixels and
        20 seconds, and where it is no ticket and no receipt.
        """
        book = self._book_of(language)
        page = told(lines(rows(await self.words(picture))), book)
        if not page.text:
            raise NotRead(NO_TICKET, worth_telling=False)
        page = captioned(caption, page, book)
        return page.text, page.sure

    async def words(self, picture: bytes) -> tuple[Word, ...]:
        """The words on a picture and their places; raises NotRead."""
        if not _installed(self._needed):
            raise NotRead(NO_READER, worth_telling=True)
        async with self._one_at_a_time:
            if self._closed:
                raise NotRead(NO_READER, worth_telling=False)
            if self._idle is not None:
                self._idle.cancel()
            try:
                reply = await self._reply(picture)
            except TimeoutError as error:
                raise NotRead(TOO_SLOW, worth_telling=True) from error
            except (NoReply, ConnectionError) as error:
                logger.warning("a photo ended the process that looked at it: %s", error)
                raise NotRead(REFUSED["not_a_picture"], worth_telling=True) from error
            loop = asyncio.get_running_loop()
            self._idle = loop.call_later(LONGEST_IDLE, self._let_go)
        match reply:
            case Seen(words):
                return tuple(words)
            case NotSeen(reason):
                raise NotRead(REFUSED[reason], worth_telling=True)
            case Ready():
                raise AssertionError("said once, before any picture")

    async def close(self) -> None:
        """End the process; a photo that is being looked at is not read."""
        self._closed = True
        if self._idle is not None:
            self._idle.cancel()
        if self._process is not None:
            _kill(self._process)
        async with self._one_at_a_time:
            await self._end()

    async def _reply(self, picture: bytes) -> Reply:
        """What the process makes of a picture; it is gone after anything went wrong."""
        try:
            if self._process is None or self._process.returncode is not None:
                self._process = await _started()
                async with asyncio.timeout(LONGEST_START):
                    await _next_reply(self._process)
            async with asyncio.timeout(self._longest_look):
                return await _reply_to(picture, self._process)
        except BaseException:
            await self._end()
            raise

    async def _end(self) -> None:
        process, self._process = self._process, None
        if process is None:
            return
        _kill(process)
        if process.stdin is not None:
            process.stdin.close()
        if process.stdout is not None:
            await process.stdout.read()
        await process.wait()

    def _let_go(self) -> None:
        process, self._process = self._process, None
        if process is not None:
            _kill(process)


def _kill(process: Process) -> None:
    if process.returncode is None:
        process.kill()


def _installed(needed: Sequence[str]) -> bool:
    return all(importlib.util.find_spec(name) is not None for name in needed)


def surroundings(environment: Mapping[str, str]) -> dict[str, str]:
    """What the process is told of an environment, and where it finds Drawbar."""
    kept = {name: environment[name] for name in KEPT_FROM_ENVIRONMENT if name in environment}
    return {**kept, **TOLD_BESIDES, "PYTHONPATH": str(Path(bot.__file__).parents[1])}


async def _started() -> Process:
    return await asyncio.create_subprocess_exec(
        sys.executable, "-P", "-m", "bot.photos.worker",
        stdin=PIPE, stdout=PIPE, env=surroundings(os.environ), limit=LONGEST_ANSWER,
        start_new_session=True,
    )  # fmt: skip


async def _reply_to(picture: bytes, process: Process) -> Reply:
    if process.stdin is not None:  # it is a pipe, as the process was started with one
        process.stdin.write(framed(picture))
        await process.stdin.drain()
    return await _next_reply(process)


async def _next_reply(process: Process) -> Reply:
    """The next answer; raises NoReply where the process ends before it."""
    out = process.stdout
    return reply_of(await out.readline() if out is not None else b"")
