"""What of the verdict on a photo's text is taken for the log.

This file decides that weighings and fills are, and nothing else; and when they are beyond doubt:
each figure made out surely, their own arithmetic closing, and day and odometer in line with what
the chat knows. A wrong entry is worse than a question too many, so what nothing vouches for is
asked about or left out. Which text a photo has, and how sure its figures are, is decided in
`ticket_lines`.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import replace
from datetime import datetime, timedelta

from domain.choices import ChoiceLabel
from domain.context import Context
from domain.entries import AXLES, SINGLE_AXLES, Entry, Fill, Odometer, Weighing
from domain.quantities import Quantity
from domain.verdicts import Ask, Choice, Facts, Silent, Verdict
from domain.vouching import LEAST_STEP, ROUNDED

PHOTO = "photo"


def of_photo(verdict: Verdict, sure: bool, context: Context) -> Verdict:
    """The verdict on a photo's text, of which only weighings and fills are taken.

    Facts stay facts where every figure was `sure`, the arithmetic closes (a weighing's axles make
    its gross, a fill's volume and price its total), and the day and the odometer follow from what
    the chat knows. Everything else that may be right is one tap away: an Ask with what was read
    as its choice. An odometer reading goes with the weighing or fill beside it, and is nothing by
    itself.
    """
    match verdict:
        case Facts(entries):
            taken = _taken(entries)
            if not taken:
                return Silent()
            if sure and all(closes(entry) and follows(entry, context) for entry in taken):
                return Facts(taken)
            return Ask(PHOTO, (Choice(ChoiceLabel("as_read"), taken),), PHOTO)
        case Ask(choices=choices):
            return _asked(verdict, choices)
        case _:
            return Silent()


def _taken(entries: Sequence[Entry]) -> tuple[Entry, ...]:
    """Weighings and fills, with the odometer readings beside them, without what nothing checks.

    That is the place (names are read letter by letter, and a caption's first line is as likely a
    remark), and a ticket's number and fee (half a figure looks like a whole one).
    """
    if not any(isinstance(entry, Weighing | Fill) for entry in entries):
        return ()
    taken: list[Entry] = []
    for entry in entries:
        match entry:
            case Weighing():
                taken.append(replace(entry, place=None, ticket=None, cost=None))
            case Fill() | Odometer():
                taken.append(replace(entry, place=None))
    return tuple(taken)


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
    price of a fill make its total to the cent or two that a pump rounds, and it says what of: a
    receipt whose product was not made out may be for exhaust fluid.
    """
    match entry:
        case Weighing(loads=loads):
            return _makes_gross(loads)
        case Fill(volume=volume, unit_price=price, cost=cost) if volume and price and cost:
            told = entry.product is not None and price.unit == f"{cost.unit}/{volume.unit}"
            return told and abs(volume.value * price.value - cost.value) <= ROUNDED
        case Odometer():
            return True
        case _:
            return False


def follows(entry: Entry, context: Context) -> bool:
    """Whether an entry's day and odometer reading follow from what the chat knows.

    The day is one of the last two weeks. A reading needs the truck's last one, against which it
    was then read: one that runs back or jumps is no fact any more.
    """
    reading = entry.odometer if isinstance(entry, Fill | Odometer) else None
    if entry.at is None or (reading is not None and context.odometer is None):
        return False
    day = entry.at.date() if isinstance(entry.at, datetime) else entry.at
    return -A_DAY <= context.sent_at.date() - day <= RECENT


A_DAY, RECENT = timedelta(days=1), timedelta(days=14)
"""A ticket's day may be ahead of the chat's by a zone; and it is photographed soon after."""


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
