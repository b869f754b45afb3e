"""Bare figures of a fill: '48362 31.4 3.699 full'.

Each bare figure is tried in every role that it could play, and the whole assignment is weighed
by the figures' form (three decimals are a price), by arithmetic (volume times price is the
total), by the tank, and by the last odometer reading.
"""

from __future__ import annotations

from collections.abc import Sequence
from functools import partial
from itertools import product

from domain.context import VOLUME_UNIT, Context
from domain.reading.beside import DEAREST, dearest
from domain.reading.figures import NEXT_READING, Figure
from domain.reading.fill_entries import MONEY_TOLERANCE, TANK_SLACK
from domain.reading.fill_roles import (
    COST_ROLE,
    DISTANCE_ROLE,
    LARGEST_TANK,
    ODOMETER_ROLE,
    PRICE_BAND,
    PRICE_ROLE,
    TRIP_LIMIT,
    VOLUME_ROLE,
    Draft,
    in_small_coins,
    pays_in_pairs,
)
from domain.reading.scene import Scene

MOST_STRANGE = 8
"""Words that no phrase knows: with more of them, bare figures are hardly a fill."""

MOST_FIGURES = 8
"""Bare figures in one line: with more of them it is a row of something else."""

LIKE_PRICE = -1.5
"""What speaks for a volume of 3.79: nothing but a total that it makes."""

MOST_PAID = 600
"""Dollars, pounds or euros that a tank of fuel costs, at most."""

BARE_ROLES = (ODOMETER_ROLE, VOLUME_ROLE, PRICE_ROLE, COST_ROLE, DISTANCE_ROLE)


PAID = (COST_ROLE, PRICE_ROLE)


def assign_bare(scene: Scene, draft: Draft, bare: Sequence[Figure], *, cue: bool) -> None:
    """Try bare figures in every role that is free, and keep the best assignment if it is good."""
    context = scene.context
    figures = [figure for figure in bare if figure.foreign is None][:4]
    # 'fed the beast 30.6 gal, $119.34'
    pumped = VOLUME_ROLE in draft.roles and (
        not draft.roles.keys().isdisjoint(PAID)
        or any(_is_priced(context, {**draft.roles, COST_ROLE: figure}) for figure in figures)
    )
    if not (cue or draft.product or pumped) and _counts_things(scene):
        return
    if not (draft.product or draft.roles) and _tells_a_story(scene):
        return
    # Alone they are of a fill where one of several was pumped: see `_sure_alone`.
    decimals = [figure.token.decimals for figure in figures]
    if not (cue or draft.product or draft.roles) and (len(decimals) < 2 or max(decimals) < 1):
        return
    if len(bare) > MOST_FIGURES and "\n" not in scene.text:
        return
    free = [role for role in BARE_ROLES if role not in draft.roles]
    best: tuple[float, tuple[str | None, ...]] = (0.0, ())
    tried: list[tuple[float, list[str]]] = []
    volume = draft.roles.get(VOLUME_ROLE)
    options = [
        _beside_volume(scene, _options(scene, figure, free, volume), figure, volume)
        for figure in figures
    ]
    for chosen in product(*options):
        named = [role for role, _ in chosen if role]
        if len(named) != len(set(named)):
            continue
        roles = draft.roles | {
            role: figure for (role, _), figure in zip(chosen, figures, strict=True) if role
        }
        score = sum(worth for _, worth in chosen) + _arithmetic(scene, roles)
        paid = PRICE_ROLE in roles or (COST_ROLE in draft.roles and (cue or draft.product))
        if VOLUME_ROLE not in roles and not (COST_ROLE in roles and paid):
            score -= 3.0
        score -= 0.2 * _disorder(named)
        if scene.trace is not None and score > 0:
            tried.append((score, [role or "nothing" for role, _ in chosen]))
        if score > best[0]:
            best = (score, tuple(role for role, _ in chosen))
    # Money alone says nothing of fuel: 'it's at 6448 California 2 and the price is $55'.
    fuelled = cue or draft.product or draft.roles.keys() - {COST_ROLE}
    needed = 1.0 if fuelled else 3.5
    for score, names in sorted(tried, reverse=True)[:3]:
        scene.decided(partial(_told, figures, names, score, needed))
    if best[0] < needed:
        return
    told = draft.product or VOLUME_ROLE in draft.roles
    if not told and _of_a_thing(scene, figures, best[1]):
        return
    if not (cue or draft.product or draft.roles) and not _sure_alone(context, best[1], figures):
        return
    roles = draft.roles | {
        role: figure for role, figure in zip(best[1], figures, strict=True) if role
    }
    if _only_a_volume(draft, best[1]) and _tells_more(
        scene, draft, paid=_is_priced(context, roles), cue=cue
    ):
        return
    for role, figure in zip(best[1], figures, strict=True):
        if role:
            draft.roles[role] = figure
    draft.evidence += min(best[0], 4.0) * 0.6
    if context.odometer is None and not (cue or draft.product) and len(draft.roles) < 3:
        draft.evidence -= 1.0


