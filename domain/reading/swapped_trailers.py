"""One trailer put on in the place of another, told in one breath."""

from __future__ import annotations

from itertools import pairwise

from domain.entries import Hitch
from domain.reading.scene import Scene

NEAR_SWAP = 3
"""Tokens between 'swapped' and what came off: 'the old'."""


def swapped(scene: Scene) -> list[Hitch]:
    """'swapped the camper for the flatdeck': one came off, and the one behind is on now."""
    if "swaps" not in scene.groups:
        return []
    names = [(at, key.partition(":")) for at, _, key in scene.find("name")]
    trailers = [(at, name) for at, (kind, _, name) in names if kind == "trailer"]
    for (first, one), (second, other) in pairwise(trailers):
        before = scene.tokens[max(0, first - NEAR_SWAP) : first]
        between = scene.tokens[first + 1 : second]
        told = any("swaps" in token.groups for token in before) and scene.stated(first)
        if told and one != other and any("swapped_for" in token.groups for token in between):
            return [
                Hitch(action="unhitched", trailer=one),
                Hitch(action="hitched", trailer=other),
            ]
    return []
