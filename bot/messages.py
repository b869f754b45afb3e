"""What crosses the border between a network and Drawbar.

What people do comes in as an event; an answer goes out as a `Letter`, whose outcome is one of
a few. This file decides those shapes; it knows no network's library and no store.
"""

from __future__ import annotations

from dataclasses import dataclass
from datetime import datetime, timedelta
from struct import unpack
from typing import Literal, Protocol

from bot.answers.answer import Answer


@dataclass(frozen=True, slots=True, kw_only=True)
class Photo:
    """A picture that came with a message. `reference` is what `Network.fetch` finds it by.

    `sure` says whether its lines, once read, are beyond doubt; they are then in the message's
    text, below its caption.
    """

    reference: str
    sure: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class Message:
    """A text from a person in a chat. `network`, `chat` and `id` together are unique for ever.

    `author` is who sent it as the network tells people apart, `name` what the network calls
    them; `sent_at` is aware. `reply_to` is the id of the message that it replies to, `thread`
    the part of the chat in which its answer belongs. A choice that is tapped is a message too:
    its text is the choice's number, and it replies to the answer that offered it. `private`
    says that nobody else is in the chat; `title` is what its people see the chat called, the
    person's name where it is private.
    """

    network: str
    chat: str
    id: str
    author: str
    name: str
    sent_at: datetime
    text: str
    reply_to: str | None = None
    thread: str | None = None
    photo: Photo | None = None
    private: bool = False
    title: str = ""


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


@dataclass(frozen=True, slots=True, kw_only=True)
class Moved:
    """A chat that the network now knows by another id, `to`."""

    network: str
    chat: str
    to: str


Event = Message | Edited | Deleted | Moved
"""What a network hands over."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Drawn:
    """A picture ready to be sent: PNG, and what it shows in words for who does not see it."""

    png: bytes
    alt: str

    @property
    def size(self) -> tuple[int, int]:
        """Width and height in pixels, as the header says (PNG, W3C Recommendation, 11.2.1)."""
        width, height = unpack(">II", self.png[16:24])
        return width, height


@dataclass(frozen=True, slots=True, kw_only=True)
class Printed:
    """A document ready to be sent: PDF, and what the file is called."""

    pdf: bytes
    name: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Letter:
    """An answer on its way. A repeat of the same answer comes under the same `key`.

    `reply_to` is the network's id of the message that it answers, `thread` where in the chat
    that stood; both None where nobody asked, as for the week's summary. `picture` shows what
    the answer tells, and goes with it in one message where the network has such; so does
    `document`, which is what was asked for.
    """

    chat: str
    answer: Answer
    key: str
    reply_to: str | None = None
    thread: str | None = None
    picture: Drawn | None = None
    document: Printed | None = None


@dataclass(frozen=True, slots=True)
class Delivered:
    """The network has it. `reference` is the network's id of what was sent, where it gave one."""

    reference: str = ""


@dataclass(frozen=True, slots=True)
class Refused:
    """The network will never take it (chat gone, bot blocked): it must not be repeated."""

    reason: str


@dataclass(frozen=True, slots=True)
class NotSent:
    """Nothing arrived, for now. `retry_after` is the network's own wish, where it has one."""

    reason: str
    retry_after: timedelta | None = None


@dataclass(frozen=True, slots=True)
class Unknown:
    """It may or may not have arrived."""

    reason: str


@dataclass(frozen=True, slots=True)
class MovedTo:
    """Nothing arrived: the network knows the chat by another id now."""

    chat: str


Outcome = Delivered | Refused | NotSent | Unknown | MovedTo


class Network(Protocol):
    """What delivery needs of a network; it only translates.

    `send` is called for a few chats at once, and never twice at once for one, so that a crash
    leaves no more than one answer of unknown fate in a chat. Where a repeat under the same key is
    shown once, `once_by_key` is true.
    """

    name: str
    once_by_key: bool

    async def send(self, letter: Letter) -> Outcome:
        """Send an answer, once; patience is delivery's. Raises nothing that a network may do."""
        ...


class Host(Protocol):
    """What a served network needs of Drawbar."""

    async def take(self, event: Event) -> None:
        """Take an event through. Once this returns it need not be handed over again."""
        ...

    async def knows(self, network: str, author: str) -> bool:
        """Whether someone belongs to a logbook here, so that their invitation may be followed."""
        ...

    async def sealed_answer(self, network: str, chat: str) -> Answer:
        """What is said in a chat where the key to a message did not come."""
        ...


class Served(Network, Protocol):
    """A network that is connected to for as long as Drawbar runs.

    Before it is connected `send` answers NotSent.
    """

    async def run(self, host: Host) -> None:
        """Hand over each event, those of one chat in order, until cancelled.

        An event counts as received, towards the network, only after `host.take` returned. What
        breaks on the way is waited out and tried again; raises NetworkRefused where the settings
        can't be right.
        """
        ...

    async def fetch(self, reference: str, most: int) -> bytes:
        """The bytes of a photo; raises NotFetched where it is gone or has more than `most`."""
        ...

    def about(self) -> str:
        """One line for whoever runs Drawbar: what is served, and as whom."""
        ...


Lack = Literal["gone", "too large", "out of reach", "unreadable"]
"""Why a photo can't be had."""


class NotFetched(Exception):
    """A photo that can't be had; `detail` is for whoever looks into it, and told to nobody else."""

    def __init__(self, why: Lack, detail: str = "") -> None:
        super().__init__(f"{why}: {detail}" if detail else why)
        self.why = why


class NetworkRefused(Exception):
    """A network that does not take the settings; the sentence says which, and how to mend it."""
