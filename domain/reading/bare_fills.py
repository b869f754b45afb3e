"""Bare figures of a fill: '48362 31.4 3.699 full'.

Each bare figure is tried in every role that it could play, and the whole assignment is weighed
by the figures' form (three decimals are a price), by arithmetic (volume times price is the
total), by the tank, and by the last odometer reading.
"""

from __future__ import annotations

from collections.abc import Sequence
from functools import partial
from itertools import product
from operator import ne

from domain.context import VOLUME_UNIT, Context
from domain.quantities import Quantity
from domain.reading.dearest_fuel import DEAREST, dearest
from domain.reading.figures import ECONOMY, NEXT_READING, Figure
from domain.reading.fill_entries import MONEY_TOLERANCE, TANK_SLACK, price_of
from domain.reading.fill_roles import (
    COST_ROLE,
    DISTANCE_ROLE,
    LARGEST_TANK,
    ODOMETER_ROLE,
    PRICE_BAND,
    PRICE_ROLE,
    SMALL_TANK,
    TRIP_LIMIT,
    VOLUME_ROLE,
    Draft,
    in_small_coins,
    pays_in_pairs,
)
from domain.reading.scene import Scene
from domain.reading.tokens import CENTS

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
    said = bool(cue or draft.product or draft.roles)
    # Alone they are of a fill where one of several was pumped: see `_sure_alone`.
    if not said and (len(figures) < 2 or max(each.token.decimals for each in figures) < 1):
        return
    if len(bare) > MOST_FIGURES and "\n" not in scene.text:
        return
    # 'fed the beast 30.6 gal, $119.34'
    pumped = VOLUME_ROLE in draft.roles and (
        not draft.roles.keys().isdisjoint(PAID)
        or any(_is_priced(context, {**draft.roles, COST_ROLE: figure}) for figure in figures)
    )
    burnt = "dash_economy" in draft.roles or any(f.dimension == ECONOMY for f in scene.figures)
    if not (cue or draft.product or pumped or burnt) and _counts_things(scene):
        return
    if not (draft.product or draft.roles) and _tells_a_story(scene):
        return
    score, names = _best(scene, draft, figures, cue=cue)
    if names is None:
        return
    told = draft.product or VOLUME_ROLE in draft.roles
    if not told and _of_a_thing(scene, figures, names):
        return
    if not said and not _sure_alone(context, names, figures):
        return
    roles = draft.roles | _in_roles(names, figures)
    if not (cue or draft.product or _goes_so_far(context, roles)):
        return
    if _only_a_volume(draft, names) and (
        _tells_more(scene, draft, paid=_is_priced(context, roles), cue=cue)
        or not (cue or _is_priced(context, roles) or not _like_gallons_price(roles[VOLUME_ROLE]))
    ):
        return
    draft.roles |= roles
    draft.evidence += min(score, 4.0) * 0.6
    if context.odometer is None and not (cue or draft.product) and len(roles) < 3:
        draft.evidence -= 1.0


def _like_gallons_price(figure: Figure) -> bool:
    """'diesel is 5.10 in california': what a gallon costs is told where litres are pumped, too."""
    low, high = PRICE_BAND["gal"]
    return figure.token.decimals >= CENTS and low <= figure.value <= high


def _goes_so_far(context: Context, roles: dict[str, Figure]) -> bool:
    """'went twice, 18.2 and 21.4 miles': nothing that is towed with burns so much, or so little."""
    volume, distance = roles.get(VOLUME_ROLE), roles.get(DISTANCE_ROLE)
    if volume is None or distance is None or not volume.value:
        return True
    least, most = GOES_FAR[VOLUME_UNIT[context.units]]
    return least <= distance.value / volume.value <= most


GOES_FAR = {"gal": (3.0, 60.0), "gal_imp": (3.0, 70.0), "L": (1.0, 25.0)}
"""Miles or kilometres that a unit of fuel takes a truck, wide on purpose (common practice)."""


