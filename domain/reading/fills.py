"""Fuel bought: which figures of a message make a fill, or several.

This file decides how surely the message speaks of fuel, which readings are of the fill, and
whether it was filled up. Where one fill ends and the next begins is decided in `fill_drafts`,
what each figure is (volume, price, total, odometer) in `fill_roles`, for bare figures in
`bare_fills`; the entry and its doubts are made in `fill_entries`.
"""

from __future__ import annotations

from collections.abc import Sequence

from domain.choices import ChoiceLabel
from domain.context import VOLUME_UNIT, Context
from domain.entries import Fill
from domain.quantities import Quantity
from domain.reading.bare_fills import assign_bare
from domain.reading.clocks import HAPPENED
from domain.reading.containers import is_poured_in
from domain.reading.corrected_last import is_of_next_fill, parts_last
from domain.reading.done_otherwise import (
    OF_NO_FUEL,
    WORKS,
    YIELDS,
    done_otherwise,
    is_burnt_at_work,
    is_used_up,
    is_yielded,
)
from domain.reading.doubts import Doubt
from domain.reading.figures import (
    DIMENSION,
    DISTANCE,
    MONEY,
    NEXT_READING,
    VOLUME,
    Figure,
)
from domain.reading.fill_drafts import drafts_of, share_costs, share_readings
from domain.reading.fill_entries import fill_of
from domain.reading.fill_evidence import evidence_of, is_our_tank, is_paid_beside
from domain.reading.fill_money import settle_money, settle_price
from domain.reading.fill_readings import (
    READ_THERE,
    odometer_beside,
    read_at_signal,
    read_elsewhere,
    read_on_arriving,
    read_on_leaving,
)
from domain.reading.fill_roles import (
    COST_ROLE,
    ODOMETER_ROLE,
    PRICE_ROLE,
    VOLUME_ROLE,
    Draft,
    is_said_of,
    price_band,
    role_of,
    weighs,
)
from domain.reading.filled_tanks import add_tanks
from domain.reading.filled_up import is_full
from domain.reading.headed_volumes import head_volumes
from domain.reading.label import Label
from domain.reading.logged_late import leaves_one_out
from domain.reading.not_pumped import NOT_PUMPED, leave_not_pumped
from domain.reading.other_goods import (
    leave_fluids,
    leave_other_goods,
    leave_snacks,
    named_before,
)
from domain.reading.other_tanks import (
    goes_elsewhere,
    is_paid_for_another,
    leave_other_tanks,
)
from domain.reading.paid_fuel import pays_alone, put_in_at, puts_money_in
from domain.reading.scene import Scene
from domain.reading.squeezed_in import MORE, add_squeezed
from domain.reading.tallies import TALLYING, is_tally
from domain.reading.tokens import BREAK, CENTS, MARK, MILLS, NUMBER, TENTHS, WORD
from domain.reading.told_of_both import told_of_both
from domain.reading.unpaid import (
    CHANGES,
    leave_sum_with_can,
    leave_sum_with_other,
    leave_swipes,
    leave_unpaid,
    settle_sum,
)
from domain.reading.wares import leave_wares
from domain.verdicts import Choice

DECISIVE = 2.0


def read_fills(scene: Scene) -> list[Fill] | Doubt:
    """The fills that a message states, a doubt about them, or none."""
    told = len(scene.figures)
    if told > 1:
        if scene.unknown and "\n" not in scene.text:
            leave_wares(scene)
            if "a_thing" in scene.groups:
                leave_sum_with_can(scene)  # '22.8 gal and a coffee, 89.13 total'
        if not CHANGES.isdisjoint(scene.groups):
            leave_unpaid(scene)
        if "fuel_cue" in scene.by_class and not NOT_PUMPED.isdisjoint(scene.groups):
            leave_not_pumped(scene)
        if told > BOTH:
            if "product" in scene.by_class:
                settle_sum(scene)
            leave_swipes(scene)
        if "container" in scene.groups:
            leave_sum_with_can(scene)
    if "\n" in scene.text:
        leave_other_goods(scene)
    elif told >= FEWEST_WITH_SNACKS and "unit" in scene.by_class:
        leave_snacks(scene)
    if told >= FEWEST_WITH_SNACKS and "names_fluid" in scene.groups:
        leave_fluids(scene)
    if (told > 1 or "container" in scene.groups) and leave_other_tanks(scene):
        leave_sum_with_other(scene)
    if "unit" in scene.by_class and VOLUME not in map(DIMENSION, scene.live):
        head_volumes(scene)
    if not _may_be_fill(scene):
        return []
    drafts = drafts_of(scene)
    if len(drafts) > 1:
        share_costs(scene, drafts)
        share_readings(scene, drafts)
    fills: list[Fill] = []
    for draft in drafts:
        result = _read(scene, draft, alone=len(drafts) == 1)
        if isinstance(result, Doubt):
            return result
        if result is not None:
            fills.append(result)
    return told_of_both(scene, drafts, fills) if len(fills) == BOTH else fills


