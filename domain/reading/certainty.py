"""How sure it is, by its words alone, that a message speaks of the rig.

A word that nobody knows makes it likelier that a message is talk, unless what stands beside it is
said of nothing but a rig. So each phrase weighs as much as it is rare elsewhere: a rating by its
name or the weight on a tongue outweighs several strangers, the chat's own trailer fewer, fuel or a
week none. This file holds that one measure; `questions` takes it off the strangers.
"""

from __future__ import annotations

from collections.abc import Set
from typing import TYPE_CHECKING

from domain.reading.figures import DISTANCE, LAST_DAY
from domain.reading.scene import Scene
from domain.reading.talk import OTHER
from domain.reading.tokens import Token

if TYPE_CHECKING:
    from domain.reading.asked import Topics

OF_NOTHING_ELSE, OURS, OF_TRADE = 3, 2, 1
"""Strangers that a phrase makes up for: one said of rigs alone, our own name, a word of the trade.
"""

SURE_ENOUGH = 3
"""Less makes up for nothing; from here on, a question may also stand anywhere in a message."""

TERMS = frozenset(("rating", "axle_noun", "axle", "whole"))
"""Classes of term that name a load or a limit."""

CERTAIN = ("surely_trade", "surely_tongue_asked", "surely_economy", "surely_cost")
EVERYDAY = frozenset(
    ("axle_or_word", "everyday_whole", "everyday_rating", "everyday_term", "metric_rating")
)


def certainty_of(scene: Scene, topics: Topics) -> int:
    """How many unknown words the rest of a message makes up for; none beside another's rig."""
    groups = scene.book.groups
    said = {each for phrases in topics.values() for each in phrases}
    certain = {each for group in CERTAIN for each in said & groups[group]}
    terms = [] if TERMS.isdisjoint(scene.by_class) else _terms(scene)
    if not (certain or terms or "name" in scene.by_class):
        return 0  # before anything is made of it: most messages are another matter
    if _states(scene) or not groups["of_other_rig"].isdisjoint(scene.words()):
        return 0
    ours = not groups["our_rig"].isdisjoint(scene.words())
    if certain - groups["also_of_people"] or any(term == "rating" for term, _ in terms):
        sure = OF_NOTHING_ELSE
    else:
        sure = OURS if terms or (certain and ours) else 0
    named = OURS if scene.has("name") else OF_TRADE if scene.has("vehicle", "trailer") else 0
    if OTHER in scene.talk and _of_others(scene, certain | {token.text for _, token in terms}):
        return 0
    told = {word for phrase in certain for word in phrase.split()}
    trade = not told.issuperset(groups["of_trade"].intersection(scene.words()))
    if not (sure or trade):
        return 0  # 'did the camper fit under the bridge'
    found = sure + named + OF_TRADE * trade
    return found if found >= SURE_ENOUGH else 0


def _terms(scene: Scene) -> list[tuple[str, Token]]:
    """The words for a load or a limit that mean nothing else, each with its class."""
    misspelt = scene.by_class.get("corrected", ())
    return [
        (term, token)
        for term in TERMS
        for index, token, _ in scene.find(term)
        if token.groups.isdisjoint(EVERYDAY) and index not in misspelt
    ]


def _of_others(scene: Scene, said: Set[str]) -> bool:
    """Whether what is said of a rig, or a name, is said of somebody else's: 'his GVWR'."""
    told = {word for phrase in said for word in phrase.split()}
    return any(
        state == OTHER and ("name" in token.senses or not told.isdisjoint(token.text.split(" ")))
        for token, state in zip(scene.tokens, scene.talk, strict=True)
    )


def _states(scene: Scene) -> bool:
    """Whether a figure is told that no question of the log has: money, a volume, a reading."""
    return any(
        figure.claimed is None
        and figure.dimension != DISTANCE
        and (figure.unit is not None or figure.value > LAST_DAY)
        for figure in scene.figures
    )


def asks_aside(scene: Scene) -> bool:
    """Whether something is asked for in any clause: 'need the ...', '..., what's that come to'.

    A question word amid a clause asks only where nothing before it tells: 'thats how bad it is'.
    """
    groups = scene.book.groups
    if scene.phrase_said("asks_for_it") is not None:
        return True
    before: Token | None = None
    for token in scene.tokens:
        first = token.text.split(" ")[0]
        if first in groups["asks_indirectly"] or first in groups["asks_inverted"]:
            if before is None or not before.raw[-1:].isalnum():
                return True
            if first in groups["asks_indirectly"] and not (
                set(before.text.split(" ")) & groups["tells_how"]
            ):
                return True
        before = token
    return False
