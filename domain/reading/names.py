"""The chat's own names among the words of a message.

This file decides which tokens name the chat's truck or one of its trailers: the name itself, its
possessive or plural, and for a name of several words another word for the same vehicle. Where
nobody gave a trailer another name, its kind is one: 'the camper'. It does not know what is said
of the vehicle.
"""

from __future__ import annotations

from collections.abc import Mapping
from functools import lru_cache

from domain.context import Context
from domain.reading.phrasebook import Phrasebook, Senses, split_words
from domain.reading.tokens import NO_GROUPS, NO_SENSES, WORD, Token, make_token

MAX_REMEMBERED = 1_024
"""Chats: the names of as many are kept in the form that reading needs."""


class Names:
    """What each name means ('truck:Juniper'), by the name as its tokens: 'pop-up' is two words.

    `forms` holds the plurals and possessives too, and the kinds that name a trailer; `several`
    are the names of several words, `halves` those of one, by the first half of what may be heard
    as two: 'flat deck'. `heard` are all the words with which a name may be told: each of several.
    """

    __slots__ = ("forms", "halves", "heard", "own", "several")

    def __init__(self, own: Senses, kinds: Senses) -> None:
        self.own = own
        called = {**kinds, **own}
        self.forms: Senses = {**{f"{name}s": meaning for name, meaning in called.items()}, **called}
        self.several = [(name.split(), meaning) for name, meaning in own.items() if " " in name]
        self.halves = {
            name[:at]: name
            for name in own
            if name.isalpha()
            for at in range(SHORTEST_HALF, len(name) - SHORTEST_HALF + 1)
        }
        self.heard = frozenset((*self.forms, *" ".join(self.forms).split(), *self.halves))

    def within(self, words: tuple[str, ...], text: str) -> str | None:
        """What a phrase names, or else the first of its words that is a name."""
        own, meaning = self.own, self.forms.get(text)
        if meaning is not None or own.keys().isdisjoint(words):
            return meaning
        return next(own[word] for word in words if word in own)


SHORTEST_HALF = 3
"""Letters of a word of its own."""

NO_NAMES = Names({}, {})


def names_of(context: Context, book: Phrasebook) -> Names:
    """The names that a chat has given to its truck and trailers."""
    kinds = book.trailer_kinds if context.names_by_kind else ()
    return _names(context.truck, context.trailers, kinds)


@lru_cache(MAX_REMEMBERED)
def _names(
    truck: str | None, trailers: tuple[str, ...], kinds: tuple[tuple[str, str], ...]
) -> Names:
    own: dict[str, str] = {}
    if truck:
        own[" ".join(split_words(truck))] = f"truck:{truck}"
    for trailer in trailers:
        own[" ".join(split_words(trailer))] = f"trailer:{trailer}"
    return Names(own, _by_kind(trailers, dict(kinds)))


def _by_kind(trailers: tuple[str, ...], kinds: Mapping[str, str]) -> Senses:
    """What each kind of trailer names: the only one of that kind, or one that is new.

    Where a trailer has a name that tells no kind, another kind may be said of that one.
    """
    told: dict[str, list[str]] = {}
    for trailer in trailers:
        told.setdefault(_kind(trailer, kinds), []).append(trailer)
    named: dict[str, str] = {}
    for word, kind in kinds.items():
        own = told.get(kind, [] if NO_KIND in told else [word])
        if len(own) == 1:
            named[word] = f"trailer:{own[0]}"
    return named


NO_KIND = ""


def _kind(trailer: str, kinds: Mapping[str, str]) -> str:
    words = split_words(trailer)
    said = [" ".join(words), " ".join(words[-2:]), *reversed(words)]
    return next((kinds[each] for each in said if each in kinds), NO_KIND)


def join_names(tokens: list[Token], book: Phrasebook, names: Names) -> list[Token]:
    """A name of several words becomes one token, whatever word for the vehicle stands in it."""
    for words, meaning in names.several:
        size = len(words)
        index = 0
        while index + size <= len(tokens):
            if _same_word(tokens[index].text, words[0], book) and all(
                _same_word(tokens[index + k].text, words[k], book) for k in range(1, size)
            ):
                first, last = tokens[index], tokens[index + size - 1]
                token = make_token(WORD, " ".join(words), first.raw, first.start, last.end)
                token.senses = {"name": meaning}
                token.groups = book.memberships.get(token.text, NO_GROUPS)
                token.possessive = last.possessive
                tokens[index : index + size] = [token]
            index += 1
    return tokens


def join_halves(tokens: list[Token], book: Phrasebook, names: Names) -> list[Token]:
    """'the flat deck' is the flatdeck: a name of one word, heard as two, becomes one token."""
    for index in range(len(tokens) - 2, -1, -1):
        first, last = tokens[index], tokens[index + 1]
        name = names.halves.get(first.text)
        if name is None or last.start - first.end > 1:
            continue
        if last.text in (name[len(first.text) :], f"{name[len(first.text) :]}s"):
            token = make_token(WORD, name, first.raw, first.start, last.end)
            token.groups = book.memberships.get(name, NO_GROUPS)
            token.possessive = last.possessive
            tokens[index : index + 2] = [token]
    return tokens


def _same_word(text: str, word: str, book: Phrasebook) -> bool:
    """The same word, its possessive or plural, or another word for the same vehicle."""
    if text == word or text == f"{word}s":
        return True
    one, other = book.words.get(text, NO_SENSES), book.words.get(word, NO_SENSES)
    return one.get("vehicle") == other.get("vehicle") is not None
