"""How surely a message speaks of fuel that was bought.

This file weighs what speaks for a fill: which figures there are, how they are written, and the
words beside them. What is enough decides `fills`.
"""

from __future__ import annotations

from domain.reading.claims import PRICE_OF_EACH
from domain.reading.containers import is_poured_in
from domain.reading.figures import VOLUME, Figure
from domain.reading.fill_roles import (
    COST_ROLE,
    DISTANCE_ROLE,
    ODOMETER_ROLE,
    PRICE_ROLE,
    VOLUME_ROLE,
    Draft,
)
from domain.reading.paid_fuel import names_where, paid_for_fuel
from domain.reading.scene import Scene
from domain.reading.tokens import WORD, Token


def evidence_of(scene: Scene, draft: Draft, *, cue: bool, full: bool | None) -> float:
    """What its figures and words say for a fill; `cue` where a word of filling is said of it."""
    roles = draft.roles
    evidence = 0.0
    if VOLUME_ROLE in roles:
        evidence += 1.4
        volume = roles[VOLUME_ROLE]
        if volume.token.decimals > 0 or volume.value % 1:
            evidence += 0.6
        if draft.product is None and not cue and not volume.foreign:
            evidence += 0.2
        if len(roles) == 1 and _of_version(scene, volume):
            evidence -= 0.5
    if PRICE_ROLE in roles:
        evidence += 1.2
    if COST_ROLE in roles:
        evidence += 0.8
    if ODOMETER_ROLE in roles or DISTANCE_ROLE in roles:
        evidence += 0.9
    if "dash_economy" in roles:
        evidence += 0.4
    if not roles or (len(roles) == 1 and VOLUME_ROLE in roles):
        evidence += _of_nothing_else(scene, roles.get(VOLUME_ROLE))
    if cue:
        evidence += 1.0
    if draft.product:
        evidence += 1.0
    if full is not None:
        evidence += 1.0
    cost = roles.get(COST_ROLE)
    if cost is None:
        return evidence
    if _worth_of_fuel(scene, cost) or (VOLUME_ROLE not in roles and paid_for_fuel(scene, cost)):
        evidence += 1.5
        behind = scene.tokens[cost.end : cost.end + 1]
        if not cue and behind and "into_the" in behind[0].groups:
            draft.cued = True
            evidence += 1.0  # '$20 in the tank, 51,340'
    if ODOMETER_ROLE in roles:
        if PRICE_ROLE in roles and VOLUME_ROLE not in roles:
            evidence += 0.5  # '$98.20 at 3.599 a gallon, 51,260 miles'
        if (cue or full is not None) and not _put_elsewhere(scene, cost):
            evidence += 0.4  # 'put 75 bucks in, odo 51,280'
        if _is_put_in(scene, cost):
            evidence += 0.5
        burnt = draft.product in BURNT and VOLUME_ROLE not in roles
        if burnt and _is_cost_of_product(scene, cost):
            evidence += 0.4
    if full is not None and "claim" not in scene.by_class and _knows_where(scene):
        evidence += 0.3  # 'diesel $70 partial', 'put $60 in at Elk Fork, didn't fill up'
    return evidence


def is_paid_beside(scene: Scene, draft: Draft, cost: Figure) -> bool:
    """'$96.11 diesel, $14.20 for 3.1 gal def': fuel paid for, beside a fluid that was poured."""
    if draft.product not in BURNT:
        return False
    return _is_cost_of_product(scene, cost) and any(
        figure.dimension == VOLUME and not draft.start <= figure.start < draft.end
        for figure in scene.figures
    )


def _knows_where(scene: Scene) -> bool:
    """Whether all words that no phrase knows are of one place with a name: 'at Elk Fork store'."""
    named = not scene.unknown or scene.tokens[scene.unknown[0]].raw[0].isupper()
    return named and all(names_where(scene, index) for index in scene.unknown)


def _of_nothing_else(scene: Scene, volume: Figure | None) -> float:
    """What speaks for a fill, or against it, where a volume at most is told of it."""
    if "?" in scene.text or _is_priced_each(scene):
        return -0.5  # 'can you get some? the 2.5 gal box'
    if volume is not None and _is_judged(scene, volume):
        return -0.5
    return 1.0 if "container" in scene.groups and is_poured_in(scene) else 0.0


