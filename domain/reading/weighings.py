"""Loads on a scale.

This file decides which figures are loads, on which position, and how the rig stood. Labels
come first; figures without a label are placed by arithmetic (the axles make the gross) and by
the order in which a rig rolls over a scale: steer, drive, trailer. What can't be right, or
could be two things, becomes a doubt instead of an entry.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace

from domain.context import MASS_UNIT
from domain.entries import POSITIONS, SINGLE_AXLES, Weighing
from domain.quantities import Quantity
from domain.reading.doubts import Doubt
from domain.reading.figures import MASS, MONEY, VOLUME, Figure
from domain.reading.labels import Label
from domain.reading.scene import Scene
from domain.reading.tokens import BREAK, MARK, NUMBER, WORD
from domain.verdicts import Choice

LOAD_KG = (150.0, 30_000.0)
"""What one position of a rig behind a pickup can weigh; more or less is asked about."""
WHEEL_KG = (60.0, 5_000.0)
TONGUE_KG = (10.0, 4_000.0)
AXLE_KG = (200.0, 12_000.0)
GROSS_KG = (700.0, 45_000.0)
BARE_KG = (400.0, 40_000.0)
"""What a figure without any label must weigh to be taken for a load."""

SUM_TOLERANCE = 0.004
"""Tickets are rounded to 20 lb a platform; the axles make the gross to within this share."""


IN_ORDER = ("steer", "drive", "trailer")
DECISIVE = 2.5
"""Evidence from which a weighing is beyond doubt: two labelled axles, or a sum that gives the gross."""


@dataclass(frozen=True, slots=True)
class Pass:
    """The figures of one pass over the scale, with what was said of it."""

    figures: tuple[Figure, ...]
    start: int
    end: int


def read_weighings(scene: Scene) -> list[Weighing] | Doubt:
    """The weighings that a message states, a doubt about them, or none."""
    figures = [figure for figure in scene.live_figures() if _may_be_load(scene, figure)]
    if not figures:
        return []
    weighings: list[Weighing] = []
    passes = _passes(scene, figures)
    for number, each in enumerate(passes):
        result = _read_pass(scene, each, number, len(passes))
        if isinstance(result, Doubt):
            return result
        if result is not None:
            weighings.append(result)
    return weighings


def _may_be_load(scene: Scene, figure: Figure) -> bool:
    if figure.dimension not in (None, MASS) or figure.role not in (None, "load"):
        return False
    label = figure.label
    if isinstance(label, Label):
        if label.only_vehicle and _next_odometer(scene, figure, scene.has("weigh_cue")):
            return False
        if label.whole == "gross" and _is_money_total(scene, label):
            return False
        if label.rating_subject == "coupler" and _alone(scene) == "trailer":
            label.whole = "tongue"
        return label.places and not (label.rating or label.field or label.subject)
    if figure.foreign is not None:
        return False
    return figure.dimension == MASS or (figure.value >= 100 and figure.whole)


def _is_money_total(scene: Scene, label: Label) -> bool:
    """The 'total' of a fuel receipt is money."""
    if "money_total" not in scene.tokens[label.start].groups:
        return False
    return any(figure.dimension == VOLUME for figure in scene.figures) or any(
        key in ("gal", "L", "gal_imp") for _, _, key in scene.find("unit")
    )


def _passes(scene: Scene, figures: Sequence[Figure]) -> list[Pass]:
    """Split at 'pass 2', at a second 'bars on', at 'solo', or where a labelled position returns."""
    marks = sorted(
        {index for index, _, _ in scene.find("bars")}
        | {index for index, _, _ in scene.find("passes")}
        | {index for index, _, key in scene.find("rig") if _sets_rig(scene, index, key)}
    )
    leading = [mark for mark in marks if mark < figures[0].start]
    between = [mark for mark in marks if figures[0].start < mark < figures[-1].start]
    trailing = [mark for mark in marks if mark > figures[-1].start]
    cuts: list[int] = []
    if between and (leading or not trailing):
        cuts = [mark for mark in between if _opens_pass(scene, mark, figures)]
    elif between and trailing:
        cuts = [mark + 1 for mark in between]
    if not cuts:
        cuts = _repeats(figures)
    edges = [0, *cuts, len(scene.tokens)]
    passes = []
    for start, end in zip(edges, edges[1:], strict=False):
        own = tuple(figure for figure in figures if start <= figure.start < end)
        if own:
            passes.append(Pass(own, start, end))
    return passes


def _opens_pass(scene: Scene, mark: int, figures: Sequence[Figure]) -> bool:
    """A second mark right behind the first ('pass 1 no bars') opens nothing."""
    before = [figure for figure in figures if figure.start < mark]
    if not before:
        return False
    last = before[-1].end
    return not any(
        last <= index < mark
        for term in ("bars", "passes")
        for index in scene.by_class.get(term, ())
    )


def _sets_rig(scene: Scene, index: int, key: str) -> bool:
    return (
        key.split(maxsplit=1)[0] != "hitched"
        or scene.tokens[index].text.split()[0] in scene.book.groups["with"]
    )


def _repeats(figures: Sequence[Figure]) -> list[int]:
    """Where an axle that was already given is given again, a new pass begins."""
    seen: set[str] = set()
    cuts: list[int] = []
    for figure in figures:
        label = figure.label
        if not isinstance(label, Label):
            continue
        name = label.axle or label.whole
        if name is None or label.side or label.ordinal:
            continue
        if name in seen:
            cuts.append(min(figure.start, label.start))
            seen = set()
        seen.add(name)
    return cuts


def _read_pass(scene: Scene, each: Pass, number: int, count: int) -> Weighing | Doubt | None:
    row = _axle_list(scene, each.figures)
    labelled = [
        figure for figure in each.figures if isinstance(figure.label, Label) and figure not in row
    ]
    bare = [
        figure
        for figure in each.figures
        if not isinstance(figure.label, Label) and figure not in row
    ]
    if len(labelled) == 1 and len(bare) >= 2 and not row:
        heading = labelled[0].label
        if (
            isinstance(heading, Label)
            and heading.only_vehicle
            and labelled[0].start < bare[0].start
        ):
            if bare[0].start - labelled[0].end <= 1:
                bare, labelled = [labelled[0], *bare], []
    rig = _stated_rig(scene, each, count)
    placed = place(scene, labelled, each)
    absent = [
        figure
        for figure in labelled
        if isinstance(figure.label, Label) and _is_absent(scene, figure.label)
    ]
    bare.extend(absent)
    placed |= dict(zip(SINGLE_AXLES, row, strict=False))
    if rig == "trailer":
        placed = _on_trailer_alone(placed)
    cue = scene.has("weigh_cue") or scene.has("bars") or (scene.has("passes"))
    if not placed and scene.has("fuel_cue") and not scene.has("weigh_cue"):
        return None
    evidence = _label_evidence(scene, placed)
    if bare:
        loads = _place_bare(scene, bare, placed, rig, cue)
        if isinstance(loads, Doubt):
            return loads
        placed = placed | loads
        if loads and len(loads) >= 3:
            evidence += DECISIVE
    if not placed:
        return None
    loads = {position: _quantity(scene, figure, placed) for position, figure in placed.items()}
    sums = _sums(loads)
    if sums:
        evidence += 3.0
    if cue:
        evidence += 1.5
    if rig:
        evidence += 1.6 if rig != "hitched" else 1.0
    if any(figure.dimension == MASS for figure in placed.values()):
        evidence += 0.9
    if any(position.endswith(("_left", "_right")) for position in placed) and len(placed) > 1:
        evidence += 0.9 if _towed(scene) or len(placed) > 2 else 0.0
    if any(figure.token.grouped or figure.value >= 1000 for figure in placed.values()):
        evidence += 1.0
    scene.decided(
        f"weighing of {', '.join(placed)}: evidence {evidence:.1f}, and {DECISIVE} decides"
        + ("; the axles make the gross" if sums else "")
    )
    impossible = _impossible(placed, loads)
    if evidence < DECISIVE or (impossible and len(placed) == 1 and not cue):
        return None
    if rig in ("trailer", "solo") and set(placed) == {"trailer"}:
        only = placed["trailer"].label
        if isinstance(only, Label) and only.only_vehicle:
            placed, loads = {"gross": placed["trailer"]}, {"gross": loads["trailer"]}
    if impossible:
        return Doubt(impossible, "implausible", (loads[impossible],), _swaps(loads, impossible))
    if sums is False:
        return _gross_doubt(scene, each, loads, rig)
    vague = _vague(scene, placed, rig, cue)
    if vague is not None:
        return vague
    return _entry(scene, each, placed, loads, rig, number, count)


_AXLE_WEIGHT = {
    "steer": 1.3,
    "drive": 1.3,
    "trailer": 1.2,
    "gross": 1.5,
    "tongue": 1.5,
    "truck": 1.0,
}


def _label_evidence(scene: Scene, placed: dict[str, Figure]) -> float:
    """How surely labels alone say that this is a weighing."""
    total = 0.0
    for position, figure in placed.items():
        label = figure.label
        weight = _AXLE_WEIGHT.get(position, 0.8)
        if isinstance(label, Label):
            weight += _label_trust(scene, label, figure)
        if isinstance(label, Label) and label.end_of and not (label.axle or label.wheel):
            weight = 0.9
        if position == "gross" and isinstance(label, Label) and figure.value < 2000:
            weight = 0.8
        total += weight
    return total


def _label_trust(scene: Scene, label: Label, figure: Figure) -> float:
    """What the words of a label add: 'pin weight' is surer than 'pin', 'debit pin' is neither."""
    trust = 0.0
    words = scene.words_between(label.start, label.end).casefold().split()
    if label.whole == "tongue":
        sure = len(words) > 1 or words[0] in scene.book.groups["surely_tongue"] or _towed(scene)
        trust += (1.0 if len(words) > 1 else 0.5) if sure else -0.6
    if label.compound:
        trust -= 1.0
    if any(
        not scene.tokens[index].senses and scene.tokens[index].kind is WORD
        for index in range(label.end, figure.start)
    ):
        trust -= 0.7
    return trust


def _towed(scene: Scene) -> bool:
    return scene.has("vehicle", "trailer") or scene.has("name") or scene.has("weigh_cue")


def place(scene: Scene, figures: Sequence[Figure], each: Pass) -> dict[str, Figure]:
    """Positions for labelled figures; a part that a label leaves open comes from the one before."""
    header = _header(scene, figures)
    axles = sum(
        1
        for figure in figures
        if isinstance(figure.label, Label) and figure.label.ordinal and figure.label.wheel
    )
    placed: dict[str, Figure] = {}
    vehicle = header.vehicle if header else None
    axle: str | None = None
    ends_on_trailer = header is not None and header.vehicle == "trailer"
    in_trailer_series = False
    for figure in figures:
        label = figure.label
        assert isinstance(label, Label)
        position: str | None
        if label.whole == "ignored" or _is_absent(scene, label):
            continue
        if label.whole:
            position = _whole_position(scene, label, figures)
        elif label.ordinal and label.vehicle != "trailer" and not in_trailer_series:
            announced = _trailer_announced(scene, label)
            position = None if announced else _axle_by_number(label, axles)
            if position is None and (vehicle == "trailer" or announced):
                position = f"trailer_{label.ordinal}"
                in_trailer_series = True
        else:
            own = label.axle or ("steer" if label.end_of == "front" else None)
            own = own or ("drive" if label.end_of == "rear" else None)
            if label.vehicle == "trailer" or (in_trailer_series and label.ordinal):
                position = _trailer_position(label)
                in_trailer_series = in_trailer_series or bool(label.ordinal)
                ends_on_trailer = ends_on_trailer or bool(label.side and label.end_of)
                axle = position
            elif ends_on_trailer and own and label.axle is None and label.vehicle is None:
                position = _trailer_position(label)
            elif in_trailer_series and label.end_of == "rear" and not label.axle:
                position = next((name for name in SINGLE_AXLES if name not in placed), None)
            elif label.wheel == "axle" and not (own or label.vehicle or label.side):
                position = "trailer"
            elif label.vehicle == "truck" and not own:
                position = "truck"
            elif own:
                position, axle = own, own
            elif label.side and axle:
                position = axle
            elif label.side and ends_on_trailer:
                position = "trailer"
            else:
                position = None
            if position and label.side and position not in ("truck",):
                position = f"{position}_{label.side}"
                axle = position.removesuffix(f"_{label.side}")
        if position in POSITIONS and position not in placed:
            placed[position] = figure
    return placed


def _trailer_announced(scene: Scene, label: Label) -> bool:
    """'then the trailer: axle one 4,660': the trailer named before numbered axles."""
    for other in scene.labels:
        if other.only_vehicle and other.vehicle == "trailer" and other.bound is None:
            following = scene.tokens[other.end] if other.end < len(scene.tokens) else None
            if other.end <= label.start and following is not None and following.raw in ":,-":
                return True
    return False


def _is_absent(scene: Scene, label: Label) -> bool:
    """'no truck 15,240': what was not on the scale has no load."""
    before = scene.tokens[label.start - 1] if label.start else None
    return label.only_vehicle and before is not None and "absent" in before.groups


ALONE_POSITIONS = {"steer": "trailer_1", "drive": "trailer_2"}


def _on_trailer_alone(placed: dict[str, Figure]) -> dict[str, Figure]:
    """A trailer by itself has a front and a back axle, and a coupling that carries the tongue."""
    moved: dict[str, Figure] = {}
    for position, figure in placed.items():
        axle, _, side = position.partition("_")
        name = ALONE_POSITIONS.get(axle, axle if side not in ("left", "right") else axle)
        moved[
            f"{name}_{side}"
            if axle in ALONE_POSITIONS and side
            else ALONE_POSITIONS.get(position, position)
        ] = figure
    return moved


def _header(scene: Scene, figures: Sequence[Figure]) -> Label | None:
    """A label without a figure of its own that sets the stage: 'camper wheel weights ...'."""
    first = figures[0].start if figures else 0
    for label in scene.labels:
        if label.bound is None and label.vehicle == "trailer" and label.start < first:
            if label.rating or label.subject:
                continue
            following = scene.tokens[label.end] if label.end < len(scene.tokens) else None
            if scene.has("axle_noun", "wheel"):
                return label
            announced = following is not None and following.raw in ":-–—"
            if label.wheel or announced or (label.start == 0 and first - label.end <= 2):
                return label
    return None


def _whole_position(scene: Scene, label: Label, figures: Sequence[Figure]) -> str:
    if label.whole == "tongue":
        return "tongue"
    for other in scene.labels:
        if other.bound is None and other.end == label.start and other.vehicle and not other.axle:
            if other.vehicle == "truck" and len(figures) > 1:
                return "truck"
            if other.vehicle == "trailer" and len(figures) > 1:
                return "trailer"
    return "gross"


def _axle_by_number(label: Label, axles: int) -> str | None:
    if not label.wheel or axles < 2 or label.ordinal is None:
        return None
    if label.ordinal <= 2:
        return IN_ORDER[label.ordinal - 1]
    if axles == 3 and label.ordinal == 3:
        return "trailer"
    return f"trailer_{label.ordinal - 2}" if label.ordinal <= 5 else None


def _trailer_position(label: Label) -> str:
    if label.ordinal:
        return f"trailer_{label.ordinal}"
    if label.end_of == "front" or label.axle == "steer":
        return "trailer_1"
    if label.end_of == "rear" or label.axle == "drive":
        return "trailer_2"
    if label.end_of == "middle":
        return "trailer_2"
    return "trailer"


def _place_bare(
    scene: Scene, bare: Sequence[Figure], placed: dict[str, Figure], rig: str | None, cue: bool
) -> dict[str, Figure] | Doubt:
    """Positions for figures without a label, by sum and by the order of rolling over a scale."""
    unit = _common_unit(scene, bare)
    masses = [
        figure
        for figure in bare
        if BARE_KG[0] <= Quantity(figure.value, figure.unit or unit).amount("kg") <= BARE_KG[1]
        and not _next_odometer(scene, figure, cue or bool(placed))
    ]
    if not masses:
        return {}
    if placed:
        return _place_beside(scene, masses, placed)
    values = [Quantity(figure.value, figure.unit or unit).amount("kg") for figure in masses]
    if _trailer_axles_stated(scene) and len(values) in (2, 3):
        return dict(zip(SINGLE_AXLES, masses, strict=False))
    if not cue and not rig and not _looks_like_loads(scene, masses):
        return {}
    gross = _find_gross(values)
    trailer_alone = rig == "trailer"
    if gross is not None:
        parts = [figure for index, figure in enumerate(masses) if index != gross]
        positions = _positions(len(parts), solo=rig == "solo" or len(parts) == 2)
        if trailer_alone or positions is None:
            return {}
        return dict(zip(positions, parts, strict=True)) | {"gross": masses[gross]}
    if len(values) == 1:
        if rig is not None and (rig != "hitched" or cue):
            return {"gross": masses[0]}
        if cue and _is_alone(scene, masses[0]):
            return _lone_doubt(scene, masses[0], unit)
        return {}
    if rig == "solo" and len(values) == 2:
        return dict(zip(("steer", "drive"), masses, strict=True))
    if len(values) == 2 and cue:
        if scene.context.hitched is False:
            return dict(zip(("steer", "drive"), masses, strict=True))
        return Doubt("weighing", "two_loads", _stated(masses, unit), _two_choices(masses, unit))
    if len(values) == 3 and (cue or scene.context.hitched):
        return dict(zip(IN_ORDER, masses, strict=True))
    if len(values) >= 4:
        parts_sum, last = sum(values[:-1]), values[-1]
        first_sum = sum(values[1:])
        if abs(parts_sum - last) < 0.25 * last:
            return _sum_doubt(masses[:-1], masses[-1], unit)
        if abs(first_sum - values[0]) < 0.25 * values[0]:
            return _sum_doubt(masses[1:], masses[0], unit)
        if cue and len(values) <= 5:
            positions = _positions(len(values), solo=False)
            if positions is not None:
                return dict(zip(positions, masses, strict=True))
    return {}


def _next_odometer(scene: Scene, figure: Figure, weighed: bool) -> bool:
    known = scene.context.odometer
    if known is None or figure.dimension is not None or weighed:
        return False
    return 0 <= figure.value - known.value <= 3000 and figure.value >= 20_000


def _looks_like_loads(scene: Scene, masses: Sequence[Figure]) -> bool:
    """Three or more plausible loads and hardly a word besides."""
    if len(masses) < 3:
        return False
    strangers = sum(
        1
        for token in scene.tokens
        if token.kind is WORD and not token.senses and token.raw[0].islower()
    )
    if scene.context.hitched and _in_a_row(masses):
        return True
    tidy = all(
        figure.token.grouped or figure.value % 10 == 0 or figure.dimension == MASS
        for figure in masses
    )
    small = [f for f in scene.figures if f.claimed is None and f.value < 100 and f.unit is None]
    return tidy and strangers == 0 and len(small) <= 1


def _in_a_row(masses: Sequence[Figure]) -> bool:
    """Three or more round figures with nothing between them but marks."""
    close = all(
        right.start - left.end <= 1 for left, right in zip(masses, masses[1:], strict=False)
    )
    return close and all(figure.value % 10 == 0 and figure.value >= 1000 for figure in masses)


def _find_gross(values: Sequence[float]) -> int | None:
    """Which figure, last or first, is the sum of the others."""
    if len(values) < 3:
        return None
    total = sum(values)
    for index in (len(values) - 1, 0):
        if abs(total - 2 * values[index]) <= SUM_TOLERANCE * values[index]:
            return index
    return None


def _positions(count: int, *, solo: bool) -> tuple[str, ...] | None:
    if count == 2 and solo:
        return ("steer", "drive")
    if count == 3:
        return IN_ORDER
    if count in (4, 5):
        return ("steer", "drive", *SINGLE_AXLES[: count - 2])
    return None


def _place_beside(
    scene: Scene, bare: Sequence[Figure], placed: dict[str, Figure]
) -> dict[str, Figure]:
    """Figures that follow labelled ones: the rest of a list, where the sum says so."""
    if len(bare) == 1 and "gross" not in placed and len(placed) >= 2:
        unit = _common_unit(scene, [*placed.values(), *bare])
        total = sum(
            Quantity(figure.value, figure.unit or unit).amount("kg")
            for position, figure in placed.items()
            if position != "tongue"
        )
        value = Quantity(bare[0].value, bare[0].unit or unit).amount("kg")
        if abs(total - value) <= SUM_TOLERANCE * value:
            return {"gross": bare[0]}
    return {}


def _axle_list(scene: Scene, figures: Sequence[Figure]) -> list[Figure]:
    """'trailer has 3 axles: 3,420 3,380 3,460': figures in a row behind the trailer's axles."""
    for number, figure in enumerate(figures):
        label = figure.label
        lists = (
            isinstance(label, Label)
            and label.wheel == "axle"
            and label.vehicle in (None, "trailer")
            and not (label.axle or label.ordinal or label.end_of or label.side)
            and label.end <= figure.start
            and (
                label.vehicle == "trailer"
                or _named_before(scene, label)
                or any(other.whole == "tongue" for other in scene.labels)
            )
        )
        if not lists:
            continue
        row = [figure]
        for other in figures[number + 1 :]:
            if isinstance(other.label, Label) or other.start - row[-1].end > 1:
                break
            row.append(other)
        if len(row) in (2, 3):
            return row
    return []


