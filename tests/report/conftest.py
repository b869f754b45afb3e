"""Logbooks to report on: the demo's weekend and season, texted through the whole of Drawbar."""

from __future__ import annotations

import asyncio
from collections.abc import Sequence
from dataclasses import dataclass, replace
from datetime import UTC, datetime, timedelta
from pathlib import Path
from zoneinfo import ZoneInfo

import pytest

from bot.answers.answer import Answer
from bot.answers.language import language_of, speaking
from bot.answers.pictures import Picture
from bot.demo import messages
from bot.report.composing import Asked, report
from bot.report.value import Report, Table
from bot.settings import settings
from bot.shared_data import read_toml
from bot.store import journal, standing
from bot.store.database import open_store
from bot.store.tables import LogbookRow
from bot.wiring import drawbar
from domain.log import Log, Preferences
from tests.letters import Letters

NOW = datetime(2026, 11, 25, 12, tzinfo=UTC)

ONE_PIXEL = bytes.fromhex(
    "89504e470d0a1a0a0000000d49484452000000010000000108000000003a7e9b55"
    "0000000a49444154789c63680000008200817ed0c7a70000000049454e44ae426082"
)
"""A PNG of one grey pixel (W3C Recommendation, PNG)."""


@dataclass(frozen=True, slots=True)
class Book:
    """A logbook as it stands, its preferences, the file that it is in, and what was answered."""

    log: Log
    preferences: Preferences
    path: Path
    heard: tuple[Answer, ...]

    def report(self, asked: Asked | None = None, now: datetime = NOW) -> Report:
        with speaking(language_of(self.preferences)):
            return report(self.log, self.preferences, now, asked or Asked())


def book(path: Path, scenario_name: str, also: Sequence[str] = ()) -> Book:
    """A scenario of the demo lived through, and what is texted by its last author after it."""
    scenario = read_toml(f"demo/{scenario_name}.toml")
    chosen = settings(
        database=str(path),
        units=scenario["units"],
        currency=scenario["currency"],
        time_zone=scenario["time_zone"],
    )
    ear = Letters("demo")

    async def live() -> None:
        told = list(messages(scenario, ZoneInfo(scenario["time_zone"])))
        for number, text in enumerate(also, start=1):
            at = told[-1].sent_at + timedelta(minutes=1)
            told.append(replace(told[-1], id=f"also {number}", text=text, sent_at=at))
        async with drawbar(chosen, [ear]) as running:
            for message in told:
                await running.take(message)

    asyncio.run(live())
    store = open_store(str(path))
    with store.look() as session:
        log = standing.log(session, 1)
        preferences = journal.preferences_of(session.get_one(LogbookRow, 1))
    store.close()
    return Book(log, preferences, path, tuple(ear.answers))


@pytest.fixture(scope="session")
def season(tmp_path_factory: pytest.TempPathFactory) -> Book:
    """The season, with upkeep, a fault and a note at the end of it."""
    also = (
        "oil change done",
        "oil every 5,000 miles",
        "left marker light out on the flatdeck",
        "note: the spring hanger was welded",
        "june summary pls",
        "hows the trip looking so far, fuel and miles",
    )
    return book(tmp_path_factory.mktemp("season") / "season.db", "season", also)


@pytest.fixture(scope="session")
def weekend(tmp_path_factory: pytest.TempPathFactory) -> Book:
    return book(tmp_path_factory.mktemp("weekend") / "weekend.db", "weekend")


def grey(picture: Picture) -> bytes:
    """A picture drawn in no time, for tests of what stands around it."""
    return ONE_PIXEL


def table(of: Report, section: str, caption: str = "") -> Table:
    """The table of a section whose caption begins so."""
    (part,) = (each for each in of.sections if each.title == section)
    return next(each for each in part.tables if each.caption.startswith(caption))


def column(of: Table, heading: str) -> list[str]:
    """The cells of a column."""
    place = [each.heading for each in of.columns].index(heading)
    return [row[place] for row in of.rows]
