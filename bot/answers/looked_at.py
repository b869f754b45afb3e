"""Answers to whether something was looked at or done: when the log has it last, and by whom.

This file decides which check an answer is about and how it is said. What is due is told in
`upkeep.py`. The log has only what was texted, and the answer says no more than that.
"""

from __future__ import annotations

from datetime import datetime

from bot.answers.answer import Answer
from bot.answers.language import marked, say
from bot.answers.terms import term
from bot.answers.upkeep import (
    CAUTION,
    due_rows,
    faults_of,
    said_done,
    text_when_done,
    walk_round_answer,
    walk_round_now,
)
from bot.answers.words import sentence
from bot.reference import points_table, upkeep_table
from domain.driving import driving
from domain.log import Log, Preferences
from domain.looked_at import checks_of
from domain.upkeep import due
from domain.verdicts import Question
from domain.walkround import open_faults, point_of

LOOK_AGAIN = marked("Not ticked on this walk-round: look again before you pull away.")


def done_answer(log: Log, preferences: Preferences, now: datetime, question: Question) -> Answer:
    """When a point was looked at or a kind of upkeep done last, and what is due or broken of it."""
    driven = driving(log, question.truck)
    item, points = question.item or "", points_table()
    if not item or item.casefold() in points.whole:
        return walk_round_answer(driven, preferences, now)
    table = upkeep_table()
    alike = checks_of(driven.log, item, question.trailer, table, points)
    chore = table.chore(item).name
    rows = due_rows([each for each in due(driven, table, now) if each.chore == chore], preferences)
    broken = open_faults(alike)
    done = [each for each in alike if each.entry.state == "done"]
    point = point_of(item, points)
    unticked = point is not None and point.name in walk_round_now(driven, now).left
    notes = (
        faults_of(broken, preferences) if broken else "",
        say(LOOK_AGAIN) if done and unticked and not broken else "",
        "" if done else text_when_done(item),
        say(CAUTION) if rows else "",
    )
    headline = (
        said_done(driven, done[-1], preferences)
        if done
        else say("{upkeep}: never logged as done.", upkeep=sentence(term(item)))
    )
    return Answer(headline=headline, rows=rows, notes=tuple(filter(None, notes)))