def _named_before(scene: Scene, label: Label) -> bool:
    return any(
        other.vehicle == "trailer" and other.bound is None and other.end <= label.start
        for other in scene.labels
    )


def _trailer_axles_stated(scene: Scene) -> bool:
    """Whether the message speaks of the trailer's axles, without a figure of its own for them."""
    return any(
        label.bound is None and label.vehicle == "trailer" and not label.subject
        for label in scene.labels
    ) and any(token.senses.get("axle_noun") == "axle" for token in scene.tokens)


def _is_alone(scene: Scene, figure: Figure) -> bool:
    """A lone figure with a weighing word: said of the scale, not of cargo or a person."""
    others = [other for other in scene.figures if other is not figure and other.claimed is None]
    strangers = sum(
        1
        for token in scene.tokens
        if token.kind is WORD and not token.senses and token.raw.islower()
    )
    return not others and strangers == 0


def _common_unit(scene: Scene, figures: Sequence[Figure]) -> str:
    """The unit meant where a load has none: that of its neighbours, or the chat's."""
    for figure in figures:
        if figure.dimension == MASS and figure.unit:
            return figure.unit
    owned = {index for figure in scene.figures for index in range(figure.start, figure.end)}
    for index, _, key in scene.find("unit"):
        # 'in pounds', 'Mass (t)': a unit said once for the whole message.
        before = scene.tokens[index - 1] if index else None
        if (
            index not in owned
            and key in ("lb", "kg", "t")
            and before is not None
            and (before.raw == "(" or "before_common_unit" in before.groups)
        ):
            return key
    return MASS_UNIT[scene.context.units]


