"""Messages that set something lasting or ask after it, each as it would be texted."""

from __future__ import annotations

from datetime import UTC, datetime

import pytest
from hypothesis import given
from hypothesis import strategies as st

from bot.phrasebook import phrasebook
from bot.reference import points_table, upkeep_table
from domain.context import Context
from domain.entries import Check, Entry, Odometer, Rating
from domain.quantities import Quantity
from domain.reading import read
from domain.reading.standing import called_by, fitting_patterns
from domain.verdicts import Facts, Question, Verdict
from tests.corpora import cases
from tests.domain.driving_log import mi

STANDING = phrasebook().standing
assert STANDING is not None
WORDS = STANDING

CHAT = Context(
    sent_at=datetime(2026, 7, 11, 20, 22, tzinfo=UTC),
    odometer=Quantity(48010, "mi"),
    trailers=("flatdeck", "camper"),
)


def said(text: str) -> Verdict:
    return read(text, CHAT, phrasebook())


@pytest.mark.parametrize(
    ("text", "entries"),
    [
        ("oil every 5,000 miles", [Rating(subject="oil", rating="every", value=mi(5000))]),
        (
            "can you remind us to change the oil every 5,000 miles",
            [Rating(subject="oil", rating="every", value=mi(5000))],
        ),
        ("anode every 18 months", [Rating(subject="anode", rating="every_days", value=548)]),
        (
            "remind me to repack the bearings in 9,000 miles",
            [Rating(subject="bearings", rating="due_in", value=mi(9000))],
        ),
        (
            "remind us to check the brakes in 6 months on the camper",
            [Rating(subject="brakes", rating="due_in_days", value=183, trailer="camper")],
        ),
        (
            "remind me in another 3k miles to rotate the tires",
            [Rating(subject="rotate the tires", rating="due_in", value=mi(3000))],
        ),
        (
            "next oil change in 4,200 miles",
            [Rating(subject="oil change", rating="due_in", value=mi(4200))],
        ),
        (
            "fuel filter due in 800 mi",
            [Rating(subject="fuel filter", rating="due_in", value=mi(800))],
        ),
        (
            "oil changed at 47,100, every 6000 miles",
            [
                Rating(subject="oil", rating="every", value=mi(6000)),
                Rating(subject="oil", rating="done_at", value=mi(47_100)),
            ],
        ),
        (
            "oil change every 10,000 mi or 12 months, whichever comes first",
            [
                Rating(subject="oil change", rating="every", value=mi(10_000)),
                Rating(subject="oil change", rating="every_days", value=365),
            ],
        ),
        (
            "repack bearings every 1 year or 12,000 miles on the camper",
            [
                Rating(subject="bearings", rating="every_days", value=365, trailer="camper"),
                Rating(subject="bearings", rating="every", value=mi(12_000), trailer="camper"),
            ],
        ),
        ("Oil change every 5k mi.", [Rating(subject="oil change", rating="every", value=mi(5000))]),
        (
            "remind us to repack the bearings every 12 months on the camper",
            [Rating(subject="bearings", rating="every_days", value=365, trailer="camper")],
        ),
        (
            "flatdeck bearings every 10,000 miles",
            [Rating(subject="bearings", rating="every", value=mi(10000), trailer="flatdeck")],
        ),
        (
            "every 15000 km change the fuel filter",
            [Rating(subject="fuel filter", rating="every", value=Quantity(15000, "km"))],
        ),
        ("oil changed", [Check(item="oil", state="done")]),
        ("changed the oil, 48655", [Check(item="oil", state="done"), Odometer(odometer=mi(48655))]),
        (
            "repacked the bearings on the camper",
            [Check(item="bearings", state="done", trailer="camper")],
        ),
        (
            "tire rotation done at 48,655",
            [Check(item="tire rotation", state="done"), Odometer(odometer=mi(48655))],
        ),
        (
            "oil every 5,000 miles, last at 46,200",
            [
                Rating(subject="oil", rating="every", value=mi(5000)),
                Rating(subject="oil", rating="done_at", value=mi(46_200)),
            ],
        ),
        (
            "service every 12 months or 10k miles, last one was at 44000 miles",
            [
                Rating(subject="service", rating="every_days", value=365),
                Rating(subject="service", rating="every", value=mi(10_000)),
                Rating(subject="service", rating="done_at", value=mi(44_000)),
            ],
        ),
        (
            "flatdeck bearings every 12,000 miles done at 41,500",
            [
                Rating(subject="bearings", rating="every", value=mi(12_000), trailer="flatdeck"),
                Rating(subject="bearings", rating="done_at", value=mi(41_500), trailer="flatdeck"),
            ],
        ),
        (
            "Last oil change was at 45,100.",
            [Rating(subject="oil change", rating="done_at", value=mi(45_100))],
        ),
        (
            "the fuel filter was last changed at 40,020 miles",
            [Rating(subject="fuel filter", rating="done_at", value=mi(40_020))],
        ),
        (
            "last time we repacked the bearings on the camper was at 44,000",
            [Rating(subject="bearings", rating="done_at", value=mi(44_000), trailer="camper")],
        ),
        ("oil done at 46,000", [Rating(subject="oil", rating="done_at", value=mi(46_000))]),
        ("changed the oil, 47,990", [Rating(subject="oil", rating="done_at", value=mi(47_990))]),
        (
            "odo reads 100, posts say 98.2",
            [Rating(subject="odometer", rating="factor", value=0.982)],
        ),
        (
            "odometer shows 50 miles but the gps says 51",
            [Rating(subject="odometer", rating="factor", value=1.02)],
        ),
        ("the odometer has five digits", [Rating(subject="odometer", rating="digits", value=5.0)]),
        (
            "new cluster, reads 12 miles",
            [Rating(subject="odometer", rating="replaced", value=mi(12))],
        ),
        ("def tank 5 gal", [Rating(subject="truck", rating="def_tank", value=Quantity(5, "gal"))]),
        (
            "add hive straps to the walk-round",
            [Rating(subject="walk-round", rating="hive straps", value=1.0)],
        ),
        (
            "drop mirrors from the checklist",
            [Rating(subject="walk-round", rating="mirrors", value=0.0)],
        ),
    ],
)
def test_what_lasts_is_read_as_a_whole(text: str, entries: list[Entry]) -> None:
    for dressed in (text, text.upper(), f"{text}.", f"  {text} "):
        verdict = said(dressed)
        assert isinstance(verdict, Facts), dressed
        assert list(verdict.entries) == entries


