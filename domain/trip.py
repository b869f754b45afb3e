"""Trips: from leaving or hitching to home or unhitching.

This file decides where a trip begins and ends, from departures, arrivals and hitch events
as they were texted, and what was driven in between. Legs nest: a night on the way, a day
about without the trailer, and the road home are one trip. A trip that nobody closed stays
open, and is closed at its last reading once another begins after a long rest. It knows
nothing of fuel or money.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from datetime import datetime, timedelta
from itertools import pairwise
from typing import Literal

from domain.entries import Entry, Hitch, Odometer
from domain.log import Log, Logged
from domain.modes import Modes
from domain.odometer import SAME_STOP, Track

HOME = ("home", "the yard", "our yard", "the house", "base")
"""Places that end a trip."""

AT_REST = timedelta(hours=12)
"""A solo run that stopped somewhere unnamed for longer than this has ended."""

LONG_REST = timedelta(days=14)
"""A trip with nothing texted for this long has ended, told or not."""

ASK_AFTER = timedelta(days=2)
"""An open trip with nothing texted for this long is asked about."""

GAP_KM = 8.0
"""Distance between trips that is worth naming: five miles."""

Ending = Literal["home", "unhitched", "stopped", "untold"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Trip:
    """One trip: when, from where to where on the road, and in which modes (km).

    `end` and `ending` are None while it is open; `start_km` and `end_km` where no reading
    tells. `places` are those named on the way, in order.
    """

    start: datetime
    end: datetime | None
    last: datetime
    ending: Ending | None
    start_km: float | None
    end_km: float | None
    split: Mapping[str, float] = field(default_factory=dict)
    places: tuple[str, ...] = ()
    legs: int = 1

    @property
    def km(self) -> float | None:
        """How far, as far as readings tell."""
        if self.start_km is None or self.end_km is None:
            return None
        return self.end_km - self.start_km


@dataclass(frozen=True, slots=True, kw_only=True)
class Gap:
    """Distance that the odometer ran and no trip accounts for."""

    after: datetime
    before: datetime
    km: float


def is_home(place: str | None) -> bool:
    """Whether a place is where trips end."""
    return place is not None and place.casefold().strip() in HOME


def trips(log: Log, track: Track, modes: Modes) -> tuple[Trip, ...]:
    """Every trip of one truck's log, oldest first; the last may be open."""
    events = [each for each in log if _moves(each.entry)]
    found: list[Trip] = []
    run: list[Logged[Entry]] = []
    hitched = False
    for index, event in enumerate(events):
        if run and (rested := _rested(run[-1], event, hitched=hitched)):
            found.append(_trip(run, rested, event.at, track, modes))
            run = []
        hitched = event.entry.action == "hitched" if isinstance(event.entry, Hitch) else hitched
        if not run and not _begins(event.entry):
            continue
        run.append(event)
        ending = _ends(run, events[index + 1 : index + 2])
        if ending is not None:
            found.append(_trip(run, ending, None, track, modes))
            run = []
    if run:
        found.append(_trip(run, None, None, track, modes))
    return tuple(found)


def open_trip(found: Sequence[Trip], now: datetime) -> Trip | None:
    """The trip under way; None where the last has ended or was last heard of long ago."""
    last = found[-1] if found else None
    return last if last and last.ending is None and now - last.last <= LONG_REST else None


def to_ask_about(found: Sequence[Trip], now: datetime) -> Trip | None:
    """The open trip that has been silent for long enough to ask whether it has ended."""
    trip = open_trip(found, now)
    return trip if trip and now - trip.last >= ASK_AFTER else None


def gaps(found: Sequence[Trip]) -> tuple[Gap, ...]:
    """Where the odometer ran on between one trip's end and the next one's start."""
    return tuple(
        Gap(after=before.end, before=after.start, km=after.start_km - before.end_km)
        for before, after in pairwise(found)
        if before.end is not None
        and before.end_km is not None
        and after.start_km is not None
        and after.start_km - before.end_km >= GAP_KM
    )