def _quantity(scene: Scene, figure: Figure, placed: dict[str, Figure]) -> Quantity:
    if figure.unit is not None and figure.dimension == MASS:
        return Quantity(figure.value, figure.unit, figure.low)
    unit = _common_unit(scene, list(placed.values()))
    small = [each for each in placed.values() if each.value < 60]
    if figure.value < 60 and len(small) == len(placed):
        # 'steer 5.2 drive 6.9': thousands of pounds, or tonnes.
        if unit == "lb":
            return Quantity(round(figure.value * 1000, 3), "lb")
        if unit == "kg":
            return Quantity(figure.value, "t")
    return Quantity(figure.value, unit, figure.low)


def _sums(loads: dict[str, Quantity]) -> bool | None:
    """Whether the parts make the gross: True, False, or None where that can't be told."""
    gross = loads.get("gross")
    if gross is None:
        return None
    truck, complete_truck = _part(loads, ("steer", "drive"), "truck")
    trailer, has_trailer = _trailer_part(loads)
    if "tongue" in loads and has_trailer and not complete_truck:
        parts = trailer + loads["tongue"].amount("kg")
    elif complete_truck:
        parts = truck + trailer
    else:
        return None
    whole = gross.amount("kg")
    if abs(parts - whole) <= max(SUM_TOLERANCE * whole, _rounding(loads)):
        return True
    if complete_truck and not has_trailer and parts < whole:
        return None
    return False


