"""What a look at one place of a picture made out, and what two looks make of each other.

This file decides where words are parted, and how sure a letter is that was looked at twice: a
figure that two looks disagree about is not certain. It does not know where the place is, or how
letters are recognised.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass, replace
from itertools import accumulate, pairwise
from statistics import median

SPACE = 1.9
"""How many usual steps from letter to letter there are across a space."""


@dataclass(frozen=True, slots=True)
class Letter:
    """A character, how far along its place it stands (0 to 1), and how sure it is."""

    text: str
    along: float
    confidence: float


@dataclass(frozen=True, slots=True)
class Part:
    """Letters that stand together."""

    letters: tuple[Letter, ...]

    @property
    def text(self) -> str:
        """What they say."""
        return "".join(letter.text for letter in self.letters)

    @property
    def confidence(self) -> float:
        """That of the least certain letter."""
        return min(letter.confidence for letter in self.letters)


@dataclass(frozen=True, slots=True)
class Look:
    """What one look at a place made out, from left to right."""

    parts: tuple[Part, ...]

    @property
    def letters(self) -> str:
        """What they say without spaces."""
        return "".join(part.text for part in self.parts)

    def parts_more_words_than(self, other: Look) -> bool:
        """Whether it has more parts, and none that begins in the middle of a number."""
        begun = any(
            before.text[-1].isdigit() and after.text[0].isdigit()
            for before, after in pairwise(self.parts)
        )
        return len(self.parts) > len(other.parts) and not begun

    @property
    def sure(self) -> float:
        """The mean confidence of its letters."""
        letters = [letter for part in self.parts for letter in part.letters]
        return sum(letter.confidence for letter in letters) / len(letters) if letters else 0.0

    def confirmed_by(self, other: Look) -> Look:
        """The surer of two looks at one place; what they disagree about is uncertain.

        Where both made out the same, each letter is as sure as the surer look had it, and words
        are apart that either look had apart.
        """
        surer, less = (self, other) if self.sure >= other.sure else (other, self)
        if surer.letters == less.letters:
            apart, again = (less, surer) if less.parts_more_words_than(surer) else (surer, less)
            confidences = [letter.confidence for part in again.parts for letter in part.letters]
            left = iter(confidences)
            return apart.with_confidence(lambda letter: max(letter.confidence, next(left)))
        said = {part.text for part in less.parts}
        return Look(
            tuple(
                part
                if part.text in said
                else Part(tuple(replace(letter, confidence=0.0) for letter in part.letters))
                for part in surer.parts
            )
        )

    def with_confidence(self, confidence: Callable[[Letter], float]) -> Look:
        """The same with each letter's confidence anew, from left to right."""
        return Look(
            tuple(
                Part(
                    tuple(replace(letter, confidence=confidence(letter)) for letter in part.letters)
                )
                for part in self.parts
            )
        )


def look_of(text: str, letters: Sequence[Letter]) -> Look:
    """A look from the text that was made out, spaces and all, and its letters without them."""
    return Look(tuple(_parts(text, letters)))


def _parts(text: str, letters: Sequence[Letter]) -> Iterator[Part]:
    """Letters parted where a space was made out, or has room between a letter and a digit."""
    ends = set(accumulate(len(word) for word in text.split()))
    steps = [after.along - before.along for before, after in pairwise(letters)]
    usual = median(steps) if steps else 0.0
    begin = 0
    for index in range(1, len(letters) + 1):
        kinds = {letter.text.isdigit() for letter in letters[index - 1 : index + 1]}
        apart = len(kinds) > 1 and steps[index - 1] > SPACE * usual
        if index in ends or apart:
            yield Part(tuple(letters[begin:index]))
            begin = index
