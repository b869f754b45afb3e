"""A gauge heard or corrected into another word: 'trams temp 188', 'tranz temp 210'.

This file decides which part of the truck an unknown word is a slip of that stands before the word
for a temperature. Other labels are corrected in `phrasebook`, wherever a figure stands beside.
"""

from __future__ import annotations

from collections.abc import Sequence

from rapidfuzz import process
from rapidfuzz.distance import OSA

from domain.reading.phrasebook import Phrasebook
from domain.reading.tokens import Token

SHORTEST = 4
"""Letters: 'hob' is no hub."""


def gauge_meant(tokens: Sequence[Token], index: int, book: Phrasebook) -> str | None:
    """The part whose temperature is told, one letter from a word; None for another thing's."""
    word, behind = tokens[index].text, tokens[index + 1 : index + 2]
    if len(word) < SHORTEST or not behind or "temps_word" not in behind[0].groups:
        return None
    parts = [part for part in book.groups["has_temperature"] if part[0] == word[0]]
    found = process.extractOne(word, parts, scorer=OSA.distance, score_cutoff=1)
    return None if found is None else found[0]
