"""Answers about tie-downs: enough or not, how many it takes, and by which rule.

This file decides how the federal rule's count and strength are told to someone at the
trailer. The rule is `domain`'s; the default limits lie in the shared reference tables.
"""

from __future__ import annotations

from datetime import datetime

from bot.answers.answer import Answer, Row
from bot.answers.examples import TIES, texted
from bot.answers.language import marked, say
from bot.answers.limits import kilograms_text
from bot.answers.measures import distance, short_length
from bot.answers.words import unit_word
from bot.phrasebook import asked_words
from bot.reference import references
from domain.asked_ties import AskedTies, asked_article, asked_ties
from domain.context import MASS_UNIT
from domain.log import Log, Preferences
from domain.quantities import MILE_KM, Quantity
from domain.reference import WorkingLoad
from domain.tiedowns import (
    HEAVY,
    LIGHT,
    LONG,
    SHORT,
    UNMARKED,
    Article,
    Ties,
    needed,
    supports,
    wanted,
    working_load,
)
from domain.verdicts import Question

RULE = marked(
    "49 CFR 393.102-393.136 binds commercial vehicles; good practice for others. Local law governs."
)
WEAKEST = marked("The weakest part counts: binder, hook, anchor or strap.")
RECHECK = marked("Look again within {distance}.")
CORNERS = marked("On wheels or tracks, one at each corner is good practice.")
FROM_MEMORY = marked("That default limit wants a look at 393.108.")
BY_ITS_TAG = marked(
    "Taken as the working load limit on the tag; a breaking strength counts for a third of it."
)
"""A third, as web slings and straps are made: common practice, no source."""
SHORT_AND_LIGHT = marked("up to {length} and {load}")
LENGTH = marked("One more for each {length} or part beyond {length} of length.")
MATERIALS = {
    "synthetic webbing": marked("strap"),
    "chain": marked("chain"),
    "wire rope": marked("wire rope"),
    "manila rope": marked("manila rope"),
    "polypropylene rope": marked("polypropylene rope"),
    "polyester rope": marked("polyester rope"),
    "nylon rope": marked("nylon rope"),
    "double-braided nylon rope": marked("double-braided nylon rope"),
    "steel strapping": marked("steel strapping"),
}
"""What each material of the table is called where someone ties down with it."""

FIBRE_CORE = marked("6x37 fibre core")
"""The only type of the table that is no grade."""

RECHECK_WITHIN = 50 * MILE_KM
"""Kilometres after which a driver looks again (49 CFR 392.9(b)(2); from memory)."""

COMMON = (("synthetic webbing", "2", ""), ("chain", "3/8", "grade 70"))
"""Tie-downs that an answer reckons with where the question names none."""


def tiedown_answer(log: Log, preferences: Preferences, now: datetime, question: Question) -> Answer:
    """Whether the tie-downs named are enough, or how many it takes."""
    article = asked_article(question, asked_words())
    if article is None:
        ties = asked_ties(question, asked_words())
        if ties.material and (ties.size or ties.limit):
            return _held(ties, preferences)
        return Answer(
            headline=say("How heavy is it?"),
            notes=(say("Ask like: {example}", example=texted(TIES, preferences)),),
        )
    ties = asked_ties(question, asked_words())
    unit = MASS_UNIT[preferences.units]
    row = None if ties.material is None or (ties.limit and not ties.size) else _default(ties)
    limit = ties.limit.amount("kg") if ties.limit else (_kilograms(row, unit) if row else None)
    if limit is None:
        return _by_common_ones(article, ties, preferences)
    name = _name(ties, row, unit)
    if ties.count is None:
        return _how_many(article, ties, limit, name, row, preferences)
    return _enough(article, ties, ties.count, limit, name, row, preferences)


