"""How many messages a second are handled, beside the bare writing of the same rows; and whether
an answer takes longer in a long logbook.

Times are printed. What is asserted is a ratio of two times taken in the same run, so that a
slow or busy machine is no judge.
"""

from __future__ import annotations

import shutil
import sqlite3
import time
from collections.abc import Iterator
from pathlib import Path

import pytest
from sqlalchemy import text

from bot.conversation import Conversation
from bot.store.database import Store, open_store
from bot.wiring import reader
from tests.store.logbooks import CHAT, HOME, START, as_told

pytestmark = pytest.mark.bench

ROUNDS = 300
ROW_SHARE = 0.25
LONG, SHORT = 1_000_000, 1_000
SLOWER = 1.5
KIND_TABLES = {
    "weighing": "weighings",
    "fill": "fills",
    "odometer": "odometers",
    "hitch": "hitches",
}


def texts() -> Iterator[str]:
    """Readings of the odometer, one after the other."""
    number = 48_000
    while True:
        number += 7
        yield f"odo {number}"


def bare_seconds(source: Path, target: Path, messages: list[int]) -> float:
    """How long sqlite3 takes to write these messages' rows, in two transactions each."""
    # The shape, indexes included, and what stood before, without the rows that are timed.
    shutil.copy(source, target)
    tables = {
        "messages": "id",
        "entries": "message_id",
        "odometers": "entry_id",
        "changes": "message_id",
        "outbox": "message_id",
    }
    connection = sqlite3.connect(target, isolation_level=None)
    for pragma in ("journal_mode = WAL", "synchronous = FULL", "foreign_keys = OFF"):
        connection.execute(f"PRAGMA {pragma}")
    rows: dict[str, dict[int, list[tuple[object, ...]]]] = {}
    for table, column in tables.items():
        by_message = rows.setdefault(table, {})
        link = "(SELECT message_id FROM entries WHERE id = entry_id)"
        of = link if column == "entry_id" else column
        for found, *row in connection.execute(f"SELECT {of}, {table}.* FROM {table}"):
            by_message.setdefault(found, []).append(tuple(row))
    marks = ",".join(str(key) for key in messages)
    connection.execute(
        f"DELETE FROM odometers WHERE entry_id IN"
        f" (SELECT id FROM entries WHERE message_id IN ({marks}))"
    )
    for table, key in tables.items():
        if key != "entry_id":
            connection.execute(f"DELETE FROM {table} WHERE {key} IN ({marks})")
    connection.execute("PRAGMA foreign_keys = ON")

    def write(table: str, message: int) -> None:
        for row in rows[table].get(message, ()):
            places = ",".join("?" * len(row))
            connection.execute(f"INSERT INTO {table} VALUES ({places})", row)

    began = time.perf_counter()
    for message in messages:
        connection.execute("BEGIN IMMEDIATE")
        write("messages", message)
        connection.execute("COMMIT")
        connection.execute("BEGIN IMMEDIATE")
        for table in ("entries", "odometers", "changes", "outbox"):
            write(table, message)
        connection.execute("UPDATE messages SET state = 'handled' WHERE id = ?", (message,))
        connection.execute("UPDATE logbooks SET revision = revision + 1")
        connection.execute("COMMIT")
    took = time.perf_counter() - began
    connection.close()
    return took


