"""Answers to corrections and undoing.

This file decides how a change to what was texted before is told: what it was, what it is
now, and what cannot be bound. What follows from the change is the kind's own answer.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import replace
from datetime import datetime
from zoneinfo import ZoneInfo

from bot.answers.answer import Answer, Row, joined
from bot.answers.asking import WHICH_FIGURE
from bot.answers.brief import bare_or_figure, brief, field_name
from bot.answers.examples import PUT_RIGHT_BY_NAME, texted
from bot.answers.language import marked, say, say_count
from bot.answers.terms import term
from bot.answers.words import day, moment, sentence
from domain.corrections import (
    ALREADY_SO,
    NO_SUCH_FIGURE,
    NOTHING_FITS,
    NOTHING_TO_UNDO,
    TRAILER,
    WRONG_MEASURE,
    Amended,
    Unclear,
    Value,
    Withdrawn,
    stated,
)
from domain.entries import Correction, Entry, Observation
from domain.log import Logged, Preferences
from domain.verdicts import Ask, Choice

WHY_UNCLEAR: Mapping[str, str] = {
    NOTHING_TO_UNDO: marked("Nothing is left to take back."),
    NOTHING_FITS: marked("I can't tell which figure that corrects; name it, such as: {example}."),
    NO_SUCH_FIGURE: marked("I find no such figure in what was texted lately; nothing is changed."),
    WRONG_MEASURE: marked("That does not measure the same thing; nothing is changed."),
    ALREADY_SO: marked("It says so already; nothing is changed."),
}
"""A sentence for each reason why a correction does not bind."""


def amended_answer(amended: Amended, follows: Answer | None = None) -> Answer:
    """What the field says now and what it said, then the whole entry or what follows from it."""
    changed = changed_answer(amended)
    if follows:
        return joined([changed, follows])
    return replace(changed, notes=(f"{sentence(brief(amended.after))}.",))


def changed_answer(amended: Amended) -> Answer:
    """What the field says now and what it said."""
    before, after = amended.before.entry, amended.after
    renamed = amended.field == TRAILER and after.trailer != before.trailer
    now, was = (stated(each, amended.field, by_name=renamed) for each in (after, before))
    called = say("trailer") if renamed else field_name(amended.field, after)
    field = sentence(called)
    quoted = (
        _wheel if isinstance(after, Observation) and amended.field == "position" else bare_or_figure
    )
    headline = (
        say("{field} now {now}, not {was}.", field=field, now=quoted(now), was=quoted(was))
        if was is not None
        else say("{field} now {now}.", field=field, now=quoted(now))
    )
    return Answer(headline=headline)


def _wheel(position: Value | None) -> str:
    """Where a gauge was read, in the words of the chat's language."""
    return term(str(position))


def redated_answer(before: Logged[Entry], after: Logged[Entry], preferences: Preferences) -> Answer:
    """When what was texted happened, and when it was taken to have: days, where no time is told."""
    told = moment if isinstance(after.entry.at, datetime) else _day
    now, was = told(after.at, preferences), told(before.at, preferences)
    return Answer(headline=say("Logged for {now} now, not {was}.", now=now, was=was))


def _day(at: datetime, preferences: Preferences) -> str:
    return day(at.astimezone(ZoneInfo(preferences.time_zone)))


def withdrawn_answer(withdrawn: Withdrawn) -> Answer:
    """What no longer counts, and what counts again."""
    again = tuple(Row(say("back"), brief(each.entry)) for each in withdrawn.restored)
    if len(withdrawn.entries) == 1:
        headline = say("Taken back: {entry}.", entry=brief(withdrawn.entries[0].entry))
        return Answer(headline=headline, rows=again)
    if not withdrawn.entries and len(withdrawn.restored) == 1:
        return Answer(
            headline=say("Counts again: {entry}.", entry=brief(withdrawn.restored[0].entry))
        )
    if not withdrawn.entries:
        counts = say_count(
            "Counts again: {count} entry.", "Counts again: {count} entries.", len(again)
        )
        return Answer(headline=counts, rows=again)
    rows = _out(withdrawn.entries)
    taken = say_count("Taken back: {count} entry.", "Taken back: {count} entries.", len(rows))
    return Answer(headline=taken, rows=rows + again)


def read_again_answer(gone: Sequence[Logged[Entry]]) -> Answer:
    """What goes before the answer to an edited message: that it was, and what it lost by it."""
    return Answer(headline=say("Read again as edited."), rows=_out(gone))


def _out(entries: Sequence[Logged[Entry]]) -> tuple[Row, ...]:
    return tuple(Row(say("out"), brief(each.entry)) for each in entries)


def unclear_answer(unclear: Unclear, preferences: Preferences) -> Answer:
    """Why a correction changed nothing."""
    example = texted(PUT_RIGHT_BY_NAME, preferences)
    return Answer(headline=say(WHY_UNCLEAR[unclear.why], example=example))


def dropped_answer() -> Answer:
    """A doubt that was waved away: nothing had been kept."""
    return Answer(headline=say("Dropped; nothing was kept."))


def which_figure(choices: Sequence[Amended]) -> Ask:
    """The question back where a correction could mean several figures."""
    return Ask(
        "correction",
        tuple(Choice(_label(each), (_spelled_out(each),)) for each in choices),
        WHICH_FIGURE,
    )


def _label(amended: Amended) -> str:
    before = amended.before.entry
    was = bare_or_figure(stated(before, amended.field))
    return f"{field_name(amended.field, before)} {was}"


def _spelled_out(amended: Amended) -> Correction:
    """The correction with its field and old value named, so that it binds beyond doubt."""
    return Correction(
        action="amend",
        field=amended.field,
        value=stated(amended.after, amended.field),
        was=stated(amended.before.entry, amended.field),
    )
