"""The units of a message: words with their senses, numbers with their values, marks and breaks.

This file decides what a token is and nothing else; `lexer` finds the tokens of a message and
`spoken` makes numbers of number words.
"""

from __future__ import annotations

from domain.reading.phrasebook import Senses

WORD, NUMBER, MARK, BREAK, TIME, PHONE = "word", "number", "mark", "break", "time", "phone"


SENTENCE_ENDS = ".!?;"


NO_SENSES: Senses = {}


NO_GROUPS: frozenset[str] = frozenset()


class Token:
    """One unit of a message. `end` is exclusive; `senses` are empty for what no phrase names.

    `groups` are the phrasebook's groups that its text is in. `ends_sentence` is set on what is
    the end of a sentence or a line.

    Numbers carry `value`, `decimals` (digits behind the point), `raw` as typed, and whether
    they were `spoken` (`in_digits`: without a word for hundreds; `others`: what the words could
    mean besides), `grouped` (19,460) or typed to `glued` letters (31gal).
    """

    # Defaults on the class: most tokens are plain words, and are made by the dozen a message.
    senses: Senses = NO_SENSES
    groups: frozenset[str] = NO_GROUPS
    value: float = 0.0
    decimals: int = 0
    spoken: bool = False
    in_digits: bool = False
    others: tuple[float, ...] = ()
    grouped: bool = False
    scaled: bool = False
    glued: bool = False
    possessive: bool = False
    ends_sentence: bool = False

    def __init__(self, kind: str, text: str, raw: str, start: int, end: int) -> None:
        self.kind = kind
        self.text = text
        self.raw = raw
        self.start = start
        self.end = end

    def __repr__(self) -> str:
        """For explaining a reading."""
        return f"{self.kind} {self.raw!r}"
