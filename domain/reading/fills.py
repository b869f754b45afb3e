"""Fuel bought: volume, price, money, and the odometer or trip meter that goes with it.

This file decides which figures belong to a fill. Units and labels come first; bare figures are
tried in every role that they could play and weighed by their form (three decimals are a price),
by arithmetic (volume times price is the total), by the tank, and by the last odometer reading.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from itertools import product

from domain.context import DISTANCE_UNIT, ECONOMY_UNIT, VOLUME_UNIT, Context
from domain.entries import Fill
from domain.quantities import Quantity
from domain.reading.doubts import Doubt
from domain.reading.figures import DISTANCE, ECONOMY, MONEY, PRICE, VOLUME, Figure
from domain.reading.labels import Label
from domain.reading.odometers import odometer_doubt
from domain.reading.scene import Scene, ends_sentence
from domain.reading.tokens import WORD
from domain.verdicts import Choice

PRICE_BAND = {"gal": (1.2, 9.99), "gal_imp": (3.0, 14.0), "L": (0.4, 3.8)}
"""What a unit of fuel has cost at the pump, in dollars, pounds or euros; wide on purpose."""

BANDED_CURRENCIES = frozenset(("USD", "CAD", "AUD", "NZD", "GBP", "EUR", "CHF"))
"""Currencies whose prices the band fits; a price in another is believed."""

TANK_SLACK = 1.1
"""The filler neck and a slow gauge: up to a tenth over the rating is no contradiction."""

LARGEST_TANK = {"gal": 120.0, "gal_imp": 100.0, "L": 450.0}
TRIP_LIMIT = 1_500
"""Miles or kilometres: a trip meter since the last fill shows less."""

MONEY_TOLERANCE = 0.02
DECISIVE = 2.0

VOLUME_ROLE, PRICE_ROLE, COST_ROLE, ODOMETER_ROLE, DISTANCE_ROLE = (
    "volume",
    "unit_price",
    "cost",
    "odometer",
    "distance",
)
BARE_ROLES = (ODOMETER_ROLE, VOLUME_ROLE, PRICE_ROLE, COST_ROLE, DISTANCE_ROLE)


@dataclass(slots=True)
class Draft:
    """One fill in the making: a figure for each role, and what was said of it."""

    product: str | None
    start: int
    end: int
    roles: dict[str, Figure]
    evidence: float = 0.0


def read_fills(scene: Scene) -> list[Fill] | Doubt:
    """The fills that a message states, a doubt about them, or none."""
    drafts = _drafts(scene)
    fills: list[Fill] = []
    for draft in drafts:
        result = _read(scene, draft, alone=len(drafts) == 1)
        if isinstance(result, Doubt):
            return result
        if result is not None:
            fills.append(result)
    return fills


def _drafts(scene: Scene) -> list[Draft]:
    """One draft, or one for each product where several are named."""
    products = [
        (index, key.split()[0])
        for index, token, key in scene.find("product")
        if scene.stated(index) and not ("gas" in token.groups and _is_appliance(scene, index))
    ]
    names = [key for _, key in products]
    if len(set(names)) < 2:
        return [Draft(names[0] if names else None, 0, len(scene.tokens), {})]
    drafts: list[Draft] = []
    for number, (index, key) in enumerate(products):
        if drafts and drafts[-1].product == key:
            continue
        start = 0 if number == 0 else _boundary(scene, products[number - 1][0], index)
        if drafts:
            drafts[-1].end = start
        drafts.append(Draft(key, start, len(scene.tokens), {}))
    return drafts


def _is_appliance(scene: Scene, index: int) -> bool:
    return index + 1 < len(scene.tokens) and "appliance" in scene.tokens[index + 1].groups


def _boundary(scene: Scene, first: int, second: int) -> int:
    """Where one product's statement ends and the next one's begins."""
    marks = [
        index
        for index in range(first + 1, second)
        if ends_sentence(scene.tokens[index])
        or scene.tokens[index].raw in ",;+&"
        or "then" in scene.tokens[index].groups
    ]
    strong = [index for index in marks if ends_sentence(scene.tokens[index])]
    if strong:
        return strong[-1] + 1
    between = [f for f in scene.figures if first < f.start < second and f.claimed is None]
    words = [index for index in marks if scene.tokens[index].kind is WORD]
    if words:
        return words[-1] + 1
    if marks and between:
        # A product behind its figures ('2.5 gal def, 30 gal diesel') ends its own clause.
        leads = any(f.start < first for f in scene.figures)
        return (marks[0] if leads else marks[-1]) + 1
    return second


def _read(scene: Scene, draft: Draft, *, alone: bool) -> Fill | Doubt | None:
    own = [
        figure
        for figure in scene.live_figures()
        if draft.start <= figure.start < draft.end and figure.role is None
    ]
    if not own:
        return None
    context = scene.context
    cue = any(
        draft.start <= index < draft.end and scene.stated(index)
        for index in scene.by_class.get("fuel_cue", ())
    )
    full = _full(scene, draft, alone=alone)
    missed = True if _missed(scene) and draft.product != "def" else None
    bare: list[Figure] = []
    for figure in own:
        role = _role(scene, figure, draft)
        if role == "bare":
            bare.append(figure)
        elif role is not None and role not in draft.roles:
            draft.roles[role] = figure
    roles = draft.roles
    if _fills_another(scene):
        return None
    unclear = _bought_without_unit(scene, own)
    if unclear is not None:
        return unclear
    _settle_money(context, roles, draft)
    draft.evidence = _evidence(scene, draft, cue=cue, full=full)
    if bare and not _weighs(scene):
        _assign_bare(scene, draft, bare, cue=cue or full is not None)
    if VOLUME_ROLE not in roles and not (
        COST_ROLE in roles and (cue or draft.product or PRICE_ROLE in roles or full is not None)
    ):
        return None
    if VOLUME_ROLE not in roles and draft.evidence < DECISIVE + 1:
        return None
    scene.decided(
        f"fill with {', '.join(roles)}: evidence {draft.evidence:.1f}, and {DECISIVE} decides"
    )
    if draft.evidence < DECISIVE or _foreign(scene, draft):
        return None
    return _entry(scene, draft, full=full, missed=missed)


def _fills_another(scene: Scene) -> bool:
    """'fill the horse trough': something else than a fuel tank is filled."""
    if scene.has("product"):
        return False
    for index, token, _ in scene.find("fuel_cue"):
        if token.text.split()[0] not in scene.book.groups["pours"]:
            continue
        step = index + 1
        if step < len(scene.tokens) and "before_container" in scene.tokens[step].groups:
            step += 1
            if step < len(scene.tokens):
                noun = scene.tokens[step]
                if noun.kind is WORD and not noun.senses and noun.raw.islower():
                    return True
    return False


def _bought_without_unit(scene: Scene, own: Sequence[Figure]) -> Doubt | None:
    """'put 20 in her' may be gallons or money."""
    if len(own) != 1 or len(scene.tokens) > 8:
        return None
    figure = own[0]
    before = scene.tokens[figure.start - 1] if figure.start else None
    behind = scene.tokens[figure.end : figure.end + 2]
    fuelled = (
        before is not None and "putting" in before.groups and behind and "into" in behind[0].groups
    )
    if not fuelled or figure.dimension is not None or not 3 <= figure.value <= 150:
        return None
    if len(behind) < 2 or not ("its_tank" in behind[1].groups or "name" in behind[1].senses):
        return None
    context = scene.context
    volume = Quantity(figure.value, VOLUME_UNIT[context.units])
    money = Quantity(figure.value, context.currency)
    return Doubt(
        "fill",
        "volume_or_money",
        (volume, money),
        (
            Choice(f"{figure.value:,.10g} {volume.unit}", (Fill(volume=volume),)),
            Choice(f"{figure.value:,.10g} {money.unit}", (Fill(cost=money),)),
        ),
    )


def _missed(scene: Scene) -> bool:
    """'there's a fill I never logged': a fill and a word for leaving it out, in one clause."""
    if scene.has("missed"):
        return True
    for index, _, _ in scene.find("missed_verb"):
        start, end = scene.clause_of(index)
        if any("fill_noun" in scene.tokens[k].groups for k in range(start, end)):
            return True
    return False


