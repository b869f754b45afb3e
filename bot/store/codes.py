"""The codes that let a chat in, and the chats that had none.

This file decides what a code looks like, that it opens one logbook to one chat once and not
after its time, and how long a chat that guesses has to wait. It does not know what is said.
"""

from __future__ import annotations

import hashlib
import re
import secrets
from datetime import datetime, timedelta

from sqlalchemy import delete, select
from sqlalchemy.orm import Session

from bot.store.tables import CodeRow, StrangerRow

LETTERS = "ABCDEFGHJKLMNPQRSTUVWXYZ23456789"
"""Without those that are taken for one another: 0 and O, 1 and I."""

LENGTH = 8
DAY = timedelta(days=1)
FREE_TRIES = 3
FIRST_WAIT, LONGEST_WAIT = timedelta(minutes=1), timedelta(days=1)
FORGOTTEN_AFTER = timedelta(days=30)
MOST_DOUBLINGS = 20

_CODE = re.compile(rf"[{LETTERS}]{{4}}[- ]?[{LETTERS}]{{4}}", re.IGNORECASE)


def code_in(text: str) -> str | None:
    """The code that a text is, but for a word before it ('start', 'code'); None where it is not."""
    last = text.strip().removeprefix("/")
    word, _, rest = last.partition(" ")
    told = rest.strip() if word.casefold() in ("start", "code") else last
    return told if _CODE.fullmatch(told) else None


def digest(code: str) -> str:
    """What is kept of a code: SHA-256 in hexadecimal, however it was typed."""
    plain = re.sub("[- ]", "", code).upper()
    return hashlib.sha256(plain.encode()).hexdigest()


def make(
    session: Session, logbook_key: int | None, role: str, now: datetime, lasts: timedelta | None
) -> str:
    """A new code to a logbook, or to a new one where there is none yet; not yet committed."""
    drawn = "".join(secrets.choice(LETTERS) for _ in range(LENGTH))
    code = f"{drawn[:4]}-{drawn[4:]}"
    session.add(
        CodeRow(
            digest=digest(code),
            logbook_id=logbook_key,
            role=role,
            created_at=now,
            expires_at=None if lasts is None else now + lasts,
        )
    )
    session.flush()
    return code


def take(session: Session, code: str, now: datetime) -> CodeRow | None:
    """Use a code up; None where there is no such code, or it was used, or its time is over."""
    row = session.scalar(select(CodeRow).where(CodeRow.digest == digest(code)).with_for_update())
    if row is None or row.used_at is not None or (row.expires_at and row.expires_at <= now):
        return None
    row.used_at = now
    session.flush()
    return row


def drop_unused(session: Session) -> None:
    """Take back the codes without an end that nobody has used: the owner's, of earlier starts."""
    session.execute(delete(CodeRow).where(CodeRow.used_at.is_(None), CodeRow.expires_at.is_(None)))


def stranger(session: Session, network: str, chat: str, now: datetime) -> tuple[StrangerRow, bool]:
    """A chat that was not let in, and whether it is heard for the first time."""
    row = session.scalar(
        select(StrangerRow).where(StrangerRow.network == network, StrangerRow.chat == chat)
    )
    if row is not None:
        row.heard_at = now
        return row, False
    session.execute(delete(StrangerRow).where(StrangerRow.heard_at < now - FORGOTTEN_AFTER))
    row = StrangerRow(network=network, chat=chat, heard_at=now, failures=0)
    session.add(row)
    session.flush()
    return row, True


def count_wrong(row: StrangerRow, now: datetime) -> None:
    """A wrong code: after the free tries each makes the chat wait twice as long as the last."""
    row.failures += 1
    beyond = row.failures - FREE_TRIES
    if beyond >= 0:
        wait = min(FIRST_WAIT * float(2 ** min(beyond, MOST_DOUBLINGS)), LONGEST_WAIT)
        row.waits_until = now + wait


def forget_stranger(session: Session, network: str, chat: str) -> None:
    """A chat that was let in is no stranger any more."""
    session.execute(
        delete(StrangerRow).where(StrangerRow.network == network, StrangerRow.chat == chat)
    )
