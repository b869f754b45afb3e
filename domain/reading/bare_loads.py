"""Loads without a label, placed by sum and by the order of rolling over a scale.

The axles make the gross, and a rig rolls over a scale steer, drive, trailer. This file decides
which bare figures are loads at all, and asks where two readings are likely.
"""

from __future__ import annotations

from collections.abc import Sequence
from itertools import pairwise

from domain.context import MASS_UNIT
from domain.entries import SINGLE_AXLES, SUM_TOLERANCE
from domain.reading.aboard import people_aboard
from domain.reading.claimed_dates import is_bare_year
from domain.reading.claimed_prices import A_PRICE
from domain.reading.doubts import Doubt
from domain.reading.figures import MASS, VOLUME, Figure, kilograms
from domain.reading.label import Label
from domain.reading.load_doubts import lone_doubt, stated_loads, sum_doubt, two_choices
from domain.reading.loads import common_unit
from domain.reading.mistakes import are_slips
from domain.reading.positions import IN_ORDER, NO_TRUCKS, positions_in_order
from domain.reading.scene import Scene
from domain.reading.tickets import DEAREST_WEIGH, may_be_fee

BARE_KG = (400.0, 40_000.0)
"""What a figure without any label must weigh to be taken for a load."""


def place_bare(
    scene: Scene, bare: Sequence[Figure], placed: dict[str, Figure], rig: str | None, cue: bool
) -> dict[str, Figure] | Doubt:
    """Positions for figures without a label, by sum and by the order of rolling over a scale."""
    unit = common_unit(scene, bare)
    low, high = BARE_KG
    weights = [
        (figure, weight)
        for figure in bare
        if low <= (weight := kilograms(figure, unit)) <= high
        and not is_next_odometer(scene, figure, cue or bool(placed))
    ]
    masses = [figure for figure, _ in weights]
    if not masses or (not cue and all(map(is_bare_year, masses))):
        return {}
    values = [weight for _, weight in weights]
    if placed and (placed.keys() != TONGUE or _find_gross(values) is None):
        return _place_beside(scene, masses, placed, rig)
    count = len(values)
    if _trailer_axles_stated(scene) and count in (2, 3):
        return dict(zip(SINGLE_AXLES, masses, strict=False))
    if not cue and not rig and not _looks_like_loads(scene, masses):
        return _of_truck_alone(scene, masses)
    gross = _find_gross(values)
    trailer_alone = rig == "trailer"
    if gross is not None:
        parts = [figure for index, figure in enumerate(masses) if index != gross]
        positions = positions_in_order(len(parts), solo=rig == "solo" or len(parts) == 2)
        if trailer_alone or positions is None:
            return {}
        if len(parts) == 2 and rig != "solo" and kilograms(parts[0], unit) > HEAVIEST_STEER:
            positions = ("truck", "trailer")  # '12,130 + 9,330 = 21,460'
        return dict(zip(positions, parts, strict=True)) | {"gross": masses[gross]}
    if count == 1:
        if rig is not None and (rig != "hitched" or cue):
            light = rig == "solo" and values[0] < LIGHTEST_TRUCK
            heavy = rig == "solo" and values[0] > HEAVIEST_TRUCK
            talk = (light and not cue) or heavy or _is_talk(scene, masses[0], cue=cue)
            return {} if talk else {"gross": masses[0]}
        if cue and _beside_gcwr(scene, masses[0]):
            return {"gross": masses[0]}
        if cue and _is_alone(scene, masses[0]):
            return lone_doubt(masses[0], unit)
        whole = cue and is_whole_rig(scene, masses[0]) and _is_beside_fill(scene)
        return {"gross": masses[0]} if whole else {}
    if count == 2:
        if rig == "solo":
            if sum(values) > HEAVIEST_TRUCK or _trailer_between(scene, masses):
                return {}  # '21,220 loaded and 11,980 without the trailer': no truck's two axles
            if values[0] > HEAVIEST_STEER:  # 'truck empty 8,020, with tools 8,610'
                return Doubt("weighing", "unplaced", stated_loads(masses, unit))
            return dict(zip(("steer", "drive"), masses, strict=True))
        if cue:
            if scene.context.hitched is False:
                return dict(zip(("steer", "drive"), masses, strict=True))
            loads = stated_loads(masses, unit)
            return Doubt("weighing", "two_loads", loads, two_choices(masses, unit))
    if count == 3:
        if "axles" in scene.groups and max(values) < NO_TRUCKS * min(values):
            return dict(zip(SINGLE_AXLES, masses, strict=True))  # 'three axles 3,100 3,240 3,180'
        in_order = values[0] <= MOST_STEERED * values[1]
        if in_order and (cue or _may_be_hitched(scene, masses)):
            return dict(zip(IN_ORDER, masses, strict=True))
    if count >= 4:
        parts_sum, last = sum(values[:-1]), values[-1]
        first_sum = sum(values[1:])
        if abs(parts_sum - last) < 0.25 * last or _is_slip_of_sum(masses):
            return sum_doubt(masses[:-1], masses[-1], unit, rig)
        if abs(first_sum - values[0]) < 0.25 * values[0]:
            return sum_doubt(masses[1:], masses[0], unit, rig)
        if cue and count <= 5 and _evenly_parted(masses):
            positions = positions_in_order(count, solo=False)
            if positions is not None:
                return dict(zip(positions, masses, strict=True))
    return {}


