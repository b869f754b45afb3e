"""Letters that stand for sides: 'Steer L 2,560 R 2,610'.

This file decides when an L and an R are the left and the right, and no litre and no rear: where
they stand by loads in pairs, or right behind what has two sides.
"""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING

from domain.reading.figures import LEAST_LOAD
from domain.reading.tokens import NUMBER, Token

if TYPE_CHECKING:
    from domain.reading.scene import Scene

LEAST_ALONE = 2
"""Pairs of letters that need nothing with sides before them."""


def load_follows(tokens: Sequence[Token], index: int) -> bool:
    """Whether a figure the size of a load stands here, or behind a colon."""
    if tokens[index].raw in ":=-" and index + 1 < len(tokens):
        index += 1
    return tokens[index].kind is NUMBER and tokens[index].value >= LEAST_LOAD


def read_side_letters(scene: Scene) -> None:
    """Make letters sides where they stand in pairs, line by line, or behind what has sides."""
    tokens = scene.tokens
    found = {
        side: [
            index
            for index, token in enumerate(tokens[:-1])
            if token.text in scene.book.groups[group] and load_follows(tokens, index + 1)
        ]
        for side, group in (("left", "left_letter"), ("right", "right_letter"))
    }
    lefts, rights = found["left"], found["right"]
    if len(lefts) != len(rights) or not lefts:
        return
    before = tokens[max(0, lefts[0] - 2) : lefts[0]]  # 'steer: L 2,660 R 2,640'
    alone = len(lefts) < LEAST_ALONE and all(TWO_SIDED.isdisjoint(each.senses) for each in before)
    if alone and not _make_one(tokens, lefts[0], rights[0]):
        return
    for side, indexes in found.items():
        for index in indexes:
            tokens[index].senses = {"side": side}
    scene.index_terms()


def _make_one(tokens: Sequence[Token], left: int, right: int) -> bool:
    """'front 5,180 (L 2,610 R 2,570)': two wheels that make the load told right before them."""
    first = min(left, right)
    wheels = [
        next(token.value for token in tokens[at + 1 :] if token.kind is NUMBER)
        for at in (left, right)
    ]
    return any(
        token.kind is NUMBER and abs(token.value - sum(wheels)) <= ROUNDED * token.value
        for token in tokens[max(0, first - FARTHEST) : first]
    )


ROUNDED, FARTHEST = 0.02, 3
"""How far two wheels are from their axle, and tokens back to it: its unit and a bracket."""

TWO_SIDED = frozenset(("axle", "vehicle", "name"))
"""Classes of term for what has two sides."""