def _weighs(scene: Scene) -> bool:
    return any(figure.role == "load" for figure in scene.figures)


def _role(scene: Scene, figure: Figure, draft: Draft) -> str | None:
    """The role that unit or label gives a figure; 'bare' where they say nothing."""
    label = figure.label
    field = label.field if isinstance(label, Label) else None
    if isinstance(label, Label) and (label.rating or label.subject):
        return None
    dimension = figure.dimension
    if dimension == VOLUME:
        return VOLUME_ROLE
    if dimension == PRICE:
        return PRICE_ROLE
    if dimension == MONEY:
        return None if field == "fee" and _weighs(scene) else _money_role(scene, figure)
    if dimension == ECONOMY:
        dashed = field == "dash" or scene.has("dash")
        return "dash_economy" if dashed else None
    if field == "dash":
        return "dash_economy" if 3 <= figure.value <= 60 else None
    if draft.product == "def" and _tells_event(scene, figure):
        return None if dimension in (None, DISTANCE) else VOLUME_ROLE
    if field == "odometer":
        return ODOMETER_ROLE
    if field == "trip_meter":
        return DISTANCE_ROLE
    if dimension == DISTANCE:
        return _distance_role(scene, figure)
    if dimension is None and (field is None or field == "fee"):
        named = isinstance(label, Label) and label.places and not label.only_vehicle
        if named and label.whole != "gross":
            return None
        said = _price_said(scene, figure)
        if field == "fee" and not _weighs(scene) and figure.value >= 5:
            return COST_ROLE
        if isinstance(label, Label) and label.whole == "gross" and figure.token.decimals == 2:
            return COST_ROLE
        if said == PRICE_ROLE or _unit_before(scene, figure) == VOLUME_ROLE:
            return said or VOLUME_ROLE
        if said == COST_ROLE and figure.value >= 5:
            return COST_ROLE
        return "bare"
    return None


