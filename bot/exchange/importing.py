"""Old records in from a file: what would be kept, what not and why, and keeping it.

This file decides that each row is a message of its own, journalled with its text like any
other; that a row which stands already, or came in before, adds nothing; and which rows of a
foreign table are doubted: axles that don't make the gross, money that doesn't fit, an
odometer that runs backwards, a load that the rig's ratings can't explain. It does not know
how a file or a column is read.
"""

from __future__ import annotations

import hashlib
import json
from collections import Counter
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, field, replace
from datetime import date, datetime
from functools import cache
from math import isfinite
from pathlib import Path
from typing import TypeVar
from zoneinfo import ZoneInfo

from sqlalchemy import insert, select
from sqlalchemy.orm import Session

from bot.answers.asking import ask_answer
from bot.answers.language import SOURCE, language_of
from bot.exchange import columns, exporting, files, headings
from bot.exchange.columns import BY, Cell
from bot.exchange.foreign import Reader, Unreadable, day_first
from bot.exchange.headings import Column, HeadingWords
from bot.exchange.numerals import decimal_sign
from bot.phrasebook import phrasebook
from bot.store import journal, logbook, standing
from bot.store.tables import ChatRow, IdentityRow, LogbookRow, MessageRow, PersonRow
from domain.entries import (
    SUM_TOLERANCE,
    Correction,
    Entry,
    Fill,
    Hitch,
    ImpossibleEntry,
    Odometer,
    Rating,
)
from domain.entries import Weighing as Weighed
from domain.log import Log, Logged, Preferences
from domain.money import fill_cost
from domain.plausible import doubt_of
from domain.quantities import DISTANCES, MASSES, PINT_NAMES, VOLUMES, Quantity, is_currency
from domain.reading import Phrasebook
from domain.reading.fill_entries import MONEY_TOLERANCE, TANK_SLACK
from domain.records import NotARecord, Record, entry_from_record
from domain.rig import Rig, rig_of
from domain.verdicts import Ask

IMPORT = "import"
"""What an imported row's message is called before its digest, and the network of its people."""

STANDS = "stands already"
CAME = "came in before"
PENNIES = 0.05

AT_ONCE = 500
"""Rows that are written together."""

T = TypeVar("T")


@dataclass(frozen=True, slots=True, kw_only=True)
class Item:
    """An entry of a row: the row's number, its text, what it becomes, and why it is not kept."""

    row: int
    text: str
    logged: Logged[Entry] | None = None
    name: str = ""
    why: str | None = None

    @property
    def kept(self) -> bool:
        """Whether it is, or would be, kept."""
        return self.why is None


@dataclass(frozen=True, slots=True, kw_only=True)
class Plan:
    """What a file holds: each entry and its fate, and the headings that mean nothing here.

    It holds for a logbook at its `revision`.
    """

    items: tuple[Item, ...]
    revision: int
    unread: tuple[str, ...] = ()
    columns: tuple[tuple[str, str], ...] = ()

    @property
    def keeps(self) -> tuple[Item, ...]:
        """What is, or would be, kept."""
        return tuple(each for each in self.items if each.kept)

    @property
    def refused(self) -> tuple[Item, ...]:
        """What is not kept though it is not there yet."""
        return tuple(each for each in self.items if each.why not in (None, STANDS, CAME))


@dataclass(slots=True)
class _Found:
    """What a file says before it is held against the logbook."""

    items: list[Item] = field(default_factory=list)
    unread: tuple[str, ...] = ()
    columns: tuple[tuple[str, str], ...] = ()
    foreign: bool = False


def plan(session: Session, home: ChatRow, path: Path, author: str) -> Plan:
    """What of a file would be kept in a chat's logbook; changes nothing.

    `author` told what no column gives to another. Raises NotReadable for a file that can't
    be read at all.
    """
    book = session.get_one(LogbookRow, home.logbook_id)
    preferences = journal.preferences_of(book)
    found = _read(path, preferences, author)
    log = standing.log(session, home.logbook_id)
    items = _doubted(found.items, log) if found.foreign else found.items
    items = _known(session, home, log, items, ZoneInfo(preferences.time_zone))
    return Plan(
        items=tuple(items), revision=book.revision, unread=found.unread, columns=found.columns
    )