ON_ITS_OWN = {"trailer", "tongue"}
"""What a trailer that is off rests on."""

TONGUE = {"tongue"}
"""What may be told beside a row of axles and the gross that they make."""


def _trailer_between(scene: Scene, masses: Sequence[Figure]) -> bool:
    """'truck by itself on one pad 11,300 and the trailer on the other 9,420'."""
    first, second = masses
    return any(
        token.senses.get("vehicle") == "trailer" or token.senses.get("rig") == "hitched"
        for token in scene.tokens[first.end : second.start]
    )


def _of_truck_alone(scene: Scene, masses: Sequence[Figure]) -> dict[str, Figure]:
    """'quarter tank, just me: 4,980 3,860': two loads and what sat in the truck, and no more."""
    if len(masses) != len(TRUCKS) or not (people_aboard(scene) or scene.has("level")):
        return {}
    front, rear = masses
    unit = MASS_UNIT[scene.context.units]
    bears = LIGHTEST_STEER <= kilograms(front, unit) <= HEAVIEST_STEER
    bears = bears and kilograms(rear, unit) >= LIGHTEST_DRIVE
    plain = all(not figure.value % STEP and figure.foreign is None for figure in masses)
    others = any(figure.dimension is not None for figure in scene.live)
    strange = [scene.tokens[index] for index in scene.unknown_words(names=False)]
    said = not others and all("pet" in token.groups for token in strange)
    row = rear.start - front.end <= 1 and scene.context.hitched is not None
    return dict(zip(TRUCKS, masses, strict=True)) if bears and plain and said and row else {}


TRUCKS = IN_ORDER[:2]

LIGHTEST_STEER, LIGHTEST_DRIVE = 700.0, 500.0
"""Kilograms: no axle of what tows bears less (common practice, no source)."""


WHOLE_RIG = 6_800.0
"""Kilograms: what weighs more is the whole rig, where nobody names a part (common practice)."""


def is_whole_rig(scene: Scene, figure: Figure) -> bool:
    """Whether a load is so heavy, with a trailer on, that it is of the truck and its trailer."""
    unit = figure.unit or MASS_UNIT[scene.context.units]
    return scene.context.hitched is True and kilograms(figure, unit) >= WHOLE_RIG


def is_told_hitched(scene: Scene, figure: Figure) -> bool:
    """'21,340 hooked up': how the rig stood, where the odometer does not show so much."""
    known = scene.context.odometer
    if known is None or figure.value >= known.value or not is_whole_rig(scene, figure):
        return False
    behind = scene.tokens[figure.end :]
    said = figure.start == 0 and bool(behind) and "rig" in behind[-1].senses
    return said and all("glue" in token.senses for token in behind[:-1])


def _is_beside_fill(scene: Scene) -> bool:
    """'24.1 gal 51,402 then weighed 21,300': no other figure is one that a scale shows."""
    if _weak_cues(scene):
        return False
    return any(each.dimension == VOLUME for each in scene.live)


