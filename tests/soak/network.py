"""The far end of the soak's networks: it hands events to workers, and decides what arrives.

Most answers arrive after some tenths of a second. A few are refused, put off with a wait or
without, or end with nobody knowing whether they arrived.
"""

from __future__ import annotations

import asyncio
import itertools
import random
from asyncio import Future, StreamReader, StreamWriter
from collections import defaultdict, deque
from collections.abc import Mapping
from dataclasses import dataclass, field
from datetime import timedelta

from bot.messages import Delivered, Event, NotSent, Outcome, Refused, Unknown
from tests.soak.ledger import Ledger
from tests.soak.wire import Fate, Given, Hello, Sent, Taken, hear, say

LATENCY = 0.02, 0.2
"""Seconds that a network takes for an answer, from and to."""

JUST_NOW = 5.0
"""Seconds within which an answer that arrived may not have been noted yet."""

WAIT = timedelta(seconds=0.5)
NO_FAULTS: Mapping[str, float] = {}
FAULTS: Mapping[str, float] = {
    "refused": 0.004, "not sent": 0.01, "wait asked": 0.01, "arrived or not": 0.01,
}  # fmt: skip
"""The share of sends that end so."""


@dataclass
class Link:
    """A worker's connection as one network."""

    worker: int
    writer: StreamWriter
    given: dict[int, Future[bool]] = field(default_factory=dict)
    """Events that it was given, and whether each was taken: False once the worker is dead."""
    under_way: set[str] = field(default_factory=set)
    arrived: deque[tuple[float, str]] = field(default_factory=lambda: deque(maxlen=200))


class FarEnd:
    """Both networks of the workers on one database."""

    def __init__(self, ledger: Ledger, chance: random.Random, faults: Mapping[str, float]) -> None:
        self.ledger = ledger
        self._chance = chance
        self._faults = ["", *faults]
        self._shares = [1 - sum(faults.values()), *faults.values()]
        self._links: dict[str, dict[int, Link]] = defaultdict(dict)
        self._numbers = itertools.count()
        self._sending: set[asyncio.Task[None]] = set()
        self._came = asyncio.Event()

    async def connected(self, reader: StreamReader, writer: StreamWriter) -> None:
        """A worker's network has come; until it goes."""
        hello = await hear(reader)
        assert isinstance(hello, Hello)
        link = Link(hello.worker, writer)
        self._links[hello.network][hello.worker] = link
        self._came.set()
        try:
            while True:
                told = await hear(reader)
                if isinstance(told, Taken):
                    taken = link.given.pop(told.number)
                    # Whoever gave it may have gone home.
                    if not taken.done():
                        taken.set_result(True)
                elif isinstance(told, Sent):
                    sending = asyncio.create_task(self._arrive(hello.network, link, told))
                    self._sending.add(sending)
                    sending.add_done_callback(self._sending.discard)
        except (asyncio.IncompleteReadError, ConnectionError):
            self._gone(hello.network, link)
        finally:
            writer.close()

    async def give(self, network: str, event: Event) -> None:
        """Hand an event to some worker, and to another where that one dies, until it is taken."""
        self.ledger.events += 1
        while True:
            links = list(self._links[network].values())
            if not links:
                self._came.clear()
                await self._came.wait()
                continue
            link = self._chance.choice(links)
            number = next(self._numbers)
            taken = link.given[number] = asyncio.get_running_loop().create_future()
            say(link.writer, Given(number, event))
            if await taken:
                return
            self.ledger.notes["given again"] += 1

    async def all_connected(self, workers: int) -> None:
        """Until every worker has come on both networks."""
        while len(self._links) < 2 or any(len(each) < workers for each in self._links.values()):
            self._came.clear()
            await self._came.wait()

    def cut(self) -> None:
        """The database is away: what is on its way or just arrived may be sent again."""
        for link in [link for links in self._links.values() for link in links.values()]:
            self._cut(link)

    def _cut(self, link: Link) -> None:
        now = asyncio.get_running_loop().time()
        self.ledger.cut_off |= link.under_way
        self.ledger.cut_off |= {key for at, key in link.arrived if now - at < JUST_NOW}

    def _gone(self, network: str, link: Link) -> None:
        """A worker's connection ended: all that it said was heard, and it notes no more."""
        self._cut(link)
        if self._links[network].get(link.worker) is link:
            del self._links[network][link.worker]
        for each in link.given.values():
            if not each.done():
                each.set_result(False)

    async def _arrive(self, network: str, link: Link, sent: Sent) -> None:
        link.under_way.add(sent.key)
        await asyncio.sleep(self._chance.uniform(*LATENCY))
        (fault,) = self._chance.choices(self._faults, self._shares)
        if sent.key.startswith("drawbar-aside"):
            fault = ""
        if fault:
            self.ledger.notes[fault] += 1
        if not fault or (fault == "arrived or not" and self._chance.random() < 0.5):
            self.ledger.show(network, sent.chat, sent.key)
        link.under_way.discard(sent.key)
        link.arrived.append((asyncio.get_running_loop().time(), sent.key))
        say(link.writer, Fate(sent.number, self._outcome(fault, sent.key)))

    def _outcome(self, fault: str, key: str) -> Outcome:
        match fault:
            case "refused":
                self.ledger.refused.add(key)
                return Refused("the ground refuses it")
            case "not sent":
                return NotSent("the ground did not take it")
            case "wait asked":
                return NotSent("the ground wants fewer", WAIT)
            case "arrived or not":
                self.ledger.in_doubt.add(key)
                return Unknown("the ground does not say")
            case _:
                return Delivered(key)
