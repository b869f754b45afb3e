"""Figures in the words of a question that its fields have no room for.

This file decides how a length and a share are found in what was asked, where the question's
own fields do not carry them: 'four feet', '2 ft', '12 %'. Lengths are in metres.
"""

from __future__ import annotations

import re

from domain.quantities import DISTANCES, Quantity
from domain.verdicts import Question

WORDS = (
    "one two three four five six seven eight nine ten eleven twelve",
    "uno dos tres cuatro cinco seis siete ocho nueve diez once doce",
)
COUNTS = {word: number for each in WORDS for number, word in enumerate(each.split(), start=1)}
"""Numbers in words, as far as anybody ties or paces, in the languages that are read."""

NUMBER = rf"(?<![\w/.,])(?P<number>\d+(?:\.\d+|,\d\d?)?|{'|'.join(COUNTS)})\s*-?\s*"
FEET_OR_METRES = r"(?:(?P<ft>ft|feet|foot|pies?|')|(?P<m>metres?|meters?|metros?|m))(?![\w/])"
INCHES = (
    r"(?P<in>inch|inches|pulgadas?|pulg|\"|in(?= (?:ahead|behind|in front|forward|back)))(?![\w/])"
)
LONG = re.compile(NUMBER + FEET_OR_METRES, re.I)
SHORT = re.compile(NUMBER + INCHES, re.I)
SHARE = re.compile(r"(?<![\w/.,])(\d+(?:\.\d+)?)\s*(?:%|percent|per cent|por ciento)", re.I)


def count_of(word: str) -> int:
    """A whole number in digits or in words; raises KeyError for another word."""
    return int(word) if word.isdigit() else COUNTS[word.casefold()]


def asked_length(question: Question) -> float | None:
    """A length in feet or metres that a question names, in metres: its field, else its words."""
    stated = question.distance
    if stated is not None and stated.unit not in DISTANCES:
        return stated.amount("m")
    return _length(LONG.search(question.text))


def asked_lever(question: Question) -> float | None:
    """The same, where inches will do as well."""
    found = asked_length(question)
    return _length(SHORT.search(question.text)) if found is None else found


def _length(found: re.Match[str] | None) -> float | None:
    if found is None:
        return None
    word = found.group("number")
    number = float(word.replace(",", ".")) if word[0].isdigit() else float(COUNTS[word.casefold()])
    unit = next(name for name, text in found.groupdict().items() if text and name != "number")
    return Quantity(number, unit).amount("m")


def asked_share(question: Question) -> float | None:
    """The share that a question names, 0.12 for 12 %."""
    stated = question.value
    if isinstance(stated, Quantity) and stated.unit == "%":
        return stated.value / 100
    found = SHARE.search(question.text)
    return float(found.group(1)) / 100 if found else None
