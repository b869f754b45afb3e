"""The ratings given so far, and those missing with why they matter and where they stand.

This file decides how the rig's ratings are listed. How a single one is confirmed when it is
told is decided in `setup.py`.
"""

from __future__ import annotations

from datetime import datetime

from bot.answers.answer import Answer, Row
from bot.answers.limits import RATINGS, Told, limit_words
from bot.answers.words import counted, figure, number, sentence
from domain.log import Log, Preferences
from domain.quantities import Quantity
from domain.rig import rig_of
from domain.verdicts import Question
from domain.wanted import lacking

MOST_MISSING = 3
"""Missing ratings that are told with why they matter; the next ones come when these are given."""


def ratings_answer(log: Log, preferences: Preferences, now: datetime, question: Question) -> Answer:
    """The ratings given so far, or the one asked for, and those missing with where they stand."""
    rig = rig_of(log, now, truck=question.truck, trailer=question.trailer)
    stated = {
        key: Row(
            sentence(limit_words(key[:2]) or " ".join(filter(None, key)).replace("_", " ")),
            figure(each.value) if isinstance(each.value, Quantity) else number(each.value),
            each.note or "",
        )
        for key, each in rig.ratings.items()
        if question.rating in (None, key[1])
    }
    wanted = [key for key in lacking(rig) if question.rating in (None, key[1])]
    notes = tuple(_missing(RATINGS[key]) for key in wanted[:MOST_MISSING])
    if question.rating and not stated:
        return Answer(headline="That rating hasn't been given yet.", notes=notes)
    rows = tuple(stated.values())
    if len(rows) == 1:
        return Answer(headline=f"{rows[0].label}: {rows[0].figure}.", notes=notes)
    headline = f"{counted(len(rows), 'rating')} given." if rows else "No ratings given yet."
    return Answer(headline=headline, rows=rows, notes=notes)


def _missing(rating: Told) -> str:
    return f"Missing: {rating.name} ({rating.why}; {rating.where})."
