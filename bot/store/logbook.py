"""A logbook's entries: kept, replaced, withdrawn, restored, and read back.

This file decides what stands: an entry counts until a message withdraws it, and counts again
when that is taken back. Nothing is ever overwritten; `changes` holds every step: `kept`,
`withdrawn` (amended, edited or deleted), `taken back` (by 'undo') and `restored`. It does not
know why an entry changes, nor what is worked out from it.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence
from contextlib import contextmanager
from datetime import UTC, date, datetime, time
from functools import cache
from typing import Any
from zoneinfo import ZoneInfo

from sqlalchemy import Select, and_, bindparam, func, insert, or_, select, update
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
KEPT, WITHDRAWN, TAKEN_BACK, RESTORED = "kept", "withdrawn", "taken back", "restored"


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
    ordinal = session.execute(_NEXT_ORDINAL, {"message": message.id}).scalar_one()
    values = common_values(entry)
    # Plain inserts: the rows are not looked at again as objects, which cost more than the rows.
    key: int = session.execute(
        _INSERT_ENTRY,
        {
            "logbook_id": logbook_key,
            "message_id": message.id,
            "ordinal": ordinal,
            "happened_at": at,
            "replaces": replaces,
            **values,
        },
    ).scalar_one()
    table = TABLES[values["kind"]]
    if table is not None:
        session.execute(insert(table), {"entry_id": key, **own_values(entry)})
    if isinstance(entry, Weighing):
        session.execute(insert(WeighingLoadRow), _load_rows(key, entry.loads))
    change = {"message_id": message.id, "entry_id": key, "act": KEPT}
    session.execute(insert(ChangeRow), change)
    if replaces is not None:
        withdraw(session, message, [replaces])
    name = session.get_one(PersonRow, message.person_id).name
    return Logged(entry=entry, at=at, by=name, key=key)


_INSERT_ENTRY = insert(EntryRow).returning(EntryRow.id)
_NEXT_ORDINAL = select(func.coalesce(func.max(EntryRow.ordinal) + 1, 0)).where(
    EntryRow.message_id == bindparam("message")
)


def _load_rows(key: int, loads: Mapping[str, Quantity]) -> list[dict[str, Any]]:
    return [
        {"entry_id": key, "position": position, "ordinal": ordinal, **_load_values(load)}
        for ordinal, (position, load) in enumerate(loads.items())
    ]


def _load_values(load: Quantity) -> dict[str, Any]:
    return {"load": load.value, "load_unit": load.unit, "load_low": load.low}


def withdraw(session: Session, message: MessageRow, keys: Sequence[int]) -> None:
    """Take entries back on the word of a message."""
    _mark(session, message, keys, message.id, WITHDRAWN)


def take_back(
    session: Session, message: MessageRow, keys: Sequence[int], restored: Sequence[int]
) -> int:
    """Undo a change on the word of a message; the key of the message that had made it."""
    column, key = (EntryRow.message_id, keys[0]) if keys else (EntryRow.withdrawn_by, restored[0])
    made_by = session.execute(select(column).where(EntryRow.id == key)).scalar_one()
    _mark(session, message, keys, message.id, TAKEN_BACK)
    restore(session, message, restored)
    return message.id if made_by is None else made_by


def amendments(session: Session, message_keys: Sequence[int], but: Sequence[int]) -> dict[int, int]:
    """What messages amended and still stands so: each entry, and the one that it replaced."""
    rows = session.execute(
        select(EntryRow.id, EntryRow.replaces).where(
            EntryRow.message_id.in_(message_keys),
            EntryRow.replaces.is_not(None),
            EntryRow.withdrawn_by.is_(None),
            EntryRow.id.not_in(but),
        )
    )
    return {key: old for key, old in rows if old is not None}


@contextmanager
def set_aside(session: Session, message: MessageRow, keys: Sequence[int]) -> Iterator[None]:
    """See the logbook for a while as if these entries, which stand, were not there."""
    rows = update(EntryRow).where(EntryRow.id.in_(keys))
    session.execute(rows.values(withdrawn_by=message.id))
    yield
    session.execute(rows.values(withdrawn_by=None))


def standing_of(session: Session, keys: Sequence[int]) -> dict[int, Logged[Entry]]:
    """What stands by now of each of these entries: itself, or what it was amended to."""
    found: dict[int, int] = {}
    ahead = {key: key for key in keys}
    while ahead:
        stands = select(EntryRow.id).where(EntryRow.id.in_(ahead), EntryRow.withdrawn_by.is_(None))
        for key in session.scalars(stands):
            found[ahead.pop(key)] = key
        nexts = select(EntryRow.id, EntryRow.replaces).where(EntryRow.replaces.in_(ahead))
        ahead = {key: ahead[old] for key, old in session.execute(nexts) if old is not None}
    known = entries(session, found.values())
    return {key: known[stands] for key, stands in found.items()}


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
    kept_by = select(EntryRow.message_id).where(
        EntryRow.logbook_id == logbook_key, EntryRow.withdrawn_by.is_(None)
    )
    gone_by = (
        select(EntryRow.withdrawn_by)
        .join(
            ChangeRow,
            and_(
                ChangeRow.entry_id == EntryRow.id,
                ChangeRow.message_id == EntryRow.withdrawn_by,
                ChangeRow.act == WITHDRAWN,
            ),
        )
        .where(
            EntryRow.logbook_id == logbook_key,
            EntryRow.withdrawn_by.is_not(None),
            EntryRow.withdrawn_by != EntryRow.message_id,
        )
    )
    last = {
        message
        for query, column in ((kept_by, EntryRow.message_id), (gone_by, EntryRow.withdrawn_by))
        for message in session.scalars(query.group_by(column).order_by(column.desc()).limit(limit))
        if message is not None
    }
    messages = sorted(last, reverse=True)[:limit]
    kept = _by_message(
        session,
        select(EntryRow.message_id, EntryRow.id)
        .where(EntryRow.message_id.in_(messages), EntryRow.withdrawn_by.is_(None))
        .order_by(EntryRow.ordinal),
    )
    gone = _by_message(
        session,
        gone_by.add_columns(EntryRow.id)
        .where(EntryRow.withdrawn_by.in_(messages))
        .order_by(EntryRow.id),
    )
    known = entries(
        session, {key for each in (kept, gone) for keys in each.values() for key in keys}
    )
    return tuple(
        Change(
            kept=tuple(known[key] for key in kept.get(message, ())),
            replaced=tuple(known[key] for key in gone.get(message, ())),
        )
        for message in messages
    )


def _by_message(session: Session, query: Select[*tuple[Any, ...]]) -> dict[int, list[int]]:
    found: dict[int, list[int]] = {}
    for message, key in session.execute(query):
        found.setdefault(message, []).append(key)
    return found


def last_message(session: Session, logbook_key: int) -> int | None:
    """The key of the last message of which something stands."""
    return session.scalar(
        select(EntryRow.message_id)
        .where(EntryRow.logbook_id == logbook_key, EntryRow.withdrawn_by.is_(None))
        .order_by(EntryRow.message_id.desc())
        .limit(1)
    )


def latest_odometer(
    session: Session, logbook_key: int, truck: str | None, until: datetime
) -> Quantity | None:
    """The odometer reading that happened last by a moment, off a fill or by itself."""
    values = {"logbook": logbook_key, "truck": truck, "until": until}
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
            EntryRow.happened_at <= bindparam("until"),
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
