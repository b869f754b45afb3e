"""What a question about tie-downs means: the cargo, and the tie-downs that it names.

This file decides how the words of a `tiedown` question become an article of cargo and a set
of tie-downs: their number, kind, size and grade, a stated working load limit, and whether
they pass over the load. It works nothing out. Masses are in kilograms, lengths in metres.
"""

from __future__ import annotations

import re
from dataclasses import dataclass

from domain.asked_figures import asked_length
from domain.asked_words import AskedWords, first_said
from domain.quantities import MASSES, Quantity
from domain.tiedowns import Article, Kind, Run
from domain.verdicts import Question

KINDS: tuple[Kind, ...] = ("machinery", "vehicle")
"""Cargo that has paragraphs of its own."""


@dataclass(frozen=True, slots=True, kw_only=True)
class AskedTies:
    """The tie-downs that a question names; what it leaves open is None or ''.

    `limit` is a stated working load limit; otherwise material, size and grade look it up. Where
    they are `sold_by_it`, 'straps of so many pounds', it may be a breaking strength.
    """

    count: int | None
    material: str | None
    size: str
    grade: str
    limit: Quantity | None
    run: Run
    sold_by_it: bool = False


def asked_article(question: Question, words: AskedWords) -> Article | None:
    """The cargo; None where its weight was not said."""
    weight = question.value
    if not isinstance(weight, Quantity) or weight.unit not in MASSES:
        return None
    said = f"{question.item or ''} {question.text}"
    return Article(
        weight=weight.amount("kg"),
        length=asked_length(question, words),
        kind=next((kind for kind in KINDS if words.cargo[kind].search(said)), "article"),
        blocked=bool(words.tie["blocked"].search(question.text)),
    )


def asked_ties(question: Question, words: AskedWords) -> AskedTies:
    """The tie-downs named in the words of a question."""
    text = question.text
    grade = words.grade.search(text)
    bare = words.grade.sub(" ", text)
    count = words.count.search(bare)
    transport = words.tie["transport"].search(text)
    marked = grade.group(1) if grade else ("70" if transport else "")
    return AskedTies(
        count=int(words.number(count.group(1))) if count else None,
        material=first_said(words.material, text) or ("chain" if grade else None),
        size=_size(bare, words),
        grade=f"grade {marked}" if marked else "",
        limit=_limit(text, words),
        sold_by_it=words.limit.search(text) is None and words.sold.search(text) is not None,
        run="over the load" if words.tie["over"].search(text) else "to the load",
    )


def _size(text: str, words: AskedWords) -> str:
    """A nominal size as the table has it: 3/8, 1-3/4, 10 mm, or inches where they are said."""
    metric = words.millimetres.search(text)
    if metric is not None:
        return f"{metric.group(1)} mm"
    for found in words.size.finditer(text):
        size = found.group(1).replace(" ", "-")
        if "/" in size or words.inches.match(text, found.end()):
            return size
    return ""


def _limit(text: str, words: AskedWords) -> Quantity | None:
    found = words.limit.search(text) or words.sold.search(text)
    if found is None:
        return None
    figure, unit = found.group(1, 2) if found.group(1) else found.groups()[2:]
    return Quantity(float(re.sub(r"[,.]", "", figure)), "kg" if unit == "kg" else "lb")
