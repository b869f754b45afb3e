"""A network that keeps the letters that it was given."""

from __future__ import annotations

from bot.answers.answer import Answer
from bot.messages import Delivered, Letter, Outcome


class Letters:
    """Its far end is the test; a repeat under a key would show once."""

    once_by_key = True

    def __init__(self, name: str) -> None:
        self.name = name
        self.kept: list[Letter] = []

    @property
    def answers(self) -> list[Answer]:
        """What was said, in order."""
        return [each.answer for each in self.kept]

    async def send(self, letter: Letter) -> Outcome:
        self.kept.append(letter)
        return Delivered()
