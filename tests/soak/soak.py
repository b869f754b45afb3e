"""Half an hour of life at once: four workers on PostgreSQL and one on SQLite, with faults.

Run as `python -m tests.soak.soak [MINUTES]`. Hundreds of chats text a bit of everything (see
traffic.py); networks refuse, put off and lose track (network.py); now and then a worker is killed
and started again, and each database is away for a second. Printed are the messages, what was
lost, double or logged as an error (ledger.py), the memory of every worker once warm and at the end,
and how long the oldest answer waited that could have been sent. What is out of its bounds makes
the run fail. Memory is read from /proc, so this needs Linux.
"""

from __future__ import annotations

import argparse
import asyncio
import os
import random
import signal
import sqlite3
import statistics
import sys
import tempfile
import time
from collections.abc import Iterator, Mapping
from contextlib import AsyncExitStack, ExitStack, contextmanager
from dataclasses import dataclass, field
from datetime import UTC, datetime
from pathlib import Path

from sqlalchemy import exists, func, select, update
from sqlalchemy.exc import DBAPIError
from sqlalchemy.orm import aliased

from bot.store import journal, outbox
from bot.store.database import Store, open_store
from bot.store.tables import MessageRow, OutboxRow, WeeklyRow
from tests.soak.ledger import Ledger
from tests.soak.network import FAULTS, NO_FAULTS, FarEnd
from tests.soak.traffic import Chat
from tests.soak.wire import KEYED, PLAIN
from tests.store import postgres

MOST_GROWTH = 0.05
MOST_AGE = 2.0
"""Seconds that an answer which can be sent may wait, but for injected outages."""

WARM = 1 / 2
"""The share of a run after which memory is taken to have found its level: a worker has then
handled well over a thousand messages, and used once whatever it loads only when it is needed.
"""

TENTHS = 10
"""Stretches of that time whose medians are told, so that growth can be told from noise."""

LAST_KILL = 1 / 6
"""The share of a run in which the only worker of a database is killed; it grows old after that."""

RECOVERY = 3.0
"""Seconds after an outage that count as part of it: the longest round and pause of a worker."""

BETWEEN_LOOKS = 0.25
BETWEEN_KILLS, BETWEEN_ABSENCES, BETWEEN_SUMMARIES = 40.0, 60.0, 10.0
AWAY = 1.0
SUMMARIES_AT_ONCE = 5
LONGEST_DRAIN = 60.0
SHOWN = 60
"""Of what went wrong, how much is printed."""

_FIRST, _BEFORE = aliased(OutboxRow), aliased(OutboxRow)
SENDABLE = select(_FIRST.id).where(
    _FIRST.state == outbox.QUEUED,
    ~exists().where(
        _BEFORE.state == outbox.QUEUED, _BEFORE.chat_id == _FIRST.chat_id, _BEFORE.id < _FIRST.id
    ),
)
"""The first waiting answer of each chat."""


@dataclass
class Ages:
    """How long answers that could be sent have waited, as seen at every look."""

    looks: list[float] = field(default_factory=list)
    """The age of the oldest at each look outside of outages."""
    _since: dict[int, float] = field(default_factory=dict)

    def look(self, sendable: list[int], *, outage: bool) -> None:
        now = time.monotonic()
        before = now - BETWEEN_LOOKS
        self._since = {key: self._since.get(key, before) for key in sendable}
        if not outage:
            self.looks.append(now - min(self._since.values(), default=now))

    def p99(self) -> float:
        return statistics.quantiles(self.looks, n=100)[98]


