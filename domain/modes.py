"""What was behind the truck, mile by mile.

This file decides which trailer a stretch of road counts for. Hitch events carry a time and
seldom a reading, so each is given the place on the road where it must have happened. It
knows nothing of fuel; what a trailer costs in fuel is worked out in `economy.py`.
"""

from __future__ import annotations

from bisect import bisect_left, bisect_right
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from datetime import datetime, timedelta

from domain.entries import Entry, Hitch, Odometer
from domain.log import Log, Logged
from domain.odometer import Mark, Track

SOLO = "solo"
UNTOLD = "all driving"
"""The mode where nobody ever logged hitching."""
UNNAMED = "the trailer"
"""A trailer that nobody named."""

SETTING_OUT = timedelta(hours=3)
"""A departure this soon after hitching has not driven in between."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Change:
    """From here on the road the truck drives in another mode. `km` is None before any reading."""

    at: datetime
    km: float | None
    mode: str
    event: Logged[Hitch]


class Modes:
    """The modes of a log in order, by time and by distance."""

    def __init__(self, first: str, changes: Sequence[Change]) -> None:
        self.first = first
        self.changes = tuple(changes)
        self._times = [change.at for change in self.changes]
        self._placed = [
            (change.km, change.mode) for change in self.changes if change.km is not None
        ]
        self._places = [km for km, _ in self._placed]
        self._by_event: Mapping[Logged[Entry], float | None] = {
            change.event: change.km for change in self.changes
        }

    def at(self, moment: datetime) -> str:
        """The mode just after a moment."""
        index = bisect_right(self._times, moment)
        return self.changes[index - 1].mode if index else self.first

    def place_of(self, event: Logged[Entry]) -> float | None:
        """Where on the road a hitch event was put, in km."""
        return self._by_event.get(event)

    def split(self, start_km: float, end_km: float) -> Mapping[str, float]:
        """Kilometres in each mode between two places on the road, the most first."""
        index = bisect_right(self._places, start_km)
        mode, since = self._placed[index - 1][1] if index else self.first, start_km
        inside = self._placed[index : bisect_left(self._places, end_km)]
        by_mode: dict[str, float] = {}
        for place, following in (*inside, (end_km, "")):
            if place > since:
                by_mode[mode] = by_mode.get(mode, 0.0) + place - since
            mode, since = following, place
        return dict(sorted(by_mode.items(), key=lambda each: -each[1]))


def towing(mode: str) -> bool:
    """Whether a trailer is on in this mode."""
    return mode not in (SOLO, UNTOLD)


def modes(log: Log, track: Track) -> Modes:
    """What was behind the truck along the whole log."""
    events = log.of(Hitch)
    if not events:
        return Modes(UNTOLD, ())
    named = _names(log, events)
    first = SOLO if events[0].entry.action == "hitched" else named[0]
    changes: list[Change] = []
    reached = float("-inf")
    for event, name in zip(events, named, strict=True):
        mark = _place(track, event)
        if mark is not None:
            reached = max(reached, mark.km)
        changes.append(
            Change(
                at=event.at,
                km=None if mark is None else reached,
                mode=name if event.entry.action == "hitched" else SOLO,
                event=event,
            )
        )
    return Modes(first, changes)


def _place(track: Track, event: Logged[Hitch]) -> Mark | None:
    """Where a hitch event must have happened.

    At its own stop's reading if there is one. A hitching is followed by setting out, so a
    departure soon after gives it; otherwise the truck has stood since the last reading.
    """
    here = track.near(event.at)
    if here is not None:
        return here
    if event.entry.action == "hitched":
        ahead = track.after(event.at)
        if ahead is not None and ahead.at - event.at <= SETTING_OUT and _departs(ahead):
            return ahead
    return track.before(event.at) or track.after(event.at)


def _departs(mark: Mark) -> bool:
    entry = mark.logged.entry
    return isinstance(entry, Odometer) and entry.event == "depart"


def _names(log: Log, events: Sequence[Logged[Hitch]]) -> Sequence[str]:
    """The trailer of each hitch event.

    Where a hitching names none, the unhitching after it may; failing both, it is the only
    trailer that the log knows.
    """
    known = list(dict.fromkeys(each.entry.trailer for each in log if each.entry.trailer))
    spelled = {name.casefold(): name for name in reversed(known)}
    fallback = next(iter(spelled.values())) if len(spelled) == 1 else UNNAMED
    named: list[str] = []
    for index, event in enumerate(events):
        stated = event.entry.trailer
        if stated is None and event.entry.action == "hitched" and index + 1 < len(events):
            following = events[index + 1].entry
            stated = following.trailer if following.action == "unhitched" else None
        named.append(fallback if stated is None else spelled[stated.casefold()])
    return named
