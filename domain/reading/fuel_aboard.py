"""How full the tank was when the rig stood on the scale: 'quarter tank', '3/4 tank', 'fuel: half'.

This file decides how much of the truck's fuel was aboard; a camper's tanks hold water.
"""

from __future__ import annotations

from collections.abc import Sequence
from itertools import pairwise, takewhile

from domain.reading.figures import DIMENSION, VOLUME
from domain.reading.fuel_words import CAMPERS_TANKS
from domain.reading.scene import Scene
from domain.reading.tokens import NUMBER, WORD, Token


def fuel_level(scene: Scene) -> float | None:
    """How full the tank was: 'quarter tank', '3/4 tank', 'tank at 60%', 'gauge on 3/4'."""
    for index, _, key in scene.find("level"):
        if _is_of_camper(scene, index):
            continue  # 'fresh tank full, grey empty'
        return float(key)
    if "full" in scene.by_class and "fuel" in scene.groups and _is_brimmed(scene):
        return 1.0
    if "fuel_in_tank" in scene.groups and "share_word" in scene.groups:
        share = _share_of_fuel(scene)
        if share is not None:
            return share
    if "tank" not in scene.by_class and scene.groups.isdisjoint(OF_FUEL):
        return None
    beside_fuel = [
        index
        for index, token in enumerate(scene.tokens)
        if not token.groups.isdisjoint(OF_FUEL)
        and any(each.decimals == -1 for each in _beside_fuel(scene, index))
    ]
    tanks = [at for at in scene.by_class.get("tank", ()) if not _is_of_camper(scene, at)]
    tanks += [
        at
        for at, (token, mark) in enumerate(pairwise(scene.tokens))
        if mark.raw == ":" and not token.groups.isdisjoint(OF_FUEL)  # 'fuel: half'
    ]
    for index in (*tanks, *beside_fuel):
        said = _said_share(scene, index)
        if said is not None:
            return said
        for other in (index - 1, index - 2, index + 1, index + 2, index - 3, index + 3):
            if not 0 <= other < len(scene.tokens):
                continue
            token = scene.tokens[other]
            if token.kind is NUMBER and token.decimals == -1:
                return token.value
            if token.kind is NUMBER and 0 < token.value <= 100:
                following = scene.tokens[other + 1] if other + 1 < len(scene.tokens) else None
                if following is not None and following.senses.get("unit") == "%":
                    return token.value / 100
    return None


def _said_share(scene: Scene, tank: int) -> float | None:
    """'tank about half', 'tank was roughly three quarters': so much of it is said behind it."""
    shares = scene.book.keys["part_of_one"]
    behind = scene.tokens[tank + 1 : tank + FARTHEST_FUEL]
    words = takewhile(lambda token: token.kind is WORD or token.raw == ":", behind)
    told = [each.text for each in words]
    found = (shares.get(each) for each in (*map(" ".join, pairwise(told)), *told))
    return next((float(each) for each in found if each), None)


def _is_of_camper(scene: Scene, tank: int) -> bool:
    return tank > 0 and not scene.tokens[tank - 1].groups.isdisjoint(CAMPERS_TANKS)


def _is_brimmed(scene: Scene) -> bool:
    """'8,460, brimmed w/ gas', 'tank topped off': filled to the last, and of a fuel or its tank.

    Not so where it was pumped at that stop: 'steer 4,380, then filled up with diesel 22.1 gal'.
    """
    if VOLUME in map(DIMENSION, scene.figures):
        return False
    for index, _, _ in scene.find("full", "true"):
        if index and "then" in scene.tokens[index - 1].groups:
            continue
        if index and "tank" in scene.tokens[index - 1].senses:
            return scene.stated(index) and not _is_of_camper(scene, index - 1)
        behind = scene.tokens[index + 1 : index + 3]
        led = len(behind) > 1 and not behind[0].groups.isdisjoint(FILLED_WITH)
        fuelled = led and "fuel" in behind[1].groups and behind[1].senses.get("product") != "def"
        if fuelled and scene.stated(index):
            return True
    return False


FILLED_WITH = frozenset(("with", "of", "tows"))
"""Groups of words behind 'brimmed': 'with', 'w/', 'of'."""


def _share_of_fuel(scene: Scene) -> float | None:
    """'40% fuel', 'fuel at 40%', '60% of our diesel': so much of it, told without the tank."""
    tokens = scene.tokens
    for index, _, _ in scene.find("unit", "%"):
        beside = (
            tokens[index + 1 : index + FARTHEST_FUEL],
            tokens[max(0, index - FARTHEST_FUEL) : max(0, index - 1)][::-1],
        )
        nearest = [next((t for t in side if _is_thing(t)), None) for side in beside]
        told = any(t and "fuel_in_tank" in t.groups and "tank" not in t.senses for t in nearest)
        if told and tokens[index - 1].kind is NUMBER and 0 < tokens[index - 1].value <= ALL_OF_IT:
            return tokens[index - 1].value / ALL_OF_IT
    return None


def _is_thing(token: Token) -> bool:
    """Whether a word is none of those between a share and what it is of: 'fuel is up 12%'."""
    return "glue" not in token.senses or "changes_to" in token.groups


FARTHEST_FUEL = 4
"""Tokens from '%' to the fuel, over 'of our' or 'is at'."""

ALL_OF_IT = 100


def _beside_fuel(scene: Scene, index: int) -> Sequence[Token]:
    """Where a fraction is how much fuel there is: behind, and also before 'on the gauge'."""
    shown = "shows_fuel" in scene.tokens[index].groups
    return scene.tokens[max(0, index - 3 * shown) : index + 3 + shown]


OF_FUEL = frozenset(("fuel", "shows_fuel"))
"""Groups of words for the fuel and for what shows how much of it is left."""
