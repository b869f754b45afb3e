"""What a chat asks about who shares its logbook: letting others in, who is in, taking one off.

This file decides who may do that (chats that keep the logbook) and carries it out, in the
transaction of the message that asks. It words nothing.
"""

from __future__ import annotations

from collections.abc import Sequence

from sqlalchemy import select
from sqlalchemy.orm import Session

from bot.admission import invite
from bot.answers import shared
from bot.answers.answer import Answer
from bot.answers.shared import Sharer
from bot.store import journal, sharing
from bot.store.seen import Chat, Journalled
from bot.store.tables import ChatRow
from domain.verdicts import Question


def sharing_answer(session: Session, chat: Chat, message: Journalled, question: Question) -> Answer:
    """Carry out what a chat asks about who shares its logbook."""
    if chat.role != journal.KEEPER:
        return shared.reader_answer()
    chats = session.scalars(
        select(ChatRow)
        .where(ChatRow.logbook_id == chat.logbook.id, ChatRow.role != journal.OUT)
        .order_by(ChatRow.id)
    ).all()
    sharers = [_sharer(each, here=each.id == chat.id) for each in chats]
    match question.topic:
        case "invite":
            role = journal.READER if question.field == journal.READER else journal.KEEPER
            code = invite(session, chat.logbook.id, role, message.received_at)
            return shared.code_answer(code, keeps=role == journal.KEEPER)
        case "remove":
            return _remove(session, chats, sharers, question.item or "")
        case _:
            return shared.members_answer(sharers)


def _remove(
    session: Session, chats: Sequence[ChatRow], sharers: Sequence[Sharer], wanted: str
) -> Answer:
    found = [
        (chat, sharer)
        for number, (chat, sharer) in enumerate(zip(chats, sharers, strict=True), start=1)
        if wanted.casefold() in (str(number), sharer.title.casefold())
    ]
    if len(found) != 1:
        return shared.which_member_answer(sharers)
    chat, sharer = found[0]
    try:
        sharing.show_out(session, chat)
    except sharing.NotShared:
        return shared.last_keeper_answer()
    return shared.removed_answer(sharer)


def _sharer(chat: ChatRow, *, here: bool) -> Sharer:
    return Sharer(
        title=chat.title, network=chat.network, keeps=chat.role == journal.KEEPER, here=here
    )
