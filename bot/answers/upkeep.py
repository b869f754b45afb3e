"""Answers about upkeep and the walk-round, and what in the log needs attention.

This file decides how what is due, what is broken and what is unfinished is said, and in
what order. What is due is worked out in `domain/upkeep.py`, what was looked at in
`domain/walkround.py`.
"""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date, datetime, timedelta

from bot.answers.answer import Answer, Row
from bot.answers.examples import REMINDER, TYRE_DATE, texted
from bot.answers.language import marked, say, say_count
from bot.answers.measures import days, distance, interval, local, the_trailer
from bot.answers.ratings import rating_row
from bot.answers.terms import term
from bot.answers.words import clock, day, figure, listed, moment, number, sentence
from bot.reference import points_table, upkeep_table
from domain import walkround
from domain.driving import Driving, driving
from domain.entries import Check, Rating
from domain.log import Log, Logged, Preferences
from domain.looked_at import checks_of
from domain.quantities import Quantity
from domain.rig import rig_of
from domain.trip import open_trip, to_ask_about
from domain.upkeep import DONE_AT, DUE_IN, DUE_IN_DAYS, Due, Last, due, km_since, old_tyres
from domain.verdicts import Question
from domain.walkround import WalkRound, open_faults, put_right, walk_round

MOST_FAULTS = 4
"""Open faults that are named; the rest are counted."""

BEFORE_LEAVING = timedelta(hours=3)
"""A walk-round this long before setting out belongs to the trip."""

CAUTION = marked("Intervals are the ones you set; the maker's manual governs.")
SEE_TO_IT = marked(
    "Carried until you text it fixed. See to it before you pull away; "
    "a licensed mechanic where you are not sure."
)
MOST_DUE = 8
MOST_LEFT = 3
"""Points of the walk-round that are named of those that are left."""


def upkeep_answer(log: Log, preferences: Preferences, now: datetime, question: Question) -> Answer:
    """What is due, as the owner set it; or how the walk-round stands, where that was asked."""
    driven = driving(log, question.truck)
    if question.item and question.item.casefold() in points_table().whole:
        return walk_round_answer(driven, preferences, now)
    table = upkeep_table()
    found = due(driven, table, now)
    if question.item:
        wanted = table.chore(question.item).name
        others, found = found, tuple(each for each in found if each.chore == wanted)
        if not found:
            none = say("No reminder set for {upkeep}.", upkeep=term(wanted))
            checks = checks_of(driven.log, question.item, question.trailer, table, points_table())
            done = [each for each in checks if each.entry.state == "done"]
            told = said_done(driven, done[-1], preferences) if done else ""
            return Answer(
                headline=" ".join(filter(None, (told, none))),
                rows=due_rows(others[:MOST_DUE], preferences),
                notes=_set_one(wanted, preferences),
            )
    if not found:
        return Answer(headline=say("No reminders set."), notes=_set_one("oil", preferences))
    rows = due_rows(found[:MOST_DUE], preferences)
    first = found[0]
    name, left = _name(first), _left(first, preferences)
    if first.done is None and first.done_km is None and not first.is_counted:
        headline = say("{upkeep}: never logged as done.", upkeep=sentence(name))
    elif first.overdue or not first.is_counted:
        headline = say("{upkeep} {left}.", upkeep=sentence(name), left=left)
    else:
        headline = say("Nothing overdue; next is {upkeep}, {left}.", upkeep=name, left=left)
    return Answer(headline=headline, rows=rows if len(rows) > 1 else (), notes=(say(CAUTION),))


def said_done(driven: Driving, each: Logged[Check], preferences: Preferences) -> str:
    """When the log has something as done, who texted it, and how far it was driven since."""
    said = {
        "item": sentence(checked_item(each)),
        "when": moment(each.at, preferences),
        "name": each.by,
    }
    done = (
        say("{item}: last logged as done {when}, by {name}.", **said)
        if each.by
        else say("{item}: last logged as done {when}.", **said)
    )
    km = km_since(driven, Last(each.at), each.entry.trailer)
    since = say("{distance} since.", distance=distance(km, preferences)) if km >= 1 else ""
    return " ".join(filter(None, (done, since)))


