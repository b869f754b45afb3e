"""What a figure is to a fill, as its unit, its label and the words before it say.

This file decides the roles that are said: '31.4 gal' is a volume, 'at 3.699' a price, 'trip 412'
a distance. Figures that say nothing are left to `bare_fills`.
"""

from __future__ import annotations

import re
from dataclasses import dataclass

from domain.context import VOLUME_UNIT, Context
from domain.quantities import Quantity
from domain.reading.dearest_fuel import DEAREST as DEAREST_GALLON
from domain.reading.dearest_fuel import dearest
from domain.reading.figures import (
    DISTANCE,
    ECONOMY,
    MONEY,
    PRICE,
    VOLUME,
    Figure,
    follows_odometer,
    mean_kilometres,
)
from domain.reading.gauge_values import reads_gauge_behind
from domain.reading.label import Label
from domain.reading.scene import Scene
from domain.reading.tokens import MARK, MILLS, Token

PRICE_BAND = {"gal": (1.2, 9.99), "gal_imp": (3.0, 14.0), "L": (0.4, 3.8)}
"""What a unit of fuel has cost at the pump, in dollars, pounds or euros; wide on purpose."""


_THREE_BEHIND_COMMA = re.compile(r"\d,\d{3}")
_FEW_BEHIND_COMMA = re.compile(r"\d+,\d\d?")


LARGEST_TANK = {"gal": 120.0, "gal_imp": 100.0, "L": 450.0}

SMALL_TANK = 0.1
"""What the largest tank of exhaust fluid holds of what the largest one of fuel does."""


DEAREST = 16_000
"""No price, even one a litre whose comma is a decimal one."""

TRIP_LIMIT = 1_500
"""Miles or kilometres: a trip meter since the last fill shows less."""


VOLUME_ROLE, PRICE_ROLE, COST_ROLE, ODOMETER_ROLE, DISTANCE_ROLE = (
    "volume",
    "unit_price",
    "cost",
    "odometer",
    "distance",
)


@dataclass(slots=True)
class Draft:
    """One fill in the making: a figure for each role, and what was said of it.

    `of_tank` says that it is of a tank beside others, or of several together. Of a stop that is
    told in one sentence with others, what stands before the token `opens` is said of each.
    `cued` says that what stands beside it leaves no doubt that fuel was poured.
    """

    product: str | None
    start: int
    end: int
    roles: dict[str, Figure]
    evidence: float = 0.0
    of_tank: bool = False
    opens: int | None = None
    cued: bool = False


def is_said_of(draft: Draft, index: int) -> bool:
    """Whether what stands at a token is said of a fill: in its own part, or of all in turn."""
    return draft.start <= index < draft.end or index < (draft.opens or 0)


def weighs(scene: Scene) -> bool:
    """Whether the message states loads."""
    return "load" in [figure.role for figure in scene.figures]


def role_of(scene: Scene, figure: Figure, draft: Draft) -> str | None:
    """The role that unit or label gives a figure; 'bare' where they say nothing."""
    label, dimension, field = figure.label, figure.dimension, None
    if isinstance(label, Label):
        if label.rating == "tank" and dimension == VOLUME:
            if label.compound:
                return None  # 'that fish tank is 29 gallons'
        elif label.rating or label.subject:
            return None
        field = label.field
    if dimension == VOLUME:
        return None if _is_not_pumped(scene, figure) else VOLUME_ROLE
    if dimension == PRICE:
        return PRICE_ROLE
    if dimension == MONEY:
        return None if field == "fee" and weighs(scene) else _money_role(scene, figure)
    if dimension == ECONOMY:
        dashed = field == "dash" or (scene.has("dash") and not _on_the_dash(scene))
        return "dash_economy" if dashed else None
    if field == "dash":
        if _was_hoped(scene, figure):
            return None
        told = 3 <= figure.value <= 60 and figure.token.decimals < MILLS
        return "dash_economy" if told else None
    if draft.product == "def" and _tells_event(scene, figure):
        return None if dimension in (None, DISTANCE) else VOLUME_ROLE
    if field == "odometer":
        return ODOMETER_ROLE
    if field == "trip_meter" and follows_odometer(figure.value, scene.context):
        return ODOMETER_ROLE  # '96 L, 234,310, trip meter 612 km'
    if field == "trip_meter":
        if figure.value < LEAST_TRIP and figure.dimension is None:
            return None  # 'got 11.2 on that tank, 25.3 gal'
        if figure.value > TRIP_LIMIT:
            mean_kilometres(figure)  # '480 k since last fill': no trip is so many thousands
        return DISTANCE_ROLE
    if dimension == DISTANCE:
        return _distance_role(scene, figure)
    if dimension is None and (field is None or field == "fee"):
        if (
            isinstance(label, Label)
            and label.places
            and (
                not (label.only_vehicle or label.only_ordinal or label.whole == "gross")
                or _weighs_trailer(scene, figure, label)
            )
        ):
            return None
        said = _price_said(scene, figure)
        if figure.value <= LAST_HOUR and said is None and _is_hour(scene, figure):
            return None  # 'filled up at 7, 24.2 gal'
        if said is None and _comma_price(scene, figure):
            figure.value /= 1_000
            return PRICE_ROLE
        if field == "fee" and not weighs(scene) and figure.value >= 5:
            return COST_ROLE
        if said == PRICE_ROLE:
            return said
        if _unit_before(scene, figure, lettered=said is None) == VOLUME_ROLE:
            return VOLUME_ROLE  # 'gal = 31.4'
        if isinstance(label, Label) and label.whole == "gross" and figure.token.decimals == 2:
            return COST_ROLE
        if said == COST_ROLE and figure.value >= 5:
            return COST_ROLE
        if _is_of_product(scene, figure):
            return VOLUME_ROLE
        if not figure.start:
            return "bare"
        if figure.value in BANKNOTES and "a_thing" in scene.groups and _is_one(scene, figure):
            return COST_ROLE if _is_spent_on_fuel(scene, figure) else None
        if _is_of_ware(scene, figure):
            return None
        return DISTANCE_ROLE if _of_trip(scene, figure) else "bare"
    return None


