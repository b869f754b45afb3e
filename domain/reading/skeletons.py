"""Words as hurried thumbs type them: the first letter, then the consonants.

This file decides which word such a skeleton stands for: of those that share one, the commonest.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Mapping

VOWELS = frozenset("aeiou")
SHORTEST_SKELETON = 3


def skeleton(word: str) -> str:
    """A word as hurried thumbs type it: the first letter, then consonants, none doubled."""
    bones = word[0]
    for letter in word[1:]:
        if letter not in VOWELS and letter != bones[-1]:
            bones += letter
    return bones


def skeletons_of(words: Iterable[str]) -> Mapping[str, str]:
    """The one word that each skeleton stands for; the word that is there more often wins."""
    counts = Counter(
        word for word in words if word.isalpha() and word.isascii() and VOWELS & set(word[1:])
    )
    found: dict[str, str] = {}
    for word in sorted(counts, key=lambda each: (-counts[each], each)):
        bones = skeleton(word)
        if len(bones) >= SHORTEST_SKELETON:
            found.setdefault(bones, word)
    return found
