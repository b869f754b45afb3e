"""What stands in the documents and is made from the program: answers, commands, modules.

A fence marked `chat` is a conversation: a line after `>` is texted, the lines below it are
the whole answer, and none stands where Drawbar keeps still. A line such as `(2 hours later)` lets
time pass; else a minute does between messages. All conversations of a document go to one logbook,
in the order in which they are printed. Between marks stand a table of
commands with their help, a table of modules with the first sentence of their docstrings, and
the figures that benchmarks measured last.
`make documents` writes all of them in; a test fails where they are not those that are printed.
"""

from __future__ import annotations

import ast
import asyncio
import io
import re
import tempfile
from collections.abc import Sequence
from datetime import UTC, datetime, timedelta
from pathlib import Path

import click

from bot.cli import main
from bot.networks import terminal
from bot.settings import settings
from bot.wiring import drawbar
from tests.bench.figures import figures_table
from tests.networks.telegram import test_webhook as _webhook  # noqa: F401
from tests.whole import test_attacks as _attacks  # noqa: F401
from tests.whole.attacks import attack_table

ROOT = Path(__file__).resolve().parents[2]
DOCUMENTS = (
    "README.md",
    "DEVELOPERS.md",
    "deploy/capacity.md",
    "shared/guide/using.md",
    "shared/guide/formulas.md",
)
TEXTED = "> "
PAUSE = re.compile(r"\((\d+) (minute|hour|day)s? later\)")
SATURDAY = datetime(2026, 5, 30, 14, 0, tzinfo=UTC)
"""When the first message of a document is texted."""


def text_of(document: str) -> str:
    """A document as it stands."""
    return (ROOT / document).read_text(encoding="utf-8")


def fences(text: str, mark: str) -> list[str]:
    """What stands in the fences with this mark."""
    return re.findall(_fence(mark), text, re.MULTILINE | re.DOTALL)


def script(text: str) -> list[str]:
    """What is texted in a document's conversations, each after `TEXTED`, and the pauses."""
    return [
        line
        for fence in fences(text, "chat")
        for line in fence.splitlines()
        if line.startswith(TEXTED) or PAUSE.fullmatch(line)
    ]


def texted(text: str) -> list[str]:
    """Every message of a document's conversations."""
    return [line.removeprefix(TEXTED) for line in script(text) if line.startswith(TEXTED)]


def rewritten(text: str) -> str:
    """The document with the answers, commands and modules that Drawbar has."""
    text = _between("commands", command_table(), text)
    text = _between("modules", module_table(), text)
    text = _between("attacks", attack_table(), text)
    text = _between("figures", figures_table(), text)
    return _with_answers(text)


def _between(mark: str, table: str, text: str) -> str:
    marks = rf"(?<=<!-- {mark} -->\n).*?(?=<!-- end of {mark} -->)"
    return re.sub(marks, lambda _: table, text, flags=re.DOTALL)


def command_table() -> str:
    """Every command with its arguments, and what its help says."""
    rows = ["| command | what it does |", "|---|---|"]
    for name, command in sorted(main.commands.items()):
        arguments = [
            each.human_readable_name for each in command.params if isinstance(each, click.Argument)
        ]
        usage = " ".join(("drawbar", name, *arguments))
        rows.append(f"| `{usage}` | {first_line(command.help)} |")
    return "\n".join(rows) + "\n"


def module_table() -> str:
    """Modules and packages of both packages, each with what it says that it is about."""
    rows = ["| place | what it decides |", "|---|---|"]
    for package in ("domain", "bot"):
        for path in sorted((ROOT / package).iterdir()):
            source = path / "__init__.py" if path.is_dir() else path
            if source.suffix == ".py" and source.is_file() and path.name != "__init__.py":
                name = path.relative_to(ROOT).as_posix() + ("/" if path.is_dir() else "")
                rows.append(f"| `{name}` | {first_sentence(source)} |")
    return "\n".join(rows) + "\n"


def first_sentence(source: Path) -> str:
    """The first line of a module's docstring, without its full stop."""
    return first_line(ast.get_docstring(ast.parse(source.read_text(encoding="utf-8"))))


def first_line(docstring: str | None) -> str:
    """A docstring's first line, without its full stop."""
    return (docstring or "").strip().partition("\n")[0].removesuffix(".")


def _with_answers(text: str) -> str:
    said = iter(asyncio.run(answers(script(text))))

    def conversation(found: re.Match[str]) -> str:
        exchanges = ["\n".join((line, *next(said))) for line in script(found[0])]
        return "```chat\n" + "\n\n".join(exchanges) + "\n```"

    return re.sub(_fence("chat"), conversation, text, flags=re.MULTILINE | re.DOTALL)


async def answers(lines: Sequence[str]) -> list[list[str]]:
    """What answers each line of a script, texted to a new logbook, through the whole of Drawbar."""
    with tempfile.TemporaryDirectory() as folder:
        shown = io.StringIO()
        chosen = settings(database=str(Path(folder) / "log.db"), time_zone="UTC")
        said = []
        at = SATURDAY
        async with drawbar(chosen, [terminal.PipedTerminal(shown)]) as running:
            for line in lines:
                if pause := PAUSE.fullmatch(line):
                    at += timedelta(**{f"{pause[2]}s": int(pause[1])})
                else:
                    await running.take(terminal.message(line.removeprefix(TEXTED), "Wren", at))
                    at += timedelta(minutes=1)
                said.append(shown.getvalue().splitlines())
                shown.seek(0)
                shown.truncate()
        return said


def _fence(mark: str) -> str:
    return rf"^```{mark}\n(.*?)^```$"


if __name__ == "__main__":
    for document in DOCUMENTS:
        (ROOT / document).write_text(rewritten(text_of(document)), encoding="utf-8")
