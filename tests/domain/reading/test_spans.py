"""The days that a question names: a month of a year, a quarter, a year, a date to a date."""

from __future__ import annotations

from datetime import date

import pytest

from bot.phrasebook import phrasebook
from domain.reading import read
from domain.verdicts import Question, Silent
from tests.domain.reading.chats import Reader, chat, on_the_road

SPANS = {
    "totals for june 2025": ("2025-06-01", "2025-06-30"),
    "how many miles did we tow in march 2025": ("2025-03-01", "2025-03-31"),
    "mpg february 2024": ("2024-02-01", "2024-02-29"),
    "summary of may": ("2026-05-01", "2026-05-31"),
    "totals for 2025": ("2025-01-01", "2025-12-31"),
    "how much did we spend on fuel in 2025": ("2025-01-01", "2025-12-31"),
    "2024 totals": ("2024-01-01", "2024-12-31"),
    "totals since 2025": ("2025-01-01", None),
    "q2 totals": ("2026-04-01", "2026-06-30"),
    "summary for q3": ("2026-07-01", "2026-09-30"),
    "totals Q4": ("2025-10-01", "2025-12-31"),
    "totals Q1 2025": ("2025-01-01", "2025-03-31"),
    "mpg q2": ("2026-04-01", "2026-06-30"),
    "Summarise the period 1 October 2025 to 31 October 2025.": ("2025-10-01", "2025-10-31"),
    "summary from 1 May 2025 to 31 May 2025": ("2025-05-01", "2025-05-31"),
    "recap of may 1 2025 to may 9 2025": ("2025-05-01", "2025-05-09"),
    "summary dec 20 to jan 5 2026": ("2025-12-20", "2026-01-05"),
    "summary feb 29 2024 to mar 5 2024": ("2024-02-29", "2024-03-05"),
    "summary from 1 to 15 june": ("2026-06-01", "2026-06-15"),
    "recap 5 to 9 march": ("2026-03-05", "2026-03-09"),
    "totals for the period june 3 to june 9": ("2026-06-03", "2026-06-09"),
    "how many miles did we tow last summer": ("2025-06-01", "2025-08-31"),
    "what did diesel cost us this spring": ("2026-03-01", "2026-05-31"),
    "fuel cost last winter": ("2025-12-01", "2026-02-28"),
    "miles towed since spring": ("2026-03-01", None),
    "miles towed in the fall of 2024": ("2024-09-01", "2024-11-30"),
}

SPANISH = {
    "resumen de mayo de 2025": ("2025-05-01", "2025-05-31"),
    "totales de 2025": ("2025-01-01", "2025-12-31"),
    "resumen del 1 de mayo de 2026 al 31 de mayo de 2026": ("2026-05-01", "2026-05-31"),
    "totales del t2": ("2026-04-01", "2026-06-30"),
    "resumen del trimestre 1": ("2026-01-01", "2026-03-31"),
}

TALK = """
    this period in history
    first period was fun
    what period is it
    q2 was rough
    numbers for q2 due friday
    whats the q3 number
    we bought it in 2025
    how was 2025
    back in 2025 we had a camper
    see you in 2027
"""


def days(text: str | None) -> date | None:
    return date.fromisoformat(text) if text else None


@pytest.mark.parametrize(("text", "span"), SPANS.items(), ids=SPANS.keys())
def test_a_question_runs_over_the_days_that_it_names(
    text: str, span: tuple[str, str | None], reads: Reader
) -> None:
    asked = reads(text, on_the_road())
    assert isinstance(asked, Question)
    assert (asked.since, asked.until) == tuple(map(days, span))


@pytest.mark.parametrize(("text", "span"), SPANISH.items(), ids=SPANISH.keys())
def test_so_it_does_in_spanish(text: str, span: tuple[str, str | None]) -> None:
    asked = read(text, on_the_road(language="es"), phrasebook("es"))
    assert isinstance(asked, Question)
    assert (asked.since, asked.until) == tuple(map(days, span))


@pytest.mark.parametrize("text", [line.strip() for line in TALK.strip().splitlines()])
def test_a_year_and_a_period_are_also_talked_of(text: str, reads: Reader) -> None:
    assert reads(text, on_the_road()) == Silent()
    assert reads(text, chat()) == Silent()


def test_seasons_are_the_other_way_round_south_of_the_equator(reads: Reader) -> None:
    """Summer in Australia is December to February (Bureau of Meteorology, seasons)."""
    perth = on_the_road(units="metric", currency="AUD", time_zone="Australia/Perth")
    verdict = reads("how far did we tow last summer", perth)
    assert isinstance(verdict, Question)
    assert (verdict.since, verdict.until) == (date(2025, 12, 1), date(2026, 2, 28))
