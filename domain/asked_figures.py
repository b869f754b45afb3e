"""Figures in the words of a question that its fields have no room for.

This file decides how a length and a share are found in what was asked, where the question's
own fields do not carry them: 'four feet', '2 ft', '12 %'. Lengths are in metres.
"""

from __future__ import annotations

import re

from domain.asked_words import AskedWords
from domain.quantities import DISTANCES, Quantity
from domain.verdicts import Question


def asked_length(question: Question, words: AskedWords) -> float | None:
    """A length in feet or metres that a question names, in metres: its field, else its words."""
    stated = question.distance
    if stated is not None and stated.unit not in DISTANCES:
        return stated.amount("m")
    return _length(words.long.search(question.text), words)


def asked_lever(question: Question, words: AskedWords) -> float | None:
    """The same, where inches will do as well."""
    found = asked_length(question, words)
    return _length(words.short.search(question.text), words) if found is None else found


def _length(found: re.Match[str] | None, words: AskedWords) -> float | None:
    if found is None:
        return None
    number = words.number(found.group("number"))
    unit = next(name for name, text in found.groupdict().items() if text and name != "number")
    return Quantity(number, unit).amount("m")


def asked_share(question: Question, words: AskedWords) -> float | None:
    """The share that a question names, 0.12 for 12 %."""
    stated = question.value
    if isinstance(stated, Quantity) and stated.unit == "%":
        return stated.value / 100
    found = words.share.search(question.text)
    return float(found.group(1)) / 100 if found else None
