"""What is said once beside two fills: a reading, that both were filled up, a sum of both.

This file decides which of two fills a reading or the words for full are of, where they are told
but once, and that what was paid for both together is the cost of neither.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from typing import Any

from domain.entries import Fill
from domain.reading.figures import VOLUME, Figure
from domain.reading.fill_entries import is_total
from domain.reading.fill_roles import COST_ROLE, ODOMETER_ROLE, VOLUME_ROLE, Draft, price_band
from domain.reading.scene import Scene
from domain.reading.tokens import Token


def told_of_both(scene: Scene, drafts: Sequence[Draft], fills: list[Fill]) -> list[Fill]:
    """Two fills, each with what is said of it; `drafts` are those that they were read from."""
    if len(drafts) == len(fills):
        _read_behind_both(scene, drafts, fills)
        _paid_for_both(scene, drafts, fills)
    tanks = len(drafts) == len(fills) and all(draft.of_tank for draft in drafts)
    return _said_of_both(scene, fills, tanks=tanks)


def _paid_for_both(scene: Scene, drafts: Sequence[Draft], fills: list[Fill]) -> None:
    """'18 gal diesel and 2.5 gal def, $89.20 total': the sum of both is what neither cost."""
    at = next((i for i, fill in enumerate(fills) if fill.product == "def"), None)
    volumes = [draft.roles.get(VOLUME_ROLE) for draft in drafts]
    if at is None or fills[1 - at].product == "def":
        return
    for number, (draft, fill) in enumerate(zip(drafts, fills, strict=True)):
        cost, own = draft.roles.get(COST_ROLE), volumes[number]
        first, second = volumes
        if cost is None or own is None or first is None or second is None:
            continue
        if fill.cost is None:
            continue
        behind = cost.start > max(first.start, second.start)
        before = cost.start < min(first.start, second.start) and _is_sum(scene, cost)
        if (behind or before) and _is_of_both(scene, cost, own, first.value + second.value, fill):
            kept = tuple(pair for pair in fill.words if pair[0] != COST_ROLE)
            fills[number] = replace(fill, cost=None, words=kept)


def _is_of_both(scene: Scene, cost: Figure, own: Figure, volume: float, fill: Fill) -> bool:
    """Whether so much was paid for the whole volume, and not for a fill's own.

    It is by what a unit costs, or where it could be either by a word for a sum.
    """
    low, high = price_band(scene.context, own.unit)
    if not volume or not own.value or not low <= cost.value / volume <= high:
        return False
    if fill.unit_price is not None and is_total(cost.value, own.value * fill.unit_price.value):
        return False
    return cost.value / own.value > high or _is_sum(scene, cost)


def _is_sum(scene: Scene, cost: Figure) -> bool:
    """Whether a word for a sum stands beside an amount: '$89.20 total', '89.20 for both'."""
    start, end = scene.clause_of(cost.start)
    beside = scene.tokens[max(start, cost.start - NEAR) : min(end, cost.end + NEAR)]
    return any(
        token.senses.get("whole") == "gross" or "together" in token.groups for token in beside
    ) or bool(scene.phrase_said("for_both", start, end))


NEAR = 2
"""Tokens from an amount to the word that makes it a sum: 'total was $89.20'."""


def _read_behind_both(scene: Scene, drafts: Sequence[Draft], fills: list[Fill]) -> None:
    """'30 gal diesel and 2.5 gal def, odo 51,402': a reading said once of both is the fuel's.

    It is the exhaust fluid's only where that stands in a sentence of its own.
    """
    at = next((i for i, fill in enumerate(fills) if fill.product == "def"), None)
    if at is None:
        return
    fluid, fuel = fills[at], fills[1 - at]
    if fluid.odometer is None or fuel.odometer is not None:
        return
    volumes = [draft.roles.get(VOLUME_ROLE) for draft in drafts]
    first, second = volumes
    if first is None or second is None:
        return
    between = scene.tokens[first.end : second.start]
    if any(token.ends_sentence or _begins_next(token) for token in between):
        return
    words = tuple(pair for pair in fluid.words if pair[0] == ODOMETER_ROLE)
    kept = tuple(pair for pair in fluid.words if pair[0] != ODOMETER_ROLE)
    fills[1 - at] = replace(fuel, odometer=fluid.odometer, words=(*fuel.words, *words))
    fills[at] = replace(fluid, odometer=None, words=kept)


def _said_of_both(scene: Scene, fills: list[Fill], *, tanks: bool) -> list[Fill]:
    """'diesel 29.3 gal, def 2.5 gal, odo 48,402 for both', 'both full': said once, and of each.

    So is a reading that is told once beside several `tanks`, and that they were filled.
    """
    told: dict[str, Any] = {}
    read = [fill for fill in fills if fill.odometer is not None]
    if len(read) == 1 and (tanks or scene.phrase_said("for_both") is not None):
        told["odometer"] = read[0].odometer
    if tanks and any(fill.full for fill in fills):
        told["full"] = True
    elif _told_apart(scene):
        fills = _of_the_fuel(fills)
    if any(
        index and "pair" in scene.tokens[index - 1].groups and key == "true"
        for index, _, key in scene.find("full")
    ):
        told["full"] = True
    if not told:
        return fills
    return [
        replace(
            fill, **{field: each for field, each in told.items() if getattr(fill, field) is None}
        )
        for fill in fills
    ]


def _told_apart(scene: Scene) -> bool:
    """'Full: yes' on a line of its own: whether no volume is beside what says so."""
    spans = [scene.sentence_of(index) for index, _, _ in scene.find("full")]
    volumes = [figure.start for figure in scene.figures if figure.dimension == VOLUME]
    return bool(spans) and not any(
        start <= volume < end for start, end in spans for volume in volumes
    )


def _of_the_fuel(fills: list[Fill]) -> list[Fill]:
    """What is said of being full beside fuel and exhaust fluid is said of the fuel's tank."""
    said = [fill.full for fill in fills if fill.full is not None]
    if len(said) != 1 or "def" not in [fill.product for fill in fills]:
        return fills
    return [replace(fill, full=None if fill.product == "def" else said[0]) for fill in fills]


def _begins_next(token: Token) -> bool:
    """'then'; 'and' and 'plus' only join."""
    return "then" in token.groups and "and" not in token.groups
