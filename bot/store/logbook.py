"""A logbook's entries: kept, replaced, withdrawn, restored, and read back.

This file decides what stands: an entry counts until a message withdraws it, and counts again
when that is taken back. Nothing is ever overwritten; `changes` holds every step. It does not
know why an entry changes, nor what is worked out from it.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from datetime import UTC, date, datetime, time
from functools import cache
from typing import Any
from zoneinfo import ZoneInfo

from sqlalchemy import Select, bindparam, or_, select, update
from sqlalchemy.orm import Session, aliased

from bot.store.records import TABLES, common_values, entry_in, own_values
from bot.store.tables import (
    ChangeRow,
    EntryRow,
    FillRow,
    MessageRow,
    OdometerRow,
    PersonRow,
    WeighingLoadRow,
)
from domain.corrections import Change
from domain.entries import KIND_NAMES, Entry, Rating, Weighing
from domain.log import Log, Logged, Preferences
from domain.quantities import Quantity

RATING = KIND_NAMES[Rating]
KEPT, WITHDRAWN, RESTORED = "kept", "withdrawn", "restored"


def happened_at(entry: Entry, sent_at: datetime, preferences: Preferences) -> datetime:
    """When an entry happened: as stated, else when its message was sent.

    A bare date means that day's noon, but the sending itself where it is the same day.
    """
    zone = ZoneInfo(preferences.time_zone)
    if isinstance(entry.at, datetime):
        return entry.at if entry.at.tzinfo else entry.at.replace(tzinfo=zone)
    if isinstance(entry.at, date) and entry.at != sent_at.astimezone(zone).date():
        return datetime.combine(entry.at, time(12), zone)
    return sent_at


def keep(
    session: Session,
    logbook_key: int,
    message: MessageRow,
    entry: Entry,
    at: datetime,
    replaces: int | None = None,
) -> Logged[Entry]:
    """Keep an entry that a message states, in place of another where it amends one."""
    row = EntryRow(
        logbook_id=logbook_key,
        message_id=message.id,
        ordinal=_next_ordinal(session, message),
        happened_at=at,
        replaces=replaces,
        **common_values(entry),
    )
    session.add(row)
    session.flush()
    table = TABLES[row.kind]
    if table is not None:
        session.add(table(entry_id=row.id, **own_values(entry)))
        session.flush()
    if isinstance(entry, Weighing):
        session.add_all(_load_rows(row.id, entry.loads))
    session.add(ChangeRow(message_id=message.id, entry_id=row.id, act=KEPT))
    if replaces is not None:
        withdraw(session, message, [replaces])
    session.flush()
    name = session.get_one(PersonRow, message.person_id).name
    return Logged(entry=entry, at=at, by=name, key=row.id)


def _next_ordinal(session: Session, message: MessageRow) -> int:
    last = session.scalar(
        select(EntryRow.ordinal)
        .where(EntryRow.message_id == message.id)
        .order_by(EntryRow.ordinal.desc())
        .limit(1)
    )
    return 0 if last is None else last + 1


def _load_rows(key: int, loads: Mapping[str, Quantity]) -> list[WeighingLoadRow]:
    return [
        WeighingLoadRow(
            entry_id=key,
            position=position,
            ordinal=ordinal,
            load=load.value,
            load_unit=load.unit,
            load_low=load.low,
        )
        for ordinal, (position, load) in enumerate(loads.items())
    ]


def withdraw(session: Session, message: MessageRow, keys: Sequence[int]) -> None:
    """Take entries back on the word of a message."""
    _mark(session, message, keys, message.id, WITHDRAWN)


def restore(session: Session, message: MessageRow, keys: Sequence[int]) -> None:
    """Let entries count again on the word of a message."""
    _mark(session, message, keys, None, RESTORED)


def _mark(
    session: Session, message: MessageRow, keys: Sequence[int], by: int | None, act: str
) -> None:
    session.execute(update(EntryRow).where(EntryRow.id.in_(keys)).values(withdrawn_by=by))
    session.add_all(ChangeRow(message_id=message.id, entry_id=key, act=act) for key in keys)
    session.flush()


def log(
    session: Session,
    logbook_key: int,
    kinds: Iterable[type[Entry]] | None = None,
    latest: int | None = None,
    until: datetime | None = None,
) -> Log:
    """What stands in a logbook: of these kinds, or of all.

    `latest` leaves only so many of each kind, those that happened last (by `until`, where that
    is given); ratings are few and hold whenever they were told, so they are never left out.
    """
    names = list(TABLES) if kinds is None else [KIND_NAMES[kind] for kind in kinds]
    found: list[Logged[Entry]] = []
    for name in names:
        bounded = latest is not None and name != RATING
        values = {"logbook": logbook_key, "latest": latest, "until": until or _END_OF_TIME}
        found += _logged(session, name, _standing(name, bounded), values)
    return Log(found)


_END_OF_TIME = datetime(9999, 1, 1, tzinfo=UTC)


def entries(session: Session, keys: Iterable[int]) -> dict[int, Logged[Entry]]:
    """Entries by their keys, standing or not."""
    wanted = list(keys)
    kinds = session.execute(select(EntryRow.kind, EntryRow.id).where(EntryRow.id.in_(wanted)))
    by_kind: dict[str, list[int]] = {}
    for kind, key in kinds:
        by_kind.setdefault(kind, []).append(key)
    found: dict[int, Logged[Entry]] = {}
    for kind, of_kind in by_kind.items():
        for each in _logged(session, kind, _named(kind), {"keys": of_kind}):
            found[each.key] = each
    return found


def recent(session: Session, logbook_key: int, limit: int = 25) -> tuple[Change, ...]:
    """What the last messages did that still stands, the newest first."""
    messages = session.scalars(
        select(EntryRow.message_id)
        .where(EntryRow.logbook_id == logbook_key, EntryRow.withdrawn_by.is_(None))
        .group_by(EntryRow.message_id)
        .order_by(EntryRow.message_id.desc())
        .limit(limit)
    ).all()
    rows = session.execute(
        select(EntryRow.message_id, EntryRow.id, EntryRow.replaces)
        .where(EntryRow.message_id.in_(messages), EntryRow.withdrawn_by.is_(None))
        .order_by(EntryRow.message_id.desc(), EntryRow.ordinal)
    ).all()
    wanted = {key for _, *keys in rows for key in keys if key is not None}
    known = entries(session, wanted)
    return tuple(
        Change(
            kept=tuple(known[key] for message, key, _ in rows if message == each),
            replaced=tuple(
                known[old] for message, _, old in rows if message == each and old is not None
            ),
        )
        for each in messages
    )


def last_message(session: Session, logbook_key: int) -> int | None:
    """The key of the last message of which something stands."""
    return session.scalar(
        select(EntryRow.message_id)
        .where(EntryRow.logbook_id == logbook_key, EntryRow.withdrawn_by.is_(None))
        .order_by(EntryRow.message_id.desc())
        .limit(1)
    )


def latest_odometer(session: Session, logbook_key: int, truck: str | None) -> Quantity | None:
    """The odometer reading that happened last, off a fill or by itself."""
    values = {"logbook": logbook_key, "truck": truck}
    rows = [session.execute(_last_shown(kind), values).first() for kind in _SHOWING]
    shown = [row for row in rows if row is not None]
    if not shown:
        return None
    last = max(shown, key=lambda row: (row.happened_at, row.id))
    return Quantity(last.odometer, last.odometer_unit)


_SHOWING: Mapping[str, type[FillRow] | type[OdometerRow]] = {
    "fill": FillRow,
    "odometer": OdometerRow,
}
"""The kinds that show the odometer."""


# Statements are built once each: building one costs more than running it.
@cache
def _last_shown(kind: str) -> Select[*tuple[Any, ...]]:
    table = _SHOWING[kind]
    query = (
        select(table.odometer, table.odometer_unit, EntryRow.happened_at, EntryRow.id)
        .join(EntryRow, EntryRow.id == table.entry_id)
        .where(
            EntryRow.logbook_id == bindparam("logbook"),
            EntryRow.kind == kind,
            EntryRow.withdrawn_by.is_(None),
            table.odometer.is_not(None),
            or_(EntryRow.truck.is_(None), EntryRow.truck == bindparam("truck")),
        )
    )
    return query.order_by(EntryRow.happened_at.desc(), EntryRow.id.desc()).limit(1)


@cache
def _standing(kind: str, bounded: bool) -> Select[Any]:
    """What stands of a kind; bounded, the latest so many that happened by a moment."""
    query = _of_kind(kind).where(
        EntryRow.logbook_id == bindparam("logbook"),
        EntryRow.kind == kind,
        EntryRow.withdrawn_by.is_(None),
    )
    if not bounded:
        return query
    return (
        query.where(EntryRow.happened_at <= bindparam("until"))
        .order_by(EntryRow.happened_at.desc(), EntryRow.id.desc())
        .limit(bindparam("latest"))
    )


@cache
def _named(kind: str) -> Select[Any]:
    return _of_kind(kind).where(EntryRow.id.in_(bindparam("keys", expanding=True)))


@cache
def _loads_of(query: Select[Any]) -> Select[Any]:
    keys = query.with_only_columns(EntryRow.id).subquery()
    return (
        select(*WeighingLoadRow.__table__.c)
        .where(WeighingLoadRow.entry_id.in_(select(keys.c.id)))
        .order_by(WeighingLoadRow.entry_id, WeighingLoadRow.ordinal)
    )


_AUTHOR = aliased(PersonRow)


def _of_kind(kind: str) -> Select[Any]:
    table = TABLES[kind]
    own = () if table is None else tuple(c for c in table.__table__.c if c.name != "entry_id")
    query = (
        select(*EntryRow.__table__.c, _AUTHOR.name.label("author"), *own)
        .join(MessageRow, MessageRow.id == EntryRow.message_id)
        .join(_AUTHOR, _AUTHOR.id == MessageRow.person_id)
    )
    return query if table is None else query.join(table, table.entry_id == EntryRow.id)


def _logged(
    session: Session, kind: str, query: Select[Any], values: Mapping[str, Any]
) -> list[Logged[Entry]]:
    rows = session.execute(query, values).all()
    loads = _loads(session, query, values) if rows and kind == "weighing" else {}
    return [
        Logged(
            entry=entry_in(row, loads.get(row.id, {})),
            at=row.happened_at,
            by=row.author,
            key=row.id,
        )
        for row in rows
    ]


def _loads(
    session: Session, query: Select[Any], values: Mapping[str, Any]
) -> dict[int, dict[str, Quantity]]:
    """The loads of every weighing that a query finds."""
    found: dict[int, dict[str, Quantity]] = {}
    for row in session.execute(_loads_of(query), values):
        load = Quantity(row.load, row.load_unit, row.load_low)
        found.setdefault(row.entry_id, {})[row.position] = load
    return found
