"""The patterns of questions of a few words, compiled from their data.

This file decides how the table of a language (`shared/phrasebook/short.*.toml`) becomes patterns
of whole messages. What they ask is decided in `short_questions`.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from functools import cache, cached_property
from typing import Any

from domain.reading.pattern_words import NAMED, Bits, Pieces, bits_of, cut_parts, pieces_of


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


@dataclass(frozen=True, eq=False)
class ShortWords:
    """The patterns of questions of few words.

    One of `heads` stands in every such question. `parts` stand in patterns by their names, `said`
    is what is said before it as a pattern, and `tail` what is said behind. `ways` are the ways of
    asking of each pattern, in the order in which they are tried; those of the first `unmarked` need
    no mark. `own` is a sentence that asks it of the tie-downs named before, where none of
    `of_others` says that they are somebody else's.

    The rest is made of these when it is first asked for: most messages have no head.
    """

    heads: frozenset[str]
    of_others: frozenset[str]
    parts: Mapping[str, str]
    said: str
    tail: str
    ways: Sequence[tuple[str, Sequence[str]]]
    unmarked: int
    own: Sequence[str]

    @cached_property
    def lead(self) -> re.Pattern[str]:
        """What is said before such a question."""
        return re.compile(self._filled(f"(?:{self.said} )*"))

    @cached_property
    def leads(self) -> frozenset[str]:
        """The words that it begins with."""
        return pieces_of(f"(?:{self.said}) ", self._cut).opening

    @cached_property
    def patterns(self) -> Sequence[ShortPattern]:
        """The patterns in the order in which they are tried; each way of asking has a bit."""
        patterns: list[ShortPattern] = []
        number = 0
        for name, own in self.ways:
            bits = ((1 << len(own)) - 1) << number
            patterns.append(ShortPattern(name, bits, self._joined(own)))
            number += len(own)
        return patterns

    @cached_property
    def owners(self) -> Sequence[int]:
        """Whose each way of asking is: a place among the patterns."""
        return [at for at, (_, own) in enumerate(self.ways) for _ in own]

    @cached_property
    def words(self) -> Bits:
        """The ways of asking that can have a word."""
        return bits_of([way.words for way in self._pieces])

    @cached_property
    def first(self) -> Bits:
        """Those that can begin with it."""
        return bits_of([way.opening for way in self._pieces])

    @cached_property
    def second(self) -> Bits:
        """Those in which it can stand behind the first."""
        return bits_of([way.following for way in self._pieces])

    @cached_property
    def marked(self) -> int:
        """Those that ask only by their mark."""
        asked = sum(len(own) for _, own in self.ways[: self.unmarked])
        return ((1 << len(self.owners)) - 1) >> asked << asked

    @cached_property
    def enough(self) -> ShortPattern:
        """What asks whether tie-downs are enough."""
        return ShortPattern("enough", 0, self._joined(self.own))

    @cached_property
    def _cut(self) -> Mapping[str, Pieces]:
        return cut_parts(self.parts)

    @cached_property
    def _pieces(self) -> Sequence[Pieces]:
        behind = pieces_of(self.tail, self._cut)
        return [pieces_of(way, self._cut).then(behind) for _, own in self.ways for way in own]

    def _joined(self, ways: Iterable[str]) -> str:
        return f"(?:{'|'.join(map(self._filled, ways))}){self._filled(self.tail)}"

    def _filled(self, pattern: str) -> str:
        while (inner := NAMED.sub(lambda found: f"(?:{self.parts[found[1]]})", pattern)) != pattern:
            pattern = inner
        return pattern

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
    return ShortWords(
        heads=frozenset(table["heads"]),
        of_others=frozenset(table["of_others"]),
        parts=table["part"],
        said=table["lead"],
        tail=f"(?: {table['tail']})*",
        ways=[*table["asked"].items(), *table["marked"].items()],
        unmarked=len(table["asked"]),
        own=table["enough"],
    )


@cache
def _compiled(written: str) -> re.Pattern[str]:
    return re.compile(written)
