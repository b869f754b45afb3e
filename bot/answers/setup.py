"""Answers about the rig as it is told, and about what Drawbar can be told.

This file decides how kept ratings are confirmed, which missing one is named first, and what
the help says. Listing every rating is the weights' answer.
"""

from __future__ import annotations

from collections.abc import Sequence

from bot.answers.answer import Answer, Row
from bot.answers.brief import rating_name, rating_value
from bot.answers.examples import (
    MEANING,
    PICTURE,
    PUT_RIGHT,
    RATED,
    TAKEN_BACK,
    TANK,
    TRAILER,
    TRIP,
    TRUCK,
    TRUCK_ALONE,
    WEIGHING,
    fill_texted,
    texted,
)
from bot.answers.language import marked, say, say_count
from bot.answers.limits import CAUTION, RATINGS, tyres_name
from bot.answers.terms import term
from bot.answers.words import sentence
from domain.countries import country_of
from domain.entries import Rating
from domain.log import Log, Preferences
from domain.rig import Rig, key_of, rig_of, subject_of
from domain.wanted import Wanted, lacking

TANK_MISSING = marked("Still missing: the tank's size, such as: {example}.")
"""No limit, but what a fill is held against."""

QUESTIONS = marked(
    "Ask: how heavy are we? are we over? what changed? economy? how did we do this week?"
)
ONLY_TEXTED = marked("I only work with what you text.")


def ratings_kept(log: Log, preferences: Preferences, entries: Sequence[Rating]) -> Answer:
    """Ratings were kept: each one, and the one that is missing most."""
    owners = list(dict.fromkeys(_owner(entry) for entry in entries))
    whose = owners[0] if len(owners) == 1 else say("the rig")
    rows = tuple(
        Row(
            rating_name(entry.rating, entry.subject)
            if len(owners) == 1
            else f"{_owner(entry)} {rating_name(entry.rating, entry.subject)}",
            rating_value(entry),
        )
        for entry in entries
    )
    notes = missing_notes(rig_of(log), preferences)
    if len(rows) == 1:
        return Answer(headline=f"{sentence(whose)}: {rows[0].label} {rows[0].figure}.", notes=notes)
    headline = say_count(
        "{whose}: {count} rating kept.",
        "{whose}: {count} ratings kept.",
        len(rows),
        whose=sentence(whose),
    )
    return Answer(headline=headline, rows=rows, notes=notes)


def missing_notes(rig: Rig, preferences: Preferences) -> tuple[str, ...]:
    """The missing rating that matters most and where it stands, and how to text all of its kind.

    Of truck and tyres all that is missing can be texted at once; nothing where all are given.
    """
    missing = lacking(rig, country_of(preferences.currency))
    if not missing:
        if rig.rating("truck", "tank"):
            return ()
        return (say(TANK_MISSING, example=texted(TANK, preferences)),)
    first = RATINGS[missing[0]]
    kind = _kind(missing[0])
    together = [texted(RATED[each], preferences) for each in missing if _kind(each) == kind]
    if kind == "truck" and not rig.rating("truck", "tank"):
        together.append(texted(TANK, preferences))
    return (
        say("Still missing: {rating} ({where}).", rating=say(first.name), where=say(first.where)),
        say("Text what you find, such as: {example}", example=", ".join(together)),
    )


def _kind(wanted: Wanted) -> str:
    return "tyres" if wanted[0].endswith("tyres") else wanted[0]


def language_answer() -> Answer:
    """The language of the answers was chosen, and this is in it."""
    return Answer(headline=say("Answers come in English from now on."))


def which_language_answer() -> Answer:
    """A language was asked for that there is none of."""
    return Answer(headline=say("Answers come in English or Spanish: text language and its name."))


def help_answer(preferences: Preferences) -> Answer:
    """What can be texted, by example."""
    return Answer(
        headline=say("Text it as you would to a friend."),
        rows=(
            Row(say("a rig"), texted(TRUCK, preferences)),
            Row(say("a trailer"), texted(TRAILER, preferences)),
            Row(say("a weighing"), texted(WEIGHING, preferences)),
            Row(say("the truck alone"), texted(TRUCK_ALONE, preferences)),
            Row(say("a fill"), fill_texted(preferences)),
            Row(say("a trip"), texted(TRIP, preferences)),
            Row(say("a correction"), texted(PUT_RIGHT, preferences)),
            Row(say("taking back"), texted(TAKEN_BACK, preferences)),
            Row(say("a picture"), texted(PICTURE, preferences)),
            Row(say("what a word means"), texted(MEANING, preferences)),
        ),
        notes=(say(QUESTIONS), f"{say(ONLY_TEXTED)} {say(CAUTION)}"),
    )


def _owner(entry: Rating) -> str:
    if entry.subject in ("truck", "trailer"):
        return entry.truck or entry.trailer or term(entry.subject)
    return tyres_name(key_of(entry)) or term(subject_of(entry))