def _rounding(loads: dict[str, Quantity]) -> float:
    """Half of the last digit typed, for each load: '5.2k' is good to 50 lb."""
    slack = 0.0
    for load in loads.values():
        if load.unit in ("t", "ton"):
            slack += Quantity(0.006, load.unit).amount("kg")
        elif load.value % 100 == 0:
            slack += Quantity(50.0, load.unit).amount("kg")
    return slack if all(load.value % 100 == 0 or load.unit == "t" for load in loads.values()) else 0


def _part(loads: dict[str, Quantity], axles: Sequence[str], whole: str) -> tuple[float, bool]:
    if whole in loads:
        return loads[whole].amount("kg"), True
    total, complete = 0.0, True
    for axle in axles:
        if axle in loads:
            total += loads[axle].amount("kg")
        elif f"{axle}_left" in loads and f"{axle}_right" in loads:
            total += loads[f"{axle}_left"].amount("kg") + loads[f"{axle}_right"].amount("kg")
        else:
            complete = False
    return total, complete


def _trailer_part(loads: dict[str, Quantity]) -> tuple[float, bool]:
    parts = [
        load.amount("kg") for position, load in loads.items() if position.startswith("trailer")
    ]
    return sum(parts), bool(parts)


def _impossible(placed: dict[str, Figure], loads: dict[str, Quantity]) -> str | None:
    """The position whose figure can't be right, if any."""
    for position, load in loads.items():
        low, high = AXLE_KG
        if position == "gross":
            low, high = GROSS_KG
        elif position == "tongue":
            low, high = TONGUE_KG
        elif position.endswith(("_left", "_right")):
            low, high = WHEEL_KG
        elif position in ("trailer", "truck"):
            low, high = LOAD_KG
        if placed[position].negative or not low <= load.amount("kg") <= high:
            return position
    if "steer" in loads and "drive" in loads:
        steer, drive = loads["steer"].amount("kg"), loads["drive"].amount("kg")
        if min(steer, drive) * 6 < max(steer, drive):
            return "steer" if steer < drive else "drive"
    gross = loads.get("gross")
    if gross is not None:
        for position, load in loads.items():
            if position != "gross" and load.amount("kg") > gross.amount("kg") * 1.01:
                return "gross"
    return None


