"""Entries that are named to be taken out: by a figure, by their kind, by their day."""

from __future__ import annotations

import pytest

from domain.records import verdict_to_record
from domain.verdicts import Facts
from tests.domain.reading.chats import Reader, on_the_road


@pytest.mark.parametrize(
    ("text", "was"),
    [
        ("delete the fill at 48260", 48260),
        ("please remove the 8,480 reading", 8480),
        ("get rid of the 48,260", 48260),
        ("undo the fill at 48,260", 48260),
        ("scratch the steer 5,240", 5240),
        ("can you delete the 8480", 8480),
        ("delete the 31.4 gal fill", {"value": 31.4, "unit": "gal"}),
        ("erase the weighing of 8,480 lb", {"value": 8480, "unit": "lb"}),
        ("toss that last one, 24.6 gal was wrong", {"value": 24.6, "unit": "gal"}),
        ("delete the last fill, 24.6 gal isn't right", {"value": 24.6, "unit": "gal"}),
        ("undo that, 48,402 was wrong", 48_402),
    ],
)
def test_a_figure_names_what_is_to_go_and_is_no_entry_itself(
    reads: Reader, text: str, was: object
) -> None:
    (entry,) = verdict_to_record(reads(text, on_the_road()))["entries"]
    assert entry == {"kind": "correction", "action": "undo", "was": was}


@pytest.mark.parametrize(
    "text",
    ["toss that last one, 24.6 was wrong its 26.4", "toss that last one, should be 26.4 gal"],
)
def test_a_figure_that_is_right_is_no_reason_to_take_all_out(reads: Reader, text: str) -> None:
    (entry,) = verdict_to_record(reads(text, on_the_road()))["entries"]
    assert entry["action"] == "amend"


@pytest.mark.parametrize("text", ["delete the fill from yesterday", "remove yesterday's fill"])
def test_the_day_of_what_is_to_go_is_kept(reads: Reader, text: str) -> None:
    read = reads(text, on_the_road())
    (entry,) = verdict_to_record(read)["entries"]
    assert entry == {"kind": "correction", "action": "undo", "at": "2026-07-10"}
    assert isinstance(read, Facts)
    assert read.entries[0].words == (("fill", "fill"),)


def test_why_something_goes_is_not_its_day(reads: Reader) -> None:
    (entry,) = verdict_to_record(reads("delete that fill, it was yesterday", on_the_road()))[
        "entries"
    ]
    assert entry == {"kind": "correction", "action": "undo"}


@pytest.mark.parametrize(
    "text",
    [
        "strike the def fill",
        "duplicate, remove the last one",
        "throw that last one out",
        "throw that last one out please",
        "throw that last one out, wrong truck",
        "toss that last one, i typed it wrong",
        "throw out that last fill, its junk",
        "take that last one out, that wasnt ours",
        "delete that last one, kid had the phone",
        "scratch that, the kids were playing with my phone",
        "ignore that, the dog sat on my phone",
        "take that last one off, it was the other crew's ticket",
    ],
)
def test_an_entry_is_thrown_out(reads: Reader, text: str) -> None:
    (entry,) = verdict_to_record(reads(text, on_the_road()))["entries"]
    assert entry == {"kind": "correction", "action": "undo"}


@pytest.mark.parametrize(
    "text",
    [
        "throw that last one out, its gone off",
        "throw that last one out its gone off",
        "toss that last one, it stinks",
        "chuck the last one out, it's mouldy",
        "take that last one off, it's burnt",
        "delete 3 photos",
        "delete the 2000 texts from Ned",
        "remove the 48 inch bolts",
        "scrap the 1,500 we bought",
        "get rid of the 200 lb in the bed",
        "cancel the order of 2,000",
        "you never deleted the 8,480",
    ],
)
def test_what_else_is_thrown_out_is_talk(reads: Reader, text: str) -> None:
    assert verdict_to_record(reads(text, on_the_road())) == {"verdict": "silent"}


@pytest.mark.parametrize(
    "text",
    [
        "make that steer 5,240 drive 6,840",
        "typo, steer 5,240 drive 6,840",
        "correction: steer 5,240, drive 6,840",
        "got that backwards, steer 5,240 drive 6,840",
    ],
)
def test_several_loads_are_mended_at_once(reads: Reader, text: str) -> None:
    first, second = verdict_to_record(reads(text, on_the_road()))["entries"]
    assert (first["action"], first["field"], first["value"]["value"]) == ("amend", "steer", 5240)
    assert (second["action"], second["field"], second["value"]["value"]) == ("amend", "drive", 6840)


@pytest.mark.parametrize("text", ["coolant was 230, oops", "trans temp 240 whoops"])
def test_a_cry_behind_a_gauge_mends_nothing(reads: Reader, text: str) -> None:
    (entry,) = verdict_to_record(reads(text, on_the_road()))["entries"]
    assert entry["kind"] == "observation"


def test_who_is_sorry_for_a_gauge_puts_it_right(reads: Reader) -> None:
    (entry,) = verdict_to_record(reads("oops coolant was 203", on_the_road()))["entries"]
    assert (entry["kind"], entry["field"]) == ("correction", "coolant")


@pytest.mark.parametrize("text", ["delete the odometer reading", "remove the mileage"])
def test_a_reading_is_taken_out_by_its_name(reads: Reader, text: str) -> None:
    read = reads(text, on_the_road())
    assert isinstance(read, Facts)
    assert [kind for kind, _ in read.entries[0].words] == ["odometer"]


@pytest.mark.parametrize(
    ("text", "value"),
    [
        ("can you change the last one to 48,402", 48402),
        ("could you change that entry to 9,480", 9480),
    ],
)
def test_who_asks_politely_mends(reads: Reader, text: str, value: float) -> None:
    (entry,) = verdict_to_record(reads(text, on_the_road()))["entries"]
    assert entry == {"kind": "correction", "action": "amend", "value": value}


@pytest.mark.parametrize(
    "text", ["can you change the meeting to 1500", "could you change a 50 for two 20s"]
)
def test_who_asks_for_other_changes_talks(reads: Reader, text: str) -> None:
    assert verdict_to_record(reads(text, on_the_road())) == {"verdict": "silent"}


def test_an_entry_that_was_wrong_is_mended_by_name(reads: Reader) -> None:
    text = "that last entry was wrong, the trailer was 9,480"
    (entry,) = verdict_to_record(reads(text, on_the_road()))["entries"]
    assert (entry["field"], entry["value"]["value"]) == ("trailer", 9480)


def test_who_is_sorry_for_where_he_was_mends_the_reading(reads: Reader) -> None:
    (entry,) = verdict_to_record(reads("sorry home was 48,302", on_the_road()))["entries"]
    assert (entry["kind"], entry["field"]) == ("correction", "odometer")
    (news,) = verdict_to_record(reads("sorry left at 48,302", on_the_road()))["entries"]
    assert (news["kind"], news["event"]) == ("odometer", "depart")
