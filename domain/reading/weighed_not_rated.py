"""What is called like a maker's limit and was weighed: 'GCM on the weighbridge was 6,340'.

This file decides which labels of a rating, of a part or of the whole name a load instead. What
makes a rating is decided in `ratings`.
"""

from __future__ import annotations

from domain.entries import SUM_TOLERANCE
from domain.reading.figures import MASS, Figure, kilograms
from domain.reading.framing import LABEL_STEP
from domain.reading.label import AXLE_AT, Label
from domain.reading.loads import SMALLER
from domain.reading.scene import Scene
from domain.reading.tokens import Token


def settle_weighed(scene: Scene) -> None:
    """'GCM on the weighbridge was 6340': what a scale shows is a load, whatever it is called."""
    if "rating_cue" in scene.by_class:
        return
    for label in scene.labels:
        # 'the gauge reads 1,090 at the coupler'
        lead = scene.tokens[label.start - 1] if label.start else None
        if label.bound is None or lead is None or label.bound.end >= label.start:
            continue
        if label.rating_subject and ("at" in lead.groups or _rests_on(label, lead)):
            label.rating_subject, label.whole = None, "tongue"
    if "rating_subject" in scene.by_class and len(scene.labels) > 1:
        _settle_carried(scene)
    if "actual_word" in scene.groups:
        _leave_actual(scene)
    if "plated_tow" in scene.groups:
        _leave_unbraked(scene)
    if "each_one" in scene.groups and "rating" in scene.by_class:
        _leave_on_each(scene)
    if "end" in scene.by_class and "rating" in scene.by_class:
        _settle_ends(scene)
    if "as_weighed" in scene.groups and len(scene.labels) > FEWEST_AXLES:
        _settle_sum(scene)
    if "weigh_cue" not in scene.by_class:
        return
    rated = [label for label in scene.labels if label.rating]
    if any(figure.role == "load" for figure in scene.figures):
        return  # 'gvm 3,350, weighed 3,420'
    if len(rated) == 1 and "as_weighed" in scene.tokens[rated[0].start].groups:
        rated[0].rating, rated[0].whole = None, "gross"


def _leave_on_each(scene: Scene) -> None:
    """'camper 5,200 gawr per axle, 4,700 on each': how many axles bear so much is not said."""
    rated = [each.bound for each in scene.labels if each.rating == "gawr" and each.bound]
    for figure in scene.live:
        behind = scene.tokens[figure.end : figure.end + 2]
        if len(behind) < 2 or not rated or figure in rated or figure.start < rated[0].start:
            continue
        led = "rating_cue" in scene.tokens[figure.start - 1].senses
        if not led and "standing_on" in behind[0].groups and "each_one" in behind[1].groups:
            scene.claim(figure, "what each axle bears")


def _settle_ends(scene: Scene) -> None:
    """'trailer gawr 5,200, front 4,600 rear 4,660': what both ends bear, as a scale shows it."""
    rated = next((each for each in scene.labels if each.rating == "gawr" and each.bound), None)
    ends = [each for each in scene.labels if each.only_end and each.bound is not None]
    loads = [each.bound for each in ends if each.bound]
    if rated is None or rated.bound is None or len(ends) != len(BOTH_ENDS):
        return
    below = all(load.value < rated.bound.value for load in loads)
    if below and any(load.value % LABEL_STEP for load in loads):
        for end, load in zip(ends, loads, strict=True):
            end.vehicle, load.role = rated.vehicle, "load"


BOTH_ENDS = ("front", "rear")


def _settle_sum(scene: Scene) -> None:
    """'Axle 1: 2380 kg ... Axle 4: 1660 kg, GCM: 8080 kg': what all the axles make was weighed."""
    bound = [label for label in scene.labels if label.bound is not None]
    rated = [label for label in bound if label.rating]
    axles = [label.bound.value for label in bound if label.bound and label.wheel and label.ordinal]
    if len(rated) != 1 or len(axles) != len(bound) - 1 or len(axles) < FEWEST_AXLES:
        return
    (whole,) = rated
    named = "as_weighed" in scene.tokens[whole.start].groups
    if named and whole.bound and abs(sum(axles) - whole.bound.value) <= SUM_TOLERANCE * sum(axles):
        whole.rating, whole.whole = None, "gross"


FEWEST_AXLES = 3
"""Of a rig; those of a truck alone may be for just what it may weigh."""


def _leave_actual(scene: Scene) -> None:
    """'actual ATM 3,050, GTM 2,790': what it weighs, and what its plate allows is not told."""
    rated = [label for label in scene.labels if label.rating and label.bound is not None]
    for first in rated:
        if first.bound is not None and _is_actual(scene, first.bound, first):
            scene.claim(first.bound, "what it weighs")
            continue
        if not first.start or "actual_word" not in scene.tokens[first.start - 1].groups:
            continue
        for label in rated:
            if label.bound is not None and label.start >= first.start:
                scene.claim(label.bound, "what it weighs")
        return


