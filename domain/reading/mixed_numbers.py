"""Mixed numbers: '26 and a quarter gallons', '31 1/2 gal', '142 and 82 cents'.

This file decides which part of one is added to a whole number before it.
"""

from __future__ import annotations

from collections.abc import Sequence

from domain.reading.figures import DIMENSION_OF, Figure, token_at, unit_key
from domain.reading.tokens import CENTS, NO_GROUPS, NUMBER, Token, make_number

PARTS = {"half_more": 0.5, "quarter_more": 0.25, "three_quarters_more": 0.75}
"""Groups of words for a part of one, and how much it is."""


def add_part(figure: Figure, tokens: Sequence[Token], at: int) -> None:
    """Add the part of '26 and a quarter gallons' or '31 1/2 gal', and its unit.

    It begins at a token. Without a unit behind it, a quarter may be what the gauge says.
    """
    part, end = _part(tokens, at)
    if not part:
        return
    measure = token_at(tokens, end)
    unit = unit_key(measure)
    if not figure.whole or measure is None or unit is None:
        return
    written, value = figure.token, figure.value + part
    mixed = make_number("", written.raw, written.start, tokens[end - 1].end, value, 1)
    figure.token, figure.value, figure.end = mixed, mixed.value, end
    if "unit_or_word" not in measure.groups:  # '31 1/2 in the tank'
        figure.unit, figure.dimension, figure.end = unit, DIMENSION_OF.get(unit), end + 1


def add_coins(figure: Figure, tokens: Sequence[Token]) -> bool:
    """Add the cents of 'one forty two and eighty two cents'; whether there were any.

    '20 and 10 cents off', 'and 5 cents a gallon' tell of something else.
    """
    at = figure.end + 1
    if at + 1 >= len(tokens) or "small_coin" not in tokens[at + 1].groups:
        return False
    coins, named, behind = tokens[at], tokens[at + 1], token_at(tokens, at + 2)
    whole = figure.whole and figure.value >= 1 and coins.kind is NUMBER and not coins.decimals
    goes_on = behind is not None and not behind.groups.isdisjoint(OF_A_PRICE)
    if not whole or goes_on or not 1 <= coins.value < WHOLE_COIN:
        return False
    written, value = figure.token, round(figure.value + coins.value / WHOLE_COIN, CENTS)
    told = make_number("", written.raw, written.start, named.end, value, CENTS)
    figure.token, figure.value, figure.end = told, value, at + 2
    return True


WHOLE_COIN = 100
"""Cents to the dollar, pence to the pound."""

OF_A_PRICE = frozenset(("off", "per_one", "each_one", "still_more", "differs"))
"""Groups of words behind cents that are taken off, or are the price of one."""


def add_part_behind(figure: Figure, tokens: Sequence[Token]) -> None:
    """'2 gallons and a half', '2 galones y medio'."""
    part, end = _part(tokens, figure.end + 1)
    if part and figure.whole and not _goes_on(tokens, end):
        figure.value += part
        figure.end = end


def _part(tokens: Sequence[Token], index: int) -> tuple[float, int]:
    """The part of one that is said at a token, and where it ends; 0 where there is none."""
    if index == len(tokens):
        return 0.0, index
    token = tokens[index]
    if token.kind is NUMBER:
        behind = token_at(tokens, index + 1)
        if behind is not None and "tenths_word" in behind.groups:  # '31 gallons and four tenths'
            return (token.value / 10 if 1 <= token.value <= MOST_TENTHS else 0.0), index + 2
        return (token.value if token.decimals == TYPED else 0.0), index + 1
    if OPENING.isdisjoint(token.groups):
        return 0.0, index
    if "a_thing" in token.groups:
        index += 1
    said = tokens[index].groups if index < len(tokens) else NO_GROUPS
    return next((size for group, size in PARTS.items() if group in said), 0.0), index + 1


OPENING = frozenset(("a_thing", *PARTS))
"""Groups of words with which a part of one begins: 'a quarter', 'three quarters'."""

MOST_TENTHS = 9

TYPED = -1
"""What the decimals of a fraction typed with a stroke are given as: '1/4'."""


def _goes_on(tokens: Sequence[Token], index: int) -> bool:
    """'30 gal and a half tank', '30 gal and a quarter of the tank': what the gauge says."""
    behind = tokens[index : index + FARTHEST_TANK]
    if behind and "of" not in behind[0].groups:
        behind = behind[:1]
    return any("tank" in token.groups for token in behind)


FARTHEST_TANK = 3
"""Tokens of 'of the tank'."""
