"""When something was that had been texted before: 'that fill was yesterday'."""

from __future__ import annotations

import pytest

from domain.records import verdict_to_record
from tests.domain.reading.chats import Reader, on_the_road

SATURDAY = "2026-07-11"


@pytest.mark.parametrize(
    ("text", "value"),
    [
        ("that fill was yesterday", "2026-07-10"),
        ("that was saturday's fill", "2026-07-04"),
        ("that fill-up was thursday at 5pm", "2026-07-09T17:00:00-06:00"),
        ("the weighing was at 2pm", "2026-07-11T14:00:00-06:00"),
        ("the hitch up was this morning at 7", "2026-07-11T07:00:00-06:00"),
        ("that last fill was on the 9th", "2026-07-09"),
        ("sorry the last fill was yesterday", "2026-07-10"),
        ("forgot to say that fill was from thursday", "2026-07-09"),
        ("that fill was an hour ago", "2026-07-11T13:22:00-06:00"),
        ("those weights were from friday", "2026-07-10"),
        ("that odometer reading was from yesterday", "2026-07-10"),
        ("that entry was yesterday", "2026-07-10"),
        ("log that fill as of friday", "2026-07-10"),
        ("backdate that fill to friday", "2026-07-10"),
        ("change the date on that fill to july 9", "2026-07-09"),
        ("change the date of the last fill to 7/9", "2026-07-09"),
        ("that was last night's weigh in", "2026-07-10"),
    ],
)
def test_when_it_was_is_put_right(reads: Reader, text: str, value: str) -> None:
    (entry,) = verdict_to_record(reads(text, on_the_road()))["entries"]
    assert entry == {"kind": "correction", "action": "amend", "field": "at", "value": value}


def test_when_it_was_not_goes_with_it(reads: Reader) -> None:
    (entry,) = verdict_to_record(reads("that fill was yesterday, not today", on_the_road()))[
        "entries"
    ]
    assert (entry["value"], entry["was"]) == ("2026-07-10", SATURDAY)


@pytest.mark.parametrize(
    "text",
    [
        "that was yesterday",
        "the last fill was yesterday",
        "that fill yesterday was brutal",
        "was that fill yesterday",
        "the fill was yesterday wasn't it",
        "my weigh in was this morning",
        "the weigh in was at 2pm for wrestling",
        "that scale was closed saturday",
        "that pump was out yesterday",
        "that hitch was put on friday",
        "the reading was on sunday",
        "that was friday's reading",
        "that one was last friday",
        "move that party to friday",
        "change the date to july 9",
    ],
)
def test_when_something_else_was_is_talk(reads: Reader, text: str) -> None:
    assert verdict_to_record(reads(text, on_the_road())) == {"verdict": "silent"}


@pytest.mark.parametrize(
    ("text", "told"),
    [
        ("the fill was at 2pm, 24.1 gal", {"kind": "fill", "at": "2026-07-11T14:00:00-06:00"}),
        ("that last fill up was partial", {"kind": "correction", "field": "full"}),
        ("that last one was a fill up", {"kind": "correction", "field": "full"}),
    ],
)
def test_what_a_message_tells_besides_is_read(
    reads: Reader, text: str, told: dict[str, str]
) -> None:
    (entry,) = verdict_to_record(reads(text, on_the_road()))["entries"]
    assert told.items() <= entry.items()
