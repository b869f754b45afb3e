"""A fuel tank's size, told and not filled.

This file decides whether the volume of a message is what a tank holds: '36 gallon tank', 'the
tank on Juniper holds 36'. A fish tank's is nobody's business.
"""

from __future__ import annotations

from domain.reading.figures import VOLUME
from domain.reading.scene import Scene
from domain.reading.tokens import WORD, Token

TANK_FILLED = frozenset(("fuel_cue", "full", "odometer"))
"""Classes of term beside which a volume was put into a tank, and is not its size."""


def is_tank_size(scene: Scene) -> bool:
    """'36 gallon tank', 'tank holds 36 gallons': a size, not a fill."""
    if not TANK_FILLED.isdisjoint(scene.by_class):
        return False
    volumes = [figure for figure in scene.figures if figure.dimension == VOLUME]
    if not volumes or any(label.compound for label in scene.labels) or _compound_tank(scene):
        return False
    for figure in volumes:
        behind = scene.tokens[figure.end : figure.end + 2]
        if behind and "product" in behind[0].senses:
            behind = behind[1:]  # '36 gallon diesel tank'
        if behind and "tank" in behind[0].senses:
            return True
        for index in range(max(0, figure.start - 2), figure.start):
            if "tank" in scene.tokens[index].senses and scene.has("rating"):
                return True
            if "tank" in scene.tokens[index].groups:
                return True
        if figure.start and "holds" in scene.tokens[figure.start - 1].groups:
            start, _ = scene.clause_of(figure.start)
            if any(_is_tank(token) for token in scene.tokens[start : figure.start]):
                return True  # 'the fuel tank on Moss holds 117 L'
    return False


def _is_tank(token: Token) -> bool:
    return "tank" in token.senses or token.senses.get("rating") == "tank"


def _compound_tank(scene: Scene) -> bool:
    """'fish tank': an unknown noun before it makes it no fuel tank."""
    for index, token in enumerate(scene.tokens):
        if index and not scene.book.groups["tank"].isdisjoint(token.text.split()):
            before = scene.tokens[index - 1]
            if before.kind is WORD and not before.senses and before.raw.islower():
                return True
    return False
