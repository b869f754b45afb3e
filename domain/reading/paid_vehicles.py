"""What a truck or a trailer was bought or sold for: 'the truck cost 12,400 and the camper 9,900'.

This file decides by the words beside a figure that money was paid for a vehicle, so that the other
vehicles' figures of the message are prices too. A message that speaks of a scale tells what it
showed.
"""

from __future__ import annotations

from domain.reading.claimed_prices import A_PRICE
from domain.reading.figures import LEAST_LOAD, MASS, Figure
from domain.reading.label import Label
from domain.reading.scene import Scene
from domain.reading.tokens import MARK, WORD, Token

PAYS = frozenset(("costs_one", "trades"))
"""Groups of words of which one stands where a vehicle was paid for: 'cost', 'bought'."""


def leave_paid_vehicles(scene: Scene) -> None:
    """Leave aside the figures of vehicles where one of them was paid for."""
    if "weigh_cue" in scene.by_class or MASS in (each.dimension for each in scene.figures):
        return
    if not any(_is_paid_for_one(scene, figure) for figure in scene.figures):
        return
    for figure in scene.live:
        label = figure.label
        named = label is None or (isinstance(label, Label) and label.only_vehicle)
        if figure.dimension is None and figure.value >= LEAST_LOAD and named:
            scene.claim(figure, A_PRICE)


def _is_paid_for_one(scene: Scene, figure: Figure) -> bool:
    """'the truck cost 12,400', 'paid 12,400 for the truck', 'bought the truck for 12,400'."""
    if figure.dimension is not None or figure.value < LEAST_LOAD or not figure.start:
        return False
    tokens = scene.tokens
    before, ahead = tokens[figure.start - 1], tokens[: figure.start - 1]
    if "costs_one" in before.groups:
        while ahead and "glue" in ahead[-1].senses and not _is_vehicle(ahead[-1]):
            ahead = ahead[:-1]  # 'the truck only cost 12,400'
        return (bool(ahead) and _is_vehicle(ahead[-1])) or _for_vehicle(tokens, figure.end)
    if "pays_for" not in before.groups or not ahead or not _is_vehicle(ahead[-1]):
        return False
    start, _ = scene.clause_of(figure.start)
    return any("trades" in token.groups for token in tokens[start : figure.start])


def _for_vehicle(tokens: list[Token], index: int) -> bool:
    """'for the truck', and not 'for the truck wash'."""
    behind = tokens[index : index + 4]
    if not behind or "pays_for" not in behind[0].groups:
        return False
    at = next((at for at, token in enumerate(behind[1:], 1) if "article" not in token.groups), 0)
    if not at or not _is_vehicle(behind[at]):
        return False
    further = tokens[index + at + 1 : index + at + 2]
    return not any(token.kind is WORD and not token.senses for token in further)


def _is_vehicle(token: Token) -> bool:
    return token.kind is not MARK and not VEHICLES.isdisjoint(token.senses)


VEHICLES = frozenset(("vehicle", "name"))
"""Classes of term for what is driven or towed."""
