"""The entry of a fill, from the figures in its roles, and what is doubtful about it.

This file decides the units meant where none was said, and asks where a figure contradicts the
tank, the last odometer reading, the price of fuel or the arithmetic of the receipt.
"""

from __future__ import annotations

from typing import Any

from domain.choices import ChoiceLabel
from domain.context import ECONOMY_UNIT, VOLUME_UNIT, Context
from domain.entries import Fill
from domain.frozen import changed
from domain.quantities import Quantity
from domain.reading.claims import DISCOUNT, PRICE_OF_EACH
from domain.reading.containers import containers
from domain.reading.doubts import Doubt
from domain.reading.figures import DISTANCE, ECONOMY, MONEY, PRICE, VOLUME, Figure
from domain.reading.fill_roles import (
    COINS_A_LITRE,
    COST_ROLE,
    DISTANCE_ROLE,
    LARGEST_TANK,
    ODOMETER_ROLE,
    PRICE_ROLE,
    VOLUME_ROLE,
    Draft,
    pays_in_pairs,
    price_band,
)
from domain.reading.odometers import odometer_doubt
from domain.reading.other_goods import OTHER_GOODS, buys_something_else
from domain.reading.scene import Scene
from domain.reading.unpaid import CHANGE
from domain.verdicts import Choice

BANDED_CURRENCIES = frozenset(("USD", "CAD", "AUD", "NZD", "GBP", "EUR", "CHF"))
"""Currencies whose prices the band fits; a price in another is believed."""


TANK_SLACK = 1.1
"""The filler neck and a slow gauge: up to a tenth over the rating is no contradiction."""


MONEY_TOLERANCE = 0.02

MOST_OFF = 0.15
"""How much of a total a discount takes off, at most (common practice)."""


def is_total(cost: float, total: float) -> bool:
    """Whether what was paid is what volume and price make, to a pump's rounding."""
    return abs(cost - total) <= max(MONEY_TOLERANCE * total, 0.05)


def fill_of(
    scene: Scene, draft: Draft, *, full: bool | None, missed: bool | None
) -> Fill | Doubt | None:
    """The fill that figures in their roles make, or the first doubt about it."""
    context, roles = scene.context, draft.roles
    paid = roles.get(COST_ROLE)
    if paid is not None and paid.dimension == MONEY and paid.unit not in (None, context.currency):
        context = changed(context, currency=paid.unit)  # and a price beside it is in no other
    volume = None
    if VOLUME_ROLE in roles:
        volume = _volume(context, roles[VOLUME_ROLE])
        held = containers(scene, roles[VOLUME_ROLE])
        volume = volume if held == 1 else changed(volume, value=volume.value * held)
    stated: dict[str, Any] = {
        role: _stated(context, role, figure, volume) for role, figure in roles.items()
    }
    fill = Fill(
        product=draft.product,
        full=full,
        missed=missed,
        words=tuple(
            [
                (role, scene.words_between(figure.start, figure.end))
                for role, figure in roles.items()
            ]
        ),
        **stated,
    )
    doubt = _doubt(scene, fill, roles, of_tank=draft.of_tank)
    if doubt is not None and doubt.about == "cost" and _buys_another(scene, roles):
        scene.claim(roles.pop(COST_ROLE), OTHER_GOODS)
        return fill_of(scene, draft, full=full, missed=missed)
    if doubt is not None and doubt.about == "unit_price" and _is_jugs_price(scene, draft):
        scene.claim(roles.pop(PRICE_ROLE), PRICE_OF_EACH)
        return fill_of(scene, draft, full=full, missed=missed)
    if doubt is not None:
        return None if _of_something_else(scene, fill, doubt) else doubt
    for figure in roles.values():
        figure.role = "fill"
    return fill


def _buys_another(scene: Scene, roles: dict[str, Figure]) -> bool:
    """'24.2 gal and a wash 12 bucks': what is no sum for the fuel, beside what it was for.

    A bare whole number is no sum of its own accord: '7-10 24.1 gal'.
    """
    cost = roles.get(COST_ROLE)
    if cost is None:
        return False
    bare = cost.dimension is None and cost.whole and cost.label is None
    return bare or buys_something_else(scene, cost)


def _is_jugs_price(scene: Scene, draft: Draft) -> bool:
    """'3 jugs of def, 2.5 each at 14.99': what a jug costs is no price of a gallon."""
    return draft.product == "def" and "container" in scene.groups


def _of_something_else(scene: Scene, fill: Fill, doubt: Doubt) -> bool:
    """Whether a figure that can't be right is of no fill: of a pool, of paint, or amid talk."""
    if doubt.why == "implausible" and _is_talk(scene):
        return True
    strange = any(not scene.tokens[index].groups for index in scene.unknown_words())
    if fill.product is not None or fill.odometer is not None or not strange:
        return False
    if doubt.about == "unit_price":
        return True  # 'paint was 31.20 a gallon'
    if doubt.about != "volume" or fill.volume is None:
        return False
    tank, volume = scene.context.tank, fill.volume.amount("L")
    if tank is not None and scene.unknown_words(names=False):
        return volume > BEYOND_ANY_TANK * tank.amount("L")  # 'the pool took 200 gallons'
    return volume > BEYOND_ANY_TANK * LARGEST_TANK["L"]


BEYOND_ANY_TANK = 2
"""More than so many times the largest tank is no slip of one digit either."""

MOST_STRANGE = 3
"""Words that no phrase knows: beside more of them an impossible figure is of something else."""


