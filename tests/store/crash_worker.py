"""A worker that the crash tests start and kill.

Run as a program it imports everything once and then forks a worker for each line on its
standard input (a number, which goes back with the new process's id), so that a start costs no
more than opening the database. A worker takes events from the test's socket, one at a time,
through the real conversation and delivery, and says when each is in the log; what it sends goes
over the same socket, and waits until the test, which plays both networks, has it.
"""

from __future__ import annotations

import asyncio
import json
import os
import signal
import socket
import sys
from concurrent.futures import ThreadPoolExecutor
from datetime import datetime, timedelta
from typing import Any

from bot.delivery import Delivery
from bot.intake import Intake
from bot.messages import Delivered, Edited, Event, Letter, Message, Network, Outcome
from bot.store import outbox
from bot.store.database import Store, open_store
from bot.wiring import now
from tests.store.logbooks import START, Scripted, conversation

ONCE, PLAIN = "once", "plain"
"""The network that knows its keys again, and the one that does not."""


class Wire:
    """The socket to the test: lines of JSON, one question or report at a time."""

    def __init__(self, path: str) -> None:
        self._socket = socket.socket(socket.AF_UNIX)
        self._socket.connect(path)
        self._lines = self._socket.makefile("r", encoding="utf-8")

    def say(self, **what: object) -> None:
        self._socket.sendall(json.dumps(what).encode() + b"\n")

    def hear(self) -> dict[str, Any]:
        line = self._lines.readline()
        if not line:
            os._exit(0)
        heard: dict[str, Any] = json.loads(line)
        return heard


class FarNetwork:
    """A network whose far end is the test."""

    def __init__(self, name: str, wire: Wire) -> None:
        self.name = name
        self.once_by_key = name == ONCE
        self._wire = wire
        self._busy = asyncio.Lock()

    async def send(self, letter: Letter) -> Outcome:
        async with self._busy:
            self._wire.say(
                send=letter.key,
                network=self.name,
                chat=letter.chat,
                text=letter.answer.headline,
            )
            self._wire.hear()
        return Delivered()


def event_of(told: dict[str, Any]) -> Event:
    message = Message(
        network=told["network"],
        chat=told["chat"],
        id=told["id"],
        author="ana",
        name="Ana",
        sent_at=START + timedelta(seconds=told["sent"]),
        text=told["text"],
    )
    if told["edit"] is None:
        return message
    at = datetime.fromisoformat(told["edit"])
    return Edited(message=message, id=told["edit"], at=at)


def waits(store: Store) -> bool:
    with store.look() as session:
        return outbox.waiting(session)[0] > 0


async def work(address: str, path: str, number: int) -> None:
    wire = Wire(path)
    wire.say(worker=number)
    store = open_store(address)
    talk = conversation(store, Scripted())
    with ThreadPoolExecutor(1) as pool:
        networks: dict[str, Network] = {name: FarNetwork(name, wire) for name in (ONCE, PLAIN)}
        intake = Intake(talk, networks, pool)
        delivery = Delivery(store, networks, now, pool)
        talk.resume(wait=False)
        await delivery.deliver()
        while True:
            wire.say(ready=True)
            told = wire.hear()
            if told.get("finish"):
                talk.resume()
                # The server may take a moment to see that a killed worker's claims are gone.
                while waits(store):
                    await delivery.deliver()
                wire.say(finished=True)
                continue
            await intake.take(event_of(told))
            wire.say(taken=told["number"])
            await delivery.deliver()


def main() -> None:
    address, path = sys.argv[1:]
    signal.signal(signal.SIGCHLD, signal.SIG_IGN)
    for line in sys.stdin:
        child = os.fork()
        if not child:
            signal.signal(signal.SIGCHLD, signal.SIG_DFL)
            try:
                asyncio.run(work(address, path, int(line)))
            finally:
                os._exit(1)
        print(line.strip(), child, flush=True)


if __name__ == "__main__":
    main()
