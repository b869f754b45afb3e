"""Answers about the rig as it is told, and about what Drawbar can be told.

This file decides how kept ratings are confirmed, which missing one is named first, and what
the help says. Listing every rating is the weights' answer.
"""

from __future__ import annotations

from collections.abc import Sequence

from bot.answers.answer import Answer, Row
from bot.answers.brief import rating_name, rating_value
from bot.answers.language import say
from bot.answers.limits import CAUTION, RATINGS
from bot.answers.words import counted, sentence
from domain.entries import Rating
from domain.log import Log
from domain.rig import Rig, rig_of
from domain.wanted import lacking

TANK = "tank's size, such as: tank 34 gal diesel"
"""No limit, but what a fill is held against; it is asked for after the ratings."""

EXAMPLES = (
    Row("a rig", "truck Juniper gvwr 11500 gcwr 27000 tank 34 gal diesel"),
    Row("a trailer", "trailer flatdeck gvwr 12000 axles 2x6000"),
    Row("a weighing", "steer 5280 drive 6940 trailer 9840"),
    Row("the truck alone", "solo: steer 4980 drive 3860"),
    Row("a fill", "48211, 31.4 gal at 3.899, full"),
    Row("a trip", "hitched flatdeck, leaving, 48011"),
    Row("a correction", "make that 5,230"),
    Row("taking back", "undo"),
)
QUESTIONS = "Ask: how heavy are we? are we over? mpg? how did we do this week?"
ONLY_TEXTED = "I only work with what you text."


def ratings_kept(log: Log, entries: Sequence[Rating]) -> Answer:
    """Ratings were kept: each one, and the one that is missing most."""
    owners = list(dict.fromkeys(_owner(entry) for entry in entries))
    whose = owners[0] if len(owners) == 1 else "the rig"
    rows = tuple(
        Row(
            rating_name(entry.rating)
            if len(owners) == 1
            else f"{_owner(entry)} {rating_name(entry.rating)}",
            rating_value(entry),
        )
        for entry in entries
    )
    missing = most_missing(rig_of(log))
    notes = (f"Still missing: {missing}.",) if missing else ()
    if len(rows) == 1:
        return Answer(headline=f"{sentence(whose)}: {rows[0].label} {rows[0].figure}.", notes=notes)
    return Answer(
        headline=f"{sentence(whose)}: {counted(len(rows), 'rating')} kept.", rows=rows, notes=notes
    )


def most_missing(rig: Rig) -> str | None:
    """The missing rating that matters most, and where it stands; None where all are given."""
    for each in lacking(rig)[:1]:
        return f"{RATINGS[each].name} ({RATINGS[each].where})"
    return None if rig.rating("truck", "tank") else TANK


def language_answer() -> Answer:
    """The language of the answers was chosen, and this is in it."""
    return Answer(headline=say("Answers come in English from now on."))


def which_language_answer() -> Answer:
    """A language was asked for that there is none of."""
    return Answer(headline=say("Answers come in English or Spanish: text language and its name."))


def help_answer() -> Answer:
    """What can be texted, by example."""
    return Answer(
        headline="Text it as you would to a friend.",
        rows=EXAMPLES,
        notes=(QUESTIONS, f"{ONLY_TEXTED} {CAUTION}"),
    )


def _owner(entry: Rating) -> str:
    if entry.subject in ("truck", "trailer"):
        return entry.truck or entry.trailer or entry.subject
    return entry.subject