def _is_talk(scene: Scene) -> bool:
    return "\n" not in scene.text and len(scene.unknown_words()) > MOST_STRANGE


def _doubt(scene: Scene, fill: Fill, roles: dict[str, Figure], *, of_tank: bool) -> Doubt | None:
    """What is doubtful about a fill; one of several tanks may be larger than the known one."""
    context = scene.context
    if fill.odometer is not None:
        doubt = odometer_doubt(
            scene, fill.odometer, lambda odometer: changed(fill, odometer=odometer, words=())
        )
        if doubt is not None:
            return doubt
    if fill.volume is not None and fill.product != "def":
        tank = None if of_tank else context.tank
        if fill.volume.value <= 0 or roles[VOLUME_ROLE].negative:
            return Doubt("volume", "implausible", (fill.volume,))
        if tank is not None and fill.volume.value > tank.amount(fill.volume.unit) * TANK_SLACK:
            typed = Choice(ChoiceLabel("figure_as_typed", fill.volume), (fill,))
            return Doubt("volume", "over_tank", (fill.volume, tank), (typed,))
    if fill.unit_price is not None:
        low, high = price_band(context, fill.unit_price.unit.partition("/")[2])
        known = fill.unit_price.unit[:3] in BANDED_CURRENCIES
        if known and not low * 0.7 <= fill.unit_price.value <= high * 1.3:
            return Doubt("unit_price", "implausible", (fill.unit_price,))
    if fill.volume and fill.cost and not fill.unit_price and fill.product != "def":
        low, high = price_band(context, fill.volume.unit)
        each = fill.cost.value / fill.volume.value
        same = fill.cost.unit in BANDED_CURRENCIES
        if same and not low * 0.6 <= each <= high * 1.4:
            return Doubt("cost", "implausible", (fill.cost,))
    if fill.volume and fill.unit_price and fill.cost:
        total = fill.volume.value * fill.unit_price.value
        same = fill.unit_price.unit.endswith(fill.volume.unit)
        taken_off = [each.value for each in scene.figures if each.claimed == DISCOUNT]
        less = any(is_total(fill.cost.value, total - each) for each in taken_off)
        said = not CHANGE.isdisjoint(scene.groups)  # '@ 3.899 with 10 cents off = 93.46'
        less = less or (said and 0 < total - fill.cost.value < MOST_OFF * total)
        if same and not (less or is_total(fill.cost.value, total)):
            meant = Quantity(round(total, 2), fill.cost.unit)
            return Doubt("cost", "price_does_not_fit", (meant, fill.cost))
    return None


def _stated(context: Context, role: str, figure: Figure, volume: Quantity | None) -> Quantity:
    """What a figure says in its role; the price and the cost may hang on the volume."""
    if volume is not None and role == VOLUME_ROLE:
        return volume
    if role == PRICE_ROLE:
        return price_of(context, figure, volume)
    if role == COST_ROLE:
        return _money(context, figure, volume)
    if role in (ODOMETER_ROLE, DISTANCE_ROLE):
        return _distance(context, figure)
    return _economy(context, figure)


def _volume(context: Context, figure: Figure) -> Quantity:
    unit = (figure.unit if figure.dimension == VOLUME else None) or VOLUME_UNIT[context.units]
    return Quantity(_with_its_point(context, figure, unit), unit, figure.low)


def _with_its_point(context: Context, figure: Figure, unit: str) -> float:
    """'thirty one four gallons' is 31.4: digits said one after another, too many for any tank."""
    if not figure.token.said.in_digits or not 100 <= figure.value < 1000:
        return figure.value
    most = context.tank.amount(unit) if context.tank else LARGEST_TANK[unit]
    over = figure.value > most * TANK_SLACK and figure.value / 10 <= most
    return round(figure.value / 10, 1) if over else figure.value


def price_of(context: Context, figure: Figure, volume: Quantity | None) -> Quantity:
    """What a unit of fuel cost, by the figure that says so."""
    if figure.dimension == PRICE and figure.unit and "/" in figure.unit:
        return Quantity(figure.value, figure.unit)
    currency = figure.unit if figure.dimension == MONEY else context.currency
    unit = volume.unit if volume is not None else VOLUME_UNIT[context.units]
    value = figure.value
    _, high = price_band(context, unit)
    if figure.unit in ("pence", "cents"):
        currency, value = ("GBP" if figure.unit == "pence" else context.currency), value / 100
    elif (
        figure.dimension is None
        and value > high
        and unit == "L"
        and COINS_A_LITRE[0] <= value <= COINS_A_LITRE[1]
    ):
        value = round(value / 100, 5)  # cents or pence a litre, as pumps show them
    elif figure.dimension is None and figure.token.said.spoken and value >= 100:
        value = round(value / (1000 if value >= 1000 else 100), 5)
    return Quantity(round(value, 5), f"{currency}/{unit}")


def _money(context: Context, figure: Figure, volume: Quantity | None) -> Quantity:
    unit = figure.unit if figure.dimension == MONEY else context.currency
    paired = volume is not None and pays_in_pairs(context, figure, volume)
    return Quantity(figure.value / 100 if paired else figure.value, unit or context.currency)


def _distance(context: Context, figure: Figure) -> Quantity:
    unit = figure.unit if figure.dimension == DISTANCE else None
    return Quantity(figure.value, unit or context.odometer_unit)


def _economy(context: Context, figure: Figure) -> Quantity:
    unit = figure.unit if figure.dimension == ECONOMY else ECONOMY_UNIT[context.units]
    return Quantity(figure.value, unit or ECONOMY_UNIT[context.units])
