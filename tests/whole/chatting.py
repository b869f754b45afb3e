"""`drawbar chat` with piped messages: in the tests' own process, or as a process of its own.

Both go through the command and its options. A process of its own is for what only one can show,
as the command's start and end; all else is quicker in the tests' own, which has the vocabulary
already.
"""

from __future__ import annotations

import io
import subprocess
import sysconfig
from collections.abc import Iterable
from contextlib import redirect_stderr, redirect_stdout
from itertools import pairwise
from pathlib import Path

import pytest

from bot.cli import main

DRAWBAR = Path(sysconfig.get_path("scripts")) / "drawbar"


class Pipe(io.StringIO):
    """Messages to be read one by one, which notes what was said before each was asked for."""

    def __init__(self, messages: Iterable[str], said: io.StringIO) -> None:
        super().__init__("".join(f"{each}\n" for each in messages))
        self._said = said
        self.marks: list[int] = []

    def readline(self, size: int | None = -1, /) -> str:  # type: ignore[override]
        self.marks.append(self._said.tell())
        return super().readline(-1 if size is None else size)


def replies(
    messages: list[str], database: Path, *options: str, name: str = "Wren"
) -> list[list[str]]:
    """The lines that each message gets for an answer, all of them in one run."""
    said, trouble = io.StringIO(), io.StringIO()
    pipe = Pipe(messages, said)
    told = ["chat", "--database", str(database), "--as", name, *options]
    with pytest.MonkeyPatch.context() as here, redirect_stdout(said), redirect_stderr(trouble):
        here.setattr("sys.stdin", pipe)
        with pytest.raises(SystemExit) as left:
            main(told)
    assert (left.value.code, trouble.getvalue()) == (0, "")
    text = said.getvalue()
    # A message is read once the answer to the one before was shown, and then the end is read.
    assert len(pipe.marks) == len(messages) + 1
    assert (pipe.marks[0], pipe.marks[-1]) == (0, len(text))
    return [text[start:end].splitlines() for start, end in pairwise(pipe.marks)]


def chat(text: str, database: Path, *options: str, name: str = "Wren") -> list[str]:
    """The lines that piped messages get for an answer, one after the other."""
    answers = replies(text.splitlines(), database, *options, name=name)
    return [line for answer in answers for line in answer]


def run(*arguments: str | Path, text: str = "") -> subprocess.CompletedProcess[str]:
    """A command as a process of its own."""
    return subprocess.run(
        [DRAWBAR, *arguments], check=False, input=text, capture_output=True, text=True, timeout=120
    )


def figures(lines: list[str]) -> dict[str, str]:
    """Each aligned row of the answers, label to figure; a later one stands for an earlier."""
    rows = [line.strip().split("  ") for line in lines if line.startswith("  ")]
    return {row[0]: next(part.strip() for part in row[1:] if part) for row in rows if len(row) > 1}
