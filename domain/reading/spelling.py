"""What is carried, spelt right: 'genrtr' is a generator, and 'extracter' an extractor.

This file decides which known thing an unknown word is a slip of: the one that is clearly nearest,
else none, and the word stays as it was typed. Labels are corrected in `phrasebook`, more widely,
as a figure beside them says what they must be.
"""

from __future__ import annotations

from collections.abc import Set as AbstractSet

from rapidfuzz import process
from rapidfuzz.distance import OSA

from domain.reading.skeletons import VOWELS, skeleton

SHORTEST_SLIP, SURELY_SLIP, TWO_SLIPS = 5, 8, 9
"""Letters: a shorter word is too often one of its own, and a long one may have two slips."""

SHORTEST_BONES, MOST_DROPPED = 3, 2
"""Consonants that tell a word whose vowels are left out, and how many of them must be."""

ENDINGS = ("s", "es", "ed", "er", "ing", "y")
"""What makes another word of a thing, and no slip."""


def spelt(word: str, goods: AbstractSet[str]) -> str:
    """A word of one case as it is spelt, in that case; itself where no thing is clearly meant."""
    typed = word.lower()
    meant = typed if typed in goods or not typed.isalpha() else _meant(typed, goods)
    if meant == typed:
        return word
    return meant.upper() if word.isupper() else meant


def _meant(word: str, goods: AbstractSet[str]) -> str:
    alike = [each for each in goods if each[0] == word[0]]
    short = [each for each in alike if _leaves_vowels_out(word, each)]
    if len(short) == 1:
        return short[0]
    if short or len(word) < SHORTEST_SLIP:
        return word
    near = process.extract(
        word, alike, scorer=OSA.distance, score_cutoff=_slips(len(word)), limit=2
    )
    if not near or (len(near) > 1 and near[0][1] == near[1][1]):
        return word
    nearest = near[0][0]
    slip = len(word) >= SURELY_SLIP or _is_hurried(word, nearest)
    return nearest if slip and not _is_form(word, nearest) else word


def _slips(length: int) -> int:
    return 2 if length >= TWO_SLIPS else 1


def _is_hurried(word: str, thing: str) -> bool:
    """'coolr', 'hoeny': a letter left out, or two swapped; with another it may be another word."""
    return len(word) < len(thing) or sorted(word) == sorted(thing)


def _leaves_vowels_out(word: str, thing: str) -> bool:
    """'genrtr', 'hny', 'drms': the consonants of a thing, and few or none of its vowels."""
    bones = skeleton(thing)
    if len(bones) < SHORTEST_BONES or skeleton(word) != bones or len(word) >= len(thing):
        return False
    letters = iter(thing)
    within = all(letter in letters for letter in word)
    bare = VOWELS.isdisjoint(word[1:])
    return within and (bare or len(thing) - len(word) >= MOST_DROPPED)


def _is_form(word: str, thing: str) -> bool:
    """'mowers', 'loader' beside 'load': a form of a thing's name, or of its verb."""
    short, long = sorted((word, thing), key=len)
    return long.startswith(short) and long[len(short) :] in ENDINGS
