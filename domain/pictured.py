"""What a photo says for the log.

This file decides which lines of a picture have anything to do with a scale's ticket or a pump's
receipt, whether the picture is one at all, when its figures are beyond doubt, and what of a
verdict on its text is taken: weighings and fills, and nothing else. A wrong entry is worse than a
question too many, so what nothing vouches for is asked about. It reads no text itself.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, replace

from domain.columns import Line
from domain.entries import AXLES, SINGLE_AXLES, Entry, Fill, Odometer, Weighing
from domain.quantities import VOLUMES, Quantity
from domain.reading.lexer import clean, tokenize
from domain.reading.phrasebook import Phrasebook
from domain.reading.tokens import NUMBER, TIME, Token
from domain.verdicts import Ask, Choice, Facts, Silent, Verdict

CERTAIN = 0.9
"""The confidence from which a word with digits is taken as read."""

SHORT = 5
"""Words of a line that names a product or a pass and has no figure."""

LEAST_LOADS = 2
"""Lines with a load on a scale's ticket: an axle and the gross at the least."""

_LOADS = frozenset(("axle", "axle_noun", "whole", "vehicle"))
_FUEL = frozenset(("product", "per_volume"))
_LIMITS = frozenset(
    ("gvwr", "gcwr", "gawr", "gawr_front", "gawr_rear", "payload", "tow", "tongue", "tyre_load")
)
_KEPT = _LOADS | _FUEL | {"odometer", "trip_meter", "ticket", "corner", "side", "passes"}
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

    Lines that name no load, fuel, money for it, odometer, ticket number or date are left out: a
    receipt's card and account numbers are nobody's business. It is sure where each word with a
    digit was made out with CERTAIN confidence, and a day is among them.
    """
    seen = [_Seen(line, tokenize(clean(line.text), book)) for line in lines]
    kept = [line for line in seen if line.matters]
    if not _is_ticket(kept) or any(line.limits for line in seen) or _is_talk(seen):
        return NOTHING
    # Every ticket is dated: one without a day has a date that was not made out.
    dated = any(line.dayed for line in kept)
    return Told(
        "\n".join(line.line.text for line in kept),
        sure=dated and all(line.line.confidence >= CERTAIN for line in kept),
    )


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
    def figured(self) -> bool:
        """Whether digits stand on it."""
        return any(token.kind is NUMBER and not token.spoken for token in self.tokens)

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
        """Whether it tells a day."""
        return any(
            (token.kind is TIME and ":" not in token.raw[:LONGEST_CLOCK]) or "time" in token.senses
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
    def load(self) -> bool:
        """Whether it is a figure beside an axle or a gross, and no money."""
        heavy = any(token.kind is NUMBER and token.value >= LEAST_LOAD for token in self.tokens)
        return heavy and self.has(_LOADS) and not self.priced

    @property
    def limits(self) -> bool:
        """Whether it is about what is allowed, as on a door label or a road sign."""
        rated = any(token.senses.get("rating") in _LIMITS for token in self.tokens)
        limited = self.is_of("sign_of_limit") and (self.figured or self.has(("weigh_cue",)))
        return (rated and self.figured) or limited


LONGEST_CLOCK = 8
"""Characters of an hour with its seconds; a date and hour together are longer."""

MONEY_SIGNS = ("$", "£", "€")

LEAST_LOAD = 100
"""In pounds or kilograms; an axle of a tonne or two is printed in kilograms."""


def _is_ticket(kept: Sequence[_Seen]) -> bool:
    loads = sum(line.load for line in kept)
    fuel = any(line.has(_FUEL) for line in kept)
    volume = any(line.volume and line.figured for line in kept)
    money = any(line.money and line.figured for line in kept)
    return loads >= LEAST_LOADS or (fuel and volume and money)


LEAST_TALK = 2


def _is_talk(lines: Sequence[_Seen]) -> bool:
    """Whether people speak of themselves on it: a chat, a letter."""
    return sum(line.is_of("speaks_of_people") for line in lines) >= LEAST_TALK


def of_photo(verdict: Verdict, sure: bool) -> Verdict:
    """The verdict on a photo's text, of which only weighings and fills are taken.

    Facts stay facts where every figure was `sure` and the arithmetic closes: a weighing's axles
    make its gross, a fill's volume and price make its total. Everything else that may be right
    is one tap away: an Ask with what was read as its choice. An odometer reading goes with the
    weighing or fill beside it, and is nothing by itself.
    """
    match verdict:
        case Facts(entries):
            taken = _taken(entries)
            if not taken:
                return Silent()
            if sure and all(closes(entry) for entry in taken):
                return Facts(taken)
            return Ask("photo", (Choice(AS_READ, taken),), PHOTO)
        case Ask(choices=choices):
            return _asked(verdict, choices)
        case _:
            return Silent()


AS_READ = "as read"
PHOTO = "photo"


def _taken(entries: Sequence[Entry]) -> tuple[Entry, ...]:
    if not any(isinstance(entry, Weighing | Fill) for entry in entries):
        return ()
    return tuple(entry for entry in entries if isinstance(entry, Weighing | Fill | Odometer))


def _asked(ask: Ask, choices: Sequence[Choice]) -> Verdict:
    """A doubt that reading had, with the choices that hold a weighing or a fill."""
    left = tuple(
        replace(choice, entries=taken) for choice in choices if (taken := _taken(choice.entries))
    )
    if choices and not left:
        return Silent()
    return replace(ask, choices=left)


def closes(entry: Entry) -> bool:
    """Whether an entry's own arithmetic vouches for its figures.

    The parts of a weighing make its gross to the last digit that a platform shows; the volume and
    price of a fill make its total to the cent or two that a pump rounds.
    """
    match entry:
        case Weighing(loads=loads):
            return _makes_gross(loads)
        case Fill(volume=volume, unit_price=price, cost=cost) if volume and price and cost:
            same = price.unit == f"{cost.unit}/{volume.unit}"
            return same and abs(volume.value * price.value - cost.value) <= ROUNDED
        case Odometer():
            return True
        case _:
            return False


ROUNDED = 0.015
"""Money: half a cent of rounding, and that of a volume shown in hundredths of a litre."""


def _makes_gross(loads: Mapping[str, Quantity]) -> bool:
    """Whether the axles make the gross exactly, with no load beside them that nothing checks.

    A scale prints the sum of what it prints; anything else may be a misread digit, for a 6 in
    the place of an 8 changes an axle by no more than a scale's own step.
    """
    left = {position: load for position, load in loads.items() if position != "gross"}
    gross = loads.get("gross")
    if gross is None or any(load.unit != gross.unit for load in left.values()):
        return False
    for axle in (*SINGLE_AXLES, *AXLES):
        sides = [left.pop(side) for side in (f"{axle}_left", f"{axle}_right") if side in left]
        if sides and not _same(sides, left.setdefault(axle, _sum(sides))):
            return False
    singles = [left.pop(axle) for axle in SINGLE_AXLES if axle in left]
    if singles and not _same(singles, left.setdefault("trailer", _sum(singles))):
        return False
    axles = [left.pop(axle) for axle in ("steer", "drive") if axle in left]
    if axles and not (len(axles) == 2 and _same(axles, left.setdefault("truck", _sum(axles)))):
        return False
    trailer = [left.pop("trailer")] if "trailer" in left else []
    truck = left.pop("truck", None)
    return not left and truck is not None and _same([truck, *trailer], gross)


def _sum(loads: Sequence[Quantity]) -> Quantity:
    return Quantity(sum(load.value for load in loads), loads[0].unit)


def _same(parts: Sequence[Quantity], whole: Quantity) -> bool:
    return abs(_sum(parts).value - whole.value) < LEAST_STEP


LEAST_STEP = 0.005
"""Less than the last digit of any scale's print, in tonnes too."""
