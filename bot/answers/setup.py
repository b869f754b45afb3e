"""Answers about the rig as it is told, and about what Drawbar can be told.

This file decides how kept ratings are confirmed, which missing one is named first, and what
the help says. Listing every rating is the weights' answer.
"""

from __future__ import annotations

from collections.abc import Sequence

from bot.answers.answer import Answer, Row
from bot.answers.brief import rating_name, rating_value
from bot.answers.language import marked, say, say_count
from bot.answers.limits import CAUTION, RATINGS
from bot.answers.terms import term
from bot.answers.words import sentence
from domain.entries import Rating
from domain.log import Log
from domain.rig import Rig, rig_of
from domain.wanted import Wanted, lacking

TANK = marked("Still missing: the tank's size, such as: tank 34 gal diesel.")
"""No limit, but what a fill is held against."""

TANK_TEXTED = marked("tank 34 gal diesel")

EXAMPLES = (
    (marked("a rig"), marked("truck Juniper gvwr 11500 front axle 5600 rear axle 7000")),
    (marked("a trailer"), marked("trailer flatdeck gvwr 12000 axles 2x6000")),
    (marked("a weighing"), marked("steer 5280 drive 6940 trailer 9840")),
    (marked("the truck alone"), marked("solo: steer 4980 drive 3860")),
    (marked("a fill"), marked("48211, 31.4 gal at 3.899, full")),
    (marked("a trip"), marked("hitched flatdeck, leaving, 48011")),
    (marked("a correction"), marked("make that 5,230")),
    (marked("taking back"), marked("undo")),
    (marked("a picture"), marked("show me the rig")),
    (marked("what a word means"), marked("what is GVWR")),
)
QUESTIONS = marked(
    "Ask: how heavy are we? are we over? what changed? mpg? how did we do this week?"
)
ONLY_TEXTED = marked("I only work with what you text.")


def ratings_kept(log: Log, entries: Sequence[Rating]) -> Answer:
    """Ratings were kept: each one, and the one that is missing most."""
    owners = list(dict.fromkeys(_owner(entry) for entry in entries))
    whose = owners[0] if len(owners) == 1 else say("the rig")
    rows = tuple(
        Row(
            rating_name(entry.rating)
            if len(owners) == 1
            else f"{_owner(entry)} {rating_name(entry.rating)}",
            rating_value(entry),
        )
        for entry in entries
    )
    notes = missing_notes(rig_of(log))
    if len(rows) == 1:
        return Answer(headline=f"{sentence(whose)}: {rows[0].label} {rows[0].figure}.", notes=notes)
    headline = say_count(
        "{whose}: {count} rating kept.",
        "{whose}: {count} ratings kept.",
        len(rows),
        whose=sentence(whose),
    )
    return Answer(headline=headline, rows=rows, notes=notes)


def missing_notes(rig: Rig) -> tuple[str, ...]:
    """The missing rating that matters most and where it stands, and how to text all of its kind.

    Of truck and tyres all that is missing can be texted at once; nothing where all are given.
    """
    missing = lacking(rig)
    if not missing:
        return () if rig.rating("truck", "tank") else (say(TANK),)
    first = RATINGS[missing[0]]
    kind = _kind(missing[0])
    together = [say(RATINGS[each].as_texted) for each in missing if _kind(each) == kind]
    if kind == "truck" and not rig.rating("truck", "tank"):
        together.append(say(TANK_TEXTED))
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


def help_answer() -> Answer:
    """What can be texted, by example."""
    return Answer(
        headline=say("Text it as you would to a friend."),
        rows=tuple(Row(say(what), say(text)) for what, text in EXAMPLES),
        notes=(say(QUESTIONS), f"{say(ONLY_TEXTED)} {say(CAUTION)}"),
    )


def _owner(entry: Rating) -> str:
    if entry.subject in ("truck", "trailer"):
        return entry.truck or entry.trailer or term(entry.subject)
    return term(entry.subject)
