"""One thing weighed twice, laden and empty: 'with water full 21,740, with it empty 21,320'.

This file decides that two loads are of one place, told of two states of its load, and what a net
weight between them is. Places told twice for another reason are parted in `passes`.
"""

from __future__ import annotations

from collections.abc import Sequence
from copy import copy
from operator import attrgetter

from domain.context import MASS_UNIT
from domain.reading.bare_loads import HEAVIEST_STEER
from domain.reading.figures import LEAST_LOAD, MASS, Figure, kilograms
from domain.reading.fuel_words import CAMPERS_TANKS
from domain.reading.how_it_stood import stood_alone
from domain.reading.label import Label, make_label
from domain.reading.scene import Scene
from domain.reading.things import is_noun

EMPTIES = "empties"
"""The group of words for a load that is gone."""

SINCE = "tells_after"
"""The group of words for after something was moved or let out."""

NET = "net_weight"
"""The group of words for what lies between a laden and an empty vehicle."""

TWO_STATES = frozenset((EMPTIES, SINCE, NET))
"""Groups of words of which one stands where one thing is told of two states."""


def tell_states(scene: Scene) -> None:
    """Give two loads that are of one place in two states that place, the whole where none is said.

    What is told of the load between them keeps its own name, or is left aside.
    """
    tongue = any(label.whole == "tongue" for label in scene.labels)
    least = LEAST_BORNE if tongue else LEAST_LOAD
    masses = [figure for figure in scene.live if _may_weigh(figure, least)]
    three = len(masses) == WITH_NET and (NET in scene.groups or _are_bare(masses))
    net = _net_of(scene, masses) if three else None
    loads = [figure for figure in masses if figure is not net]
    if NET in scene.groups and EMPTIES not in scene.groups:
        if net is not None and _are_bare(loads):
            _weighs_all(scene, max(loads, key=attrgetter("value")))
            scene.claim(min(loads, key=attrgetter("value")), "what it weighs empty")
        return
    if len(loads) == 1 and _came_down(scene, loads[0]):
        _weighs_all(scene, loads[0])
    if len(loads) != TWICE or not _are_of_two_states(scene, *loads):
        return
    first, second = loads
    if isinstance(first.label, Label) and first.label.places_load and second.label is None:
        label = copy(first.label)
        label.start = label.end = second.start
        label.bound, second.label = second, label
        first.role = second.role = "load"
    elif EMPTIES in scene.groups and _of_one_rig(scene, loads) and _weighs_a_rig(scene, loads, net):
        for load in loads:
            _weighs_all(scene, load)
        if net is not None and not _is_things(scene, net):
            scene.claim(net, "a net weight")


def _is_things(scene: Scene, net: Figure) -> bool:
    """'hay 9,300', '9,240 of honey': a load that is named is cargo."""
    behind = scene.tokens[net.end : net.end + 1]
    named = net.start > 0 and is_noun(scene, net.start - 1)
    return named or any("of" in token.groups for token in behind)


TWICE, WITH_NET = 2, 3
"""Figures of a thing weighed laden and empty, and with what lies between."""


def _may_weigh(figure: Figure, least: float) -> bool:
    mass = figure.dimension == MASS or (figure.dimension is None and figure.whole)
    return mass and figure.value >= least and figure.role in (None, "load")


LEAST_BORNE = 100
"""Pounds or kilograms on a tongue that are told of a van full and empty."""


def _are_bare(figures: Sequence[Figure]) -> bool:
    return all(figure.label is None for figure in figures)


def _of_one_rig(scene: Scene, loads: Sequence[Figure]) -> bool:
    """Whether nothing names the two loads, or a vehicle by itself heads them both.

    'flatdeck by itself: empty 3,860, loaded 11,420'.
    """
    first, *others = loads
    label = first.label
    if not _are_bare(others) or label is None:
        return _are_bare(loads)
    heads = isinstance(label, Label) and label.only_vehicle and label.start < first.start
    if not heads or any(_is_things(scene, each) for each in others):
        return False
    return stood_alone(scene) is not None


