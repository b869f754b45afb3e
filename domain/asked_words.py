"""The words of a question about load, limits or tie-downs that its fields have no room for.

This file decides how the phrases of every language that is read become one vocabulary: what is
meant is the same whichever language says it. The phrases are data (`shared/phrasebook/asked.*`);
what follows from what is said is decided in `asked_load` and `asked_ties`.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from typing import Any

Table = Mapping[str, re.Pattern[str]]
"""What is meant -> the whole words that say it, in the order in which they are looked for."""

WHOLE = r"(\d{1,3}(?:[,.]\d{3})+|\d{3,}|\d{2}(?=\s*kg))(?![\d/])\s*(lbs?|kg)?"
OF_MASS = r"(\d{1,3}(?:[,.]\d{3})+|\d{3,})[\s-]*(lbs?|kg|pound)[\s-]+"
GRADES = "30|43|70|80|100"


@dataclass(frozen=True, slots=True)
class AskedWords:
    """Compiled vocabulary: numbers in words, figures as they are said, and tables of phrases.

    `long` and `short` find a length by groups `number` and `ft`, `m` or `in`; `share` a
    percentage. Of tie-downs, `count` finds how many, `size` a nominal size in inches (with
    `inches` behind it where they are said), `millimetres` a metric one, `grade` a chain's, `limit`
    a working load limit: its figure and unit before or behind the word for it, `sold` the figure
    and unit that tie-downs go by ('3,333 lb straps'). The tables bear the
    names that they have in the data.
    """

    counts: Mapping[str, int]
    long: re.Pattern[str]
    short: re.Pattern[str]
    share: re.Pattern[str]
    inches: re.Pattern[str]
    millimetres: re.Pattern[str]
    size: re.Pattern[str]
    count: re.Pattern[str]
    grade: re.Pattern[str]
    limit: re.Pattern[str]
    sold: re.Pattern[str]
    verb: Table
    way: Table
    felt: Table
    place: Table
    material: Table
    cargo: Table
    tie: Table
    part: Table
    alone: Table
    empty: Table
    sides: Table
    driven: Table

    def number(self, word: str) -> float:
        """A number in digits or in words; raises KeyError for another word."""
        if word[0].isdigit():
            return float(word.replace(",", "."))
        return float(self.counts[word.casefold()])


def asked_words_from(languages: Sequence[Mapping[str, Any]]) -> AskedWords:
    """The vocabulary from the tables of all languages; raises KeyError where one is missing."""
    counts = {word: number for each in languages for number, word in enumerate(each["counts"], 1)}
    length = {name: "|".join(said) for name, said in _merged(languages, "length").items()}
    tie = {name: "|".join(said) for name, said in _merged(languages, "tie").items()}
    ties = "|".join(said for each in _merged(languages, "material").values() for said in each)
    number = rf"(?<![\w/.,])(?P<number>\d+(?:\.\d+|,\d\d?)?|{'|'.join(counts)})\s*-?\s*"
    inches = rf"\s*(?:-?\s*(?:{length['inches_of_size']})\b|\"|'')"
    millimetres = length["millimetres"]
    lengths = f"{millimetres}|{length['inches_of_size']}|{length['inches']}|{length['feet']}"
    return AskedWords(
        counts=counts,
        long=_said(rf"{number}(?:(?P<ft>{length['feet']}|')|(?P<m>{length['metres']}|m))(?![\w/])"),
        short=_said(rf"{number}(?P<in>{length['inches']}|\")(?![\w/])"),
        share=_said(rf"(?<![\w/.,])(\d+(?:\.\d+)?)\s*(?:%|{length['percent']})"),
        inches=_said(inches),
        millimetres=_said(rf"(?<![\w/.,])(\d{{1,3}})\s*-?\s*(?:{millimetres})\b"),
        size=_said(rf"(?<![\d,.])(\d+[- ]\d/\d|\d/\d{{1,2}}|[1-4])(?={inches}|[\s?,.]|$)"),
        count=_said(
            rf"(?<![\w/.,])(\d{{1,2}}|{'|'.join(counts)})\b"
            rf"(?!\s*(?:/|\"|(?:{lengths}|lbs?)\b|%))"
            rf"(?=(?:\s*x)?(?:\s+(?:\d{{1,3}}(?:,\d{{3}})+|[\w/.\"-]+)){{0,6}}?\s+(?:{ties})\b|\s+(?:{tie['of_them']})\b)"
        ),
        grade=_said(rf"\b(?:{tie['grade']})[\s-]*({GRADES})\b"),
        limit=_said(
            rf"(?:{tie['limit_before']})\D{{0,12}}?{WHOLE}\b|{WHOLE}\s*(?:{tie['limit_behind']})"
        ),
        sold=_said(rf"(?<![\w/.,]){OF_MASS}(?:{tie['sold_as']}\s+)?(?:{ties})\b"),
        verb=_table(languages, "verb"),
        way=_table(languages, "way"),
        felt=_table(languages, "felt"),
        place=_table(languages, "place"),
        material=_table(languages, "material"),
        cargo=_table(languages, "cargo"),
        tie=_table(languages, "tie"),
        part=_table(languages, "part"),
        alone=_table(languages, "alone"),
        empty=_table(languages, "empty"),
        sides=_table(languages, "sides"),
        driven=_table(languages, "driven"),
    )


def first_said(table: Table, text: str) -> str | None:
    """The first meaning of a table that stands in a text."""
    return next((name for name, said in table.items() if said.search(text)), None)


def _merged(languages: Iterable[Mapping[str, Any]], table: str) -> Mapping[str, Sequence[str]]:
    merged: dict[str, list[str]] = {}
    for each in languages:
        for name, said in each[table].items():
            merged.setdefault(name, []).extend(said)
    return merged


def _table(languages: Iterable[Mapping[str, Any]], name: str) -> Table:
    merged = _merged(languages, name).items()
    return {meant: _said(rf"\b(?:{'|'.join(said)})(?!\w)") for meant, said in merged}


def _said(pattern: str) -> re.Pattern[str]:
    return re.compile(pattern, re.I)
