"""Messages in fragments, and lists whose state is told last."""

from __future__ import annotations

import pytest

from domain.entries import Check, Note
from domain.reading.fragments import as_list
from domain.verdicts import Facts, Silent
from tests.domain.reading.chats import Reader, on_the_road
from tests.domain.reading.weighed import loads, weighings


def _checked(text: str, reads: Reader) -> list[tuple[str, str]]:
    read = reads(text, on_the_road())
    assert isinstance(read, Facts), text
    found = [each for each in read.entries if isinstance(each, Check)]
    assert len(found) == len(read.entries)
    return [(each.item, each.state) for each in found]


@pytest.mark.parametrize(
    "text",
    [
        "chains, plug, breakaway, all good",
        "chains, plug, breakaway: all good",
        "chains, plug, breakaway - checked",
        "chains, plug and breakaway, all tight",
        "chains. plug. breakaway. all good",
        "chains. plug. breakaway. checked.",
    ],
)
def test_the_state_behind_a_list_is_of_all_of_it(text: str, reads: Reader) -> None:
    assert _checked(text, reads) == [("chains", "done"), ("plug", "done"), ("breakaway", "done")]


@pytest.mark.parametrize(
    ("text", "first"),
    [
        ("checked before the road: chains, plug, breakaway", []),
        ("torqued and checked - chains, plug and breakaway, all good", []),
        ("walk round done: chains, plug, breakaway", [("walk round", "done")]),
        ("Pre trip done - chains, plug, breakaway, all sorted", [("Pre trip", "done")]),
    ],
)
def test_the_state_ahead_of_a_list_is_of_all_of_it(
    text: str, first: list[tuple[str, str]], reads: Reader
) -> None:
    parts = [("chains", "done"), ("plug", "done"), ("breakaway", "done")]
    assert _checked(text, reads) == [*first, *parts]


@pytest.mark.parametrize(
    "text",
    [
        "not checked: chains, plug, breakaway",
        "still to be checked: chains, plug, breakaway",
        "shopping done: chains, plug, beer",
        "chains, plug, breakaway, all good?",
        "chains, plug, breakaway, not checked",
        "chains, plug, all set for the party",
        "door, window, done deal",
        "dad at the door, all good",
    ],
)
def test_a_list_of_which_nothing_is_told_is_talk(text: str, reads: Reader) -> None:
    assert isinstance(reads(text, on_the_road()), Silent)


def test_a_vehicle_alone_in_fragments_weighs_so_much(reads: Reader) -> None:
    (only,) = weighings("camper. alone on the scale. 4,310", reads)
    assert (only.rig, only.trailer, only.loads["gross"].value) == ("trailer", "camper", 4_310)


def test_a_note_keeps_its_stops(reads: Reader) -> None:
    read = reads("note: hitch rattles. check it at home", on_the_road())
    assert isinstance(read, Facts)
    (note,) = read.entries
    assert isinstance(note, Note)
    assert note.note == "hitch rattles. check it at home"


def test_only_short_sentences_are_fragments() -> None:
    assert as_list("chains. plug. all good") == "chains, plug, all good"
    assert as_list("the chains are all on. the plug is in") is None
    assert as_list("Chains on. Plug in.") is None


@pytest.mark.parametrize(
    "text",
    [
        "tongue with the hives moved forward: 1,060",
        "tongue with the generator moved back: 1,060",
        "tongue with water on board: 1,060",
    ],
)
def test_how_it_was_loaded_may_stand_before_the_colon(text: str, reads: Reader) -> None:
    assert loads(text, reads) == {"tongue": 1_060}


def test_a_part_with_a_word_of_its_own_is_not_in_the_state_of_another(reads: Reader) -> None:
    nuts = [("wheel nuts", "done")]
    assert _checked("wheel nuts checked and the trailer plug's wibbled", reads) == nuts
    dead = [*nuts, ("trailer plug", "fault")]
    assert _checked("wheel nuts checked and the trailer plug's cactus", reads) == dead
    fine = [*nuts, ("trailer plug", "done")]
    assert _checked("wheel nuts checked and the trailer plug's fine", reads) == fine
