"""A logbook out to a file.

This file decides what of a logbook goes out (what stands, in the order in which it happened)
and what a record says beyond the `read` contract: `at` is always there, the moment with its
offset in the logbook's zone (the bare day, where only that is known), and `by` is who told
it. It does not know a file's format.
"""

from __future__ import annotations

from datetime import date, datetime, time
from zoneinfo import ZoneInfo

from sqlalchemy.orm import Session

from bot.exchange import columns, files
from bot.store import journal, standing
from bot.store.tables import LogbookRow
from domain.entries import Entry
from domain.log import Logged
from domain.records import Record, entry_to_record

NOON = time(12)


def records(session: Session, logbook_key: int) -> list[Record]:
    """What stands in a logbook, oldest first."""
    preferences = journal.preferences_of(session.get_one(LogbookRow, logbook_key))
    zone = ZoneInfo(preferences.time_zone)
    return [exported(each, zone) for each in standing.log(session, logbook_key)]


def exported(each: Logged[Entry], zone: ZoneInfo) -> Record:
    """An entry as it goes out: its record, when it happened and who told it."""
    record = {**entry_to_record(each.entry), "at": _when(each, zone)}
    return {**record, columns.BY: each.by} if each.by else record


def _when(each: Logged[Entry], zone: ZoneInfo) -> str:
    stated = each.entry.at
    bare = isinstance(stated, date) and not isinstance(stated, datetime)
    if bare and stated is not None and each.at == datetime.combine(stated, NOON, zone):
        return stated.isoformat()
    return each.at.astimezone(zone).isoformat()


def written(found: list[Record], ending: str) -> bytes:
    """Records as a file's bytes, by the file's ending."""
    if ending == files.JSONL:
        return files.write_jsonl(found)
    headings, rows = columns.table(found)
    write = files.write_csv if ending == files.CSV else files.write_xlsx
    return write(headings, rows)
