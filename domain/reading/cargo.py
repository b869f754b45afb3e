"""Cargo: what was loaded, what it weighs and where it stands.

This file decides when a mass is that of a thing: a noun beside it that is no part of the rig,
and a place on the rig or a word of loading that says it was put there. The place is kept in
the texter's words, without articles.
"""

from __future__ import annotations

from collections.abc import Sequence
from itertools import pairwise

from domain.context import MASS_UNIT
from domain.entries import Cargo
from domain.quantities import Quantity
from domain.reading.antecedents import POINTING, Meant, thing_meant
from domain.reading.figures import MASS, Figure, kilograms
from domain.reading.how_it_stood import stood_alone
from domain.reading.how_many import how_many
from domain.reading.label import Label
from domain.reading.laden_and_empty import EMPTIES, tell_states
from domain.reading.manifests import is_manifest
from domain.reading.on_the_tongue import bears_down
from domain.reading.plain_cargo import tells_weights
from domain.reading.scene import Scene
from domain.reading.spots import Spot, distance_to, find_spots, is_left, spot_of
from domain.reading.theirs import is_hauled_by_somebody
from domain.reading.things import (
    are_goods,
    has_goods,
    is_noun,
    is_of_another,
    item_of,
    noun_from,
)
from domain.reading.tokens import NUMBER, WORD
from domain.reading.told_now import is_told_now

LOAD_KG = (2.0, 20_000.0)


def read_cargo(scene: Scene) -> list[Cargo]:
    """The cargo that a message states."""
    heavy = any(
        figure.dimension == MASS or (figure.dimension is None and figure.token.grouped)
        for figure in scene.live
        if figure.role is None
    )
    plain = not heavy and tells_weights(scene, find_spots(scene))
    if not (heavy or plain):
        return []
    if "opens_whether" in scene.tokens[0].groups:
        return []
    if "hauls" in scene.groups and is_hauled_by_somebody(scene):
        return []
    if EMPTIES in scene.groups:
        tell_states(scene)
    verb = plain or is_manifest(scene.tokens)
    verb = verb or any(scene.stated(index) for index in scene.by_class.get("load_verb", ()))
    if not verb and not any(figure.dimension == MASS for figure in scene.figures):
        return []
    spots = [spot for spot in find_spots(scene) if not is_left(scene, spot)]
    meant = _things_meant(scene, spots)
    masses = [
        figure
        for figure in scene.live
        if figure.role is None
        and (
            (plain and figure.dimension is None)
            or _is_mass(
                scene,
                figure,
                spots if verb or figure.start in meant or "weigh_cue" not in scene.by_class else [],
            )
            or (spots and _row_of_masses(scene, figure, spots))
        )
    ]
    if not masses:
        return []
    found: list[Cargo] = []
    listed_only = "carried_thing" in scene.groups and _lists_only_things(scene)
    moved = "moves" in scene.groups
    weighed = (scene.has("weigh_cue") or _stood_alone(scene)) and not listed_only
    for figure in masses:
        thing = meant.get(figure.start)
        spot = spot_of(scene, figure, masses, spots) or (thing.spot if thing else None)
        if (spot is None and _taken_off(scene, figure)) or _one_of_several(scene, figure):
            continue
        hooked = "hitch" in scene.by_class and _rides_on_hitched(scene, figure)
        if not hooked and weighed and thing is None and (spot is None or figure.dimension is None):
            continue
        if spot is not None and _after_setting(scene, figure, spot):
            continue
        if spot is not None and is_of_another(scene, figure, spot):
            spot = None
        if moved and bears_down(scene, figure):
            continue
        if "rated_gear" in scene.groups and _is_what_it_lifts(scene, figure):
            scene.claim(figure, "what a tool is made for")
            continue
        if thing is None and _is_at_end(scene, figure):
            continue
        trailer = None if spot else _on_trailer(scene, figure)
        placed = spot or trailer is not None or _counted_in(scene, figure)
        loaded = listed_only or _loaded(scene, figure, verb=verb) or _adds_thing(scene, figure)
        loaded = loaded or plain or hooked or _is_the_load(scene, figure) or _fetched(scene, figure)
        item = thing.item if thing else None
        if thing is None and (placed or loaded):
            item = item_of(scene, figure, spots)
        if item is None:
            continue
        row = _row_of_masses(scene, figure, spots)
        if not (row or _may_carry(scene, figure, verb=verb, spot=spot)):
            continue
        if not verb and spot is not None and _at_home(scene, figure, spot):
            continue
        unit = figure.unit or (row and row.unit) or MASS_UNIT[scene.context.units]
        value = Quantity(figure.value * how_many(scene, figure), unit, figure.low)
        if not LOAD_KG[0] <= value.amount("kg") <= LOAD_KG[1]:
            continue
        figure.role = "cargo"
        found.append(
            Cargo(
                item=item,
                value=value,
                position=spot.words if spot else trailer or None,
                distance=distance_to(scene, spot) if spot else None,
                words=(("value", scene.words_between(figure.start, figure.end)),),
            )
        )
    return found