BOTH = 2
"""Fills beside each other of which something may be said once."""

FEWEST_WITH_SNACKS = 3
"""Figures: a volume, what it cost, and what something else cost."""


def _may_be_fill(scene: Scene) -> bool:
    """Whether a word or unit is of fuel, or figures are left that could be a fill by their form."""
    only: Figure | None = None
    for figure in scene.live:
        if figure.role is None:
            if only is not None:
                return True
            only = figure
    if only is None:
        return False
    spoken = not (FUELLED.isdisjoint(scene.by_class) and SPEAKS_OF_FILLS.isdisjoint(scene.groups))
    measured = only.dimension == VOLUME or (only.dimension is None and "unit" in scene.by_class)
    return spoken or measured


FUELLED = frozenset(("fuel_cue", "product", "full", "trip_meter"))
"""Classes of term beside which one figure alone may be of a fill."""

SPEAKS_OF_FILLS = frozenset(("volume_word", "putting", "putting_in", "at_alone", "price_word"))
"""Groups of such words."""


def _read(scene: Scene, draft: Draft, *, alone: bool) -> Fill | Doubt | None:
    own = [
        figure
        for figure in scene.live
        if draft.start <= figure.start < draft.end and figure.role is None
    ]
    if not own:
        return None
    context, classes, groups = scene.context, scene.by_class, scene.groups
    cue = "fuel_cue" in classes and any(
        is_said_of(draft, index) and scene.stated(index) for index in classes["fuel_cue"]
    )
    cue = cue or draft.cued
    if not cue and "in" in groups:
        cue = put_in_at(scene, own) if len(own) == BOTH else puts_money_in(scene, own)
    full = is_full(scene, draft, alone=alone) if "full" in classes else None
    missed = True if draft.product != "def" and leaves_one_out(scene) else None
    bare: list[Figure] = []
    stopped = len(own)
    if not APART.isdisjoint(scene.said):
        own = _of_this_fill(scene, own)
    for figure in own:
        role = role_of(scene, figure, draft)
        if role == "bare":
            bare.append(figure)
        elif role is not None and role not in draft.roles:
            draft.roles[role] = figure
    roles = draft.roles
    said = roles.get(VOLUME_ROLE)
    several = not SEVERAL.isdisjoint(groups) and not draft.of_tank and draft.opens is None
    if said is not None and several:
        draft.of_tank = add_tanks(scene, roles, own)
        bare = [each for each in bare if each.claimed is None and each not in roles.values()]
    if len(own) == 1 and bare and pays_alone(scene, own[0]):
        roles[COST_ROLE] = bare.pop()
    settle_money(scene, roles, own)
    if "fuel_cue" in classes and "product" not in classes:
        volume = roles.get(VOLUME_ROLE)
        if not _pays_for_fuel(context, roles) and _fills_another(scene, volume):
            return None
    unclear = _bought_without_unit(scene, own[0]) if len(own) == 1 else None
    if unclear is not None:
        return unclear
    settle_price(context, roles)
    draft.evidence = evidence_of(scene, draft, cue=cue, full=full)
    if len(own) < stopped:
        draft.evidence += READ_THERE
    if bare and not weighs(scene):
        assign_bare(scene, draft, bare, cue=cue or draft.cued or full is not None)
        if COST_ROLE in roles:
            settle_price(context, roles)  # '22.9, 51,366, $3.87'
    elif bare and VOLUME_ROLE in roles:
        odometer_beside(scene, roles, bare)
    if VOLUME_ROLE in roles and said is None and several:
        # 'put 22.4 in the main and 14.1 in the aux'
        draft.of_tank = add_tanks(scene, roles, own)
    if VOLUME_ROLE in roles and len(own) > 1 and not MORE.isdisjoint(groups):
        add_squeezed(scene, roles[VOLUME_ROLE], own)
    if VOLUME_ROLE not in roles and not (
        COST_ROLE in roles
        and (cue or draft.cued or draft.product or PRICE_ROLE in roles or full is not None)
    ):
        return _without_volume(scene, draft, own, cue=cue, full=full, missed=missed)
    if VOLUME_ROLE not in roles and draft.evidence < DECISIVE + 1:
        if alone or not is_paid_beside(scene, draft, roles[COST_ROLE]):
            return None
        draft.evidence = DECISIVE
    scene.decided(
        lambda: (
            f"fill with {', '.join(roles)}: evidence {draft.evidence:.1f}, and {DECISIVE} decides"
        )
    )
    if draft.evidence < DECISIVE or _foreign(scene, draft):
        return None
    return fill_of(scene, draft, full=full, missed=missed)


