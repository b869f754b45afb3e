"""Whether a tank that is told holds exhaust fluid: 'tank 34 gal diesel, DEF tank 7 gal'.

This file decides which of several tanks is the fluid's, by what is named in the figure's own part
of the message, and that two tanks with their sizes in turn are told and not filled. That a size is
told at all is else decided in `tank_sizes`.
"""

from __future__ import annotations

from collections.abc import Mapping

from domain.reading.figures import VOLUME, Figure
from domain.reading.scene import Scene
from domain.reading.tank_sizes import TANK_FILLED, is_pumped, says_tank, tanks_named
from domain.reading.tokens import MARK, WORD, Token

FLUID = "def"
"""The product of the phrasebook that a truck's exhaust is treated with."""


def holds_fluid(scene: Scene, size: Figure) -> bool:
    """Whether the fluid is named between the figure before and the next, in the size's clause.

    Behind a tank that is named before its size stands what is of the next: 'fuel tank 34 gal def
    tank 6 gal'.
    """
    start, end = scene.clause_of(size.start)
    for figure in scene.figures:
        if figure.end <= size.start:
            start = max(start, figure.end)
        elif figure.start >= size.end:
            end = min(end, figure.start)
    if any(says_tank(scene, token) for token in scene.tokens[start : size.start]):
        end = size.start
    return any(start <= index < end for index, _, _ in scene.find("product", FLUID))


def is_fluid_tank(scene: Scene, size: Figure) -> bool:
    """'fuel tank 34 gal, def tank 7 gal': told beside a limit, and no fluid that was bought."""
    start, end = scene.clause_of(size.start)
    filled = any(not TANK_FILLED.isdisjoint(token.senses) for token in scene.tokens[start:end])
    named = not filled and any(start <= at < end for at in tanks_named(scene))
    listed = any(label.rating is not None and label.bound is not None for label in scene.labels)
    return named and listed and holds_fluid(scene, size) and not is_pumped(scene)


def tanks_in_turn(scene: Scene) -> Mapping[int, tuple[str, str]]:
    """'34 gal fuel tank 6 gal def tank', 'def tank 5 fuel tank 36': the rating of each size.

    They are keyed by where the figure starts. There are none where more is told, or where what is
    named does not stand on the same side of both.
    """
    sizes, tokens = scene.live, scene.tokens
    if len(sizes) != PAIR or scene.unknown or not TANK_FILLED.isdisjoint(scene.by_class):
        return {}
    tanks = [
        at for at, token in enumerate(tokens) if token.kind is WORD and says_tank(scene, token)
    ]
    if len(tanks) != PAIR or not all(map(_may_be_size, sizes)) or is_pumped(scene):
        return {}
    if tanks[0] < sizes[0].start and sizes[0].end <= tanks[1] < sizes[1].start:
        parts = [(0, sizes[0].start), (sizes[0].end, sizes[1].start)]
    elif sizes[0].end <= tanks[0] < sizes[1].start and sizes[1].end <= tanks[1]:
        parts = [(sizes[0].end, sizes[1].start), (sizes[1].end, len(tokens))]
    else:
        return {}
    fluids = [at for at, _, _ in scene.find("product", FLUID)]
    fluid = [any(start <= at < end for at in fluids) for start, end in parts]
    if fluid[0] == fluid[1] or not all(
        _is_plain(tokens[at]) for part in parts for at in range(*part)
    ):
        return {}
    names = ["def_tank" if its else "tank" for its in fluid]
    return {size.start: ("truck", name) for size, name in zip(sizes, names, strict=True)}


PAIR = 2
"""Tanks of a truck: its fuel's and its fluid's."""


def _may_be_size(figure: Figure) -> bool:
    return figure.dimension in (None, VOLUME) and figure.role is None and figure.value * 2 % 1 == 0


def _is_plain(token: Token) -> bool:
    """Whether a word beside two sizes is of the tanks, or says nothing: 'and', 'is', 'holds'."""
    if token.kind is MARK:
        return token.raw in ",:-&"
    return not OF_TANKS.isdisjoint(token.senses) or "holds" in token.groups


OF_TANKS = frozenset(("glue", "product", "tank", "rating", "unit", "rating_cue"))
"""Classes of term in which two tanks and their sizes are told."""
