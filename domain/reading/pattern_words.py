"""Which words the texts have that a pattern matches whole.

This file reads patterns of words between spaces, as those of short questions are, and finds every
word that each can match: a text with any other is not held against it. It may find words too many.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass

ANY, DIGIT = "\0", "\1"
"""Stand in a word for letters that the pattern leaves open, and for a digit."""

NAMED = re.compile(r"\{([a-z_]+)\}")
"""A part that stands in a pattern by its name."""

NOTHING = frozenset[str]()
NO_LETTERS = frozenset(("",))

_PART = re.compile(
    r"(?P<look>\(\?[!=])|(?P<open>\(\?:|\(\?P<\w+>)|(?P<close>\))|(?P<way>\|)"
    r"|\{(?P<named>[a-z_]+)\}|(?P<times>[?*+]|\{\d+(?:,\d*)?\})"
    r"|(?P<still>\\b)|(?P<digit>\\d)|(?P<any>\\[SwWD]|\.)|\[(?P<one>[^\]]*)\]"
    r"|(?P<letters>[a-z']+(?![a-z'?*+{]))|\\?(?P<letter>.)",
    re.DOTALL,
)


@dataclass(frozen=True, slots=True)
class Pieces:
    """What a part of a pattern matches, cut at its spaces.

    `whole` has none. `first` stands before the first space, `last` behind the last, and `inner`
    are the words between. Behind the first space stands `second`, and `onward` where that is the
    only one.
    """

    whole: frozenset[str] = NOTHING
    first: frozenset[str] = NOTHING
    inner: frozenset[str] = NOTHING
    last: frozenset[str] = NOTHING
    second: frozenset[str] = NOTHING
    onward: frozenset[str] = NOTHING

    def then(self, behind: Pieces) -> Pieces:
        """One part and the next."""
        if self is EMPTY:
            return behind
        if behind is EMPTY:
            return self
        # What stands behind the first space of the part behind, if this one may have no space.
        second, onward = (behind.second, behind.onward) if self.whole else (NOTHING, NOTHING)
        return Pieces(
            whole=_each(self.whole, behind.whole),
            first=self.first | _each(self.whole, behind.first),
            inner=self.inner | behind.inner | _each(self.last, behind.first),
            last=behind.last | _each(self.last, behind.whole),
            second=self.second | second | _each(self.onward, behind.first),
            onward=onward | _each(self.onward, behind.whole),
        )

    def either(self, *others: Pieces) -> Pieces:
        """One part or another."""
        return Pieces(
            self.whole.union(*[each.whole for each in others]),
            self.first.union(*[each.first for each in others]),
            self.inner.union(*[each.inner for each in others]),
            self.last.union(*[each.last for each in others]),
            self.second.union(*[each.second for each in others]),
            self.onward.union(*[each.onward for each in others]),
        )

    @property
    def opening(self) -> frozenset[str]:
        """The words that texts begin with."""
        return (self.whole | self.first) - {""}

    @property
    def following(self) -> frozenset[str]:
        """The words that stand second in texts."""
        return (self.second | self.onward) - {""}

    @property
    def words(self) -> frozenset[str]:
        """The words that texts have."""
        return (self.whole | self.first | self.inner | self.last) - {""}

    def again(self) -> Pieces:
        """One part, any number of times: letters without a space could go on for ever."""
        begun = {word[0] for word in self.whole if word}
        if begun == {DIGIT} and not self.first:
            return self.either(Pieces(frozenset((DIGIT + ANY,))))
        once = self.either(Pieces(frozenset((ANY,)))) if begun else self
        return once.either(once.then(once))


EMPTY = Pieces(whole=NO_LETTERS)
SPACE = Pieces(first=NO_LETTERS, last=NO_LETTERS, onward=NO_LETTERS)


def _each(before: frozenset[str], behind: frozenset[str]) -> frozenset[str]:
    """Each of some letters before each of others; most often there are none, or no letters."""
    if not before or behind == NO_LETTERS:
        return before
    if not behind or before == NO_LETTERS:
        return behind
    return frozenset([one + other for one in before for other in behind])


def pieces_of(pattern: str, parts: Mapping[str, Pieces]) -> Pieces:
    """A pattern cut at the spaces of what it matches; `parts` stand in it by a name in braces.

    Raises ValueError for a pattern whose brackets do not close, and KeyError for an unknown name.
    """
    signs = [(sign.lastgroup or "", sign[sign.lastgroup or 0]) for sign in _PART.finditer(pattern)]
    pieces, end = _ways(signs, 0, parts)
    if end != len(signs):
        raise ValueError(f"a bracket that nothing opens: {pattern}")
    return pieces


def _ways(signs: Signs, at: int, parts: Mapping[str, Pieces]) -> tuple[Pieces, int]:
    """The alternatives from there on, and where they end."""
    found, at = _way(signs, at, parts)
    others: list[Pieces] = []
    while at < len(signs) and signs[at][0] == "way":
        way, at = _way(signs, at + 1, parts)
        others.append(way)
    return (found.either(*others) if others else found), at


def _way(signs: Signs, at: int, parts: Mapping[str, Pieces]) -> tuple[Pieces, int]:
    """One alternative from there on, and where it ends."""
    before = EMPTY
    while at < len(signs) and signs[at][0] not in ("close", "way"):
        kind, text = signs[at]
        at += 1
        if kind in ("open", "look"):
            own, at = _ways(signs, at, parts)
            if at == len(signs):
                raise ValueError("a bracket that does not close")
            at += 1
            own = EMPTY if kind == "look" else own
        elif kind == "named":
            own = parts[text]
        elif kind == "still":
            own = EMPTY
        elif kind == "one":
            own = Pieces(frozenset((ANY,) if set(text) & set("-^\\") else text))
        else:
            text = {"any": ANY, "digit": DIGIT}.get(kind, text)
            own = SPACE if text == " " else Pieces(frozenset((text,)))
        while at < len(signs) and signs[at][0] == "times":
            times = signs[at][1]
            own = own if times == "?" else own.again()
            own = own.either(EMPTY) if times in ("?", "*") or times.startswith("{0") else own
            at += 1
        before = before.then(own)
    return before, at


def cut_parts(
    parts: Mapping[str, str], known: Mapping[str, Pieces] | None = None
) -> Mapping[str, Pieces]:
    """Each part of patterns cut at its spaces; it may have others in it, or those that are known.

    Raises KeyError for a name that is of neither.
    """
    found = dict(known or {})

    def cut(name: str) -> Pieces:
        if name not in found:
            inner = {each: cut(each) for each in NAMED.findall(parts[name])}
            found[name] = pieces_of(parts[name], inner)
        return found[name]

    for name in parts:
        cut(name)
    return found


Signs = Sequence[tuple[str, str]]
"""What a pattern is made of: a kind, and the text."""


@dataclass(frozen=True, slots=True)
class Bits:
    """A bit for each of some patterns: those that each word can stand in, and any other word."""

    by_word: Mapping[str, int]
    other: int
    number: int

    def of(self, word: str) -> int:
        """The patterns whose texts can have a word."""
        bits = self.by_word.get(word)
        if bits is None:
            return self.number if word[:1].isdigit() else self.other
        return bits

    def having(self, bits: int, words: Iterable[str]) -> int:
        """Those of some patterns whose texts can have each of the words."""
        known = self.by_word.get
        for word in words:
            if not bits:
                break
            bits &= known(word) or self.of(word)
        return bits


def bits_of(patterns: Iterable[frozenset[str]]) -> Bits:
    """The bits of patterns, each told by the words of its texts."""
    found: dict[str, int] = {}
    other = numbers = 0
    for at, words in enumerate(patterns):
        open_words = [word for word in words if ANY in word or DIGIT in word]
        numbers |= bool(open_words) << at
        other |= any(word[0] != DIGIT for word in open_words) << at
        for word in words:
            found[word] = found.get(word, 0) | 1 << at
    return Bits({word: bits | other for word, bits in found.items()}, other, numbers)
