"""What a report tells of care and of people: upkeep, faults, notes, and who logged.

This file decides that upkeep is told with the odometer at which it was done, which is what a
buyer or an insurer asks for, and that a fault stays in the report until it was put right.
"""

from __future__ import annotations

from collections import Counter

from bot.answers.language import say
from bot.answers.measures import local
from bot.answers.upkeep import CAUTION, aged_tyres, checked_item, due_rows
from bot.answers.words import figure, number, sentence
from bot.reference import points_table, upkeep_table
from bot.report.grounds import Grounds, day_of
from bot.report.value import Column, Section, table
from domain.entries import Check, Fill, Note, Odometer
from domain.log import Logged
from domain.upkeep import due
from domain.walkround import open_faults, points_of


def upkeep_section(told: Grounds) -> Section:
    """What was done in the days, and what was due at the end of them."""
    log, table_of_upkeep = told.stood.log, upkeep_table()
    walk = points_table()
    points = points_of(log, walk)
    done = [
        each
        for each in log.of(Check)
        if told.days.covers(each.at)
        and each.entry.state == "done"
        and each.entry.item.casefold() not in walk.whole
        and not any(point.means(each.entry.item) for point in points)
    ]
    reminders = due(told.stood, table_of_upkeep, told.then)
    today = local(told.then, told.preferences).date()
    aged = aged_tyres(told.stood, today)
    return Section(
        title=say("Upkeep"),
        paragraphs=(*aged, *((say(CAUTION),) if reminders else ())),
        tables=(
            *table(
                say("Done"),
                (
                    Column(say("Date")),
                    Column(say("What")),
                    Column(say("Odometer"), "right"),
                    Column(say("Logged by")),
                ),
                [
                    (
                        told.day(each.at),
                        sentence(checked_item(each)),
                        _odometer(told, each),
                        each.by,
                    )
                    for each in done
                ],
            ),
            *table(
                say("Due, as of {day}", day=day_of(today)),
                (Column(say("What")), Column(say("Left")), Column(say("Last done"))),
                [
                    (
                        sentence(row.label),
                        row.figure,
                        told.day(each.done) if each.done else say("never logged as done"),
                    )
                    for each, row in zip(
                        reminders, due_rows(reminders, told.preferences), strict=True
                    )
                ],
            ),
        ),
    )


def _odometer(told: Grounds, each: Logged[Check]) -> str:
    """The reading of that stop, else the last one before it, as it was texted."""
    mark = told.stood.track.near(each.at) or told.stood.track.before(each.at)
    match mark.logged.entry if mark else None:
        case Odometer(odometer=shown) | Fill(odometer=shown) if shown is not None:
            return figure(shown)
    return ""


def faults_section(told: Grounds) -> Section:
    """Faults found in the days, and those that were carried at the end of them."""
    checks = told.stood.log.of(Check)
    carried = open_faults(checks)
    found = [
        each
        for each in checks
        if each.entry.state == "fault" and (told.days.covers(each.at) or each in carried)
    ]
    return Section(
        title=say("Faults"),
        tables=table(
            say("Faults found, and whether they were put right"),
            (
                Column(say("Found")),
                Column(say("What")),
                Column(say("Logged by")),
                Column(say("How it stands")),
            ),
            [
                (
                    told.day(each.at),
                    sentence(checked_item(each)),
                    each.by,
                    say("not put right yet") if each in carried else say("put right"),
                )
                for each in found
            ],
        ),
    )


def notes_section(told: Grounds) -> Section:
    """Notes as they were texted."""
    return Section(
        title=say("Notes"),
        tables=table(
            say("As they were texted"),
            (Column(say("Date")), Column(say("Note")), Column(say("Logged by"))),
            [
                (told.day(each.at), each.entry.note, each.by)
                for each in told.stood.log.of(Note)
                if each.entry.note and told.days.covers(each.at)
            ],
        ),
    )


def people_section(told: Grounds) -> Section:
    """Who logged how much, the most first."""
    by = Counter(each.by or say("unnamed") for each in told.driven.log if told.days.covers(each.at))
    ranked = sorted(by.items(), key=lambda each: (-each[1], each[0].casefold()))
    return Section(
        title=say("Who logged it"),
        tables=table(
            say("Entries by whom"),
            (Column(say("Name")), Column(say("Entries"), "right")),
            [(name, number(count, 0)) for name, count in ranked],
        ),
    )