def _swaps(loads: dict[str, Quantity], position: str) -> tuple[Choice, ...]:
    """'53200' for 5320: the figure as typed, and with a digit less or more."""
    load = loads[position]
    choices = []
    for factor in (0.1, 10):
        value = load.value * factor
        if AXLE_KG[0] <= Quantity(value, load.unit).amount("kg") <= AXLE_KG[1]:
            mended = Quantity(round(value, 3), load.unit)
            choices.append(
                Choice(
                    f"{mended.value:,.0f} {mended.unit}",
                    (Weighing(loads={**loads, position: mended}),),
                )
            )
    return tuple(choices)


def _gross_doubt(scene: Scene, each: Pass, loads: dict[str, Quantity], rig: str | None) -> Doubt:
    parts = {position: load for position, load in loads.items() if position != "gross"}
    total = sum(load.amount("kg") for position, load in parts.items() if position != "tongue")
    unit = loads["gross"].unit
    meant = Quantity(round(Quantity(total, "kg").amount(unit), 2), unit)
    without = Weighing(loads={**parts, "gross": meant})
    return Doubt(
        "gross",
        "does_not_sum",
        (meant, loads["gross"]),
        (Choice(f"{meant.value:,.10g} {unit} gross", (without,)),),
    )


def _sum_doubt(parts: Sequence[Figure], gross: Figure, unit: str) -> Doubt | dict[str, Figure]:
    positions = _positions(len(parts), solo=len(parts) == 2)
    if positions is None:
        return {}
    total = Quantity(round(sum(part.value for part in parts), 2), parts[0].unit or unit)
    loads = {
        position: Quantity(part.value, part.unit or unit)
        for position, part in zip(positions, parts, strict=True)
    }
    choice = Choice(
        f"{total.value:,.10g} {total.unit} gross", (Weighing(loads={**loads, "gross": total}),)
    )
    stated = Quantity(gross.value, gross.unit or unit)
    return Doubt("gross", "does_not_sum", (total, stated), (choice,))


