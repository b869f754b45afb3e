"""Thousandths of a gallon or litre, and an odometer whose thousands stand behind a dot.

This file decides which of the two '44.318' is in a chat whose odometer would follow on to 44,318:
a pump shows three decimals, and beside what was paid nobody writes a reading so without naming it.
"""

from __future__ import annotations

from collections.abc import Sequence
from itertools import combinations

from domain.reading.beside import CURRENCY_MARKS, PUMPED
from domain.reading.figures import Figure, unit_key
from domain.reading.tokens import MARK, NUMBER, Token

TOLD_OF = frozenset(("odometer", "event"))
"""Classes of term of which one says that the odometer is told."""

NEAR_COST = 0.02
"""What of the cost may be missing where a volume is multiplied by its price."""


def has_pump_decimals(tokens: Sequence[Token], figure: Figure) -> bool:
    """'GALLONS 44.318', '44.318 @ 3.649 = 161.72': so much was pumped, and no thousands."""
    if _is_headed(tokens, figure.start - 1):
        return True
    if any(not TOLD_OF.isdisjoint(token.senses) for token in tokens):
        return False
    if any(unit_key(token) in PUMPED for token in tokens):
        return False  # '44.318, 31.2 gal'
    return _is_paid(tokens, figure) or _makes_up(tokens, figure)


def _is_headed(tokens: Sequence[Token], at: int) -> bool:
    """'Volume: 44.318', 'gallons pumped 44.318': whether a word for volume leads to it."""
    while at >= 0 and tokens[at].kind is MARK:
        at -= 1
    near = range(max(0, at - 1), at + 1)
    return any(
        (unit_key(tokens[each]) in PUMPED and not (each and tokens[each - 1].kind is NUMBER))
        or "volume_word" in tokens[each].groups
        for each in near
    )


def _is_paid(tokens: Sequence[Token], figure: Figure) -> bool:
    """'pumped 44.318 for $161.72': money, and no other figure that may have been pumped."""
    paid = False
    for index, token in enumerate(tokens):
        if token.kind is not NUMBER or token is figure.token:
            continue
        marked = any(_is_money(each) for each in tokens[max(0, index - 1) : index + 2])
        paid = paid or marked
        if not marked and LEAST_PUMPED <= token.value <= MOST_PUMPED:
            return False  # 'fuel 31.2 at 44.318, $121.30'
    return paid


def _is_money(token: Token) -> bool:
    return "money" in token.senses or token.raw in CURRENCY_MARKS


LEAST_PUMPED, MOST_PUMPED = 10, 150
"""Gallons or litres that one may have pumped; more than any price of one."""


def _makes_up(tokens: Sequence[Token], figure: Figure) -> bool:
    """'44.318 3.649 161.72': whether what it would cost by a price stands there."""
    others = [token.value for token in tokens if token.kind is NUMBER and token is not figure.token]
    return any(
        abs(figure.value * min(pair) - max(pair)) <= NEAR_COST * max(pair)
        for pair in combinations(others[:MOST_OTHERS], 2)
    )


MOST_OTHERS = 12
"""Figures that are tried for a price and a cost: a row of more is no fill-up."""
