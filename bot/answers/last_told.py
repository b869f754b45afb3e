"""Answers to what a gauge read last, and to what was loaded: as it was texted, and when.

This file decides which entries such an answer is about and how they stand in it. It works out no
more than what water weighs; whether a gauge reads too much is told when it is kept.
"""

from __future__ import annotations

from collections.abc import Iterable
from datetime import datetime, timedelta

from bot.answers.answer import Answer, Row
from bot.answers.brief import brief
from bot.answers.language import marked, say, say_count
from bot.answers.limits import mass_text
from bot.answers.words import figure, moment, sentence
from domain.context import MASS_UNIT
from domain.entries import Cargo, Observation
from domain.log import Log, Logged, Preferences
from domain.uncertainty import exact
from domain.verdicts import Question
from domain.water import mass_of

MOST = 8
"""Readings or loads that are told, the last ones."""

LOADED_FOR = timedelta(days=30)
"""A load that was texted longer ago is hardly aboard still; no source."""

THE_LABEL = marked("What the pressure should be, cold, is on the door label.")
STILL_ABOARD = marked(
    "Unloading is not logged: some of it may be off again. Only a scale tells what is on the axles."
)


def gauge_answer(log: Log, preferences: Preferences, now: datetime, question: Question) -> Answer:
    """What a gauge read last, at each place that was asked about."""
    where = set((question.position or "").split())
    latest: dict[tuple[str | None, str], Logged[Observation]] = {}
    for each in log.of(Observation):
        entry = each.entry
        if entry.subject == question.field and where <= set((entry.position or "").split()):
            latest[entry.position, entry.value.unit] = each
    notes = (say(THE_LABEL),) if question.field == "tyre" else ()
    if not latest:
        return Answer(headline=say("No such reading was texted."), notes=notes)
    told = sorted(latest.values(), key=lambda each: each.at, reverse=True)
    last = told[0]
    headline = say(
        "{reading}, read {when}.",
        reading=sentence(brief(last.entry)),
        when=moment(last.at, preferences),
    )
    rows = _rows(((sentence(brief(each.entry)), "", each) for each in told[1:MOST]), preferences)
    return Answer(headline=headline, rows=rows, notes=notes)


def cargo_answer(log: Log, preferences: Preferences, now: datetime, question: Question) -> Answer:
    """What was texted as loaded in the last days, and what it weighs together."""
    item, where = (question.item or "").casefold(), (question.position or "").casefold()
    whose = (question.trailer or "").casefold()
    latest: dict[tuple[str, str | None], Logged[Cargo]] = {}
    for each in log.of(Cargo):
        entry = each.entry
        if now - each.at > LOADED_FOR or item not in entry.item.casefold():
            continue
        if where not in (entry.position or "").casefold():
            continue
        if not whose or whose in ((entry.trailer or "").casefold(), ""):
            latest[entry.item.casefold(), entry.position] = each
    if not latest:
        return Answer(headline=say("Nothing was texted as loaded."))
    loads = [*latest.values()][-MOST:]
    masses = [mass_of(each.entry.value) for each in loads]
    unit = MASS_UNIT[preferences.units]
    together = sum(mass.amount("kg") for mass in masses if mass is not None)
    headline = say_count(
        "{count} load as texted, {mass}.",
        "{count} loads as texted, {mass} together.",
        len(loads),
        mass=mass_text(exact(together), unit),
    )
    rows = _rows(
        ((sentence(each.entry.item), figure(each.entry.value), each) for each in loads), preferences
    )
    return Answer(headline=headline, rows=rows, notes=(say(STILL_ABOARD),))


def _rows(
    told: Iterable[tuple[str, str, Logged[Observation] | Logged[Cargo]]], preferences: Preferences
) -> tuple[Row, ...]:
    return tuple(Row(name, amount, _remark(each, preferences)) for name, amount, each in told)


def _remark(each: Logged[Observation] | Logged[Cargo], preferences: Preferences) -> str:
    """Where something stands, where that was told, and when it was texted."""
    when = moment(each.at, preferences)
    place = each.entry.position if isinstance(each.entry, Cargo) else None
    return f"{place}, {when}" if place else when