def _weighs_all(scene: Scene, figure: Figure) -> None:
    if isinstance(figure.label, Label):
        figure.label.bound = None
    label = make_label(figure.start)
    label.end, label.whole, label.bound = figure.start, "gross", figure
    figure.label, figure.role, figure.foreign = label, "load", None
    scene.labels = sorted([*scene.labels, label], key=attrgetter("start"))


def _net_of(scene: Scene, masses: Sequence[Figure]) -> Figure | None:
    """'truck empty 12,420 loaded 21,720 hay 9,300': the figure that the other two differ by."""
    first, second, third = masses
    heaviest = max(first.value, second.value, third.value)
    made = abs(first.value + second.value + third.value - 2 * heaviest)
    if made > ROUNDED * heaviest:
        return None
    nets = (third, first, second)
    return next((f for f in nets if f.value < heaviest and not _is_of_state(scene, f)), None)


ROUNDED = 0.005
"""How far a net weight is rounded."""


def _is_of_state(scene: Scene, figure: Figure) -> bool:
    beside = (*scene.tokens[: figure.start][-1:], *scene.tokens[figure.end : figure.end + 1])
    return any(not token.groups.isdisjoint(STATES) for token in beside)


def _are_of_two_states(scene: Scene, first: Figure, second: Figure) -> bool:
    """Whether the two are told of two states, or the second of what was let out since."""
    tokens = scene.tokens
    before = [token.groups & STATES for token in tokens[: first.start]]
    between = [token.groups & STATES for token in tokens[first.end : second.start]]
    behind = [token.groups & STATES for token in tokens[second.end :]]
    told = [states for states in (before, between, behind) if any(states)]
    heavy, light = first.value, second.value
    emptied = any(EMPTIES in states for states in (*between, *behind))
    if len(told) == 1 and emptied:
        return heavy >= light > heavy / MOST_LET_OUT
    states = [frozenset().union(*each) for each in told]
    return len(told) > 1 and states[0] != states[1] and 1 / MOST_LADEN < light / heavy < MOST_LADEN


STATES = frozenset((EMPTIES, "full_word", "surely_loads", "laden_word", "tells_before", SINCE))
"""Groups of words for the states of a load: gone, all there, before it was moved and after."""

MOST_LET_OUT, MOST_LADEN = 1.25, 4.0
"""How many times as heavy a rig is with its tanks full, and a trailer with its load on."""


def _weighs_a_rig(scene: Scene, loads: Sequence[Figure], net: Figure | None) -> bool:
    """Whether two loads without a label are of a vehicle: by a word for it, its tanks or a net."""
    unit = MASS_UNIT[scene.context.units]
    if min(kilograms(load, unit) for load in loads) < LIGHTEST:
        return False
    told = (
        net is not None
        or not OF_A_RIG.isdisjoint(scene.by_class)
        or not CAMPERS_TANKS.isdisjoint(scene.groups)
        or _is_hauled(scene, loads)
    )
    strange = len(scene.unknown_words(names=False))
    return told and strange <= MOST_STRANGE + (net is not None)


def _is_hauled(scene: Scene, loads: Sequence[Figure]) -> bool:
    """'21,300 loaded with hives, 12,060 empty': as heavy as what is loaded on wheels."""
    unit = MASS_UNIT[scene.context.units]
    heaviest = max(kilograms(load, unit) for load in loads)
    return "surely_loads" in scene.groups and heaviest > HEAVIEST_STEER


LIGHTEST = 450.0
"""Kilograms: no trailer behind a pickup that is weighed by itself weighs less."""

MOST_STRANGE = 2
"""Words that no phrase knows: beside more of them the two are of something else."""

OF_A_RIG = frozenset(("weigh_cue", "rig", "alone", "bars"))
"""Classes of term that say that a vehicle was weighed, or how it stood."""


def _came_down(scene: Scene, figure: Figure) -> bool:
    """'after dumping the tanks she's down to 21,320': what all of it weighs since."""
    lead = scene.tokens[figure.start - 1 : figure.start]
    down = any("down_to" in token.groups for token in lead)
    tanks = "tank" in scene.by_class or not CAMPERS_TANKS.isdisjoint(scene.groups)
    heavy = kilograms(figure, MASS_UNIT[scene.context.units]) > HEAVIEST_STEER
    return down and tanks and heavy and figure.label is None
