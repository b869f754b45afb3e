"""The question that a chat has open.

This file decides that there is one at a time, and what becomes of the message that raised it
when it is closed. It does not know what is asked, nor what settles it.
"""

from __future__ import annotations

from collections.abc import Collection
from dataclasses import replace

from sqlalchemy import bindparam, delete, func, insert, select, update
from sqlalchemy.orm import Session

from bot.store.journal import DOUBTED, HANDLED, OUT
from bot.store.seen import MESSAGES, QUESTIONS, Chat, Journalled, OpenQuestion, Plain
from bot.store.tables import ChatRow, OpenQuestionRow
from domain.records import ask_from_record, ask_to_record
from domain.verdicts import Ask


def asked(question: OpenQuestion | OpenQuestionRow) -> Ask:
    """What an open question asks."""
    return ask_from_record(question.ask)


def put(
    plain: Plain,
    chat: Chat,
    message: Journalled,
    ask: Ask,
    entry_key: int | None = None,
    *,
    held: bool = False,
) -> None:
    """Open a question in a chat, in place of the one that was open and stays unanswered.

    One that is `held` is put to the chat at the next stop.
    """
    plain.execute(_DROP, {"key": chat.id})
    chat.question = OpenQuestion(message.id, ask_to_record(ask, named=True), entry_key, held)
    plain.execute(
        _INSERT,
        {
            "chat_id": chat.id,
            "message_id": message.id,
            "ask": chat.question.ask,
            "entry_id": entry_key,
            "held": held,
        },
    )


def open_in(session: Session, logbook_keys: Collection[int]) -> dict[int, int]:
    """How many questions are open in the chats of some logbooks, where any are."""
    found = session.execute(
        select(ChatRow.logbook_id, func.count().label("asked"))
        .join(OpenQuestionRow, OpenQuestionRow.chat_id == ChatRow.id)
        .where(ChatRow.logbook_id.in_(list(logbook_keys)), ChatRow.role != OUT)
        .group_by(ChatRow.logbook_id)
    )
    return {row.logbook_id: row.asked for row in found}


def release(plain: Plain, chat: Chat) -> None:
    """A question that was held is put to the chat now."""
    if chat.question is not None:
        plain.execute(_RELEASE, {"key": chat.id})
        chat.question = replace(chat.question, held=False)


def close(plain: Plain, chat: Chat) -> None:
    """Close the question that a chat has open, if any: its message is in doubt no more."""
    if chat.question is not None:
        plain.execute(_DROP, {"key": chat.id})
        plain.execute(_DOUBT_NO_MORE, {"key": chat.question.message_id})
        chat.question = None


_INSERT = insert(QUESTIONS)
_DROP = delete(QUESTIONS).where(QUESTIONS.c.chat_id == bindparam("key"))
_RELEASE = update(QUESTIONS).where(QUESTIONS.c.chat_id == bindparam("key")).values(held=False)
_DOUBT_NO_MORE = (
    update(MESSAGES)
    .where(MESSAGES.c.id == bindparam("key"), MESSAGES.c.state == DOUBTED)
    .values(state=HANDLED)
)
