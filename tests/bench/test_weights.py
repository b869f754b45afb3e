"""How long one full weighing answer takes, in an empty logbook and in a long one.

The time is printed beside the 5 ms that are aimed at, and not asserted: a shared machine's
clock is no judge. What is asserted is that a long log changes nothing in the answer.
"""

from __future__ import annotations

import time
from datetime import timedelta
from statistics import median

import pytest

from bot.answers.answer import Answer
from bot.answers.weights import weighing_answer
from domain.entries import Entry, Fill, Hitch, Odometer, Weighing
from domain.log import Log, Logged, Preferences
from domain.quantities import Quantity
from tests.bench.figures import Figures
from tests.domain.day_at_the_scale import three_passes_two_fills
from tests.domain.scale_house import START

PREFERENCES = Preferences()
ROUNDS = 60


def years_of_driving(stops: int) -> list[Logged[Entry]]:
    """A reading, a fill and now and then a weighing at each stop, before the day of the passes."""
    entries: list[Logged[Entry]] = []
    for stop in range(stops):
        at = START - timedelta(days=2) - timedelta(hours=9 * (stops - stop))
        miles = Quantity(10_000 + 250.0 * stop, "mi")
        told: list[Entry] = [
            Odometer(odometer=miles, event="depart"),
            Fill(product="diesel", volume=Quantity(21.0, "gal"), odometer=miles, full=True),
        ]
        if stop % 10 == 0:
            told += [
                Hitch(action="hitched", trailer="flatdeck"),
                Weighing(rig="hitched", loads={"gross": Quantity(17_600, "lb")}),
            ]
        entries += [Logged(entry=each, at=at, key=-stop) for each in told]
    return entries


def answered(log: Log) -> tuple[Answer, float, float]:
    """The answer, its fastest and its median time in ms, on a fresh log each round.

    Times are of the processor, so that what else runs on the machine counts little.
    """
    taken = []
    answer = Answer(headline="")
    last = log.of(Weighing)[-1]
    for _ in range(ROUNDS):
        fresh = Log(log)
        start = time.process_time()
        answer = weighing_answer(fresh, PREFERENCES, START, last)
        taken.append(1000 * (time.process_time() - start))
    return answer, min(taken), median(taken)


@pytest.mark.bench
def test_a_full_weighing_answer_is_the_same_and_quick_in_a_log_of_any_length(
    capsys: pytest.CaptureFixture[str], figures: Figures
) -> None:
    passes = list(three_passes_two_fills().log)
    answers = []
    for stops in (0, 100, 1000, 5000):
        log = Log([*years_of_driving(stops), *passes])
        answer, fastest, usual = answered(log)
        answers.append(answer)
        figures.note(f"a full weighing answer, {len(log):,} entries", usual, "ms", "5 ms, aimed at")
        with capsys.disabled():
            print(
                f"\nweighing answer, {len(log):6,} entries: {usual:5.2f} ms of 5 ms, "
                f"the fastest {fastest:.2f}",
                end="",
            )
    assert answers == [answers[0]] * len(answers)