def _unit_before(scene: Scene, figure: Figure) -> str | None:
    """'gallons 31.4': a unit of volume that stands before its figure."""
    index = figure.start - 1
    while index >= 0 and (scene.tokens[index].raw in ":=-" or "was" in scene.tokens[index].groups):
        index -= 1
    if index < 0:
        return None
    token = scene.tokens[index]
    if any(other.start <= index < other.end for other in scene.figures):
        return None
    unit = token.senses.get("unit", "")
    if unit in LARGEST_TANK or "volume_word" in token.groups:
        return VOLUME_ROLE
    return None


def _tells_event(scene: Scene, figure: Figure) -> bool:
    """Whether leaving or arriving is told in the figure's own clause."""
    if figure.value < 1000:
        return False
    start, end = scene.clause_of(figure.start)
    return any(start <= index < end for index in scene.by_class.get("event", ()))


def _price_said(scene: Scene, figure: Figure) -> str | None:
    """A word for price or for the total right before a figure."""
    index = figure.start - 1
    for _ in range(3):
        if index < 0:
            return None
        token = scene.tokens[index]
        if "price_word" in token.groups:
            return PRICE_ROLE
        if "cost_word" in token.groups or token.senses.get("whole") == "gross":
            return COST_ROLE
        if "at_alone" in token.groups and (figure.value < 15 or _spoken_price(figure)):
            before = scene.tokens[index - 1] if index else None
            timed = before is not None and "time" in before.senses
            return None if timed else PRICE_ROLE
        if token.raw not in ":/" and "before_amount" not in token.groups:
            return None
        index -= 1
    return None


def _spoken_price(figure: Figure) -> bool:
    """'three eighty nine nine' for 3.899."""
    return figure.token.spoken and figure.token.decimals == 0 and 150 <= figure.value <= 9999


