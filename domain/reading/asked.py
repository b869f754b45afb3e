"""What of a message bears on the question that it may be.

This file holds what was found (phrases of topics, forms, figures, strangers) and how a rule
asks for it; which topic it makes is decided in `topics`.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from domain.reading.figures import Figure
from domain.reading.phrasebook import Phrasebook

Topics = Mapping[str, set[str]]
"""Each topic that a message has words for, with the phrases that stand there."""

LAST_DAY = 31
"""A figure up to this may be the day of a date."""

LEFT_OF = frozenset(("how_much", "how_far"))
"""Forms of a question that asks what is left of something."""

MOST_NAMED = 3
"""Words that nobody knows: what a load is called has no more."""


@dataclass(frozen=True, slots=True)
class Asked:
    """What a message has that bears on its topic.

    `topics` are the phrases that stand for each topic, `forms` the forms of a question, `text`
    the words with a space at either end, and `said` the groups that they are in; `strangers` counts
    the words that nobody knows beyond the `certainty` that makes up for some, `ours` and `other`
    say whose business it is. It is `plain` where every word is understood, one of them is the
    trade's own, and nobody else is asked.
    """

    book: Phrasebook
    topics: Topics
    forms: set[str]
    form: bool
    words: frozenset[str]
    text: str
    said: frozenset[str]
    ours: bool
    strangers: int
    certainty: int
    other: bool
    plain: bool
    distance: Figure | None
    mass: Figure | None

    def says(self, *groups: str) -> bool:
        """Whether a single word of one of the groups stands in the question."""
        return not self.said.isdisjoint(groups)

    def phrased(self, topic: str, *groups: str) -> bool:
        """Whether one of the topic's phrases is of one of the groups."""
        phrases = self.topics.get(topic, ())
        return any(not self.book.groups[group].isdisjoint(phrases) for group in groups)

    def within(self, topic: str, group: str) -> bool:
        """Whether all of the topic's phrases are of the group."""
        return self.topics[topic] <= self.book.groups[group]

    def runs(self, group: str) -> bool:
        """Whether a run of letters of the group stands anywhere in the question."""
        return any(phrase in self.text for phrase in self.book.groups[group])

    def stands(self, group: str) -> bool:
        """Whether a phrase of the group stands in the question, between whole words."""
        return any(phrase in self.text for phrase in self.book.phrases_of(group))