def _set_one(chore: str, preferences: Preferences) -> tuple[str, ...]:
    example = texted(REMINDER, preferences, upkeep=term(chore))
    return say("Set one like: {example}.", example=example), say(CAUTION)


def faults_answer(log: Log, preferences: Preferences, now: datetime, question: Question) -> Answer:
    """The faults that nobody put right yet, those of the trailer asked about where one was."""
    name = (question.trailer or "").casefold()
    faults = [
        each
        for each in open_faults(driving(log, question.truck).log.of(Check))
        if name in ("", (each.entry.trailer or "").casefold())
    ]
    if not faults:
        return Answer(
            headline=say("No fault open."),
            notes=(
                say("A fault is carried from the text that tells it to the one that it is fixed."),
            ),
        )
    rows = tuple(
        Row(
            sentence(checked_item(each)),
            say("since {day}", day=day(local(each.at, preferences))),
            each.by,
        )
        for each in faults[:MOST_DUE]
    )
    return Answer(
        headline=say_count("{count} fault open.", "{count} faults open.", len(faults)),
        rows=rows,
        notes=(say(SEE_TO_IT),),
    )


def tyre_age_answer(
    log: Log, preferences: Preferences, now: datetime, question: Question
) -> Answer:
    """When the tyres were made, as far as their codes were given, and which want a look."""
    rig = rig_of(log, now, truck=question.truck, trailer=question.trailer)
    dated = [(key, each) for key, each in rig.ratings.items() if key[1] == "date_code"]
    if not dated:
        example = texted(TYRE_DATE, preferences)
        return Answer(
            headline=say("No tyre's date was given."),
            notes=(
                say("It is the last four digits of the DOT code, on the sidewall."),
                say("Text it like: {example}.", example=example),
            ),
        )
    aged = aged_tyres(driving(log, question.truck), _today(now, preferences))
    rows = tuple(rating_row(key, each, now) for key, each in dated)
    headline = " ".join(aged) or f"{rows[0].label}: {rows[0].figure}, {rows[0].remark}."
    rest = rows if aged else rows[1:]
    return Answer(headline=headline, rows=rest, notes=(say(TYRES_WEAR),))


TYRES_WEAR = marked(
    "A date tells the age alone: tread, cracks and bulges are for a look at each, and for a shop."
)


def due_rows(found: Sequence[Due], preferences: Preferences) -> tuple[Row, ...]:
    """What is due, how much is left of its interval, and when it was done last."""
    return tuple(
        Row(_name(each), _left(each, preferences), _when_done(each, preferences)) for each in found
    )


def walk_round_answer(driven: Driving, preferences: Preferences, now: datetime) -> Answer:
    """How the walk-round stands: open faults first, then what is left, to be ticked."""
    stands = walk_round_now(driven, now)
    total = len(stands.ticked) + len(stands.left)
    rows = tuple(
        Row(term(point), each.by, _time(each.at, preferences))
        for point, each in stands.ticked.items()
    )
    notes = () if not stands.faults else (faults_of(stands.faults, preferences),)
    if stands.faults:
        headline = say_count(
            "{count} fault open; {left} of {all} left.",
            "{count} faults open; {left} of {all} left.",
            len(stands.faults),
            left=len(stands.left),
            all=total,
        )
    elif stands.left:
        headline = say("Walk-round: {left} of {all} left.", left=len(stands.left), all=total)
    else:
        headline = say("Walk-round done, all {all}.", all=total)
    choices = tuple(term(point) for point in stands.left)
    return Answer(headline=headline, rows=rows, notes=notes, choices=choices)