def _weighs_trailer(scene: Scene, figure: Figure, label: Label) -> bool:
    """'trailer 9.7k and 28.3 gal': no odometer of ours shows so little, and a trailer weighs it."""
    known = scene.context.odometer
    read = known is None or follows_odometer(figure.value, scene.context)
    return label.vehicle == "trailer" and figure.value >= LEAST_TRAILER and not read


LEAST_TRAILER = 1_000
"""Pounds or kilograms."""


def _is_not_pumped(scene: Scene, figure: Figure) -> bool:
    """Whether a volume is of another fluid, or is held, let out or flows."""
    if NOT_PUMPED.isdisjoint(scene.groups) and NO_FUEL.isdisjoint(scene.by_class):
        return False
    if "subject" in scene.by_class and reads_gauge_behind(scene, figure):
        return False
    other = _of_other_fluid(scene, figure) or _is_topped_up(scene, figure) or _holds(scene, figure)
    return other or _is_let_out(scene, figure) or _is_rate(scene, figure)


NOT_PUMPED = frozenset(("has_room_for", "out", "per_one", "lets_out", "names_fluid", "each"))
NO_FUEL = frozenset(("subject", "rating_cue", "check_item"))
"""Groups and classes of term without one of which a volume is what was pumped."""


def _is_of_product(scene: Scene, figure: Figure) -> bool:
    """'62 L of diesel and 10 of def': the unit is said once, for both."""
    if "product" not in scene.by_class:
        return False
    behind = scene.tokens[figure.end : figure.end + 2]
    if behind and "product" in behind[0].senses:
        return _are_several_products(scene, figure)
    if len(behind) < 2 or "of" not in behind[0].groups or "product" not in behind[1].senses:
        return False
    return any(other.dimension == VOLUME for other in scene.figures)


def _is_of_ware(scene: Scene, figure: Figure) -> bool:
    """'diesel additive 18.99': the one bare figure is of what its fuel is named in, and no fuel."""
    at = figure.start - 1
    ware = scene.tokens[at]
    part = "check_item" in ware.senses and "fuel_cue" not in ware.senses  # 'fuel filter 18.99'
    if not part and (at not in scene.unknown or not at):
        return False
    fuel = scene.tokens[at - 1]
    named = "product" in fuel.senses or "fuel" in fuel.groups
    strange = ware.raw.islower() and (not ware.groups or "tells_of_fuel" in ware.groups)
    bare = [each for each in scene.live if each.dimension is None and not each.label]
    return (part or (named and strange)) and len(bare) == 1


def _is_one(scene: Scene, figure: Figure) -> bool:
    """'a twenty', without a unit: a note of money, and nothing that was pumped."""
    return "a_thing" in scene.tokens[figure.start - 1].groups


