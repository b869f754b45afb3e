"""Which lines of a picture go into the log's text, and whether it is a ticket at all.

This file decides, by the reader's own vocabulary, which lines of a page have anything to do with
a scale's ticket or a pump's receipt, whether the page is one, and when its figures were made out
beyond doubt. It reads no text itself: what the lines mean is for the reader, and what of that is
taken from a photo is decided in `pictured`.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from domain.columns import Line
from domain.printed import MONEY_SIGNS
from domain.quantities import VOLUMES
from domain.reading.lexer import clean, tokenize
from domain.reading.phrasebook import Phrasebook
from domain.reading.tokens import NUMBER, TIME, Token
from domain.vouching import borne_out

CERTAIN = 0.9
"""The confidence from which a word with digits is taken as read."""

LIKELY = 0.5
"""The confidence from which it is, where the arithmetic of its page bears it out."""

SHORT = 5
"""Words of a line that names a product or a pass and has no figure."""

LEAST_LOADS = 2
"""Loads on a scale's ticket without a number: an axle and the gross at the least."""

_LOADS = frozenset(("axle", "axle_noun", "whole", "vehicle"))
_FUEL = frozenset(("product", "per_volume"))
_LIMITS = frozenset(
    (
        "gvwr",
        "gcwr",
        "gawr",
        "gtm",
        "gawr_front",
        "gawr_rear",
        "payload",
        "tow",
        "tongue",
        "tyre_load",
    )
)
_KEPT = _LOADS | _FUEL | {"odometer", "corner", "side", "passes"}
_HEADS = frozenset(("product", "passes", "rig", "bars"))


@dataclass(frozen=True, slots=True)
class Told:
    """The text of a photo, a line a row, and whether each of its figures is beyond doubt.

    The text is empty where the picture is no ticket and no receipt.
    """

    text: str
    sure: bool


NOTHING = Told("", sure=False)


def told(lines: Sequence[Line], book: Phrasebook) -> Told:
    """What of a page goes into the log's text: nothing, unless it is a ticket or a receipt.

    Lines that name no load, fuel, money for it, odometer or date are left out: a receipt's card
    and account numbers are nobody's business. It is sure where each word with a digit was made
    out with CERTAIN confidence, or with LIKELY confidence where the arithmetic of the page bears
    it out, and a day is among them.
    """
    seen = [_Seen(line, tokenize(clean(line.text), book)) for line in lines]
    kept = [line for line in seen if line.matters]
    numbered = any(line.has(("ticket",)) for line in seen)
    if not _is_ticket(kept, numbered) or any(line.limits for line in seen) or _is_talk(seen):
        return NOTHING
    # Every ticket is dated: one without a day has a date that was not made out.
    dated = any(line.dayed for line in kept)
    return Told("\n".join(line.line.text for line in kept), sure=dated and _is_sure(kept))


def _is_sure(kept: Sequence[_Seen]) -> bool:
    """Whether each line is certain, or likely with figures that the others bear out."""
    figures = [(line, figure) for line in kept for figure in line.figures]
    borne = borne_out([figure for _, figure in figures])
    alone = [line for index, (line, _) in enumerate(figures) if index not in borne]

    def needed(line: _Seen) -> float:
        backed = line.figures and not line.timed and line not in alone
        return LIKELY if backed else CERTAIN

    return all(line.line.confidence >= needed(line) for line in kept)


def captioned(caption: str, page: Told, book: Phrasebook) -> Told:
    """The text of a photo below its caption.

    A caption that asks, denies, guesses or speaks of somebody else ('not ours', 'look at Dan's
    rig') is left out of the text, and the page is then not sure: it may be no business of the
    log at all.
    """
    if not caption.strip():
        return page
    tokens = tokenize(clean(caption), book)
    aside = any(
        token.raw == "?" or token.possessive or "talk" in token.senses or "not" in token.groups
        for token in tokens
    )
    if aside:
        return Told(page.text, sure=False)
    return Told(f"{caption}\n{page.text}", page.sure)