def _best(
    scene: Scene, draft: Draft, figures: Sequence[Figure], *, cue: bool
) -> tuple[float, Sequence[str | None] | None]:
    """What the best assignment of figures is worth, and its roles; None where none is good."""
    free = [role for role in BARE_ROLES if role not in draft.roles]
    options = [_options(scene, figure, free, draft, figures) for figure in figures]
    parted = [at for at, figure in enumerate(figures) if figure.token.decimals > 0]
    if len(parted) == 1 and _is_jugs_price(scene.context, draft, figures[parted[0]]):
        money = scene.context.units == "us" and figures[parted[0]].value >= LEAST_FOR_JUG
        options[parted[0]] = [(COST_ROLE, PAID_FOR_JUG) if money else (None, 0.0)]
    paid = COST_ROLE in draft.roles and (cue or draft.product)
    best: tuple[float, Sequence[str | None] | None] = (0.0, None)
    tried: list[tuple[float, list[str]]] = []
    # Money alone says nothing of fuel: 'it's at 6448 California 2 and the price is $55'.
    fuelled = cue or draft.product or draft.roles.keys() - {COST_ROLE}
    needed = 1.0 if fuelled else 3.5
    may_fit = SUM_FITS if len(figures) + len(draft.roles) >= len(SUMMED) else 0.0
    roles = product(*[[role for role, _ in each] for each in options])
    worths = product(*[[worth for _, worth in each] for each in options])
    for names, score in zip(roles, map(sum, worths), strict=True):
        most = score + may_fit
        if (most <= best[0] or most < needed) and scene.trace is None:
            continue
        named = [role for role in names if role]
        taken = {*draft.roles, *named}
        if len(taken) < len(draft.roles) + len(named):
            continue
        if VOLUME_ROLE in taken:
            if taken.issuperset(SUMMED):
                score += _arithmetic(scene, draft.roles | _in_roles(names, figures))
        elif COST_ROLE not in taken or not (paid or PRICE_ROLE in taken):
            score -= 3.0
        if len(named) > 1:
            score -= 0.2 * _disorder(named)
        if scene.trace is not None and score > 0:
            tried.append((score, [role or "nothing" for role in names]))
        if score > best[0]:
            best = (score, names)
    for score, told in sorted(tried, reverse=True)[:3]:
        scene.decided(partial(_told, figures, told, score, needed))
    return best if best[0] >= needed else (0.0, None)


def _in_roles(names: Sequence[str | None], figures: Sequence[Figure]) -> dict[str, Figure]:
    """Figures by the roles that they are given; some have none."""
    return {role: figure for role, figure in zip(names, figures, strict=True) if role}


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
    if ODOMETER_ROLE not in roles or not READ_OF_FUEL.isdisjoint(scene.by_class):
        return False
    if not all("buys" in token.groups for _, token, _ in scene.find("fuel_cue")):
        return False
    at = figures[roles.index(ODOMETER_ROLE)].start - 1
    while at > 0 and scene.tokens[at].senses.get("glue") == "copula":
        at -= 1
    thing = scene.tokens[at]
    fills = scene.book.groups["fill_noun"]  # 'two stops: ...'
    return at in scene.unknown and thing.raw[0].islower() and thing.text not in fills


READ_OF_FUEL = frozenset(("full", "odometer"))
"""Classes of term beside which a reading is the odometer's, whatever was bought."""


def _only_a_volume(draft: Draft, roles: Sequence[str | None]) -> bool:
    """Whether a bare figure is a volume on its word alone: no unit, no odometer, no arithmetic."""
    if VOLUME_ROLE not in roles or ODOMETER_ROLE in roles:
        return False
    paid = PRICE_ROLE in roles and (COST_ROLE in roles or COST_ROLE in draft.roles)
    return not paid and draft.roles.keys() <= {COST_ROLE}


def _is_priced(context: Context, roles: dict[str, Figure], least: int = 1) -> bool:
    """Whether volume and total, with a pump's decimals, make a price that fuel has."""
    volume, cost = roles.get(VOLUME_ROLE), roles.get(COST_ROLE)
    if volume is None or cost is None or not volume.value:
        return False
    if min(volume.token.decimals, cost.token.decimals) < least:
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
    """How many roles stand elsewhere than where they usually do."""
    return sum(map(ne, sorted(named, key=BARE_ROLES.index), named))


def _options(
    scene: Scene, figure: Figure, free: Sequence[str], draft: Draft, figures: Sequence[Figure]
) -> list[tuple[str | None, float]]:
    context, volume = scene.context, draft.roles.get(VOLUME_ROLE)
    value, decimals = figure.value, figure.token.decimals
    options: list[tuple[str | None, float]] = [(None, -0.5)]
    unit = VOLUME_UNIT[context.units]
    low, high = PRICE_BAND[unit]
    if ODOMETER_ROLE in free and value >= 1000 and decimals <= 1:
        if context.odometer is not None:
            known = context.odometer.value
            if 0 <= value - known <= NEXT_READING:
                beside = volume is not None and _in_one_clause(scene, volume, figure)
                next_to = volume is not None and figure.start == volume.end
                near = IN_CLAUSE * beside + NEXT_TO * next_to
                options.append((ODOMETER_ROLE, FOLLOWS_ON + near))
            elif known / 2 <= value <= known * 2 or len(scene.unknown_words()) < MOST_BESIDE:
                options.append((ODOMETER_ROLE, 1.6))
        elif value >= 10_000:
            options.append((ODOMETER_ROLE, 2.0))
    tank = context.tank.amount(unit) if context.tank else LARGEST_TANK[unit]
    if draft.product == "def":
        tank = min(tank, LARGEST_TANK[unit] * SMALL_TANK)
    if VOLUME_ROLE in free and 0.5 <= value <= tank * TANK_SLACK:
        like_price = low <= value <= high and decimals >= 2
        worth = 2.0 if decimals in (1, 2, 3) else 0.9
        options.append((VOLUME_ROLE, LIKE_PRICE if like_price else worth))
    if PRICE_ROLE in free and low <= value <= high and decimals >= 2:
        options.append((PRICE_ROLE, 2.5 if decimals == 3 else 1.6))
    if PRICE_ROLE in free and in_small_coins(scene, figure):
        named = figure.start > 0 and "product" in scene.tokens[figure.start - 1].senses
        sign = round(value % 1, 1) == NINE_TENTHS
        options.append((PRICE_ROLE, 1.4 if named or sign else 0.9))  # 'diesel 149.9 54.2 L'
    if PRICE_ROLE in free and figure.token.said.in_digits and low <= value / 1000 <= high:
        # 'three seventy nine nine'
        options.append((PRICE_ROLE, 1.8 if _said_with_mills(scene, figure) else 1.6))
    if COST_ROLE in free and decimals in (0, 2) and 5 <= value <= _most_paid(context):
        sure = decimals == 2 or (volume is not None and _is_round_sum(scene, figure, volume))
        options.append((COST_ROLE, 1.7 if sure else 0.4))
    if COST_ROLE in free and not _said_with_mills(scene, figure):
        pumped = volume or _pumped_before(figures, figure)
        if pumped is not None and pays_in_pairs(context, figure, pumped):
            options.append((COST_ROLE, PAID_IN_PAIRS))
    if DISTANCE_ROLE in free and 30 <= value <= TRIP_LIMIT and decimals == 1:
        options.append((DISTANCE_ROLE, 1.2))
    return options


