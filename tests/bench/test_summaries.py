"""The weekly summaries of many logbooks at once: time, memory, and what a network could send.

Each size runs in a process of its own, so that its memory is its own. `make bench` measures a
thousand and ten thousand logbooks; DRAWBAR_LOGBOOKS=100000 takes as many for the larger.
"""

from __future__ import annotations

import json
import os
import subprocess
import sys
import time
from collections.abc import Iterator
from datetime import timedelta
from itertools import islice
from pathlib import Path
from typing import Any

import pytest
from sqlalchemy import Table, func, insert, select

from bot.schedule import plan, queue_some
from bot.store.database import Store, open_store
from bot.store.tables import OutboxRow
from bot.store.tables import Table as Base
from tests.bench.figures import Figures
from tests.store.logbooks import START
from tests.store.season import a_season

pytestmark = pytest.mark.bench

FEW = 1_000
MANY = int(os.environ.get("DRAWBAR_LOGBOOKS", "10000"))
SENDS_A_SECOND = 30
"""Telegram's limit for a bot in all (Bots FAQ, 'My bot is hitting limits')."""

MORE_MEMORY = 1.25
"""How much more of it ten times the logbooks may take: none but for the allocator's moods."""

ROWS_AT_ONCE = 20_000
SHARED = ("people", "identities")
"""Tables whose rows are not copied: a person may be in any number of logbooks."""


def copies(
    table: Table, rows: list[dict[str, Any]], many: int, step: int
) -> Iterator[dict[str, Any]]:
    """The rows of one logbook again for each further one, every key moved on by a step."""
    keys = [each for each in table.columns if is_key(each)]
    for number in range(1, many):
        for row in rows:
            moved = {each.name: row[each.name] + number * step for each in keys if row[each.name]}
            if table.name == "chats":
                moved["chat"] = f"{row['chat']} {number}"
            yield {**row, **moved}


def is_key(column: Any) -> bool:
    """Whether a column is a row's own key, or refers to a row that is copied too."""
    if column.foreign_keys:
        return all(each.column.table.name not in SHARED for each in column.foreign_keys)
    return bool(column.primary_key) and column.name == "id"


def populate(store: Store, many: int) -> None:
    """A logbook with a bit of everything, and as many again of the same."""
    a_season(store)
    with store.engine.begin() as connection:
        tables = [each for each in Base.metadata.sorted_tables if each.name not in SHARED]
        rows = {
            each.name: [dict(row) for row in connection.execute(select(each)).mappings()]
            for each in tables
        }
        for table in tables:
            made = copies(table, rows[table.name], many, 1_000)
            while batch := list(islice(made, ROWS_AT_ONCE)):
                connection.execute(insert(table), batch)


def measure(path: str, many: int) -> dict[str, float]:
    """Queue the summaries of so many logbooks; seconds, summaries and the most memory (MB)."""
    store = open_store(path)
    monday = START + timedelta(days=2)
    begun, ran = time.perf_counter(), time.process_time()
    plan(store, monday)
    planned = time.perf_counter()
    while queue_some(store, monday) is not None:
        pass
    done, processor = time.perf_counter(), time.process_time() - ran
    with store.look() as session:
        queued = session.scalar(select(func.count()).select_from(OutboxRow)) or 0
    store.close()
    return {
        "logbooks": many,
        "plan": planned - begun,
        "seconds": done - begun,
        "processor": processor,
        "queued": queued,
        "memory": most_memory(),
    }


def most_memory() -> float:
    """The most memory that this process had, in MB.

    Linux's own count for the program that runs: that of `getrusage` is also of the one that
    started it (getrusage(2), notes: usage is preserved across an execve).
    """
    lines = Path("/proc/self/status").read_text(encoding="utf-8").splitlines()
    (kilobytes,) = [line.split()[1] for line in lines if line.startswith("VmHWM:")]
    return int(kilobytes) / 1000


def measured_apart(folder: Path, many: int) -> dict[str, float]:
    path = folder / f"{many}.db"
    store = open_store(path)
    populate(store, many)
    with store.engine.begin() as connection:
        connection.execute(OutboxRow.__table__.delete())  # type: ignore[attr-defined]
    store.close()
    done = subprocess.run(
        [sys.executable, "-m", "tests.bench.test_summaries", path, str(many)],
        check=True,
        capture_output=True,
        text=True,
    )
    found: dict[str, float] = json.loads(done.stdout)
    return found


def test_summaries_are_queued_faster_than_they_can_be_sent_in_flat_memory(
    tmp_path: Path, figures: Figures
) -> None:
    few, many = (measured_apart(tmp_path, each) for each in (FEW, MANY))
    print()
    for each in (few, many):
        print(
            f"{each['logbooks']:,.0f} logbooks: {each['queued']:,.0f} summaries queued in"
            f" {each['seconds']:,.1f} s ({each['seconds'] / each['queued'] * 1000:.1f} ms each,"
            f" {each['plan']:.1f} s of it planning, {each['processor']:,.1f} s of processor),"
            f" {each['memory']:,.0f} MB;"
            f" sending takes {each['queued'] / SENDS_A_SECOND:,.0f} s"
        )
        of = f"weekly summaries of {each['logbooks']:,.0f} logbooks"
        rate, least = each["queued"] / each["seconds"], f"more than {SENDS_A_SECOND}/s"
        figures.note(f"{of}: queued", rate, "/s", least)
        figures.note(f"{of}: most memory", each["memory"], "MB")
        figures.note(f"{of}: processor each", each["processor"] / each["queued"] * 1000, "ms")
        assert each["queued"] == each["logbooks"]
        assert each["queued"] / each["seconds"] > SENDS_A_SECOND
    print(f"memory {many['memory'] / few['memory']:.2f} times (at most {MORE_MEMORY})")
    assert many["memory"] <= MORE_MEMORY * few["memory"]


if __name__ == "__main__":
    print(json.dumps(measure(sys.argv[1], int(sys.argv[2]))))