def _is_spent_on_fuel(scene: Scene, note: Figure) -> bool:
    """'threw a twenty in the tank', 'a fifty of diesel', and not 'a twenty in the card'."""
    behind = scene.tokens[note.end : note.end + 3]
    if not behind or behind[0].groups.isdisjoint(SPENDS):
        return False
    for token in behind[1:]:
        if "product" in token.senses or not token.groups.isdisjoint(FUELS):
            note.unit, note.dimension, note.marked = scene.context.currency, MONEY, True
            return True
        if "article" not in token.groups:
            break
    return False


BANKNOTES = frozenset((5, 10, 20, 50, 100))
"""What a note of money is worth that people call by its number."""

SPENDS = frozenset(("into", "into_the", "of", "worth_of"))
"""Groups of words between a note and the fuel that it was spent on."""

FUELS = frozenset(("fuel_in_tank", "its_tank"))
"""Groups of words for fuel, and for what burns it."""


def _are_several_products(scene: Scene, figure: Figure) -> bool:
    """'filled both, 28 diesel and 2 def': so much of each, and none of them is money."""
    if figure.value > LARGEST_TANK[VOLUME_UNIT[scene.context.units]]:
        return False
    if figure.token.decimals > 1 or "fuel_cue" not in scene.by_class:
        return False
    if any(each.start == figure.end + 1 for each in scene.figures):
        return False  # 'Pump 1 DIESEL 88.10 L'
    ends = {each.end: each for each in scene.figures if each.dimension in (None, VOLUME)}
    poured = [key for index, _, key in scene.find("product") if index in ends]
    return len(set(poured)) > 1


def _on_the_dash(scene: Scene) -> bool:
    """'by hand 13.1 mpg, dash 12.9': whether a figure is named as the one that the dash shows."""
    return any(
        isinstance(figure.label, Label)
        and figure.label.field == "dash"
        and not _was_hoped(scene, figure)
        for figure in scene.figures
    )


def _was_hoped(scene: Scene, figure: Figure) -> bool:
    """'was hoping for 14 but dash gave 12.3 mpg': it stood nowhere, the dash or another gauge."""
    start, _ = scene.clause_of(figure.start)
    return any("guessed_at" in token.groups for token in scene.tokens[start : figure.start])


def _unit_before(scene: Scene, figure: Figure, *, lettered: bool) -> str | None:
    """'gallons 31.4': a unit of volume that stands before its figure.

    Whether it may be one letter: 'l = 2' is not said of fuel.
    """
    if "unit" not in scene.by_class and "volume_word" not in scene.groups:
        return None
    index = figure.start - 1
    while index >= 0 and (
        scene.tokens[index].raw in ":=-"
        or "was" in scene.tokens[index].groups
        or _is_leader(scene.tokens[index])
    ):
        index -= 1
    if index < 0:
        return None
    token = scene.tokens[index]
    if token.senses.get("unit", "") not in LARGEST_TANK and "volume_word" not in token.groups:
        return None
    if not lettered and len(token.raw) == 1:
        return None
    another = any(other.start <= index < other.end for other in scene.figures)
    return None if another else VOLUME_ROLE


def _of_trip(scene: Scene, figure: Figure) -> bool:
    """'16.3 gal, trip 188', 'pumped 16.3, trip 188': what a trip meter shows, beside a volume."""
    if "trip_word" not in scene.groups:
        return False
    if "trip_word" not in scene.tokens[figure.start - 1].groups:
        return False
    fuelled = any(other.dimension == VOLUME for other in scene.figures)
    fuelled = fuelled or ("fuel_cue" in scene.by_class and len(scene.live) > 1)
    return fuelled and LEAST_TRIP <= figure.value <= TRIP_LIMIT


LEAST_TRIP = 20
"""Miles or kilometres: less is the number of a trip."""


def _is_leader(token: Token) -> bool:
    """'GALLONS ........ 28.417'."""
    return token.kind is MARK and len(token.raw) > 1 and not token.raw.strip(". ")


def _tells_event(scene: Scene, figure: Figure) -> bool:
    """Whether leaving or arriving is told in the figure's own clause."""
    if figure.value < 1000:
        return False
    start, end = scene.clause_of(figure.start)
    return any(start <= index < end for index in scene.by_class.get("event", ()))