def _is_what_it_lifts(scene: Scene, figure: Figure) -> bool:
    """'3 ton jack in the bed', '10,000 lb hand winch': by what it is made for a tool is called."""
    name = scene.tokens[figure.end : figure.end + LONGEST_TOOL]
    return kilograms(figure) >= LEAST_LIFTED and any("rated_gear" in token.groups for token in name)


LONGEST_TOOL, LEAST_LIFTED = 2, 450.0
"""Tokens of 'floor jack', and kilograms: no such tool weighs as much."""


def _stood_alone(scene: Scene) -> bool:
    """'float on its own, unhitched, with the grey in it: 1,640 kg': a vehicle that was weighed."""
    return "alone" in scene.by_class and stood_alone(scene) is not None


def _after_setting(scene: Scene, figure: Figure, spot: Spot) -> bool:
    """A vehicle alone, what was in it, and then a mark and the load: that is the vehicle's."""
    parted = spot.end == figure.start - 1 and scene.tokens[spot.end].raw in ":,-–—"
    return parted and _stood_alone(scene) and not scene.has("load_verb")


def _is_at_end(scene: Scene, figure: Figure) -> bool:
    """'we are chuffed, 1,450 kg on the front, 1,830 on the back': loads, of which one has an axle.

    'hay, 450 kg on the front, trailer axles 2,310' tells where hay lies.
    """
    label = figure.label
    if not isinstance(label, Label) or not label.only_end or kilograms(figure) < LEAST_AT_END:
        return False
    weighed = scene.has("weigh_cue")
    others = [
        each.label for each in scene.live if each is not figure and isinstance(each.label, Label)
    ]
    if not any(
        each.axle or each.wheel == "axle" or (weighed and each.only_end) for each in others
    ) and not any(_is_other_end(label, each) for each in others):
        return False
    start, end = scene.sentence_of(figure.start)
    if any("carried_thing" in token.groups for token in scene.tokens[start:end]):
        return False
    return not has_goods(scene, max(start, figure.start - FARTHEST), figure.start)


FARTHEST = 3
"""Tokens before what a thing weighs in which it is named: 'hay, ', 'hay is '."""


def _is_other_end(label: Label, other: Label) -> bool:
    """'1,450 kg on the front, 1,830 on the back': each end bears what no pickup carries there."""
    if not other.only_end or other.end_of == label.end_of or not (label.bound and other.bound):
        return False
    unit = label.bound.unit or ""
    return all(kilograms(each, unit) >= LEAST_OF_ENDS for each in (label.bound, other.bound))


LEAST_OF_ENDS = 800.0
"""Kilograms at each of both ends: a truck's axles, and no load on it."""

LEAST_AT_END = 400.0
"""Kilograms that an axle of a truck bears, at least; common practice, no source."""


