"""What a trip and a span of days have in common: weighings, gaps, places, local time.

This file decides how the heaviest weighing and the tightest margin of some days are said,
and that a rating which is still over comes before anything else.
"""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date, datetime

from bot.answers.answer import Row
from bot.answers.language import say
from bot.answers.limits import CAUTION, limit_name, mass_text, over_text, room_text
from bot.answers.measures import dates, distance, local
from bot.answers.words import day
from domain.account import Heaviest
from domain.context import MASS_UNIT
from domain.log import Preferences
from domain.margins import Over, Unknown, too_close
from domain.summary import Span, span
from domain.trip import Trip, gaps, is_home
from domain.verdicts import Question


def heaviest_rows(top: Heaviest | None, preferences: Preferences) -> list[Row]:
    """The heaviest gross, and the tightest margin of any weighing."""
    if top is None:
        return []
    unit = MASS_UNIT[preferences.units]
    rows = []
    if top.gross is not None:
        rows.append(
            Row(say("Heaviest"), mass_text(top.gross, unit), day(local(top.at, preferences)))
        )
    if top.tightest is not None and not isinstance(top.tightest, Unknown):
        room = room_text(top.tightest, unit)
        limit = limit_name(top.tightest)
        close = not isinstance(top.tightest, Over) and too_close(top.tightest)
        remark = f"{limit}, {say('too close to call')}" if close else limit
        rows.append(Row(say("Tightest"), room, remark))
    return rows


def over_first(top: Heaviest | None, preferences: Preferences) -> str:
    """What was over at its last weighing comes before anything else, with the day of it."""
    if top is None or not top.standing:
        return ""
    over = say(
        "Over when weighed {when}: {limits}.",
        when=day(local(top.standing_at, preferences)),
        limits=over_text(top.standing, MASS_UNIT[preferences.units]),
    )
    return f"{over} "


def over_notes(top: Heaviest | None, preferences: Preferences) -> list[str]:
    """The caution while a rating is over, or that it has been put right."""
    if top is None or not isinstance(top.tightest, Over):
        return []
    if top.standing:
        stop = say("Don't tow it like that.")
        return [f"{stop} {say(CAUTION)}"]
    when = day(local(top.tightest_at, preferences))
    return [
        say(
            "Over on the {limit} on {when}; inside it at the last weighing.",
            limit=limit_name(top.tightest),
            when=when,
        )
    ]


def gap_notes(found: Sequence[Trip], preferences: Preferences) -> list[str]:
    """Distance that no trip accounts for, the latest first."""
    return [
        say(
            "{distance} between the trips of {first} and {last} are in no trip.",
            distance=distance(gap.km, preferences),
            first=day(local(gap.after, preferences)),
            last=day(local(gap.before, preferences)),
        )
        for gap in reversed(gaps(found)[-1:])
    ]


def away_to(trip: Trip) -> str | None:
    """The place that a trip went to: the last one named that is not home."""
    return next((place for place in reversed(trip.places) if not is_home(place)), None)


def asked_span(question: Question, preferences: Preferences, now: datetime) -> Span | None:
    """The days that a question names; None where it names none."""
    if not isinstance(question.since, date):
        return None
    today = local(now, preferences).date()
    last = question.until if isinstance(question.until, date) else today
    return span(question.since, max(question.since, last), preferences.time_zone)


def when_of(days: Span | None, preferences: Preferences, now: datetime) -> str:
    """The days that an answer is of, as they stand in a sentence: `on Sat 4 Jul`."""
    if days is None:
        return say("in the last 12 months")
    today = local(now, preferences).date()
    if days.last == today and days.first < today:
        return say("since {day}", day=day(days.first))
    when = dates(days.first, days.last, today)
    return say("on {day}", day=when) if days.days == 1 else say("from {dates}", dates=when)
