"""Messages of which every word is understood.

Who asks Drawbar in words that are all known, one of them the trade's own, need not ask in a
sentence: 'room left on the flatdeck', 'steer axle weight please'. This file decides what is the
trade's own beyond doubt, and whether a message is a noun with what belongs to it and no more.
Which topic it asks for is decided in `topics`.
"""

from __future__ import annotations

from collections.abc import Set as AbstractSet
from itertools import chain
from typing import TYPE_CHECKING

from domain.reading.evidence import names_rig
from domain.reading.lexer import TEXT
from domain.reading.scene import Scene
from domain.reading.tokens import WORD, Token

if TYPE_CHECKING:
    from domain.reading.asked import Topics

TERMS = ("axle", "axle_noun", "rating", "whole")
"""Classes of term that name a load or a limit."""

EVERYDAY = frozenset(("axle_or_word", "everyday_whole", "everyday_rating", "everyday_term"))
"""Groups of such words that mean something else to most people."""

OF_THE_RIG = frozenset(("name", "vehicle", "rig", "rating", "rating_subject", "ticket", "bars"))
OF_ITS_LOADS = frozenset(("axle", "axle_noun", "whole", "end", "side", "ordinal", "corner", "unit"))
OF_A_NOUN = OF_THE_RIG | OF_ITS_LOADS | {"time"}
"""Classes of term that stand in a noun phrase and make no sentence."""

BY_NEIGHBOURS = ("drives_named", "gross_named")
"""Groups of phrases in which an everyday word means a load."""

MOST_WORDS = 12


def means_the_rig(scene: Scene, topics: Topics) -> bool:
    """Whether a word means the chat's rig, a load or a limit, and nothing else."""
    if scene.has("name"):
        return True
    groups = scene.book.groups
    if any(not groups["surely_trade"].isdisjoint(said) for said in topics.values()):
        return True
    if scene.has("whole", "tongue") and any("share_word" in t.groups for t in scene.tokens):
        return True  # 'tongue percent'
    if any(token.groups.isdisjoint(EVERYDAY) for term in TERMS for _, token, _ in scene.find(term)):
        return True
    return any(map(scene.phrase_said, BY_NEIGHBOURS))


def names_what_is_asked(scene: Scene, topics: Topics) -> bool:
    """Whether a message is the name of what is asked for: 'weight of the camper, please'.

    Every word belongs to a noun phrase, its head can be asked for, and it is of the rig.
    """
    nouns = scene.book.groups["asked_noun"]
    heads = nouns.intersection(chain(*topics.values(), map(TEXT, scene.tokens)))
    if "share_word" in scene.groups:  # 'pin percent'
        heads |= {token.text for _, token, _ in scene.find("whole", "tongue")}
    if "polite" in scene.groups:  # 'rear axle please'
        heads |= {token.text for token in scene.tokens if "surely_axle" in token.groups}
    if not heads and "rating" not in scene.by_class:
        return False
    return is_noun_phrase(scene, heads) and (means_the_rig(scene, topics) or names_rig(scene))


def is_noun_phrase(scene: Scene, heads: AbstractSet[str] = frozenset()) -> bool:
    """Whether the words of a message make no sentence; `heads` belong to it whatever they are.

    'last time we crossed the scale' is a time, and no sentence of its own.
    """
    named = {word for each in heads for word in each.split()}
    small = scene.book.groups["noun_phrase_word"]
    tokens = scene.tokens
    for index in range(2, len(tokens)) if scene.groups >= CLAUSE_OF_TIME else ():
        if "pronoun" in tokens[index].groups and "time_word" in tokens[index - 1].groups:
            tokens = tokens[:index]
            break
    return len(tokens) <= MOST_WORDS and all(
        _in_noun_phrase(token, small, named) for token in tokens
    )


CLAUSE_OF_TIME = frozenset(("time_word", "pronoun"))
"""Groups of words of which such a time is told."""


def _in_noun_phrase(token: Token, small: AbstractSet[str], named: AbstractSet[str]) -> bool:
    if token.kind != WORD:
        return not token.raw.isalnum()
    return not OF_A_NOUN.isdisjoint(token.senses) or all(
        word in small or word in named for word in token.text.split(" ")
    )