def checks_answer(
    log: Log, preferences: Preferences, now: datetime, logged_checks: Sequence[Logged[Check]]
) -> Answer:
    """What is said when points were ticked, faults found or put right, and upkeep done.

    The fault first; else what was done, and how the walk-round stands where it is of that.
    """
    driven = driving(log, logged_checks[-1].entry.truck)
    faults = [each for each in logged_checks if each.entry.state == "fault"]
    done = [each for each in logged_checks if each.entry.state == "done"]
    stands = walk_round_now(driven, now)
    said = _done(driven, logged_checks, done)
    if faults:
        names = listed([checked_item(each) for each in faults])
        notes = (say(SEE_TO_IT), *([said] if done else []))
        return Answer(headline=say("Fault noted: {items}.", items=names), notes=notes)
    left = ""
    before = _faults_before(log, logged_checks)
    mended = {each.key for each in done if put_right(each.entry, before)}
    walked = any(each.key not in mended for each in stands.ticked.values())
    if walked and any(_is_of_the_walk_round(log, each.entry) for each in done):
        if stands.left:
            left = _left_to_tick(stands)
        elif not stands.faults:
            left = say("Walk-round done.")
    return Answer(
        headline=said,
        rows=tuple(
            Row(sentence(_name(each)), _left(each, preferences))
            for each in _next_due(driven, done, now)
        ),
        notes=tuple(
            note
            for note in (left, faults_of(stands.faults, preferences) if stands.faults else "")
            if note
        ),
    )


def _done(driven: Driving, told: Sequence[Logged[Check]], done: Sequence[Logged[Check]]) -> str:
    """What was put right, done or looked at by a message, each named once."""
    before = _faults_before(driven.log, told)
    settled = {each.key: put_right(each.entry, before) for each in done}
    mended = list(dict.fromkeys(fault for each in done for fault in settled[each.key]))
    rest = [each for each in done if not settled[each.key]]
    upkeep = [each for each in rest if _is_upkeep(driven.log, each.entry)]
    sentences = [
        say(message, items=listed([checked_item(each) for each in found]))
        for message, found in (
            (PUT_RIGHT, mended),
            (DONE, upkeep),
            (CHECKED, [each for each in rest if each not in upkeep]),
        )
        if found
    ]
    return " ".join(sentences)


PUT_RIGHT = marked("Put right: {items}.")
DONE = marked("Done: {items}.")
CHECKED = marked("Checked: {items}.")


def _faults_before(log: Log, told: Sequence[Logged[Check]]) -> tuple[Logged[Check], ...]:
    """The faults that were open before a message."""
    keys = {each.key for each in told}
    return open_faults([each for each in log.of(Check) if each.key not in keys])


def _is_of_the_walk_round(log: Log, check: Check) -> bool:
    table = points_table()
    whole = check.item.casefold() in table.whole
    return whole or any(each.means(check.item) for each in walkround.points_of(log, table))


def _is_upkeep(log: Log, check: Check) -> bool:
    """Whether work was done of a kind that falls due again, and no point was looked at."""
    table = upkeep_table()
    return table.chore(check.item) in table.chores and not _is_of_the_walk_round(log, check)


def _next_due(driven: Driving, done: Sequence[Logged[Check]], now: datetime) -> list[Due]:
    """When what was just done falls due again, where a reminder is set."""
    table = upkeep_table()
    of_now = {table.chore(each.entry.item).name for each in done}
    if not of_now:
        return []
    return [each for each in due(driven, table, now) if each.chore in of_now and each.done]


def _left_to_tick(stands: WalkRound) -> str:
    """The points that are left: how many, and the next of them."""
    count, points = len(stands.left), [term(point) for point in stands.left]
    if count > MOST_LEFT:
        return say(
            "Walk-round: {count} left, next {points}.",
            count=count,
            points=listed(points[:MOST_LEFT]),
        )
    return say("Walk-round: {count} left, {points}.", count=count, points=listed(points))