def _price_said(scene: Scene, figure: Figure) -> str | None:
    """A word for price or for the total right before a figure."""
    if PRICED.isdisjoint(scene.groups) and "whole" not in scene.by_class:
        return None
    index = figure.start - 1
    for _ in range(3):
        if index < 0:
            return None
        token = scene.tokens[index]
        if "price_word" in token.groups:
            high = (
                figure.value >= DEAREST
                and figure.dimension is None
                and not figure.token.said.spoken
            )
            return None if high else PRICE_ROLE  # 'full @ 48,277'
        if "cost_word" in token.groups or token.senses.get("whole") == "gross":
            return COST_ROLE
        if "for" in token.groups and figure.token.decimals == 2 and figure.dimension is None:
            return COST_ROLE  # '31.2 gal for 98.20'
        dear = dearest(scene.context.currency)
        if "at_alone" in token.groups and (
            figure.value < dear or _spoken_price(figure) or in_small_coins(scene, figure)
        ):
            if _is_hour(scene, figure):
                return None
            before = scene.tokens[index - 1] if index else None
            timed = before is not None and "time" in before.senses
            return None if timed else PRICE_ROLE
        passed = "before_amount" in token.groups or "per_volume" in token.senses
        if token.raw not in ":/" and not passed and not _is_leader(token):
            return None
        index -= 1
    return None


PRICED = frozenset(("price_word", "cost_word", "for", "at_alone"))
"""Groups of words before a price or a total; so are those for the whole."""


def in_small_coins(scene: Scene, figure: Figure) -> bool:
    """'49.6 L at 151.9': pence or cents a litre, with the one decimal that pumps show."""
    low, high = COINS_A_LITRE
    if figure.token.decimals != 1 or figure.dimension is not None:
        return False
    if not low <= figure.value <= high:
        return False
    if dearest(scene.context.currency) > DEAREST_GALLON:
        return False
    units = {other.unit for other in scene.figures if other.dimension == VOLUME}
    return (units or {VOLUME_UNIT[scene.context.units]}) == {"L"}


def pays_in_pairs(context: Context, cost: Figure, volume: Figure | Quantity) -> bool:
    """'one eighteen fifty six' at a pump is 118.56, where that is a price for the volume."""
    if not (cost.token.said.spoken and cost.whole and cost.value >= 1000 and volume.value):
        return False
    low, high = price_band(context, volume.unit)
    return low <= cost.value / 100 / volume.value <= high


COINS_A_LITRE = (60, 300)
"""Hundredths of a dollar, pound or euro; other money is not counted so at a pump."""


def _of_other_fluid(scene: Scene, figure: Figure) -> bool:
    """'2 litres of oil', 'coolant topped up with 2 L', 'oil 5 L': no fuel."""
    if "subject" not in scene.by_class:
        return False
    of = "of" in scene.tokens[figure.end].groups if figure.end < len(scene.tokens) else False
    behind = scene.tokens[figure.end + of : figure.end + of + 2]
    if len(behind) > 1 and {"check_item", "subject"} & behind[0].senses.keys() == {"check_item"}:
        behind = behind[1:]  # 'hydraulic oil'
    if behind and behind[0].senses.get("subject", "").split(" ")[0] in FLUIDS:
        return True
    ahead = scene.tokens[max(0, figure.start - FARTHEST_FLUID) : figure.start]
    if len(ahead) > 1 and ahead[-1].raw == "," and ahead[-2].senses.keys() & {"full", "fuel_cue"}:
        ahead = ahead[:-1]  # 'oil topped up, 1.5 L'
    for token in reversed(ahead):
        if token.senses.get("subject") in FLUIDS:
            return True
        if "and" in token.groups or token.senses.keys().isdisjoint(BEFORE_VOLUME):
            return False
    return False


def _is_topped_up(scene: Scene, figure: Figure) -> bool:
    """'washer fluid 2 gal', '2 gal of brake fluid': what is looked after, and burns nowhere."""
    behind = scene.tokens[figure.end : figure.end + 2]
    if behind and "of" in behind[0].groups:
        behind = behind[1:]
    beside = [*scene.tokens[max(0, figure.start - 1) : figure.start], *behind[:1]]
    fluids = scene.book.groups["names_fluid"]
    return any(
        "product" not in token.senses and token.text.rpartition(" ")[2] in fluids
        for token in beside
    )


FLUIDS = frozenset(("oil", "coolant", "transmission"))
"""Gauges by the names of which an engine's other fluids go."""

FARTHEST_FLUID = 4
"""Tokens between a fluid and its volume, and the fluid, at most."""

BEFORE_VOLUME = frozenset(("glue", "full", "fuel_cue"))
"""Classes of term of which the words between a fluid and its volume are."""


