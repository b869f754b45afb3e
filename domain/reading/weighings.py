"""Loads on a scale.

This file decides whether a message states a weighing: which figures may be loads, what speaks
for it (labels, a word for weighing, a sum that comes out), and from how much on it is beyond
doubt. Passes, positions, sums, doubts and how the rig stood are decided in files of their own.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from itertools import combinations, pairwise

from domain.context import MASS_UNIT
from domain.entries import SINGLE_AXLES, SUM_TOLERANCE, Weighing
from domain.quantities import Quantity
from domain.reading.aboard import people_aboard
from domain.reading.allowed import ALLOWS, leave_allowed
from domain.reading.axles_both_ways import carry_axles
from domain.reading.bare_loads import (
    HEAVIEST_RIG,
    TRUCKS,
    are_its_axles,
    is_next_odometer,
    is_told_hitched,
    is_trailers_own,
    is_whole_rig,
    place_bare,
)
from domain.reading.beside_limits import HOLDS_TONGUE
from domain.reading.claimed_changes import CHANGE
from domain.reading.doubts import Doubt
from domain.reading.figures import LEAST_LOAD, MASS, Figure, kilograms
from domain.reading.fill_readings import without_readings
from domain.reading.fuel_aboard import fuel_level
from domain.reading.how_it_stood import (
    STANDING,
    bars_of,
    rig_of,
    rig_of_named,
    stated_rig,
)
from domain.reading.how_many import are_things
from domain.reading.label import Label
from domain.reading.laden_and_empty import TWO_STATES, tell_states
from domain.reading.load_doubts import (
    digit_slips,
    gross_doubt,
    impossible_position,
    is_beyond_alone,
    sides_doubt,
    unlike_axles,
    unplaced_sides,
    vague_trailer,
)
from domain.reading.loads import loads_of, makes_gross
from domain.reading.loads_of_each import of_each
from domain.reading.measured_places import LENGTHS, leave_measured
from domain.reading.money_totals import is_money_total
from domain.reading.named_behind import name_by_sum
from domain.reading.on_the_tongue import is_exact, is_things, rests_on_scale
from domain.reading.paid_vehicles import PAYS, leave_paid_vehicles
from domain.reading.passes import Pass, carry_place, passes_of, share_unit, weigh_again
from domain.reading.positions import (
    axle_list,
    is_absent,
    on_trailer_alone,
    place,
)
from domain.reading.said_loads import settle_said
from domain.reading.scene import Scene
from domain.reading.shared_tons import IN_TONS, share_tons
from domain.reading.talk import NEGATION
from domain.reading.things import are_goods, is_noun, noun_from
from domain.reading.tokens import WORD
from domain.reading.truck_axles import are_trucks_two, name_truck_axles
from domain.reading.trucks_own import has_trucks_own
from domain.reading.unladen import is_empty_told, leave_dry
from domain.reading.weighing_evidence import WHEELS, evidence_of_labels, evidence_of_pass

DECISIVE = 2.5
"""Evidence from which a weighing is beyond doubt: two labelled axles, or a sum that comes out."""

PLAIN_AS_DAY = 3.5
"""Evidence from which even an impossible figure was weighed, and its slip is asked about."""


def read_weighings(scene: Scene) -> list[Weighing] | Doubt:
    """The weighings that a message states, a doubt about them, or none."""
    if not TOLD_APART.isdisjoint(scene.groups):
        _tell_apart(scene)
    figures = scene.live
    if _are_unnamed(scene, figures):
        return []
    figures = [figure for figure in figures if _may_be_load(scene, figure)]
    if not figures or _are_unnamed(scene, figures) or _is_reading(scene, figures):
        return []
    weighings: list[Weighing] = []
    if "weighs_again" in scene.groups:
        weigh_again(scene, figures)
    if "axles" in scene.groups and len(figures) > 1:
        name_truck_axles(scene, figures)
    passes = passes_of(scene, figures)
    named = rig_of_named(scene) if scene.labels else None
    if len(passes) > 1:
        if "unit" in scene.by_class:
            share_unit(passes)
        if "bars" in scene.by_class:
            carry_place(passes)
        if len(passes) == BOTH_WAYS and not STANDING.isdisjoint(scene.by_class):
            carry_axles(scene, passes, named)
    for number, each in enumerate(passes):
        rig = stated_rig(scene, each, len(passes), named)
        result = _read_pass(scene, each, rig, number, len(passes))
        if isinstance(result, Doubt):
            return result
        if result is not None:
            weighings.append(result)
    return weighings


LEAST_KG = 100.0
"""Kilograms: what no wheel of a rig bears, where nobody says that it was weighed."""

BOTH_WAYS = 2
"""Passes: with the trailer on and off."""

TOLD_APART = ALLOWS | PAYS | {"differs", "printed_dry", "in_tons", LENGTHS, *TWO_STATES}
"""Groups of words beside which a figure may be no load, or one of two of one place."""


def _tell_apart(scene: Scene) -> None:
    """Leave what was not weighed, and place what was weighed laden and empty."""
    if "in_tons" in scene.groups and not IN_TONS.isdisjoint(scene.by_class):
        share_tons(scene.tokens, scene.live)
    if LENGTHS in scene.groups:
        leave_measured(scene)
    if "differs" in scene.groups:
        _leave_differences(scene)
        if "outweighs" in scene.groups:
            _name_changed(scene)
    if not ALLOWS.isdisjoint(scene.groups):
        leave_allowed(scene)
    if not TWO_STATES.isdisjoint(scene.groups):
        tell_states(scene)
    if not PAYS.isdisjoint(scene.groups):
        leave_paid_vehicles(scene)
    if "printed_dry" in scene.groups and "weigh_cue" not in scene.by_class:
        leave_dry(scene)


def _are_unnamed(scene: Scene, figures: Sequence[Figure]) -> bool:
    """'48,210, 640 left': figures of which nothing says that they are loads, too few for a row."""
    few = not scene.labels and len(figures) < SHORTEST_ROW
    return few and SAYS_LOADS.isdisjoint(scene.by_class)


def _is_reading(scene: Scene, figures: Sequence[Figure]) -> bool:
    """'hitched up, leaving, 48,011': the one figure is the odometer's next reading."""
    only = figures[0]
    weighed = not SAYS_WEIGHED.isdisjoint(scene.by_class)
    return len(figures) == 1 and only.label is None and is_next_odometer(scene, only, weighed)


