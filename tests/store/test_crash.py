"""Workers are killed at random moments: nothing is lost, nothing is kept twice, all is answered.

The test plays two networks. On the one a repeat under the same key is shown once, as on Matrix;
the other shows whatever it is sent, as Telegram does. An event that was not reported as taken
comes again, as networks do. `make crash` runs the full number of messages and kills.
"""

from __future__ import annotations

import json
import os
import random
import selectors
import signal
import socket
import subprocess
import sys
import time
from collections import Counter, defaultdict, deque
from collections.abc import Iterator
from contextlib import contextmanager, suppress
from dataclasses import dataclass, field
from datetime import timedelta
from pathlib import Path
from typing import Any

import pytest
from sqlalchemy import select

from bot.store import journal, standing
from bot.store.database import Store
from bot.store.tables import ChatRow, MessageRow, OutboxRow
from domain.entries import Odometer
from tests.store.crash_worker import ONCE, PLAIN
from tests.store.logbooks import START

CHATS = tuple((network, f"{network}-{n}") for network in (ONCE, PLAIN) for n in range(4))
PATIENCE = 120.0
Told = dict[str, Any]


def feed(messages: int, chance: random.Random) -> dict[tuple[str, str], deque[Told]]:
    """What each chat tells, in the order in which its network hands it over."""
    lines: dict[tuple[str, str], list[Told]] = {chat: [] for chat in CHATS}
    for number in range(messages):
        network, chat = CHATS[number % len(CHATS)]
        told: Told = {
            "network": network,
            "chat": chat,
            "id": f"m{number}",
            "sent": number,
            "text": f"odo {100_000 + number}",
            "edit": None,
        }
        line = lines[network, chat]
        line.append(told)
        if chance.random() < 0.1:
            # Late: it was sent before what stands in front of it now.
            line[-3:] = [line[-1], *line[-3:-1]]
        if chance.random() < 0.15:
            edits = [
                {
                    **told,
                    "text": f"odo {500_000 + number + 10_000 * nth}",
                    "edit": (START + timedelta(seconds=number, minutes=nth)).isoformat(),
                }
                for nth in (1, 2)[: chance.choice((1, 2))]
            ]
            chance.shuffle(edits)
            line += edits
        if chance.random() < 0.1:
            line.append(chance.choice(line[-4:]))
    return {chat: deque(told) for chat, told in lines.items()}


@dataclass
class Seen:
    """What the two networks were sent, and what happened to the workers."""

    shown: dict[tuple[str, str], list[str]] = field(default_factory=lambda: defaultdict(list))
    """The keys that each chat shows, in order."""
    kills: int = 0
    took: float = 0.0
    longest_pause: float = 0.0
    """The longest time after a kill until any worker reported again."""


@dataclass
class Worker:
    """A running worker: its connection, what it was given, and after how many lines it dies."""

    pid: int
    connection: socket.socket | None = None
    buffer: bytes = b""
    given: Told | None = None
    lines_left: int = -1
    idle: bool = False


