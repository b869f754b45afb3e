"""Where one fill of a message ends and the next begins.

This file decides how many fills a message tells: by products, by tanks that were paid for apart,
or by stops, which `fills_in_turn` finds. What each figure is to its fill is decided in
`fill_roles`.
"""

from __future__ import annotations

from collections.abc import Sequence
from itertools import pairwise

from domain.reading.figures import MONEY, VOLUME, Figure, follows_odometer
from domain.reading.fill_roles import (
    COST_ROLE,
    LARGEST_TANK,
    ODOMETER_ROLE,
    SMALL_TANK,
    Draft,
    price_band,
)
from domain.reading.filled_tanks import paid_apart
from domain.reading.fills_in_turn import next_fills
from domain.reading.other_tanks import ELSEWHERE
from domain.reading.scene import Scene
from domain.reading.tokens import BREAK, TENTHS, WORD, Token


def drafts_of(scene: Scene) -> list[Draft]:
    """One draft, or one for each product where several are named."""
    if "product" not in scene.by_class:
        return _of_product(scene, None)
    products = [
        (index, key.split()[0])
        for index, token, key in scene.find("product")
        if scene.stated(index)
        and not ("gas" in token.groups and _is_no_fuel(scene, index))
        and not _is_of_one(scene, index)
        and not _went_elsewhere(scene, index)
        and not _is_signal(scene, index)
    ]
    names = [key for _, key in products]
    if len(products) == 1 and names[0] == "def":
        apart = _beside_unnamed(scene, products[0][0])
        if apart:
            return apart
    if len(set(names)) < 2:
        return _of_product(scene, names[0] if names else None)
    drafts: list[Draft] = []
    for number, (index, key) in enumerate(products):
        if drafts and drafts[-1].product == key:
            continue
        start = 0 if number == 0 else _boundary(scene, products[number - 1][0], index)
        if drafts:
            drafts[-1].end = start
        drafts.append(Draft(key, start, len(scene.tokens), {}))
    return _with_a_figure(scene, drafts)


def _is_of_one(scene: Scene, index: int) -> bool:
    """'22.1 gal and a jug of def': what one of something was bought of, and no more."""
    before = scene.tokens[max(0, index - 4) : index]
    if len(before) < 3 or "of" not in before[-1].groups:
        return False
    if "per_volume" in before[-2].senses:
        return True
    beside = len(before) > 3 and ("and" in before[0].groups or before[0].raw == ",")
    one = "container" in before[-2].groups and "a_thing" in before[-3].groups
    return (
        one
        and beside
        and any(figure.dimension == VOLUME and figure.end <= index - 3 for figure in scene.live)
    )


def _is_signal(scene: Scene, index: int) -> bool:
    """'put 24.8 gal in, def light on too': a light or a gauge, told behind what was poured."""
    behind = scene.tokens[index + 1 : index + 2]
    start, end = scene.clause_of(index)
    live = scene.live
    signals = any(not token.groups.isdisjoint(SIGNALS) for token in behind)
    if not signals and not (behind and index == start and _is_too_much(scene, live)):
        return False
    own = any(start <= figure.start < end for figure in live)
    return not own and any(figure.end <= start for figure in live)


def _is_too_much(scene: Scene, live: Sequence[Figure]) -> bool:
    """'24.6 gal, def is at half': more than any tank of exhaust fluid holds."""
    if not scene.has("product", "def"):
        return False
    volumes = [each for each in live if each.dimension == VOLUME]
    return bool(volumes) and all(
        each.value > SMALL_TANK * LARGEST_TANK[each.unit or "gal"] for each in volumes
    )


SIGNALS = frozenset(("tells_of_fuel", "judges"))
"""Groups of words behind a product of which its light, its gauge or its level is told."""


def _went_elsewhere(scene: Scene, index: int) -> bool:
    """'5 gal of gas for the generator': what another tank took is no product of the truck's."""
    at = index - 1 if index and "of" in scene.tokens[index - 1].groups else index
    return any(figure.end == at and figure.claimed == ELSEWHERE for figure in scene.figures)


