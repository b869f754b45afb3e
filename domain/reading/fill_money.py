"""Which figures of a message are the price and the total of its fuel.

This file decides between several: a price that was paid and one that another station asks, the
fuel's line of a receipt and its sum, a sum of which a part was for fuel; and whether one amount
is a price or a total.
"""

from __future__ import annotations

from collections.abc import Sequence

from domain.context import Context
from domain.reading.figures import MONEY, PRICE, Figure
from domain.reading.fill_entries import is_total
from domain.reading.fill_roles import COST_ROLE, PRICE_ROLE, VOLUME_ROLE, price_band
from domain.reading.label import Label
from domain.reading.scene import Scene

MOST_LINKING = 4
"""Tokens from an amount to the fuel that it was for: '119 of that was for fuel'."""


def settle_money(scene: Scene, roles: dict[str, Figure], own: Sequence[Figure]) -> None:
    """Put the price and the total of the fuel in their roles, where several could be."""
    if "product" in scene.by_class or "fuel" in scene.groups:
        volume = roles.get(VOLUME_ROLE)
        for_fuel = [each for each in own if each is not volume and _is_for_fuel(scene, each)]
        if len(for_fuel) == 1 and (COST_ROLE in roles or _is_priced(scene, roles, for_fuel[0])):
            roles[COST_ROLE] = for_fuel[0]
    if PRICE_ROLE in roles and len(own) > 1:
        pays = "pays" in scene.groups
        prices = [
            figure
            for figure in own
            if figure.dimension == PRICE or (pays and _is_paid_price(scene, figure, roles))
        ]
        if len(prices) > 1 and roles[PRICE_ROLE] in prices:
            roles[PRICE_ROLE] = _paid_price(scene, prices, roles)
    _settle_total(scene.context, roles, own)


def _is_for_fuel(scene: Scene, figure: Figure) -> bool:
    """'119 for fuel', '119 of that was diesel'."""
    if figure.dimension not in (None, MONEY) or figure.token.decimals not in (0, 2):
        return False
    if isinstance(figure.label, Label) and figure.label.places and figure.label.whole != "gross":
        return False
    linked = False
    for token in scene.tokens[figure.end : figure.end + MOST_LINKING]:
        if "product" in token.senses or "fuel" in token.groups:
            return linked
        if "glue" not in token.senses:
            return False
        linked = linked or not token.groups.isdisjoint(LINKING)
    return False


def _is_priced(scene: Scene, roles: dict[str, Figure], money: Figure) -> bool:
    """'so 124 in diesel, 31 gal': an amount that makes a price which fuel has."""
    volume = roles.get(VOLUME_ROLE)
    if volume is None or volume is money or not volume.value:
        return False
    low, high = price_band(scene.context, volume.unit)
    return low <= money.value / volume.value <= high


LINKING = frozenset(("for", "was", "worth_of"))
"""Groups of words between an amount and what it was spent on."""


def _is_paid_price(scene: Scene, figure: Figure, roles: dict[str, Figure]) -> bool:
    """'paid 3.75, 30 gal' beside a price: too little for the whole, and a price for each."""
    volume = roles.get(VOLUME_ROLE)
    if volume is None or PRICE_ROLE not in roles or figure.dimension not in (None, MONEY):
        return False
    low, high = price_band(scene.context, volume.unit)
    pumped = figure.token.decimals in (2, 3) and low <= figure.value <= high
    before = scene.tokens[figure.start - 1] if figure.start else None
    paid = before is not None and "pays" in before.groups
    return pumped and paid and figure.value < low * volume.value


def _paid_price(scene: Scene, prices: Sequence[Figure], roles: dict[str, Figure]) -> Figure:
    """The price that makes the total, else the one that was paid and not merely seen."""
    volume, cost = roles.get(VOLUME_ROLE), roles.get(COST_ROLE)
    if volume is not None and cost is not None:
        fitting = [each for each in prices if is_total(cost.value, volume.value * each.value)]
        if fitting:
            return fitting[0]
    worth = [_paid_here(scene, each) for each in prices]
    best = max(worth)
    return prices[worth.index(best)] if worth.count(best) == 1 else roles[PRICE_ROLE]


def _paid_here(scene: Scene, price: Figure) -> int:
    """How surely a price was paid: 'paid 3.95', and not '4.19 across the street'."""
    start, end = scene.clause_of(price.start)
    ahead = scene.tokens[start : price.start]
    paid = any("pays" in token.groups or "fuel_cue" in token.senses for token in ahead)
    return paid - bool(scene.phrase_said("elsewhere", start, end))


def _settle_total(context: Context, roles: dict[str, Figure], own: Sequence[Figure]) -> None:
    """A receipt of fuel and a sandwich: a price and a total that the volume makes are the fuel's.

    A price that is said stands where a total fits it; else one pair that fits to the cent.
    """
    volume = roles.get(VOLUME_ROLE)
    if volume is None:
        return
    totals = [
        figure for figure in own if figure.token.decimals == 2 and figure.dimension in (None, MONEY)
    ]
    if not totals:
        return
    price, said = roles.get(PRICE_ROLE), roles.get(COST_ROLE)
    if price is not None:
        total = volume.value * price.value
        fitting = [figure for figure in totals if is_total(figure.value, total)]
        if fitting:
            if said not in fitting:
                roles[COST_ROLE] = fitting[0]
            return
    low, high = price_band(context, volume.unit)
    pairs = [
        (figure, total)
        for figure in own
        if figure.dimension in (None, MONEY, PRICE)
        and figure.token.decimals > 0
        and low <= figure.value <= high
        for total in totals
        if total is not figure and total is not volume
        if abs(total.value - volume.value * figure.value) <= TO_THE_CENT
    ]
    if len(pairs) == 1 and volume not in pairs[0]:
        roles[PRICE_ROLE], roles[COST_ROLE] = pairs[0]


TO_THE_CENT = 0.03
"""What rounding volume and price to a pump's digits moves a total by."""


def settle_price(context: Context, roles: dict[str, Figure]) -> None:
    """'12 gal, $3.84' is a price, '2.5 gal, $9.75' a total: the other reading tells."""
    money, volume = roles.get(COST_ROLE), roles.get(VOLUME_ROLE)
    if money is None or PRICE_ROLE in roles or volume is None or money.dimension != MONEY:
        return
    low, high = price_band(context, volume.unit)
    as_total = money.value / volume.value if volume.value else 0.0
    if not low <= as_total <= high and low <= money.value <= high:
        roles[PRICE_ROLE] = roles.pop(COST_ROLE)
