"""Questions asked in passing: a clause before them, how exactly behind, dates as machines write."""

from __future__ import annotations

import pytest

from domain.records import verdict_to_record
from tests.domain.reading.chats import Reader, on_the_road


def question(text: str, reads: Reader) -> dict[str, object]:
    """The question of a message, as the contract has it."""
    verdict = verdict_to_record(reads(text, on_the_road()))
    found = verdict.get("question", {})
    assert isinstance(found, dict), verdict
    return found


@pytest.mark.parametrize(
    ("text", "named"),
    [
        ("how heavy are we then, a rough figure will do", {"topic": "weight"}),
        ("how much spare is there on the drives", {"topic": "margin", "field": "drive"}),
        ("how much have we spare on the rear axle", {"topic": "margin", "field": "drive"}),
        ("whats spare on the steers", {"topic": "margin", "field": "steer"}),
        ("how many kilos spare on the back axle", {"topic": "margin", "field": "drive"}),
        ("have we any spare on the drive axle", {"topic": "margin", "field": "drive"}),
        ("got a minute, is the nose heavy enough", {"topic": "tongue"}),
        ("before we pull out, are we legal", {"topic": "margin"}),
        ("what did we wind up spending on diesel coming down", {"topic": "cost"}),
        (
            "the kids are asleep so I'd rather not stop, how many miles are left in the tank?",
            {"topic": "range"},
        ),
        ("walk me through the last trip", {"topic": "trip"}),
        ("run through the last haul for me", {"topic": "trip"}),
        ("take us through the week", {"topic": "week"}),
        (
            "whats in the log from 2026-05-01 to 2026-05-31",
            {"topic": "period", "from": "2026-05-01", "to": "2026-05-31"},
        ),
        (
            "show me 2026-05-01 to 2026-05-31",
            {"topic": "period", "from": "2026-05-01", "to": "2026-05-31"},
        ),
        ("summary since 2026-06-01", {"topic": "period", "from": "2026-06-01"}),
        (
            "suppose i put the welder 4 feet behind the trailer axle, what then",
            {"topic": "whatif", "item": "welder", "position": "behind trailer axle"},
        ),
        (
            "imagine we load 500 lb of feed in the bed, what then",
            {"topic": "whatif", "item": "feed", "position": "bed"},
        ),
        ("supposing we load 500 lb in the bed", {"topic": "whatif", "position": "bed"}),
        ("how many chains for the welder", {"topic": "tiedown", "item": "welder"}),
        ("straps for the quad?", {"topic": "tiedown", "item": "quad"}),
        ("what maintenance is comin up", {"topic": "upkeep"}),
    ],
)
def test_it_is_asked_all_the_same(reads: Reader, text: str, named: dict[str, object]) -> None:
    found = question(text, reads)
    assert {key: found.get(key) for key in named} == named


def test_a_place_is_no_rating(reads: Reader) -> None:
    found = question("what would another 400 lb on the deck do to us", reads)
    assert found["position"] == "deck"
    assert "rating" not in found


@pytest.mark.parametrize(
    "text",
    [
        "how much spare time have we on the trip",
        "is there a spare on the trailer",
        "whats spare on the weekend",
        "how heavy is the baby then, rough idea is fine",
        "got a minute, is mum ok?",
        "kids are asleep so id rather not stop, how long till you're here?",
        "what did we end up spending on dinner getting here",
        "walk me through the recipe",
        "run me through the week's menu",
        "holiday from 2026-05-01 to 2026-05-31",
        "whats on from 2026-05-01 to 2026-05-31",
        "suppose the kids go in the back, what then",
        "imagine 500 people on the deck, what then",
        "supposing we left at 6",
        "how many chains for the necklace",
        "what concerts are comin up",
    ],
)
def test_what_people_ask_each_other_is_talk(reads: Reader, text: str) -> None:
    assert verdict_to_record(reads(text, on_the_road())) == {"verdict": "silent"}
