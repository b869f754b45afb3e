"""A message and its chat as one transaction sees them.

This file decides what handling a message needs of their rows, and reads that as plain records:
as objects that the session keeps watch over they would cost several times as much. It does not
know which message's turn it is, nor when anything is written.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import datetime
from typing import Any

from sqlalchemy import Connection
from sqlalchemy.orm import Session

from bot.store.tables import ChatRow, LogbookRow, MessageRow, OpenQuestionRow, PersonRow

BOOKS, CHATS, MESSAGES = LogbookRow.rows(), ChatRow.rows(), MessageRow.rows()
PEOPLE, QUESTIONS = PersonRow.rows(), OpenQuestionRow.rows()

Plain = Connection | Session
"""What plain rows are read and written through: a connection costs less than a session."""


@dataclass(frozen=True, slots=True)
class Logbook:
    """A logbook at a revision, and how it wants its figures (see LogbookRow)."""

    id: int
    revision: int
    units: str
    currency: str
    time_zone: str
    language: str


@dataclass(frozen=True, slots=True)
class OpenQuestion:
    """The question that a chat has open, and the message that raised it (see OpenQuestionRow)."""

    message_id: int
    ask: dict[str, Any]
    entry_id: int | None
    held: bool


@dataclass(slots=True)
class Chat:
    """A chat and its logbook; its question changes with what the transaction asks and closes."""

    id: int
    role: str
    title: str
    logbook: Logbook
    question: OpenQuestion | None = None


@dataclass(slots=True)
class Journalled:
    """A journalled message, and what its author is called (see MessageRow).

    Its state is written when it is settled.
    """

    id: int
    text: str
    sent_at: datetime
    received_at: datetime
    reply_to: str | None
    photo: str | None
    sure: bool
    private: bool
    state: str
    author: str


_OF_CHAT = (CHATS.c.id, CHATS.c.role, CHATS.c.title)
_OF_LOGBOOK = (
    *(BOOKS.c.id, BOOKS.c.revision),
    *(BOOKS.c.units, BOOKS.c.currency, BOOKS.c.time_zone, BOOKS.c.language),
)
_OF_QUESTION = (QUESTIONS.c.message_id, QUESTIONS.c.ask, QUESTIONS.c.entry_id, QUESTIONS.c.held)

OF_CHAT = (*_OF_CHAT, *_OF_LOGBOOK, *_OF_QUESTION)
"""The columns that `chat_in` reads; the question's are empty where none is open."""

OF_MESSAGE = (
    *(MESSAGES.c.id, MESSAGES.c.text, MESSAGES.c.sent_at, MESSAGES.c.received_at),
    *(MESSAGES.c.reply_to, MESSAGES.c.photo, MESSAGES.c.sure, MESSAGES.c.private),
    *(MESSAGES.c.state, PEOPLE.c.name),
)
"""The columns of a Journalled, in its order."""


def chat_in(values: Sequence[Any]) -> Chat:
    """The chat that the values of OF_CHAT describe."""
    key, role, title, *rest = values
    of_book, of_question = rest[: len(_OF_LOGBOOK)], rest[len(_OF_LOGBOOK) :]
    question = None if of_question[0] is None else OpenQuestion(*of_question)
    return Chat(key, role, title, Logbook(*of_book), question)
