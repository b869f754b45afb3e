"""Answers about tie-downs: enough or not, how many it takes, and by which rule.

This file decides how the federal rule's count and strength are told to someone at the
trailer. The rule is `domain`'s; the default limits lie in the shared reference tables.
"""

from __future__ import annotations

from datetime import datetime

from bot.answers.answer import Answer, Row
from bot.answers.limits import kilograms_text
from bot.reference import references
from domain.asked_ties import AskedTies, asked_article, asked_ties
from domain.context import MASS_UNIT
from domain.log import Log, Preferences
from domain.quantities import Quantity
from domain.reference import WorkingLoad
from domain.tiedowns import (
    HEAVY,
    UNMARKED,
    Article,
    Ties,
    needed,
    supports,
    wanted,
    working_load,
)
from domain.verdicts import Question

NO_WEIGHT = Answer(
    headline="How heavy is it?",
    notes=("Text it so: 4 chains 3/8 grade 70 on 9,200 lb.",),
)
RULE = (
    "49 CFR 393.102-393.136 binds commercial vehicles; good practice for others. Local law governs."
)
WEAKEST = "The weakest part counts: binder, hook, anchor or strap."
RECHECK = "Look again within 50 miles."
CORNERS = "On wheels or tracks, one at each corner is good practice."
FROM_MEMORY = "That default limit wants a look at 393.108."
LENGTH = "One more for each 10 ft or part beyond 10 ft of length."
COMMON = (("synthetic webbing", "2", ""), ("chain", "3/8", "grade 70"))
"""Tie-downs that an answer reckons with where the question names none."""


def tiedown_answer(log: Log, preferences: Preferences, now: datetime, question: Question) -> Answer:
    """Whether the tie-downs named are enough, or how many it takes."""
    article = asked_article(question)
    if article is None:
        return NO_WEIGHT
    ties = asked_ties(question)
    unit = MASS_UNIT[preferences.units]
    row = None if ties.material is None else _default(ties)
    limit = ties.limit.amount("kg") if ties.limit else (_kilograms(row, unit) if row else None)
    if limit is None:
        return _by_common_ones(article, ties, unit)
    name = _name(ties, row)
    if ties.count is None:
        return _how_many(article, ties, limit, name, row, unit)
    return _enough(article, ties, ties.count, limit, name, row, unit)


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
    unit: str,
) -> Answer:
    asked = wanted(article)
    held = Ties(count=count, limit=limit, run=ties.run)
    takes = needed(article, limit, ties.run)
    strong = held.aggregate >= asked.aggregate - 1e-6
    if count >= takes:
        counts, needs = kilograms_text(held.aggregate, unit), kilograms_text(asked.aggregate, unit)
        headline = f"Enough by the rule: {counts} counted, {needs} needed."
    elif strong:
        headline = f"Not enough: strong enough, but the rule asks for {asked.count}."
    else:
        headline = f"Not enough: it takes {takes} of these."
    return Answer(
        headline=headline,
        rows=(
            _needed_row(article, unit),
            Row(
                f"{count} x {name}",
                kilograms_text(held.aggregate, unit),
                _counting(ties, limit, unit),
            ),
            Row("Good for", kilograms_text(supports(held), unit), "of cargo, by strength"),
            _count_row(article),
        ),
        notes=_notes(article, row),
    )


def _how_many(
    article: Article,
    ties: AskedTies,
    limit: float,
    name: str,
    row: WorkingLoad | None,
    unit: str,
) -> Answer:
    takes = needed(article, limit, ties.run)
    return Answer(
        headline=f"At least {takes} x {name}.",
        rows=(
            _needed_row(article, unit),
            Row(
                "Each counts",
                kilograms_text(limit * _share(ties), unit),
                _counting(ties, limit, unit),
            ),
            _count_row(article),
        ),
        notes=_notes(article, row),
    )


def _by_common_ones(article: Article, ties: AskedTies, unit: str) -> Answer:
    rows = [
        (
            row,
            AskedTies(
                count=None, material=material, size=size, grade=grade, limit=None, run=ties.run
            ),
        )
        for material, size, grade in COMMON
        if (row := working_load(references().working_loads, material, size, grade)) is not None
        and ties.material in (None, material)
    ]
    choices = tuple(
        Row(
            _name(each, row),
            f"at least {needed(article, _kilograms(row, unit), ties.run)}",
            _counting(each, _kilograms(row, unit), unit),
        )
        for row, each in rows
    )
    together = kilograms_text(wanted(article).aggregate, unit)
    return Answer(
        headline=f"Tie-downs must count for {together} together.",
        rows=(_count_row(article), *choices),
        notes=_notes(article, None),
    )


def _needed_row(article: Article, unit: str) -> Row:
    asked = wanted(article)
    return Row(
        "Needed",
        kilograms_text(asked.aggregate, unit),
        f"half of {kilograms_text(article.weight, unit)}",
    )


def _count_row(article: Article) -> Row:
    asked = wanted(article)
    length = "" if article.length is not None else ", up to 10 ft long"
    return Row("Number", f"at least {asked.count}", f"{asked.by}{length}")


def _share(ties: AskedTies) -> float:
    return Ties(count=1, limit=1.0, run=ties.run).aggregate


def _counting(ties: AskedTies, limit: float, unit: str) -> str:
    if ties.run == "over the load":
        return f"all of {kilograms_text(limit, unit)}, over the load"
    return f"half of {kilograms_text(limit, unit)} each, trailer to load"


def _name(ties: AskedTies, row: WorkingLoad | None) -> str:
    if row is None:
        return ties.material or "tie-downs"
    unmarked = not ties.grade and row.material in UNMARKED
    grade = f"unmarked, as {row.type}" if unmarked else row.type
    kind = {"synthetic webbing": "strap"}.get(row.material, row.material)
    inch = "" if "/" in row.size else " in"
    return " ".join(part for part in (f"{row.size}{inch}", grade, kind) if part)


def _notes(article: Article, row: WorkingLoad | None) -> tuple[str, ...]:
    wheeled = article.kind == "machinery" and article.weight <= HEAVY
    notes = (
        LENGTH if article.length is None else "",
        CORNERS if wheeled else "",
        FROM_MEMORY if row is not None and row.status == "M" else "",
        f"{WEAKEST} {RECHECK}",
        RULE,
    )
    return tuple(filter(None, notes))
