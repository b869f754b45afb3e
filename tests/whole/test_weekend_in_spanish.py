"""The demonstration's weekend, told in Spanish: the same records, and Spanish answers."""

from __future__ import annotations

import asyncio
import re
from contextlib import closing
from dataclasses import replace
from pathlib import Path
from zoneinfo import ZoneInfo

import pytest

from bot.answers.answer import Answer
from bot.demo import NETWORK, SCENARIOS, messages
from bot.messages import Delivered, Letter, Outcome
from bot.settings import settings
from bot.shared_data import read_toml
from bot.store import journal, standing
from bot.store.database import open_store
from bot.wiring import drawbar
from domain.entries import Check, Correction, Entry
from domain.log import Logged


class Heard:
    """A network that keeps what was sent."""

    name = NETWORK
    once_by_key = False

    def __init__(self) -> None:
        self.answers: list[Answer] = []

    async def send(self, letter: Letter) -> Outcome:
        self.answers.append(letter.answer)
        return Delivered()


Weekend = tuple[list[Answer], list[Logged[Entry]]]


def lived(language: str, folder: Path) -> Weekend:
    """The answers of a weekend, and what its logbook keeps."""
    scenario = read_toml(SCENARIOS[language])
    zone = ZoneInfo(scenario["time_zone"])
    chosen = settings(
        database=str(folder / "log.db"),
        units=scenario["units"],
        currency=scenario["currency"],
        time_zone=scenario["time_zone"],
        language=language,
    )
    heard = Heard()

    async def replay() -> None:
        async with drawbar(chosen, [heard]) as running:
            for message in messages(scenario, zone):
                await running.take(message)

    asyncio.run(replay())
    with closing(open_store(chosen.database)) as store, store.work() as session:
        chat = journal.chat_of(session, NETWORK, scenario["chat"])
        assert chat is not None
        return heard.answers, list(standing.log(session, chat.logbook_id))


@pytest.fixture(scope="module")
def english(tmp_path_factory: pytest.TempPathFactory) -> Weekend:
    return lived("en", tmp_path_factory.mktemp("english"))


@pytest.fixture(scope="module")
def spanish(tmp_path_factory: pytest.TempPathFactory) -> Weekend:
    return lived("es", tmp_path_factory.mktemp("spanish"))


CALLED = {"tuercas": "lug nuts", "cadenas": "chains", "huerto": "orchard"}
"""What is kept in the texter's own words, in both languages."""


def unworded(logged: Logged[Entry]) -> Logged[Entry]:
    """An entry without the words that it was read from, its own words in English."""
    entry = replace(logged.entry, words=())
    if entry.place in CALLED:
        entry = replace(entry, place=CALLED[entry.place])
    if isinstance(entry, Check):
        entry = replace(entry, item=CALLED.get(entry.item, entry.item))
    return replace(logged, entry=entry)


def test_both_weekends_keep_the_same_records(english: Weekend, spanish: Weekend) -> None:
    kept = [unworded(each) for each in spanish[1]]
    assert kept == [unworded(each) for each in english[1]]
    assert len(kept) > 20
    assert not any(isinstance(each.entry, Correction) for each in kept)


def test_both_weekends_are_answered_where_the_other_is(english: Weekend, spanish: Weekend) -> None:
    assert len(spanish[0]) == len(english[0])
    figures = [re.findall(r"\d[\d,.]*\d", each.headline) for each in spanish[0]]
    assert figures == [re.findall(r"\d[\d,.]*\d", each.headline) for each in english[0]]


def test_the_spanish_weekend_is_answered_in_spanish(english: Weekend, spanish: Weekend) -> None:
    headlines = [each.headline for each in spanish[0]]
    assert headlines[0] == "Juniper: 6 límites guardados."
    assert "Excedido: eje motriz por 60 lb. No remolques así." in headlines
    assert not {each.headline for each in english[0]} & set(headlines)
