"""A logbook's entries in the order in which they happened.

This file decides what 'the last', 'before' and 'on at the time' mean. Entries arrive late
and out of order; a `Log` is sorted by when things happened, so that the order of arrival
never changes a result. It does not know how entries are stored.
"""

from __future__ import annotations

from bisect import bisect_left, bisect_right
from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from datetime import datetime
from functools import cached_property
from typing import Generic, TypeVar, cast

from domain.context import Units
from domain.entries import Entry, Hitch, Rating

E_co = TypeVar("E_co", bound=Entry, covariant=True)
E = TypeVar("E", bound=Entry)


@dataclass(frozen=True, slots=True, kw_only=True)
class Logged(Generic[E_co]):
    """An entry that was kept: when it happened (aware), who sent it, and its key in the store."""

    entry: E_co
    at: datetime
    by: str = ""
    key: int = 0


@dataclass(frozen=True, slots=True, kw_only=True)
class Preferences:
    """How a logbook wants its figures: units, money (ISO 4217) and time zone (IANA).

    `language` (ISO 639-1) is the one that it is answered in.
    """

    units: Units = "us"
    currency: str = "USD"
    time_zone: str = "UTC"
    language: str = "en"


@dataclass(frozen=True, slots=True, kw_only=True)
class Reach:
    """How much of a logbook an answer looks at: kinds (None: all of them), and how far back.

    Either only the `latest` so many of each kind that had happened by `until` (None: by now),
    or only what has happened `since` a moment; without both, all.
    """

    kinds: tuple[type[Entry], ...] | None = None
    latest: int | None = None
    until: datetime | None = None
    since: datetime | None = None


EVERYTHING = Reach()
NOTHING = Reach(kinds=())


class Log:
    """Kept entries, sorted by when they happened and then by key; iterable and sized."""

    def __init__(self, entries: Iterable[Logged[Entry]] = ()) -> None:
        self._entries = tuple(sorted(entries, key=lambda each: (each.at, each.key)))

    def __iter__(self) -> Iterator[Logged[Entry]]:
        return iter(self._entries)

    def __len__(self) -> int:
        return len(self._entries)

    def of(self, kind: type[E]) -> tuple[Logged[E], ...]:
        """Every entry of one kind, oldest first."""
        return cast(tuple[Logged[E], ...], self._index.by_kind.get(kind, ()))

    def upto(self, kind: type[E], moment: datetime | None) -> tuple[Logged[E], ...]:
        """Those of one kind that had happened by then, that moment included; all without one."""
        found = self.of(kind)
        return found if moment is None else found[: bisect_right(found, moment, key=_when)]

    @property
    def naming(self) -> Sequence[Logged[Entry]]:
        """The entries that name a truck or a trailer, and every rating."""
        return self._index.naming

    def until(self, moment: datetime) -> Log:
        """What had happened by then, that moment included."""
        return Log(self._entries[: bisect_right(self._entries, moment, key=_when)])

    def since(self, moment: datetime) -> Log:
        """What has happened from then on, that moment included."""
        return Log(self._entries[bisect_left(self._entries, moment, key=_when) :])

    def lately(self, moment: datetime) -> Log:
        """What has happened from then on, and every rating: one told long ago still holds."""
        told = (each for each in self.of(Rating) if each.at < moment)
        return Log((*told, *self.since(moment)))

    def hitched_to(self, moment: datetime | None = None) -> Logged[Hitch] | None:
        """The hitch event that put the trailer on that is on then (or now); None when solo."""
        events = self.upto(Hitch, moment)
        return events[-1] if events and events[-1].entry.action == "hitched" else None

    @cached_property
    def _index(self) -> _Index:
        kinds: dict[type[Entry], list[Logged[Entry]]] = {}
        naming: list[Logged[Entry]] = []
        for each in self._entries:
            entry = each.entry
            kind = type(entry)
            if kind in kinds:
                kinds[kind].append(each)
            else:
                kinds[kind] = [each]
            if entry.trailer or entry.truck or kind is Rating:
                naming.append(each)
        return _Index({kind: tuple(found) for kind, found in kinds.items()}, naming)


@dataclass(frozen=True, slots=True)
class _Index:
    """What is looked up in a log time and again, gone through for once."""

    by_kind: Mapping[type[Entry], tuple[Logged[Entry], ...]]
    naming: Sequence[Logged[Entry]]


def _when(each: Logged[Entry]) -> datetime:
    return each.at