def apply(session: Session, home: ChatRow, planned: Plan, now: datetime) -> int:
    """Keep what a plan keeps; how many entries that were. Commits all of it or nothing.

    Raises NotReadable where the logbook has been changed since it was planned.
    """
    book = session.get_one(LogbookRow, home.logbook_id, with_for_update=True)
    if book.revision != planned.revision:
        raise files.NotReadable("The logbook was changed while the file was read; import it again.")
    people: dict[str, PersonRow] = {}
    told = [(item, item.logged) for item in planned.keeps if item.logged is not None]
    for some in _batched(told, AT_ONCE):
        rows = [
            {
                "chat_id": home.id,
                "message": item.name,
                "person_id": _person(session, home, logged.by, people).id,
                "sent_at": logged.at,
                "received_at": now,
                "text": item.text,
                "state": journal.HANDLED,
            }
            for item, logged in some
        ]
        keys = session.execute(_JOURNAL, rows).scalars().all()
        entries = [
            (key, logged.entry, logged.at) for (_, logged), key in zip(some, keys, strict=True)
        ]
        logbook.keep_all(session, home.logbook_id, entries)
    book.revision += 1
    session.commit()
    return len(planned.keeps)


_JOURNAL = insert(MessageRow.rows()).returning(MessageRow.rows().c.id, sort_by_parameter_order=True)


def _batched(items: Sequence[T], size: int) -> Iterator[Sequence[T]]:
    return (items[start : start + size] for start in range(0, len(items), size))


def home_of(session: Session, logbook_key: int) -> ChatRow | None:
    """The chat whose message an imported row is: the first that keeps the logbook."""
    return session.scalar(
        select(ChatRow)
        .where(ChatRow.logbook_id == logbook_key, ChatRow.role == journal.KEEPER)
        .order_by(ChatRow.id)
        .limit(1)
    )


def _person(session: Session, home: ChatRow, name: str, people: dict[str, PersonRow]) -> PersonRow:
    """The one person of that name who told this logbook something, or a new one."""
    if name in people:
        return people[name]
    # A name is a logbook's own: another family's Ana is somebody else.
    named = session.scalars(
        select(PersonRow)
        .join(MessageRow, MessageRow.person_id == PersonRow.id)
        .join(ChatRow, ChatRow.id == MessageRow.chat_id)
        .where(PersonRow.name == name, ChatRow.logbook_id == home.logbook_id)
        .distinct()
    ).all()
    identity = f"{home.logbook_id}:{name}"
    before = session.scalar(
        select(PersonRow)
        .join(IdentityRow)
        .where(IdentityRow.network == IMPORT, IdentityRow.identity == identity)
    )
    person = before or (named[0] if len(named) == 1 else None)
    if person is None:
        person = PersonRow(name=name)
        session.add(person)
        session.flush()
        session.add(IdentityRow(network=IMPORT, identity=identity, person_id=person.id))
        session.flush()
    people[name] = person
    return person


def _read(path: Path, preferences: Preferences, author: str) -> _Found:
    if files.format_of(path) == files.JSONL:
        lines = files.read_jsonl(path.read_bytes())
        return _Found([_from_record(n, line, preferences, author) for n, line in lines])
    titles, rows = files.read_table(path)
    if columns.is_own(titles):
        return _Found([_own(n, titles, row, preferences, author) for n, row in rows])
    return _foreign(titles, rows, preferences, author)


def _own(
    number: int, titles: Sequence[str], row: Sequence[Cell], preferences: Preferences, author: str
) -> Item:
    text = _row_text(titles, row)
    try:
        record = columns.record(dict(zip(titles, row, strict=False)))
    except NotARecord as error:
        return Item(row=number, text=text, why=str(error))
    return replace(_from_record(number, record, preferences, author), text=text)


def _from_record(number: int, record: object, preferences: Preferences, author: str) -> Item:
    text = json.dumps(record, ensure_ascii=False)
    try:
        if not isinstance(record, dict):
            raise NotARecord("no record")
        entry = entry_from_record(record)
        _check(entry)
        if entry.at is None:
            raise NotARecord("no date in it")
        by = str(record.get(BY) or author)
    except (NotARecord, ImpossibleEntry) as error:
        return Item(row=number, text=text, why=str(error))
    except (TypeError, ValueError, AttributeError) as error:
        return Item(row=number, text=text, why=f"not in the form of a record ({error})")
    return Item(row=number, text=text, logged=_logged(entry, by, preferences))