APART = HAPPENED | {"fuel_signal", "points_back", "coming_up"}
"""Classes of term and groups of words with which a figure may be told that is of no fill."""


def _of_this_fill(scene: Scene, own: list[Figure]) -> list[Figure]:
    """The figures that are not read on the way, at a fuel light, or of a fill before."""
    if not HAPPENED.isdisjoint(scene.by_class):
        own = [
            figure
            for figure in own
            if not (
                read_on_leaving(scene, figure, own)
                or read_on_arriving(scene, figure, own)
                or read_elsewhere(scene, figure, own)
            )
        ]
    if "fuel_signal" in scene.groups:
        own = [figure for figure in own if not read_at_signal(scene, figure, own)]
    if "points_back" in scene.groups:
        parted = parts_last(scene)
        own = [figure for figure in own if not (parted or _of_earlier(scene, figure))]
    if "coming_up" in scene.groups:
        own = [figure for figure in own if not is_of_next_fill(scene, figure)]
    return own


SEVERAL = frozenset(("one_of_tanks", "several_tanks"))
"""Groups of words of which one stands where several tanks were filled."""


def _of_earlier(scene: Scene, figure: Figure) -> bool:
    """'last fill was 31 gal, this ones 29.4': an earlier fill's figure, told beside this one's."""
    start, end = scene.clause_of(figure.start)
    if not scene.phrase_said("earlier_fill", start, end) or "since" in scene.groups:
        return False
    if _tells_back(scene, figure):
        return True
    was = figure.start > 0 and "was" in scene.tokens[figure.start - 1].groups
    to = figure.end < len(scene.tokens) and "to" in scene.tokens[figure.end].groups
    if to and scene.phrase_said("earlier_fill", figure.end, end):
        return True  # 'add 2 gal to that last fill'
    before = was and scene.phrase_said("fill_before", start, figure.start)
    if before and not scene.phrase_said("this_fill", start, figure.start):
        return True  # 'the fill before last was 24.6 gal'
    right_behind = scene.phrase_said("earlier_fill", figure.end, figure.end + LONGEST_SAID)
    if right_behind and scene.phrase_said("this_fill", start, figure.start):
        return True  # '30.9 gallons today vs 33.4 last time'
    led = right_behind or scene.phrase_said("earlier_fill", start, figure.start)
    for other in scene.live:
        first, last = scene.clause_of(other.start)
        if first == start:  # 'last fill was 31 gal this one 29.4 gal'
            first = figure.end if led and figure.end < other.start else last
        if scene.phrase_said("this_fill", first, last):
            return True
    return False


LONGEST_SAID = 2
"""Tokens that say of which fill a figure is."""


def _tells_back(scene: Scene, figure: Figure) -> bool:
    """'that was 54.8 litres the first time': no fill but the one that is spoken of."""
    before = scene.tokens[max(0, figure.start - 2) : figure.start]
    if len(before) < 2 or "points_back" not in before[0].groups or "was" not in before[1].groups:
        return False
    behind = figure.end + 1 + LONGEST_SAID  # 'the first time'
    return scene.phrase_said("earlier_fill", figure.end, behind) is not None


