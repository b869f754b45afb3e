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
from domain.reading.scene import BARE, Scene
from domain.reading.tickets import fee_of, number_said, ticket_of, with_particulars
from domain.reading.told_faults import TOLD_FAULTS
from domain.reading.tow_ratings import HITCH_KINDS
from domain.reading.water import read_water
from domain.reading.weighings import read_weighings

Reader = Callable[[Scene], Sequence[Entry] | Doubt]

WAKES: Mapping[Reader, AbstractSet[str]] = {
    read_water: {"water", "water_tank"},
    read_ratings: {"rating", "rating_cue", "rating_subject", "axle_noun", "subject", "whole"}
    | {"tank", "holds", "unladen", *HITCH_KINDS, *ALLOWS, *LIMITING},
    read_observations: {"airs_up", "driving_at", "out_of_doors", "spare_tyre", "subject", *PLACING}
    | {PRESSURE, ROTATION, SHARE, SPEED, TEMPERATURE},
    read_cargo: {"load_verb", MASS},
    read_weighings: {BARE, MASS},
    read_fills: {BARE, VOLUME, PRICE, MONEY, DISTANCE},
    read_odometers: {BARE, DISTANCE},
    read_hitches: {"hitch", "swaps", "name", "vehicle", "rig"},
    read_checks: {"check_item", *TOLD_FAULTS},
}
"""Each reader, and what a message has one of that states anything for it.

These are classes of term, groups of words and dimensions of figures; `BARE` is a figure without.
"""


def read_figures(scene: Scene, said: AbstractSet[str]) -> list[Entry] | Doubt:
    """The entries that figures make, kind by kind, or the first doubt about one.

    `said` is what wakes readers. Those with the surest marks come first: makers' limits before
    loads, and last the odometer, of which a bare figure may be.
    """
    water = [] if said.isdisjoint(WAKES[read_water]) else read_water(scene)
    ratings = [] if said.isdisjoint(WAKES[read_ratings]) else read_ratings(scene)
    if isinstance(ratings, Doubt):
        return ratings
    ticket = ticket_of(scene) if "ticket" in scene.by_class else None
    if ticket is None and "scale_says" in scene.groups:
        ticket = number_said(scene)
    observations = [] if said.isdisjoint(WAKES[read_observations]) else read_observations(scene)
    if isinstance(observations, Doubt):
        return observations
    cargo = [] if said.isdisjoint(WAKES[read_cargo]) else read_cargo(scene)
    weighings = [] if said.isdisjoint(WAKES[read_weighings]) else read_weighings(scene)
    if isinstance(weighings, Doubt):
        return weighings
    fills = [] if said.isdisjoint(WAKES[read_fills]) else read_fills(scene)
    if isinstance(fills, Doubt):
        return fills
    if weighings:
        fee, figure = fee_of(scene)
        if figure is not None:
            figure.role = "fee"
        weighings = with_particulars(weighings, fee, ticket)
    odometers = [] if said.isdisjoint(WAKES[read_odometers]) else read_odometers(scene)
    if isinstance(odometers, Doubt):
        return odometers
    return [*ratings, *fills, *weighings, *water, *cargo, *odometers, *observations]
