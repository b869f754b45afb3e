"""Bare figures that are pressures: '36 front 44 rear 45 van', 'LF 65 RF 66'.

This file decides when a figure without a unit, told of a wheel or an end of an axle, is what its
tyre holds and no load. Where the wheel is, `gauge_places` decides.
"""

from __future__ import annotations

from itertools import pairwise

from domain.reading.figures import PRESSURE, Figure
from domain.reading.gauge_places import follows
from domain.reading.label import Label
from domain.reading.scene import Scene
from domain.reading.tokens import MARK

PRESSURE_SIZE = {"us": (20, 130), "imperial": (20, 130), "metric": (150, 900)}
"""What four corners without a unit are taken for pressures at; a wheel's load is far more."""


MOST_UNSAID = 600
"""Kilopascals: no tyre of a caravan or a pickup is told so hard without a word for tyres."""

MOST_TIMES = 10
"""A wheel's load is no less than so much of its axle's, or of the trailer's beside it."""


def is_pressure(scene: Scene, figure: Figure) -> bool:
    """A corner's figure that only a pressure can be, among others like it."""
    label = figure.label
    low, high = PRESSURE_SIZE[scene.context.units]
    psi = any(other.role == "observation" and _is_psi(other) for other in scene.figures)
    all_round = "all_round" in scene.groups and _all_round(scene)
    metric = scene.context.units == "metric" and figure.value < low
    if psi or (metric and (all_round or _are_corners(scene))):
        low, high = PRESSURE_SIZE["us"]  # 'tyres 36 front 44 rear 45 van'
    of_tyres = (
        "airs_up" in scene.groups
        or scene.has("subject", "tyre")
        or any(other.dimension == PRESSURE for other in scene.figures)
    )
    told = not TELLS_OF_TYRES.isdisjoint(scene.groups) or _both_ends(scene, low, high)
    told = told or all_round
    of_tyres = of_tyres or told
    if not of_tyres and figure.value > MOST_UNSAID:
        return False  # 'nearside 680 offside 705 on the van'
    placed = isinstance(label, Label) and (
        label.side or label.only_vehicle or (of_tyres and (label.axle or label.end_of))
    )
    if figure.dimension is not None or not placed or not low <= figure.value <= high:
        return False
    if scene.has("unit", "kg") or scene.has("unit", "lb") or scene.has("weigh_cue"):
        return False
    if any(other.wheel == "wheel" for other in scene.labels):
        return False
    if any(
        _is_placed(other) and high < other.value < MOST_TIMES * figure.value
        for other in scene.figures
    ):
        return False  # 'nearside front 720, nearside rear 1,010': loads, all of them
    if told or _heads_tyres(scene, figure) or _aired_to(scene, figure):
        return True
    alike = [
        other
        for other in scene.figures
        if isinstance(other.label, Label)
        and (
            other.dimension == PRESSURE
            or (other.label.side and low <= other.value <= high)
            or (of_tyres and other.role == "observation")
        )
    ]
    if isinstance(label, Label) and label.side and label.vehicle and "one_of_them" in scene.groups:
        alike += [other for other in scene.figures if _is_rest(scene, figure, other)]
    return len({*alike, figure}) >= 2


TELLS_OF_TYRES = frozenset(("pressure_word", "tyres_of_axle"))
"""Groups of words for how hard tyres are, and for an axle's: 'psi 66 steers', 'drive tires 71'."""


def _all_round(scene: Scene) -> bool:
    """'steers 44 rears 65 all round trailer 80': what is alike all round is a tyre's."""
    return any(
        "all_over" in one.groups and "all_round" in other.groups
        for one, other in pairwise(scene.tokens)
    )


def _is_psi(figure: Figure) -> bool:
    """Whether a bare pressure that was read before is told in pounds per square inch."""
    low, high = PRESSURE_SIZE["us"]
    tyre = isinstance(figure.label, Label) and figure.label.places
    return figure.dimension in (None, PRESSURE) and tyre and low <= figure.value <= high


def _are_corners(scene: Scene) -> bool:
    """'n/s front 36, n/s rear 42, o/s front 36': each corner has so little that it is in psi."""
    low, high = PRESSURE_SIZE["us"]
    corners = [
        each.value
        for each in scene.figures
        if isinstance(each.label, Label) and each.label.side and each.dimension is None
    ]
    return len(corners) >= LEAST_CORNERS and all(low <= value <= high for value in corners)


LEAST_CORNERS = 3


def _both_ends(scene: Scene, low: float, high: float) -> bool:
    """'fronts 60 rears 72': an axle's tyres, as no axle weighs so little."""
    if "axle_tyres" not in scene.groups:
        return False
    ends = [
        (each.value, scene.tokens[each.label.start])
        for each in scene.figures
        if isinstance(each.label, Label) and each.label.axle
    ]
    return len(ends) >= LEAST_ENDS and all(
        low <= value <= high and "axle_tyres" in said.groups for value, said in ends
    )


LEAST_ENDS = 2


def _is_rest(scene: Scene, figure: Figure, other: Figure) -> bool:
    """'left rear is low, 24, the rest are 35': the others of what is told first."""
    low, high = PRESSURE_SIZE[scene.context.units]
    alike = other.dimension is None and low <= other.value <= high
    return alike and other.start > figure.end and follows(scene, other, figure)


def _aired_to(scene: Scene, figure: Figure) -> bool:
    """'aired the fronts to 65': what is aired is a tyre, and the place it is at stands before."""
    label = figure.label
    if "airs_up" not in scene.groups or not isinstance(label, Label):
        return False
    between = scene.tokens[label.end : figure.start]
    return label.end < figure.start and all(
        "glue" in token.senses or token.raw == "," for token in between
    )


def _heads_tyres(scene: Scene, figure: Figure) -> bool:
    """'tyres: car 38, van 52': tyres without a figure of their own, over what follows."""
    own = figure.label
    if not isinstance(own, Label):
        return False
    between = scene.tokens[own.end : figure.start]  # 'tyres ok, car did 52' is its speed
    return all(token.kind is MARK for token in between) and any(
        label.subject == "tyre" and label.bound is None and label.start < figure.start
        for label in scene.labels
    )


def _is_placed(figure: Figure) -> bool:
    label = figure.label
    return figure.dimension is None and isinstance(label, Label) and label.places


def are_all_pressures(scene: Scene) -> bool:
    """A list of corners that ends in psi: 'LF 65 RF 66 LR 78 RR 80 psi'."""
    return any(isinstance(figure.label, Label) and figure.label.places for figure in scene.figures)