def _without_volume(
    scene: Scene,
    draft: Draft,
    own: Sequence[Figure],
    *,
    cue: bool,
    full: bool | None,
    missed: bool | None,
) -> Fill | Doubt | None:
    """'filled up at 48,300', 'added a jug of DEF, odo 48,100': a fill whose volume nobody said."""
    stated = cue and (full is not None or draft.product is not None)
    if not stated or len(own) != 1 or len(scene.unknown_words(names=False)) > 1:
        return None
    only, known = own[0], scene.context.odometer
    read = draft.roles.get(ODOMETER_ROLE) is only
    follows = (
        known is not None
        and only.dimension in (None, DISTANCE)
        and not isinstance(only.label, Label)
        and 0 <= only.value - known.value <= NEXT_READING
        and only.whole
    )
    if not (read or follows) or scene.has("level"):
        return None
    draft.roles = {ODOMETER_ROLE: only}
    return fill_of(scene, draft, full=full, missed=missed)


def _fills_another(scene: Scene, volume: Figure | None) -> bool:
    """'fill the horse trough': something else than a fuel tank is filled, with that volume."""
    start, end = scene.sentence_of(volume.start) if volume else (0, len(scene.tokens))
    for index, token, _ in scene.find("fuel_cue"):
        if not start <= index < end:
            continue
        following = scene.tokens[index + 1] if index + 1 < len(scene.tokens) else None
        if "buys" in token.groups and following is not None and "check_item" in following.senses:
            return True  # 'bought tires, 4 at 212.50'
        if "animal_or_axle" in scene.groups and _are_counted(scene, index):
            return True  # 'bought 2 steers at 1,100 each'
        if scene.book.groups["pours"].isdisjoint(token.text.split()):
            continue
        if _fills_hers(scene, index):
            return True
        step = index + 1
        if step < len(scene.tokens) and "before_container" in scene.tokens[step].groups:
            step += 1
            if step < len(scene.tokens):
                noun = scene.tokens[step]
                if noun.kind is WORD and not noun.senses and noun.raw.islower():
                    return True
    return False


def _are_counted(scene: Scene, verb: int) -> bool:
    """'bought 2 steers', 'got 40 steers': animals, right behind how many of them there are."""
    behind = scene.tokens[verb + 1 : verb + 3]
    return len(behind) > 1 and behind[0].kind is NUMBER and "animal_or_axle" in behind[1].groups


def _fills_hers(scene: Scene, index: int) -> bool:
    """'mum filled her little hatchback': behind 'her' a vehicle is named, and it is hers."""
    if scene.tokens[index].text.rpartition(" ")[2] not in scene.book.groups["hers"]:
        return False
    behind = scene.tokens[index + 1 : index + 3]
    return any("vehicle" in (*each.senses, *each.senses.get("talk", "").split()) for each in behind)


def _bought_without_unit(scene: Scene, figure: Figure) -> Fill | Doubt | None:
    """'put 20 in her', 'put in 30' may be gallons or money, far more than the tank is money."""
    if len(scene.tokens) > 8:
        return None
    before = scene.tokens[figure.start - 1] if figure.start else None
    behind = scene.tokens[figure.end : figure.end + 2]
    if before is None or figure.dimension is not None or not 3 <= figure.value <= 150:
        return None
    if behind and all(each.kind is MARK or "at_the_pump" in each.groups for each in behind):
        pump = "at_the_pump" in behind[0].groups  # 'took on 15 at the pump'
        fuelled = "fuel_cue" in before.senses if pump else "putting_in" in before.groups
        fuelled = fuelled and not scene.unknown_words()
    elif behind:
        fuelled = "putting" in before.groups and "into" in behind[0].groups
        fuelled = fuelled and (len(behind) == 1 or is_our_tank(behind[1]))
    else:
        fuelled = "putting_in" in before.groups and not scene.unknown_words()  # 'put in 30'
    if not fuelled:
        return None
    context = scene.context
    volume = Quantity(figure.value, VOLUME_UNIT[context.units])
    money = Quantity(figure.value, context.currency)
    tank = context.tank
    if tank is not None and figure.value > tank.amount(volume.unit) * SURELY_MONEY:
        figure.role = "fill"
        return Fill(cost=money)
    if figure.token.decimals == TENTHS:
        figure.role = "fill"
        return Fill(volume=volume)  # 'put 24.2 in': no money has tenths
    return Doubt(
        "fill",
        "volume_or_money",
        (volume, money),
        (
            Choice(ChoiceLabel("figure", volume), (Fill(volume=volume),)),
            Choice(ChoiceLabel("figure", money), (Fill(cost=money),)),
        ),
    )


SURELY_MONEY = 2
"""So many times what the tank holds no slip makes of a volume."""


