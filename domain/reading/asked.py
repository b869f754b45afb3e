"""What of a message bears on the question that it may be.

This file holds what was found (phrases of topics, forms, figures, strangers) and how a rule
asks for it; which topic it makes is decided in `topics`. Most of what may be a question is told
from talk by a part of it, so each part is found when it is first asked for.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from itertools import chain, repeat

from domain.reading.certainty import asks_aside, certainty_of
from domain.reading.figures import DISTANCE, MASS, Figure
from domain.reading.later import later
from domain.reading.plain_loads import means_the_rig, names_what_is_asked
from domain.reading.question_forms import (
    LOADS,
    NEEDS,
    WANTS,
    Form,
    is_order,
    opens,
    requested,
    supposes,
)
from domain.reading.scene import Scene
from domain.reading.tokens import NO_GROUPS, NUMBER

Topics = Mapping[str, set[str]]
"""Each topic that a message has words for, with the phrases that stand there."""

LEFT_OF = frozenset(("how_much", "how_far"))
"""Forms of a question that asks what is left of something."""

MOST_NAMED = 3
"""Words that nobody knows: what a load is called has no more."""

SUMMED = frozenset(("fuel", "summary_asked"))
"""Groups of words for what can be summed up: 'i need the week's summary'."""

SMALL = frozenset(("small_word", "before_question", "asks_aside"))
"""Groups of words that carry no meaning of their own."""

LEAST_MASS = 100
"""A load without a unit is no less, in pounds or in kilograms."""

COUNTED = 2
"""Tokens of straps and what leads to what each holds, behind how many there are."""

LONGEST_STAMP = 3
"""Tokens of what a working load limit is called."""


