"""Answers to what a vehicle weighs by itself: the truck without a trailer, a trailer empty.

This file decides when that is asked, by the words of the question, and which pass or rating tells
it. What the rig weighs as it drives is told in `weights.py`.
"""

from __future__ import annotations

from bot.answers.answer import Answer, Row
from bot.answers.examples import TRUCK_ALONE, texted
from bot.answers.language import say
from bot.answers.limits import kilograms_text, mass_text
from bot.answers.terms import term
from bot.answers.words import moment, sentence
from bot.phrasebook import asked_words
from domain.asked_words import first_said
from domain.context import MASS_UNIT
from domain.log import Log, Preferences
from domain.passes import sessions
from domain.rig import rig_of
from domain.verdicts import Question

AXLES = ("steer", "drive")


def alone_answer(log: Log, preferences: Preferences, question: Question) -> Answer | None:
    """The truck as it was last weighed without a trailer; None where that is not asked."""
    if not _asks_alone(question):
        return None
    unit = MASS_UNIT[preferences.units]
    solo = next((s.passes["solo"] for s in sessions(log) if "solo" in s.passes), None)
    if solo is None:
        return Answer(
            headline=say("The truck alone hasn't been weighed."),
            notes=(
                say(
                    "Text the scale's figures, such as: {example}.",
                    example=texted(TRUCK_ALONE, preferences),
                ),
            ),
        )
    field = question.field if question.field in solo.loads else None
    whole = "truck" if "truck" in solo.loads else "gross"
    load = solo.loads.get(field or whole)
    if load is None:
        return None
    name = sentence(term(field) if field else question.truck or term("truck"))
    rows = (
        ()
        if field
        else tuple(
            Row(sentence(term(axle)), mass_text(solo.loads[axle], unit))
            for axle in AXLES
            if axle in solo.loads
        )
    )
    return Answer(
        headline=say("{name} {load}, without a trailer.", name=name, load=mass_text(load, unit)),
        rows=rows,
        notes=(say("Weighed {when}.", when=moment(solo.at, preferences)),),
    )


def _asks_alone(question: Question) -> bool:
    words = asked_words().alone
    if words["without a trailer"].search(question.text):
        return True
    if question.trailer:
        left = words["without the"].search(question.text)
        behind = question.text[left.end() :].casefold().lstrip() if left else ""
        return behind.startswith(question.trailer.casefold())
    return bool(question.truck) and words["by itself"].search(question.text) is not None


def empty_told(log: Log, preferences: Preferences, question: Question) -> str:
    """What the trailer weighs empty, where that is asked, in a sentence; else ''."""
    if question.truck or first_said(asked_words().empty, question.text) is None:
        return ""
    rig = rig_of(log, trailer=question.trailer)
    empty = rig.mass("trailer", "curb")
    if empty is None:
        return say("What the trailer weighs empty wasn't given.")
    return say("Empty {load}, as given.", load=kilograms_text(empty, MASS_UNIT[preferences.units]))
