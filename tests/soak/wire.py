"""What a worker and the ground of the soak tell each other: pickled records on a socket.

Both ends are ours, of one checkout and one run, so that nothing foreign is ever unpickled.
"""

from __future__ import annotations

import pickle
from asyncio import StreamReader, StreamWriter
from dataclasses import dataclass

from bot.messages import Event, Outcome

KEYED, PLAIN = "keyed", "plain"
"""The network that shows a repeat under its key once, and the one that shows it again."""


@dataclass(frozen=True, slots=True)
class Hello:
    """A worker's network is connected."""

    worker: int
    network: str


@dataclass(frozen=True, slots=True)
class Given:
    """An event for a worker to take."""

    number: int
    event: Event


@dataclass(frozen=True, slots=True)
class Taken:
    """It was taken, and need not be given again."""

    number: int


@dataclass(frozen=True, slots=True)
class Sent:
    """An answer on its way to a chat."""

    number: int
    chat: str
    key: str


@dataclass(frozen=True, slots=True)
class Fate:
    """What the network says of it."""

    number: int
    outcome: Outcome


Told = Hello | Given | Taken | Sent | Fate


def say(writer: StreamWriter, what: Told) -> None:
    data = pickle.dumps(what)
    writer.write(len(data).to_bytes(4, "big") + data)


async def hear(reader: StreamReader) -> Told:
    """What comes next; raises IncompleteReadError where the other end is gone."""
    size = int.from_bytes(await reader.readexactly(4), "big")
    told: Told = pickle.loads(await reader.readexactly(size))
    return told