def _logged(entry: Entry, by: str, preferences: Preferences) -> Logged[Entry]:
    at, zone = entry.at, ZoneInfo(preferences.time_zone)
    if isinstance(at, datetime):
        moment = at if at.tzinfo else at.replace(tzinfo=zone)
    elif isinstance(at, date):
        moment = datetime.combine(at, exporting.NOON, zone)
    else:
        raise NotARecord("no date in it")
    return Logged(entry=entry, at=moment, by=by)


UNITS_OF: Mapping[str, Sequence[str]] = {
    "volume": VOLUMES,
    "odometer": DISTANCES,
}
"""Fields whose unit is one of a few; the rest may have any that is known."""


def _check(entry: Entry) -> None:
    """Raise NotARecord where a field holds what no reader would have put there."""
    if isinstance(entry, Correction):
        raise NotARecord("a correction is no entry of its own")
    for name, value in _quantities(entry):
        if not all(_is_number(each) for each in _ends(value)):
            raise NotARecord(f"{name} is no number")
        known = UNITS_OF.get(name, MASSES if name == "loads" else ())
        if (value.unit not in known) if known else not _is_known(value.unit):
            raise NotARecord(f"{name} has the unit {value.unit!r}")


def _quantities(entry: Entry) -> Iterator[tuple[str, Quantity]]:
    for name in columns.SHAPES:
        value = getattr(entry, name, None)
        if isinstance(value, Quantity):
            yield name, value
    if isinstance(entry, Weighed):
        yield from (("loads", load) for load in entry.loads.values())


def _ends(value: Quantity) -> tuple[object, ...]:
    return (value.value,) if value.low is None else (value.value, value.low)


def _is_number(value: object) -> bool:
    return isinstance(value, int | float) and isfinite(value)


def _is_known(unit: str) -> bool:
    over, _, under = unit.partition("/")
    if unit in PINT_NAMES or unit == "L/100km":
        return True
    return (over in PINT_NAMES or is_currency(over)) and (not under or under in PINT_NAMES)


def _foreign(
    titles: list[str],
    rows: list[tuple[int, list[Cell]]],
    preferences: Preferences,
    author: str,
) -> _Found:
    cells = [row for _, row in rows]
    language = language_of(preferences)
    decimal = decimal_sign(cells, language.decimal)
    book, words, found = _understood(titles, cells, preferences.language, decimal)
    # A language says day or month first; in English that goes with the units.
    otherwise = preferences.units != "us" or (language.code != SOURCE and language.day_first)
    first = day_first(found, cells, otherwise=otherwise)
    reader = Reader(found, book, words, preferences, first, decimal)
    items: list[Item] = []
    for number, row in rows:
        text = _row_text(titles, row)
        try:
            said = reader.read(row)
            for entry in said.entries:
                _check(entry)
                logged = _logged(entry, said.by or author, preferences)
                items.append(Item(row=number, text=text, logged=logged))
        except (Unreadable, NotARecord, ImpossibleEntry) as error:
            items.append(Item(row=number, text=text, why=str(error)))
    return _Found(
        items,
        unread=tuple(each.title for each in found if each.title and not each.fields),
        columns=tuple((each.title, each.fields[0]) for each in found if each.fields),
        foreign=True,
    )


Understood = tuple[Phrasebook, HeadingWords, tuple[Column, ...]]
"""The vocabulary that a table was read with, and its columns."""


def _understood(
    titles: Sequence[str], cells: Sequence[Sequence[Cell]], language: str, decimal: str
) -> Understood:
    """The columns in the language that knows most of them: the logbook's own before English."""
    read: list[Understood] = []
    for code in filter(headings.has_words, dict.fromkeys((language, SOURCE))):
        book, words = phrasebook(code), headings.heading_words(code)
        read.append((book, words, headings.read_headings(titles, cells, book, words, decimal)))
    return max(read, key=lambda each: sum(bool(column.fields) for column in each[2]))


def _row_text(titles: Sequence[str], row: Sequence[Cell]) -> str:
    pairs = zip(titles, row, strict=False)
    return "; ".join(f"{title}: {cell}" for title, cell in pairs if cell not in (None, ""))


def _doubted(items: Sequence[Item], log: Log) -> list[Item]:
    """The items, with what can't be right told in the sentence that a chat would get."""
    backwards = _backwards(items, log)
    told = Log([each for kind in (Rating, Hitch) for each in log.of(kind)])
    rig = cache(lambda trailer: rig_of(told, trailer=trailer))
    doubted = []
    for index, item in enumerate(items):
        if item.logged is not None and item.kept:
            entry = item.logged.entry
            its = rig(entry.trailer)
            ask = _doubt(entry, its) or doubt_of((entry,), its) or backwards.get(index)
            if ask is not None:
                item = replace(item, why=ask_answer(ask).headline)
        doubted.append(item)
    return doubted