def _money_role(scene: Scene, figure: Figure) -> str:
    said = _price_said(scene, figure)
    if said == PRICE_ROLE and figure.value < 15:
        return PRICE_ROLE
    if figure.token.decimals == 3 and figure.value < 15:
        return PRICE_ROLE
    return COST_ROLE


def _distance_role(scene: Scene, figure: Figure) -> str | None:
    known = scene.context.odometer
    if known is not None and figure.value >= known.value * 0.5:
        return ODOMETER_ROLE
    if figure.value >= 5_000 or (known is not None and known.value < 5_000):
        return ODOMETER_ROLE
    if figure.value <= TRIP_LIMIT:
        return DISTANCE_ROLE
    return ODOMETER_ROLE if figure.value >= 2_000 else None


def _settle_money(context: Context, roles: dict[str, Figure], draft: Draft) -> None:
    """'12 gal, $3.84' is a price; '2.5 gal, $9.75' a total: what the other reading would cost tells."""
    money, volume = roles.get(COST_ROLE), roles.get(VOLUME_ROLE)
    if money is None or PRICE_ROLE in roles or volume is None or money.dimension != MONEY:
        return
    low, high = _band(context, volume.unit)
    as_total = money.value / volume.value if volume.value else 0.0
    if not low <= as_total <= high and low <= money.value <= high:
        roles[PRICE_ROLE] = roles.pop(COST_ROLE)


def _band(context: Context, unit: str | None) -> tuple[float, float]:
    return PRICE_BAND[unit if unit in PRICE_BAND else VOLUME_UNIT[context.units]]


def _evidence(scene: Scene, draft: Draft, *, cue: bool, full: bool | None) -> float:
    roles = draft.roles
    evidence = 0.0
    if VOLUME_ROLE in roles:
        evidence += 1.4
        volume = roles[VOLUME_ROLE]
        if volume.token.decimals > 0:
            evidence += 0.6
        if draft.product is None and not cue and not volume.foreign:
            evidence += 0.2
    if PRICE_ROLE in roles:
        evidence += 1.2
    if COST_ROLE in roles:
        evidence += 0.8
    if ODOMETER_ROLE in roles or DISTANCE_ROLE in roles:
        evidence += 0.9
    if "dash_economy" in roles:
        evidence += 0.4
    if cue:
        evidence += 1.0
    if draft.product:
        evidence += 1.0
    if full is not None:
        evidence += 1.0
    if COST_ROLE in roles and _worth_of_fuel(scene, roles[COST_ROLE]):
        evidence += 1.5
    return evidence


def _worth_of_fuel(scene: Scene, money: Figure) -> bool:
    """'$122 in diesel', '60 bucks worth of gas'."""
    behind = scene.tokens[money.end : money.end + 4]
    linked = bool(behind) and "worth_of" in behind[0].groups and money.marked
    return linked and any("product" in token.senses for token in behind)


def _assign_bare(scene: Scene, draft: Draft, bare: Sequence[Figure], *, cue: bool) -> None:
    """Try bare figures in every role that is free, and keep the best assignment if it is good."""
    context = scene.context
    figures = [figure for figure in bare if figure.foreign is None][:4]
    if not (cue or draft.product) and _counts_things(scene):
        return
    free = [role for role in BARE_ROLES if role not in draft.roles]
    best: tuple[float, tuple[str | None, ...]] = (0.0, ())
    tried: list[tuple[float, list[str]]] = []
    options = [_options(scene, figure, free) for figure in figures]
    for chosen in product(*options):
        named = [role for role, _ in chosen if role]
        if len(named) != len(set(named)):
            continue
        roles = draft.roles | {
            role: figure for (role, _), figure in zip(chosen, figures, strict=True) if role
        }
        score = sum(worth for _, worth in chosen) + _arithmetic(roles)
        if VOLUME_ROLE not in roles and not (COST_ROLE in roles and PRICE_ROLE in roles):
            score -= 3.0
        score -= 0.2 * _disorder(named)
        if scene.trace is not None and score > 0:
            tried.append((score, [role or "nothing" for role, _ in chosen]))
        if score > best[0]:
            best = (score, tuple(role for role, _ in chosen))
    needed = 1.0 if cue or draft.product or draft.roles else 3.5
    for score, names in sorted(tried, reverse=True)[:3]:
        values = ", ".join(
            f"{figure.value:,.10g} as {name}" for figure, name in zip(figures, names, strict=True)
        )
        scene.decided(f"candidate: {values}: {score:.1f} (needs {needed})")
    if best[0] < needed:
        return
    if not (cue or draft.product or draft.roles) and not _sure_alone(context, best[1], figures):
        return
    for role, figure in zip(best[1], figures, strict=True):
        if role:
            draft.roles[role] = figure
    draft.evidence += min(best[0], 4.0) * 0.6
    if context.odometer is None and not (cue or draft.product) and len(draft.roles) < 3:
        draft.evidence -= 1.0