SHORTEST_ROW = 3
"""Figures that are loads by their looks alone: two axles and what they make."""

SAYS_LOADS = frozenset(("weigh_cue", "bars", "passes", "rig", "hitch", "aboard", "level"))
"""Classes of term one of which says that something was weighed, or how it stood."""


SAYS_WEIGHED = frozenset(("weigh_cue", "bars", "passes"))
"""Classes of term one of which says that something was weighed."""


def _leave_differences(scene: Scene) -> None:
    """'drives 6,320 which is 1,200 more': what one load exceeds another by was not weighed."""
    for figure in scene.live:
        if figure.dimension not in (None, MASS):
            continue
        if isinstance(figure.label, Label):
            _pass_on_sum(scene, figure, figure.label)
            continue
        ahead = scene.tokens[max(0, figure.start - 2) : figure.start]
        behind = scene.tokens[figure.end : figure.end + 2]
        if not any("differs" in token.groups for token in (*ahead, *behind[:1])):
            continue
        loads = [other.value for other in scene.live if other.value >= LEAST_LOAD]
        apart = any(
            abs(abs(first - second) - figure.value) <= APART * figure.value
            for first, second in combinations(loads, 2)
            if figure.value not in (first, second)
        )
        if apart or any("than" in token.text.split() for token in behind):
            scene.claim(figure, "a difference")


def _name_changed(scene: Scene) -> None:
    """'steer's 240 lighter than last time, 4,920': of what changed, what it is now stands last."""
    free = [figure for figure in scene.live if figure.label is None]
    if len(free) != 1:
        return
    (now,) = free
    for label in scene.labels:
        if (
            label.bound is None
            and label.places_load
            and any(
                each.claimed == CHANGE and label.end <= each.start <= label.end + 1 <= now.start
                for each in scene.figures
            )
        ):
            now.label, label.bound = label, now
            return


