"""Who shares a logbook: its chats, each keeper or reader, and its people on several networks.

This file decides what happens to a chat's own entries when it joins another logbook, when a
name goes to a person rather than to what a network calls them, and how a chat or a person is
named by whoever runs Drawbar (`network:chat`, or the part after the colon where it is
unique). It does not know what a role allows in conversation.
"""

from __future__ import annotations

from collections.abc import Collection, Sequence
from dataclasses import dataclass
from typing import Literal, cast, get_args

from sqlalchemy import delete, func, select, update
from sqlalchemy.orm import Session

from bot.store import journal
from bot.store.journal import KEEPER, OUT, READER
from bot.store.outbox import QUEUED
from bot.store.tables import (
    ChatRow,
    EntryRow,
    IdentityRow,
    LogbookRow,
    OutboxRow,
    PersonRow,
    Table,
    WeeklyRow,
)

Role = Literal["keeper", "reader"]
SUNDAY, LAST_HOUR = 6, 23


class NotShared(ValueError):
    """A wish about chats or people that can't be met; the sentence says why."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Member:
    """A chat as whoever runs Drawbar sees it: `name` is `network:chat`."""

    name: str
    logbook: int
    role: str
    entries: int


def members(session: Session) -> tuple[Member, ...]:
    """Every chat, with its logbook and how many entries stand there."""
    standing = (
        select(func.count())
        .where(EntryRow.logbook_id == ChatRow.logbook_id, EntryRow.withdrawn_by.is_(None))
        .scalar_subquery()
    )
    rows = session.execute(select(ChatRow, standing).order_by(ChatRow.logbook_id, ChatRow.id))
    return tuple(
        Member(name=name_of(chat), logbook=chat.logbook_id, role=chat.role, entries=count)
        for chat, count in rows
    )


def chats_of(session: Session, logbook_keys: Collection[int]) -> dict[int, list[int]]:
    """The chats of some logbooks, keepers' and readers', by their keys; without those taken off."""
    found: dict[int, list[int]] = {}
    for key, logbook in session.execute(
        select(ChatRow.id, ChatRow.logbook_id)
        .where(ChatRow.logbook_id.in_(list(logbook_keys)), ChatRow.role != OUT)
        .order_by(ChatRow.id)
    ):
        found.setdefault(logbook, []).append(key)
    return found


def name_of(chat: ChatRow) -> str:
    """What a chat is called on the command line."""
    return f"{chat.network}:{chat.chat}"


def chat_named(session: Session, name: str) -> ChatRow:
    """The chat that a name means; raises NotShared where none or several do."""
    network, _, chat = name.partition(":")
    found = session.scalars(
        select(ChatRow).where(
            (ChatRow.chat == name) | ((ChatRow.network == network) & (ChatRow.chat == chat))
        )
    ).all()
    return cast(ChatRow, _only(found, name, "chat", [name_of(each) for each in found]))


def person_named(session: Session, name: str) -> PersonRow:
    """The person that a name, or `network:identity`, means; raises NotShared."""
    network, _, identity = name.partition(":")
    by_identity = session.scalar(
        select(PersonRow)
        .join(IdentityRow)
        .where(IdentityRow.network == network, IdentityRow.identity == identity)
    )
    if by_identity is not None:
        return by_identity
    found = [
        person
        for person in session.scalars(select(PersonRow))
        if person.name.casefold() == name.casefold()
    ]
    known = [each for person in found for each in identities(session, person)]
    return cast(PersonRow, _only(found, name, "person", known))


def identities(session: Session, person: PersonRow) -> list[str]:
    """Who a person is on each network, as `network:identity`."""
    rows = session.scalars(
        select(IdentityRow).where(IdentityRow.person_id == person.id).order_by(IdentityRow.id)
    )
    return [f"{row.network}:{row.identity}" for row in rows]


def _only(found: Sequence[object], name: str, what: str, known: Sequence[str]) -> object:
    if not found:
        raise NotShared(f"No {what} is called {name!r}.")
    if len(found) > 1:
        raise NotShared(f"{name!r} could be {', '.join(known)}; say which.")
    return found[0]


def role_of(name: str) -> Role:
    """The role of that name; raises NotShared for another."""
    for role in get_args(Role):
        if role == name:
            return cast(Role, role)
    raise NotShared(f"{name!r} is no role; there are keeper and reader.")


def join(
    session: Session, chat: ChatRow, logbook_key: int, role: Role, *, commit: bool = True
) -> None:
    """Let a chat share a logbook.

    A keeper that leaves a logbook without any chat brings its entries along; raises NotShared
    where a reader would leave entries behind, or a logbook would have no keeper left.
    """
    left = session.get_one(LogbookRow, chat.logbook_id)
    for key in sorted({left.id, logbook_key}):
        session.scalar(select(LogbookRow).where(LogbookRow.id == key).with_for_update())
    others = [
        each
        for each in session.scalars(select(ChatRow).where(ChatRow.logbook_id == left.id))
        if each.id != chat.id
    ]
    stays = left.id == logbook_key
    holds = session.scalar(select(func.count()).where(EntryRow.logbook_id == left.id)) or 0
    last_keeper = role == READER if stays else bool(others)
    if last_keeper and not _keeps(others):
        raise NotShared(f"{name_of(chat)} is the only chat that keeps its logbook.")
    if not stays and not others and holds and role == READER:
        raise NotShared(f"{name_of(chat)} has {holds} entries of its own; join it as a keeper.")
    chat.logbook_id, chat.role = logbook_key, role
    session.flush()
    if not stays and not others:
        session.execute(delete(WeeklyRow).where(WeeklyRow.logbook_id == left.id))
        _hand_over(session, LogbookRow.__tablename__, left.id, logbook_key)
        session.delete(left)
    session.get_one(LogbookRow, logbook_key).revision += 1
    if commit:
        session.commit()


def show_out(session: Session, chat: ChatRow) -> None:
    """Let a chat neither write nor read any more; what it logged stays. Not yet committed.

    Raises NotShared where a logbook would have no keeper left.
    """
    others = session.scalars(
        select(ChatRow).where(ChatRow.logbook_id == chat.logbook_id, ChatRow.id != chat.id)
    ).all()
    if not _keeps(others):
        raise NotShared(f"{name_of(chat)} is the only chat that keeps its logbook.")
    chat.role = OUT
    session.flush()


def follow(session: Session, network: str, old: str, new: str) -> None:
    """Let a chat that a network knows by a new id go on as before. Commits.

    Where the new id was heard already, its logbook's entries join those of the old.
    """
    chat, already = journal.chat_of(session, network, old), journal.chat_of(session, network, new)
    if chat is not None and already is None:
        chat.chat = new
    elif chat is not None and already is not None and chat.role != OUT:
        if already.logbook_id != chat.logbook_id:
            join(session, already, chat.logbook_id, "keeper", commit=False)
        already.role, already.title, chat.role = chat.role, chat.title, OUT
        session.execute(
            update(OutboxRow)
            .where(OutboxRow.chat_id == chat.id, OutboxRow.state == QUEUED)
            .values(chat_id=already.id)
        )
    session.commit()


def _hand_over(session: Session, name: str, old: int, new: int) -> None:
    """Let all that refers to one row of a table refer to another of it."""
    for table in Table.metadata.sorted_tables:
        for each in table.foreign_keys:
            if each.column.table.name == name:
                column = each.parent
                session.execute(update(table).where(column == old).values({column.name: new}))


def _keeps(chats: Sequence[ChatRow]) -> bool:
    return any(each.role == KEEPER for each in chats)


def name_person(session: Session, person: PersonRow, name: str) -> None:
    """Give a person a name that no network changes again. Commits."""
    journal.rename(session, person, name)
    person.named = True
    session.commit()


def same_person(session: Session, person: PersonRow, also: PersonRow) -> None:
    """Two people are one: all that `also` sent, everywhere, is `person`'s. Commits."""
    if person.id == also.id:
        return
    journal.rename(session, also, person.name)
    _hand_over(session, PersonRow.__tablename__, also.id, person.id)
    person.named = True
    session.delete(also)
    session.commit()


def set_week(session: Session, logbook_key: int, day: int, hour: int) -> None:
    """Choose when a logbook's summary leaves: day 0 (Monday) to 6, hour 0 to 23. Commits.

    Raises NotShared for another day or hour.
    """
    if not 0 <= day <= SUNDAY or not 0 <= hour <= LAST_HOUR:
        raise NotShared(f"A week has days 0 to 6 and hours 0 to 23, not {day} and {hour}.")
    logbook = session.get_one(LogbookRow, logbook_key)
    logbook.week_day, logbook.week_hour = day, hour
    session.commit()
