"""A whole database moved to another one, of the same kind or not.

This file decides that a move copies every row of every table under the key that it has, reads
one moment of the source, writes all of it or nothing, and counts as done only once both sides
were read again and compared row by row. The target has no row before. The source is left as
it is. It does not know what the rows mean.
"""

from __future__ import annotations

from collections.abc import Generator, Mapping, Sequence
from contextlib import closing
from dataclasses import dataclass
from itertools import zip_longest
from typing import Any

from sqlalchemy import Connection, Table, func, insert, select, text

from bot.store.database import DatabaseTrouble, Store
from bot.store.sqlite import begin_reading
from bot.store.tables import Table as Base

ROWS_AT_ONCE = 1000
TABLES: Sequence[Table] = Base.metadata.sorted_tables
"""Every table, those that others refer to first."""


class NotMoved(DatabaseTrouble):
    """A move that did not happen; the sentence says why, and the target is as it was."""


@dataclass(frozen=True, slots=True)
class Moved:
    """What was moved and compared: the rows of each table."""

    rows: Mapping[str, int]

    @property
    def total(self) -> int:
        """Rows in all."""
        return sum(self.rows.values())


def move(source: Store, target: Store) -> Moved:
    """Copy every row of one open database to another, and compare them; raises NotMoved."""
    with _reading(source) as reading, target.engine.begin() as writing:
        _lock(writing)
        held = sum(_count(writing, table) for table in TABLES)
        if held:
            raise NotMoved(f"The target holds {held:,} rows; nothing was moved.")
        for table in TABLES:
            _copy(reading, writing, table)
        _continue_keys(writing)
        return Moved({table.name: _compared(reading, writing, table) for table in TABLES})


def _reading(store: Store) -> Connection:
    connection = store.engine.connect()
    if connection.dialect.name == "postgresql":
        # What SQLite's transactions do anyway: all that is read is of one moment.
        connection = connection.execution_options(isolation_level="REPEATABLE READ")
    begin_reading(connection)
    return connection


def _lock(connection: Connection) -> None:
    """Keep others from writing to the target until the move is done."""
    if connection.dialect.name == "postgresql":
        names = ", ".join(f'"{table.name}"' for table in TABLES)
        connection.execute(text(f"LOCK TABLE {names} IN EXCLUSIVE MODE"))


def _count(connection: Connection, table: Table) -> int:
    return connection.scalar(select(func.count()).select_from(table)) or 0


def _copy(reading: Connection, writing: Connection, table: Table) -> None:
    batch: list[dict[str, Any]] = []
    for row in _rows(reading, table):
        batch.append(row)
        if len(batch) == ROWS_AT_ONCE:
            writing.execute(insert(table), batch)
            batch = []
    if batch:
        writing.execute(insert(table), batch)


def _rows(connection: Connection, table: Table) -> Generator[dict[str, Any], None, None]:
    """Every row, in the order of its key; rows refer to earlier ones of their own table only."""
    query = select(table).order_by(*table.primary_key.columns)
    with connection.execution_options(yield_per=ROWS_AT_ONCE).execute(query) as result:
        for row in result.mappings():
            yield dict(row)


def _continue_keys(connection: Connection) -> None:
    """Let PostgreSQL count on from the keys that were brought."""
    if connection.dialect.name != "postgresql":
        return
    for table in TABLES:
        key = table.autoincrement_column
        if key is not None and not key.foreign_keys:
            last = select(func.max(key)).scalar_subquery()
            sequence = func.pg_get_serial_sequence(table.name, key.name)
            connection.execute(
                select(func.setval(sequence, func.greatest(last, 1), select(key).exists()))
            )


def _compared(reading: Connection, writing: Connection, table: Table) -> int:
    """How many rows a table has on both sides, each the same; raises NotMoved."""
    count = 0
    with closing(_rows(reading, table)) as read, closing(_rows(writing, table)) as written:
        for count, (there, here) in enumerate(zip_longest(read, written), start=1):
            if there != here:
                raise NotMoved(
                    f"Row {count:,} of {table.name} came out otherwise; nothing was moved."
                )
    return count