@pytest.mark.parametrize(
    ("text", "question"),
    [
        ("walk round", {"topic": "upkeep", "item": "walk-round"}),
        ("did we do the walkround today", {"topic": "upkeep", "item": "walk-round"}),
        ("who did the last walkaround?", {"topic": "upkeep", "item": "walk-round"}),
        ("is the walk-round done yet", {"topic": "upkeep", "item": "walk-round"}),
        ("walkaround?", {"topic": "upkeep", "item": "walk-round"}),
        ("where are we with the walkround", {"topic": "upkeep", "item": "walk-round"}),
        ("how much def do we use", {"topic": "economy", "product": "def"}),
        ("def left?", {"topic": "economy", "product": "def"}),
    ],
)
def test_what_lasts_is_asked_after(text: str, question: dict[str, str]) -> None:
    verdict = said(text)
    assert isinstance(verdict, Question)
    assert {name: getattr(verdict, name) for name in question} == question


@pytest.mark.parametrize(
    "text",
    [
        "he calls every 5 days",
        "we see them every 3 months",
        "oil prices change every 2 weeks",
        "odo reads 100, posts say 40",
        "they said oil every 5000 miles is a waste",
        "someone should add more straps to the list of things we lost",
    ],
)
def test_talk_about_such_things_stays_talk(text: str) -> None:
    verdict = said(text)
    assert not (
        isinstance(verdict, Facts)
        and any(isinstance(each, Rating | Check) for each in verdict.entries)
    )


def test_every_point_of_the_walk_round_is_ticked_by_its_own_name() -> None:
    """A button sends the point's name back as a text."""
    points = points_table().points
    for point in points:
        verdict = said(point.name)
        assert isinstance(verdict, Facts), point.name
        (check,) = verdict.entries
        assert isinstance(check, Check)
        assert [each.name for each in points if each.means(check.item)] == [point.name]


def test_every_kind_of_upkeep_can_be_set_and_done_by_each_of_its_names() -> None:
    for chore in upkeep_table().chores:
        for word in chore.words:
            verdict = said(f"{word} every 4000 miles")
            assert isinstance(verdict, Facts), word
            (rating,) = verdict.entries
            assert isinstance(rating, Rating)
            assert upkeep_table().chore(rating.subject) == chore


NAMES = ("camper", "flat deck", "no 2", "the long one")
CALLED = called_by(NAMES, WORDS)


@pytest.mark.parametrize("index", range(len(WORDS.patterns)))
@given(data=st.data(), trailer=st.sampled_from(NAMES))
def test_what_a_pattern_says_is_held_against_it(
    index: int, data: st.DataObject, trailer: str
) -> None:
    _, pattern = WORDS.patterns[index]
    said = data.draw(st.from_regex(pattern.replace("{trailer}", trailer), fullmatch=True))
    said = " ".join(said.split())
    assert fitting_patterns(said, WORDS, CALLED) >> index & 1
    assert said[0] in WORDS.letters or said.startswith(trailer)


def test_most_that_is_said_is_held_against_none() -> None:
    talk = [case.text for case in cases("chatter")]
    assert (
        sum(fitting_patterns(text.casefold(), WORDS, CALLED) > 0 for text in talk) < len(talk) / 10
    )
