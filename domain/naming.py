"""The names of a rig: which truck, which trailers, and whom a nameless entry is about.

This file decides that a name keeps the spelling in which it was first told, and when a
message that names no trailer can only mean one. It does not know ratings or loads.
"""

from __future__ import annotations

from dataclasses import dataclass, replace

from domain.entries import Entry, Hitch, Rating
from domain.log import Log

TRUCK_SUBJECT = "truck"
TRAILER_SUBJECTS = ("trailer", "coupler")
"""Subjects of ratings that belong to the truck, or to a trailer, by their own word."""


@dataclass(frozen=True, slots=True)
class Names:
    """Trucks and trailers in the order in which they were first told; `on` is hitched now."""

    trucks: tuple[str, ...] = ()
    trailers: tuple[str, ...] = ()
    on: str | None = None

    @property
    def truck(self) -> str | None:
        """The logbook's truck, where one was named."""
        return self.trucks[0] if self.trucks else None

    def after(self, entry: Entry) -> Names:
        """The names once an entry has been told, by which only ratings and hitching go."""
        if not isinstance(entry, Rating | Hitch):
            return self
        on = self.on
        if isinstance(entry, Hitch):
            on = entry.trailer if entry.action == "hitched" else None
        return Names(_with(self.trucks, entry.truck), _with(self.trailers, entry.trailer), on)


def names_in(log: Log) -> Names:
    """Every truck and trailer that a log's ratings and hitch events name."""
    names = Names()
    for each in sorted(log, key=lambda each: each.key):
        names = names.after(each.entry)
    hitched = log.hitched_to()
    return replace(names, on=hitched.entry.trailer if hitched else None)


def _with(names: tuple[str, ...], name: str | None) -> tuple[str, ...]:
    if name is None or name.casefold() in {each.casefold() for each in names}:
        return names
    return (*names, name)


def settled(entry: Entry, names: Names) -> Entry:
    """The entry with its names spelled as told, and filled in where there is only one."""
    truck = _spelled(entry.truck, names.trucks)
    trailer = _spelled(entry.trailer, names.trailers)
    match entry:
        case Rating(subject=subject) if subject == TRUCK_SUBJECT and truck is None:
            truck = names.truck
        case Rating(subject=subject) if subject in TRAILER_SUBJECTS and trailer is None:
            trailer = _only(names.trailers)
        case Hitch(action="unhitched") if trailer is None:
            trailer = names.on or _only(names.trailers)
        case Hitch() if trailer is None:
            trailer = _only(names.trailers)
        case _:
            pass
    if (truck, trailer) == (entry.truck, entry.trailer):
        return entry
    return replace(entry, truck=truck, trailer=trailer)


def which_trailer_is_open(entry: Entry, names: Names) -> bool:
    """Whether a trailer was put on, and it could be one of several."""
    return (
        isinstance(entry, Hitch)
        and entry.action == "hitched"
        and entry.trailer is None
        and len(names.trailers) > 1
    )


def _spelled(name: str | None, told: tuple[str, ...]) -> str | None:
    if name is None:
        return None
    return next((each for each in told if each.casefold() == name.casefold()), name)


def _only(names: tuple[str, ...]) -> str | None:
    return names[0] if len(names) == 1 else None