def _sure_alone(context: Context, roles: Sequence[str | None], figures: Sequence[Figure]) -> bool:
    """Bare figures alone make a fill where one follows the odometer and one has a pump's decimals."""
    named = dict(zip(roles, figures, strict=True))
    volume, odometer = named.get(VOLUME_ROLE), named.get(ODOMETER_ROLE)
    if volume is None or volume.token.decimals < 1:
        return False
    if odometer is not None and context.odometer is not None:
        return 0 <= odometer.value - context.odometer.value <= 5000
    return PRICE_ROLE in named and COST_ROLE in named


def _counts_things(scene: Scene) -> bool:
    """Whether the message counts or prices things that no phrase knows: '2 bags of ice'."""
    strangers = sum(
        1
        for token in scene.tokens
        if token.kind is WORD and not token.senses and token.raw[0].islower()
    )
    return strangers > 1 or any(figure.foreign for figure in scene.figures)


def _disorder(named: Sequence[str]) -> int:
    usual = [role for role in BARE_ROLES if role in named]
    return sum(1 for left, right in zip(usual, named, strict=True) if left != right)


def _options(scene: Scene, figure: Figure, free: Sequence[str]) -> list[tuple[str | None, float]]:
    context = scene.context
    value, decimals = figure.value, figure.token.decimals
    options: list[tuple[str | None, float]] = [(None, -0.5)]
    unit = VOLUME_UNIT[context.units]
    low, high = PRICE_BAND[unit]
    if ODOMETER_ROLE in free and value >= 1000 and decimals <= 1:
        if context.odometer is not None:
            ahead = value - context.odometer.value
            options.append((ODOMETER_ROLE, 3.0 if 0 <= ahead <= 5000 else 1.6))
        elif value >= 10_000:
            options.append((ODOMETER_ROLE, 2.0))
    tank = context.tank.amount(unit) if context.tank else LARGEST_TANK[unit]
    if VOLUME_ROLE in free and 0.5 <= value <= tank * TANK_SLACK:
        like_price = low <= value <= high and decimals >= 2
        worth = 2.0 if decimals in (1, 2, 3) else 0.9
        options.append((VOLUME_ROLE, 0.3 if like_price else worth))
    if PRICE_ROLE in free and low <= value <= high and decimals >= 2:
        options.append((PRICE_ROLE, 2.5 if decimals == 3 else 1.6))
    if COST_ROLE in free and 5 <= value <= 600 and decimals in (0, 2):
        options.append((COST_ROLE, 1.7 if decimals == 2 else 0.4))
    if DISTANCE_ROLE in free and 30 <= value <= TRIP_LIMIT and decimals == 1:
        options.append((DISTANCE_ROLE, 1.2))
    return options


def _arithmetic(roles: dict[str, Figure]) -> float:
    """Volume times price is the total: the strongest word that figures can say."""
    if not {VOLUME_ROLE, PRICE_ROLE, COST_ROLE} <= roles.keys():
        return 0.0
    if roles[VOLUME_ROLE].token.decimals == 0 and roles[PRICE_ROLE].token.decimals < 3:
        return 0.0
    total = roles[VOLUME_ROLE].value * roles[PRICE_ROLE].value
    return 4.0 if abs(total - roles[COST_ROLE].value) <= MONEY_TOLERANCE * total else -2.0


