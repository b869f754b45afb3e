"""What fuel came to before a discount or a tax, beside what was paid.

'95.92 before the discount and 93.46 after': this file decides which of two amounts, or of two
prices, nobody paid, and which amounts make a sum. It leaves those aside, and knows nothing of the
fill.
"""

from __future__ import annotations

from collections.abc import Sequence
from itertools import pairwise, permutations

from domain.reading.figures import MONEY, PRICE, VOLUME, Figure
from domain.reading.other_goods import is_amount
from domain.reading.other_tanks import ELSEWHERE
from domain.reading.scene import Scene
from domain.reading.tokens import CENTS, MILLS, WORD, Token

CHANGED = frozenset(("discount", "tax", "past", "takes_off", "without_it", "costs_one"))
"""Groups of words of which one is said where an amount was changed before it was paid."""

CHANGES = CHANGED | {"of"}
"""With them, what is said where a part of it was paid for something else."""

CHANGE = frozenset(("discount", "tax", "pays_less", "takes_off"))
"""Groups of words for what changes an amount."""

BEFORE = frozenset(("before", "without_it"))
AFTER = frozenset(("past", "with"))
"""Groups of words behind the amount that was not paid, and behind the one that was."""

MOST_CHANGED = 1.4
"""One amount is no more than so many times the other."""

TO_THE_CENT = 0.02

FARTHEST = 5
"""Tokens from 'before' to what came then: 'before my ten cents off'."""


def leave_unpaid(scene: Scene) -> None:
    """Leave aside the amount of two that was not paid in the end, or not for the fuel."""
    if "of" in scene.groups:
        _leave_part(scene)
    if CHANGED.isdisjoint(scene.groups):
        return
    amounts = [
        figure
        for figure in scene.live
        if figure.role is None
        and figure.dimension in (None, MONEY, PRICE)
        and figure.token.decimals in PAID_WITH
    ]
    for one, other in permutations(amounts, 2):
        alike = one.token.decimals == other.token.decimals and (
            one.value < MOST_CHANGED * other.value and other.value < MOST_CHANGED * one.value
        )
        if not alike or one.claimed or other.claimed:
            continue
        taken_off = _taken_off(scene, one, other)
        before, after = _is_then(scene, one, BEFORE), _is_then(scene, other, AFTER)
        paid = _is_price_paid(scene, other) and not _is_price_paid(scene, one)
        if paid or (before and after) or _named(scene, one, BEFORE) or _named(scene, other, AFTER):
            scene.claim(one, UNPAID)
        elif taken_off is not None:
            scene.claim(one, UNPAID)
            scene.claim(taken_off, "what was taken off")
    if "takes_off" in scene.groups:
        _leave_lessened(scene, amounts)
    if "back_word" in scene.groups:
        for one, other in pairwise(scene.live):
            if _is_given_back(scene, one, other):
                scene.claim(one, "what was paid ahead")
                scene.claim(other, "change")


def _leave_part(scene: Scene) -> None:
    """'106.83 total, 12 of that was ice': the sum is no cost of the fuel, nor is that part of it.

    '94.83 of it was diesel' is.
    """
    for part in scene.live:
        behind = scene.tokens[part.end : part.end + 2]
        of_it = len(behind) > 1 and "of" in behind[0].groups
        if not (of_it and behind[1].groups & PART_OF) or part.dimension not in (None, MONEY):
            continue
        amounts = [each for each in scene.live if each.end <= part.start and is_amount(each)]
        if not amounts or part.value >= amounts[-1].value:
            continue
        said = scene.tokens[part.end : scene.clause_of(part.start)[1]]
        if any(map(_is_fuel, said)):
            part.unit, part.dimension = part.unit or scene.context.currency, MONEY
        else:
            scene.claim(part, "what was paid for something else")
        scene.claim(amounts[-1], "the sum of both")


def _is_fuel(token: Token) -> bool:
    product = token.senses.get("product")
    return "fuel" in token.groups if product is None else not product.startswith("def")


PART_OF = frozenset(("points_at_things", "opens_relative"))
"""Groups of words behind 'of' that point back at a sum: 'that', 'it', 'which'."""


def _is_given_back(scene: Scene, one: Figure, other: Figure) -> bool:
    """'prepay 100 got 4.06 back': change, behind what was laid down."""
    before = scene.tokens[other.start - 1] if other.start else None
    behind = scene.tokens[other.end : other.end + 1]
    paid = other.token.decimals == CENTS and {one.dimension, other.dimension} <= {None, MONEY}
    got = before is not None and "gets_goods" in before.groups
    return paid and got and any("back_word" in each.groups for each in behind)


def _leave_lessened(scene: Scene, amounts: Sequence[Figure]) -> None:
    """'95.92 minus 2.46': what is left of it was paid, and nobody said how much that is."""
    for one, other in pairwise(scene.figures):
        between = [each for each in scene.tokens[one.end : other.start] if each.raw != ","]
        said = [token for token in between if "takes_off" in token.groups]
        lessened = len(said) == len(between) and (said or other.negative)
        coins = other.unit == "cents" or other.dimension == PRICE
        if not lessened or not (coins or (one in amounts and other.value < one.value)):
            continue
        scene.claim(other, "what was taken off")
        one.foreign = None  # 'less' is no thing that is counted
        if one in amounts and one.claimed is None:
            scene.claim(one, UNPAID)


