"""The patterns of questions of a few words, compiled from their data.

This file decides how the table of a language (`shared/phrasebook/short.*.toml`) becomes patterns
of whole messages. What they ask is decided in `short_questions`.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from functools import cache
from typing import Any

from domain.reading.pattern_words import NAMED, Bits, bits_of, cut_parts, pieces_of


@dataclass(frozen=True, slots=True)
class ShortPattern:
    """What a pattern asks; `ways` are its own ways of asking it, a bit each."""

    name: str
    ways: int
    written: str

    @property
    def pattern(self) -> re.Pattern[str]:
        """The pattern compiled, when it is first asked for: most are not in a run."""
        return _compiled(self.written)


@dataclass(frozen=True, slots=True)
class ShortWords:
    """The patterns of questions of few words.

    One of `heads` stands in every such question. `lead` is what is said before it, and `leads` the
    words that it begins with. `patterns` go in the order in which they are tried. Each of their
    ways of asking has a bit: `owners` say whose it is, `words` are those that can have a word,
    `first` those that can begin with it, `second` those in which it can stand behind the first, and
    those of `marked` ask only by their mark. `enough` is a sentence that asks it of the tie-downs
    named before, where none of `of_others` says that they are somebody else's.
    """

    heads: frozenset[str]
    lead: re.Pattern[str]
    leads: frozenset[str]
    patterns: Sequence[ShortPattern]
    owners: Sequence[int]
    words: Bits
    first: Bits
    second: Bits
    marked: int
    enough: ShortPattern
    of_others: frozenset[str]

    def beginning(self, word: str, *, marked: bool) -> int:
        """The ways of asking that can begin with a word."""
        ways = self.first.of(word)
        return ways if marked else ways & ~self.marked

    def fitting(self, said: str, *, marked: bool) -> Iterator[ShortPattern]:
        """The patterns that have a way for every word of what is said, in their order."""
        first, *others = said.split(" ")
        ways = self.beginning(first, marked=marked)
        if others:
            ways = self.words.having(ways & self.second.of(others[0]), others)
        while ways:
            pattern = self.patterns[self.owners[(ways & -ways).bit_length() - 1]]
            yield pattern
            ways &= ~pattern.ways


def short_words_from(table: Mapping[str, Any]) -> ShortWords:
    """The patterns from their table; raises KeyError where one is missing."""
    parts: dict[str, str] = dict(table["part"])

    def filled(pattern: str) -> str:
        while (inner := NAMED.sub(lambda found: f"(?:{parts[found[1]]})", pattern)) != pattern:
            pattern = inner
        return pattern

    cut = cut_parts(parts)
    tail = filled(f"(?: {table['tail']})*")
    tables = [*table["asked"].items(), *table["marked"].items()]
    behind = pieces_of(f"(?: {table['tail']})*", cut)
    ways = [pieces_of(way, cut).then(behind) for _, own in tables for way in own]
    asked_ways = sum(len(own) for own in table["asked"].values())
    patterns: list[ShortPattern] = []
    number = 0
    for name, own in tables:
        bits = ((1 << len(own)) - 1) << number
        patterns.append(ShortPattern(name, bits, _joined(map(filled, own), tail)))
        number += len(own)
    return ShortWords(
        heads=frozenset(table["heads"]),
        lead=re.compile(filled(f"(?:{table['lead']} )*")),
        leads=pieces_of(f"(?:{table['lead']}) ", cut).opening,
        patterns=patterns,
        owners=[at for at, (_, own) in enumerate(tables) for _ in own],
        words=bits_of([way.words for way in ways]),
        first=bits_of([way.opening for way in ways]),
        second=bits_of([way.following for way in ways]),
        marked=((1 << len(ways)) - 1) >> asked_ways << asked_ways,
        enough=ShortPattern("enough", 0, _joined(map(filled, table["enough"]), tail)),
        of_others=frozenset(table["of_others"]),
    )


def _joined(patterns: Iterable[str], tail: str) -> str:
    return f"(?:{'|'.join(patterns)}){tail}"


@cache
def _compiled(written: str) -> re.Pattern[str]:
    return re.compile(written)
