"""The chat in a terminal, as a network like any other.

This file turns typed or piped lines into messages and shows answers. Nothing in it decides
what an answer says. prompt_toolkit and rich are imported here alone, and only where a person
sits at the terminal; piped lines need neither.
"""

from __future__ import annotations

import asyncio
import sys
import uuid
from collections.abc import AsyncIterator, Awaitable, Callable
from datetime import datetime
from pathlib import Path
from typing import TYPE_CHECKING, TextIO

from bot.answers.answer import Answer
from bot.answers.plain import as_text
from bot.messages import Delivered, Letter, Message, Outcome

if TYPE_CHECKING:
    from rich.console import Console
    from rich.text import Text

NAME = "terminal"
CHAT = "home"
GREETING = "Text it as it comes. help shows what can be told; Ctrl-D leaves."


def message(text: str, author: str, sent_at: datetime) -> Message:
    """A typed line as a message."""
    return Message(
        network=NAME,
        chat=CHAT,
        id=uuid.uuid4().hex,
        author=author.casefold(),
        name=author,
        sent_at=sent_at,
        text=text,
    )


class PipedTerminal:
    """Answers as plain text on a stream, one after the other."""

    name = NAME
    once_by_key = False

    def __init__(self, out: TextIO) -> None:
        self._out = out

    async def send(self, letter: Letter) -> Outcome:
        """Print the answer."""
        self._out.write(as_text(letter.answer) + "\n")
        self._out.flush()
        return Delivered()


class ShownTerminal:
    """Answers dressed for a person: the verdict bold, figures in columns, notes dim."""

    name = NAME
    once_by_key = False

    def __init__(self, console: Console) -> None:
        self._console = console

    async def send(self, letter: Letter) -> Outcome:
        """Show the answer."""
        self._console.print(dressed(letter.answer))
        return Delivered()


def dressed(answer: Answer) -> Text:
    """An answer for a person's eyes."""
    from rich.text import Text

    head, *rest = as_text(answer).split("\n")
    lines = Text(head, style="bold")
    notes = set(answer.notes)
    for line in rest:
        lines.append(f"\n{line}", style="not bold dim" if line in notes else "not bold")
    return lines


async def piped_lines(source: TextIO) -> AsyncIterator[str]:
    """Each line of a stream as it comes, blank ones left out."""
    while line := await asyncio.to_thread(source.readline):
        if line.strip():
            yield line.strip()


async def typed_lines(history: Path) -> AsyncIterator[str]:
    """Each line that a person types, with editing and a history, until Ctrl-D."""
    from prompt_toolkit import PromptSession
    from prompt_toolkit.history import FileHistory
    from prompt_toolkit.patch_stdout import patch_stdout

    session: PromptSession[str] = PromptSession(history=FileHistory(str(history)))
    while True:
        try:
            with patch_stdout():
                line = await session.prompt_async("> ")
        except (EOFError, KeyboardInterrupt):
            return
        if line.strip():
            yield line.strip()


async def chat(
    lines: AsyncIterator[str],
    author: str,
    clock: Callable[[], datetime],
    take: Callable[[Message], Awaitable[None]],
) -> None:
    """Hand each line over as a message, and wait until its answer has been shown."""
    async for line in lines:
        await take(message(line, author, clock()))


def is_person() -> bool:
    """Whether someone sits at the terminal, rather than a pipe."""
    return sys.stdin.isatty() and sys.stdout.isatty()
