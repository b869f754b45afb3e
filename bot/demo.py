"""The demonstration: an invented weekend, replayed through the real thing.

This file decides how the replayed conversation is shown. The messages are shared data, and
every answer is worked out on the spot, on a logbook that is thrown away afterwards.
"""

from __future__ import annotations

import asyncio
import tempfile
from collections.abc import Iterator
from datetime import datetime
from pathlib import Path
from zoneinfo import ZoneInfo

from rich.console import Console
from rich.table import Table
from rich.text import Text

from bot.answers.language import SOURCE, language_of, speaking
from bot.answers.words import clock, day
from bot.messages import Delivered, Letter, Message, Outcome
from bot.networks.terminal import dressed
from bot.settings import Settings, settings
from bot.shared_data import read_toml
from bot.wiring import drawbar

SCENARIOS = {"en": "demo/weekend.toml", "es": "demo/weekend.es.toml"}
"""The same weekend, told in each language that is read."""

NETWORK = "demo"
BOT = "Drawbar"
STYLES = ("cyan", "magenta", "green", "yellow")


class Stage:
    """The conversation on a console, as a network: who says what, and when."""

    name = NETWORK
    once_by_key = False

    def __init__(self, console: Console, names: list[str]) -> None:
        self._console = console
        self._styles = dict(zip(names, STYLES, strict=False))
        self._width = max(len(name) for name in (*names, BOT))
        self._day = ""

    def say(self, message: Message, at: datetime) -> None:
        """Show a message under its day."""
        if day(at) != self._day:
            self._day = day(at)
            self._console.print(f"\n{self._day}", style="bold dim")
        style = self._styles.get(message.name, "")
        self._line(clock(at), Text(message.name, style=style), Text(message.text))

    async def send(self, letter: Letter) -> Outcome:
        """Show an answer."""
        self._line("", Text(BOT, style="bold"), dressed(letter.answer))
        return Delivered()

    def _line(self, at: str, who: Text, what: Text) -> None:
        grid = Table.grid(padding=(0, 2))
        grid.add_column(width=8, justify="right", style="dim")
        grid.add_column(width=self._width)
        grid.add_column()
        grid.add_row(at, who, what)
        self._console.print(grid)


def play(language: str = SOURCE) -> None:
    """Replay the weekend on standard output, in a language of SCENARIOS."""
    scenario = read_toml(SCENARIOS[language])
    with tempfile.TemporaryDirectory(prefix="drawbar-demo-") as folder:
        chosen = settings(
            database=str(Path(folder) / "logbook.db"),
            units=scenario["units"],
            currency=scenario["currency"],
            time_zone=scenario["time_zone"],
            language=language,
        )
        zone = ZoneInfo(scenario["time_zone"])
        with speaking(language_of(chosen.preferences)):
            asyncio.run(_replay(list(messages(scenario, zone)), chosen, zone))


def messages(scenario: dict[str, object], zone: ZoneInfo) -> Iterator[Message]:
    """The scenario's messages, in order."""
    told = scenario["message"]
    if not isinstance(told, list):
        raise TypeError("a scenario is a list of messages")
    for number, each in enumerate(told, start=1):
        yield Message(
            network=NETWORK,
            chat=str(scenario["chat"]),
            id=str(number),
            author=each["by"].casefold(),
            name=each["by"],
            sent_at=each["at"].replace(tzinfo=zone),
            text=each["text"],
        )


async def _replay(told: list[Message], chosen: Settings, zone: ZoneInfo) -> None:
    stage = Stage(Console(highlight=False), list(dict.fromkeys(each.name for each in told)))
    async with drawbar(chosen, [stage]) as running:
        for message in told:
            stage.say(message, message.sent_at.astimezone(zone))
            await running.take(message)