def _is_judged(scene: Scene, volume: Figure) -> bool:
    """'need a bigger tank, 24.6 gal is nothing', '24.6 gal won't do': a remark of so much fuel."""
    if volume.end + 1 >= len(scene.tokens):
        return False
    verb = scene.tokens[volume.end].senses
    if "talk" in verb:
        return not scene.stated(volume.end)
    judges = scene.tokens[volume.end + 1 : volume.end + 3] if "glue" in verb else ()
    judged = any("judges_amount" in token.groups for token in judges)
    return judged and "copula" in verb["glue"]


def _is_put_in(scene: Scene, cost: Figure) -> bool:
    """'put $20 in it, odo 48,610': the money went into what has an odometer."""
    behind = scene.tokens[cost.end : cost.end + 2]
    return len(behind) == 2 and "into" in behind[0].groups and is_our_tank(behind[1])


def _is_cost_of_product(scene: Scene, cost: Figure) -> bool:
    """'diesel was $96.30, odo 51,404': a fuel and what it came to, and no other thing of it."""
    if cost.value < LEAST_STOP:
        return False
    for index, _, _ in scene.find("product"):
        start, end = (index + 1, cost.start) if index < cost.start else (cost.end, index)
        between = scene.tokens[start:end]
        if len(between) <= MOST_BETWEEN and all(
            "glue" in token.senses or "cost_word" in token.groups for token in between
        ):
            return True
    return False


BURNT = ("diesel", "gasoline")
"""What the truck's odometer is read at the filling of."""

LEAST_STOP = 15
"""Dollars, pounds or euros that a stop for fuel costs; less is what a gallon does."""

MOST_BETWEEN = 3
"""Tokens between a fuel and its cost: 'diesel cost me about'."""


def _put_elsewhere(scene: Scene, cost: Figure) -> bool:
    """'put $40 in the collection plate': the money went into a thing that burns no fuel."""
    _, end = scene.clause_of(cost.start)
    behind = scene.tokens[cost.end : end]
    if not behind or behind[0].groups.isdisjoint(("into", "into_the")):
        return False
    things = [token for token in behind[1:] if token.groups.isdisjoint(("article", "ours"))]
    strange = bool(things) and things[0].kind is WORD and "leads_to_place" not in things[0].groups
    return strange and not (is_our_tank(things[0]) or "fuel_in_tank" in things[0].groups)


def _is_priced_each(scene: Scene) -> bool:
    """'jugs of cider 2.5 gallons 7.99 each': of several things, and no fuel."""
    return PRICE_OF_EACH in [figure.claimed for figure in scene.figures]


def _of_version(scene: Scene, volume: Figure) -> bool:
    """'14.04 LTS' where people buy by the gallon: litres, or a support term of software."""
    unit = scene.tokens[volume.end - 1]
    return "litre_or_version" in unit.groups and scene.context.units == "us"


def _worth_of_fuel(scene: Scene, money: Figure) -> bool:
    """'$122 in diesel', '60 bucks worth of gas', '$60 in the tank', 'paid 96 dollars for fuel'."""
    behind = scene.tokens[money.end : money.end + 4]
    if not (behind and money.marked):
        return False
    ahead = scene.tokens[max(0, money.start - 2) : money.start]
    paid = (
        "for" in behind[0].groups
        and money.value >= LEAST_PAID
        and any("cost_word" in token.groups for token in ahead)
    )
    linked = paid or "worth_of" in behind[0].groups
    if linked and any("product" in token.senses for token in behind):
        return True
    into = linked or "into_the" in behind[0].groups
    if not into or not any("fuel_in_tank" in token.groups for token in behind[1:2]):
        return False
    further = behind[2:3]  # 'lost $20 in the tank bag'
    return not any(token.kind is WORD and not (token.senses or token.groups) for token in further)


LEAST_PAID = 5
"""Less than that is what one gallon or litre costs: 'paid $2.59 for gas'."""


def is_our_tank(token: Token) -> bool:
    """Whether a word is the tank, or the truck that has it."""
    return "its_tank" in token.groups or "name" in token.senses