def _is_slip_of_sum(masses: Sequence[Figure]) -> bool:
    """'5180/6920/9460/31560': the last is what the others make, but for a digit."""
    *parts, gross = [figure.value for figure in masses]
    return are_slips(gross, sum(parts))


def _evenly_parted(masses: Sequence[Figure]) -> bool:
    """One row of loads, and not '5,020 3,240, 5,180 6,900 9,840', which are two."""
    return len({right.start - left.end for left, right in pairwise(masses)}) == 1


def _beside_gcwr(scene: Scene, figure: Figure) -> bool:
    """'gcwr is 27,500 but we weighed 20,980': what is held against a GCWR is of the whole rig."""
    start, _ = scene.sentence_of(figure.start)
    ahead = scene.tokens[start : figure.start]
    weighed = any("on_scale" in token.groups for token in ahead) and not _weak_cues(scene)
    return weighed and any(
        label.rating == "gcwr" and label.bound is not None and label.bound.role == "rating"
        for label in scene.labels
    )


def _may_be_hitched(scene: Scene, masses: Sequence[Figure]) -> bool:
    """Whether a trailer is on, or nobody knows and three round figures stand in a row."""
    if scene.context.hitched is None:
        return scene.has("hitch", "hitched") or _in_a_row(masses)
    return scene.context.hitched


LIGHTEST_TRUCK = 1100.0
"""Kilograms: no vehicle that tows weighs less (common practice, no source)."""


HEAVIEST_STEER = 3_600.0
"""Kilograms: no pickup's front axle bears more (common practice, no source)."""


HEAVIEST_TRUCK = 12_000.0
"""Kilograms: no truck that a bumper hitch is on weighs more alone (common practice, no source)."""


def _is_talk(scene: Scene, figure: Figure, *, cue: bool) -> bool:
    """'solo album 2016', 'drop 2236': no scale's figure, or words enough for another subject."""
    if figure.dimension == MASS:
        return False
    weighed = cue and not _weak_cues(scene)
    if is_bare_year(figure) and (not weighed or figure.value % STEP):
        return True
    strange = scene.unknown_words(names=False)
    if "name" in scene.by_class and figure.token.grouped:
        # 'camper by itself 7,460, fridge full of watermelon': what is said after it is beside it
        strange = [index for index in strange if index < figure.start]
    return not weighed and (bool(figure.value % STEP) or len(strange) > MOST_STRANGE)


STEP = 5
"""What a scale's figures are counted in at the least: 20 lb, 10 kg or 5 kg; common practice."""

STEP_UNSUMMED = 10
"""In so much figures are counted that no gross vouches for."""

MOST_STRANGE = 2
"""Words that no phrase knows beside one bare load that nobody says was weighed."""


def _weak_cues(scene: Scene) -> bool:
    """Whether the words for a weighing are all everyday ones."""
    return all("weak_cue" in token.groups for _, token, _ in scene.find("weigh_cue"))


def is_next_odometer(scene: Scene, figure: Figure, weighed: bool) -> bool:
    """Whether a figure follows on from the last odometer reading, where nothing was weighed."""
    known = scene.context.odometer
    if known is None or figure.dimension is not None:
        return False
    if not 0 <= figure.value - known.value <= MOST_SINCE:
        return False
    if figure.value > HEAVIEST_RIG and _is_only(scene, figure) and _is_at_scale(scene):
        return True
    if weighed and not scene.has("event"):
        return False  # and 'bars on, leaving, 48,033' weighed nothing
    if weighed and scene.has("weigh_cue"):
        return _is_read_there(scene, figure)
    # 'home 10,950, dropped the camper': what a young truck's odometer shows could be a load, but
    # nobody says where a lone load was driven to.
    arrived = scene.has("event") and not scene.has("weigh_cue") and _is_only(scene, figure)
    least = LEAST_READING if arrived else NO_LOAD
    return figure.value >= least


def _is_read_there(scene: Scene, figure: Figure) -> bool:
    """'tractor weighs 9,600 lb, leaving 51,233': behind a word of leaving, in a clause apart.

    In one clause it is where no rig weighs so much: 'hay weighs 9,600 lb arrived 51,233'.
    """
    start, end = scene.clause_of(figure.start)
    before = figure.start - 1
    before -= before > start and "at_alone" in scene.tokens[before].groups
    if before < start or "event" not in scene.tokens[before].senses:
        return False
    return figure.value > HEAVIEST_RIG or not any(
        start <= at < end for at in scene.by_class["weigh_cue"]
    )