def _pass_on_sum(scene: Scene, figure: Figure, label: Label) -> None:
    """'drive's 1,480 more than that, so 6,840': the place has what that makes, which is told."""
    behind = scene.tokens[figure.end : figure.end + 2]
    more = any("differs" in token.groups for token in behind[:1])
    if not more or not any("than" in token.text.split() for token in behind):
        return
    live = scene.live
    told = [each.value for each in live if isinstance(each.label, Label) and each is not figure]
    for other in live:
        free = other.start > figure.start and other.label is None
        if free and any(abs(abs(other.value - load) - figure.value) < 1 for load in told):
            other.label, label.bound = label, other
            scene.claim(figure, "a difference")
            return


APART = 0.05
"""People round a difference."""


def _may_be_load(scene: Scene, figure: Figure) -> bool:
    if figure.dimension not in (None, MASS) or figure.role not in (None, "load"):
        return False
    label = figure.label
    if isinstance(label, Label):
        if label.field or (not label.rating_subject and (label.rating or label.subject)):
            return False
        if _is_taken_off(scene, figure) or is_permitted(scene, label):
            return False
        if label.start > figure.end and _is_of_goods(scene, figure):
            return False
        if label.vehicle and label.only_vehicle:
            if is_next_odometer(scene, figure, "weigh_cue" in scene.by_class):
                return False
            if _tells_event(scene, figure, label):
                return False
            if "unladen" in scene.groups and is_empty_told(scene, figure):
                scene.claim(figure, "what it weighs dry")
                return False
            if figure.dimension is None and are_things(scene, figure, label):
                return False
        if label.whole == "gross":
            if is_money_total(scene, label):
                return False
            if figure.value > HEAVIEST_RIG and _is_all_of_it(scene, figure, label):
                figure.label = label.bound = None
                return False
        if label.rating_subject in HOLDS_TONGUE and rests_on_scale(scene, label):
            label.whole = "tongue"
        if _in_manifest(scene, figure):
            return False
        if label.whole == "tongue":
            if is_things(scene, figure, label):
                return False
            if is_exact(scene, figure, label):
                return _may_be_load(scene, figure)
        return label.places and not (label.rating or label.subject)
    if figure.foreign is not None:
        return False
    if figure.dimension == MASS:
        return not are_goods(scene, figure)
    return figure.value >= 100 and figure.whole


def _is_of_goods(scene: Scene, figure: Figure) -> bool:
    """'grabbed 1,400 lb of gravel for the drive': what a thing weighs, and no axle bears."""
    of = "of" in scene.tokens[figure.end].groups
    return of and figure.dimension == MASS and noun_from(scene, figure.end + 1) is not None


def _stands_at_end(scene: Scene, label: Label) -> bool:
    """'tractor on the trailer up front, 4,150 lb': where a thing stands that a line begins with."""
    if label.vehicle is None or label.wheel or not label.start:
        return False
    start, _ = scene.sentence_of(label.start)
    named = (t for t in scene.tokens[start : label.start] if "article" not in t.groups)
    first = next(named, None)
    carried = first is not None and "carried_thing" in first.groups
    return carried and "standing_on" in scene.tokens[label.start - 1].groups


def _in_manifest(scene: Scene, figure: Figure) -> bool:
    """'loaded: hay 1,150 lb deck, quad 690 rear': a thing's weight, and where it stands."""
    if figure.dimension is not None or not figure.start or "weigh_cue" in scene.by_class:
        return False
    named = scene.tokens[figure.start - 1]
    strange = named.kind is WORD and not (named.senses or named.groups)
    return strange and any(other.role == "cargo" for other in scene.figures)


def is_permitted(scene: Scene, label: Label) -> bool:
    """'Permitted GTW 6,850 kg' on a ticket: what may be weighed, and was not."""
    return label.start > 0 and "permits" in scene.tokens[label.start - 1].groups


def _tells_event(scene: Scene, figure: Figure, label: Label) -> bool:
    """'camper's hooked up, heading out 48,100': what happened there stands before the figure."""
    between = scene.tokens[label.end : figure.start]
    return figure.dimension is None and any(
        token.raw == "," and "event" in following.senses for token, following in pairwise(between)
    )


def _is_all_of_it(scene: Scene, figure: Figure, label: Label) -> bool:
    """'parked and everything 51,310': more than any rig grosses, and the odometer's next reading.

    An everyday word made a gross of it.
    """
    everyday = "everyday_whole" in scene.tokens[label.start].groups
    return everyday and is_next_odometer(scene, figure, weighed=False)