class Asked:
    """What a message has that bears on its topic.

    `topics` are the phrases that stand for each topic, and `asking` the words that make the forms
    of a question.
    """

    def __init__(
        self, scene: Scene, words: Sequence[str], topics: Topics, asking: Sequence[Form]
    ) -> None:
        self.scene, self.spoken, self.topics, self.asking = scene, words, topics, asking
        self.book = scene.book

    @later
    def words(self) -> frozenset[str]:
        """Every word, once."""
        return frozenset(self.spoken)

    @later
    def text(self) -> str:
        """The words with a space at either end."""
        return f" {' '.join(self.spoken)} "

    @later
    def said(self) -> frozenset[str]:
        """The groups that the words are in."""
        return NO_GROUPS.union(*map(self.book.memberships.get, self.spoken, repeat(NO_GROUPS)))

    @later
    def certainty(self) -> int:
        """For how many strangers the rest makes up."""
        return certainty_of(self.scene, self.topics)

    @later
    def strangers(self) -> int:
        """How many words nobody knows, beyond those that the certainty makes up for."""
        unknown = self.scene.unknown
        if not unknown or self._noun:
            return 0
        tokens = [self.scene.tokens[index] for index in unknown]
        strange = [token.text for token in tokens if token.groups.isdisjoint(SMALL)]
        if strange:
            told = set(" ".join(chain.from_iterable(self.topics.values())).split())
            strange = [each for each in strange if each not in told]
        return max(0, len(strange) - self.certainty) if strange else 0

    @later
    def form(self) -> bool:
        """Whether it has the form of a question, an order or a supposition."""
        return (
            any(opens(self.scene, self.spoken, start) for start, _, _ in self._forms)
            or self._noun
            or supposes(self.scene, self.spoken, self.topics)
            or (is_order(self.scene, self.topics) and self.strangers == 0)
            or (self.certainty > 0 and asks_aside(self.scene))
        )

    @later
    def forms(self) -> set[str]:
        """The forms of a question that it has."""
        return {
            "show" if key in (WANTS, NEEDS) else key
            for _, _, keys in self._forms
            for key in keys.split()
        }

    @later
    def plain(self) -> bool:
        """Whether every word is understood, one is the trade's own, and nobody else is asked."""
        return self._sure and not self.other

    @later
    def ours(self) -> bool:
        """Whether it is of our own rig."""
        return "ours" in self.said or self.scene.has("vehicle") or self.scene.has("name")

    @later
    def other(self) -> bool:
        """Whether somebody else than Drawbar is asked or spoken of."""
        if "other_people" not in self.said or not self._asks_people():
            return False
        if "ratings" in self.topics and self._said_of_drawbar():
            return False
        may_do = ("drawbar_does", "may_be_asked_to") if self._sure else ("drawbar_does",)
        return requested(self.scene, self.spoken, may_do) is None

    @later
    def distance(self) -> Figure | None:
        """The distance that is named, and no other that a part of it is told for."""
        for figure in self._live:
            if figure.dimension == DISTANCE and not told_for(self.scene, figure):
                return figure
        return None

    @later
    def mass(self) -> Figure | None:
        """The load that is named: '4 straps rated 3,333 lb for 6,600 lb' names the second."""
        masses = [f for f in self._live if f.dimension == MASS]
        masses = masses or [f for f in self._live if f.dimension is None and f.value >= LEAST_MASS]
        loads = [f for f in masses if not _is_rating(self.scene, f)] or masses
        return loads[0] if loads else None

    def says(self, *groups: str) -> bool:
        """Whether a single word of one of the groups stands in the question."""
        return not self.said.isdisjoint(groups)

    def phrased(self, topic: str, *groups: str) -> bool:
        """Whether one of the topic's phrases is of one of the groups."""
        phrases = self.topics.get(topic)
        if phrases:
            for group in groups:  # a loop costs half of any()
                if not self.book.groups[group].isdisjoint(phrases):
                    return True
        return False

    def within(self, topic: str, group: str) -> bool:
        """Whether all of the topic's phrases are of the group."""
        return self.topics[topic] <= self.book.groups[group]

    def runs(self, group: str) -> bool:
        """Whether a run of letters of the group stands anywhere in the question."""
        return any(phrase in self.text for phrase in self.book.groups[group])

    def stands(self, group: str) -> bool:
        """Whether a phrase of the group stands in the question, between whole words."""
        return any(phrase in self.text for phrase in self.book.begun_by(group, self.words))

    @later
    def _live(self) -> Sequence[Figure]:
        return [figure for figure in self.scene.figures if figure.claimed is None]

    @later
    def _noun(self) -> bool:
        """Whether the message is the name of what is asked for."""
        return not self._live and names_what_is_asked(self.scene, self.topics)

    @later
    def _sure(self) -> bool:
        return self.strangers == 0 and means_the_rig(self.scene, self.topics)

    @later
    def _forms(self) -> Sequence[Form]:
        """The forms, without those in which people are asked for things where it may be so."""
        if not any(keys in (WANTS, NEEDS) for _, _, keys in self.asking):
            return self.asking
        if not LOADS.isdisjoint(self.topics) and self._sure:
            return self.asking
        summed = not self.said.isdisjoint(SUMMED)
        dropped = (WANTS,) if summed else (WANTS, NEEDS)  # 'i need the truck this week'
        return [each for each in self.asking if each[2] not in dropped]

    def _asks_people(self) -> bool:
        groups = self.book.groups
        people = set(self._without_opinion()) - self._relaying()
        for phrase in groups["asks_drawbar"]:
            if phrase in self.text:
                people.difference_update(phrase.split(), groups["addressed"])
        return not groups["other_people"].isdisjoint(people)

    def _relaying(self) -> set[str]:
        """'dad wants to know what we weigh': for whom it is asked, and who is not asked."""
        groups, words = self.book.groups, self.spoken
        at = int(words[0] in groups["our"])
        said = f"{' '.join(words[at + 1 : at + 1 + LONGEST_RELAY])} "
        relayed = any(said.startswith(f"{each} ") for each in groups["relays"])
        return set(words[: at + 1]) & groups["family"] if relayed else set()

    def _without_opinion(self) -> Sequence[str]:
        """'is the nose weight about right you think': who is asked so of the rig is Drawbar."""
        groups, words = self.book.groups, self.spoken
        if groups["thinks"].isdisjoint(words) or not (self._sure or _of_trade(self.scene)):
            return words
        return [
            word
            for word, following in zip(words, (*words[1:], ""), strict=True)
            if not (word in groups["addressed"] and following in groups["thinks"])
        ]

    def _said_of_drawbar(self) -> bool:
        """'all the limits you have', 'the ratings you hold for the camper': what it was told."""
        said = f"{self.text.rstrip(' ?.!')} "
        return any(
            said.endswith(each) or f"{each}for " in self.text or f"{each}on " in self.text
            for each in self.book.phrases_of("held_by_drawbar")
        )


LONGEST_RELAY = 4
"""Words: 'would like to know'."""


def told_for(scene: Scene, figure: Figure) -> bool:
    """'per 100 km': what something is told for, and no way to go."""
    return figure.start > 0 and "each" in scene.tokens[figure.start - 1].groups


def _of_trade(scene: Scene) -> bool:
    """Whether a load or a limit is named by words that mean nothing else."""
    tongue = any("surely_tongue_asked" in token.groups for token in scene.tokens)
    return tongue or scene.has("rating") or scene.has("axle_noun", "axle")


def _is_rating(scene: Scene, figure: Figure) -> bool:
    """'straps rated 3,333 lb', 'wll 800 kg', 'how many 3,333 lb straps', 'straps of 800 kg'."""
    before = scene.tokens[max(0, figure.start - LONGEST_STAMP) : figure.start]
    behind = scene.tokens[figure.end : figure.end + LONGEST_STAMP]
    if before and "stamped" in before[-1].groups:
        return True
    if behind and "lashing" in behind[0].groups:
        return True
    if len(before) > 1 and "lashing" in before[-2].groups:
        counted = len(before) > COUNTED and before[-3].kind is NUMBER  # '4 straps at 3,333'
        if "of" in before[-1].groups or (counted and "at" in before[-1].groups):
            return True
    ahead = " ".join(token.text for token in before)
    after = " ".join(token.text for token in behind)
    limits = scene.book.groups["tie_limit"]
    return any(
        f" {ahead}".endswith(f" {each}") or f"{after} ".startswith(f"{each} ") for each in limits
    )