MOST_SINCE = 3_000
"""Miles or kilometres: more was not driven since the last reading."""

NO_LOAD, LEAST_READING = 20_000, 1_000
"""Readings: one that is hardly a load, and the least that is not rather a distance."""


HEAVIEST_RIG = 45_000
"""Pounds: no pickup and its trailer gross as much (common practice, no source)."""


def _is_at_scale(scene: Scene) -> bool:
    """'51,301 at the scale house': where one was, and nothing that the scale said.

    Nor did it say what somebody forgot to weigh.
    """
    cues = scene.by_class.get("weigh_cue", ())
    return bool(cues) and all(
        (index > 0 and "at" in scene.tokens[index - 1].groups)
        or "to_weigh" in scene.tokens[index].groups
        for index in cues
    )


def _is_only(scene: Scene, figure: Figure) -> bool:
    """Whether no other figure of the message could be a load."""
    bare = [each for each in scene.figures if each.dimension is None and each.value >= 1_000]
    return len([each for each in bare if each.claimed is None]) == 1


def _looks_like_loads(scene: Scene, masses: Sequence[Figure]) -> bool:
    """Three or more plausible loads and hardly a word besides."""
    if len(masses) < 3:
        return False
    strangers = len(scene.unknown_words(names=False))
    gross = (
        _find_gross([figure.value for figure in masses]) if len(masses) > len(IN_ORDER) else None
    )
    step = STEP_UNSUMMED if gross is None else STEP
    if scene.context.hitched and strangers <= MOST_STRANGERS and _in_a_row(masses, step):
        return True
    if strangers:
        return False
    tidy = all(
        figure.token.grouped or figure.value % step == 0 or figure.dimension == MASS
        for figure in masses
    )
    small = [f for f in scene.figures if f.claimed is None and f.value < 100 and f.unit is None]
    return tidy and len(small) <= 1


MOST_STRANGERS = 2
"""Words that no phrase knows: among more of them a row of figures is not off a scale."""


def _in_a_row(masses: Sequence[Figure], step: int = STEP_UNSUMMED) -> bool:
    """Three or more round figures with nothing between them but marks."""
    values = [figure.value for figure in masses]
    if min(values) < 1000 or any(value % step for value in values):
        return False
    return all(right.start - left.end <= 1 for left, right in pairwise(masses))


def _find_gross(values: Sequence[float]) -> int | None:
    """Which figure, last or first, is the sum of the others."""
    if len(values) < 3:
        return None
    total = sum(values)
    for index in (len(values) - 1, 0):
        if abs(total - 2 * values[index]) <= SUM_TOLERANCE * values[index]:
            return index
    return None