def _read_pass(
    scene: Scene, each: Pass, rig: str | None, number: int, count: int
) -> Weighing | Doubt | None:
    row = axle_list(scene, each.figures) if scene.labels else []
    labelled, bare = _labelled_and_bare(scene, each, row, rig)
    placed = of_each(scene, place(scene, labelled, rig)) if labelled else {}
    placed |= zip(SINGLE_AXLES, row, strict=False)
    if rig == "trailer":
        if not has_trucks_own(scene, labelled):
            placed = on_trailer_alone(placed)
        elif scene.phrase_said("merely"):
            rig = None  # 'camper only puts 6,240 on its axles, front of the truck is 4,610'
        else:
            return Doubt("weighing", "unplaced", tuple(loads_of(scene, placed).values()))
    cue = count > 1 or not SAYS_WEIGHED.isdisjoint(scene.by_class)
    if bare and not labelled and rig == "hitched":
        cue = cue or is_told_hitched(scene, bare[0])
    pumped = "fuel_cue" in scene.by_class and "weigh_cue" not in scene.by_class
    if not placed and pumped and fuel_level(scene) is None:
        return None
    evidence = evidence_of_labels(scene, placed)
    if len(bare) > 1 and "unit" in scene.by_class and "weigh_cue" in scene.by_class:
        weighed = without_readings(scene, bare)
        bare = weighed if len(weighed) > 1 or is_whole_rig(scene, weighed[0]) else bare
    if bare:
        found = place_bare(scene, bare, placed, rig, cue)
        if isinstance(found, Doubt):
            return found
        if len(found) >= 3 or not (placed or cue or rig) or _is_row_of_trailer(placed, found):
            evidence += DECISIVE
        placed = placed | found
    if not placed:
        return unplaced_sides(scene, labelled) if labelled and (cue or rig) else None
    settle_said(scene, placed, rig)
    if "truck" in placed:
        placed = _with_other_axle(placed)
    elif "trailer_2" in placed and placed.keys() >= TANDEM:
        placed = _with_trucks_axles(placed)
    loads = loads_of(scene, placed)
    sums = makes_gross(loads)
    evidence += evidence_of_pass(scene, placed, rig, cue=cue, sums=bool(sums))
    scene.decided(
        lambda: (
            f"weighing of {', '.join(placed)}: evidence {evidence:.1f}, and {DECISIVE} decides"
            + ("; the axles make the gross" if sums else "")
        )
    )
    impossible = impossible_position(placed, loads, rig)
    if evidence < DECISIVE or (
        impossible and len(placed) == 1 and not cue and evidence < PLAIN_AS_DAY
    ):
        return None
    if len(placed) == 1 and any(_of_body(scene, figure) for figure in placed.values()):
        return None
    stood = [position for position in placed if position != "tongue"]
    alone = stood[0] if len(stood) == 1 else None
    if alone is not None and ((alone, rig) in WHOLE_ALONE or _is_of_both(alone, rig, loads)):
        only = placed[alone].label
        if isinstance(only, Label) and only.only_vehicle:
            placed = {("gross" if name == alone else name): at for name, at in placed.items()}
            loads = {("gross" if name == alone else name): load for name, load in loads.items()}
            impossible = impossible_position(placed, loads, rig)
    if impossible:
        if impossible == "gross" and len(placed) == 1 and _is_talk(scene):
            return None  # 'altogether it's 128 pounds'
        if len(placed) == 1 and _is_of_thing(scene, placed[impossible]):
            return None
        if not cue and placed.keys() <= WHEELS and _bears_nothing(loads):
            return None  # 'IR gun: LF 112 LR 115 RF 110 RR 151'
        slips = digit_slips(loads, impossible, placed[impossible].token.said.others)
        return Doubt(impossible, "implausible", (loads[impossible],), slips)
    uneven = sides_doubt(loads, rig)
    if uneven is not None:
        return uneven
    if sums is False or (rig == "solo" and is_beyond_alone(loads)):
        return gross_doubt(loads, rig)
    vague = vague_trailer(scene, placed, loads, rig) or unlike_axles(labelled, loads, rig)
    if vague is not None:
        return vague
    return _entry(scene, each, placed, loads, rig, number, count)


