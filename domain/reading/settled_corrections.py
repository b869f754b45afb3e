"""Words that put something right beside some words, and are of something else beside others.

This file gives 'called', 'correct' and 'wait' the sense that they have beside their neighbours;
`settling` asks for it.
"""

from __future__ import annotations

from itertools import pairwise
from typing import TYPE_CHECKING

from domain.reading.tokens import NO_GROUPS, NUMBER, WORD

if TYPE_CHECKING:
    from domain.reading.scene import Scene


def settle_called(scene: Scene) -> None:
    """'stock trailer called Bandit': a name is given, and no figure was called wrongly."""
    for token, behind in pairwise(scene.tokens):
        named = behind.kind is WORD and not behind.senses and behind.raw[0].isupper()
        if named and "calls_it" in token.groups:
            token.senses = {key: said for key, said in token.senses.items() if key != "reported"}
    scene.index_terms()


def settle_bids(scene: Scene) -> None:
    """'correct the last weigh, steer 2,640': a verb that bids; 'that's correct' says it is so."""
    tokens = scene.tokens
    for index, (token, behind) in enumerate(pairwise(tokens)):
        bids = "changes_field" in token.groups and not token.senses
        if bids and not behind.groups.isdisjoint(BIDDEN):
            start, _ = scene.clause_of(index)
            if all("plain_before" in each.groups for each in tokens[start:index]):
                token.senses = {"correction": "amend"}
                token.groups |= {"opens_correction"}
    scene.index_terms()


BIDDEN = frozenset(("points_back", "our"))
"""Groups of words that lead to what is to be put right."""


def settle_weight(scene: Scene) -> None:
    """'the steer wait came out at 5,240': behind what bears a load it was heard for 'weight'."""
    tokens = scene.tokens
    for index in scene.by_class.get("correction", ()):
        token, behind = tokens[index], tokens[index + 1 : index + 2]
        borne = index and not BEARS.isdisjoint(tokens[index - 1].senses)
        said = behind and (behind[0].kind is NUMBER or "copula" in behind[0].senses.get("glue", ""))
        if "heard_for_weight" in token.groups and borne and said:
            token.senses, token.groups = {"glue": "copula"}, NO_GROUPS
    scene.index_terms()


BEARS = frozenset(("axle", "vehicle", "name", "whole"))
"""Classes of what bears a load on a scale."""
