"""The reader on the corpora: messages of many hands, each with the one reading that is right.

The floors only ever rise. A corpus is never read around: what a message teaches goes into the
phrasebook or into a rule that names no example.
"""

from __future__ import annotations

from dataclasses import dataclass

import pytest

from bot.phrasebook import book_for
from domain.reading import explain
from tests.corpora import cases, corpora, run, totals
from tests.scoring import OUTCOMES


@dataclass(frozen=True, slots=True)
class Floor:
    """The least share of exact readings in %, and the most wrong readings and false alarms."""

    exact: float
    wrong: int
    alarm: int


UNMEASURED = Floor(exact=50.0, wrong=30, alarm=30)
"""For a corpus that is new and has no line of its own yet."""

FLOORS = {
    "asides": Floor(exact=98.5, wrong=0, alarm=0),
    "asked": Floor(exact=99.0, wrong=0, alarm=0),
    "askers": Floor(exact=95.5, wrong=0, alarm=0),
    "backroads": Floor(exact=99.0, wrong=0, alarm=0),
    "bystanders": Floor(exact=97.0, wrong=0, alarm=0),
    "byways": Floor(exact=99.0, wrong=0, alarm=0),
    "bywords": Floor(exact=99.0, wrong=0, alarm=0),
    "caravanserai": Floor(exact=95.5, wrong=0, alarm=0),
    "cattlegrid": Floor(exact=99.0, wrong=0, alarm=0),
    "causeway": Floor(exact=99.0, wrong=0, alarm=0),
    "chatter": Floor(exact=100.0, wrong=0, alarm=0),
    "coldthumbs": Floor(exact=97.5, wrong=0, alarm=0),
    "cornerpost": Floor(exact=94.0, wrong=2, alarm=1),
    "counter": Floor(exact=98.0, wrong=0, alarm=0),
    "crewtalk": Floor(exact=97.0, wrong=0, alarm=0),
    "crossroads": Floor(exact=97.5, wrong=0, alarm=0),
    "crosswinds": Floor(exact=96.0, wrong=2, alarm=0),
    "depot": Floor(exact=94.0, wrong=0, alarm=0),
    "eightvoices": Floor(exact=99.5, wrong=0, alarm=0),
    "eleven": Floor(exact=98.5, wrong=0, alarm=0),
    "fairground": Floor(exact=99.0, wrong=0, alarm=0),
    "families": Floor(exact=99.5, wrong=0, alarm=0),
    "farmgate": Floor(exact=99.0, wrong=0, alarm=0),
    "fencepost": Floor(exact=95.5, wrong=1, alarm=1),
    "fifteenfolk": Floor(exact=98.5, wrong=0, alarm=0),
    "fineprint": Floor(exact=99.0, wrong=0, alarm=0),
    "fiveways": Floor(exact=93.0, wrong=1, alarm=0),
    "forecourt": Floor(exact=98.0, wrong=0, alarm=0),
    "frontera": Floor(exact=97.0, wrong=0, alarm=0),
    "harbour": Floor(exact=98.0, wrong=0, alarm=0),
    "hardshoulder": Floor(exact=99.5, wrong=0, alarm=0),
    "haulroad": Floor(exact=98.5, wrong=0, alarm=0),
    "headwind": Floor(exact=99.0, wrong=0, alarm=0),
    "hedgerow": Floor(exact=97.5, wrong=1, alarm=0),
    "highway": Floor(exact=97.0, wrong=0, alarm=0),
    "homeplace": Floor(exact=99.0, wrong=0, alarm=0),
    "hubbub": Floor(exact=100.0, wrong=0, alarm=0),
    "jobsite": Floor(exact=97.0, wrong=0, alarm=0),
    "kitchentable": Floor(exact=99.0, wrong=0, alarm=0),
    "lanterns": Floor(exact=99.0, wrong=0, alarm=0),
    "layover": Floor(exact=94.5, wrong=0, alarm=0),
    "loadingdock": Floor(exact=95.0, wrong=0, alarm=0),
    "longhaul": Floor(exact=98.5, wrong=0, alarm=0),
    "manyhands": Floor(exact=98.5, wrong=0, alarm=0),
    "milestones": Floor(exact=99.0, wrong=0, alarm=0),
    "mixed": Floor(exact=99.0, wrong=0, alarm=0),
    "northisland": Floor(exact=98.0, wrong=0, alarm=1),
    "open": Floor(exact=100.0, wrong=0, alarm=0),
    "orals": Floor(exact=96.5, wrong=0, alarm=0),
    "orilla": Floor(exact=99.0, wrong=0, alarm=0),
    "overland": Floor(exact=99.0, wrong=0, alarm=0),
    "overseas": Floor(exact=99.0, wrong=0, alarm=0),
    "patchwork": Floor(exact=99.5, wrong=0, alarm=0),
    "pitstop": Floor(exact=98.0, wrong=0, alarm=0),
    "plainfolk": Floor(exact=98.5, wrong=0, alarm=0),
    "plainscale": Floor(exact=97.5, wrong=0, alarm=0),
    "pocket": Floor(exact=100.0, wrong=0, alarm=0),
    "prairie": Floor(exact=99.0, wrong=0, alarm=0),
    "quickhands": Floor(exact=96.5, wrong=0, alarm=0),
    "ridgeway": Floor(exact=99.0, wrong=0, alarm=0),
    "rigfolk": Floor(exact=97.0, wrong=0, alarm=0),
    "roadside": Floor(exact=99.5, wrong=0, alarm=0),
    "runons": Floor(exact=96.5, wrong=0, alarm=1),
    "scalehouse": Floor(exact=98.0, wrong=0, alarm=0),
    "season": Floor(exact=99.0, wrong=0, alarm=0),
    "secondword": Floor(exact=85.0, wrong=4, alarm=0),
    "sevenrigs": Floor(exact=98.0, wrong=0, alarm=0),
    "shorthand": Floor(exact=98.0, wrong=0, alarm=0),
    "signposts": Floor(exact=97.5, wrong=0, alarm=0),
    "sixstyles": Floor(exact=96.0, wrong=0, alarm=0),
    "smalltalk": Floor(exact=100.0, wrong=0, alarm=0),
    "spanish": Floor(exact=99.0, wrong=0, alarm=0),
    "steading": Floor(exact=98.5, wrong=0, alarm=0),
    "stockroute": Floor(exact=94.5, wrong=2, alarm=0),
    "storytellers": Floor(exact=81.5, wrong=9, alarm=0),
    "summer": Floor(exact=99.0, wrong=0, alarm=0),
    "switchback": Floor(exact=99.0, wrong=0, alarm=0),
    "tenhands": Floor(exact=98.5, wrong=0, alarm=0),
    "texters": Floor(exact=100.0, wrong=0, alarm=0),
    "textmessages": Floor(exact=99.5, wrong=0, alarm=0),
    "thermos": Floor(exact=97.5, wrong=0, alarm=0),
    "thicket": Floor(exact=98.0, wrong=0, alarm=0),
    "thirtyfolk": Floor(exact=95.0, wrong=0, alarm=0),
    "thornhedge": Floor(exact=95.5, wrong=0, alarm=0),
    "thumbpads": Floor(exact=99.0, wrong=0, alarm=0),
    "thumbs": Floor(exact=99.0, wrong=0, alarm=0),
    "tollgate": Floor(exact=97.5, wrong=0, alarm=0),
    "travellers": Floor(exact=99.0, wrong=0, alarm=0),
    "twelvefolk": Floor(exact=99.5, wrong=0, alarm=0),
    "twentyfolk": Floor(exact=95.0, wrong=0, alarm=0),
    "twentyhands": Floor(exact=95.0, wrong=0, alarm=0),
    "twentyvoices": Floor(exact=99.0, wrong=0, alarm=0),
    "viva": Floor(exact=99.0, wrong=0, alarm=0),
    "voices": Floor(exact=95.5, wrong=1, alarm=0),
    "washboard": Floor(exact=94.0, wrong=2, alarm=0),
    "waystation": Floor(exact=97.5, wrong=1, alarm=0),
    "weekenders": Floor(exact=99.0, wrong=0, alarm=0),
    "weighbeam": Floor(exact=98.0, wrong=0, alarm=0),
    "weighhouse": Floor(exact=98.0, wrong=0, alarm=0),
    "wondering": Floor(exact=92.0, wrong=0, alarm=0),
    "workday": Floor(exact=99.0, wrong=0, alarm=0),
    "yard": Floor(exact=100.0, wrong=0, alarm=0),
}


def test_every_floor_has_its_corpus() -> None:
    assert FLOORS.keys() <= set(corpora())


@pytest.mark.parametrize("name", corpora())
def test_a_corpus_is_read_at_least_as_well_as_before(name: str) -> None:
    results = [run(case, book_for(case.context)) for case in cases(name)]
    counts = totals(results)
    exact = 100 * counts["exact"] / len(results)
    line = ", ".join(f"{outcome} {counts[outcome]}" for outcome in OUTCOMES)
    print(f"{name}: {len(results)} messages, {exact:.1f} % exact: {line}")
    for result in results:
        if result.score.outcome != "exact":
            print(result)
    floor = FLOORS.get(name, UNMEASURED)
    assert counts["crash"] == 0
    assert counts["wrong"] <= floor.wrong
    assert counts["alarm"] <= floor.alarm
    assert exact >= floor.exact


EVERY = 20
"""Messages from one that is explained to the next: explaining takes ten times a reading's time."""


@pytest.mark.parametrize("name", corpora())
def test_every_reading_can_be_explained(name: str) -> None:
    for case in cases(name)[::EVERY]:
        told = explain(case.text, case.context, book_for(case.context))
        assert told.splitlines()[0].startswith("message "), case.text
        assert "verdict " in told, case.text