def _stated(figures: Sequence[Figure], unit: str) -> tuple[Quantity, ...]:
    return tuple(Quantity(figure.value, figure.unit or unit) for figure in figures)


def _lone_doubt(scene: Scene, figure: Figure, unit: str) -> Doubt:
    load = Quantity(figure.value, figure.unit or unit)
    text = f"{load.value:,.10g} {load.unit}"
    return Doubt(
        "weighing",
        "lone_load",
        (load,),
        (
            Choice(f"{text} gross", (Weighing(loads={"gross": load}),)),
            Choice(
                f"{text} on the trailer axles", (Weighing(rig="hitched", loads={"trailer": load}),)
            ),
        ),
    )


def _two_choices(figures: Sequence[Figure], unit: str) -> tuple[Choice, ...]:
    first, second = _stated(figures, unit)
    return (
        Choice("steer and drive", (Weighing(loads={"steer": first, "drive": second}),)),
        Choice(
            "truck and trailer axles",
            (Weighing(rig="hitched", loads={"truck": first, "trailer": second}),),
        ),
    )


def _vague(scene: Scene, placed: dict[str, Figure], rig: str | None, cue: bool) -> Doubt | None:
    """'trailer 9180' alone: its axles, or all of it?"""
    if set(placed) != {"trailer"} or rig is not None:
        return None
    label = placed["trailer"].label
    if isinstance(label, Label) and label.wheel:
        return None
    load = _quantity(scene, placed["trailer"], placed)
    text = f"{load.value:,.10g} {load.unit}"
    if scene.context.hitched is not False:
        return Doubt(
            "weighing",
            "lone_load",
            (load,),
            (
                Choice(
                    f"{text} on its axles, hitched",
                    (Weighing(rig="hitched", loads={"trailer": load}),),
                ),
                Choice(
                    f"{text} in all, unhitched", (Weighing(rig="trailer", loads={"gross": load}),)
                ),
            ),
        )
    return None


