"""Logbooks within reach: what stands in them, read once and remembered between messages.

This file decides when a remembered entry may be used instead of a row: exactly when the
logbook's revision, read in the same transaction, is the one under which it was remembered.
Whatever changes a logbook raises its revision, so several workers stay right, each with a shelf
of its own. What a message keeps is added to what is remembered; what it takes back makes its
logbook be read anew. It does not know how rows are read or written.
"""

from __future__ import annotations

from bisect import bisect_left, bisect_right, insort
from collections import OrderedDict
from collections.abc import Callable, Iterator, Mapping, Sequence
from contextlib import contextmanager
from dataclasses import dataclass, field, replace
from datetime import datetime
from threading import Lock
from typing import Any, TypeVar, cast

from sqlalchemy import Connection
from sqlalchemy.orm import Session

from bot.store import logbook, standing
from bot.store.database import Unit
from bot.store.seen import Journalled
from domain.entries import KIND_NAMES, Entry
from domain.log import Log, Logged, Reach

MOST_REMEMBERED = 50_000
"""Entries that a worker remembers in all, at about a kilobyte each."""

Result = TypeVar("Result")


@dataclass(frozen=True, slots=True)
class Run:
    """What stands of one kind, oldest first: all of it, or all that happened from `since` on.

    Of the moment just before `since` it may hold a part, the entries that were kept last.
    """

    entries: tuple[Logged[Entry], ...]
    since: datetime | None = None

    def within(self, reach: Reach) -> Sequence[Logged[Entry]] | None:
        """What of it an answer looks at; None where it does not go back that far."""
        if reach.latest is not None:
            found = self.entries
            if reach.until is not None:
                found = found[: bisect_right(found, reach.until, key=_when)]
            enough = self.since is None or len(found) >= reach.latest
            return found[-reach.latest :] if enough else None
        if self.since is None or (reach.since is not None and reach.since >= self.since):
            start = bisect_left(self.entries, reach.since, key=_when) if reach.since else 0
            return self.entries[start:]
        return None

    def and_kept(self, logged: Logged[Entry]) -> Run:
        """The run once an entry has been kept."""
        before_all = not self.entries or _order(logged) < _order(self.entries[0])
        if self.since is not None and logged.at < self.since and before_all:
            return self
        entries = list(self.entries)
        insort(entries, logged, key=_order)
        return replace(self, entries=tuple(entries))


@dataclass(frozen=True, slots=True)
class WorkedOut:
    """What was worked out from runs, which holds as long as they are the same ones."""

    runs: tuple[Run | None, ...]
    result: object


Work = Callable[[Log], Result]


@dataclass(frozen=True, slots=True)
class Known:
    """What is remembered of a logbook: its runs by kind, and what was worked out from them."""

    runs: Mapping[str, Run] = field(default_factory=dict)
    worked_out: Mapping[tuple[Reach, Work[Any]], WorkedOut] = field(default_factory=dict)

    @property
    def size(self) -> int:
        """How many entries that are."""
        return sum(len(each.entries) for each in self.runs.values())


class Book:
    """A logbook as one transaction sees and changes it."""

    def __init__(self, unit: Unit, key: int, revision: int, known: Known) -> None:
        self._unit = unit
        self.key = key
        self.revision = revision
        self._runs = dict(known.runs)
        self._worked_out = dict(known.worked_out)

    @property
    def session(self) -> Session:
        """The session of the transaction."""
        return self._unit.session

    @property
    def plain(self) -> Connection:
        """Its connection, for plain rows."""
        return self._unit.plain

    @property
    def known(self) -> Known:
        """What was read and worked out so far, with what was kept since."""
        return Known(self._runs, self._worked_out)

    def log(self, reach: Reach) -> Log:
        """What stands in the logbook, as far as an answer looks."""
        return Log(
            each
            for name, of_kind in standing.by_kind(reach)
            for each in self._within(name, of_kind)
        )

    def worked_out(self, reach: Reach, work: Work[Result]) -> Result:
        """What `work` makes of a part of the log; made anew once one of its kinds has changed.

        The reach has no `until`: each would be remembered by itself.
        """
        names = [name for name, _ in standing.by_kind(reach)]
        known = self._worked_out.get((reach, work))
        if known is None or any(
            run is not self._runs.get(name) for name, run in zip(names, known.runs, strict=True)
        ):
            result = work(self.log(reach))
            known = WorkedOut(tuple(self._runs.get(name) for name in names), result)
            self._worked_out[reach, work] = known
        return cast(Result, known.result)

    def keep(
        self, message: Journalled, entry: Entry, at: datetime, replaces: int | None = None
    ) -> Logged[Entry]:
        """Keep an entry that a message states, in place of another where it amends one."""
        logged = logbook.keep(self.plain, self.key, message, entry, at, replaces)
        name = KIND_NAMES[type(entry)]
        if replaces is not None:
            self._runs.clear()
        elif name in self._runs:
            self._runs[name] = self._runs[name].and_kept(logged)
        return logged

    def withdraw(self, message: Journalled, keys: Sequence[int]) -> None:
        """Take entries back on the word of a message."""
        self._runs.clear()
        logbook.withdraw(self.plain, message, keys)

    def take_back(self, message: Journalled, keys: Sequence[int], restored: Sequence[int]) -> int:
        """Undo a change on the word of a message; the key of the message that had made it."""
        self._runs.clear()
        return logbook.take_back(self.plain, message, keys, restored)

    @contextmanager
    def set_aside(self, message: Journalled, keys: Sequence[int]) -> Iterator[None]:
        """See the logbook for a while as if these entries, which stand, were not there."""
        self._runs.clear()
        with logbook.set_aside(self.plain, message, keys):
            yield
        self._runs.clear()

    def _within(self, name: str, reach: Reach) -> Sequence[Logged[Entry]]:
        known = self._runs.get(name)
        found = None if known is None else known.within(reach)
        if found is None:
            # Up to the newest, so that what happens next can be added.
            run = self._runs[name] = self._read(name, replace(reach, until=None))
            found = run.within(reach)
        if found is None:
            found = standing.of_kind(self.plain, self.key, name, reach)
        return found

    def _read(self, name: str, reach: Reach) -> Run:
        found = standing.of_kind(self.plain, self.key, name, reach)
        if reach.latest is None:
            return Run(found, reach.since)
        whole = len(found) < reach.latest
        return Run(found, None if whole else found[0].at + datetime.resolution)


class Shelf:
    """The logbooks that a worker remembers, those it used last."""

    def __init__(self, most: int = MOST_REMEMBERED) -> None:
        self._most = most
        self._held: OrderedDict[int, tuple[int, Known]] = OrderedDict()
        self._size = 0
        self._lock = Lock()

    def take(self, unit: Unit, key: int, revision: int) -> Book:
        """A logbook to work with, given its revision as the transaction sees it."""
        with self._lock:
            held = self._held.get(key)
        return Book(unit, key, revision, held[1] if held and held[0] == revision else Known())

    def put_back(self, book: Book, revision: int) -> None:
        """Remember a logbook as it is at a revision that is committed."""
        known = book.known
        with self._lock:
            self._drop(book.key)
            self._held[book.key] = revision, known
            self._size += known.size
            while self._size > self._most:
                self._drop(next(iter(self._held)))

    def _drop(self, key: int) -> None:
        if key in self._held:
            self._size -= self._held.pop(key)[1].size


def _when(logged: Logged[Entry]) -> datetime:
    return logged.at


def _order(logged: Logged[Entry]) -> tuple[datetime, int]:
    return logged.at, logged.key
