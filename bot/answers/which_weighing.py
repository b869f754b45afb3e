"""Which weighing an answer is about: the last, of one trailer, or of the days asked about.

This file decides it, and what is said where there is none. What a weighing is told as is decided in
`weights.py` and `weighed.py`.
"""

from __future__ import annotations

from datetime import datetime

from bot.answers.answer import Answer
from bot.answers.examples import WEIGHING, texted
from bot.answers.journeys import asked_span, when_of
from bot.answers.language import marked, say
from bot.answers.measures import local, the_trailer
from bot.answers.weighed import Weighed, weighed
from domain.log import Log, Preferences
from domain.passes import latest_session, with_axles
from domain.verdicts import Question

HOW_TO_WEIGH = marked(
    "Hitched and loaded, each axle on a plate of its own; then the truck alone, for the tongue."
)


def no_weighing(preferences: Preferences, trailer: str | None = None) -> Answer:
    """What is said where nothing was weighed yet, or nothing with the trailer asked about."""
    return Answer(
        headline=say("No weighing with {trailer} yet.", trailer=the_trailer(trailer))
        if trailer
        else say("No weighing yet."),
        notes=(
            say(
                "Text the scale's figures, such as: {example}.",
                example=texted(WEIGHING, preferences),
            ),
            say(HOW_TO_WEIGH),
        ),
    )


def last_weighed(log: Log, preferences: Preferences, trailer: str | None) -> Weighed | None:
    """The last weighing, of that trailer where one is named; None where there is none."""
    session = latest_session(log, trailer)
    if session is None:
        return None
    return weighed(log, preferences, with_axles(log, session), trailer)


def asked_weighing(
    log: Log, preferences: Preferences, now: datetime, question: Question
) -> Weighed | Answer:
    """The weighing that a question is about, or what to say where there is none.

    Days that are over name one of theirs; what is asked of today is asked of the last.
    """
    days = asked_span(question, preferences, now)
    if days is None or days.last >= local(now, preferences).date():
        told = last_weighed(log, preferences, question.trailer)
        return no_weighing(preferences, question.trailer) if told is None else told
    session = latest_session(log, question.trailer, days.start, days.end)
    if session is None:
        return Answer(headline=say("No weighing {when}.", when=when_of(days, preferences, now)))
    return weighed(log, preferences, with_axles(log, session), question.trailer)