class Worker:
    """A worker process, and the memory that it had at each look since it was started."""

    def __init__(self, group: Group, number: int, log: Path) -> None:
        self.name = f"{group.kind} {number}"
        self.number = number
        self._group = group
        self.log = log
        self._process: asyncio.subprocess.Process | None = None
        self.born = 0.0
        self.ends = 0
        """How often it ended by itself."""
        self.memory: list[tuple[float, float]] = []
        """When, and how many MB."""

    async def start(self) -> None:
        self.ends += self.died and not self.could_not_open
        program = [sys.executable, "-m", "tests.soak.worker", self._group.address]
        with self.log.open("ab") as log:
            self._process = await asyncio.create_subprocess_exec(
                *program, str(self._group.socket), str(self.number), stderr=log
            )
        self.born = time.monotonic()
        self.memory = []

    async def kill(self) -> None:
        if self._process is not None and not self.died:
            self._process.send_signal(signal.SIGKILL)
            await self._process.wait()
            self._process = None

    @property
    def died(self) -> bool:
        """Whether it ended by itself."""
        return self._process is not None and self._process.returncode is not None

    @property
    def could_not_open(self) -> bool:
        """Whether it ended because the database was away as it started."""
        return self._process is not None and self._process.returncode == os.EX_TEMPFAIL

    def look(self) -> None:
        if self._process is not None and not self.died:
            pages = int(Path(f"/proc/{self._process.pid}/statm").read_text().split()[1])
            self.memory.append((time.monotonic(), pages * os.sysconf("SC_PAGE_SIZE") / 1e6))

    def grown(self, warm: float, end: float) -> tuple[float, float] | None:
        """Its memory once warm and at the end (MB), each the median of a tenth of the run.

        None where it was started after it should have been warm.
        """
        tenths = self.tenths(warm, end)
        if self.born > warm - (end - warm) / 10 or len(tenths) < TENTHS:
            return None
        return tenths[0], tenths[-1]

    def tenths(self, warm: float, end: float) -> list[float]:
        """The median of its memory (MB) in each tenth of the run from when it should be warm on."""
        span = (end - warm) / TENTHS
        looks: list[list[float]] = [[] for _ in range(TENTHS)]
        for at, size in self.memory:
            if at >= warm:
                looks[min(int((at - warm) / span), TENTHS - 1)].append(size)
        return [statistics.median(each) for each in looks if each]


class Group:
    """The workers on one database, their networks and their chats."""

    def __init__(
        self,
        kind: str,
        address: str,
        folder: Path,
        workers: int,
        chats: int,
        faults: Mapping[str, float] = NO_FAULTS,
    ) -> None:
        self.kind = kind
        self.address = address
        self.socket = folder / f"{kind}.socket"
        began = datetime.now(UTC)
        self.ledger = Ledger(
            [Chat((KEYED, PLAIN)[number % 2], number, began) for number in range(chats)]
        )
        self.ages = Ages()
        self.chance = random.Random(kind)
        self.far = FarEnd(self.ledger, self.chance, faults)
        self.workers = [
            Worker(self, number, folder / f"{kind}-{number}.log") for number in range(workers)
        ]
        self.store: Store = open_store(address)
        self._outage_until = 0.0

    @property
    def outage(self) -> bool:
        return time.monotonic() < self._outage_until

    @contextmanager
    def an_outage(self) -> Iterator[None]:
        self._outage_until = float("inf")
        try:
            yield
        finally:
            self._outage_until = time.monotonic() + RECOVERY

    def errors(self) -> list[str]:
        """Lines of the workers' logs that tell of an error: those that are no line of the log,
        too, as a traceback's are.
        """
        return [
            f"{worker.name}: {line}"
            for worker in self.workers
            for line in worker.log.read_text(encoding="utf-8").splitlines()
            if not line.startswith("timestamp=") or " level=warning " not in line
        ]

    def look(self) -> None:
        for worker in self.workers:
            worker.look()
        try:
            with self.store.look() as session:
                now = datetime.now(UTC)
                sendable = session.scalars(SENDABLE.where(_FIRST.due_at <= now)).all()
        except DBAPIError:
            if not self.outage:
                raise
        else:
            self.ages.look(list(sendable), outage=self.outage)

    def drained(self) -> bool:
        """Whether nothing waits to be handled, queued or sent."""
        with self.store.look() as session:
            waiting, _ = outbox.waiting(session)
            unhandled = session.scalar(
                select(func.count()).where(MessageRow.state == journal.WAITING)
            )
            due = session.scalar(select(func.count()).where(WeeklyRow.due_at <= datetime.now(UTC)))
        return not waiting and not unhandled and not due

    def make_due(self) -> None:
        """Some weekly summaries are due now, of chats that have told enough for one."""
        chats = [each for each in self.ledger.chats if len(each.odometers) > 2]
        chosen = self.chance.sample(chats, min(SUMMARIES_AT_ONCE, len(chats)))
        now = datetime.now(UTC)
        with self.store.work() as session:
            books = [
                row.logbook_id
                for each in chosen
                if (row := journal.chat_of(session, each.network, each.name)) is not None
            ]
            # One that is due still counts once.
            changed = session.scalars(
                update(WeeklyRow)
                .where(WeeklyRow.logbook_id.in_(books), WeeklyRow.due_at > now)
                .values(due_at=now)
                .returning(WeeklyRow.logbook_id)
            ).all()
            session.commit()
        self.ledger.summaries.update(changed)


