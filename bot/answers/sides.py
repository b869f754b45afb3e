"""Answers to which side is heavier: the wheels on the left against those on the right.

This file decides when that is asked, by the words of the question, and how it is said. Only axles
count of which both sides stood on a plate of their own.
"""

from __future__ import annotations

from bot.answers.answer import Answer, Row
from bot.answers.examples import WHEELS, texted
from bot.answers.language import say
from bot.answers.limits import CAUTION, mass_text
from bot.answers.terms import term
from bot.answers.weighed import Weighed
from bot.answers.words import moment, sentence
from bot.phrasebook import asked_words
from domain.asked_words import first_said
from domain.context import MASS_UNIT
from domain.log import Preferences
from domain.passes import SIDED, Pass, total
from domain.uncertainty import Measured, spread
from domain.verdicts import Question


def sides_answer(told: Weighed, preferences: Preferences, question: Question) -> Answer | None:
    """What each side carries, axle by axle; None where no side is asked about."""
    if first_said(asked_words().sides, question.text) is None:
        return None
    unit = MASS_UNIT[preferences.units]
    passes = sorted(told.weights.session.passes.values(), key=lambda each: each.order)
    sided = [each for each in passes if _pairs(each)]
    if not sided:
        return Answer(
            headline=say("No side was weighed by itself."),
            notes=(
                say(
                    "That takes each wheel on a plate of its own, such as: {example}.",
                    example=texted(WHEELS, preferences),
                ),
            ),
        )
    weighed_so, pairs = sided[-1], _pairs(sided[-1])
    left, right = (total(loads) for loads in zip(*((a, b) for _, a, b in pairs), strict=True))
    more = left - right
    apart = mass_text(more, unit, derived=True, absolute=True)
    if abs(more.nominal_value) < spread(more):
        verdict = say("Too close to tell apart.")
    elif more.nominal_value > 0:
        verdict = say("{mass} more on the left.", mass=apart)
    else:
        verdict = say("{mass} more on the right.", mass=apart)
    sides = say(
        "Left {left}, right {right}.", left=mass_text(left, unit), right=mass_text(right, unit)
    )
    rows = tuple(
        Row(sentence(term(axle)), mass_text(a, unit), say("right {mass}", mass=mass_text(b, unit)))
        for axle, a, b in pairs
    )
    when = say("Weighed {when}.", when=moment(weighed_so.at, preferences))
    return Answer(headline=f"{sides} {verdict}", rows=rows, notes=(when, say(CAUTION)))


def _pairs(weighed_so: Pass) -> list[tuple[str, Measured, Measured]]:
    """The axles of a pass of which both sides were weighed: axle, left, right."""
    loads = weighed_so.loads
    return [
        (axle, loads[left], loads[right])
        for axle, (left, right) in SIDED
        if left in loads and right in loads
    ]