def _place_beside(
    scene: Scene, bare: Sequence[Figure], placed: dict[str, Figure], rig: str | None
) -> dict[str, Figure] | Doubt:
    """Figures beside labelled ones: the rest of a list, where the sum says so."""
    if len(bare) in TRAILER_AXLES and not any(each.startswith("trailer") for each in placed):
        unit = common_unit(scene, [*placed.values(), *bare])
        if _trailer_axles_stated(scene) and _fits_gross(placed, bare, unit):
            return dict(zip(SINGLE_AXLES, bare, strict=False))
    if len(bare) == 1 and placed.keys() >= {*SINGLE_AXLES[:2]} and _is_of_last(scene, bare[0]):
        return {SINGLE_AXLES[2]: bare[0]}
    if "trailer" in placed and are_its_axles(placed["trailer"], bare):
        return dict(zip(SINGLE_AXLES, bare, strict=False))
    if placed.keys() == {"trailer"} and len(bare) == len(IN_ORDER) - 1:
        return _ahead_of_trailer(scene, bare, placed["trailer"])
    if placed.keys() == {"gross"} and len(bare) >= 2:
        return _axles_of_gross(scene, bare, placed["gross"], rig)
    if len(bare) == 1 and "gross" not in placed and len(placed) >= 2:
        unit = common_unit(scene, [*placed.values(), *bare])
        total = sum(
            kilograms(figure, unit) for position, figure in placed.items() if position != "tongue"
        )
        value = kilograms(bare[0], unit)
        if placed.keys() == ON_ITS_OWN:  # 'trailer axles 9,260 tongue 1,140 = 10,400'
            total += kilograms(placed["tongue"], unit)
        if abs(total - value) <= SUM_TOLERANCE * value:
            return {"gross": bare[0]}
    missing = [position for position in IN_ORDER if position not in placed]
    if len(bare) == len(missing) == 1 and len(placed) == len(IN_ORDER):
        unit = common_unit(scene, [*placed.values(), *bare])
        if _fits_gross(placed, bare, unit):  # 'steer 5,160 drive 6,420 tr 7,980 total 19,560'
            return {missing[0]: bare[0]}
    if len(bare) == 1 and rig == "hitched" and placed.keys() == {"trailer"}:
        unit = common_unit(scene, [*placed.values(), *bare])
        more = kilograms(bare[0], unit) > kilograms(placed["trailer"], unit)
        return {"gross": bare[0]} if more and _stands_with_rig(scene, bare[0]) else {}
    if len(bare) == 1 and rig == "solo" and placed.keys() in ({"steer"}, {"drive"}):
        axle = next(iter(placed.values()))
        if _stands_behind_solo(scene, bare[0]) and bare[0].value > axle.value:
            return {"gross": bare[0]}  # 'truck by itself 8,140, 4,740 on the front'
    if len(bare) == 1 and placed.keys() == TONGUE:
        if _adds_tongue(scene, bare[0], placed["tongue"]):
            return {"trailer": bare[0]}
        if rig == "trailer" and _rests_on_tongue(bare[0], placed["tongue"]):
            return {"gross": bare[0]}  # 'just the trailer 9,640, tongue 1,080'
    return {}


def _adds_tongue(scene: Scene, axles: Figure, tongue: Figure) -> bool:
    """'she weighed 9,240 plus 1,020 on the tongue': what comes on top is not on its axles."""
    between = [token.groups for token in scene.tokens[axles.end : tongue.start]]
    if len(between) != 1 or "joins_vehicles" not in between[0] or "and_alone" in between[0]:
        return False
    return _rests_on_tongue(axles, tongue)


def _rests_on_tongue(trailer: Figure, tongue: Figure) -> bool:
    return LEAST_SHARE <= tongue.value / trailer.value <= MOST_SHARE


LEAST_SHARE, MOST_SHARE = 0.04, 0.35
"""Of what a trailer's axles bear, what rests on its hitch or pin (common practice)."""


def are_its_axles(whole: Figure, bare: Sequence[Figure]) -> bool:
    """'trailer tandem 9,940 (4,900/5,040)': two figures behind a load that they make."""
    if len(bare) != len(IN_ORDER) - 1 or bare[0].start < whole.start:
        return False
    front, rear = bare
    return abs(front.value + rear.value - whole.value) <= SUM_TOLERANCE * whole.value


def is_trailers_own(first: Figure, bare: Sequence[Figure]) -> bool:
    """'camper 9,240 5,180 6,900': the name is of its own load, and heads no row."""
    loads = [first.value, *(each.value for each in bare)]
    if len(loads) != len(IN_ORDER) or _find_gross(loads) is not None:
        return False
    return loads[0] > MOST_STEERED * loads[1] and loads[1] <= MOST_STEERED * loads[2]


def _is_of_last(scene: Scene, figure: Figure) -> bool:
    """'first axle 3,260, middle one 3,310 and the last 3,190'."""
    lead = scene.tokens[max(0, figure.start - LEADS_TO_LAST) : figure.start]
    return any(token.senses.get("ordinal") == "last" for token in lead)


MOST_STEERED = 1.5
"""With a trailer on no steer axle bears so many times what the drive axle does: common practice."""

LEADS_TO_LAST = 3
"""Tokens: 'last one was', 'last axle:'."""