def _bears_nothing(loads: Mapping[str, Quantity]) -> bool:
    return max(load.amount("kg") for load in loads.values()) < LEAST_KG


def _is_row_of_trailer(placed: Mapping[str, Figure], found: Mapping[str, Figure]) -> bool:
    """'camper 9,240 5,180 6,900': with the one that is named, a row of three."""
    return placed.keys() == {"trailer"} and found.keys() == {"steer", "drive"}


def _is_of_thing(scene: Scene, figure: Figure) -> bool:
    """'the cat on the front seat weighs 12 lb': an end of something that has a name of its own."""
    label = figure.label
    return isinstance(label, Label) and label.only_end and is_noun(scene, label.end)


def _is_taken_off(scene: Scene, figure: Figure) -> bool:
    """'took 200 lb off the tongue', 'lost 300 lb out of the bed': what went, not what is there.

    'added 300 lb to the steer' is what came.
    """
    if GOES_OR_COMES.isdisjoint(scene.groups):
        return False
    before = scene.tokens[max(0, figure.start - 2) : figure.start]
    if before and "changed_by" in before[-1].groups and figure.value < LEAST_REACHED:
        return "came_word" not in before[0].groups  # 'steer went up 140 lb'
    if figure.end >= len(scene.tokens):
        return False
    if any("adds_thing" in token.groups for token in before):
        return "to" in scene.tokens[figure.end].groups
    behind = scene.tokens[figure.end]
    label = figure.label
    if "of" in behind.groups and isinstance(label, Label) and label.whole == "tongue":
        return any("changes_by" in token.groups for token in before)  # 'dropped 180 lb of tongue'
    goes = any("goes_off" in token.groups for token in before)
    return goes and not scene.tokens[figure.end].groups.isdisjoint(("off_of", "out"))


GOES_OR_COMES = frozenset(("goes_off", "adds_thing", "changes_by", "changed_by"))

LEAST_REACHED = 1_000
"""Pounds or kilograms: of more that a place climbed or dropped it is told where it got to."""


def _of_body(scene: Scene, figure: Figure) -> bool:
    """'show steer weighed 1,284', 'my back weighs 5 tonne': of an animal, a person or a thing."""
    label = figure.label
    if not isinstance(label, Label):
        return False
    if label.end_of and "carried_thing" in scene.groups and _stands_at_end(scene, label):
        return True
    own = label.start > 0 and "of_somebody" in scene.tokens[label.start - 1].groups
    named = scene.tokens[label.start : label.end]
    if len(named) == 1 and "animal_or_axle" in named[0].groups:
        if own:
            return figure.value < MOST_OF_STEER  # 'my steer weighed 1,284'
        if kilograms(figure, MASS_UNIT[scene.context.units]) < LEAST_ON_STEER:
            return True
    if "bars" in scene.by_class:
        return False
    return bool(label.compound and label.axle) or (own and label.only_end)


MOST_OF_STEER = 2_400
"""Pounds or kilograms that an ox weighs; the front axle of a pickup bears more."""

LEAST_ON_STEER = 820.0
"""Kilograms: what is told of a 'steer' alone and is less is an ox; common practice, no source."""

MOST_STRANGE = 1
"""Words that no phrase knows: beside more of them an impossible gross is of something else."""


def _is_talk(scene: Scene) -> bool:
    return len(scene.unknown_words(names=False)) > MOST_STRANGE


def _with_other_axle(placed: dict[str, Figure]) -> dict[str, Figure]:
    """'front of the truck 5,160 and the back axle 7,480': no truck weighs less than an axle."""
    axles = [axle for axle in TRUCKS if axle in placed]
    if len(axles) != 1:
        return placed
    (axle,) = axles
    truck, told = placed["truck"], placed[axle]
    if truck.unit != told.unit or truck.value > told.value:
        return placed
    other = TRUCKS[axle == TRUCKS[0]]
    return {(other if at == "truck" else at): figure for at, figure in placed.items()}


