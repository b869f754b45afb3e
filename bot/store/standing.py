"""What stands in a logbook, read from its rows.

This file decides which rows an answer that looks so far back needs, and what an entry's row is
joined with. It does not know how entries come to stand, nor what is remembered of them.
"""

from __future__ import annotations

from collections.abc import Callable, Collection, Iterable, Iterator, Mapping
from datetime import UTC, datetime
from functools import cache
from sys import intern
from typing import Any

from sqlalchemy import Row, Select, bindparam, func, select

from bot.store.records import TABLES, entry_in
from bot.store.seen import Plain
from bot.store.tables import EntryRow, MessageRow, PersonRow, WeighingLoadRow
from domain.entries import KIND_NAMES, Entry, Rating, Weighing
from domain.log import EVERYTHING, Log, Logged, Reach
from domain.quantities import Quantity

RATING, WEIGHING = KIND_NAMES[Rating], KIND_NAMES[Weighing]

_END_OF_TIME = datetime(9999, 1, 1, tzinfo=UTC)
# Rows are read as rows: as objects that could be changed they would cost several times as much.
_ENTRY = EntryRow.rows().c
_MESSAGE = MessageRow.rows()
_PERSON = PersonRow.rows()
_LOAD = WeighingLoadRow.rows().c


def log(plain: Plain, logbook_key: int, reach: Reach = EVERYTHING) -> Log:
    """What stands in a logbook, as far as an answer looks."""
    return Log(
        each for name, its in by_kind(reach) for each in of_kind(plain, logbook_key, name, its)
    )


def lively(plain: Plain, logbook_keys: Collection[int], since: datetime) -> dict[int, int]:
    """Logbooks in which something stands that happened since then; how many entries each has."""
    values = {"logbooks": list(logbook_keys), "since": since}
    sizes = {row.logbook_id: row.entries for row in plain.execute(_SIZES, values)}
    return {key: sizes[key] for key in logbook_keys if key in sizes}


def logs(plain: Plain, logbook_keys: Collection[int]) -> Callable[[int], Log]:
    """What stands in some logbooks, read at once.

    A log is made of its rows when it is asked for, so that one which can't be spoils no other.
    """
    values = {"logbooks": list(logbook_keys)}
    rows: dict[int, list[Row[Any]]] = {key: [] for key in logbook_keys}
    loads: dict[int, dict[str, Quantity]] = {}
    for kind in TABLES:
        found = plain.execute(_standing_in(kind), values).all()
        for row in found:
            rows[row.logbook_id].append(row)
        if found and kind == WEIGHING:
            loads = _loads(plain, _standing_in(kind), values)

    def log_of(key: int) -> Log:
        return Log(_entry(row, loads) for row in rows[key])

    return log_of


def by_kind(reach: Reach) -> Iterator[tuple[str, Reach]]:
    """How far back each kind is looked at, by its name.

    Ratings are few and hold whenever they were told, so they are never left out.
    """
    names = TABLES if reach.kinds is None else (KIND_NAMES[kind] for kind in reach.kinds)
    for name in names:
        yield name, EVERYTHING if name == RATING else reach


def of_kind(plain: Plain, logbook_key: int, kind: str, reach: Reach) -> tuple[Logged[Entry], ...]:
    """What stands of a kind, oldest first; which kinds the reach is of does not matter."""
    bounds = {"until": reach.until or _END_OF_TIME, "latest": reach.latest, "since": reach.since}
    query = _standing(kind, reach.latest is not None, reach.since is not None)
    found = _logged(plain, kind, query, {"logbook": logbook_key, **bounds})
    return tuple(sorted(found, key=lambda each: (each.at, each.key)))


def entries(plain: Plain, keys: Iterable[int]) -> dict[int, Logged[Entry]]:
    """Entries by their keys, standing or not."""
    wanted = list(keys)
    kinds = plain.execute(select(_ENTRY.kind, _ENTRY.id).where(_ENTRY.id.in_(wanted)))
    by_name: dict[str, list[int]] = {}
    for kind, key in kinds:
        by_name.setdefault(kind, []).append(key)
    return {
        each.key: each
        for kind, its in by_name.items()
        for each in _logged(plain, kind, _named(kind), {"keys": its})
    }


# Statements are built once each: building one costs more than running it.
_SIZES = (
    select(_ENTRY.logbook_id, func.count().label("entries"))
    .where(
        _ENTRY.logbook_id.in_(bindparam("logbooks", expanding=True)),
        _ENTRY.withdrawn_by.is_(None),
    )
    .group_by(_ENTRY.logbook_id)
    .having(func.max(_ENTRY.happened_at) >= bindparam("since"))
)


@cache
def _standing_in(kind: str) -> Select[Any]:
    return _joined(kind).where(
        _ENTRY.logbook_id.in_(bindparam("logbooks", expanding=True)),
        _ENTRY.kind == kind,
        _ENTRY.withdrawn_by.is_(None),
    )


@cache
def _standing(kind: str, latest: bool, since: bool) -> Select[Any]:
    query = _joined(kind).where(
        _ENTRY.logbook_id == bindparam("logbook"),
        _ENTRY.kind == kind,
        _ENTRY.withdrawn_by.is_(None),
    )
    if latest:
        return (
            query.where(_ENTRY.happened_at <= bindparam("until"))
            .order_by(_ENTRY.happened_at.desc(), _ENTRY.id.desc())
            .limit(bindparam("latest"))
        )
    return query.where(_ENTRY.happened_at >= bindparam("since")) if since else query


@cache
def _named(kind: str) -> Select[Any]:
    return _joined(kind).where(_ENTRY.id.in_(bindparam("keys", expanding=True)))


@cache
def _loads_of(query: Select[Any]) -> Select[Any]:
    keys = query.with_only_columns(_ENTRY.id).subquery()
    return (
        select(*_LOAD)
        .where(_LOAD.entry_id.in_(select(keys.c.id)))
        .order_by(_LOAD.entry_id, _LOAD.ordinal)
    )


def _joined(kind: str) -> Select[Any]:
    """An entry's row with its author's name and the row of its kind."""
    own = TABLES[kind]
    columns = () if own is None else tuple(c for c in own.rows().c if c.name != "entry_id")
    query = (
        select(*_ENTRY, _PERSON.c.name.label("author"), *columns)
        .join(_MESSAGE, _MESSAGE.c.id == _ENTRY.message_id)
        .join(_PERSON, _PERSON.c.id == _MESSAGE.c.person_id)
    )
    return query if own is None else query.join(own.rows(), own.entry_id == _ENTRY.id)


def _logged(
    plain: Plain, kind: str, query: Select[Any], values: Mapping[str, Any]
) -> list[Logged[Entry]]:
    rows = plain.execute(query, values).all()
    loads = _loads(plain, query, values) if rows and kind == WEIGHING else {}
    return [_entry(row, loads) for row in rows]


def _entry(row: Row[Any], loads: Mapping[int, Mapping[str, Quantity]]) -> Logged[Entry]:
    entry = entry_in(row, loads.get(row.id, {}))
    # A name stands in thousands of rows, and is remembered once.
    return Logged(entry=entry, at=row.happened_at, by=intern(row.author), key=row.id)


def _loads(
    plain: Plain, query: Select[Any], values: Mapping[str, Any]
) -> dict[int, dict[str, Quantity]]:
    """The loads of every weighing that a query finds."""
    found: dict[int, dict[str, Quantity]] = {}
    for row in plain.execute(_loads_of(query), values):
        load = Quantity(row.load, intern(row.load_unit), row.load_low)
        found.setdefault(row.entry_id, {})[intern(row.position)] = load
    return found
