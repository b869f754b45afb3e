"""The readers of facts: what wakes each, and the order in which figures are offered to them.

A reader is asked only where the message has a word or a figure of its kind, so that most are
never called. This file decides which are asked, and that a figure which one kind has taken is not
offered to the next; what makes a fact is decided in each reader's own file.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from collections.abc import Set as AbstractSet

from domain.entries import Entry
from domain.reading.allowed import ALLOWS
from domain.reading.beside_limits import LIMITING
from domain.reading.cargo import read_cargo
from domain.reading.checks import read_checks
from domain.reading.doubts import Doubt
from domain.reading.figures import (
    DISTANCE,
    MASS,
    MONEY,
    PRESSURE,
    PRICE,
    ROTATION,
    SHARE,
    SPEED,
    TEMPERATURE,
    VOLUME,
)
from domain.reading.fills import read_fills
from domain.reading.hitches import read_hitches
from domain.reading.label import PLACING
from domain.reading.observations import read_observations
from domain.reading.odometers import read_odometers
from domain.reading.ratings import read_ratings
from domain.reading.scene import Scene
from domain.reading.tickets import number_said, ticket_of, with_particulars
from domain.reading.told_faults import TOLD_FAULTS
from domain.reading.tow_ratings import HITCH_KINDS
from domain.reading.water import read_water
from domain.reading.weighings import read_weighings

Reader = Callable[[Scene], Sequence[Entry] | Doubt]

BARE = None
"""The dimension of a figure that has none."""

WAKES: Mapping[Reader, AbstractSet[str | None]] = {
    read_water: {"water", "water_tank"},
    read_ratings: {"rating", "rating_cue", "rating_subject", "axle_noun", "subject", "whole"}
    | {"tank", "holds", "unladen", "on_the_door", PRESSURE, *HITCH_KINDS, *ALLOWS, *LIMITING},
    read_observations: {"airs_up", "driving_at", "out_of_doors", "spare_tyre", "subject", *PLACING}
    | {PRESSURE, ROTATION, SHARE, SPEED, TEMPERATURE},
    read_cargo: {"load_verb", "carried_thing", "load_place", MASS},
    read_weighings: {BARE, MASS},
    read_fills: {BARE, VOLUME, PRICE, MONEY, DISTANCE},
    read_odometers: {BARE, DISTANCE},
    read_hitches: {"hitch", "swaps", "name", "vehicle", "rig"},
    read_checks: {"check_item", *TOLD_FAULTS},
}
"""Each reader, and what a message has one of that states anything for it.

These are classes of term, groups of words and dimensions of figures; `BARE` is a figure without.
"""


FIGURED = [
    (reader, wakes) for reader, wakes in WAKES.items() if reader not in (read_hitches, read_checks)
]
"""The readers to which figures are offered, in that order."""

TICKETED = frozenset(("ticket", "scale_says"))
"""A class of term and a group of words with which a ticket's number is told."""


def read_figures(scene: Scene, said: AbstractSet[str | None]) -> list[Entry] | Doubt:
    """The entries that figures make, kind by kind, or the first doubt about one.

    `said` is what wakes readers. Those with the surest marks come first: makers' limits before
    loads, and last the odometer, of which a bare figure may be.
    """
    ticket = None if said.isdisjoint(TICKETED) else ticket_of(scene) or number_said(scene)
    entries: list[Entry] = []
    for reader, wakes in FIGURED:
        if not said.isdisjoint(wakes):
            found = reader(scene)
            if isinstance(found, Doubt):
                return found
            entries += found
    return with_particulars(scene, entries, ticket)
