"""The reader on the corpora: messages of many hands, each with the one reading that is right.

The floors only ever rise. A corpus is never read around: what a message teaches goes into the
phrasebook or into a rule that names no example.
"""

from __future__ import annotations

from dataclasses import dataclass

import pytest

from domain.reading import Phrasebook
from tests.corpora import cases, corpora, run, totals
from tests.scoring import OUTCOMES


@dataclass(frozen=True, slots=True)
class Floor:
    """The least share of exact readings in %, and the most wrong readings and false alarms."""

    exact: float
    wrong: int
    alarm: int


FLOORS = {
    "chatter": Floor(exact=97.5, wrong=0, alarm=8),
    "mixed": Floor(exact=85.0, wrong=2, alarm=0),
    "open": Floor(exact=98.0, wrong=0, alarm=1),
    "overseas": Floor(exact=88.0, wrong=7, alarm=0),
    "prairie": Floor(exact=90.0, wrong=4, alarm=1),
}


def test_every_corpus_has_its_floor() -> None:
    assert sorted(FLOORS) == corpora()


@pytest.mark.parametrize("name", FLOORS)
def test_a_corpus_is_read_at_least_as_well_as_before(name: str, book: Phrasebook) -> None:
    results = [run(case, book) for case in cases(name)]
    counts = totals(results)
    exact = 100 * counts["exact"] / len(results)
    line = ", ".join(f"{outcome} {counts[outcome]}" for outcome in OUTCOMES)
    print(f"{name}: {len(results)} messages, {exact:.1f} % exact: {line}")
    for result in results:
        if result.score.outcome != "exact":
            print(result)
    floor = FLOORS[name]
    assert counts["crash"] == 0
    assert counts["wrong"] <= floor.wrong
    assert counts["alarm"] <= floor.alarm
    assert exact >= floor.exact
