"""A worker of the soak: the whole of Drawbar as it is served, between two networks of the ground.

Run as `python -m tests.soak.worker ADDRESS SOCKET NUMBER`. Everything is real but the far end
of the networks and the eyes: a photo's bytes are its lines.
"""

from __future__ import annotations

import asyncio
import itertools
import logging
import os
import sys
from asyncio import Future, StreamWriter

from bot.logs import log_to
from bot.messages import Host, Letter, NotSent, Outcome
from bot.settings import Settings
from bot.sight import NotRead
from bot.store.database import DatabaseTrouble
from bot.wiring import drawbar
from tests.soak.wire import KEYED, PLAIN, Fate, Given, Hello, Sent, Taken, hear, say
from tests.store.logbooks import HOME


class FarNetwork:
    """A network whose far end is the ground."""

    def __init__(self, name: str, path: str, worker: int) -> None:
        self.name = name
        self.once_by_key = name == KEYED
        self._path = path
        self._worker = worker
        self._writer: StreamWriter | None = None
        self._numbers = itertools.count()
        self._sent: dict[int, Future[Outcome]] = {}

    async def run(self, host: Host) -> None:
        reader, self._writer = await asyncio.open_unix_connection(self._path)
        say(self._writer, Hello(self._worker, self.name))
        async with asyncio.TaskGroup() as taking:
            while True:
                told = await hear(reader)
                if isinstance(told, Given):
                    taking.create_task(self._take(host, self._writer, told))
                elif isinstance(told, Fate):
                    self._sent.pop(told.number).set_result(told.outcome)

    async def _take(self, host: Host, writer: StreamWriter, given: Given) -> None:
        await host.take(given.event)
        say(writer, Taken(given.number))

    async def send(self, letter: Letter) -> Outcome:
        if self._writer is None:
            return NotSent("not connected yet")
        number = next(self._numbers)
        fate: Future[Outcome] = asyncio.get_running_loop().create_future()
        self._sent[number] = fate
        say(self._writer, Sent(number, letter.chat, letter.key))
        return await fate

    async def fetch(self, reference: str, most: int) -> bytes:
        return reference.encode()[:most]

    def about(self) -> str:
        return f"the ground's {self.name} network"


class Lines:
    """Eyes for photos that are their own lines."""

    async def read(
        self, picture: bytes, caption: str = "", language: str = "en"
    ) -> tuple[str, bool]:
        text = picture.decode()
        if not text:
            raise NotRead("No ticket.", worth_telling=False)
        return "\n".join(part for part in (caption, text) if part), "unsure" not in caption


async def work(address: str, path: str, number: int) -> None:
    wanted = Settings(database=address, preferences=HOME, open_to_all=True)
    networks = [FarNetwork(name, path, number) for name in (KEYED, PLAIN)]
    async with drawbar(wanted, (), networks, Lines()) as running:
        await running.serve()


def main() -> None:
    address, path, number = sys.argv[1:]
    log_to(sys.stderr, logging.WARNING)
    try:
        asyncio.run(work(address, path, int(number)))
    except DatabaseTrouble:
        # `drawbar serve` says so in a sentence and ends; what supervises it starts it again.
        sys.exit(os.EX_TEMPFAIL)


if __name__ == "__main__":
    main()
