"""'Out back', 'behind', 'in tow': the rear of a vehicle, or the trailer behind the truck.

This file decides, before figures are looked for, when such words name where a load or a tyre is.
Elsewhere they say where something else is, and are nothing of the rig.
"""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING

from domain.reading.everyday_words import names_truck
from domain.reading.figures import token_at
from domain.reading.tokens import NO_GROUPS, NUMBER, WORD, Token

if TYPE_CHECKING:
    from domain.reading.scene import Scene

TRAILS = frozenset(("behind", "out_back", "tows_much"))
"""Groups of words of which one may name the trailer."""

LEAST_LOAD = 1_000
"""Pounds or kilograms: of less behind the truck it is told what it is."""


def settle_out_back(scene: Scene) -> None:
    """'tires 65 up front, 80 out back': the rear, and not where something else is."""
    for token in scene.tokens:
        if "out_back" in token.groups:
            token.senses = {"end": "rear"}
    scene.index_terms()


def settle_trailing(scene: Scene) -> None:
    """'8,920 on the drives and 12,640 behind': beside loads of the truck, what trails it."""
    tokens = scene.tokens
    if not _tells_of_truck(scene):
        return
    settled = False
    if "out_back" in scene.groups and _is_of_front(scene):
        settle_out_back(scene)
        return
    for index, token in enumerate(tokens):
        if TRAILS.isdisjoint(token.groups) or not _ends_there(tokens, index):
            continue
        first = index - 1 if "tows_much" in token.groups else index  # 'in tow'
        if first != index and (first < 0 or "in" not in tokens[first].groups):
            continue
        if _is_load(token_at(tokens, first - 1)) or _heads_load(tokens, index):
            token.senses, token.groups, settled = {"vehicle": "trailer"}, NO_GROUPS, True
    if settled:
        scene.index_terms()


def _is_of_front(scene: Scene) -> bool:
    """'5,380 up front, 6,760 out back': of what has a front, where its rear is not told else."""
    tokens = scene.tokens
    if any("out_back" in t.groups and not _ends_there(tokens, at) for at, t in enumerate(tokens)):
        return False  # 'hay 5,380 up front, 6,760 out back in the barn'
    ends = {token.senses["end"] for token in tokens if "end" in token.senses}
    return ends == {"front"} and not any("axle" in token.senses for token in tokens)


def _tells_of_truck(scene: Scene) -> bool:
    """Whether a load of the truck is told: of an axle, of both ends, or of all of it."""
    tokens = scene.tokens
    loads = [at for at, token in enumerate(tokens) if _is_load(token)]
    beside = [
        token for at in loads for token in (*tokens[max(0, at - 2) : at], *tokens[at + 1 : at + 4])
    ]
    ends = {token.senses["end"] for token in beside if "end" in token.senses}
    if "out_back" in scene.groups:
        ends.add("rear")
    named = any("axle" in token.senses or names_truck(token) for token in beside)
    return len(loads) > 1 and (named or len(ends) > 1)


def _is_load(token: Token | None) -> bool:
    whole = token is not None and token.kind is NUMBER and token.decimals == 0
    return whole and token is not None and token.value >= LEAST_LOAD


def _ends_there(tokens: Sequence[Token], index: int) -> bool:
    """Whether nothing is named that it is behind of, but us or what was named before."""
    behind = token_at(tokens, index + 1)
    if behind is None or behind.kind is not WORD or "and" in behind.groups:
        return True
    return not behind.groups.isdisjoint(POINTING)


POINTING = frozenset(("it", "ours", "points_at_a_thing"))
"""Groups of words for the truck, behind 'behind'."""


def _heads_load(tokens: Sequence[Token], index: int) -> bool:
    """'and behind 9,240', 'behind that 9,240': the word first, and then its load."""
    before, behind = token_at(tokens, index - 1), token_at(tokens, index + 1)
    if before is None or (before.kind is WORD and "and" not in before.groups):
        return False
    if behind is not None and not behind.groups.isdisjoint(POINTING):
        behind = token_at(tokens, index + 2)
    return before.kind is not NUMBER and _is_load(behind)