def _leave_unbraked(scene: Scene) -> None:
    """'max tow 2,000 kg braked, 750 kg unbraked': a truck has one limit for what it tows."""
    ends = {figure.end: figure for figure in scene.live}
    for label in scene.labels:
        if label.whole == "ignored" and label.bound is None and label.start in ends:
            scene.claim(ends[label.start], "what may be towed without brakes")


def _is_actual(scene: Scene, figure: Figure, label: Label) -> bool:
    """'actual 6,880, gawr 7,050 rear'."""
    ahead = scene.tokens[max(0, figure.start - 1) : figure.start]
    return figure.start < label.start and any("actual_word" in each.groups for each in ahead)


def _settle_carried(scene: Scene) -> None:
    """'axles 2,140, ball 185': beside loads, so little is what rests there, and no limit."""
    if any(label.rating for label in scene.labels):
        return
    loads = [
        label.bound.value * (A_TON if label.bound.unit in SMALLER else 1)
        for label in scene.labels
        if label.bound and (label.places_load or label.only_vehicle)
    ]
    heaviest = max(loads, default=0.0)
    if heaviest <= 0:
        return
    for label in scene.labels:
        if label.bound is None or label.rating_subject not in CARRYING or label.compound:
            continue
        share = label.bound.value / heaviest
        if label.bound.dimension in (None, MASS) and LEAST_SHARE <= share <= MOST_SHARE:
            label.rating_subject, label.whole = None, "tongue"


A_TON = 1_000
"""Kilograms; of a short ton half the pounds, which is near enough for a share."""

LEAST_SHARE, MOST_SHARE = 0.02, 0.2
"""Of what the heaviest part of a rig weighs, what rests on its hitch (common practice)."""


def _rests_on(label: Label, lead: Token) -> bool:
    """'1,090 lb on the coupler': so little rests on a part, and is not what its maker allows."""
    figure = label.bound
    if figure is None or figure.dimension != MASS or label.rating_subject not in CARRYING:
        return False
    return "onto" in lead.senses.get("glue", "") and kilograms(figure) < LEAST_ALLOWED_KG


CARRYING = ("coupler", "ball")
"""Parts that a tongue rests on."""

LEAST_ALLOWED_KG = 1_200.0
"""Less is stamped on hardly any of them (common practice, no source)."""


def is_train(scene: Scene, figure: Figure, label: Label) -> bool:
    """'gross 20,980, gcwr 20,500': no truck alone is near its GCWR, so the rig was weighed.

    So it was where somebody grossed that much.
    """
    named = scene.tokens[label.start : label.end]
    if any("weighs_it" in token.groups for token in named):
        return True
    if figure.value % LABEL_STEP and any(
        other.rating == "gvwr" and other.bound and other.bound.value < figure.value
        for other in scene.labels
    ):
        return True  # 'GVWR on the truck 11,500, gross 21,480'
    most = MOST_OF_TRAIN if figure.value % LABEL_STEP == 0 else MOST_UNROUNDED
    return any(
        other.rating == "gcwr"
        and other.bound not in (None, figure)
        and other.bound.value * most < figure.value
        for other in scene.labels
        if other.bound is not None
    )


MOST_OF_TRAIN, MOST_UNROUNDED = 0.8, 0.65
"""What of the GCWR a truck's GVWR is at most: less would be left to tow than it weighs itself.

Makers round it; a figure that they would have rounded is hardly so much. Common practice.
"""


def weigh_together(scene: Scene, figure: Figure, label: Label) -> bool:
    """'trailer axles 9,200 and the gvwr is 9,900': what all axles bear, which none may alone."""
    plural = any("axles" in token.groups for token in scene.tokens[label.start : label.end])
    behind = scene.tokens[figure.end : figure.end + 1]
    if not plural or figure.count or any("each_one" in token.groups for token in behind):
        return False
    whole = [other.bound for other in scene.labels if other.rating == "gvwr" and other.bound]
    return any(MOST_OF_AXLE * each.value < figure.value <= each.value for each in whole)


def is_weighed(scene: Scene) -> bool:
    """'steer 5,240 drive 6,820 trailer axles 4,940 each': both axles of the truck, and no plate."""
    if "weigh_cue" in scene.by_class:
        return True
    if "rating" in scene.by_class or "rating_cue" in scene.by_class:
        return False
    told = [label for label in scene.labels if label.bound and label.vehicle != "trailer"]
    axles = {label.axle or AXLE_AT.get(label.end_of or "") for label in told}
    return axles.issuperset(("steer", "drive"))


MOST_OF_AXLE = 0.75
"""Of a trailer's GVWR what one of its axles is rated for at most; common practice, no source."""