def test_messages_a_second_beside_the_bare_writing_of_their_rows(tmp_path: Path) -> None:
    path = tmp_path / "logbook.db"
    store = open_store(path)
    talk = Conversation(store, reader(), lambda: START, HOME)
    lines = texts()
    for number in range(20):
        talk.receive(as_told(next(lines), at=number))
    with store.look() as session:
        warm = session.scalar(text("SELECT max(id) FROM messages"))
    assert warm is not None
    ours = [0.0, 0.0]
    for half in range(2):
        began = time.perf_counter()
        for number in range(ROUNDS // 2):
            talk.receive(as_told(next(lines), at=20 + half * ROUNDS + number))
        ours[half] = time.perf_counter() - began
    store.close()
    with sqlite3.connect(path) as connection:
        found = connection.execute("SELECT id FROM messages WHERE id > ?", (warm,)).fetchall()
    messages = [each for (each,) in found]
    assert len(messages) == ROUNDS
    bare = bare_seconds(path, tmp_path / "bare.db", messages)
    ratio = bare / sum(ours)
    print(
        f"{ROUNDS / sum(ours):,.0f} messages/s handled, {ROUNDS / bare:,.0f}/s bare:"
        f" ratio {ratio:.2f}, aimed at {ROW_SHARE}"
    )


def filled(path: Path, entries: int) -> Store:
    """A logbook with a rig, its last weighings, and so many entries before them."""
    store = open_store(path)
    talk = Conversation(store, reader(), lambda: START, HOME)
    day = 24 * 60
    told = (
        "truck Juniper gvwr 11500 gcwr 27000 front axle 5600 rear axle 7000 tank 34 gal diesel",
        "trailer flatdeck gvwr 12000 axles 2x6000",
        "hitched up",
        "steer 5280 drive 6940 trailer 9840",
        "48011, 31.4 gal at 3.899",
        "odo 48213",
    )
    for number, line in enumerate(told):
        talk.receive(as_told(line, at=number))
    connection = sqlite3.connect(path)
    connection.execute("PRAGMA synchronous = OFF")
    for kind, table in KIND_TABLES.items():
        _multiply(connection, kind, table, entries // len(KIND_TABLES))
    connection.commit()
    connection.close()
    for number, line in enumerate(told[2:4]):
        talk.receive(as_told(line, at=day + number))
    return store


def _multiply(connection: sqlite3.Connection, kind: str, table: str, times: int) -> None:
    """Copies of the entry of a kind, a minute apart, in the years before."""
    (first,) = connection.execute("SELECT min(id) FROM entries WHERE kind = ?", (kind,)).fetchone()
    (last,) = connection.execute("SELECT max(id) FROM entries").fetchone()
    count = f"WITH RECURSIVE n(i) AS (SELECT 1 UNION ALL SELECT i + 1 FROM n WHERE i < {times})"
    for name, key, moment in (("entries", "id", "happened_at"), (table, "entry_id", None)):
        columns = [row[1] for row in connection.execute(f"PRAGMA table_info({name})")]
        values = [
            f"{last} + i"
            if column == key
            else f"datetime({column}, '-' || (i + 60) || ' minutes') || '.000000'"
            if column == moment
            else column
            for column in columns
        ]
        connection.execute(
            f"INSERT INTO {name} ({','.join(columns)}) {count}"
            f" SELECT {','.join(values)} FROM n, {name} WHERE {name}.{key} = {first}"
        )
    if table == "weighings":
        connection.execute(
            f"INSERT INTO weighing_loads {count} SELECT {last} + i, position, ordinal, load,"
            f" load_unit, load_low FROM n, weighing_loads WHERE entry_id = {first}"
        )


def milliseconds(stores: list[Store], line: str) -> list[float]:
    """The least time of a message, from the network's hand to the queued reply, in each store.

    The stores take turns, and the least of twelve counts, so that what else the machine does
    falls on both alike.
    """
    talks = [Conversation(store, reader(), lambda: START, HOME) for store in stores]
    took: list[list[float]] = [[] for _ in stores]
    for number in range(12):
        message = as_told(line, at=3 * 24 * 60 + number, id=f"{CHAT} bench {number} {line}")
        for talk, times in zip(talks, took, strict=True):
            began = time.perf_counter()
            assert talk.receive(message)
            times.append((time.perf_counter() - began) * 1000)
    return [min(times) for times in took]


def test_a_weighing_is_answered_as_fast_with_a_million_entries_as_with_a_thousand(
    tmp_path: Path,
) -> None:
    began = time.perf_counter()
    stores = [filled(tmp_path / f"{entries}.db", entries) for entries in (SHORT, LONG)]
    print(f"filled in {time.perf_counter() - began:.0f} s")
    for line in ("how heavy are we?", "steer 5290 drive 6930 trailer 9850"):
        short, long = milliseconds(stores, line)
        ratio = long / short
        print(
            f"{line} {SHORT:,} entries {short:.1f} ms, {LONG:,} entries {long:.1f} ms:"
            f" ratio {ratio:.2f}, allowed {SLOWER}"
        )
        assert ratio <= SLOWER
    for store in stores:
        store.close()
