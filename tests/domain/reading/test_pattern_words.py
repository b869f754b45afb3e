"""Which words the texts have that a pattern matches whole."""

from __future__ import annotations

from functools import reduce
from operator import or_

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from bot.phrasebook import phrasebook
from domain.reading.pattern_words import ANY, DIGIT, Bits, bits_of, cut_parts, pieces_of
from domain.reading.short_words import ShortPattern, ShortWords
from tests.corpora import cases


@pytest.mark.parametrize(
    ("pattern", "opening", "words"),
    [
        ("check ?list", {"check", "checklist"}, {"check", "list", "checklist"}),
        ("(?:(?:very|so) )*long", {"very", "so", "long"}, {"very", "so", "long"}),
        ("weigh(?:ed|s)?(?: (?:it|them))?", {"weigh", "weighed", "weighs"}, None),
        ("(?P<what>oil|air\\ filter) due", {"oil", "air"}, {"oil", "air", "filter", "due"}),
        ("l[ií]mites", {"limites", "límites"}, {"limites", "límites"}),
        ("(?!un)done(?:,? then)?", {"done", "done,"}, {"done", "done,", "then"}),
        (r"in \d", {"in"}, {"in", DIGIT}),
        (r"\d+ ?km", {DIGIT, f"{DIGIT}{ANY}", f"{DIGIT}km", f"{DIGIT}{ANY}km"}, None),
        (r"the \S+", {"the"}, {"the", ANY}),
        ("(?:ab)+c", {"abc", f"{ANY}c"}, None),
        ("go(?: on| over there){0,3}", {"go"}, {"go", "on", "over", "there"}),
    ],
)
def test_a_pattern_gives_the_words_that_it_can_match(
    pattern: str, opening: set[str], words: set[str] | None
) -> None:
    pieces = pieces_of(pattern, {})
    assert pieces.opening >= opening
    assert words is None or {
        each for each in pieces.words if len(each) == 1 or ANY not in each
    } == (words)


@pytest.mark.parametrize(
    ("pattern", "following"),
    [
        ("checklist", set()),
        ("(?:how|what) much(?: is left)?", {"much"}),
        ("go(?: on| over there){0,3} now", {"on", "over", "now"}),
        ("(?:so )?we(?: are)?,? done", {"we", "we,", "are", "are,", "done"}),
        (r"(?:the )?\S due", {ANY, "due"}),
        ("a ?bc? d", {"b", "bc", "d"}),
    ],
)
def test_a_pattern_gives_the_words_that_stand_second(pattern: str, following: set[str]) -> None:
    assert pieces_of(pattern, {}).following == following


def test_a_part_stands_in_a_pattern_by_its_name() -> None:
    parts = cut_parts({"rig": "(?:truck|{towed})", "towed": "(?:big )?camper"})
    assert pieces_of("weigh {rig}", parts).words == {"weigh", "truck", "big", "camper"}
    with pytest.raises(KeyError, match="unknown"):
        cut_parts({"rig": "{unknown}"})


@pytest.mark.parametrize("pattern", ["(?:a", "a)b"])
def test_a_bracket_that_stands_alone_is_refused(pattern: str) -> None:
    with pytest.raises(ValueError, match="bracket"):
        pieces_of(pattern, {})


def test_a_word_has_the_bits_of_the_patterns_that_leave_it_open() -> None:
    bits = bits_of([pieces_of(each, {}).words for each in ("oil", r"oil \d+", r"\S+")])
    assert bits == Bits(bits.by_word, other=0b100, number=0b110)
    assert [bits.of(word) for word in ("oil", "5", "air")] == [0b111, 0b110, 0b100]


BOOKS = [short for short in (phrasebook(language).short for language in ("en", "es")) if short]
SHORTER = 3_000
"""Characters: of longer patterns hypothesis takes minutes to write a text."""

ASKED = [each for each in BOOKS[0].patterns if len(each.pattern.pattern) < SHORTER]


@pytest.mark.parametrize("each", ASKED, ids=[each.name for each in ASKED])
@settings(max_examples=10)
@given(data=st.data())
def test_what_a_short_question_says_is_held_against_its_pattern(
    each: ShortPattern, data: st.DataObject
) -> None:
    said = data.draw(st.from_regex(each.pattern, fullmatch=True))
    assert said[0].isspace() or each in BOOKS[0].fitting(said, marked=True)


@pytest.mark.parametrize("short", BOOKS, ids=["en", "es"])
def test_every_short_question_has_a_head_and_a_first_word_that_are_known(short: ShortWords) -> None:
    headed = reduce(or_, map(short.words.of, short.heads))
    begun = reduce(or_, short.first.by_word.values(), short.first.other | short.first.number)
    asked = headed & begun
    dead = [short.patterns[at] for way, at in enumerate(short.owners) if not asked >> way & 1]
    assert [each.name for each in dead] == []


@pytest.mark.parametrize("short", BOOKS, ids=["en", "es"])
def test_every_head_of_short_questions_stands_in_one(short: ShortWords) -> None:
    assert sorted(short.heads - short.words.by_word.keys()) == []


def test_talk_is_held_against_few_patterns() -> None:
    short = BOOKS[0]
    talk = [case.text.casefold() for case in cases("chatter")]
    tried = [len(list(short.fitting(text, marked=False))) for text in talk]
    assert sum(tried) < len(talk)