PAID_IN_PAIRS = 2.0
"""What it is worth that an amount in words makes a price with what was pumped."""


def _pumped_before(figures: Sequence[Figure], paid: Figure) -> Figure | None:
    """'fuel 18.9, sixty-one forty-three': the one figure ahead of what it cost.

    With another behind it the second may be the price.
    """
    told = len(figures) == len(AMOUNT_AND_COST) and figures[-1] is paid
    return figures[0] if told else None


AMOUNT_AND_COST = (VOLUME_ROLE, COST_ROLE)

NINE_TENTHS = 0.9
"""What a price in pence or cents ends with on nearly every sign: '64.1 L, 141.9'."""

IN_BOTTLES = frozenset(("def", "propane"))
"""Products that are bought by the jug or the bottle, for so much money."""


PAID_FOR_JUG = 4.0
"""What it is worth that a figure beside them is money."""

LEAST_FOR_JUG = 10
"""Dollars; so many gallons of exhaust fluid no pickup takes, but so many litres."""


def _is_jugs_price(context: Context, draft: Draft, figure: Figure) -> bool:
    """'jug of def 14.99', 'propane 20 lb tank 18.99': with cents it may be money, and no volume."""
    bottled = draft.product in IN_BOTTLES and draft.product != context.fuel
    open_roles = draft.roles.keys().isdisjoint((VOLUME_ROLE, *PAID))
    return bottled and open_roles and figure.token.decimals == CENTS


def _is_round_sum(scene: Scene, figure: Figure, volume: Figure) -> bool:
    """'41.2 gallons, a hundred fifty-eight even': what so much fuel comes to, without cents."""
    behind = scene.tokens[figure.end : figure.end + 1]
    said = any("round_sum" in token.groups for token in behind)
    return said and _is_priced(scene.context, {VOLUME_ROLE: volume, COST_ROLE: figure}, least=0)


def _in_one_clause(scene: Scene, volume: Figure, figure: Figure) -> bool:
    """'fuel 51,610 58.3 L, camp 51,733': the reading in the clause of the volume, before others."""
    return scene.clause_of(volume.start) == scene.clause_of(figure.start)


def _most_paid(context: Context) -> float:
    """What a tank of fuel costs at most, in the chat's currency."""
    return MOST_PAID * dearest(context.currency) / DEAREST


FOLLOWS_ON = 3.0
"""What a reading is worth that follows on from the last one."""

IN_CLAUSE = 0.3
"""What it adds to a reading that it stands in the clause of the volume."""


NEXT_TO = 0.1
"""What it adds to it that it stands right behind: '31.2 gal 51,402 home 51,733'."""


def _said_with_mills(scene: Scene, figure: Figure) -> bool:
    """'three seventy nine nine' is 3.799, and 'nineteen ninety nine' 19.99."""
    first = figure.token.raw.casefold().replace("-", " ").partition(" ")[0]
    return figure.value < 10_000 and len(scene.book.numbers.get(first, "")) == 1


def _arithmetic(scene: Scene, roles: dict[str, Figure]) -> float:
    """Volume times price is the total: the strongest word that figures can say."""
    if roles[VOLUME_ROLE].token.decimals == 0 and roles[PRICE_ROLE].token.decimals < 3:
        return 0.0
    volume, cost = roles[VOLUME_ROLE], roles[COST_ROLE]
    pumped = Quantity(volume.value, volume.unit or VOLUME_UNIT[scene.context.units])
    total = volume.value * price_of(scene.context, roles[PRICE_ROLE], pumped).value
    paid = cost.value / 100 if pays_in_pairs(scene.context, cost, volume) else cost.value
    return SUM_FITS if abs(total - paid) <= MONEY_TOLERANCE * total else -2.0


SUMMED = (VOLUME_ROLE, PRICE_ROLE, COST_ROLE)
"""The roles of which two make the third."""

SUM_FITS = 4.0
"""What it is worth that they do."""
