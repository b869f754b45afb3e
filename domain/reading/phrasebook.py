"""The vocabulary of one language, compiled for reading.

This file decides how the phrases of a phrasebook are found in a message: words are folded
(case, apostrophes and hyphens do not count), and the longest phrase wins. It does not know
what a class of term means; the modules that read figures, labels and talk do. The phrases
themselves are data, handed in as a mapping (`shared/phrasebook/en.toml`).
"""

from __future__ import annotations

import re
import unicodedata
from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field
from typing import Any

from rapidfuzz import fuzz, process

Senses = Mapping[str, str]
"""What a phrase can mean: class of term -> key. Several keys of a class are joined by spaces."""

NUMBER_CLASS = "number"
TOPIC_CLASS = "topic"
LOCATION_CLASS = "location"
APART = ("misspelt", NUMBER_CLASS, LOCATION_CLASS)
"""Tables whose phrases are not joined into tokens: 'on the trailer' must stay three words."""

CORRECTABLE = ("axle", "whole", "unit", "vehicle", "odometer", "product", "subject", "rating")
"""The classes whose words are worth correcting to, where a figure stands beside."""

_WORD = re.compile(r"[^\W\d_]+(?:['’`´][^\W\d_]+)*\d*")
_APOSTROPHES = str.maketrans("", "", "'’`´")


@dataclass(frozen=True, slots=True)
class Phrasebook:
    """Phrases by their first word, longest first, with their senses; and the words for numbers.

    `locations` are phrases with where they say something stands, longest first.
    """

    language: str
    phrases: Mapping[str, tuple[tuple[tuple[str, ...], Senses], ...]]
    numbers: Mapping[str, str]
    marks: re.Pattern[str]
    correctable: Mapping[str, Senses]
    keep: frozenset[str]
    locations: tuple[tuple[str, str], ...]
    _corrections: dict[str, str | None] = field(default_factory=dict, compare=False, repr=False)

    def correction(self, word: str) -> str | None:
        """The label that an unknown word is a slip of, or None; remembered, as it costs 20 µs."""
        if word in self._corrections:
            return self._corrections[word]
        found: str | None = None
        if len(word) >= MIN_CORRECTED and word not in self.keep:
            match = process.extractOne(
                word, self.correctable.keys(), scorer=fuzz.ratio, score_cutoff=_cutoff(len(word))
            )
            if match is not None and match[0][0] == word[0]:
                found = match[0]
        if len(self._corrections) < MAX_REMEMBERED:
            self._corrections[word] = found
        return found


MIN_CORRECTED = 4
MAX_REMEMBERED = 10_000


def _cutoff(length: int) -> float:
    """One slip in a short word, two in a long one, on rapidfuzz's scale of 0 to 100."""
    return 80.0 if length >= 6 else 74.0


def compile_phrasebook(data: Mapping[str, Any]) -> Phrasebook:
    """A phrasebook from its tables: class of term -> key -> phrases."""
    senses: dict[tuple[str, ...], dict[str, str]] = {}
    marks: set[str] = set()
    for term_class, keys in data.items():
        if not isinstance(keys, Mapping) or term_class in APART:
            continue
        for key, phrases in keys.items():
            for phrase in phrases:
                words = split_words(phrase)
                marks.update(word for word in words if not _is_plain(word))
                found = senses.setdefault(words, {})
                if term_class in found and key not in found[term_class].split():
                    found[term_class] += f" {key}"
                else:
                    found.setdefault(term_class, key)
    phrases: dict[str, list[tuple[tuple[str, ...], Senses]]] = {}
    for words, meaning in senses.items():
        phrases.setdefault(words[0], []).append((words, meaning))
    for options in phrases.values():
        options.sort(key=lambda option: -len(option[0]))
    return Phrasebook(
        language=str(data.get("language", "")),
        phrases={first: tuple(options) for first, options in phrases.items()},
        numbers={word: key for key, words in data[NUMBER_CLASS].items() for word in words},
        marks=_marks_pattern(marks),
        correctable={
            words[0]: meaning
            for words, meaning in senses.items()
            if len(words) == 1 and len(words[0]) >= MIN_CORRECTED and meaning.keys() & CORRECTABLE
        },
        keep=frozenset(data.get("misspelt", {}).get("keep", ())),
        locations=tuple(
            sorted(
                (
                    (" ".join(split_words(phrase)), key)
                    for key, phrases in data.get(LOCATION_CLASS, {}).items()
                    for phrase in phrases
                ),
                key=lambda pair: -len(pair[0]),
            )
        ),
    )


def fold(word: str) -> str:
    """A word as the phrasebook knows it: without case, apostrophes or accents' variants."""
    return word.casefold().translate(_APOSTROPHES)


def split_words(phrase: str) -> tuple[str, ...]:
    """A phrase of the phrasebook as the words that the lexer will give for it."""
    words: list[str] = []
    for part in unicodedata.normalize("NFKC", phrase).split():
        if _WORD.fullmatch(part) or part.isdigit() or not any(c.isalnum() for c in part):
            words.append(fold(part))
        elif re.fullmatch(r"[^\W\d_]+(?:-[^\W\d_]+)+", part):
            words.extend(fold(piece) for piece in part.split("-"))
        else:
            words.append(fold(part))
    return tuple(words)


def _is_plain(word: str) -> bool:
    return bool(_WORD.fullmatch(word)) or word.isdigit()


def _marks_pattern(marks: Iterable[str]) -> re.Pattern[str]:
    """Abbreviations and signs that the rules for words and numbers would take apart."""
    ends_open = r"(?![^\W_])"
    parts = [
        re.escape(mark) + (ends_open if mark[-1].isalnum() else "")
        for mark in sorted(marks, key=len, reverse=True)
        if mark
    ]
    return re.compile("|".join(parts) if parts else r"(?!)")
