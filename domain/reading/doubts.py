"""A doubt found while reading: what is in doubt, why, and what may have been meant."""

from __future__ import annotations

from dataclasses import dataclass

from domain.quantities import Quantity
from domain.verdicts import Ask, Choice


@dataclass(frozen=True, slots=True)
class Doubt:
    """A figure that can't be right or two likely readings; `why` keys the sentence asked back."""

    about: str
    why: str
    figures: tuple[Quantity, ...] = ()
    choices: tuple[Choice, ...] = ()

    def ask(self) -> Ask:
        """The doubt as a verdict."""
        return Ask(self.about, self.choices, self.why, self.figures)