def _with_trucks_axles(placed: dict[str, Figure]) -> dict[str, Figure]:
    """'hooked to the camper front 5,060 rear 6,880 tandems 8,960': more than the trailer's bear.

    No two axles bear more than all of them, so that they are the truck's.
    """
    front, rear, tandem = (placed[at] for at in ("trailer_1", "trailer_2", "trailer"))
    units = {front.unit, rear.unit, tandem.unit}
    most = tandem.value * (1 + SUM_TOLERANCE)
    if len(units) > 1 or front.value + rear.value <= most or not TRUCKS_OWN.isdisjoint(placed):
        return placed
    named = {"trailer_1": "steer", "trailer_2": "drive"}
    return {named.get(at, at): figure for at, figure in placed.items()}


TANDEM = {"trailer", "trailer_1", "trailer_2"}
TRUCKS_OWN = {"steer", "drive", "truck"}
"""Places of which none is told where a trailer's two axles turn out to be the truck's."""


def _is_of_both(position: str, rig: str | None, loads: Mapping[str, Quantity]) -> bool:
    """'truck with the camper 18,420': more than the axles of any pickup bear, so it is of both."""
    hooked = (position, rig) == ("truck", "hitched")
    return hooked and loads[position].amount("kg") > MOST_ON_PICKUP


MOST_ON_PICKUP = 6_400.0
"""Kilograms on both axles of the heaviest pickup with a trailer on: common practice, no source."""

WHOLE_ALONE = frozenset((("trailer", "trailer"), ("trailer", "solo"), ("truck", "solo")))
"""A vehicle that stood on the scale by itself: its one load is all of it."""


def _is_lacking(scene: Scene, figure: Figure, label: Label) -> bool:
    """'21,220 but I didn't get the axles': what is said to be lacking names no figure."""
    return label.start >= figure.end and scene.talk[label.start] == NEGATION


def _labelled_and_bare(
    scene: Scene, each: Pass, row: Sequence[Figure], rig: str | None
) -> tuple[list[Figure], list[Figure]]:
    """The figures of a pass that a label places, and those to be placed by sum and order.

    'rig 5,280 6,940 11,140' names the row, and not its first figure, nor does 'first, 5,280 ...',
    and a truck alone has two: 'Juniper solo 4,780 3,400';
    a label of what was not on the scale ('no truck 15,240') places nothing.
    """
    if not scene.labels:
        return [], list(each.figures)
    figures = [figure for figure in each.figures if figure not in row]
    labels = [
        (figure, figure.label)
        for figure in figures
        if isinstance(figure.label, Label) and not _is_lacking(scene, figure, figure.label)
    ]
    labelled = [figure for figure, _ in labels]
    if len(labelled) == len(figures) and "absent" not in scene.groups:
        return labelled, []
    if name_by_sum(figures):
        return figures[:-1], figures[-1:]
    bare = [figure for figure in figures if not isinstance(figure.label, Label)]
    axles = [figure for figure, label in labels if label.whole != "gross"]
    if len(axles) == 1 and len(bare) >= (1 if rig == "solo" else 2) and not row:
        only, first = axles[0], bare[0]
        label = only.label
        heads = isinstance(label, Label) and (
            label.only_vehicle or label.only_ordinal or label.only_axles
        )
        towed = isinstance(label, Label) and label.vehicle == "trailer"
        whole = towed and (are_its_axles(only, bare) or is_trailers_own(only, bare))
        if heads and not whole and only.start < first.start <= only.end + 1:
            rest = [figure for figure in labelled if figure is not only]
            return rest, [only, *bare]
    if len(bare) == 1 and are_trucks_two(scene, labelled, bare[0], rig):
        return [*labelled, *bare], []
    bare += [figure for figure, label in labels if is_absent(scene, label)]
    return labelled, bare


def _entry(
    scene: Scene,
    each: Pass,
    placed: dict[str, Figure],
    loads: dict[str, Quantity],
    rig: str | None,
    number: int,
    count: int,
) -> Weighing:
    for figure in placed.values():
        figure.role = "load"
    words = [
        (f"loads.{position}", scene.words_between(figure.start, figure.end))
        for position, figure in placed.items()
    ]
    return Weighing(
        loads=loads,
        rig=rig_of(loads, rig),
        bars=bars_of(scene, each, count),
        aboard=people_aboard(scene) if number == 0 or count == 1 else None,
        fuel_level=fuel_level(scene),
        words=tuple(words),
    )