def _ahead_of_trailer(scene: Scene, bare: Sequence[Figure], trailer: Figure) -> dict[str, Figure]:
    """'5220 6870 and 9140 for the trailer': in the order of rolling over a scale, the last named.

    The trailer's may lead, and two that make what its axles carry may be those.
    """
    first, second = bare
    row = [trailer, *bare] if trailer.start < first.start else [*bare, trailer]
    in_row = all(right.start - left.end <= 1 for left, right in pairwise(row))
    apart = abs(first.value + second.value - trailer.value)
    if not in_row or apart < SUM_TOLERANCE * trailer.value:
        return {}
    if not (scene.has("weigh_cue") or scene.context.hitched):
        return {}
    return {"steer": first, "drive": second}


def _stands_with_rig(scene: Scene, figure: Figure) -> bool:
    """'6,020 kg on the bridge all hooked up, van axles 2,400': the whole, in its own clause."""
    start, end = scene.clause_of(figure.start)
    return any(start <= index < end for index, _, _ in scene.find("rig", "hitched"))


def _stands_behind_solo(scene: Scene, figure: Figure) -> bool:
    """Whether the words for a truck alone stand right before a figure."""
    return figure.start - 1 in [index for index, _, _ in scene.find("rig", "solo")]


TRAILER_AXLES = (2, 3)


def _fits_gross(placed: dict[str, Figure], bare: Sequence[Figure], unit: str) -> bool:
    """'trailer's axles, front to back, 4,120 then 4,180; truck 12,480; gross 20,780'."""
    parts = [*(each for at, each in placed.items() if at not in ("gross", "tongue")), *bare]
    if "gross" not in placed or len(parts) == len(bare):
        return False
    value = kilograms(placed["gross"], unit)
    return abs(sum(kilograms(each, unit) for each in parts) - value) <= SUM_TOLERANCE * value


def _axles_of_gross(
    scene: Scene, bare: Sequence[Figure], gross: Figure, rig: str | None
) -> dict[str, Figure] | Doubt:
    """'5280 6940 11140, gross 23360': a row of axles beside the gross that they make."""
    unit = common_unit(scene, [*bare, gross])
    total = sum(kilograms(figure, unit) for figure in bare)
    value = kilograms(gross, unit)
    positions = positions_in_order(len(bare), solo=rig == "solo" or len(bare) == 2)
    if positions is None or rig == "trailer":
        return {}
    strangers = len(scene.unknown_words(names=False))
    if not (_in_a_row(bare) or scene.has("weigh_cue")) and strangers > MOST_STRANGERS:
        return {}  # 'split the jars, 5,240 to mom, 6,120 to the co-op, 11,360 in all'
    if abs(total - value) <= SUM_TOLERANCE * value:
        return dict(zip(positions, bare, strict=True))
    if _in_a_row(bare) and abs(total - value) < 0.25 * value:
        return sum_doubt(bare, gross, unit, rig)
    return {}


def _trailer_axles_stated(scene: Scene) -> bool:
    """Whether the message speaks of the trailer's axles, without a figure of its own for them."""
    return scene.has("axle_noun", "axle") and any(
        label.bound is None and label.vehicle == "trailer" and not label.subject
        for label in scene.labels
    )


def _is_alone(scene: Scene, figure: Figure) -> bool:
    """A lone figure with a weighing word: said of the scale, not of cargo or a person."""
    others = [
        other
        for other in scene.figures
        if other is not figure
        and other.claimed in (None, A_PRICE)
        and not (isinstance(other.label, Label) and other.label.whole == "ignored")
        and not (other.value <= DEAREST_WEIGH and may_be_fee(scene, other))
        and not is_next_odometer(scene, other, weighed=True)
    ]
    if scene.has("weigh_cue") and _weak_cues(scene):
        return False
    on_paper = scene.has("ticket") and figure.dimension == MASS and "\n" in scene.text
    strange = scene.unknown_words(names=False)
    return not others and (on_paper or all(_says_little(scene, index) for index in strange))


def _says_little(scene: Scene, index: int) -> bool:
    """'scale says 19,920 with the hay on': what was aboard, or what it cost, is no other matter."""
    if "costs_one" in scene.tokens[index].groups:
        return True
    before = [each for each in scene.tokens[:index][-2:] if "article" not in each.groups]
    return bool(before) and "with" in before[-1].groups
