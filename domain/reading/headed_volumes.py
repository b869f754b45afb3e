"""The unit of volume that heads a figure: 'Litres: 88.20', 'GALLONS 28.412' on a receipt.

This file decides which bare figures are so much of what stands before them. A unit behind a figure
is read by `beside`, with everything else that stands there.
"""

from __future__ import annotations

from collections.abc import Sequence

from domain.reading.beside import PUMPED, own_unit
from domain.reading.dearest_fuel import dearest
from domain.reading.figures import VOLUME, token_at, unit_key
from domain.reading.fill_roles import PRICED
from domain.reading.scene import Scene
from domain.reading.tokens import MILLS, NO_GROUPS, Token


def head_volumes(scene: Scene) -> None:
    """Give each bare figure the unit of volume before it, unless the figure before has it."""
    tokens = scene.tokens
    taken = {figure.end for figure in scene.figures}
    for figure in scene.live:
        if figure.dimension is not None or not figure.start:
            continue
        end = figure.start
        while end > 1 and tokens[end - 1].raw in LINKS:
            end -= 1
        unit = unit_key(token_at(tokens, end - 1))
        if unit not in PUMPED or end in taken or not _is_heading(tokens, end - 1):
            continue
        priced = figure.token.decimals == MILLS and figure.value < dearest(scene.context.currency)
        if not priced:
            figure.unit, figure.dimension = own_unit(unit, scene.context), VOLUME


LINKS = ":=)"
"""Marks between a heading and its figure: 'Volume (L): 88.20'."""


def _is_heading(tokens: Sequence[Token], at: int) -> bool:
    """Whether a unit heads a figure: 'price per gallon 3.899', 'the litre 1.879' cost so much.

    A letter does only behind a word for volume: 'Vol L 88.20', and not 'l = 2 * i'.
    """
    before = token_at(tokens, at - 1)
    if before is not None and before.raw == "(":
        before = token_at(tokens, at - 2)
    groups = before.groups if before is not None else NO_GROUPS
    if len(tokens[at].raw) == 1:
        return "volume_word" in groups
    return groups.isdisjoint(OF_ONE) and not (before is not None and before.raw == "/")


OF_ONE = PRICED | {"article", "per_one", "each_one"}
"""Groups of words before a unit of which one costs so much."""