def _foreign(scene: Scene, draft: Draft) -> bool:
    """Whether the volume is of something else: milk, water, sugar, a fish tank."""
    volume = draft.roles.get(VOLUME_ROLE)
    if volume is not None and draft.product is None and _named_before(scene, volume):
        return True
    if volume is None or volume.foreign is None:
        strangers = [
            token
            for token in scene.tokens
            if token.kind is WORD and not token.senses and token.raw[0].islower()
        ]
        few = len(strangers) <= 3
        known = draft.product or scene.has("fuel_cue") or scene.has("full")
        return not (known or few or ODOMETER_ROLE in draft.roles or PRICE_ROLE in draft.roles)
    return not (draft.product or ODOMETER_ROLE in draft.roles or PRICE_ROLE in draft.roles)


def _named_before(scene: Scene, volume: Figure) -> bool:
    """'MILK 2 GAL': an unknown noun right before the volume on a line of its own."""
    before = scene.tokens[volume.start - 1] if volume.start else None
    further = scene.tokens[volume.start - 2] if volume.start > 1 else None
    return (
        before is not None
        and before.kind is WORD
        and not before.senses
        and further is not None
        and further.raw == "\n"
    )


def _full(scene: Scene, draft: Draft, *, alone: bool) -> bool | None:
    """Filled up, partial, or not said; 'didn't fill it' outweighs the 'fill' in it."""
    found: bool | None = None
    for index, token, key in scene.find("full"):
        if not alone and not draft.start <= index < draft.end:
            continue
        if key == "false":
            return False
        if "level" in token.senses and scene.by_class.get("weigh_cue"):
            continue
        if "full_word" in token.groups and scene.talk[index] == "negation":
            return False
        if "fills_or_filled" in token.groups and not scene.stated(index):
            continue
        if "filled" in token.groups and not _ends_phrase(scene, index):
            continue
        found = True
    return found


def _ends_phrase(scene: Scene, index: int) -> bool:
    """'filled' says full unless a volume or a container follows it: 'filled 20 gal'."""
    following = scene.tokens[index + 1] if index + 1 < len(scene.tokens) else None
    return following is None or following.kind is not WORD or "product" in following.senses


def _entry(
    scene: Scene, draft: Draft, *, full: bool | None, missed: bool | None
) -> Fill | Doubt | None:
    context, roles = scene.context, draft.roles
    volume = _volume(context, roles.get(VOLUME_ROLE))
    price = _price(context, roles.get(PRICE_ROLE), volume)
    cost = _money(context, roles.get(COST_ROLE), volume)
    odometer = _distance(context, roles.get(ODOMETER_ROLE))
    distance = _distance(context, roles.get(DISTANCE_ROLE))
    dash = _economy(context, roles.get("dash_economy"))
    fill = Fill(
        product=draft.product,
        volume=volume,
        odometer=odometer,
        distance=distance,
        unit_price=price,
        cost=cost,
        full=full,
        missed=missed,
        dash_economy=dash,
        words=tuple(
            (role, scene.words_between(figure.start, figure.end)) for role, figure in roles.items()
        ),
    )
    for doubt in _doubts(scene, fill, roles):
        return doubt
    for figure in roles.values():
        figure.role = "fill"
    return fill


