"""Which worker sends a chat's answers.

This file decides that a chat's outbox is emptied by one worker at a time. On PostgreSQL the
claim is an advisory lock of a connection kept for it: when a worker dies its connection goes,
and with it the claims, at once. SQLite serves one process, which keeps its own account. It does
not know what is sent.
"""

from __future__ import annotations

from contextlib import suppress

from sqlalchemy import Connection, Engine, text
from sqlalchemy.exc import DBAPIError

OUTBOX_LOCK = 0x6F757462
"""The class of the PostgreSQL advisory locks of claimed chats ('outb'); the object is the chat."""


class Claims:
    """The chats that this process has claimed. Used by one thread."""

    def __init__(self, engine: Engine) -> None:
        self._engine = engine
        self._connection: Connection | None = None
        self._held: set[int] = set()

    def take(self, chat_key: int) -> bool:
        """Claim a chat; false where it is claimed already, here or by another worker."""
        if chat_key in self._held:
            return False
        if self._engine.dialect.name == "postgresql" and not self._lock(chat_key):
            return False
        self._held.add(chat_key)
        return True

    def leave(self, chat_key: int) -> None:
        """Let a chat go; a claim that was lost with its connection is gone already."""
        self._held.discard(chat_key)
        if self._connection is not None:
            with suppress(DBAPIError):
                self._ask("SELECT pg_advisory_unlock(:lock, :chat)", chat_key)

    def close(self) -> None:
        """Let every chat go."""
        self._held.clear()
        if self._connection is not None:
            self._connection.close()
            self._connection = None

    def _lock(self, chat_key: int) -> bool:
        if self._connection is None:
            options = {"isolation_level": "AUTOCOMMIT"}
            self._connection = self._engine.connect().execution_options(**options)
            # The pool must not hand this connection, and its locks, to anyone else.
            self._connection.detach()
        return self._ask("SELECT pg_try_advisory_lock(:lock, :chat)", chat_key)

    def _ask(self, statement: str, chat_key: int) -> bool:
        if self._connection is None:
            return False
        try:
            values = {"lock": OUTBOX_LOCK, "chat": chat_key}
            return bool(self._connection.execute(text(statement), values).scalar())
        except DBAPIError:
            self._connection.invalidate()
            self._connection = None
            raise
