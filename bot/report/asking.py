"""The report that a chat asks for.

This file decides which days a question means, and what is said beside the file. On a terminal,
which takes no files, the words say how to have one.
"""

from __future__ import annotations

from datetime import date, datetime

from bot.answers.answer import Answer
from bot.answers.language import say
from bot.report.composing import Asked, NothingToReport, report
from domain.log import Log, Preferences
from domain.verdicts import Question


def report_answer(log: Log, preferences: Preferences, now: datetime, question: Question) -> Answer:
    """The report of the last trip, or of the days asked for, else of the last twelve months."""
    asked = Asked(
        trip=question.topic == "trip",
        first=question.since if isinstance(question.since, date) else None,
        last=question.until if isinstance(question.until, date) else None,
        truck=question.truck,
    )
    try:
        found = report(log, preferences, now, asked)
    except NothingToReport as nothing:
        return Answer(headline=str(nothing))
    return Answer(
        headline=say("Report: {title}, {days}.", title=found.title, days=found.span),
        document=found,
    )