def _doubts(scene: Scene, fill: Fill, roles: dict[str, Figure]) -> Iterator[Doubt]:
    context = scene.context
    if fill.odometer is not None:
        doubt = odometer_doubt(
            context, fill.odometer, lambda odometer: replace(fill, odometer=odometer, words=())
        )
        if doubt is not None:
            yield doubt
    if fill.volume is not None and fill.product != "def":
        tank = context.tank
        if fill.volume.value <= 0 or roles[VOLUME_ROLE].negative:
            yield Doubt("volume", "implausible", (fill.volume,))
        elif tank is not None and fill.volume.amount("L") > tank.amount("L") * TANK_SLACK:
            typed = Choice(f"{fill.volume.value:,.10g} {fill.volume.unit}, as typed", (fill,))
            yield Doubt("volume", "over_tank", (fill.volume, tank), (typed,))
    if fill.unit_price is not None:
        low, high = _band(context, fill.unit_price.unit.partition("/")[2])
        known = fill.unit_price.unit[:3] in BANDED_CURRENCIES
        if known and not low * 0.7 <= fill.unit_price.value <= high * 1.3:
            yield Doubt("unit_price", "implausible", (fill.unit_price,))
    if fill.volume and fill.cost and not fill.unit_price and fill.product != "def":
        low, high = _band(context, fill.volume.unit)
        each = fill.cost.value / fill.volume.value
        same = fill.cost.unit in BANDED_CURRENCIES
        if same and not low * 0.6 <= each <= high * 1.4:
            yield Doubt("cost", "implausible", (fill.cost,))
    if fill.volume and fill.unit_price and fill.cost:
        total = fill.volume.value * fill.unit_price.value
        if fill.unit_price.unit.endswith(fill.volume.unit):
            off = abs(total - fill.cost.value)
            if off > max(MONEY_TOLERANCE * total, 0.05):
                meant = Quantity(round(total, 2), fill.cost.unit)
                yield Doubt("cost", "price_does_not_fit", (meant, fill.cost))


def _volume(context: Context, figure: Figure | None) -> Quantity | None:
    if figure is None:
        return None
    unit = figure.unit if figure.dimension == VOLUME else VOLUME_UNIT[context.units]
    return Quantity(figure.value, unit or VOLUME_UNIT[context.units], figure.low)


def _price(context: Context, figure: Figure | None, volume: Quantity | None) -> Quantity | None:
    if figure is None:
        return None
    if figure.dimension == PRICE and figure.unit and "/" in figure.unit:
        return Quantity(figure.value, figure.unit)
    currency = figure.unit if figure.dimension == MONEY else context.currency
    unit = volume.unit if volume is not None else VOLUME_UNIT[context.units]
    value = figure.value
    _, high = _band(context, unit)
    if figure.unit in ("pence", "cents"):
        currency, value = ("GBP" if figure.unit == "pence" else context.currency), value / 100
    elif figure.dimension is None and value > high and unit == "L" and 60 <= value <= 300:
        value = round(value / 100, 5)  # cents or pence a litre, as pumps show them
    elif figure.dimension is None and figure.token.spoken and value >= 100:
        value = round(value / (1000 if value >= 1000 else 100), 5)
    return Quantity(round(value, 5), f"{currency}/{unit}")


def _money(context: Context, figure: Figure | None, volume: Quantity | None) -> Quantity | None:
    if figure is None:
        return None
    if figure.token.spoken and figure.whole and figure.value >= 1000 and volume is not None:
        # 'one eighteen fifty six' at a pump is 118.56.
        low, high = _band(context, volume.unit)
        if low <= figure.value / 100 / volume.value <= high:
            unit = figure.unit if figure.dimension == MONEY else context.currency
            return Quantity(figure.value / 100, unit or context.currency)
    unit = figure.unit if figure.dimension == MONEY else context.currency
    return Quantity(figure.value, unit or context.currency)


def _distance(context: Context, figure: Figure | None) -> Quantity | None:
    if figure is None:
        return None
    unit = figure.unit if figure.dimension == DISTANCE else None
    return Quantity(figure.value, unit or odometer_unit(context))


def odometer_unit(context: Context) -> str:
    """The unit meant where an odometer reading has none: that of the last, or the chat's."""
    return context.odometer.unit if context.odometer else DISTANCE_UNIT[context.units]


def _economy(context: Context, figure: Figure | None) -> Quantity | None:
    if figure is None:
        return None
    unit = figure.unit if figure.dimension == ECONOMY else ECONOMY_UNIT[context.units]
    return Quantity(figure.value, unit or ECONOMY_UNIT[context.units])
