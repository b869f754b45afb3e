"""Answers about upkeep and the walk-round, and what in the log needs attention.

This file decides how what is due, what is broken and what is unfinished is said, and in
what order. What is due is worked out in `domain/upkeep.py`, what was looked at in
`domain/walkround.py`.
"""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date, datetime, timedelta

from bot.answers.answer import Answer, Row
from bot.answers.measures import distance, local
from bot.answers.words import clock, counted, day, figure, listed, number, sentence
from bot.reference import points_table, upkeep_table
from domain import walkround
from domain.driving import Driving, driving
from domain.entries import Check, Rating
from domain.log import Log, Logged, Preferences
from domain.quantities import Quantity
from domain.trip import open_trip, to_ask_about
from domain.upkeep import Due, due, old_tyres
from domain.verdicts import Question
from domain.walkround import WalkRound, open_faults, walk_round

BEFORE_LEAVING = timedelta(hours=3)
"""A walk-round this long before setting out belongs to the trip."""

CAUTION = "Intervals are the ones you set; the maker's manual governs."
MOST_DUE = 8


def upkeep_answer(log: Log, preferences: Preferences, now: datetime, question: Question) -> Answer:
    """What is due, as the owner set it; or how the walk-round stands, where that was asked."""
    driven = driving(log, question.truck)
    if question.item and question.item.casefold() in points_table().whole:
        return walk_round_answer(driven, preferences, now)
    table = upkeep_table()
    found = due(driven, table, now)
    if question.item:
        wanted = table.chore(question.item).name
        found = tuple(each for each in found if each.chore == wanted)
        if not found:
            return Answer(
                headline=f"No reminder set for {wanted}.",
                notes=(f"Set one like: {wanted} every 5,000 miles.", CAUTION),
            )
    if not found:
        return Answer(
            headline="No reminders set.", notes=("Set one like: oil every 5,000 miles.", CAUTION)
        )
    rows = tuple(
        Row(_name(each), _left(each, preferences), _when_done(each, preferences))
        for each in found[:MOST_DUE]
    )
    first = found[0]
    if first.done is None:
        headline = f"{sentence(_name(first))}: never logged as done."
    elif first.overdue:
        headline = f"{sentence(_name(first))} {_left(first, preferences)}."
    else:
        headline = f"Nothing overdue; next is {_name(first)}, {_left(first, preferences)}."
    return Answer(headline=headline, rows=rows if len(rows) > 1 else (), notes=(CAUTION,))


def walk_round_answer(driven: Driving, preferences: Preferences, now: datetime) -> Answer:
    """How the walk-round stands: open faults first, then what is left, to be ticked."""
    stands = _standing(driven, now)
    total = len(stands.ticked) + len(stands.left)
    rows = tuple(
        Row(point, each.by, _time(each.at, preferences)) for point, each in stands.ticked.items()
    )
    notes = () if not stands.faults else (_faults(stands.faults, preferences),)
    if stands.faults:
        headline = (
            f"{counted(len(stands.faults), 'fault')} open; {len(stands.left)} of {total} left."
        )
    elif stands.left:
        headline = f"Walk-round: {len(stands.left)} of {total} left."
    else:
        headline = f"Walk-round done, all {total}."
    return Answer(headline=headline, rows=rows, notes=notes, choices=stands.left)


def checks_answer(
    log: Log, preferences: Preferences, now: datetime, logged_checks: Sequence[Logged[Check]]
) -> Answer:
    """What is said when points were ticked or faults found: the fault, else what is left."""
    driven = driving(log, logged_checks[-1].entry.truck)
    faults = [each for each in logged_checks if each.entry.state == "fault"]
    done = [each.entry.item for each in logged_checks if each.entry.state == "done"]
    stands = _standing(driven, now)
    left = (
        f"Walk-round: {len(stands.left)} left, {listed(stands.left[:3])}"
        f"{' and more' if len(stands.left) > 3 else ''}."
        if stands.begun and stands.left
        else ""
    )
    if faults:
        names = listed([_item(each) for each in faults])
        notes = (
            "Carried until you text it fixed. See to it before you pull away; "
            "a licensed mechanic where you are not sure.",
            *([f"Checked: {listed(done)}."] if done else []),
        )
        return Answer(headline=f"Fault noted: {names}.", notes=notes)
    if stands.begun and not stands.left and not stands.faults:
        left = "Walk-round done."
    return Answer(
        headline=f"Checked: {listed(done)}.",
        notes=tuple(
            note
            for note in (left, _faults(stands.faults, preferences) if stands.faults else "")
            if note
        ),
    )