def standing_answer(log: Log, entries: Sequence[Rating]) -> Answer | None:
    """What is said when something lasting was set; None where the ratings are a maker's."""
    told = _whichever_first(entries) or [_standing_words(each, log) for each in entries]
    if not told or not all(told):
        return None
    headlines, notes = zip(*(each for each in told if each), strict=True)
    return Answer(headline=" ".join(headlines), notes=tuple(dict.fromkeys(filter(None, notes))))


def _whichever_first(entries: Sequence[Rating]) -> list[tuple[str, str] | None]:
    """The words for two intervals of one kind of upkeep, by distance and by time; none else."""
    whose = {(each.subject, each.trailer) for each in entries}
    spans = [span for each in entries if (span := _interval(each)) is not None]
    if len(whose) != 1 or not len(entries) == len(spans) == 2:
        return []
    first, second = spans
    ((upkeep, trailer),) = whose
    headline = say(
        "Reminder set: {upkeep} every {first} or {second}, whichever comes first.",
        upkeep=_on_trailer(upkeep, trailer),
        first=first,
        second=second,
    )
    return [(headline, text_when_done(upkeep))]


def _interval(entry: Rating) -> str | None:
    match entry.rating, entry.value:
        case "every", Quantity() as every:
            return figure(every)
        case "every_days", int() | float() as every:
            return interval(every)
    return None


def text_when_done(upkeep: str) -> str:
    """What to text once something is done."""
    return say("Text it when it is done: {upkeep} done.", upkeep=term(upkeep))


def _standing_words(entry: Rating, log: Log) -> tuple[str, str] | None:
    """The sentence and the note for one lasting setting."""
    if entry.rating == DONE_AT and isinstance(entry.value, Quantity):
        done = say(
            "{upkeep} last done at {figure}.",
            upkeep=sentence(_on_trailer(entry.subject, entry.trailer)),
            figure=figure(entry.value),
        )
        return done, ""
    if entry.rating in (DUE_IN, DUE_IN_DAYS):
        which, value = _on_trailer(entry.subject, entry.trailer), entry.value
        ahead = figure(value) if isinstance(value, Quantity) else interval(float(value))
        once = say("Reminder set: {upkeep} in {interval}.", upkeep=which, interval=ahead)
        return once, text_when_done(entry.subject)
    every = _interval(entry)
    if every is not None:
        which = _on_trailer(entry.subject, entry.trailer)
        return say(REMINDER_SET, upkeep=which, interval=every), text_when_done(entry.subject)
    match entry.subject, entry.rating, entry.value:
        case "odometer", "factor", int() | float() as factor:
            off = number(abs(1 / factor - 1) * 100, 1)
            headline = (
                say("Odometer taken to read {percent}% high.", percent=off)
                if factor < 1
                else say("Odometer taken to read {percent}% low.", percent=off)
            )
            return headline, say("Every distance is put right by it.")
        case "odometer", "digits", int() | float() as digits:
            return (
                say("Odometer with {count} digits.", count=number(digits)),
                say("It may roll over and go on."),
            )
        case "odometer", "replaced", Quantity() as shown:
            return say("New odometer, going on from {figure}.", figure=figure(shown)), ""
        case walkround.SUBJECT, name, int() | float() as listed:
            total = len(walkround.points_of(log, points_table()))
            message = POINT_ADDED if listed else POINT_TAKEN_OFF
            return say(message, point=sentence(name), all=total), ""
    return None


REMINDER_SET = marked("Reminder set: {upkeep} every {interval}.")
POINT_ADDED = marked("{point} added to the walk-round: {all} points.")
POINT_TAKEN_OFF = marked("{point} taken off the walk-round: {all} points.")


def aged_tyres(driven: Driving, today: date) -> list[str]:
    """Whose tyres want a look for their age, a sentence each, the oldest first."""
    return [
        say_count(
            "{owner} tyres are {count} year old; have them looked at.",
            "{owner} tyres are {count} years old; have them looked at.",
            int(each.years),
            owner=sentence(term(each.owner)),
        )
        for each in old_tyres(driven, today)
    ]


