"""What fuel came to, told without how much of it: '$118.53 diesel', 'spent 92.14 on fuel'.

This file decides that a message is of the money and the fuel and of nothing else, so that it is
a fill, or that the money went in at an odometer's reading. What stands beside a volume is decided
in `fill_money`.
"""

from __future__ import annotations

from collections.abc import Sequence

from domain.context import VOLUME_UNIT
from domain.reading.figures import MONEY, Figure, follows_odometer
from domain.reading.fill_roles import LARGEST_TANK
from domain.reading.scene import Scene
from domain.reading.tokens import CENTS, MARK

LEAST, MOST = 15, 600
"""Dollars, pounds or euros that a stop for fuel costs; less is what a gallon does."""


def pays_alone(scene: Scene, figure: Figure) -> bool:
    """'diesel 118.53': with cents, and more than any volume that the tank takes."""
    if figure.token.decimals != CENTS or figure.value < LEAST:
        return False
    unit = VOLUME_UNIT[scene.context.units]
    tank = scene.context.tank.amount(unit) if scene.context.tank else LARGEST_TANK[unit]
    return figure.value > tank * SLACK and paid_for_fuel(scene, figure)


SLACK = 1.2
"""What a tank takes beyond its size, at most."""


def put_in_at(scene: Scene, own: Sequence[Figure]) -> bool:
    """'$50 in at 51,300', 'chucked 60 bucks in, 51,300': nothing but a tank has a reading there."""
    cost, read = own
    if cost.dimension != MONEY or read.dimension is not None or not read.whole:
        return False
    between = scene.tokens[cost.end : read.start]
    return (
        bool(between)
        and "in" in between[0].groups
        and all(each.kind is MARK or "at_alone" in each.groups for each in between[1:])
        and follows_odometer(read.value, scene.context)
        and not scene.unknown_words()
    )


def puts_money_in(scene: Scene, own: Sequence[Figure]) -> bool:
    """'stuck 25 quid in, not full': the money went into what could be filled."""
    if "full" not in scene.by_class or len(own) != 1 or own[0].dimension != MONEY:
        return False
    before = scene.tokens[own[0].start - 1] if own[0].start else None
    behind = scene.tokens[own[0].end : own[0].end + 1]
    put = before is not None and "putting" in before.groups
    return put and any("in" in token.groups for token in behind)


def paid_for_fuel(scene: Scene, cost: Figure) -> bool:
    """Whether nothing is told but that so much was paid for the truck's fuel."""
    if len(scene.live) != 1 or not LEAST <= cost.value <= MOST:
        return False
    if cost.dimension != MONEY and cost.token.decimals != CENTS:
        return False
    fuelled = False
    for index, token in enumerate(scene.tokens):
        if cost.start <= index < cost.end or (token.kind is MARK and token.raw != "?"):
            continue
        product = token.senses.get("product", "").split(" ")[0]
        fuel = (
            product in (scene.context.fuel, "diesel") if product else "names_fuel" in token.groups
        )
        fuelled = fuelled or fuel
        told = not BESIDE.isdisjoint(token.senses)
        if fuel or told or "spends" in token.groups:
            continue
        if not (index in scene.unknown and names_where(scene, index)):
            return False
    return fuelled


BESIDE = frozenset(("glue", "time", "full"))
"""Classes of what may be told beside so much money and the fuel."""


def names_where(scene: Scene, index: int) -> bool:
    """'at Tamarack Corner': whether an unknown word is of the place where it was paid."""
    start = index
    while start - 1 in scene.unknown and index - start < LONGEST_NAME:
        start -= 1
    lead = scene.tokens[start - 1] if start else None
    if lead is None or "leads_to_place" not in lead.groups:
        return False
    return scene.tokens[index].raw[0].isupper() or "at" in lead.groups


LONGEST_NAME = 3
"""Words of a place."""
