"""A total that was paid, and no gross.

This file decides when 'total', 'all in' or 'for the lot' is money.
"""

from __future__ import annotations

from domain.entries import SUM_TOLERANCE
from domain.reading.figures import VOLUME
from domain.reading.label import Label
from domain.reading.scene import Scene


def is_money_total(scene: Scene, label: Label) -> bool:
    """The 'total' of a fuel receipt is money, and so is 'paid 4,500 all in'."""
    groups = scene.tokens[label.start].groups
    if "everyday_whole" not in groups:
        return False
    if not PAYS.isdisjoint(scene.groups):
        start, _ = scene.clause_of(label.start)
        if any(not PAYS.isdisjoint(each.groups) for each in scene.tokens[start : label.start]):
            return True
    if "sold_as_one" in groups:
        return WEIGHED_AS_ONE.isdisjoint(scene.by_class) and "unit" not in scene.by_class
    if "money_total" not in groups or _is_sum(scene, label):
        return False
    return any(figure.dimension == VOLUME for figure in scene.figures) or any(
        key in ("gal", "L", "gal_imp") for _, _, key in scene.find("unit")
    )


def _is_sum(scene: Scene, label: Label) -> bool:
    """'20.5 gal, 3,300 steer 2,540 drive 5,840 total': what the axles beside it make."""
    borne = [
        each.value
        for each in scene.live
        if isinstance(each.label, Label) and (each.label.axle or each.label.vehicle)
    ]
    total = label.bound
    if total is None or len(borne) < LEAST_SUMMED:
        return False
    return abs(sum(borne) - total.value) <= SUM_TOLERANCE * total.value


LEAST_SUMMED = 2
"""Loads of which a total is the sum."""

WEIGHED_AS_ONE = frozenset(("weigh_cue", "rig", "vehicle", "name", "axle", "axle_noun"))
"""Classes of term of which one stands where so much 'for the lot' was weighed, and not paid."""

PAYS = frozenset(("costs_one", "trades", "names_price"))
"""Groups of words for what something cost, or was sold for."""
