"""Photos of tickets and receipts, from the picture's bytes to what is kept of them.

Thirty photos in fourteen layouts, each badly taken in one of five ways, twenty-two of papers in
Spanish, and pictures of other things. What is asked of them: at least nine in ten are read right
at once, and nothing wrong is kept unasked.
"""

from __future__ import annotations

import random
import time
from collections import Counter
from collections.abc import Callable, Sequence
from dataclasses import replace
from datetime import datetime, timedelta
from functools import cache
from typing import Literal, cast

import pytest
from PIL import Image

from bot.photos.opening import opened
from bot.photos.recognition import Recogniser
from bot.phrasebook import book_for, phrasebook
from domain.columns import lines
from domain.context import Context, Units
from domain.entries import Fill
from domain.page import Word, rows
from domain.pictured import of_photo
from domain.quantities import Quantity
from domain.reading import read
from domain.ticket_lines import Told, told
from domain.verdicts import Ask, Facts, Silent, Verdict
from tests.photos.drawn import ZONE, Drawn, Layout
from tests.photos.other_things import OTHER_THINGS
from tests.photos.pump_receipts import PUMP_RECEIPTS
from tests.photos.scale_tickets import SCALE_TICKETS
from tests.photos.spanish_papers import SPANISH_PAPERS
from tests.photos.wear import WEARS, Wear, as_sent

LAYOUTS = (*SCALE_TICKETS, *PUMP_RECEIPTS)

SPANISH = tuple(
    (number, SPANISH_PAPERS[number % len(SPANISH_PAPERS)], WEARS[number % len(WEARS)])
    for number in range(22)
)
"""Eleven layouts and five wears: no pair comes twice."""

PHOTOS = tuple(
    (number, LAYOUTS[number % len(LAYOUTS)], WEARS[number % len(WEARS)]) for number in range(30)
)
"""Fourteen layouts and five wears have no common factor: no pair comes twice."""

TENS = (PHOTOS[:10], PHOTOS[10:20], PHOTOS[20:])
"""Ten at a time, so that two workers share them; each ten holds every wear twice."""

LEAST_RIGHT = 0.9
SENT = datetime(2026, 7, 12, 9, tzinfo=ZONE)

Photo = tuple[int, Layout, Wear]
"""Its number, which seeds it, what is drawn and how badly it is taken."""

Outcome = Literal["right", "asked", "wrong choice", "not seen", "wrong"]


@cache
def words_on(picture: bytes, recogniser: Recogniser) -> tuple[Word, ...]:
    """What stands on a picture, in whatever language its chat is kept."""
    return recogniser.words(opened(picture))


def looked_at(recogniser: Recogniser, picture: bytes, language: str = "en") -> Told:
    return told(lines(rows(words_on(picture, recogniser))), phrasebook(language))


def verdict_on(page: Told, context: Context) -> Verdict:
    return of_photo(read(page.text, context, book_for(context)), page.sure, context)


def known_of(drawn: Drawn) -> Context:
    """What the chat knows where a ticket is sent three hours after it was printed."""
    (first, *_) = drawn.entries
    at = first.at if isinstance(first.at, datetime) else SENT
    miles = first.odometer.value - 212 if isinstance(first, Fill) and first.odometer else 40_000.0
    return Context(
        sent_at=at + timedelta(hours=3), units=cast("Units", drawn.units),
        currency=drawn.currency, odometer=Quantity(miles, "mi" if drawn.units == "us" else "km"),
        language=drawn.language,
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


def test_papers_in_english_are_read_in_a_chat_that_is_kept_in_spanish(
    recogniser: Recogniser,
) -> None:
    measured(recogniser, PHOTOS[:10], "ticket", "es", least=0.8)


@pytest.mark.parametrize("photos", TENS, ids=("first ten", "second ten", "third ten"))
def test_nine_in_ten_badly_taken_photos_are_read_at_once_and_nothing_wrong_is_kept(
    recogniser: Recogniser, photos: Sequence[Photo]
) -> None:
    measured(recogniser, photos, "ticket", "en")


@pytest.mark.parametrize("photos", [SPANISH[:11], SPANISH[11:]], ids=("first half", "second half"))
def test_nine_in_ten_photos_of_spanish_papers_are_read_at_once_and_nothing_wrong_is_kept(
    recogniser: Recogniser, photos: Sequence[Photo]
) -> None:
    measured(recogniser, photos, "papel", "es")


def measured(
    recogniser: Recogniser,
    photos: Sequence[Photo],
    seed: str,
    language: str,
    least: float = LEAST_RIGHT,
) -> None:
    """Read photos in a chat of a language; at least this share is right, and nothing wrong."""
    outcomes: Counter[Outcome] = Counter()
    told_of = []
    began = time.perf_counter()
    for number, layout, wear in photos:
        chance = random.Random(f"{seed} {number}")
        drawn = replace(layout(chance), language=language)
        page = looked_at(recogniser, as_sent(wear(drawn.sheet, chance)), language)
        outcome = outcome_of(drawn, verdict_on(page, known_of(drawn)))
        outcomes[outcome] += 1
        told_of.append(f"{layout.__name__} {wear.__name__}: {outcome}: {page.text!r}")
    each = (time.perf_counter() - began) / len(photos)
    print(f"\n{dict(outcomes)}, {each:.1f} s each", *told_of, sep="\n")
    assert outcomes["wrong"] == 0, told_of
    assert outcomes["right"] >= least * len(photos), told_of


@pytest.mark.parametrize("thing", OTHER_THINGS, ids=lambda thing: str(thing.__name__))
def test_nothing_is_kept_or_asked_of_a_picture_of_something_else(
    recogniser: Recogniser, thing: Callable[[random.Random], Image.Image]
) -> None:
    picture = as_sent(thing(random.Random(thing.__name__)))
    page = looked_at(recogniser, picture)
    assert verdict_on(page, Context(sent_at=SENT)) == Silent()
    assert page.text == ""
