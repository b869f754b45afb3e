"""One truck's log, worked through once: its road, its modes, its tanks and its trips.

This file decides nothing; it runs the parts in the order in which they need each other, so
that an answer that needs several has one thing to ask for.
"""

from __future__ import annotations

from dataclasses import dataclass

from domain.fuel import Chain, chain
from domain.log import Log
from domain.modes import Modes, modes
from domain.odometer import Track, of_truck, track
from domain.trip import Trip, trips


@dataclass(frozen=True, slots=True, kw_only=True)
class Driving:
    """What the log of one truck says of its driving."""

    log: Log
    truck: str | None
    track: Track
    modes: Modes
    chain: Chain
    trips: tuple[Trip, ...]


def driving(log: Log, truck: str | None = None) -> Driving:
    """A log worked through for one truck; without a name, for the first that it names."""
    own = of_truck(log, truck)
    road = track(own)
    by_mode = modes(own, road)
    return Driving(
        log=own,
        truck=truck,
        track=road,
        modes=by_mode,
        chain=chain(own, road, by_mode),
        trips=trips(own, road, by_mode),
    )
