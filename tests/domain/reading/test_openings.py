"""What messages begin with that a pattern knows whole."""

from __future__ import annotations

import re

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from bot.phrasebook import phrasebook
from domain.reading.openings import by_letter, openings_of


@pytest.mark.parametrize(
    ("pattern", "openings"),
    [
        ("check ?list", {"check"}),
        ("(?:do |start )?(?:the )?list", {"do ", "start ", "the list", "list"}),
        ("(?:(?:very|so) )*long", {"very ", "so ", "long"}),
        ("(?P<item>one|(?:two|three) more) day", {"one day", "two more day", "three more day"}),
        (r"l[ií]mites|a\ \(small\) one", {"l", "a (small) one"}),
        ("(?: )?(?:the )?end", {"the end", "end"}),
        ("(?:ab)+c|d", {"ab", "d"}),
    ],
)
def test_a_pattern_gives_what_it_can_begin_with(pattern: str, openings: set[str]) -> None:
    assert openings_of([pattern]) == openings


@pytest.mark.parametrize(
    "pattern", [".* list", "(?:the )?.*", "(?:the )*[a-z]", "x?", "(?:a|)*b?", "a|"]
)
def test_a_pattern_that_could_begin_with_anything_is_refused(pattern: str) -> None:
    with pytest.raises(ValueError, match="begin with anything"):
        openings_of([pattern])


def test_openings_stand_by_their_letter_and_the_shorter_for_the_longer() -> None:
    assert by_letter(["the end", "the", "to", "a"]) == {"t": ("the", "to"), "a": ("a",)}


SHORT = [short for short in (phrasebook(language).short for language in ("en", "es")) if short]
PATTERNS = [each.pattern for short in SHORT for each in short.patterns]


# Of the longest patterns hypothesis takes seconds to write a text.
@pytest.mark.parametrize("pattern", PATTERNS)
@settings(max_examples=5, suppress_health_check=[HealthCheck.too_slow])
@given(data=st.data())
def test_what_a_short_question_says_begins_as_its_pattern(
    pattern: re.Pattern[str], data: st.DataObject
) -> None:
    said = data.draw(st.from_regex(pattern, fullmatch=True))
    assert said[0].isspace() or said.startswith(tuple(openings_of([pattern.pattern])))