def _of_product(scene: Scene, product: str | None) -> list[Draft]:
    """The drafts of one product, or of none that is named: one, or several in turn."""
    tanks = paid_apart(scene) if "one_of_tanks" in scene.groups else []
    cuts, opens = (tanks, None) if tanks else next_fills(scene)
    cued = opens is not None or (bool(cuts) and not scene.unknown)
    if not cuts:
        return [Draft(product, 0, len(scene.tokens), {})]
    edges = [0, *cuts, len(scene.tokens)]
    return [
        Draft(product, start, end, {}, of_tank=bool(tanks), opens=opens, cued=cued)
        for start, end in pairwise(edges)
    ]


def share_costs(scene: Scene, drafts: Sequence[Draft]) -> None:
    """'31 gal diesel + 2.5 gal def, $121.37 + $9.75': as many amounts behind, in order."""
    if drafts[-1].of_tank:
        return
    live = scene.live
    volumes = [figure for figure in live if figure.dimension == VOLUME]
    paid = [figure for figure in live if figure.dimension == MONEY]
    if len(drafts) != len(volumes) or len(drafts) != len(paid) or volumes[-1].end > paid[0].start:
        return
    for draft, volume, amount in zip(drafts, volumes, paid, strict=True):
        if not draft.start <= volume.start < draft.end:
            return
        low, high = price_band(scene.context, volume.unit)
        if not low * volume.value <= amount.value <= high * volume.value:
            return
    for draft, amount in zip(drafts, paid, strict=True):
        draft.roles[COST_ROLE] = amount


def share_readings(scene: Scene, drafts: Sequence[Draft]) -> None:
    """'twice today, 51,310 and 51,560, 22.1 and 19.4 gal': as many readings before, in order."""
    if drafts[-1].of_tank or "and" not in scene.groups:
        return
    live = scene.live
    volumes = [figure for figure in live if figure.dimension == VOLUME]
    read = [
        each
        for each in live
        if each.dimension is None and follows_odometer(each.value, scene.context)
    ]
    if not len(drafts) == len(volumes) == len(read):
        return
    together = read[-1].end <= volumes[0].start or volumes[-1].end <= read[0].start
    if together and [each.value for each in read] == sorted(each.value for each in read):
        for draft, reading in zip(drafts, read, strict=True):
            draft.roles[ODOMETER_ROLE] = reading


def _beside_unnamed(scene: Scene, index: int) -> list[Draft]:
    """'31.2 gal, $121.65, and a 2.5 gal jug of def': of two volumes one is the fluid's."""
    volumes = [figure for figure in scene.live if figure.dimension == VOLUME]
    if not volumes:
        return _in_clauses(scene, index)
    if len(volumes) != 2:
        return []
    first, second = volumes
    near, far = _apart(scene, second, index), _apart(scene, first, index)
    # 'fuel tank took 24.6 gal def tank 2.4 gal': beside both, it is of the less
    behind = near < far or (near == far and second.value < first.value)
    between = range(first.end, second.start)
    marks = [at for at in between if _parts_fills(scene.tokens[at])]
    cut, end = (marks[-1] + 1 if marks else second.start), len(scene.tokens)
    fuel, fluid = (0, cut), (cut, end)
    if not behind:
        fuel, fluid = fluid, fuel
    drafts = [Draft(None, *fuel, {}, cued=True), Draft("def", *fluid, {})]
    return drafts if behind else drafts[::-1]


def _in_clauses(scene: Scene, index: int) -> list[Draft]:
    """'fuel 51,402 24.6 full, def 51,402 2.5': each fluid opens a clause, and a volume is in it."""
    start, end = scene.clause_of(index)
    before, _ = scene.clause_of(start - 1) if start > 1 else (start, start)
    led = start == index and before < start and "fuel" in scene.tokens[before].groups
    if _are_lines(scene, index):
        return [Draft(None, 0, index, {}, cued=True), Draft("def", index, len(scene.tokens), {})]
    if not led or "product" in scene.tokens[before].senses:
        return []
    parts = ((before, start), (start, end))
    tenths = [each.start for each in scene.live if each.token.decimals > 0]
    if not all(any(first <= at < last for at in tenths) for first, last in parts):
        return []
    return [Draft(None, 0, start, {}, cued=True), Draft("def", start, len(scene.tokens), {})]