def _stated_rig(scene: Scene, each: Pass, count: int) -> str | None:
    """How the rig stood, as the message says it: 'bobtail', 'trailer alone', 'unhooked'."""
    found: str | None = None
    for index, _, key in scene.find("rig"):
        if count > 1 and not each.start <= index < each.end:
            continue
        following = scene.tokens[index + 1] if index + 1 < len(scene.tokens) else None
        if following is not None and "axle_noun" in following.senses:
            continue  # 'only the trailer axle' is still hitched
        kind = key.split()[0]
        if kind == "hitched":
            found = found or "hitched"
        else:
            found = kind
    found = found or _alone(scene)
    if found is None and _both_named(scene):
        found = "hitched"
    if found is None and any(label.aside and label.vehicle == "trailer" for label in scene.labels):
        found = "hitched"
    if found == "hitched" and scene.has("hitch", "unhitched"):
        found = None
    if found is None and _unhitched_here(scene, each):
        found = "trailer" if _trailer_is_subject(scene) else "solo"
    return found


def _unhitched_here(scene: Scene, each: Pass) -> bool:
    """'unhooked: 8,140' describes the rig; 'Unhitched.' in a sentence of its own is an event."""
    if all(isinstance(f.label, Label) and f.label.whole == "tongue" for f in each.figures):
        return False
    for index, _, _ in scene.find("hitch", "unhitched"):
        start, end = scene.sentence_of(index)
        if any(start <= figure.start < end for figure in each.figures):
            return True
    return False


def _both_named(scene: Scene) -> bool:
    """'that's Bertha and the fiver together': truck and trailer as one."""
    kinds = {label.vehicle for label in scene.labels if label.only_vehicle and label.bound is None}
    joined = any("joins_vehicles" in token.groups for token in scene.tokens)
    return {"truck", "trailer"} <= kinds and joined


def _alone(scene: Scene) -> str | None:
    """'float on its own', 'no truck': which of the two stood on the scale."""
    for label in scene.labels:
        if label.vehicle not in ("truck", "trailer") or label.wheel or label.axle:
            continue
        beside = [
            scene.tokens[index]
            for index in (label.start - 1, label.start - 2, label.end, label.end + 1)
            if 0 <= index < len(scene.tokens)
        ]
        if any("alone" in token.senses for token in beside):
            return "solo" if label.vehicle == "truck" else "trailer"
        if label.vehicle == "truck" and any("absent" in token.groups for token in beside):
            return "trailer"
    return None


def _trailer_is_subject(scene: Scene) -> bool:
    """'flatdeck on the scale, unhooked': the trailer was weighed, and is not what was dropped."""
    index = next(index for index, _, _ in scene.find("hitch", "unhitched"))
    behind = scene.tokens[index + 1 : index + 4]
    if any(each.senses.get("vehicle") == "trailer" or "name" in each.senses for each in behind):
        return False
    return any(label.vehicle == "trailer" and not label.wheel for label in scene.labels)