def _things_meant(scene: Scene, spots: Sequence[Spot]) -> dict[int, Meant]:
    """The things that masses are told of by pronoun, each by where its figure begins."""
    if POINTING.isdisjoint(scene.groups) and "weigh_cue" not in scene.by_class:
        return {}
    found = ((figure.start, thing_meant(scene, figure, spots)) for figure in scene.live)
    return {start: thing for start, thing in found if thing is not None}


def _counted_in(scene: Scene, figure: Figure) -> bool:
    """'two horses in, 1,100 lb each': so many things that weigh much went in, and nothing else."""
    count = how_many(scene, figure)
    start, _ = scene.sentence_of(figure.start)
    before = scene.tokens[start : figure.start]
    if before and "around" in before[-1].groups:
        before = before[:-1]  # 'about 110 lb each'
    went = len(before) > 2 and before[-1].raw == "," and "goes_in" in before[-2].groups
    if count < 2 or not went or figure.dimension != MASS:
        return False
    return count * kilograms(figure) >= LEAST_COUNTED


LEAST_COUNTED = 130.0
"""Kilograms: less, said to be in or on, may be in an oven."""


def _row_of_masses(scene: Scene, figure: Figure, spots: Sequence[Spot]) -> Figure | None:
    """'generator 128 lb, compressor 94': of a bare figure in a list, the mass it is alike to."""
    if figure.dimension is not None or not figure.whole or figure.value < LEAST_IN_ROW:
        return None
    label = figure.label
    of_spot = isinstance(label, Label) and any(
        spot.start <= label.start < spot.end for spot in spots
    )
    if (label is not None and not of_spot) or not _beside_thing(scene, figure):
        return None  # and 'both over the axles' labels no load
    start, end = scene.sentence_of(figure.start)
    alike = (
        other
        for other in scene.figures
        if other is not figure
        and other.dimension == MASS
        and start <= other.start < end
        and _beside_thing(scene, other)
        and ALIKE[0] < other.value / figure.value < ALIKE[1]
    )
    return next(alike, None)


def _beside_thing(scene: Scene, figure: Figure) -> bool:
    """'generator 128', '90 of drinks'."""
    if figure.start and is_noun(scene, figure.start - 1):
        return True
    of = scene.tokens[figure.end : figure.end + 1]
    return any("of" in token.groups for token in of) and bool(noun_from(scene, figure.end + 1))


LEAST_IN_ROW, ALIKE = 10, (0.1, 10.0)


def _loaded(scene: Scene, figure: Figure, *, verb: bool) -> bool:
    """A word of loading: one that only loads say so, or an everyday one with the rig beside it."""
    if not verb:
        return False
    light = figure.dimension == MASS and kilograms(figure) < LEAST_ADDED  # 'cat on board, 12 lb'
    sure = is_manifest(scene.tokens) or any(
        "surely_loads" in token.groups and not (light and "aboard" in token.senses)
        for _, token, _ in scene.find("load_verb")
    )
    return sure or scene.has("vehicle") or scene.has("name")


def _lists_only_things(scene: Scene) -> bool:
    """'fridge 41 kg and gas bottles 36 kg', 'toolbox weighs 240 lb': what is carried, and no more.

    Each thing is one that people tow or load, and heavy.
    """
    masses = [figure for figure in scene.live if figure.dimension == MASS]
    if len(masses) != len(scene.figures) or any(
        kilograms(figure) < LEAST_ADDED for figure in masses
    ):
        return False
    told = {index for figure in masses for index in range(figure.start, figure.end)}
    things = 0
    for index, token in enumerate(scene.tokens):
        if index in told or token.kind is not WORD:
            continue
        if not token.groups.isdisjoint(BESIDE_THING) and "of_a_person" not in token.groups:
            continue
        behind = scene.tokens[index + 1 : index + 2]
        names = not token.senses and behind and "carried_thing" in behind[0].groups
        if "carried_thing" in token.groups:
            things += 1
        elif not names and "weigh_cue" not in token.senses:
            return False  # 'honey drums' has a word more
    return things == len(masses) and scene.tokens[-1].raw != "?"


