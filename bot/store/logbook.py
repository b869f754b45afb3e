"""A logbook's entries: kept, replaced, withdrawn and restored.

This file decides what stands: an entry counts until a message withdraws it, and counts again
when that is taken back. Nothing is ever overwritten; `changes` holds every step: `kept`,
`withdrawn` (amended, edited or deleted), `taken back` (by 'undo') and `restored`. It does not
know why an entry changes, nor how entries are read back.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from contextlib import contextmanager
from datetime import date, datetime, time
from functools import cache
from typing import Any
from zoneinfo import ZoneInfo

from sqlalchemy import Insert, Select, and_, bindparam, func, insert, select, update
from sqlalchemy.orm import Session, aliased

from bot.store import standing
from bot.store.records import TABLES, common_values, own_values
from bot.store.seen import Journalled, Plain
from bot.store.tables import (
    ChangeRow,
    EntryRow,
    OwnTable,
    WeighingLoadRow,
)
from domain.corrections import Change
from domain.entries import KIND_NAMES, Entry, Weighing
from domain.log import Logged, Preferences
from domain.quantities import Quantity

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
    plain: Plain,
    logbook_key: int,
    message: Journalled,
    entry: Entry,
    at: datetime,
    replaces: int | None = None,
) -> Logged[Entry]:
    """Keep an entry that a message states, in place of another where it amends one."""
    row = {**_row(logbook_key, message.id, entry, at), "replaces": replaces}
    key: int = plain.execute(_INSERT_ENTRY, {**row, "of_message": message.id}).scalar_one()
    _keep_figures(plain, [(message.id, key, entry)])
    if replaces is not None:
        withdraw(plain, message, [replaces])
    return Logged(entry=entry, at=at, by=message.author, key=key)


def keep_all(plain: Plain, logbook_key: int, told: Sequence[tuple[int, Entry, datetime]]) -> None:
    """Keep the only entries of as many new messages, each by its message's key, at its time."""
    rows = [{**_row(logbook_key, message, entry, at), "ordinal": 0} for message, entry, at in told]
    keys = plain.execute(_INSERT_ENTRIES, rows).scalars().all()
    _keep_figures(
        plain,
        [(message, key, entry) for (message, entry, _), key in zip(told, keys, strict=True)],
    )


def _row(logbook_key: int, message_key: int, entry: Entry, at: datetime) -> dict[str, Any]:
    return {
        "logbook_id": logbook_key,
        "message_id": message_key,
        "happened_at": at,
        **common_values(entry),
    }


def _keep_figures(plain: Plain, kept: Sequence[tuple[int, int, Entry]]) -> None:
    """What entries have beyond their common row, and that they were kept: message, key, entry."""
    own: dict[type[OwnTable], list[dict[str, Any]]] = {}
    loads: list[dict[str, Any]] = []
    for _, key, entry in kept:
        table = TABLES[KIND_NAMES[type(entry)]]
        if table is not None:
            own.setdefault(table, []).append({"entry_id": key, **own_values(entry)})
        if isinstance(entry, Weighing):
            loads += _load_rows(key, entry.loads)
    for table, rows in own.items():
        plain.execute(_insert_own(table), rows)
    if loads:
        plain.execute(_INSERT_LOAD, loads)
    changes = [{"message_id": message, "entry_id": key, "act": KEPT} for message, key, _ in kept]
    plain.execute(_INSERT_CHANGE, changes)


# Plain rows: as objects, which nobody looks at again, they would cost several times as much.
_ENTRY = EntryRow.rows()
_EARLIER = aliased(EntryRow)
_NEXT_ORDINAL = select(func.coalesce(func.max(_EARLIER.ordinal) + 1, 0)).where(
    _EARLIER.message_id == bindparam("of_message")
)
_INSERT_ENTRY = (
    insert(_ENTRY).values(ordinal=_NEXT_ORDINAL.scalar_subquery()).returning(_ENTRY.c.id)
)
_INSERT_ENTRIES = insert(_ENTRY).returning(_ENTRY.c.id, sort_by_parameter_order=True)
_INSERT_LOAD = insert(WeighingLoadRow.rows())
_INSERT_CHANGE = insert(ChangeRow.rows())


@cache
def _insert_own(table: type[OwnTable]) -> Insert:
    return insert(table.rows())


def _load_rows(key: int, loads: Mapping[str, Quantity]) -> list[dict[str, Any]]:
    return [
        {"entry_id": key, "position": position, "ordinal": ordinal, **_load_values(load)}
        for ordinal, (position, load) in enumerate(loads.items())
    ]


def _load_values(load: Quantity) -> dict[str, Any]:
    return {"load": load.value, "load_unit": load.unit, "load_low": load.low}


def withdraw(plain: Plain, message: Journalled, keys: Sequence[int]) -> None:
    """Take entries back on the word of a message."""
    _mark(plain, message, keys, message.id, WITHDRAWN)


def take_back(
    plain: Plain, message: Journalled, keys: Sequence[int], restored: Sequence[int]
) -> int:
    """Undo a change on the word of a message; the key of the message that had made it."""
    column, key = (_ENTRY.c.message_id, keys[0]) if keys else (_ENTRY.c.withdrawn_by, restored[0])
    made_by = plain.execute(select(column).where(_ENTRY.c.id == key)).scalar_one()
    _mark(plain, message, keys, message.id, TAKEN_BACK)
    restore(plain, message, restored)
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
def set_aside(plain: Plain, message: Journalled, keys: Sequence[int]) -> Iterator[None]:
    """See the logbook for a while as if these entries, which stand, were not there."""
    rows = update(_ENTRY).where(_ENTRY.c.id.in_(keys))
    plain.execute(rows.values(withdrawn_by=message.id))
    yield
    plain.execute(rows.values(withdrawn_by=None))


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
    known = standing.entries(session, found.values())
    return {key: known[stands] for key, stands in found.items()}


def restore(plain: Plain, message: Journalled, keys: Sequence[int]) -> None:
    """Let entries count again on the word of a message."""
    _mark(plain, message, keys, None, RESTORED)


def _mark(plain: Plain, message: Journalled, keys: Sequence[int], by: int | None, act: str) -> None:
    if not keys:
        return
    plain.execute(update(_ENTRY).where(_ENTRY.c.id.in_(keys)).values(withdrawn_by=by))
    changes = [{"message_id": message.id, "entry_id": key, "act": act} for key in keys]
    plain.execute(_INSERT_CHANGE, changes)


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
    wanted = {key for each in (kept, gone) for keys in each.values() for key in keys}
    known = standing.entries(session, wanted)
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
