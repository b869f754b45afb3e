"""The ratings given so far, and those missing with why they matter and where they stand.

This file decides how the rig's ratings are listed. How a single one is confirmed when it is
told is decided in `setup.py`.
"""

from __future__ import annotations

from datetime import datetime

from bot.answers.answer import Answer, Row
from bot.answers.brief import rating_figure, rating_name, rating_note
from bot.answers.language import say, say_count
from bot.answers.limits import limit_words, missing_rating, subjects_asked, tyres_name
from bot.answers.terms import term
from bot.answers.words import sentence
from domain.countries import country_of
from domain.entries import Rating
from domain.log import Log, Preferences
from domain.quantities import Quantity
from domain.rig import TRAILER_PARTS, Key, rig_of
from domain.tyres import Undated, code_digits, date_code
from domain.verdicts import Question
from domain.wanted import is_of_the_rig, lacking

MOST_MISSING = 3
"""Missing ratings that are told with why they matter; the next ones come when these are given."""


def ratings_answer(log: Log, preferences: Preferences, now: datetime, question: Question) -> Answer:
    """The ratings given so far, or the one asked for, and those missing with where they stand."""
    rig = rig_of(log, now, truck=question.truck, trailer=question.trailer)
    stated = {
        key: rating_row(key, each, now)
        for key, each in rig.ratings.items()
        if question.rating in (None, key[1])
        and _is_asked_of(key[0], question)
        and is_of_the_rig(key)
    }
    country = country_of(preferences.currency)
    wanted = [
        key
        for key in lacking(rig, country)
        if question.rating in (None, key[1]) and _is_asked_of(key[0], question)
    ]
    notes = tuple(missing_rating(key) for key in wanted[:MOST_MISSING])
    if question.rating and not stated:
        return Answer(headline=say("That rating hasn't been given yet."), notes=notes)
    rows = tuple(stated.values())
    if len(rows) == 1:
        only = ", ".join(filter(None, (rows[0].figure, rows[0].remark)))
        return Answer(headline=f"{rows[0].label}: {only}.", notes=notes)
    if not rows:
        return Answer(headline=say("No ratings given yet."), notes=notes)
    headline = say_count("{count} rating given.", "{count} ratings given.", len(rows))
    return Answer(headline=headline, rows=rows, notes=notes)


def _is_asked_of(subject: str, question: Question) -> bool:
    """Whether a part is the one asked for, or of the trailer whose limits are asked for."""
    subjects = subjects_asked(question)
    if subjects:
        return subject in subjects
    if question.rating or question.truck or not question.trailer:
        return True
    return subject in TRAILER_PARTS


def rating_row(key: Key, rating: Rating, now: datetime) -> Row:
    """A rating as it was given: what it is called, its figure, and what belongs to that."""
    return Row(
        sentence(tyres_name(key) or limit_words(key[:2]) or _plain_name(*key)),
        rating_figure(rating),
        rating_note(rating) or _made(rating, now),
    )


def _plain_name(subject: str, rating: str, condition: str) -> str:
    """What a rating is called that bounds nothing: `truck tank`."""
    name = say("{owner} {part}", owner=term(subject), part=rating_name(rating, subject))
    return f"{name} {term(condition)}" if condition else name


def _made(rating: Rating, now: datetime) -> str:
    """When a tyre was made, and its age; '' for any other rating, or a code that tells none."""
    if rating.rating != "date_code" or isinstance(rating.value, Quantity):
        return ""
    made = date_code(code_digits(rating.value), now.date())
    if isinstance(made, Undated):
        return term(made.why)
    return say_count(
        "week {week} of {year}, {count} year",
        "week {week} of {year}, {count} years",
        int(made.age(now.date())),
        week=made.week,
        year=made.year,
    )