BESIDE_THING = frozenset(("article", "and_alone", "was", "goes_aboard"))
"""Groups of small words in a list of things and their weights."""


def _adds_thing(scene: Scene, figure: Figure) -> bool:
    """'added a toolbox, 165 lb': an everyday word of loading, a thing and what it weighs."""
    if figure.dimension != MASS or "adds_thing" not in scene.groups:
        return False
    start, _ = scene.sentence_of(figure.start)
    ahead = [
        index
        for index in range(start, figure.start)
        if scene.tokens[index].raw != "," and "article" not in scene.tokens[index].groups
    ]
    while ahead and "glue" in scene.tokens[ahead[0]].senses:
        ahead = ahead[1:]  # 'we just added'
    if len(ahead) < 2 or "adds_thing" not in scene.tokens[ahead[0]].groups:
        return False
    heavy = kilograms(figure) >= LEAST_ADDED
    return heavy and all(is_noun(scene, index) for index in ahead[1:])


LEAST_ADDED = 30.0
"""Kilograms: of less people also add to a recipe, or to what they lift."""


def _fetched(scene: Scene, figure: Figure) -> bool:
    """'picked up pavers, 820 kg', 'grabbed 1,400 lb of gravel': more than anybody carries off."""
    if "fetches" not in scene.groups or kilograms(figure) < LEAST_FETCHED:
        return False
    start, _ = scene.sentence_of(figure.start)
    before = range(start, figure.start)
    verb = next((at for at in before if "fetches" in scene.tokens[at].groups), None)
    if verb is None:
        return False
    led = all("glue" in token.senses for token in scene.tokens[start:verb])
    between = scene.tokens[verb + 1 : figure.start]
    return led and all(
        token.raw == ","
        or token.kind is NUMBER
        or not token.groups.isdisjoint(("article", "of"))
        or is_noun(scene, index)
        for index, token in enumerate(between, verb + 1)
    )


LEAST_FETCHED = 150.0
"""Kilograms: less is shopping, or a person."""


def _rides_on_hitched(scene: Scene, figure: Figure) -> bool:
    """'hooked the hay trailer, bales are 9,600 lb': goods, and heavy, behind what was put on."""
    told = are_goods(scene, figure) or _went_in(scene, figure)
    if kilograms(figure) < LEAST_FETCHED or not told:
        return False
    hitched = (at for at, _, _ in scene.find("hitch", "hitched") if scene.stated(at))
    return next(hitched, figure.start) < figure.start


def _went_in(scene: Scene, figure: Figure) -> bool:
    """'ponies are in, 640 kg', 'cattle on, 3,400 kg': what went in, and what it weighs."""
    comma = figure.start - 1
    if comma < SHORTEST_WENT or scene.tokens[comma].raw != ",":
        return False
    start, _ = scene.clause_of(comma - 1)
    if comma - start < SHORTEST_WENT:
        return False
    *thing, went = range(start, comma)
    thing = [index for index in thing if "glue" not in scene.tokens[index].senses]
    named = bool(thing) and all(
        is_noun(scene, index) and "check_item" not in scene.tokens[index].senses for index in thing
    )
    return named and "goes_in" in scene.tokens[went].groups


SHORTEST_WENT = 2
"""Tokens of 'cattle on' before the comma."""


def _is_the_load(scene: Scene, figure: Figure) -> bool:
    """'load is 5,400 lb of alfalfa': what it is, told of the load by that name."""
    start, _ = scene.sentence_of(figure.start)
    while start < figure.start and "article" in scene.tokens[start].groups:
        start += 1
    said = scene.tokens[start : figure.start]
    of = scene.tokens[figure.end : figure.end + 1]
    heads = 0 < len(said) <= LONGEST_HEADING and "heads_load" in said[0].groups
    told = heads and (len(said) == 1 or "is_at" in said[1].groups or said[1].raw in ":,-")
    return told and any("of" in token.groups for token in of)