def _told(figures: Sequence[Figure], names: Sequence[str], score: float, needed: float) -> str:
    """An assignment and its worth in words."""
    values = ", ".join(
        f"{figure.value:,.10g} as {name}" for figure, name in zip(figures, names, strict=True)
    )
    return f"candidate: {values}: {score:.1f} (needs {needed})"


def _sure_alone(context: Context, roles: Sequence[str | None], figures: Sequence[Figure]) -> bool:
    """Bare figures alone make a fill: one follows the odometer, one has a pump's decimals."""
    named = dict(zip(roles, figures, strict=True))
    volume, odometer = named.get(VOLUME_ROLE), named.get(ODOMETER_ROLE)
    if volume is None or volume.token.decimals < 1:
        return False
    if odometer is not None and context.odometer is not None:
        return 0 <= odometer.value - context.odometer.value <= 5000
    return PRICE_ROLE in named and COST_ROLE in named


def _counts_things(scene: Scene) -> bool:
    """Whether the message counts or prices things that no phrase knows: '2 bags of ice'."""
    strangers = scene.unknown_words(names=False)
    fills = scene.book.groups["fill_noun"]  # 'two fills: ...'
    return len(strangers) > 1 or any(
        figure.foreign and figure.foreign not in fills for figure in scene.figures
    )


def _tells_a_story(scene: Scene) -> bool:
    """Whether so many words are unknown that figures without units are of something else."""
    return len(scene.unknown_words(names=False)) > MOST_STRANGE


def _of_a_thing(scene: Scene, figures: Sequence[Figure], roles: Sequence[str | None]) -> bool:
    """'the jackpot's at 21,560, we bought 5': what was bought is no fuel, nor that an odometer."""
    if not all("buys" in token.groups for _, token, _ in scene.find("fuel_cue")):
        return False
    reading = next((f for f, r in zip(figures, roles, strict=True) if r == ODOMETER_ROLE), None)
    if reading is None or scene.has("full") or scene.has("odometer"):
        return False
    at = reading.start - 1
    while at > 0 and scene.tokens[at].senses.get("glue") == "copula":
        at -= 1
    thing = scene.tokens[at]
    fills = scene.book.groups["fill_noun"]  # 'two stops: ...'
    return at in scene.unknown and thing.raw[0].islower() and thing.text not in fills


def _only_a_volume(draft: Draft, roles: Sequence[str | None]) -> bool:
    """Whether a bare figure is a volume on its word alone: no unit, no odometer, no arithmetic."""
    named = {role for role in roles if role}
    sure = ODOMETER_ROLE in named or {PRICE_ROLE, COST_ROLE} <= named | draft.roles.keys()
    return VOLUME_ROLE in named and not sure and draft.roles.keys() <= {COST_ROLE}


def _is_priced(context: Context, roles: dict[str, Figure]) -> bool:
    """Whether volume and total, with a pump's decimals, make a price that fuel has."""
    volume, cost = roles.get(VOLUME_ROLE), roles.get(COST_ROLE)
    if volume is None or cost is None or not volume.value:
        return False
    if min(volume.token.decimals, cost.token.decimals) < 1:
        return False
    low, high = PRICE_BAND[VOLUME_UNIT[context.units]]
    return low <= cost.value / volume.value <= high


def _tells_more(scene: Scene, draft: Draft, *, paid: bool, cue: bool) -> bool:
    """'sticking to a full tuition, 4.0': too much else is said for a figure without a unit."""
    fuelled = any("buys" not in token.groups for _, token, _ in scene.find("fuel_cue"))
    vague = not (fuelled or paid or _surely_fuel(scene, draft))
    most = MOST_BESIDE_VAGUE if vague or not cue else MOST_BESIDE
    return len(scene.unknown_words(names=False)) > most or (
        len(scene.unknown_words()) > MOST_BESIDE + MOST_BESIDE_VAGUE + 1
    )


MOST_BESIDE, MOST_BESIDE_VAGUE = 3, 1
"""Unknown words beside a volume without a unit: with a word for fuelling, and without one."""