def rule_answer(log: Log, preferences: Preferences, now: datetime, question: Question) -> Answer:
    """The working rule: how many tie-downs, how strong together, and what each counts for."""
    unit = MASS_UNIT[preferences.units]
    short, long = short_length(SHORT, preferences), short_length(LONG, preferences)
    light = say(SHORT_AND_LIGHT, length=short, load=kilograms_text(LIGHT, unit))
    return Answer(
        headline=say("Together they must count for half of the cargo's weight."),
        rows=(
            Row(
                say("Number"), say("at least {count}", count=2), say("up to {length}", length=long)
            ),
            Row("", say("at least {count}", count=1), light),
            Row(say("Each counts"), say("half its limit"), say("trailer to load")),
            Row("", say("all its limit"), say("over the load")),
            Row(say("Heavy machines"), say("at least {count}", count=4), _over(HEAVY, unit)),
        ),
        notes=(
            say(LENGTH, length=long),
            _care(preferences),
            say(RULE),
            say("Ask like: {example}", example=texted(TIES, preferences)),
        ),
    )


def _over(kilograms: float, unit: str) -> str:
    return say("over {load}", load=kilograms_text(kilograms, unit))


def _held(ties: AskedTies, preferences: Preferences) -> Answer:
    """What tie-downs are good for that are named without a cargo."""
    unit = MASS_UNIT[preferences.units]
    row = None if ties.limit and not ties.size else _default(ties)
    limit = ties.limit.amount("kg") if ties.limit else (_kilograms(row, unit) if row else None)
    if limit is None:
        return Answer(
            headline=say("No default limit for that size; go by its marking."), notes=(say(RULE),)
        )
    count = ties.count or 1
    held = Ties(count=count, limit=limit, run=ties.run)
    counted = kilograms_text(held.aggregate, unit)
    return Answer(
        headline=say(
            "{count} x {ties}: good for {load} of cargo, by strength.",
            count=count,
            ties=_name(ties, row, unit),
            load=kilograms_text(supports(held), unit),
        ),
        rows=(
            Row(say("Working load limit"), kilograms_text(limit, unit), say("each")),
            Row(say("Counting for"), counted, _counting(ties, limit, unit)),
        ),
        notes=(
            *((say(FROM_MEMORY),) if row is not None and row.status == "M" else ()),
            *((say(BY_ITS_TAG),) if ties.sold_by_it else ()),
            _care(preferences),
            say(RULE),
        ),
    )


def _care(preferences: Preferences) -> str:
    recheck = say(RECHECK, distance=distance(RECHECK_WITHIN, preferences))
    return f"{say(WEAKEST)} {recheck}"


def _default(ties: AskedTies) -> WorkingLoad | None:
    size = ties.size or ("2" if ties.material == "synthetic webbing" else "")
    return working_load(references().working_loads, ties.material or "", size, ties.grade)


def _kilograms(row: WorkingLoad, unit: str) -> float:
    """The limit as the table prints it for the logbook's unit; both columns are rounded."""
    return row.kg if unit == "kg" else Quantity(row.lb, "lb").amount("kg")


def _enough(
    article: Article,
    ties: AskedTies,
    count: int,
    limit: float,
    name: str,
    row: WorkingLoad | None,
    preferences: Preferences,
) -> Answer:
    unit = MASS_UNIT[preferences.units]
    asked = wanted(article)
    held = Ties(count=count, limit=limit, run=ties.run)
    takes = needed(article, limit, ties.run)
    strong = held.aggregate >= asked.aggregate - 1e-6
    if count >= takes:
        counts, needs = kilograms_text(held.aggregate, unit), kilograms_text(asked.aggregate, unit)
        headline = say(
            "Enough by the rule: {counted} counted, {needed} needed.", counted=counts, needed=needs
        )
    elif strong:
        headline = say(
            "Not enough: strong enough, but the rule asks for {count}.", count=asked.count
        )
    else:
        headline = say("Not enough: it takes {count} of these.", count=takes)
    return Answer(
        headline=headline,
        rows=(
            _needed_row(article, unit),
            Row(
                f"{count} x {name}",
                kilograms_text(held.aggregate, unit),
                _counting(ties, limit, unit),
            ),
            Row(
                say("Good for"), kilograms_text(supports(held), unit), say("of cargo, by strength")
            ),
            _count_row(article, preferences),
        ),
        notes=_notes(article, ties, row, preferences),
    )


