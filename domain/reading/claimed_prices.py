"""Numbers that say what something else cost, or of what a tyre is made.

This file decides by the words beside a bare number that it is the price of a thing, a rate for
each of something, or a count of plies. What fuel came to is decided where fills are read.
"""

from __future__ import annotations

from collections.abc import Sequence

from domain.reading.figures import LEAST_LOAD, Figure, token_at
from domain.reading.tokens import WORD, Token

A_PRICE = "a price"

PAID_FOR = frozenset(("set_of", "repaired"))
"""Groups of words for what one pays for, and no scale or gauge is of."""

PAID = PAID_FOR | {"per_one", "costs_one", "plies"}
"""Groups of words of which one stands beside such a number."""

SPEAKS_OF_FUEL = frozenset(
    ("fuel_cue", "product", "full", "odometer", "trip_meter", "per_volume", "missed", "price_word")
)
"""Classes of term and groups of words beside which a sum may be what fuel came to."""


def price_of_another(
    figure: Figure,
    tokens: Sequence[Token],
    before: Token | None,
    after: Token | None,
    said: frozenset[str],
) -> str | None:
    """Of what else a bare number is, in words; None where it may be the log's."""
    if not said.isdisjoint(PAID_FOR) and _is_paid(tokens, figure):
        return A_PRICE
    if "costs_one" in said and _is_spent(figure, before, after, said):
        return A_PRICE
    if "per_one" in said and _rates_something(tokens, figure):
        return "a rate"
    if "plies" in said and after is not None and "plies" in after.groups:
        return "plies of a tyre"
    return None


def _is_paid(tokens: Sequence[Token], figure: Figure) -> bool:
    """'1,180 for a set of tires', '88 for a new one', '45 to fix', '64.50 plus shipping'."""
    behind = tokens[figure.end : figure.end + 4]
    paid = bool(behind) and "pays_for" in behind[0].groups
    if len(behind) > 1 and not behind[1].groups.isdisjoint(("pronoun", "we")):
        return False  # 'payload is 3,412 and we used 2,900'
    return paid and any(not token.groups.isdisjoint(PAID_FOR) for token in behind[1:])


def _is_spent(
    figure: Figure, before: Token | None, after: Token | None, said: frozenset[str]
) -> bool:
    """'paid 5,240 for the drive axle rebuild', 'it weighs 4,800 and cost me 6,000'.

    It is more than a weighing costs. Of fuel a sum is known by what stands beside it.
    """
    if before is None or "costs_one" not in before.groups or figure.value < LEAST_LOAD:
        return False
    if after is not None and "pays_for" in after.groups and "onto" in after.senses.get("glue", ""):
        return True
    return "weigh_cue" in said and said.isdisjoint(SPEAKS_OF_FUEL)


def _rates_something(tokens: Sequence[Token], figure: Figure) -> bool:
    """'110 a barrel', '85 a day': so much for each of a thing that no phrase knows."""
    after, noun = token_at(tokens, figure.end), token_at(tokens, figure.end + 1)
    if after is None or noun is None or "per_one" not in after.groups or noun.kind is not WORD:
        return False
    return (not noun.senses and noun.raw.islower()) or "time" in noun.senses