def _is_hour(scene: Scene, figure: Figure) -> bool:
    """'a ride at 5, 20 bucks for gas': a small whole number is no price where no volume is.

    Nor is it one before a volume, but for what fuel itself is told at: 'diesel at 4, 24.2 gal'.
    """
    if figure.value > LAST_HOUR or figure.marked or not figure.whole:
        return False
    before = scene.tokens[max(0, figure.start - 2) : figure.start]
    if not before or "at_alone" not in before[-1].groups:
        return False
    if "product" in before[0].senses or "fuel" in before[0].groups:
        return False
    pumped = [each for each in scene.figures if each.dimension == VOLUME]
    dear = figure.value >= DEAR_GALLON and any(each.unit == "gal" for each in pumped)
    return dear or not any(each.end <= figure.start for each in pumped)


LAST_HOUR = 12

DEAR_GALLON = 6
"""Dollars: a gallon that costs as much is not told without its cents."""


def _is_let_out(scene: Scene, figure: Figure) -> bool:
    """'pumped 1,200 gal out of the septic tank', 'drained 4 gal': what went out was no fill."""
    behind = scene.tokens[figure.end : figure.end + 2]
    before = scene.tokens[max(0, figure.start - 2) : figure.start]
    if any("lets_out" in token.groups for token in before):
        return True
    return len(behind) == 2 and "out" in behind[0].groups and "of" in behind[1].groups


def _is_rate(scene: Scene, figure: Figure) -> bool:
    """'28 gallons a minute', '5 gal per day': how fast something flows, and nobody pumped it."""
    behind = scene.tokens[figure.end : figure.end + 2]
    if any("each" in token.groups for token in behind) and any(
        each.dimension == DISTANCE and 0 < each.start - figure.end <= len(behind)
        for each in scene.figures
    ):
        return True  # '2.5 gal def every 900 miles'
    spans = scene.book.keys["span_unit"]
    return len(behind) == 2 and "per_one" in behind[0].groups and behind[1].text in spans


def _holds(scene: Scene, figure: Figure) -> bool:
    """'15 gallon capacity', 'the jug holds 2.5 gallons': what can be in it, and nobody pumped."""
    behind = scene.tokens[figure.end] if figure.end < len(scene.tokens) else None
    before = scene.tokens[figure.start - 1] if figure.start else None
    holds = before is not None and "has_room_for" in before.groups
    return holds or (behind is not None and "rating_cue" in behind.senses)


def _comma_price(scene: Scene, figure: Figure) -> bool:
    """'61,4 litros 1,529': a decimal comma, as another figure of the message has one."""
    if not _THREE_BEHIND_COMMA.fullmatch(figure.token.raw):
        return False
    return any(_FEW_BEHIND_COMMA.fullmatch(other.token.raw) for other in scene.figures)


def _spoken_price(figure: Figure) -> bool:
    """'three eighty nine nine' for 3.899."""
    return figure.token.said.spoken and figure.token.decimals == 0 and 150 <= figure.value <= 9999


def _money_role(scene: Scene, figure: Figure) -> str:
    said = _price_said(scene, figure)
    dear = dearest(scene.context.currency)
    grouped = figure.token.grouped and max(1_000, dear) <= figure.value < 15_000
    if grouped and (said == PRICE_ROLE or _comma_price(scene, figure)):
        figure.value /= 1_000  # '1,729 EUR' a litre: the comma is a decimal one
        return PRICE_ROLE
    if said == PRICE_ROLE and figure.value < dear:
        return PRICE_ROLE
    if figure.token.decimals == 3 and figure.value < 15:
        return PRICE_ROLE
    return COST_ROLE


def _distance_role(scene: Scene, figure: Figure) -> str | None:
    known = scene.context.odometer
    if scene.phrase_said("still_to_run", figure.end, figure.end + FARTHEST_AHEAD) is not None:
        return None  # 'the dash says 40 miles to go'
    if known is not None and figure.value >= known.value * 0.5:
        return ODOMETER_ROLE
    if figure.value >= 5_000 or (known is not None and known.value < 5_000):
        return ODOMETER_ROLE
    if figure.value <= TRIP_LIMIT:
        return DISTANCE_ROLE if figure.value >= LEAST_TRIP else None
    return ODOMETER_ROLE if figure.value >= 2_000 else None


FARTHEST_AHEAD = 2
"""Tokens behind a distance that say that it is still to be driven."""


def price_band(context: Context, unit: str | None) -> tuple[float, float]:
    """What a unit of fuel has cost, from and to; of the chat's unit where that is unknown."""
    return PRICE_BAND[unit if unit in PRICE_BAND else VOLUME_UNIT[context.units]]
