"""The patterns of questions of a few words, compiled from their data.

This file decides how the table of a language (`shared/phrasebook/short.*.toml`) becomes patterns
of whole messages. What they ask is decided in `short_questions`.
"""

from __future__ import annotations

import re
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Any

NAMED = re.compile(r"\{([a-z_]+)\}")
"""A part that stands in a pattern by its name."""


@dataclass(frozen=True, slots=True)
class ShortWords:
    """The patterns, each with what it asks, in the order in which they are tried.

    One of `heads` stands in every such question. `lead` and `tail` are what is said around it;
    `marked` patterns are questions only by their mark; `enough` is a sentence that asks it of the
    tie-downs named before, where none of `of_others` says that they are somebody else's.
    """

    heads: frozenset[str]
    lead: re.Pattern[str]
    asked: tuple[tuple[str, re.Pattern[str]], ...]
    marked: tuple[tuple[str, re.Pattern[str]], ...]
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

    return ShortWords(
        heads=frozenset(table["heads"]),
        lead=re.compile(filled(f"(?:{table['lead']} )*")),
        asked=tuple((name, compiled(patterns)) for name, patterns in table["asked"].items()),
        marked=tuple((name, compiled(patterns)) for name, patterns in table["marked"].items()),
        enough=compiled(table["enough"]),
        of_others=frozenset(table["of_others"]),
    )