LONGEST_HEADING = 2
"""Tokens of what stands before a load that a line is headed with."""


def _is_mass(scene: Scene, figure: Figure, spots: list[Spot]) -> bool:
    label = figure.label
    if isinstance(label, Label) and any(spot.start <= label.start < spot.end for spot in spots):
        return figure.dimension == MASS
    if isinstance(label, Label):
        if label.subject == "tyre" and "load_place" in scene.groups:
            return _lies(scene, figure, label, spots)
        if label.rating or label.field or label.subject or label.axle:
            return False
        if label.whole and not (label.whole == "gross" and figure.dimension == MASS):
            return False
        if label.whole and not (spots or _are_counted(scene, figure, label)):
            return False  # 'the bikes on the A-frame, 36 kilos all up'
        bare = figure.dimension is None and label.only_vehicle and label.end <= figure.start
        if bare and is_told_now(scene, label, figure):
            return False  # 'put 1,200 lb of supers on, trailer now 9,860'
        if label.only_vehicle and _heads_clause(scene, label, figure):
            return False
        left = label.only_side and figure.dimension == MASS and bool(spots)
        if left and label.end <= figure.start:
            return True  # 'left 200 lb of feed in the bed'
        if label.only_axles and _bears_on_both(scene, figure):
            return False
        if label.side or label.ordinal or label.end_of or (label.wheel and label.vehicle):
            return False
    return figure.dimension == MASS or (
        figure.dimension is None and figure.value >= 100 and figure.token.grouped
    )


def _heads_clause(scene: Scene, label: Label, figure: Figure) -> bool:
    """'got the hay stacked, trailer 7,400': the vehicle's own load, in a clause of its own."""
    start, _ = scene.clause_of(figure.start)
    told = label.end == figure.start or is_told_now(scene, label, figure)
    return label.start == start > 0 and told


def _are_counted(scene: Scene, figure: Figure, whole: Label) -> bool:
    """'48 hives on the flatdeck, 3,900 lb all told': goods that were counted or just loaded.

    'gross 21,900', 'scale says 21,900 all told' are of the rig.
    """
    if "everyday_whole" not in scene.tokens[whole.start].groups or whole.start != figure.end:
        return False
    if "scale_says" in scene.groups:
        return False
    start, _ = scene.sentence_of(figure.start)
    if _just_loaded(scene, start, figure):
        return True
    counts = (each for each in scene.figures if start <= each.start < figure.start)
    return any(
        each.claimed is not None and has_goods(scene, each.start + 1, each.start + 2)
        for each in counts
    )


def _just_loaded(scene: Scene, start: int, figure: Figure) -> bool:
    """'ewes loaded, 520 kg all told', 'bricks are loaded, 980 kg altogether': a thing, and so."""
    at = next((at for at, _, _ in scene.find("load_verb") if start < at < figure.start), None)
    if at is None or "surely_loads" not in scene.tokens[at].groups:
        return False
    said = [
        index
        for index in range(start, at)
        if "glue" not in scene.tokens[index].senses and scene.tokens[index].kind is not NUMBER
    ]
    behind = scene.tokens[at + 1 : figure.start]
    return (
        bool(said)
        and all(is_noun(scene, index) for index in said)
        and (all(token.raw in ",-–—" for token in behind))
    )


def _bears_on_both(scene: Scene, figure: Figure) -> bool:
    """'loaded with hives 9,140 on the axles, tongue 1,020': what the trailer's wheels bear."""
    led = scene.tokens[figure.end : figure.end + 1]
    return any("on_the" in token.groups for token in led) and any(
        each.whole == "tongue" and each.bound is not None for each in scene.labels
    )