def _entry(
    scene: Scene,
    each: Pass,
    placed: dict[str, Figure],
    loads: dict[str, Quantity],
    rig: str | None,
    number: int,
    count: int,
) -> Weighing:
    truck_loads = [p for p in loads if p.startswith(("steer", "drive", "truck"))]
    trailer_loads = [p for p in loads if p.startswith("trailer")]
    derived = "hitched" if truck_loads and trailer_loads else None
    if derived is None and "gross" in loads and truck_loads:
        truck = sum(loads[p].amount("kg") for p in truck_loads)
        if trailer_loads == [] and loads["gross"].amount("kg") > truck * 1.05:
            derived = "hitched"
    if derived is None and "gross" in loads and trailer_loads and rig is None:
        alone = sum(loads[p].amount("kg") for p in trailer_loads)
        alone += loads["tongue"].amount("kg") if "tongue" in loads else 0.0
        if loads["gross"].amount("kg") > alone * 1.05:
            derived = "hitched"
    for figure in placed.values():
        figure.role = "load"
    words = tuple(
        (f"loads.{position}", scene.words_between(figure.start, figure.end))
        for position, figure in placed.items()
    )
    return Weighing(
        loads=loads,
        rig=derived or (rig if set(loads) != {"tongue"} else None),  # type: ignore[arg-type]
        bars=_bars(scene, each, count),  # type: ignore[arg-type]
        aboard=_aboard(scene) if number == 0 or count == 1 else None,
        fuel_level=_level(scene),
        words=words,
    )


def _bars(scene: Scene, each: Pass, count: int) -> str | None:
    found = [key for index, _, key in scene.find("bars") if each.start <= index < each.end]
    if not found and count == 1:
        found = [key for _, _, key in scene.find("bars")]
    return found[0] if found else None


def _aboard(scene: Scene) -> int | None:
    """People in the truck: '5 of us', '3 kids + 2 adults', 'just me'."""
    total = 0
    for index, _, key in scene.find("aboard"):
        before = scene.tokens[index - 1] if index else None
        if key == "people":
            if before is not None and before.kind is NUMBER and 1 <= before.value <= 12:
                if before.decimals == 0:
                    total += int(before.value)
        else:
            total += int(key)
    return total or None


def _level(scene: Scene) -> float | None:
    """How full the tank was: 'quarter tank', '3/4 tank', 'tank at 60%'."""
    for _, _, key in scene.find("level"):
        return float(key)
    for index, _, _ in scene.find("tank"):
        for other in (index - 1, index - 2, index + 1, index + 2, index - 3):
            if not 0 <= other < len(scene.tokens):
                continue
            token = scene.tokens[other]
            if token.kind is NUMBER and token.decimals == -1:
                return token.value
            if token.kind is NUMBER and 0 < token.value <= 100:
                following = scene.tokens[other + 1] if other + 1 < len(scene.tokens) else None
                if following is not None and following.senses.get("unit") == "%":
                    return token.value / 100
    return None


def with_particulars(
    scene: Scene, weighings: Sequence[Weighing], fee: Quantity | None, ticket: str | None
) -> list[Weighing]:
    """The fee and the ticket number go on the pass that they were said of, else the first."""
    result = list(weighings)
    if result and (fee is not None or ticket is not None):
        result[0] = replace(result[0], cost=fee, ticket=ticket)
    return result


def fee_of(scene: Scene) -> tuple[Quantity | None, Figure | None]:
    """What the weighing cost, where money is named and no fuel is bought with it."""
    for figure in scene.live_figures():
        label = figure.label
        if figure.role is None and isinstance(label, Label) and label.field == "fee":
            unit = figure.unit if figure.dimension == MONEY else scene.context.currency
            return Quantity(figure.value, unit or scene.context.currency), figure
    for figure in scene.live_figures():
        if figure.role is None and figure.dimension == MONEY and figure.unit:
            return Quantity(figure.value, figure.unit), figure
    return None, None


def ticket_of(scene: Scene) -> str | None:
    """The ticket's number, as typed."""
    for figure in scene.figures:
        label = figure.label
        if isinstance(label, Label) and label.field == "ticket":
            figure.role = "ticket"
            return _digits(figure)
    for index, _, _ in scene.find("ticket"):
        for step in (1, 2, 3):
            if index + step >= len(scene.tokens):
                break
            token = scene.tokens[index + step]
            if token.kind is BREAK:
                break
            if token.kind is WORD and any(c.isdigit() for c in token.raw):
                return token.raw
            if token.kind is NUMBER:
                for figure in scene.figures:
                    if figure.start == index + step and figure.label is None:
                        figure.role = "ticket"
                        return token.raw
                break
            if token.kind is not MARK:
                break
    return None


def _digits(figure: Figure) -> str:
    return f"{figure.value:.0f}" if figure.token.spoken else figure.token.raw