def last_distance_to(found: Sequence[Trip], place: str) -> float | None:
    """How far the last finished trip to a place was, in km, there and back."""
    wanted = [
        trip.km
        for trip in found
        if trip.ending and trip.km and any(_same_place(each, place) for each in trip.places)
    ]
    return wanted[-1] if wanted else None


def _moves(entry: Entry) -> bool:
    return isinstance(entry, Hitch) or (isinstance(entry, Odometer) and entry.event is not None)


def _begins(entry: Entry) -> bool:
    match entry:
        case Hitch(action="hitched") | Odometer(event="depart"):
            return True
    return False


def _rested(before: Logged[Entry], after: Logged[Entry], *, hitched: bool) -> Ending | None:
    """How a rest between two events of a run ended the trip; None where it did not."""
    rest = after.at - before.at
    hitching = isinstance(after.entry, Hitch) and after.entry.action == "hitched"
    if rest > LONG_REST or (hitched and hitching and rest > AT_REST):
        return "untold"
    arrived = isinstance(before.entry, Odometer) and before.entry.event == "arrive"
    unnamed = not hitched and before.entry.place is None
    return "stopped" if arrived and unnamed and rest > AT_REST else None


def _ends(run: Sequence[Logged[Entry]], following: Sequence[Logged[Entry]]) -> Ending | None:
    """How the trip ends with the last event of its run; None where it goes on.

    Unhitching away from home does not end it, and neither does an arrival home whose
    unhitching is still to come in the same stop.
    """
    last = run[-1]
    place = _place_of_stop(run)
    match last.entry:
        case Odometer(event="arrive"):
            home = is_home(place) or (len(run) > 1 and _same_place(run[0].entry.place, place))
            unhitching = any(
                isinstance(each.entry, Hitch)
                and each.entry.action == "unhitched"
                and each.at - last.at <= SAME_STOP
                for each in following
            )
            return "home" if home and not unhitching else None
        case Hitch(action="unhitched"):
            if is_home(place) or _same_place(run[0].entry.place, place):
                return "home"
            return "unhitched" if place is None else None
    return None


def _place_of_stop(run: Sequence[Logged[Entry]]) -> str | None:
    """Where the last event was: its own place, or that of the arrival before it."""
    if run[-1].entry.place is not None:
        return run[-1].entry.place
    for each in reversed(run[:-1]):
        if not isinstance(each.entry, Odometer):
            continue
        return each.entry.place if each.entry.event == "arrive" else None
    return None


def _same_place(one: str | None, other: str | None) -> bool:
    return one is not None and other is not None and one.casefold() == other.casefold()


def _trip(
    run: Sequence[Logged[Entry]],
    ending: Ending | None,
    following: datetime | None,
    track: Track,
    modes: Modes,
) -> Trip:
    """The trip that a run of events tells.

    One that is open, or that only the next one ended (at `following`), goes as far as the
    last reading says.
    """
    last = run[-1].at
    start_km = _km(run[0], track, modes)
    if ending in ("home", "unhitched", "stopped"):
        end_km = _km(run[-1], track, modes)
    else:
        reached = track.before(following - SAME_STOP) if following else track.latest
        end_km = reached.km if reached else None
        last = max(last, reached.at) if reached else last
    if start_km is None or end_km is None or end_km < start_km:
        end_km = None
    places = [each.entry.place for each in run if each.entry.place]
    return Trip(
        start=run[0].at,
        end=last if ending else None,
        last=last,
        ending=ending,
        start_km=start_km,
        end_km=end_km,
        split={} if start_km is None or end_km is None else modes.split(start_km, end_km),
        places=tuple(dict.fromkeys(places)),
        legs=max(1, sum(_departs(each.entry) for each in run)),
    )


def _departs(entry: Entry) -> bool:
    return isinstance(entry, Odometer) and entry.event == "depart"


def _km(event: Logged[Entry], track: Track, modes: Modes) -> float | None:
    """Where on the road an event of a trip was."""
    if isinstance(event.entry, Hitch):
        return modes.place_of(event)
    return track.km_of(event)