def _pays_for_fuel(context: Context, roles: dict[str, Figure]) -> bool:
    """'filled the beast, 33.1 gal, $128.10': so much is paid for fuel, whatever it went into."""
    volume, cost = roles.get(VOLUME_ROLE), roles.get(COST_ROLE)
    if volume is None or cost is None or not volume.value:
        return False
    low, high = price_band(context, volume.unit)
    return cost.dimension == MONEY and low <= cost.value / volume.value <= high


def _foreign(scene: Scene, draft: Draft) -> bool:
    """Whether the volume is of something else: milk, water, sugar, a fish tank."""
    volume = draft.roles.get(VOLUME_ROLE)
    done = scene.unknown or not OF_NO_FUEL.isdisjoint(scene.by_class)
    if done and volume is not None and len(draft.roles) == 1:
        fuelled = draft.product or not FILLED.isdisjoint(scene.by_class)
        if not fuelled and done_otherwise(scene, volume):
            return True
    if volume is not None and len(draft.roles) == 1 and is_used_up(scene, volume):
        return True
    unpumped = volume is not None and not UNPUMPED.isdisjoint(scene.groups)
    if unpumped and volume is not None and _is_made_or_tallied(scene, draft, volume):
        return True
    printed = BREAK in scene.kinds and draft.product is None
    if printed and volume is not None and named_before(scene, volume):
        return True
    if volume is not None and ODOMETER_ROLE not in draft.roles and goes_elsewhere(scene, volume):
        return True
    if volume is None or volume.foreign is None:
        if draft.product:
            return _is_others(scene, draft, volume)
        known = ODOMETER_ROLE in draft.roles or PRICE_ROLE in draft.roles
        known = known or not FILLED.isdisjoint(scene.by_class)
        known = known or _paid_to_the_cent(scene.context, draft.roles)
        return not known and len(scene.unknown_words(names=False)) > MOST_STRANGE
    if draft.product or ODOMETER_ROLE in draft.roles:
        return False
    if volume.foreign in scene.book.groups["container"] and is_poured_in(scene):
        return False
    price = draft.roles.get(PRICE_ROLE)
    of = volume.end < len(scene.tokens) and "of" in scene.tokens[volume.end].groups
    pumped = volume.token.decimals > 0 and not of
    # '12 gallons of cider at 8.00', '2 gal milk at 4.20', and not '41 gal of go juice at 4.019'
    return price is None or not (pumped or price.token.decimals == MILLS)


def _is_others(scene: Scene, draft: Draft, volume: Figure | None) -> bool:
    """'20 bucks of gas for the generator', 'filled the propane at home, 85 gal'."""
    if volume is not None:
        return draft.product == "propane" and _is_of_house(scene.context, volume)
    cost = draft.roles.get(COST_ROLE)
    return cost is not None and is_paid_for_another(scene, cost)


def _is_of_house(context: Context, volume: Figure) -> bool:
    """Whether so much propane is more than the bottles of any trailer hold."""
    poured = Quantity(volume.value, volume.unit or VOLUME_UNIT[context.units])
    return context.fuel != "propane" and poured.amount("gal") > MOST_BOTTLED


MOST_BOTTLED = 60
"""Gallons of propane; common practice, no source."""

ALONE = frozenset((VOLUME_ROLE, COST_ROLE))
"""What is told of fuel that went into an engine at work."""


def _is_made_or_tallied(scene: Scene, draft: Draft, volume: Figure) -> bool:
    if draft.roles.keys() <= ALONE and is_burnt_at_work(scene, volume):
        return True
    return is_tally(scene, volume) or (len(draft.roles) == 1 and is_yielded(scene, volume))


UNPUMPED = TALLYING | YIELDS | WORKS
"""Groups of words of which one stands where a volume was made or burnt, or sums up fills."""

FILLED = frozenset(("fuel_cue", "full"))
"""Classes of term that say that something was filled."""

MOST_STRANGE = 3
"""Words that no phrase knows: beside more of them a lone volume is of something else."""


def _paid_to_the_cent(context: Context, roles: dict[str, Figure]) -> bool:
    """'got my 24.6 gallons in, $96.92 total': as a pump tells both, whatever else is told."""
    volume, cost = roles.get(VOLUME_ROLE), roles.get(COST_ROLE)
    if volume is None or cost is None:
        return False
    pumped = volume.token.decimals > 0 and cost.token.decimals == CENTS
    return pumped and _pays_for_fuel(context, roles)
