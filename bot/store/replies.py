"""What a reply is about.

This file decides which journalled message somebody means who replies to it, to an edit of it,
or to Drawbar's answer to it. It does not know what the reply says.
"""

from __future__ import annotations

from sqlalchemy import select
from sqlalchemy.orm import Session

from bot.store import outbox
from bot.store.tables import MessageRow, VersionRow


def about(session: Session, chat_key: int, reply_to: str | None) -> int | None:
    """The key of the message that a reply is about, by the network's id of what it replies to.

    None where it replies to nothing, or to something that was never journalled.
    """
    if reply_to is None:
        return None
    told = session.scalar(
        select(MessageRow.id).where(MessageRow.chat_id == chat_key, MessageRow.message == reply_to)
    )
    if told is None:
        answer = outbox.answered_by(session, chat_key, reply_to)
        told = None if answer is None else answer.message_id
    return None if told is None else first_of(session, told)


def first_of(session: Session, key: int) -> int:
    """The message of which this one is a version; itself, where it is none."""
    version = session.get(VersionRow, key)
    return key if version is None else version.of
