"""The patterns of questions of a few words, compiled from their data.

This file decides how the table of a language (`shared/phrasebook/short.*.toml`) becomes patterns
of whole messages. What they ask is decided in `short_questions`.
"""

from __future__ import annotations

import re
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Any

from domain.reading.openings import Openings, by_letter, openings_of

NAMED = re.compile(r"\{([a-z_]+)\}")
"""A part that stands in a pattern by its name."""


ShortPatterns = Mapping[str, Sequence[tuple[str, re.Pattern[str]]]]
"""Letter -> what each pattern asks that can begin with it, and the pattern, in their order."""


@dataclass(frozen=True, slots=True)
class ShortWords:
    """The patterns, by the letters that they can begin with.

    One of `heads` stands in every such question. `lead` and `tail` are what is said around it;
    `marked` patterns are questions only by their mark; `enough` is a sentence that asks it of the
    tie-downs named before, where none of `of_others` says that they are somebody else's.
    `openings` are what the first word of a question, and a space, begin with that `asked`,
    `marked` or the lead knows.
    """

    heads: frozenset[str]
    lead: re.Pattern[str]
    asked: ShortPatterns
    marked: ShortPatterns
    openings: Openings
    enough: re.Pattern[str]
    of_others: frozenset[str]


def short_words_from(table: Mapping[str, Any]) -> ShortWords:
    """The patterns from their table; raises KeyError where one is missing."""
    parts: dict[str, str] = dict(table["part"])

    def filled(pattern: str) -> str:
        while (inner := NAMED.sub(lambda found: f"(?:{parts[found[1]]})", pattern)) != pattern:
            pattern = inner
        return pattern

    tail = filled(f"(?: {table['tail']})*")

    def compiled(patterns: Sequence[str]) -> re.Pattern[str]:
        return re.compile(f"(?:{'|'.join(map(filled, patterns))}){tail}")

    openings = openings_of([filled(f"(?:{table['lead']}) ")])

    def opened(table: Mapping[str, Sequence[str]]) -> ShortPatterns:
        found: dict[str, list[tuple[str, re.Pattern[str]]]] = {}
        for name, patterns in table.items():
            pattern = compiled(patterns)
            own = openings_of([pattern.pattern])
            openings.update(own)
            for letter in sorted({opening[0] for opening in own}):
                found.setdefault(letter, []).append((name, pattern))
        return found

    asked, marked = opened(table["asked"]), opened(table["marked"])
    return ShortWords(
        heads=frozenset(table["heads"]),
        lead=re.compile(filled(f"(?:{table['lead']} )*")),
        asked=asked,
        marked=marked,
        openings=by_letter(_first_word(each) for each in openings),
        enough=compiled(table["enough"]),
        of_others=frozenset(table["of_others"]),
    )


def _first_word(opening: str) -> str:
    """The first word of an opening, with the space that ends it, where it does end."""
    word, space, _ = opening.partition(" ")
    return word + space
