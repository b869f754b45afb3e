"""Short ways to fill a store: `told(store, as_told("odo 48211", at=0))`."""

from __future__ import annotations

from collections.abc import Mapping
from datetime import UTC, datetime, timedelta

from sqlalchemy.orm import Session

from bot import schedule
from bot.conversation import Conversation
from bot.messages import Message
from bot.store import outbox
from bot.store import standing as stored
from bot.store.database import Store
from bot.store.journal import chat_of, find_by_key, record
from bot.store.outbox import Parcel
from bot.store.seen import Journalled
from domain.context import Context
from domain.entries import Entry, Odometer
from domain.log import Logged, Preferences
from domain.quantities import Quantity
from domain.verdicts import Facts, Silent, Verdict

START = datetime(2026, 7, 11, 20, 22, tzinfo=UTC)
CHAT = "barn"
HOME = Preferences(units="us", currency="USD", time_zone="America/Boise")


def lb(value: float) -> Quantity:
    return Quantity(value, "lb")


def mi(value: float) -> Quantity:
    return Quantity(value, "mi")


def as_told(
    text: str, at: float = 0, *, id: str | None = None, author: str = "ana", chat: str = CHAT
) -> Message:
    """A message so many minutes after START."""
    return Message(
        network="test",
        chat=chat,
        id=id or f"{chat}-{at}",
        author=author,
        name=author.capitalize(),
        sent_at=START + timedelta(minutes=at),
        text=text,
    )


class Scripted:
    """A reader that knows its messages by heart; anything else is talk.

    `odo N` is always a reading in miles. What it was asked with is kept in `contexts`.
    """

    def __init__(self, verdicts: Mapping[str, Verdict] | None = None) -> None:
        self.verdicts = verdicts or {}
        self.contexts: list[Context] = []

    def __call__(self, text: str, context: Context) -> Verdict:
        self.contexts.append(context)
        if text in self.verdicts:
            return self.verdicts[text]
        label, _, figure = text.partition(" ")
        if label == "odo":
            return Facts((Odometer(odometer=mi(float(figure))),))
        return Silent()


def conversation(store: Store, reader: Scripted | None = None) -> Conversation:
    return Conversation(store, reader or Scripted(), lambda: START, HOME)


def told(store: Store, *messages: Message, reader: Scripted | None = None) -> list[bool]:
    """Take messages through; whether each was meant for Drawbar and new."""
    talk = conversation(store, reader)
    return [talk.receive(each) for each in messages]


def first_message(store: Store) -> tuple[int, Journalled]:
    """A chat's first message, journalled and not handled, and the key of its new logbook."""
    with store.writing() as unit:
        key = record(unit, as_told("x"), HOME, START)
        assert key is not None
        found = find_by_key(unit.plain, key)
        return found.chat.logbook.id, found.message


def standing(store: Store, chat: str = CHAT) -> list[Entry]:
    """What stands in a chat's logbook, in order."""
    return [each.entry for each in logged(store, chat)]


def logged(store: Store, chat: str = CHAT) -> list[Logged[Entry]]:
    with store.look() as session:
        row = chat_of(session, "test", chat)
        return list(stored.log(session, row.logbook_id)) if row else []


def waiting(session: Session) -> list[Parcel]:
    """The answer whose turn it is in each chat, whether or not it is due."""
    turns = outbox.turns(session, {"test"}, START + timedelta(days=3650))
    found = (outbox.parcel(session, each.key) for each in turns)
    return [each for each in found if each is not None]


def replies(store: Store) -> list[str]:
    """The headline of every queued answer, oldest first."""
    found = []
    with store.work() as session:
        while parcels := waiting(session):
            for each in parcels:
                found.append((each.key, each.answer.headline))
                outbox.mark_sent(session, each.key)
    return [headline for _, headline in sorted(found)]


def queue_due(store: Store, now: datetime) -> int:
    """Queue every weekly summary whose time has come; how many weeks had something to tell."""
    schedule.plan(store, now)
    told = 0
    while (some := schedule.queue_some(store, now)) is not None:
        told += some
    return told


class Clock:
    """A clock that stands until it is moved."""

    def __init__(self) -> None:
        self.now = START

    def __call__(self) -> datetime:
        return self.now
