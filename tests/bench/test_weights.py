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
from tests.domain.scale_house import START, Ticket, flatdeck, juniper

PREFERENCES = Preferences()
ROUNDS = 60


def three_passes() -> Ticket:
    """All ratings, three passes and two fills between them."""
    return (
        Ticket(*juniper(), *flatdeck())
        .hitched()
        .weighs(bars="on", aboard=2, steer=5100, drive=4480, trailer=8160)
        .fills(12)
        .weighs(bars="off", aboard=2, steer=4740, drive=5080, trailer=8000)
        .fills(8)
        .weighs("solo", aboard=1, steer=5060, drive=3580)
    )


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

    The fastest is what it costs; the median, what others on the machine leave of it.
    """
    taken = []
    answer = Answer(headline="")
    for _ in range(ROUNDS):
        fresh = Log(log)
        last = fresh.of(Weighing)[-1]
        start = time.perf_counter()
        answer = weighing_answer(fresh, PREFERENCES, START, last)
        taken.append(1000 * (time.perf_counter() - start))
    return answer, min(taken), median(taken)


@pytest.mark.bench
def test_a_full_weighing_answer_is_the_same_and_quick_in_a_log_of_any_length(
    capsys: pytest.CaptureFixture[str],
) -> None:
    passes = list(three_passes().log)
    answers = []
    for stops in (0, 100, 1000, 5000):
        log = Log([*years_of_driving(stops), *passes])
        answer, fastest, usual = answered(log)
        answers.append(answer)
        with capsys.disabled():
            print(
                f"\nweighing answer, {len(log):6,} entries: {usual:5.2f} ms of 5 ms, "
                f"the fastest {fastest:.2f}",
                end="",
            )
    assert answers == [answers[0]] * len(answers)
