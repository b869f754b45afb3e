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
    groups that its text is in. `ends_sentence` is set on what is the end of a sentence or a line.

    Numbers carry `value`, `decimals` (digits behind the point), `raw` as typed, how they were
    `said`, and whether they were `grouped` (19,460) or typed to `glued` letters (31gal).
    """

    __slots__ = (
        "decimals",
        "end",
        "ends_sentence",
        "glued",
        "grouped",
        "groups",
        "kind",
        "possessive",
        "raw",
        "said",
        "senses",
        "start",
        "text",
        "value",
    )

    decimals: int
    end: int
    ends_sentence: bool
    glued: bool
    grouped: bool
    groups: frozenset[str]
    kind: str
    possessive: bool
    raw: str
    said: Said
    senses: Senses
    start: int
    text: str
    value: float

    def __repr__(self) -> str:
        """For explaining a reading."""
        return f"{self.kind} {self.raw!r}"


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
    token.value = 0.0
    token.decimals = 0
    token.said = TYPED
    token.grouped = token.glued = token.possessive = token.ends_sentence = False
    return token
