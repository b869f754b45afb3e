"""What crosses the border between a network and Drawbar.

A message comes in as a `Message`; an answer goes out through a `Network`, whose outcome is
one of three. This file decides those shapes; it knows no network's library and no store.
"""

from __future__ import annotations

from dataclasses import dataclass
from datetime import datetime, timedelta
from typing import Protocol

from bot.answers.answer import Answer


@dataclass(frozen=True, slots=True, kw_only=True)
class Message:
    """A text from a person in a chat. `network`, `chat` and `id` together are unique for ever.

    `author` is who sent it as the network tells people apart, `name` what the network calls
    them; `sent_at` is aware.
    """

    network: str
    chat: str
    id: str
    author: str
    name: str
    sent_at: datetime
    text: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Edited:
    """A message that now reads otherwise.

    `message` has its first id and time, and the new text; `id` tells this edit from others of
    that message, and `at` is when it was made.
    """

    message: Message
    id: str
    at: datetime


@dataclass(frozen=True, slots=True, kw_only=True)
class Deleted:
    """A message that someone took out of the chat: its id, who took it out, and when."""

    network: str
    chat: str
    id: str
    author: str
    name: str
    at: datetime


Event = Message | Edited | Deleted
"""What a network hands over."""


@dataclass(frozen=True, slots=True)
class Delivered:
    """The network has it. `reference` is the network's id of what was sent, where it gave one."""

    reference: str = ""


@dataclass(frozen=True, slots=True)
class Refused:
    """The network will never take it (chat gone, bot blocked): it must not be repeated."""

    reason: str


@dataclass(frozen=True, slots=True)
class Unknown:
    """It may or may not have arrived. `retry_after` is the network's own wish, where it has one."""

    reason: str
    retry_after: timedelta | None = None


Outcome = Delivered | Refused | Unknown


class Network(Protocol):
    """What delivery needs of a network; it only translates.

    Where a repeat under the same key is shown once, `once_by_key` is true. Elsewhere answers go
    one at a time, so that a crash leaves no more than one of unknown fate.
    """

    name: str
    once_by_key: bool

    async def send(self, chat: str, answer: Answer, key: str) -> Outcome:
        """Send an answer. A repeat of the same answer comes under the same `key`."""
        ...