class Soak:
    """A run: its groups, and what is done to them until it ends."""

    def __init__(self, server: postgres.Server, folder: Path, minutes: float, rate: float) -> None:
        self._server = server
        server.create("soak", postgres.TEMPLATE)
        self.on_postgres = Group(
            "postgresql", server.address("soak"), folder, workers=4, chats=200, faults=FAULTS
        )
        self.on_sqlite = Group(
            "sqlite", f"sqlite:///{folder / 'soak.db'}", folder, workers=1, chats=50, faults=FAULTS
        )
        self.groups = (self.on_postgres, self.on_sqlite)
        self._pause_of_a_chat = len(self.on_postgres.ledger.chats) / rate
        self._seconds = minutes * 60
        self._warm = self._end = 0.0

    async def run(self) -> bool:
        """Whether all stayed within its bounds."""
        async with AsyncExitStack() as stack:
            for group in self.groups:
                await stack.enter_async_context(
                    await asyncio.start_unix_server(group.far.connected, group.socket)
                )
                for worker in group.workers:
                    await worker.start()
                    stack.push_async_callback(worker.kill)
                await group.far.all_connected(len(group.workers))
            began = time.monotonic()
            self._warm, self._end = began + WARM * self._seconds, began + self._seconds
            looking = asyncio.create_task(self._keep_looking())
            async with asyncio.TaskGroup() as life:
                for group in self.groups:
                    for chat in group.ledger.chats:
                        life.create_task(self._live(group, chat))
                    life.create_task(self._summaries(group))
                life.create_task(self._supervise())
                life.create_task(self._kill_one_of_four())
                life.create_task(self._kill_the_only_one())
                life.create_task(self._postgres_away())
                life.create_task(self._sqlite_locked())
            drained = [await self._drain(group) for group in self.groups]
            looking.cancel()
            await asyncio.wait({looking})
            return self._report(drained)

    def _left(self) -> float:
        return self._end - time.monotonic()

    async def _live(self, group: Group, chat: Chat) -> None:
        """A chat tells one thing after the other: the next once the last was taken."""
        pause = self._pause_of_a_chat
        await self._pause(group.chance.uniform(0, pause))
        while self._left() > 0:
            await group.far.give(chat.network, chat.next())
            await self._pause(group.chance.expovariate(1 / pause))

    async def _now_and_then(self, seconds: float, group: Group) -> bool:
        """Wait about so long; whether the run still goes on after that."""
        await self._pause(seconds * group.chance.uniform(0.5, 1.5))
        return self._left() > 0

    async def _pause(self, seconds: float) -> None:
        await asyncio.sleep(min(seconds, max(self._left(), 0)))

    async def _summaries(self, group: Group) -> None:
        while await self._now_and_then(BETWEEN_SUMMARIES, group):
            if not group.outage:
                await asyncio.to_thread(group.make_due)

    async def _supervise(self) -> None:
        """Start again what could not open its database, as a supervisor does after a while."""
        while self._left() > 0:
            for group in self.groups:
                for worker in group.workers:
                    if worker.could_not_open:
                        group.ledger.notes["started while away"] += 1
                        await worker.start()
            await self._pause(RECOVERY)

    async def _kill_one_of_four(self) -> None:
        """The others go on, so that this is no outage; two are left to grow old."""
        group = self.on_postgres
        while await self._now_and_then(BETWEEN_KILLS, group):
            await self._restart(group, group.chance.choice(group.workers[2:]))

    async def _kill_the_only_one(self) -> None:
        group = self.on_sqlite
        while await self._now_and_then(BETWEEN_KILLS, group):
            if self._left() < (1 - LAST_KILL) * self._seconds:
                return
            with group.an_outage():
                await self._restart(group, group.workers[0])
                await group.far.all_connected(1)

    async def _restart(self, group: Group, worker: Worker) -> None:
        await worker.kill()
        group.ledger.notes["killed"] += 1
        await worker.start()

    async def _postgres_away(self) -> None:
        group = self.on_postgres
        while await self._now_and_then(BETWEEN_ABSENCES, group):
            group.far.cut()
            with group.an_outage():
                await asyncio.to_thread(self._close_postgres)
                await asyncio.sleep(AWAY)
                await asyncio.to_thread(
                    self._server.run, "ALTER DATABASE soak ALLOW_CONNECTIONS true"
                )
            group.far.cut()
            group.ledger.notes["database away"] += 1

    def _close_postgres(self) -> None:
        self._server.run("ALTER DATABASE soak ALLOW_CONNECTIONS false")
        self._server.run(
            "SELECT pg_terminate_backend(pid) FROM pg_stat_activity WHERE datname = 'soak'"
        )

    async def _sqlite_locked(self) -> None:
        group = self.on_sqlite
        while await self._now_and_then(BETWEEN_ABSENCES, group):
            with group.an_outage():
                await asyncio.to_thread(self._lock_sqlite)
            group.ledger.notes["database away"] += 1

    def _lock_sqlite(self) -> None:
        connection = sqlite3.connect(self.on_sqlite.address.removeprefix("sqlite:///"), timeout=30)
        connection.execute("BEGIN IMMEDIATE")
        time.sleep(AWAY)
        connection.rollback()
        connection.close()

    async def _keep_looking(self) -> None:
        while True:
            for group in self.groups:
                await asyncio.to_thread(group.look)
            await asyncio.sleep(BETWEEN_LOOKS)

    async def _drain(self, group: Group) -> bool:
        """Whether all that waits is seen to soon after the last was told."""
        give_up = time.monotonic() + LONGEST_DRAIN
        while time.monotonic() < give_up:
            if await asyncio.to_thread(group.drained):
                return True
            await asyncio.sleep(BETWEEN_LOOKS)
        return False

    def _report(self, drained: list[bool]) -> bool:
        within = [all(drained)]
        for group in self.groups:
            ledger = group.ledger
            faults = ", ".join(f"{name} {count}" for name, count in sorted(ledger.notes.items()))
            told = f"{ledger.events:,} events taken ({ledger.events / self._seconds:.1f}/s)"
            shown = f"{sum(map(len, ledger.shown.values())):,} answers shown"
            summaries = f"{sum(ledger.summaries.values()):,} of them summaries"
            print(f"{group.kind}: {len(group.workers)} workers, {len(ledger.chats)} chats")
            print(f"  {told}, {shown}, {summaries}")
            print(f"  injected: {faults}")
            never = {
                "errors": group.errors(),
                "lost": ledger.lost(group.store),
                "double": ledger.double(group.store),
                "ended by themselves": [
                    each.name for each in group.workers if each.died or each.ends
                ],
            }
            for name, found in never.items():
                print(f"  {name}: {len(found)} (limit 0)")
                for each in found[:SHOWN]:
                    print(f"    {each[:300]}")
                within.append(not found)
            print(f"  shown again after a fault: {len(ledger.repeated)}")
            within.append(self._report_ages(group.ages))
            within += [self._report_memory(each) for each in group.workers]
        print(f"load of the machine at the end: {os.getloadavg()[2]:.1f}, {os.cpu_count()} cores")
        return all(within)

    def _report_ages(self, ages: Ages) -> bool:
        most = max(ages.looks)
        print(
            f"  oldest answer that can be sent: p99 {ages.p99():.2f} s, most {most:.2f} s"
            f" (limit {MOST_AGE:.0f} s) at {len(ages.looks):,} looks,"
            f" {sum(each >= MOST_AGE for each in ages.looks)} beyond it"
        )
        return most < MOST_AGE

    def _report_memory(self, worker: Worker) -> bool:
        grown = worker.grown(self._warm, self._end)
        if grown is None:
            return True
        first, last = grown
        print(
            f"  memory of {worker.name}: {first:.1f} MB once warm, {last:.1f} MB at the end,"
            f" {last / first - 1:+.1%} (limit {MOST_GROWTH:+.0%})"
        )
        tenths = worker.tenths(self._warm, self._end)
        print(f"    by tenths: {' '.join(f'{each:.0f}' for each in tenths)} MB")
        return last <= first * (1 + MOST_GROWTH)


def main() -> None:
    parser = argparse.ArgumentParser(description="Half an hour of life at once, with faults.")
    parser.add_argument("minutes", type=float, nargs="?", default=30)
    parser.add_argument("--rate", type=float, default=8, help="events a second on PostgreSQL")
    chosen = parser.parse_args()
    with ExitStack() as stack:
        folder = Path(stack.enter_context(tempfile.TemporaryDirectory(prefix="drawbar-soak-")))
        server = stack.enter_context(postgres.running())
        within = asyncio.run(Soak(server, folder, chosen.minutes, chosen.rate).run())
    print("all within bounds" if within else "out of bounds")
    sys.exit(not within)


if __name__ == "__main__":
    main()
