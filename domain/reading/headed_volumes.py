"""The unit of volume that heads a figure: 'Litres: 88.20', 'GALLONS 28.412' on a receipt.

This file decides which bare figures are so much of what stands before them. A unit behind a figure
is read by `beside`, with everything else that stands there.
"""

from __future__ import annotations

from domain.reading.beside import PUMPED, dearest, own_unit
from domain.reading.figures import VOLUME, token_at, unit_key
from domain.reading.fill_roles import PRICED
from domain.reading.scene import Scene
from domain.reading.tokens import Token


def head_volumes(scene: Scene) -> None:
    """Give each bare figure the unit of volume before it, unless the figure before has it."""
    tokens = scene.tokens
    taken = {figure.end for figure in scene.figures}
    for figure in scene.live:
        if figure.dimension is not None or not figure.start:
            continue
        end = figure.start - 1 if tokens[figure.start - 1].raw in LINKS else figure.start
        unit = unit_key(token_at(tokens, end - 1))
        if unit not in PUMPED or end in taken or _is_of_one(token_at(tokens, end - 2)):
            continue
        priced = figure.token.decimals == MILLS and figure.value < dearest(scene.context.currency)
        if not priced:
            figure.unit, figure.dimension = own_unit(unit, scene.context), VOLUME


LINKS = ":="
"""Marks between a heading and its figure."""

MILLS = 3
"""Decimals of a price of fuel in the US."""


def _is_of_one(before: Token | None) -> bool:
    """'price per gallon 3.899', 'the litre 1.879': what one costs has the unit before it, too."""
    if before is None:
        return False
    return before.raw == "/" or not before.groups.isdisjoint(OF_ONE)


OF_ONE = PRICED | {"article", "per_one", "each_one"}
"""Groups of words before a unit of which one costs so much."""
