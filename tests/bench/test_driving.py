"""How long answers about driving take as the log grows.

Times are of the processor, so that what else runs on the machine counts little.
"""

from __future__ import annotations

import statistics
import time
from collections.abc import Callable

import pytest

from bot.answers import ahead, fuel, spans, trips
from bot.answers.answer import Answer
from domain.entries import Entry, Odometer
from domain.log import Log, Logged, Preferences
from domain.verdicts import Question
from tests.bench.figures import Figures
from tests.domain.simulated import Habits, Life, live

pytestmark = pytest.mark.bench

ENTRIES = 20_000
TopicAnswer = Callable[..., Answer]


def busy_log(years: int) -> tuple[Life, Log]:
    """A life with 2,000 entries a year: its own, and bare odometer readings between them."""
    life = live(3, Habits(days=365 * years))
    own = sorted(life.entries, key=lambda each: each.at)
    filler: list[Logged[Entry]] = []
    while len(own) + len(filler) < ENTRIES * years // 10:
        for each in own:
            if isinstance(each.entry, Odometer):
                key = 1_000_000 + len(filler)
                filler.append(Logged(entry=each.entry, at=each.at, by="Ben", key=key))
            if len(own) + len(filler) >= ENTRIES * years // 10:
                break
    return life, Log([*own, *filler])


def milliseconds(answer: TopicAnswer, log: Log, life: Life) -> float:
    """The median of nine answers, after one that warms up what is imported on first use."""
    question = Question(topic="economy")
    took = []
    for _ in range(10):
        started = time.process_time()
        answer(log, Preferences(), life.now, question)
        took.append((time.process_time() - started) * 1000)
    return statistics.median(took[1:])


def test_economy_from_ten_years_takes_no_longer_than_from_one(figures: Figures) -> None:
    one_life, one = busy_log(1)
    ten_life, ten = busy_log(10)
    short = milliseconds(fuel.economy_answer, one, one_life)
    long = milliseconds(fuel.economy_answer, ten, ten_life)
    print(f"economy: {len(one):,} entries {short:.0f} ms, {len(ten):,} entries {long:.0f} ms")
    figures.note("economy of ten years beside one: time", long / short, "times", "1.5")
    assert long <= 1.5 * short


@pytest.mark.parametrize(
    "answer", [ahead.range_answer, trips.trip_answer, spans.week_answer, spans.period_answer]
)
def test_an_answer_from_ten_years_comes_within_a_second_and_a_half(
    answer: TopicAnswer, figures: Figures
) -> None:
    life, log = busy_log(10)
    took = milliseconds(answer, log, life)
    print(f"{answer.__name__}: {len(log):,} entries {took:.0f} ms")
    topic = answer.__name__.removesuffix("_answer")
    figures.note(f"answer from ten years, {len(log):,} entries: {topic}", took, "ms", "1,500 ms")
    assert took <= 1500