@dataclass(frozen=True, slots=True)
class _Seen:
    """A line and its tokens."""

    line: Line
    tokens: Sequence[Token]

    def has(self, classes: Iterable[str]) -> bool:
        """Whether a word of it is in one of the phrasebook's classes."""
        return any(not token.senses.keys().isdisjoint(classes) for token in self.tokens)

    def is_of(self, *groups: str) -> bool:
        """Whether a word of it is in one of the phrasebook's groups."""
        return any(not token.groups.isdisjoint(groups) for token in self.tokens)

    @property
    def figures(self) -> tuple[float, ...]:
        """Its numbers in digits; dates and clocks are none."""
        return tuple(
            token.value for token in self.tokens if token.kind is NUMBER and not token.said.spoken
        )

    @property
    def figured(self) -> bool:
        """Whether digits stand on it."""
        return bool(self.figures)

    @property
    def matters(self) -> bool:
        """Whether it says something for the log."""
        if self.figured:
            fuel = self.has(("fuel_cue",)) and any(token.decimals > 1 for token in self.tokens)
            return self.has(_KEPT) or self.money or self.volume or self.timed or fuel
        return self.timed or (len(self.tokens) <= SHORT and self.has(_HEADS))

    @property
    def timed(self) -> bool:
        """Whether it tells a day or an hour."""
        return self.clocked or self.dayed

    @property
    def clocked(self) -> bool:
        """Whether it tells an hour."""
        return any(token.kind is TIME and ":" in token.raw for token in self.tokens)

    @property
    def dayed(self) -> bool:
        """Whether it tells a day: of a month by its name, or by three numbers."""
        return any(
            (token.kind is TIME and _DAY.match(token.raw)) or "time" in token.senses
            for token in self.tokens
        )

    @property
    def money(self) -> bool:
        """Whether it speaks of money."""
        return self.priced or self.is_of("price_word", "cost_word")

    @property
    def priced(self) -> bool:
        """Whether a sign of money stands on it."""
        return any(token.raw in MONEY_SIGNS for token in self.tokens)

    @property
    def volume(self) -> bool:
        """Whether it speaks of gallons or litres."""
        return any(token.senses.get("unit") in VOLUMES for token in self.tokens)

    @property
    def loads(self) -> int:
        """How many figures stand on it beside an axle or a gross, and are no money."""
        if self.priced or not self.has(_LOADS):
            return 0
        return sum(token.kind is NUMBER and _amount(token) >= LEAST_LOAD for token in self.tokens)

    @property
    def limits(self) -> bool:
        """Whether it is about what is allowed, as on a door label or a road sign."""
        rated = any(token.senses.get("rating") in _LIMITS for token in self.tokens)
        limited = self.is_of("sign_of_limit") and (self.figured or self.has(("weigh_cue",)))
        return (rated and self.figured) or limited


def _amount(token: Token) -> float:
    """A number, as a load: 1.480 is printed for 1,480 where points group the digits."""
    grouped = token.decimals == 3 and token.value < 1000
    return token.value * 1000 if grouped else token.value


_DAY = re.compile(r"\d+[/.-]\d+[/.-]\d")

LEAST_LOAD = 100
"""In pounds or kilograms; an axle of a tonne or two is printed in kilograms."""


def _is_ticket(kept: Sequence[_Seen], numbered: bool) -> bool:
    """Two loads, or one beside a ticket's number; or fuel, how much of it and for how much."""
    loads = sum(line.loads for line in kept)
    fuel = any(line.has(_FUEL) for line in kept)
    volume = any(line.volume and line.figured for line in kept)
    money = any(line.money and line.figured for line in kept)
    return loads >= (1 if numbered else LEAST_LOADS) or (fuel and volume and money)


LEAST_TALK = 2


def _is_talk(lines: Sequence[_Seen]) -> bool:
    """Whether people speak of themselves on it: a chat, a letter."""
    return sum(line.is_of("speaks_of_people") for line in lines) >= LEAST_TALK
