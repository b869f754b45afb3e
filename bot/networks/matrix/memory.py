"""What the Matrix network remembers across restarts, beside the keys that nio keeps.

This file decides what that is (the login, the place in the rooms' talk, messages that could
not be decrypted yet, rooms to join, who was given which of our room keys, and the keys that
vouch for the device) and how it is kept: in one SQLite file that only its owner may read. It
knows nothing of a server.
"""

from __future__ import annotations

import json
import os
import sqlite3
from collections.abc import Iterable
from dataclasses import asdict, dataclass, field
from datetime import timedelta
from pathlib import Path
from typing import Any

TABLES = """
CREATE TABLE IF NOT EXISTS kept (name TEXT PRIMARY KEY, value TEXT NOT NULL);
CREATE TABLE IF NOT EXISTS sealed (
    event TEXT PRIMARY KEY, room TEXT NOT NULL, source TEXT NOT NULL, since REAL NOT NULL);
CREATE TABLE IF NOT EXISTS asked (room TEXT PRIMARY KEY, due REAL NOT NULL);
CREATE TABLE IF NOT EXISTS told (session TEXT PRIMARY KEY, at REAL NOT NULL);
CREATE TABLE IF NOT EXISTS recipients (
    session TEXT NOT NULL, user TEXT NOT NULL, at REAL NOT NULL, PRIMARY KEY (session, user));
"""
FORGOTTEN_AFTER = timedelta(days=90).total_seconds()
"""How long a key that never came is waited for, and one of ours can be asked for again."""
MOST_SEALED = 500
"""Messages of which the key is waited for; beyond, the oldest are given up."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Login:
    """A device of an account, and the token that it speaks with."""

    user: str
    device: str
    token: str = field(repr=False)


@dataclass(frozen=True, slots=True)
class Sealed:
    """A message that can't be decrypted yet: its room, its JSON, and since when it waits."""

    room: str
    source: dict[str, Any]
    since: float


class Memory:
    """The file, open for as long as the network runs. Times are seconds of the epoch."""

    def __init__(self, path: Path) -> None:
        # Opened by us first, so that it is never readable by others, not even for a moment.
        os.close(os.open(path, os.O_CREAT | os.O_RDWR, 0o600))
        path.chmod(0o600)
        self._file = sqlite3.connect(path, isolation_level=None)
        self._file.executescript("PRAGMA journal_mode=WAL; PRAGMA synchronous=FULL;" + TABLES)

    def close(self) -> None:
        """Close the file."""
        self._file.close()

    def login(self) -> Login | None:
        """The login of an earlier run."""
        text = self.recall("login")
        return Login(**json.loads(text)) if text else None

    def keep_login(self, login: Login) -> None:
        """Keep a login; what another device had is forgotten."""
        before = self.login()
        with self._file:
            self._file.execute("BEGIN")
            if before is None or (before.user, before.device) != (login.user, login.device):
                self._file.execute("DELETE FROM kept WHERE name IN ('login', 'position')")
                self._file.execute("DELETE FROM sealed")
                self._file.execute("DELETE FROM asked")
                self._file.execute("DELETE FROM recipients")
            self.keep("login", json.dumps(asdict(login)))

    def recall(self, name: str) -> str | None:
        """Something that was kept by name, such as the `position` that a sync goes on from."""
        row = self._file.execute("SELECT value FROM kept WHERE name = ?", (name,)).fetchone()
        return None if row is None else str(row[0])

    def keep(self, name: str, value: str) -> None:
        """Keep something by name."""
        self._file.execute("INSERT OR REPLACE INTO kept VALUES (?, ?)", (name, value))

    def keep_asked(self, room: str) -> None:
        """Keep a room to join, due at once."""
        self._file.execute("INSERT OR REPLACE INTO asked VALUES (?, 0)", (room,))

    def asked(self, now: float) -> list[str]:
        """The rooms to join that are due."""
        rows = self._file.execute("SELECT room FROM asked WHERE due <= ? ORDER BY room", (now,))
        return [str(room) for (room,) in rows]

    def put_off_asked(self, room: str, due: float) -> None:
        """Try a room again later."""
        self._file.execute("UPDATE asked SET due = ? WHERE room = ?", (due, room))

    def drop_asked(self, room: str) -> None:
        """A room was joined, or never will be."""
        self._file.execute("DELETE FROM asked WHERE room = ?", (room,))

    def keep_sealed(self, event: str, sealed: Sealed) -> None:
        """Keep a message until its key comes."""
        self._file.execute(
            "INSERT OR IGNORE INTO sealed VALUES (?, ?, ?, ?)",
            (event, sealed.room, json.dumps(sealed.source), sealed.since),
        )
        self._file.execute(
            "DELETE FROM sealed WHERE since < ? OR rowid NOT IN "
            "(SELECT rowid FROM sealed ORDER BY rowid DESC LIMIT ?)",
            (sealed.since - FORGOTTEN_AFTER, MOST_SEALED),
        )

    def sealed(self) -> list[tuple[str, Sealed]]:
        """Every message whose key is waited for, by its event id, in the order of arrival."""
        rows = self._file.execute("SELECT event, room, source, since FROM sealed ORDER BY rowid")
        return [(event, Sealed(room, json.loads(text), at)) for event, room, text, at in rows]

    def drop_sealed(self, event: str) -> None:
        """Forget a message that waited: it has been taken."""
        self._file.execute("DELETE FROM sealed WHERE event = ?", (event,))

    def was_told(self, session: str) -> bool:
        """Whether it was said once already that messages under a key can't be read."""
        found = self._file.execute("SELECT 1 FROM told WHERE session = ?", (session,))
        return found.fetchone() is not None

    def keep_told(self, session: str, at: float) -> None:
        """Remember that it was said."""
        self._file.execute("INSERT OR IGNORE INTO told VALUES (?, ?)", (session, at))
        self._file.execute("DELETE FROM told WHERE at < ?", (at - FORGOTTEN_AFTER,))

    def keep_recipients(self, session: str, users: Iterable[str], at: float) -> None:
        """Remember who was given one of our room keys."""
        self._file.executemany(
            "INSERT OR IGNORE INTO recipients VALUES (?, ?, ?)",
            [(session, user, at) for user in users],
        )
        self._file.execute("DELETE FROM recipients WHERE at < ?", (at - FORGOTTEN_AFTER,))

    def was_given(self, session: str, user: str) -> bool:
        """Whether a person was given one of our room keys when it was made."""
        found = self._file.execute(
            "SELECT 1 FROM recipients WHERE session = ? AND user = ?", (session, user)
        )
        return found.fetchone() is not None
