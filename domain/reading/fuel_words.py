"""Words of a fill that mean what stands beside them: 'on the dash', 'a full tank of gas'.

This file decides, before figures are looked for, whether the dash shows miles or what the truck
burns, and whether a full tank was pumped or is how a rig stood on the scale.
"""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING

from domain.reading.figures import DIMENSION_OF, ECONOMY, token_at
from domain.reading.tokens import NUMBER, UNKNOWN, Token
from domain.reading.yes_and_no import tells_volume

if TYPE_CHECKING:
    from domain.reading.scene import Scene

MOST_BURNED = 60
"""Miles to the gallon or litres to the hundred kilometres: an odometer shows more."""

ON_SCALE = frozenset(("weigh_cue", "axle", "whole", "ticket"))
"""Classes of term beside which a full tank is how the rig stood."""


def settle_dash(scene: Scene) -> None:
    """'16.2 L/100 on the dash', 'on the dash 14.1': what is burned, and no odometer."""
    tokens, settled = scene.tokens, False
    for index in scene.by_class["odometer"]:
        if "on_the_dash" not in tokens[index].groups:
            continue
        if _burned(tokens, index - 1, -1) or _burned(tokens, index + 1, 1):
            tokens[index].senses, settled = {"dash": "economy"}, True
    if settled:
        scene.index_terms()


def _burned(tokens: Sequence[Token], index: int, step: int) -> bool:
    """Whether what stands there is a figure of what is burned: '16.2 L/100', or a small one."""
    pair = [token for token in (token_at(tokens, index), token_at(tokens, index + step)) if token]
    number = next((token for token in pair if token.kind is NUMBER), None)
    units = [token.senses["unit"] for token in pair if "unit" in token.senses]
    if number is None or (number is not pair[0] and not units):
        return False
    if units:
        return DIMENSION_OF.get(units[0]) == ECONOMY
    return number.value <= MOST_BURNED


def settle_tankful(scene: Scene) -> None:
    """'full tank of gas, 22.8 gallons': what was pumped, and of what."""
    if not ON_SCALE.isdisjoint(scene.by_class) or not tells_volume(scene.tokens):
        return
    settled = False
    for index in scene.by_class["level"]:
        token = scene.tokens[index]
        fuel, groups = scene.book.known.get(token.text.rpartition(" ")[2], UNKNOWN)
        behind = token_at(scene.tokens, index + 1)
        sized = behind is not None and "was" in behind.groups  # 'a full tank of gas is 36 gal'
        if sized or not ("product" in fuel or "fuel" in groups):
            continue
        product = {"product": fuel["product"]} if "product" in fuel else {}
        token.senses = product | ({"full": "true"} if token.senses["level"] == "1" else {})
        settled = True
    if settled:
        scene.index_terms()