def _are_lines(scene: Scene, index: int) -> bool:
    """'23.119 @ 3.899 = 90.14; def 2.512 @ 3.99 = 10.02': the fluid opens its own sentence."""
    start, end = scene.sentence_of(index)
    if not 0 < start == index:
        return False
    parted = [each for each in scene.live if each.token.decimals > 0]
    before = [each for each in parted if each.end <= start]
    return len(before) >= LINE and sum(start < each.start < end for each in parted) >= LINE


LINE = 2
"""Figures with decimals on a line of a receipt, at least."""


def _apart(scene: Scene, figure: Figure, index: int) -> int:
    """How far a token stands from a figure, a comma or a plus between them counting more.

    That it was filled with it counts nothing: 'def tank took 2.4 gal'.
    """
    start, end = (figure.end, index) if index >= figure.end else (index + 1, figure.start)
    between = scene.tokens[start:end]
    poured = sum("fuel_cue" in token.senses for token in between)
    return end - start - poured + 3 * sum(token.raw in ",+" for token in between)


def _with_a_figure(scene: Scene, drafts: list[Draft]) -> list[Draft]:
    """'31.2 gal diesel, def can wait, 48,340': what has no figure but a reading is no fill."""
    kept = drafts[:1]
    for draft in drafts[1:]:
        own = [each for each in scene.live if draft.start <= each.start < draft.end]
        poured = any(
            draft.start <= index < draft.end for index in scene.by_class.get("fuel_cue", ())
        )
        if poured or not all(follows_odometer(each.value, scene.context) for each in own):
            kept.append(draft)
        else:
            kept[-1].end = draft.end
    return kept


def _is_no_fuel(scene: Scene, index: int) -> bool:
    return _is_appliance(scene, index) or _ends_name(scene, index)


def _ends_name(scene: Scene, index: int) -> bool:
    """'Stony Lick Gas' over a receipt, 'at Stony Lick Gas': what a station is called."""
    gas, before = scene.tokens[index], scene.tokens[index - 1]
    named = before.kind is WORD and not before.senses and before.raw[0].isupper()
    if not (index and named and gas.raw[0].isupper()):
        return False
    if not gas.raw.isupper():
        return True
    start, end = scene.sentence_of(index)  # all in capitals, it is a line of its own
    return end < len(scene.tokens) and all(
        token.kind is WORD or token.kind is BREAK for token in scene.tokens[start:end]
    )


def _is_appliance(scene: Scene, index: int) -> bool:
    """'gas stove', 'gas can': what goes by the fuel that it burns or holds."""
    behind = scene.tokens[index + 1 : index + 2]
    return any(not each.groups.isdisjoint(("appliance", "container")) for each in behind)


def _boundary(scene: Scene, first: int, second: int) -> int:
    """Where one product's statement ends and the next one's begins."""
    marks = [index for index in range(first + 1, second) if _parts_fills(scene.tokens[index])]
    strong = [index for index in marks if scene.tokens[index].ends_sentence]
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
    led = {f.end: f.start for f in scene.figures if _is_poured(f) and f.claimed is None}
    # '30 gal diesel 2.5 gal def', '24.6 diesel 2.1 def': each stands right behind its volume
    return led[second] if first in led and second in led else second


def _is_poured(figure: Figure) -> bool:
    """A volume, or the tenths of one."""
    tenths = figure.dimension is None and figure.token.decimals == TENTHS
    return figure.dimension == VOLUME or tenths


def _parts_fills(token: Token) -> bool:
    return token.ends_sentence or token.raw in ",;+&" or "then" in token.groups
