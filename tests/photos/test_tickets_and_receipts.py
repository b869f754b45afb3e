"""Photos of tickets and receipts, from the picture's bytes to what is kept of them.

Thirty photos in fourteen layouts, each badly taken in one of five ways, and pictures of other
things. What is asked of them: at least nine in ten are read right at once, and nothing wrong is
kept unasked.
"""

from __future__ import annotations

import random
import time
from collections import Counter
from collections.abc import Callable, Sequence
from datetime import datetime, timedelta
from typing import Literal, cast

import pytest
from PIL import Image

from bot.photos.opening import opened
from bot.photos.recognition import Recogniser
from bot.phrasebook import phrasebook
from domain.columns import lines
from domain.context import Context, Units
from domain.entries import Fill
from domain.page import rows
from domain.pictured import of_photo
from domain.quantities import Quantity
from domain.reading import read
from domain.ticket_lines import Told, told
from domain.verdicts import Ask, Facts, Silent, Verdict
from tests.photos.drawn import ZONE, Drawn, Layout
from tests.photos.other_things import OTHER_THINGS
from tests.photos.pump_receipts import PUMP_RECEIPTS
from tests.photos.scale_tickets import SCALE_TICKETS
from tests.photos.wear import WEARS, Wear, as_sent

LAYOUTS = (*SCALE_TICKETS, *PUMP_RECEIPTS)

PHOTOS = tuple(
    (number, LAYOUTS[number % len(LAYOUTS)], WEARS[number % len(WEARS)]) for number in range(30)
)
"""Fourteen layouts and five wears have no common factor: no pair comes twice."""

TENS = (PHOTOS[:10], PHOTOS[10:20], PHOTOS[20:])
"""Ten at a time, so that two workers share them; each ten holds every wear twice."""

LEAST_RIGHT = 0.9
SENT = datetime(2026, 7, 12, 9, tzinfo=ZONE)

Outcome = Literal["right", "asked", "wrong choice", "not seen", "wrong"]


def looked_at(recogniser: Recogniser, picture: bytes) -> Told:
    return told(lines(rows(recogniser.words(opened(picture)))), phrasebook())


def verdict_on(page: Told, context: Context) -> Verdict:
    return of_photo(read(page.text, context, phrasebook()), page.sure, context)


def known_of(drawn: Drawn) -> Context:
    """What the chat knows where a ticket is sent three hours after it was printed."""
    (first, *_) = drawn.entries
    at = first.at if isinstance(first.at, datetime) else SENT
    miles = first.odometer.value - 212 if isinstance(first, Fill) and first.odometer else 40_000.0
    return Context(
        sent_at=at + timedelta(hours=3), units=cast("Units", drawn.units),
        currency=drawn.currency, odometer=Quantity(miles, "mi" if drawn.units == "us" else "km"),
    )  # fmt: skip


def outcome_of(drawn: Drawn, verdict: Verdict) -> Outcome:
    match verdict:
        case Facts(entries):
            return "right" if entries == drawn.entries else "wrong"
        case Ask(choices=choices):
            offered = any(choice.entries == drawn.entries for choice in choices)
            return "asked" if offered else "wrong choice"
        case _:
            return "not seen"


@pytest.mark.parametrize("photos", TENS, ids=("first ten", "second ten", "third ten"))
def test_nine_in_ten_badly_taken_photos_are_read_at_once_and_nothing_wrong_is_kept(
    recogniser: Recogniser, photos: Sequence[tuple[int, Layout, Wear]]
) -> None:
    outcomes: Counter[Outcome] = Counter()
    told_of = []
    began = time.perf_counter()
    for number, layout, wear in photos:
        chance = random.Random(f"ticket {number}")
        drawn = layout(chance)
        page = looked_at(recogniser, as_sent(wear(drawn.sheet, chance)))
        outcome = outcome_of(drawn, verdict_on(page, known_of(drawn)))
        outcomes[outcome] += 1
        told_of.append(f"{layout.__name__} {wear.__name__}: {outcome}: {page.text!r}")
    each = (time.perf_counter() - began) / len(photos)
    print(f"\n{dict(outcomes)}, {each:.1f} s each", *told_of, sep="\n")
    assert outcomes["wrong"] == 0, told_of
    assert outcomes["right"] >= LEAST_RIGHT * len(photos), told_of


@pytest.mark.parametrize("thing", OTHER_THINGS, ids=lambda thing: str(thing.__name__))
def test_nothing_is_kept_or_asked_of_a_picture_of_something_else(
    recogniser: Recogniser, thing: Callable[[random.Random], Image.Image]
) -> None:
    picture = as_sent(thing(random.Random(thing.__name__)))
    page = looked_at(recogniser, picture)
    assert verdict_on(page, Context(sent_at=SENT)) == Silent()
    assert page.text == ""
