"""The units of a message: words with their senses, numbers with their values, marks and breaks.

This file decides what a token is and nothing else; `lexer` finds the tokens of a message and
`spoken` makes numbers of number words.
"""

from __future__ import annotations

from dataclasses import dataclass

from domain.reading.phrasebook import Senses, Term

WORD, NUMBER, MARK, BREAK, TIME, PHONE = "word", "number", "mark", "break", "time", "phone"


SENTENCE_ENDS = ".!?;"


NO_SENSES: Senses = {}


NO_GROUPS: frozenset[str] = frozenset()


UNKNOWN: Term = (NO_SENSES, NO_GROUPS)


TENTHS, CENTS, MILLS = 1, 2, 3
"""Decimals of a volume at the pump, of money, and of a price of fuel, which nothing else has."""


@dataclass(frozen=True, slots=True)
class Said:
    """How a number was put in words, in whole or in part: '19 thousand', 'fifty-one forty'.

    `in_digits` is without a word for hundreds, `others` what the words could mean besides, and
    `scaled` with a word for thousands.
    """

    spoken: bool = False
    in_digits: bool = False
    others: tuple[float, ...] = ()
    scaled: bool = False


TYPED = Said()
"""A number in figures alone."""


class Token:
    """One unit of a message, made by `make_token`.

    `end` is exclusive; `senses` are empty for what no phrase names. `groups` are the phrasebook's
    groups that its text is in. `ends_sentence` is set on what is the end of a sentence or a line,
    and `glued` on what is typed to what stands before it (31gal).
    """

    __slots__ = (
        "end",
        "ends_sentence",
        "glued",
        "groups",
        "kind",
        "possessive",
        "raw",
        "senses",
        "start",
        "text",
    )

    end: int
    ends_sentence: bool
    glued: bool
    groups: frozenset[str]
    kind: str
    possessive: bool
    raw: str
    senses: Senses
    start: int
    text: str

    # What only a `Number` has of its own.
    decimals: int = 0
    grouped: bool = False
    said: Said = TYPED
    value: float = 0.0

    def __repr__(self) -> str:
        """For explaining a reading."""
        return f"{self.kind} {self.raw!r}"


class Number(Token):
    """A number, made by `make_number`: its value, and how it was put.

    `decimals` are the digits behind the point, `raw` is as typed, `said` how it was put in words,
    and `grouped` whether its digits are (19,460).
    """

    __slots__ = ("decimals", "grouped", "said", "value")


def make_token(kind: str, text: str, raw: str, start: int, end: int, term: Term = UNKNOWN) -> Token:
    """A token with a term's senses and groups.

    A function, since each word of a message is made one, and `__init__` costs a third more.
    """
    token = Token()
    token.kind = kind
    token.text = text
    token.raw = raw
    token.start = start
    token.end = end
    token.senses, token.groups = term
    token.glued = token.possessive = token.ends_sentence = False
    return token


def make_number(
    text: str, raw: str, start: int, end: int, value: float = 0.0, decimals: int = 0
) -> Number:
    """A number of which no phrase tells more; a function as `make_token` is."""
    token = Number()
    token.kind = NUMBER
    token.text = text
    token.raw = raw
    token.start = start
    token.end = end
    token.senses, token.groups = UNKNOWN
    token.value = value
    token.decimals = decimals
    token.said = TYPED
    token.grouped = token.glued = token.possessive = token.ends_sentence = False
    return token
