"""What else was bought, told in one line with the fuel: 'ice 4.99, diesel 92.14'.

This file decides which figures are of a thing that no phrase knows, where another is of fuel by
name, and leaves them and the thing aside. Lines of a receipt are read in `other_goods`.
"""

from __future__ import annotations

from collections.abc import Sequence

from domain.reading.figures import VOLUME, Figure
from domain.reading.fill_roles import price_band
from domain.reading.other_goods import OF_MONEY, OTHER_GOODS, is_amount
from domain.reading.scene import Scene
from domain.reading.tokens import CENTS, NUMBER, WORD, Token

MOST_BOUGHT = {"gal": 5, "gal_imp": 5, "L": 20}
"""What is carried out of a shop, in whole gallons or litres: 'milk 2 gal'."""

MOST_PAID = 1_000
"""A whole number of dollars that is paid beside fuel: 'camping 42'."""

FARTHEST = 2
"""Small words between an amount and what it was for: '14.50 for the tolls'."""


def leave_wares(scene: Scene) -> None:
    """Claim what belongs to other things than fuel, where each is told with its own figure."""
    if "product" not in scene.by_class and "names_fuel" not in scene.groups:
        return
    live = scene.live
    nouns = [_noun_of(scene, figure) for figure in live]
    for at, figure in enumerate(live):
        if nouns[at] is None and at and live[at - 1].end == figure.start:
            nouns[at] = nouns[at - 1]  # 'milk 1 gal 3.99'
    named = [noun for noun in nouns if noun is not None]
    fuel = [noun for noun in named if _is_fuel(scene.tokens[noun])]
    if not fuel or len(fuel) == len(named):
        return
    titled = scene.tokens[fuel[0]].raw[0].isupper()
    wares = [
        (figure, noun)
        for figure, noun in zip(live, nouns, strict=True)
        if noun is not None and noun not in fuel and _is_ware(scene, figure, noun, titled=titled)
    ]
    paid = any(is_amount(figure) for figure, noun in zip(live, nouns, strict=True) if noun in fuel)
    if len(wares) < FEWEST_UNPAID and not paid and _may_be_price(scene, wares):
        return
    for figure, noun in wares:
        scene.claim(figure, OTHER_GOODS)
        for index in (noun, *range(figure.start, figure.end)):
            scene.tokens[index].senses = {"glue": "function"}
    if wares:
        scene.index_terms()


FEWEST_UNPAID = 2
"""Wares of a list that does not say what the fuel came to."""


def _noun_of(scene: Scene, figure: Figure) -> int | None:
    """What a figure is of: the word before it, or behind it, with small words between."""
    tokens = scene.tokens
    if figure.start and _is_noun(tokens[figure.start - 1]):
        return figure.start - 1
    index = figure.end
    while index < min(figure.end + FARTHEST, len(tokens)) and _leads(tokens[index]):
        index += 1
    if index == len(tokens) or not _is_noun(tokens[index]) or _heads_reading(tokens, index):
        return None
    return index if tokens[index].raw[0].islower() else None


def _heads_reading(tokens: Sequence[Token], noun: int) -> bool:
    """'24.6 gal $81.15 trip 231.8': the word is of the figure behind it, which is no amount."""
    behind = tokens[noun + 1 : noun + 2]
    return bool(behind) and behind[0].kind is NUMBER and behind[0].decimals != CENTS


def _is_noun(token: Token) -> bool:
    thing = not token.senses and token.groups.isdisjoint(OF_MONEY)
    return token.kind is WORD and (thing or _is_fuel(token))


def _is_fuel(token: Token) -> bool:
    return "product" in token.senses or "names_fuel" in token.groups


def _leads(token: Token) -> bool:
    """'of', 'on', 'for the'."""
    return "glue" in token.senses and not token.groups.isdisjoint(LEADING)


LEADING = frozenset(("of", "for", "at_place", "into_the", "article", "worth_of"))


def _is_ware(scene: Scene, figure: Figure, noun: int, *, titled: bool) -> bool:
    """Whether a figure is what a ware cost, or how much was bought of it; a name is a place."""
    word = scene.tokens[noun]
    if word.raw[0].isupper() and not titled:
        return False
    if figure.dimension == VOLUME:
        return figure.whole and figure.value <= MOST_BOUGHT[figure.unit or "gal"]
    whole = figure.dimension is None and figure.whole and figure.value < MOST_PAID
    return is_amount(figure) or whole


def _may_be_price(scene: Scene, wares: Sequence[tuple[Figure, int]]) -> bool:
    """'dorset 3.89, diesel 24.1 gal': what a gallon cost there."""
    low, high = price_band(scene.context, None)
    return all(each.dimension != VOLUME and low <= each.value <= high for each, _ in wares)
