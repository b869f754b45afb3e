"""Somebody who knows nothing of Drawbar, and texts only what it says can be texted."""

from __future__ import annotations

import tempfile
from datetime import UTC, datetime, timedelta
from pathlib import Path

import pytest

from bot.answers.answer import Answer
from bot.answers.language import language_of, say, speaking
from bot.answers.words import sentence
from bot.messages import Delivered, Letter, Outcome
from bot.networks import terminal
from bot.settings import settings
from bot.wiring import Drawbar, drawbar
from domain.log import Preferences

SATURDAY = datetime(2026, 5, 30, 14, 0, tzinfo=UTC)
MOST_TEXTS = 8
SUCH_AS = {"en": "such as: ", "es": "por ejemplo: "}
CHATS = (
    Preferences(time_zone="America/Boise"),
    Preferences(units="metric", currency="AUD", time_zone="Australia/Perth"),
    Preferences(units="imperial", currency="GBP", time_zone="Europe/London"),
    Preferences(units="us", currency="USD", language="es", time_zone="America/Boise"),
    Preferences(units="metric", currency="EUR", language="es", time_zone="Europe/Madrid"),
)


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

    def __init__(self, running: Drawbar, told: Told, language: str) -> None:
        self._running = running
        self._told = told
        self._such_as = SUCH_AS[language]
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
        while (missing := self.shown()) and len(self.texts) < MOST_TEXTS:
            await self.text(missing)

    def shown(self) -> str | None:
        """What the last answer shows to be texted."""
        notes = (note.partition(self._such_as)[2].rstrip(".") for note in self._told.answer.notes)
        return next(filter(None, notes), None)


@pytest.mark.parametrize("chat", CHATS, ids=lambda each: f"{each.units} {each.language}")
async def test_a_newcomer_has_every_margin_within_eight_texts(chat: Preferences) -> None:
    told = Told()
    with tempfile.TemporaryDirectory() as folder, speaking(language_of(chat)):
        chosen = settings(
            database=str(Path(folder) / "log.db"),
            time_zone=chat.time_zone,
            units=chat.units,
            currency=chat.currency,
            language=chat.language,
        )
        async with drawbar(chosen, [told]) as running:
            wren = Newcomer(running, told, chat.language)
            await wren.text("help")
            examples = dict(wren.examples)
            await wren.text(examples[say("a rig")])
            await wren.text(wren.shown() or "")
            await wren.text(examples[say("a trailer")])
            await wren.text_what_is_missing()
            await wren.text(examples[say("the truck alone")])
            answer = await wren.text(examples[say("a weighing")])
        assert len(wren.texts) <= MOST_TEXTS, wren.texts
        lacking = say("Not given: {ratings}.", ratings="")[:-1]
        assert not [note for note in answer.notes if note.startswith(lacking)], answer.notes
        over = say("Over: {limits}.", limits="")[:-1]
        assert answer.headline.startswith(over), "the example is of a truck that carries too much"
        labels = {row.label for row in answer.rows}
        assert {sentence(say(each)) for each in ("gross", "truck", "trailer axles")} <= labels
