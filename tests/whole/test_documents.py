"""What the documents say is what happens: conversations, commands and paths are tried.

A fence marked `sh` holds commands: `make` targets must exist, `drawbar` commands are run.
"""

from __future__ import annotations

import os
import re
import subprocess
import sys
from pathlib import Path

import pytest

from bot.wiring import reader
from domain.context import Context
from domain.quantities import Quantity
from domain.verdicts import Facts, Question
from tests.whole.documents import (
    DOCUMENTS,
    ROOT,
    SATURDAY,
    TEXTED,
    fences,
    rewritten,
    text_of,
    texted,
)

LINES_OF_THREE_SCREENS = 150


def run(command: str, home: Path, said: str = "") -> str:
    done = subprocess.run(
        ["bash", "-euo", "pipefail", "-c", command],
        cwd=home, input=said, capture_output=True, text=True, check=False,
        env={
            "PATH": f"{Path(sys.executable).parent}{os.pathsep}{os.environ['PATH']}",
            "HOME": str(home),
            "XDG_DATA_HOME": str(home / "data"),
            "LANG": "C.UTF-8",
            "TZ": "UTC",
        },
    )  # fmt: skip
    assert done.returncode == 0, f"{command}: {done.stderr}"
    return done.stdout


def lines(text: str) -> list[str]:
    return [line for line in text.splitlines() if line.strip()]


def spans(text: str) -> list[str]:
    """The code spans of a text, each on one line."""
    return [" ".join(span.split()) for span in re.findall(r"`([^`]+)`", text)]


def texts_listed() -> list[str]:
    """What the documents say can be texted: code spans of the README's list of abilities, and
    those of the guide's prose, which names commands and pages beside them."""
    _, _, section = text_of("README.md").partition("## What it does")
    abilities, _, _ = section.partition("\n\n`help`")
    prose = re.sub(r"(?ms)^```.*?^```$", "", text_of("shared/guide/using.md"))
    named = [span for span in spans(prose) if not span.startswith(("drawbar ", ">"))]
    assert len(named) > 5
    return [*spans(abilities), *named]


SAYS_NO_DAY = ("README.md",)
"""Documents whose answers are the same whenever they are texted."""


@pytest.mark.parametrize("document", DOCUMENTS)
def test_answers_commands_and_modules_are_those_that_are_printed(document: str) -> None:
    """Where they are not, and the new ones are right, `make documents` writes them in."""
    assert rewritten(text_of(document)) == text_of(document)


@pytest.mark.parametrize("document", SAYS_NO_DAY)
def test_a_conversation_goes_the_same_through_the_command_line(
    document: str, tmp_path: Path
) -> None:
    text = text_of(document)
    printed = lines("".join(fences(text, "chat")))
    said = run("drawbar chat --database log.db", tmp_path, "\n".join(texted(text)) + "\n")
    assert lines(said) == [line for line in printed if not line.startswith(TEXTED)]


@pytest.mark.parametrize("text", texts_listed())
def test_what_the_documents_say_can_be_texted_is_understood(text: str) -> None:
    on_the_road = Context(
        sent_at=SATURDAY,
        odometer=Quantity(48503, "mi"),
        tank=Quantity(34, "gal"),
        fuel="diesel",
        hitched=True,
        truck="Juniper",
        trailers=("flatdeck",),
    )
    assert isinstance(reader()(text, on_the_road), Facts | Question)


COMMANDS = sorted(
    {line for name in DOCUMENTS for fence in fences(text_of(name), "sh") for line in lines(fence)}
)


@pytest.mark.parametrize("command", [line for line in COMMANDS if "drawbar" in line])
def test_a_command_does_what_the_document_shows(command: str, tmp_path: Path) -> None:
    assert run(command, tmp_path)


def test_every_make_target_that_a_document_names_is_there() -> None:
    rules = set(re.findall(r"^([a-z-]+):", text_of("Makefile"), re.M))
    named = {
        target
        for name in DOCUMENTS
        for target in re.findall(r"(?:^|`)make ([a-z-]+)(?=`|$| ARGS)", text_of(name), re.M)
    }
    assert {"chat", "demo", "test"} <= named
    assert named - rules == set()


def test_every_command_of_the_program_is_documented(tmp_path: Path) -> None:
    listed = run("drawbar --help", tmp_path).partition("Commands:")[2]
    commands = re.findall(r"^  ([a-z-]+)\s", listed, re.M)
    assert {"chat", "demo", "read"} <= set(commands)
    documents = "".join(text_of(name) for name in DOCUMENTS)
    assert [each for each in commands if f"drawbar {each}" not in documents] == []


@pytest.mark.parametrize("document", [*DOCUMENTS, "deploy/README.md"])
def test_every_path_that_a_document_names_is_there(document: str) -> None:
    tops = "|".join(["bot", "domain", "shared", "tests", "deploy", r"\.ci"])
    named = set(re.findall(rf"`((?:{tops})/[\w./-]*)`", text_of(document)))
    linked = set(re.findall(r"\]\(([^)#:]+)\)", text_of(document)))
    beside = (ROOT / document).parent
    paths = [*(ROOT / each for each in named), *(beside / each for each in linked)]
    assert [str(each) for each in sorted(paths) if not each.exists()] == []


def test_the_readme_fits_three_screens() -> None:
    assert len(text_of("README.md").splitlines()) <= LINES_OF_THREE_SCREENS