def _surely_fuel(scene: Scene, draft: Draft) -> bool:
    """Whether a product is named that is nothing else: 'regular' and 'premium' are."""
    return draft.product is not None and not all(
        "weak_product" in token.groups for _, token, _ in scene.find("product")
    )


def _disorder(named: Sequence[str]) -> int:
    usual = [role for role in BARE_ROLES if role in named]
    return sum(1 for left, right in zip(usual, named, strict=True) if left != right)


def _options(
    scene: Scene, figure: Figure, free: Sequence[str], volume: Figure | None
) -> list[tuple[str | None, float]]:
    context = scene.context
    value, decimals = figure.value, figure.token.decimals
    options: list[tuple[str | None, float]] = [(None, -0.5)]
    unit = VOLUME_UNIT[context.units]
    low, high = PRICE_BAND[unit]
    if ODOMETER_ROLE in free and value >= 1000 and decimals <= 1:
        if context.odometer is not None:
            known = context.odometer.value
            if 0 <= value - known <= NEXT_READING:
                options.append((ODOMETER_ROLE, FOLLOWS_ON))
            elif known / 2 <= value <= known * 2 or len(scene.unknown_words()) < MOST_BESIDE:
                options.append((ODOMETER_ROLE, 1.6))
        elif value >= 10_000:
            options.append((ODOMETER_ROLE, 2.0))
    tank = context.tank.amount(unit) if context.tank else LARGEST_TANK[unit]
    if VOLUME_ROLE in free and 0.5 <= value <= tank * TANK_SLACK:
        like_price = low <= value <= high and decimals >= 2
        worth = 2.0 if decimals in (1, 2, 3) else 0.9
        options.append((VOLUME_ROLE, LIKE_PRICE if like_price else worth))
    if PRICE_ROLE in free and low <= value <= high and decimals >= 2:
        options.append((PRICE_ROLE, 2.5 if decimals == 3 else 1.6))
    if PRICE_ROLE in free and in_small_coins(scene, figure):
        options.append((PRICE_ROLE, 0.9))
    if PRICE_ROLE in free and figure.token.in_digits and low <= value / 1000 <= high:
        options.append((PRICE_ROLE, 1.6))  # 'three seventy nine nine'
    most = MOST_PAID * dearest(context.currency) / DEAREST
    if COST_ROLE in free and 5 <= value <= most and decimals in (0, 2):
        options.append((COST_ROLE, 1.7 if decimals == 2 else 0.4))
    paired = volume is not None and pays_in_pairs(context, figure, volume)
    if COST_ROLE in free and paired and not _said_with_mills(scene, figure):
        options.append((COST_ROLE, 1.7))
    if DISTANCE_ROLE in free and 30 <= value <= TRIP_LIMIT and decimals == 1:
        options.append((DISTANCE_ROLE, 1.2))
    return options


def _beside_volume(
    scene: Scene, options: list[tuple[str | None, float]], figure: Figure, volume: Figure | None
) -> list[tuple[str | None, float]]:
    """'fuel 51,610 58.3 L, camp 51,733': the reading in the clause of the volume, before others."""
    if volume is None or scene.clause_of(volume.start) != scene.clause_of(figure.start):
        return options
    return [
        (role, worth + IN_CLAUSE * (role == ODOMETER_ROLE and worth >= FOLLOWS_ON))
        for role, worth in options
    ]


FOLLOWS_ON = 3.0
"""What a reading is worth that follows on from the last one."""

IN_CLAUSE = 0.3
"""What it adds to a reading that it stands in the clause of the volume."""


def _said_with_mills(scene: Scene, figure: Figure) -> bool:
    """'three seventy nine nine' is 3.799, and 'nineteen ninety nine' 19.99."""
    first = figure.token.raw.casefold().replace("-", " ").partition(" ")[0]
    return figure.value < 10_000 and len(scene.book.numbers.get(first, "")) == 1


def _arithmetic(scene: Scene, roles: dict[str, Figure]) -> float:
    """Volume times price is the total: the strongest word that figures can say."""
    if not {VOLUME_ROLE, PRICE_ROLE, COST_ROLE} <= roles.keys():
        return 0.0
    if roles[VOLUME_ROLE].token.decimals == 0 and roles[PRICE_ROLE].token.decimals < 3:
        return 0.0
    total = roles[VOLUME_ROLE].value * roles[PRICE_ROLE].value
    if in_small_coins(scene, roles[PRICE_ROLE]):
        total /= 100
    volume, cost = roles[VOLUME_ROLE], roles[COST_ROLE]
    paid = cost.value / 100 if pays_in_pairs(scene.context, cost, volume) else cost.value
    return 4.0 if abs(total - paid) <= MONEY_TOLERANCE * total else -2.0
