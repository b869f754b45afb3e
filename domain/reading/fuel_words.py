"""Words of a fill that mean what stands beside them: 'on the dash', 'a full tank of gas'.

This file decides, before figures are looked for, whether the dash shows miles or what the truck
burns, whether a full tank was pumped or is how a rig stood on the scale, where 'a gallon' is one
that was bought, and where a 'can' is what fuel is carried in.
"""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING

from domain.reading.figures import DIMENSION_OF, ECONOMY, token_at
from domain.reading.tokens import NO_GROUPS, NUMBER, UNKNOWN, WORD, Token, make_number, make_token
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
    watery = not CAMPERS_TANKS.isdisjoint(scene.groups)
    for index in scene.by_class["level"]:
        token = scene.tokens[index]
        fuel, groups = scene.book.known.get(token.text.rpartition(" ")[2], UNKNOWN)
        behind = token_at(scene.tokens, index + 1)
        sized = behind is not None and "was" in behind.groups  # 'a full tank of gas is 36 gal'
        tanks = "tank_full" in token.groups and not watery  # '31 gal, both tanks full'
        if sized or not ("product" in fuel or "fuel" in groups or tanks):
            continue
        product = {"product": fuel["product"]} if "product" in fuel else {}
        token.senses = product | ({"full": "true"} if token.senses["level"] == "1" else {})
        settled = True
    if settled:
        scene.index_terms()


CAMPERS_TANKS = frozenset(("water", "water_tank", "waste_tank"))
"""Groups of words for what a camper carries in its tanks and lets out."""


def settle_one_of(scene: Scene) -> None:
    """'24.6 gallons and a gallon of def', 'poured in half a gallon of def': one, or half of it.

    Of a fuel that the truck takes, and where it was poured: else it is a price, or the mower's.
    """
    tokens = scene.tokens
    taken = {"def", scene.context.fuel}
    for index in reversed(scene.by_class["per_volume"]):
        token, behind = tokens[index], tokens[index + 1 : index + 3]
        if len(behind) < 2 or "of" not in behind[0].groups or not _is_one(scene, token):
            continue
        if behind[1].senses.get("product") not in taken or not _is_poured(scene, index):
            continue
        half = tokens[index - 1] if index and "half_more" in tokens[index - 1].groups else None
        value, decimals = (0.5, 1) if half else (1.0, 0)
        start = (half or token).start
        one = make_number(token.raw, token.raw, start, token.end, value, decimals)
        unit = make_token(WORD, token.text.rpartition(" ")[2], token.raw, token.end, token.end)
        unit.senses, unit.groups = {"unit": token.senses["per_volume"]}, NO_GROUPS
        tokens[index - bool(half) : index + 1] = [one, unit]
    scene.index_terms()


def _is_one(scene: Scene, token: Token) -> bool:
    """'a gallon', and not 'per gallon'."""
    return token.text.partition(" ")[0] in scene.book.groups["a_thing"]


def _is_poured(scene: Scene, index: int) -> bool:
    """Whether the sentence tells before it that something was poured, or a volume beside it."""
    before = scene.tokens[index - 1] if index else None
    if before is not None and before.kind is NUMBER:
        return False
    start, end = scene.sentence_of(index)
    poured = any(start <= at < index for at in scene.by_class.get("fuel_cue", ()))
    beside = any(start <= at < end for at in scene.by_class.get("unit", ()))
    return poured or beside


def settle_cans(scene: Scene) -> None:
    """'the gas can got 5', 'in the jerry can': a can, where 'gas can get dear' has a verb."""
    tokens, settled = scene.tokens, False
    for index in scene.by_class["talk"]:
        token, before = tokens[index], token_at(tokens, index - 1)
        if "container" not in token.groups or before is None:
            continue
        behind = token_at(tokens, index + 1)
        fuelled = "product" in before.senses or not before.groups.isdisjoint(BEFORE_CAN)
        poured = "unit" in before.senses or not before.groups.isdisjoint(A_CAN)
        if (fuelled and _ends_noun(behind)) or (poured and _leads_off(behind)):
            token.senses, settled = {}, True
    if settled:
        scene.index_terms()


BEFORE_CAN = frozenset(("container", "appliance", "carried_thing"))
"""Groups of words that say what sort of can it is."""


def _leads_off(behind: Token | None) -> bool:
    """'poured a 5 gal can in', 'in the can and 24.1 in the truck'."""
    if behind is None or behind.kind is not WORD:
        return True
    return not behind.groups.isdisjoint(POURED)


A_CAN = frozenset(("article", "into_the"))
"""Groups of words right before a can, and before no verb."""

POURED = frozenset(("and", "into", "into_the", "of"))
"""Groups of words behind a can that something is poured from or into, and behind no verb."""


def _ends_noun(behind: Token | None) -> bool:
    """Whether no verb stands behind a noun but one in the past, which no 'can' has behind it."""
    if behind is None or behind.kind is not WORD:
        return True
    return not behind.groups.isdisjoint(BEHIND_CAN)


BEHIND_CAN = frozenset(("and", "judges", "somebody_does", "was"))
"""Groups of words behind a noun that no verb in the infinitive is in."""
