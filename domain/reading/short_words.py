"""The patterns of questions of a few words, compiled from their data.

This file decides how the table of a language (`shared/phrasebook/short.*.toml`) becomes patterns
of whole messages. What they ask is decided in `short_questions`.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Mapping, Sequence
from collections.abc import Set as AbstractSet
from dataclasses import dataclass
from typing import Any

from domain.reading.openings import Openings, by_letter, openings_of

NAMED = re.compile(r"\{([a-z_]+)\}")
"""A part that stands in a pattern by its name."""


ShortPatterns = Mapping[str, Sequence[tuple[str, re.Pattern[str]]]]
"""Letter -> what each pattern asks that can begin with it, and the pattern, in their order."""


@dataclass(frozen=True, slots=True)
class ShortAsked:
    """Patterns by the letters that they can begin with; `marked` ones ask only by their mark.

    `openings` are what the first word of such a question, and a space, begin with: that of a
    pattern, or of the lead.
    """

    asked: ShortPatterns
    marked: ShortPatterns
    openings: Openings


@dataclass(frozen=True, slots=True)
class ShortWords:
    """The patterns of questions of few words.

    One of `heads` stands in every such question. `lead` is what is said before it. Of the
    patterns, `of_figures` are those that a message with a number can match. `enough` is a sentence
    that asks it of the tie-downs named before, where none of `of_others` says that they are
    somebody else's.
    """

    heads: frozenset[str]
    lead: re.Pattern[str]
    of_words: ShortAsked
    of_figures: ShortAsked
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
    lead = openings_of([filled(f"(?:{table['lead']}) ")])
    asked, marked = (
        {name: [*map(filled, patterns)] for name, patterns in table[kind].items()}
        for kind in ("asked", "marked")
    )
    return ShortWords(
        heads=frozenset(table["heads"]),
        lead=re.compile(filled(f"(?:{table['lead']} )*")),
        of_words=_asked(asked, marked, tail, lead),
        of_figures=_asked(_of_figures(asked), _of_figures(marked), tail, lead),
        enough=_joined(map(filled, table["enough"]), tail),
        of_others=frozenset(table["of_others"]),
    )


Table = Mapping[str, Sequence[str]]
"""What patterns ask, and the patterns."""


def _of_figures(table: Table) -> Table:
    """The patterns that can match the sign of a number."""
    found = {name: [each for each in table[name] if "#" in each or r"\S" in each] for name in table}
    return {name: patterns for name, patterns in found.items() if patterns}


def _joined(patterns: Iterable[str], tail: str) -> re.Pattern[str]:
    return re.compile(f"(?:{'|'.join(patterns)}){tail}")


def _asked(asked: Table, marked: Table, tail: str, lead: AbstractSet[str]) -> ShortAsked:
    openings = set(lead)

    def opened(table: Table) -> ShortPatterns:
        found: dict[str, list[tuple[str, re.Pattern[str]]]] = {}
        for name, patterns in table.items():
            pattern = _joined(patterns, tail)
            own = openings_of([pattern.pattern])
            openings.update(own)
            for letter in sorted({opening[0] for opening in own}):
                found.setdefault(letter, []).append((name, pattern))
        return found

    return ShortAsked(
        asked=opened(asked),
        marked=opened(marked),
        openings=by_letter(_first_word(each) for each in openings),
    )


def _first_word(opening: str) -> str:
    """The first word of an opening, with the space that ends it, where it does end."""
    word, space, _ = opening.partition(" ")
    return word + space