def settle_sum(scene: Scene) -> None:
    """'diesel 89.82 + def 12.50 = 102.32': what adds up to the cent is money, all of it."""
    paid = [
        each
        for each in scene.live
        if each.role is None and each.dimension in (None, MONEY) and each.token.decimals == CENTS
    ]
    for first, second, total in zip(paid, paid[1:], paid[2:], strict=False):
        if abs(first.value + second.value - total.value) < HALF_A_CENT:
            for each in (first, second):
                each.unit, each.dimension = each.unit or scene.context.currency, MONEY
            scene.claim(total, "the sum of both")


def leave_sum_with_can(scene: Scene) -> None:
    """'23.7 diesel and a jug, 102.32 altogether': the sum of fuel and a can is no cost of it."""
    can = next((at for at, _ in enumerate(scene.tokens) if _is_bought(scene, at)), None)
    if can is None:
        return
    start, _ = scene.sentence_of(can)
    joined = any(
        "and" in scene.tokens[at].groups or scene.tokens[at].raw == "," for at in range(start, can)
    )
    live = [each for each in scene.live if each.start >= start]
    poured = any(each.dimension in (None, VOLUME) and each.end < can for each in live)
    amounts = [each for each in live if is_amount(each)]
    if joined and poured and len(amounts) == 1 and amounts[0].start > can:
        beside = scene.tokens[amounts[0].start - 2 : amounts[0].end + 2]
        if any("together" in each.groups or "whole" in each.senses for each in beside):
            scene.claim(amounts[0], "the sum of both")


def leave_sum_with_other(scene: Scene) -> None:
    """'5 gal in the can, 23.8 in the truck, $112.03': what both came to is no cost of one."""
    others = [each for each in scene.figures if each.claimed == ELSEWHERE]
    if not others:
        return
    live = scene.live
    amounts = [each for each in live if is_amount(each)]
    poured = [each for each in live if each.dimension == VOLUME]
    told = poured and len(amounts) == 1
    if told and amounts[0].start >= max(each.end for each in (*others, *poured)):
        scene.claim(amounts[0], "the sum of both")


def _is_bought(scene: Scene, index: int) -> bool:
    """'a jug', 'and a coffee': what was paid for with the fuel."""
    token = scene.tokens[index]
    if "container" in token.groups:
        return "talk" not in token.senses
    if index not in scene.unknown or index < MARKED:
        return False
    joins, article = scene.tokens[index - MARKED : index]
    return "and" in joins.groups and "a_thing" in article.groups


MARKED = 2
"""Tokens of 'and a'."""


def leave_swipes(scene: Scene) -> None:
    """'it stopped at 75 dollars, ran it again: 75.00 and 14.82': so much was charged each time.

    An amount that is told again beside another one makes money of both; what the fuel cost is
    their sum, which nobody said.
    """
    live = scene.live
    for told in live:
        if told.dimension != MONEY:
            continue
        for first, second in pairwise(live):
            if first is told or first.value != told.value or first.dimension is not None:
                continue
            joined = [each for each in scene.tokens[first.end : second.start] if each.raw != ","]
            alike = first.token.decimals == second.token.decimals == CENTS
            if alike and all("then" in each.groups for each in joined):
                for each in (told, first, second):
                    scene.claim(each, "what was charged at one of several times")
                return


HALF_A_CENT = 0.005

UNPAID = "what it came to before a discount or a tax"

PAID_WITH = (2, 3)
"""Decimals of what a pump charges, and of its price."""


def _is_price_paid(scene: Scene, figure: Figure) -> bool:
    """'pump price 3.999 paid 3.899': the price that was asked is not the one that was paid."""
    before = scene.tokens[figure.start - 1] if figure.start else None
    return figure.token.decimals == MILLS and before is not None and "costs_one" in before.groups


def _is_then(scene: Scene, figure: Figure, said: frozenset[str]) -> bool:
    """'95.92 before', at the end of what is told of it or before what came then."""
    behind = scene.tokens[figure.end : figure.end + 2]
    if not behind or behind[0].groups.isdisjoint(said):
        return False
    ends = len(behind) == 1 or behind[1].kind is not WORD or "and" in behind[1].groups
    return ends or _named(scene, figure, said)


def _named(scene: Scene, figure: Figure, said: frozenset[str]) -> bool:
    """'before the discount', 'after my rewards', 'after ten cents off'."""
    behind = scene.tokens[figure.end : figure.end + FARTHEST]
    if not behind or behind[0].groups.isdisjoint(said):
        return False
    return any(not token.groups.isdisjoint(CHANGE) for token in _up_to_mark(behind[1:]))


def _up_to_mark(tokens: Sequence[Token]) -> Sequence[Token]:
    for at, token in enumerate(tokens):
        if token.raw == "," or token.ends_sentence or "and" in token.groups:
            return tokens[:at]
    return tokens


def _taken_off(scene: Scene, one: Figure, other: Figure) -> Figure | None:
    """'95.92, discount 2.46, paid 93.46': what the first was more by, where that is said."""
    for figure in scene.live:
        if figure in (one, other) or abs(one.value - figure.value - other.value) > TO_THE_CENT:
            continue
        beside = scene.tokens[max(0, figure.start - 2) : figure.end + 2]
        if any(not token.groups.isdisjoint(CHANGE) for token in beside):
            return figure
    return None