def attention(
    driven: Driving, preferences: Preferences, now: datetime, unanswered: int = 0
) -> tuple[str, ...]:
    """What wants looking after, one sentence each, the most pressing first."""
    sentences: list[str] = []
    faults = open_faults(driven.log.of(Check))
    if faults:
        sentences.append(faults_of(faults, preferences))
    pressing = [each for each in due(driven, upkeep_table(), now) if each.overdue or each.soon]
    if pressing:
        told = [f"{_name(each)} {_left(each, preferences)}" for each in pressing[:3]]
        sentences.append(f"{sentence(listed(told))}.")
    sentences += aged_tyres(driven, _today(now, preferences))
    silent = to_ask_about(driven.trips, now)
    if silent is not None:
        sentences.append(
            say(
                "The trip of {day} is still open; text the odometer once you are home.",
                day=day(local(silent.start, preferences)),
            )
        )
    if unanswered:
        sentences.append(
            say_count(
                "{count} question of mine still open.",
                "{count} questions of mine still open.",
                unanswered,
            )
        )
    return tuple(sentences)


def walked(driven: Driving, start: datetime, end: datetime) -> WalkRound:
    """The walk-round of a trip, ticked shortly before or during it."""
    return walk_round(driven.log.until(end), points_table(), start - BEFORE_LEAVING)


def walk_round_now(driven: Driving, now: datetime) -> WalkRound:
    """How the walk-round stands of the open trip, else of the last hours."""
    trip = open_trip(driven.trips, now)
    since = (trip.start if trip else now - timedelta(hours=9)) - BEFORE_LEAVING
    return walk_round(driven.log, points_table(), since)


def faults_of(faults: Sequence[Logged[Check]], preferences: Preferences) -> str:
    """The faults that are open, and since when, in a sentence."""
    names = [
        say("{item} (since {day})", item=checked_item(each), day=day(local(each.at, preferences)))
        for each in faults[:MOST_FAULTS]
    ]
    if len(faults) > MOST_FAULTS:
        return say_count(
            "Not put right yet: {items} and {count} more.",
            "Not put right yet: {items} and {count} more.",
            len(faults) - MOST_FAULTS,
            items=", ".join(names),
        )
    return say("Not put right yet: {items}.", items=listed(names))


def checked_item(each: Logged[Check]) -> str:
    """What was looked at or done, and on which trailer."""
    return _on_trailer(each.entry.item, each.entry.trailer)


def _on_trailer(item: str, trailer: str | None) -> str:
    """What is looked at or done, with the trailer that it is on, where it is on one."""
    if trailer is None:
        return term(item)
    return say("{item} on {trailer}", item=term(item), trailer=the_trailer(trailer))


def _name(each: Due) -> str:
    return f"{term(each.chore)} ({each.trailer})" if each.trailer else term(each.chore)


def _left(each: Due, preferences: Preferences) -> str:
    """What is left, of whichever interval runs out first: `in 1,200 mi`, `overdue by 12 days`."""
    told = [
        (left / interval, text)
        for left, interval, text in (
            (each.km_left, each.interval_km, distance(abs(each.km_left or 0), preferences)),
            (each.days_left, each.interval_days, days(round(abs(each.days_left or 0)))),
        )
        if left is not None and interval
    ]
    if not told:
        return say("not counted yet")
    share, text = min(told)
    return say("overdue by {time}", time=text) if share < 0 else say("due in {time}", time=text)


def _when_done(each: Due, preferences: Preferences) -> str:
    if each.done_km is not None:
        return say("done at {distance}", distance=distance(each.done_km, preferences))
    if each.done is None:
        return say("never logged as done")
    return say("done {day}", day=day(local(each.done, preferences)))


def _time(at: datetime, preferences: Preferences) -> str:
    return clock(local(at, preferences), preferences.units)


def _today(now: datetime, preferences: Preferences) -> date:
    return local(now, preferences).date()
