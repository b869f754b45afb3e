"""Somebody who knows nothing of Drawbar, and texts only what it says can be texted."""

from __future__ import annotations

import tempfile
from datetime import UTC, datetime, timedelta
from pathlib import Path

from bot.answers.answer import Answer
from bot.messages import Delivered, Letter, Outcome
from bot.networks import terminal
from bot.settings import settings
from bot.wiring import Drawbar, drawbar

SATURDAY = datetime(2026, 5, 30, 14, 0, tzinfo=UTC)
MOST_TEXTS = 8
SUCH_AS = "such as: "


class Told:
    """A network that keeps the last answer."""

    name = terminal.NAME
    once_by_key = False

    def __init__(self) -> None:
        self.answer = Answer(headline="")

    async def send(self, letter: Letter) -> Outcome:
        self.answer = letter.answer
        return Delivered()


class Newcomer:
    """Texts examples as they are given, and what is missing as it is asked for."""

    def __init__(self, running: Drawbar, told: Told) -> None:
        self._running = running
        self._told = told
        self.texts: list[str] = []
        self.examples: dict[str, str] = {}

    async def text(self, words: str) -> Answer:
        self.texts.append(words)
        at = SATURDAY + timedelta(minutes=len(self.texts))
        await self._running.take(terminal.message(words, "Wren", at))
        self.examples |= {row.label: row.figure for row in self._told.answer.rows}
        return self._told.answer

    async def text_what_is_missing(self) -> None:
        """As long as something is said to be missing: text it as the answer shows."""
        while (missing := _shown(self._told.answer)) and len(self.texts) < MOST_TEXTS:
            await self.text(missing)


def _shown(answer: Answer) -> str | None:
    notes = (note.partition(SUCH_AS)[2].rstrip(".") for note in answer.notes)
    return next(filter(None, notes), None)


async def test_a_newcomer_has_every_margin_within_eight_texts() -> None:
    told = Told()
    with tempfile.TemporaryDirectory() as folder:
        chosen = settings(database=str(Path(folder) / "log.db"), time_zone="America/Boise")
        async with drawbar(chosen, [told]) as running:
            wren = Newcomer(running, told)
            await wren.text("help")
            examples = dict(wren.examples)
            await wren.text(examples["a rig"])
            await wren.text(_shown(told.answer) or "")
            await wren.text(examples["a trailer"])
            await wren.text_what_is_missing()
            await wren.text(examples["the truck alone"])
            answer = await wren.text(examples["a weighing"])
    assert len(wren.texts) <= MOST_TEXTS, wren.texts
    assert not [note for note in answer.notes if "Not given" in note], answer.notes
    assert answer.headline.startswith("Over: "), "the example is of a truck that carries too much"
    assert {"Gross", "Truck", "Trailer axles"} <= {row.label for row in answer.rows}