class Ground:
    """The far end of both networks, and the hand that kills."""

    def __init__(
        self,
        lines: dict[tuple[str, str], deque[Told]],
        kills: int,
        nursery: subprocess.Popen[str],
        listener: socket.socket,
        chance: random.Random,
    ) -> None:
        self.lines = lines
        self.seen = Seen()
        self._kills = kills
        self._nursery = nursery
        self._listener = listener
        self._chance = chance
        self._workers: dict[int, Worker] = {}
        self._busy: set[tuple[str, str]] = set()
        self._next = 0
        told = sum(len(line) for line in lines.values())
        # Each event makes about three lines (ready, taken, sent); some are left at the end.
        self._between = max(2, 5 * told // (2 * (kills + 4)))
        self._selector = selectors.DefaultSelector()
        self._selector.register(listener, selectors.EVENT_READ)
        self._killed_at: float | None = None

    def run(self, workers: int) -> Seen:
        began = time.monotonic()
        for _ in range(workers):
            self._start()
        while not self._done():
            ready = self._selector.select(timeout=PATIENCE)
            assert ready, "the workers stand still"
            for key, _ in ready:
                if key.fileobj is self._listener:
                    self._accept()
                else:
                    self._hear(key.data)
        self.seen.took = time.monotonic() - began
        for worker in list(self._workers.values()):
            self._end(worker)
        return self.seen

    def _done(self) -> bool:
        return (
            not any(self.lines.values())
            and not self._busy
            and all(worker.idle and worker.given is None for worker in self._workers.values())
            and self._finished
        )

    _finished = False

    def _start(self) -> None:
        assert self._nursery.stdin is not None
        assert self._nursery.stdout is not None
        self._nursery.stdin.write(f"{self._next}\n")
        self._nursery.stdin.flush()
        number, pid = self._nursery.stdout.readline().split()
        worker = Worker(int(pid))
        if self.seen.kills < self._kills:
            worker.lines_left = self._chance.randrange(2 * self._between)
        self._workers[int(number)] = worker
        self._next += 1

    def _accept(self) -> None:
        connection, _ = self._listener.accept()
        line = connection.makefile("r").readline()
        if not line:
            connection.close()
            return
        worker = self._workers.get(json.loads(line)["worker"])
        if worker is None:
            connection.close()
            return
        worker.connection = connection
        self._selector.register(connection, selectors.EVENT_READ, worker)

    def _hear(self, worker: Worker) -> None:
        assert worker.connection is not None
        try:
            data = worker.connection.recv(65536)
        except ConnectionResetError:
            data = b""
        if not data:
            raise AssertionError("a worker ended by itself")
        worker.buffer += data
        while b"\n" in worker.buffer:
            line, worker.buffer = worker.buffer.split(b"\n", 1)
            if self._killed_at is not None:
                pause = time.monotonic() - self._killed_at
                self.seen.longest_pause = max(self.seen.longest_pause, pause)
                self._killed_at = None
            if worker.lines_left == 0 and self.seen.kills < self._kills:
                self._kill(worker, json.loads(line))
                return
            worker.lines_left -= 1
            self._answer(worker, json.loads(line))

    def _answer(self, worker: Worker, said: Told) -> None:
        if "send" in said:
            self._show(said)
            self._say(worker, ok=True)
        elif "taken" in said:
            self._taken(worker)
        elif "finished" in said:
            self._finished = True
        elif "ready" in said:
            worker.idle = True
            self._give_all()

    def _show(self, said: Told) -> None:
        shown = self.seen.shown[said["network"], said["chat"]]
        if said["network"] != ONCE or said["send"] not in shown:
            shown.append(said["send"])

    def _taken(self, worker: Worker) -> None:
        if worker.given is not None:
            chat = worker.given["network"], worker.given["chat"]
            self.lines[chat].popleft()
            self._busy.discard(chat)
            worker.given = None
        self._give_all()

    def _give_all(self) -> None:
        for worker in self._workers.values():
            if not worker.idle or worker.connection is None:
                continue
            free = [chat for chat, line in self.lines.items() if line and chat not in self._busy]
            if free:
                chat = self._chance.choice(free)
                worker.given = self.lines[chat][0]
                self._busy.add(chat)
                worker.idle = False
                self._say(worker, **worker.given, number=0)
            elif not any(self.lines.values()) and not self._finished:
                worker.idle = False
                self._say(worker, finish=True)

    def _say(self, worker: Worker, **what: object) -> None:
        assert worker.connection is not None
        with suppress(BrokenPipeError):
            worker.connection.sendall(json.dumps(what).encode() + b"\n")

    def _kill(self, worker: Worker, said: Told) -> None:
        """Kill a worker at a random moment from now; half of the time its last line counts."""
        if self._chance.random() < 0.5:
            self._answer(worker, said)
            time.sleep(self._chance.random() * 0.02)
        self._end(worker)
        self.seen.kills += 1
        self._killed_at = time.monotonic()
        if worker.given is not None:
            self._busy.discard((worker.given["network"], worker.given["chat"]))
        self._start()
        self._give_all()

    def _end(self, worker: Worker) -> None:
        os.kill(worker.pid, signal.SIGKILL)
        if worker.connection is not None:
            self._selector.unregister(worker.connection)
            worker.connection.close()
        self._workers = {n: each for n, each in self._workers.items() if each is not worker}


@contextmanager
def nursery(address: str, folder: Path) -> Iterator[tuple[subprocess.Popen[str], socket.socket]]:
    """The process that workers are forked from, and the socket that they come to."""
    path = str(folder / "ground")
    with socket.socket(socket.AF_UNIX) as listener:
        listener.bind(path)
        listener.listen(16)
        program = [sys.executable, "-m", "tests.store.crash_worker", address, path]
        with subprocess.Popen(
            program, stdin=subprocess.PIPE, stdout=subprocess.PIPE, text=True, cwd=os.getcwd()
        ) as process:
            yield process, listener
            process.kill()


def crash(
    address: str, folder: Path, messages: int, kills: int, workers: int = 1
) -> tuple[Seen, dict[tuple[str, str], list[Told]]]:
    chance = random.Random(f"{messages} {kills} {workers}")
    lines = feed(messages, chance)
    told = {chat: list(line) for chat, line in lines.items()}
    with nursery(address, folder) as (process, listener):
        return Ground(lines, kills, process, listener, chance).run(workers), told


def expected(told: list[Told]) -> list[float]:
    """What a chat's logbook should say: each message once, by its latest edit."""
    says: dict[str, tuple[str, str]] = {}
    for each in told:
        edit = each["edit"] or ""
        if each["id"] not in says or edit >= says[each["id"]][0]:
            says[each["id"]] = edit, each["text"]
    return sorted(float(text.removeprefix("odo ")) for _, text in says.values())


def check(store: Store, seen: Seen, told: dict[tuple[str, str], list[Told]]) -> None:
    duplicates = Counter[str]()
    answers = 0
    with store.look() as session:
        for (network, chat), line in told.items():
            row = journal.chat_of(session, network, chat)
            assert row is not None
            entries = [each.entry for each in standing.log(session, row.logbook_id)]
            figures = [each.odometer.value for each in entries if isinstance(each, Odometer)]
            assert sorted(figures) == expected(line), "no message lost, no entry twice"
            journalled = session.scalars(
                select(MessageRow.message)
                .where(MessageRow.chat_id == row.id)
                .order_by(MessageRow.id)
            ).all()
            names = [
                f"{each['id']} {each['edit']}" if each["edit"] else each["id"] for each in line
            ]
            assert journalled == list(dict.fromkeys(names)), "in the order of arrival"
            queued = [
                (f"drawbar-{key}", message)
                for key, message in session.execute(
                    select(OutboxRow.id, OutboxRow.message_id)
                    .where(OutboxRow.chat_id == row.id)
                    .order_by(OutboxRow.id)
                )
            ]
            messages = [message or 0 for _, message in queued]
            assert messages == sorted(set(messages)), "one answer each, in the order of messages"
            shown = seen.shown[network, chat]
            first = list(dict.fromkeys(shown))
            assert first == [key for key, _ in queued], "every answer shown, in order"
            assert len(shown) - len(first) <= seen.kills, "one answer a chat is under way"
            duplicates[network] += len(shown) - len(first)
            answers += len(first)
        states = set(session.scalars(select(MessageRow.state)))
        unsent = set(session.scalars(select(OutboxRow.state)))
        chats = len(session.scalars(select(ChatRow.id)).all())
    assert (states, unsent, chats) == ({"handled"}, {"sent"}, len(CHATS))
    assert duplicates[ONCE] == 0
    assert duplicates[PLAIN] <= seen.kills, "a kill in all costs no more than one answer"
    events = sum(len(line) for line in told.values())
    print(
        f"{events} events, {answers} answers, {seen.kills} kills in {seen.took:.1f} s:"
        f" 0 lost, 0 kept twice, shown twice {duplicates[PLAIN]} after {seen.kills} kills on"
        f" the plain network and {duplicates[ONCE]} on the one with keys;"
        f" at most {seen.longest_pause:.2f} s until work went on"
    )


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    return tmp_path


def test_nothing_is_lost_or_kept_twice_when_a_worker_is_killed_again_and_again(
    address: str, store: Store, folder: Path
) -> None:
    seen, told = crash(address, folder, messages=64, kills=15)
    assert seen.kills == 15
    check(store, seen, told)


@pytest.mark.parametrize("kind", ["postgresql"])
@pytest.mark.parametrize("workers", [2, 4])
def test_several_workers_of_which_some_are_killed_keep_the_order_in_each_chat(
    address: str, store: Store, folder: Path, workers: int
) -> None:
    seen, told = crash(address, folder, messages=48, kills=5, workers=workers)
    assert seen.kills == 5
    check(store, seen, told)


@pytest.mark.long
def test_a_thousand_messages_and_a_hundred_kills(address: str, store: Store, folder: Path) -> None:
    seen, told = crash(address, folder, messages=1000, kills=100)
    assert seen.kills == 100
    check(store, seen, told)


@pytest.mark.long
@pytest.mark.parametrize("kind", ["postgresql"])
@pytest.mark.parametrize("workers", [2, 4])
def test_a_thousand_messages_and_a_hundred_kills_among_several_workers(
    address: str, store: Store, folder: Path, workers: int
) -> None:
    seen, told = crash(address, folder, messages=1000, kills=100, workers=workers)
    assert seen.kills == 100
    check(store, seen, told)