def _doubt(entry: Entry, rig: Rig) -> Ask | None:
    match entry:
        case Weighed(loads=loads):
            gross = loads.get("gross")
            parts = [loads[name] for name in ("steer", "drive", "trailer") if name in loads]
            if gross is None or len(parts) < 2 or (len(parts) == 2 and "trailer" in loads):
                return None
            made = sum(each.amount("kg") for each in parts)
            if len(parts) == 2 and gross.amount("kg") > made:
                # Something behind the truck was on the scale too.
                return None
            if abs(made - gross.amount("kg")) > SUM_TOLERANCE * gross.amount("kg"):
                sum_read = Quantity(round(Quantity(made, "kg").amount(gross.unit), 2), gross.unit)
                return Ask("gross", (), "does_not_sum", (sum_read, gross))
        case Fill(volume=volume, unit_price=price, cost=cost):
            tank = rig.quantity("truck", "tank")
            fuel = entry.product != "def"
            if volume and tank and fuel and volume.amount("L") > tank.amount("L") * TANK_SLACK:
                return Ask("volume", (), "over_tank", (volume, tank))
            meant = fill_cost(replace(entry, cost=None)) if volume and price else None
            if meant and cost and meant.unit == cost.unit:
                off = abs(meant.value - cost.value)
                if off > max(MONEY_TOLERANCE * meant.value, PENNIES):
                    whole = Quantity(round(meant.value, 2), meant.unit)
                    return Ask("cost", (), "price_does_not_fit", (whole, cost))
    return None


def _backwards(items: Sequence[Item], log: Log) -> dict[int, Ask]:
    """Readings behind one that was taken before them; readings of one moment don't count."""
    shown: list[tuple[datetime, int | None, Quantity]] = [
        (each.at, None, each.entry.odometer)
        for kind in (Odometer, Fill)
        for each in log.of(kind)
        if isinstance(each.entry, Odometer | Fill) and each.entry.odometer
    ]
    for index, item in enumerate(items):
        if item.logged and isinstance(item.logged.entry, Odometer | Fill):
            reading = item.logged.entry.odometer
            if reading and item.kept and not item.logged.entry.truck:
                shown.append((item.logged.at, index, reading))
    found: dict[int, Ask] = {}
    highest: Quantity | None = None
    pending: list[Quantity] = []
    moment: datetime | None = None
    for at, row, reading in sorted(shown, key=lambda each: each[0]):
        if at != moment:
            highest = max([*pending, *([highest] if highest else [])], key=_km, default=None)
            moment, pending = at, []
        if row is not None and highest is not None and _km(reading) < _km(highest):
            found[row] = Ask("odometer", (), "backwards", (reading, highest))
        else:
            pending.append(reading)
    return found


def _km(reading: Quantity) -> float:
    return reading.amount("km")


def _known(
    session: Session, home: ChatRow, log: Log, items: Sequence[Item], zone: ZoneInfo
) -> list[Item]:
    """The items with their messages' names, those that are there already marked as such."""
    standing = Counter(_canonical(exporting.exported(each, zone)) for each in log)
    came = set(
        session.scalars(
            select(MessageRow.message).where(
                MessageRow.chat_id == home.id, MessageRow.message.startswith(f"{IMPORT}:")
            )
        )
    )
    seen: Counter[str] = Counter()
    marked = []
    for item in items:
        if item.logged is not None and item.kept:
            said = _canonical(exporting.exported(item.logged, zone))
            digest = hashlib.sha256(said.encode()).hexdigest()[:32]
            item = replace(item, name=f"{IMPORT}:{digest}:{seen[said]}")
            if seen[said] < standing[said]:
                item = replace(item, why=STANDS)
            elif item.name in came:
                item = replace(item, why=CAME)
            seen[said] += 1
        marked.append(item)
    return marked


def _canonical(record: Record) -> str:
    """A record as one text, the same for equal records: 5,280 and 5280.0 lb are one figure."""
    return json.dumps(_leveled(record), sort_keys=True, ensure_ascii=False)


def _leveled(value: object) -> object:
    match value:
        case Mapping():
            return {name: _leveled(each) for name, each in value.items()}
        case bool():
            return value
        case int() | float():
            return float(value)
    return value