def _how_many(
    article: Article,
    ties: AskedTies,
    limit: float,
    name: str,
    row: WorkingLoad | None,
    preferences: Preferences,
) -> Answer:
    unit = MASS_UNIT[preferences.units]
    takes = needed(article, limit, ties.run)
    return Answer(
        headline=say("At least {count} x {ties}.", count=takes, ties=name),
        rows=(
            _needed_row(article, unit),
            Row(
                say("Each counts"),
                kilograms_text(limit * _share(ties), unit),
                _counting(ties, limit, unit),
            ),
            _count_row(article, preferences),
        ),
        notes=_notes(article, ties, row, preferences),
    )


def _by_common_ones(article: Article, ties: AskedTies, preferences: Preferences) -> Answer:
    unit = MASS_UNIT[preferences.units]
    rows = [
        (
            row,
            AskedTies(
                count=None, material=material, size="", grade=grade, limit=None, run=ties.run
            ),
        )
        for material, size, grade in COMMON
        if (row := working_load(references().working_loads, material, size, grade)) is not None
        and ties.material in (None, material)
    ]
    choices = tuple(
        Row(
            _name(each, row, unit),
            say("at least {count}", count=needed(article, _kilograms(row, unit), ties.run)),
            _counting(each, _kilograms(row, unit), unit),
        )
        for row, each in rows
    )
    together = kilograms_text(wanted(article).aggregate, unit)
    return Answer(
        headline=say("Tie-downs must count for {load} together.", load=together),
        rows=(_count_row(article, preferences), *choices),
        notes=_notes(article, ties, None, preferences),
    )


def _needed_row(article: Article, unit: str) -> Row:
    asked = wanted(article)
    return Row(
        say("Needed"),
        kilograms_text(asked.aggregate, unit),
        say("half of {load}", load=kilograms_text(article.weight, unit)),
    )


def _count_row(article: Article, preferences: Preferences) -> Row:
    asked = wanted(article)
    by = asked.by
    if article.length is None:
        by = say("{rule}, up to {length} long", rule=by, length=short_length(LONG, preferences))
    return Row(say("Number"), say("at least {count}", count=asked.count), by)


def _share(ties: AskedTies) -> float:
    return Ties(count=1, limit=1.0, run=ties.run).aggregate


def _counting(ties: AskedTies, limit: float, unit: str) -> str:
    if ties.run == "over the load":
        return say("all of {load}, over the load", load=kilograms_text(limit, unit))
    return say("half of {load} each, trailer to load", load=kilograms_text(limit, unit))


def _name(ties: AskedTies, row: WorkingLoad | None, unit: str) -> str:
    """What they are called; a size that nobody named is in the measure of the chat."""
    if row is None:
        return _material(ties.material) if ties.material else say("tie-downs")
    grade = row.type.replace("grade ", "")
    grade = say("grade {grade}", grade=grade) if grade != row.type else say(row.type)
    if not ties.grade and row.material in UNMARKED:
        grade = say("unmarked, as {grade}", grade=grade)
    size = row.size if "/" in row.size else f"{row.size} {unit_word('in')}"
    if ties.size.endswith("mm") or (unit == "kg" and not ties.size):
        size = f"{row.size_mm} mm"
    kind = _material(row.material)
    if grade:
        return say("{size} {grade} {ties}", size=size, grade=grade, ties=kind)
    return say("{size} {ties}", size=size, ties=kind)


def _material(name: str) -> str:
    return say(MATERIALS[name]) if name in MATERIALS else name


def _notes(
    article: Article, ties: AskedTies, row: WorkingLoad | None, preferences: Preferences
) -> tuple[str, ...]:
    long = short_length(LONG, preferences)
    wheeled = article.kind == "machinery" and article.weight <= HEAVY
    notes = (
        say(LENGTH, length=long) if article.length is None else "",
        say(CORNERS) if wheeled else "",
        say(FROM_MEMORY) if row is not None and row.status == "M" else "",
        say(BY_ITS_TAG) if ties.sold_by_it else "",
        _care(preferences),
        say(RULE),
    )
    return tuple(filter(None, notes))
