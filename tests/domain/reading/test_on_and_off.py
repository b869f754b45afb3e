"""A trailer that was put on or taken off, and one that is yet to be."""

from __future__ import annotations

from datetime import date

import pytest

from domain.entries import Hitch
from domain.verdicts import Facts, Silent
from tests.domain.reading.chats import Reader, on_the_road


@pytest.mark.parametrize(
    ("text", "action", "at"),
    [
        ("put the flatdeck on this morning before chores", "hitched", date(2026, 7, 11)),
        ("took the camper off last night", "unhitched", date(2026, 7, 10)),
        ("flatdeck on this afternoon", "hitched", date(2026, 7, 11)),
        ("hooked up the camper tonight", "hitched", None),
        ("dropped the camper saturday", "unhitched", date(2026, 7, 4)),
    ],
)
def test_when_it_was_done_stands_behind(
    reads: Reader, text: str, action: str, at: date | None
) -> None:
    read = reads(text, on_the_road(hitched=None))
    assert isinstance(read, Facts), read
    (entry,) = read.entries
    assert isinstance(entry, Hitch)
    assert (entry.action, entry.at) == (action, at)


@pytest.mark.parametrize(
    "text",
    [
        "gonna put the camper on",
        "we'll put the camper on at noon",
        "going to put the flatdeck on before lunch",
        "hitching up the camper tomorrow",
        "unhitched by tomorrow I hope, the camper",
        "time to hook up the camper",
        "hook up the camper tonight",
        "nearly dropped the camper",
        "almost unhitched the camper by mistake",
        "dropping the camper saturday",
        "hitch the camper up please",
        "put the kettle on this morning",
        "put the camper on the market this morning",
    ],
)
def test_what_is_yet_to_be_done_is_no_event(reads: Reader, text: str) -> None:
    assert reads(text, on_the_road(hitched=None)) == Silent()


@pytest.mark.parametrize(
    ("text", "action"),
    [
        ("hooked up the dump", "hitched"),
        ("got the lowboy hooked up", "hitched"),
        ("unhooked the lowboy", "unhitched"),
    ],
)
def test_a_kind_by_itself_is_a_trailer(text: str, action: str, reads: Reader) -> None:
    read = reads(text, on_the_road(hitched=None))
    assert isinstance(read, Facts), read
    (entry,) = read.entries
    assert isinstance(entry, Hitch)
    assert entry.action == action


@pytest.mark.parametrize("text", ["dropped the trash at the dump", "hooked up the hose"])
def test_what_is_hooked_up_may_be_no_trailer(text: str, reads: Reader) -> None:
    assert isinstance(reads(text, on_the_road(hitched=None)), Silent)


@pytest.mark.parametrize(
    ("text", "kinds"),
    [
        ("okay we are hitched up and the breaks are tested", ["Hitch", "Check"]),
        ("we're hitched up, brakes tested", ["Hitch", "Check"]),
        ("we are hooked up and chains crossed", ["Hitch", "Check"]),
        ("we're hitched up", ["Hitch"]),
        ("we're rolling, brakes tested", ["Check"]),
        # A wedding, an earlier time, somebody else's and what is asked tie no rig.
        ("we got hitched up in vegas and the brakes failed", ["Check"]),
        ("we were hitched up last week, brakes checked", ["Check"]),
        ("are we hitched up? brakes are tested", ["Check"]),
        ("they are hitched up and the brakes are tested", []),
        ("once we are hitched up, check the brakes", []),
        ("are we hitched up", []),
        ("we are hitched", []),
    ],
)
def test_we_are_hitched_up(reads: Reader, text: str, kinds: list[str]) -> None:
    read = reads(text, on_the_road(hitched=False))
    told = [type(each).__name__ for each in read.entries] if isinstance(read, Facts) else []
    assert told == kinds


def test_the_same_words_without_a_check_are_no_news_where_a_trailer_is_on(reads: Reader) -> None:
    assert isinstance(reads("we're hitched up", on_the_road()), Silent)
