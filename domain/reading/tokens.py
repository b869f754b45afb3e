"""The units of a message: words with their senses, numbers with their values, marks and breaks.

This file decides what a token is and nothing else; `lexer` finds the tokens of a message and
`spoken` makes numbers of number words.
"""

from __future__ import annotations

from domain.reading.phrasebook import Senses, Term

WORD, NUMBER, MARK, BREAK, TIME, PHONE = "word", "number", "mark", "break", "time", "phone"


SENTENCE_ENDS = ".!?;"


NO_SENSES: Senses = {}


NO_GROUPS: frozenset[str] = frozenset()


UNKNOWN: Term = (NO_SENSES, NO_GROUPS)


class Token:
    """One unit of a message. `end` is exclusive; `senses` are empty for what no phrase names.

    `groups` are the phrasebook's groups that its text is in. `ends_sentence` is set on what is
    the end of a sentence or a line.

    Numbers carry `value`, `decimals` (digits behind the point), `raw` as typed, and whether
    they were `spoken` (`in_digits`: without a word for hundreds; `others`: what the words could
    mean besides), `grouped` (19,460) or typed to `glued` letters (31gal).
    """

    __slots__ = (
        "decimals",
        "end",
        "ends_sentence",
        "glued",
        "grouped",
        "groups",
        "in_digits",
        "kind",
        "others",
        "possessive",
        "raw",
        "scaled",
        "senses",
        "spoken",
        "start",
        "text",
        "value",
    )

    def __init__(
        self,
        kind: str,
        text: str,
        raw: str,
        start: int,
        end: int,
        term: Term = UNKNOWN,
    ) -> None:
        self.kind = kind
        self.text = text
        self.raw = raw
        self.start = start
        self.end = end
        self.senses, self.groups = term
        self.value: float = 0.0
        self.decimals = 0
        self.spoken = False
        self.in_digits = False
        self.others: tuple[float, ...] = ()
        self.grouped = False
        self.scaled = False
        self.glued = False
        self.possessive = False
        self.ends_sentence = False

    def __repr__(self) -> str:
        """For explaining a reading."""
        return f"{self.kind} {self.raw!r}"