def standing_answer(log: Log, entries: Sequence[Rating]) -> Answer | None:
    """What is said when something lasting was set; None where the ratings are a maker's."""
    told = [_standing_words(each, log) for each in entries]
    if not told or not all(told):
        return None
    headlines, notes = zip(*(each for each in told if each), strict=True)
    return Answer(headline=" ".join(headlines), notes=tuple(dict.fromkeys(filter(None, notes))))


def _standing_words(entry: Rating, log: Log) -> tuple[str, str] | None:
    """The sentence and the note for one lasting setting."""
    which = f"{entry.subject} on the {entry.trailer}" if entry.trailer else entry.subject
    done = f"Text it when it is done: {entry.subject} done."
    match entry.subject, entry.rating, entry.value:
        case _, "every", Quantity() as distance:
            return f"Reminder set: {which} every {figure(distance)}.", done
        case _, "every_days", int() | float() as days:
            return f"Reminder set: {which} every {counted(round(days), 'day')}.", done
        case "odometer", "factor", int() | float() as factor:
            off = number(abs(1 / factor - 1) * 100, 1)
            word = "high" if factor < 1 else "low"
            return f"Odometer taken to read {off}% {word}.", "Every distance is put right by it."
        case "odometer", "digits", int() | float() as digits:
            return f"Odometer with {number(digits)} digits.", "It may roll over and go on."
        case "odometer", "replaced", Quantity() as shown:
            return f"New odometer, going on from {figure(shown)}.", ""
        case walkround.SUBJECT, name, int() | float() as listed:
            word = "added to" if listed else "taken off"
            total = len(walkround.points_of(log, points_table()))
            return f"{sentence(name)} {word} the walk-round: {total} points.", ""
    return None


def attention(
    driven: Driving, preferences: Preferences, now: datetime, unanswered: int = 0
) -> tuple[str, ...]:
    """What wants looking after, one sentence each, the most pressing first."""
    sentences: list[str] = []
    faults = open_faults(driven.log.of(Check))
    if faults:
        sentences.append(_faults(faults, preferences))
    pressing = [each for each in due(driven, upkeep_table(), now) if each.overdue or each.soon]
    if pressing:
        told = [f"{_name(each)} {_left(each, preferences)}" for each in pressing[:3]]
        sentences.append(f"{sentence(listed(told))}.")
    sentences += [
        f"{sentence(each.owner)} tyres are {each.years:.0f} years old; have them looked at."
        for each in old_tyres(driven, _today(now, preferences))
    ]
    silent = to_ask_about(driven.trips, now)
    if silent is not None:
        sentences.append(
            f"The trip of {day(local(silent.start, preferences))} was never closed; "
            "text the odometer at home."
        )
    if unanswered:
        sentences.append(f"{counted(unanswered, 'question')} of mine still open.")
    return tuple(sentences)


def walked(driven: Driving, start: datetime, end: datetime) -> WalkRound:
    """The walk-round of a trip, ticked shortly before or during it."""
    return walk_round(driven.log.until(end), points_table(), start - BEFORE_LEAVING)


def _standing(driven: Driving, now: datetime) -> WalkRound:
    trip = open_trip(driven.trips, now)
    since = (trip.start if trip else now - timedelta(hours=9)) - BEFORE_LEAVING
    return walk_round(driven.log, points_table(), since)


def _faults(faults: Sequence[Logged[Check]], preferences: Preferences) -> str:
    names = [f"{_item(each)} (since {day(local(each.at, preferences))})" for each in faults[:4]]
    more = f", and {len(faults) - 4} more" if len(faults) > 4 else ""
    return f"Not put right yet: {listed(names)}{more}."


def _item(each: Logged[Check]) -> str:
    trailer = each.entry.trailer
    return f"{each.entry.item} on the {trailer}" if trailer else each.entry.item


def _name(each: Due) -> str:
    return f"{each.chore} ({each.trailer})" if each.trailer else each.chore


def _left(each: Due, preferences: Preferences) -> str:
    """What is left, of whichever interval runs out first: `in 1,200 mi`, `overdue by 12 days`."""
    told = [
        (left / interval, text)
        for left, interval, text in (
            (each.km_left, each.interval_km, distance(abs(each.km_left or 0), preferences)),
            (each.days_left, each.interval_days, counted(round(abs(each.days_left or 0)), "day")),
        )
        if left is not None and interval
    ]
    if not told:
        return "not counted yet"
    share, text = min(told)
    return f"overdue by {text}" if share < 0 else f"due in {text}"


def _when_done(each: Due, preferences: Preferences) -> str:
    if each.done is None:
        return "never logged as done"
    return f"done {day(local(each.done, preferences))}"


def _time(at: datetime, preferences: Preferences) -> str:
    return clock(local(at, preferences), preferences.units)


def _today(now: datetime, preferences: Preferences) -> date:
    return local(now, preferences).date()