def _lies(scene: Scene, figure: Figure, label: Label, spots: list[Spot]) -> bool:
    """'a tire in the bed, 70 lb': what the tyre weighs, between whose name and weight it lies."""
    return figure.dimension == MASS and any(
        label.end <= spot.start
        and spot.end <= figure.start
        and "load_place" in scene.tokens[spot.end - 1].groups
        for spot in spots
    )


def _may_carry(scene: Scene, figure: Figure, *, verb: bool, spot: Spot | None) -> bool:
    if figure.dimension is None:
        return verb
    label = figure.label
    if not isinstance(label, Label) or not label.wheel or spot is not None:
        return True
    of = scene.tokens[figure.end : figure.end + 1]
    return any("of" in token.groups for token in of)  # '1,680 lb of hives on the axles'


def _at_home(scene: Scene, figure: Figure, spot: Spot) -> bool:
    """'a 20 lb turkey in the kitchen': little stands in a house, where no rig is named."""
    if scene.has("vehicle") or scene.has("name") or len(scene.figures) > 1:
        return False
    household = spot.words.casefold() in scene.book.groups["household_spot"]
    least = LEAST_ADDED if "carried_thing" in scene.groups else LEAST_AT_HOME
    return household and kilograms(figure) < least


LEAST_AT_HOME = 45.0
"""Kilograms: what hardly anybody has lying about a house."""


def _one_of_several(scene: Scene, figure: Figure) -> bool:
    """'Dusty and Belle loaded, 1,100 and 1,050': which of them weighs so much is not said."""
    at = scene.figures.index(figure)
    other = scene.figures[at + 1] if at + 1 < len(scene.figures) else None
    if figure.dimension is not None or other is None or other.start != figure.end + 1:
        return False
    alike = ALIKE[0] < other.value / figure.value < ALIKE[1] and other.label is None
    return alike and "and" in scene.tokens[figure.end].groups


def _taken_off(scene: Scene, figure: Figure) -> bool:
    """'moved 300 lb of feed out of the trailer': what is told is where it stands no more."""
    if TAKEN_FROM.isdisjoint(scene.groups) and "out" not in scene.groups:
        return False
    _, end = scene.clause_of(figure.start)
    behind = scene.tokens[figure.end : end]
    return any(
        one.groups & TAKEN_FROM or ("out" in one.groups and "of" in other.groups)
        for one, other in pairwise(behind)
    )


TAKEN_FROM = frozenset(("from", "off"))


def _on_trailer(scene: Scene, figure: Figure) -> str | None:
    """'hay on the gooseneck is 9,420 lbs': on a trailer, and no more said of where.

    The word for it; empty where it goes by its name or kind, which the entry has anyhow.
    """
    if "vehicle" not in scene.by_class and "name" not in scene.by_class:
        return None
    start, end = scene.sentence_of(figure.start)
    for index in range(start + 1, end):
        token = scene.tokens[index]
        name = token.senses.get("name", "")
        if "points_at_a_thing" in token.groups and _behind_trailer(scene, start, index):
            return ""  # 'hooked the flatdeck up, hives on it'
        if token.senses.get("vehicle") != "trailer" and not name.startswith("trailer:"):
            continue
        before, further = scene.tokens[index - 1], scene.tokens[index - 2 : index - 1]
        led = "article" in before.groups and further and further[0].groups & ON_TRAILER
        if led or "standing_on" in before.groups:
            return token.text if "plain_trailer" in token.groups and not name else ""
    return None


ON_TRAILER = frozenset(("on_or_in", "is_so"))
"""Groups of 'on', and of 'is on'."""


def _behind_trailer(scene: Scene, start: int, index: int) -> bool:
    """Whether 'on it' points at a trailer that the sentence named before."""
    if "on_or_in" not in scene.tokens[index - 1].groups:
        return False
    return any(
        token.senses.get("vehicle") == "trailer"
        or token.senses.get("name", "").startswith("trailer:")
        for token in scene.tokens[start : index - 1]
    )
