"""Letters that stand for sides: 'Steer L 2,560 R 2,610', 'trailer lt 4,400 rt 4,450'.

This file decides when an L and an R are the left and the right, and no litre, no rear and no road:
where they stand by loads in pairs, or right beside what has two sides. So it does of 'rt', which is
also a road.
"""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING

from domain.reading.figures import LEAST_LOAD
from domain.reading.tokens import NO_GROUPS, NUMBER, Token

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
    wheels = scene.has("subject", "tyre") or scene.has("subject", "hub")
    found = {
        side: [
            index
            for index, token in enumerate(tokens[:-1])
            if token.text in scene.book.groups[group]
            and (_is_of_load(tokens, index + 1) or (wheels and _is_read(tokens, index + 1)))
        ]
        for side, group in (("left", "left_letter"), ("right", "right_letter"))
    }
    lefts, rights = found["left"], found["right"]
    if len(lefts) != len(rights) or not lefts:
        return
    before = tokens[max(0, lefts[0] - 2) : lefts[0]]  # 'steer: L 2,660 R 2,640'
    last = max(lefts[-1], rights[-1])
    beside = (*before, tokens[lefts[0] + 1], *tokens[last + 2 : last + 2 + FARTHEST])
    sided = wheels or not all(TWO_SIDED.isdisjoint(each.senses) for each in beside)
    if len(lefts) < LEAST_ALONE and not sided and not _make_one(tokens, lefts[0], rights[0]):
        return
    for side, indexes in found.items():
        for index in indexes:
            tokens[index].senses, tokens[index].groups = {"side": side}, NO_GROUPS
    scene.index_terms()


def settle_sides_in_turn(scene: Scene) -> None:
    """'L/R: steer 2,440/2,390': both sides of each place, where its two loads stand as a pair."""
    tokens = scene.tokens
    pairs = sum(
        tokens[at + 1].raw == "/" and load_follows(tokens, at) and load_follows(tokens, at + 2)
        for at in scene.numbers
        if at + 2 < len(tokens)
    )
    for token in tokens if pairs else ():
        if "left_then_right" in token.groups:
            token.senses = {"side": "left"}
    scene.index_terms()


def _is_of_load(tokens: Sequence[Token], index: int) -> bool:
    """Whether a load stands here, or behind the one word for what has the side."""
    if not TWO_SIDED.isdisjoint(tokens[index].senses):
        index += 1
    return index < len(tokens) and load_follows(tokens, index)


def _is_read(tokens: Sequence[Token], index: int) -> bool:
    """'tires L 50 R 49', 'L hub 131, R hub 177': a figure that a tyre or a hub shows."""
    index += "subject" in tokens[index].senses and index + 1 < len(tokens)
    token = tokens[index]
    return token.kind is NUMBER and LEAST_READ <= token.value <= MOST_READ


LEAST_READ = 20
"""Psi or degrees; less may be litres."""


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


def settle_short_right(scene: Scene) -> None:
    """'lft tire 32 psi rt 34': right behind what the left one showed it is no road."""
    tokens, settled = scene.tokens, False
    for index in range(2, len(tokens) - 1):
        if "short_right" not in tokens[index].groups or tokens[index + 1].kind is not NUMBER:
            continue
        read = tokens[index - 1].kind is NUMBER or not BESIDE.isdisjoint(tokens[index - 1].senses)
        lefts = any(each.senses.get("side") == "left" for each in tokens[:index])
        if read and lefts and tokens[index + 1].value <= MOST_READ:
            tokens[index].senses, settled = {"side": "right"}, True
    if settled:
        scene.index_terms()


BESIDE = frozenset(("unit", "glue"))
"""Classes of what stands between two readings."""

MOST_READ = 400
"""No gauge of a wheel shows more."""

ROUNDED, FARTHEST = 0.02, 3
"""How far two wheels are from their axle, and tokens to it: its unit and a bracket, 'on the'."""

TWO_SIDED = frozenset(("axle", "vehicle", "name", "end"))
"""Classes of term for what has two sides."""
