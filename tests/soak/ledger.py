"""What the soak holds against the database at its end: nothing lost, nothing double.

The ground writes down what it gave and showed; this file decides what of that must be found in
the rows, and what of what was shown twice a network or a kill explains.
"""

from __future__ import annotations

from collections import Counter, defaultdict
from dataclasses import dataclass, field
from itertools import pairwise

from sqlalchemy import func, select

from bot.store import journal, outbox
from bot.store.database import Store
from bot.store.tables import ChatRow, EntryRow, MessageRow, OutboxRow, WeeklyRow
from tests.soak.traffic import Chat
from tests.soak.wire import KEYED

Place = tuple[str, str]
"""A network and a chat of it."""


@dataclass
class Ledger:
    """What was given and shown in the chats of one database."""

    chats: list[Chat]
    events: int = 0
    shown: dict[Place, list[str]] = field(default_factory=lambda: defaultdict(list))
    """The keys that each chat shows, in order."""
    in_doubt: set[str] = field(default_factory=set)
    """Keys of which the network said that they may have arrived."""
    cut_off: set[str] = field(default_factory=set)
    """Keys that were on their way, or just there, when a worker died or the database went away."""
    refused: set[str] = field(default_factory=set)
    summaries: Counter[int] = field(default_factory=Counter)
    """How often each logbook's summary was made due."""
    notes: Counter[str] = field(default_factory=Counter)
    """Faults, by what was done."""

    def show(self, network: str, chat: str, key: str) -> None:
        """A chat shows an answer; under a key that the network knows again, once."""
        shown = self.shown[network, chat]
        if network != KEYED or key not in shown:
            shown.append(key)

    @property
    def repeated(self) -> list[str]:
        """Keys that a chat shows more than once."""
        return [
            key for shown in self.shown.values() for key, times in Counter(shown).items()
            if times > 1
        ]  # fmt: skip

    def lost(self, store: Store) -> list[str]:
        """What was given and is not in the log, or answered and not shown; in words."""
        found: list[str] = []
        with store.look() as session:
            for key, state, failures in session.execute(
                select(MessageRow.id, MessageRow.state, MessageRow.failures).where(
                    (MessageRow.state.in_((journal.WAITING, journal.STUCK)))
                    | (MessageRow.failures > 0)
                )
            ):
                found.append(f"message {key} is {state} after {failures} failures")
            for chat in self.chats:
                if not chat.has_told:
                    continue
                row = journal.chat_of(session, chat.network, chat.name)
                if row is None:
                    found.append(f"{chat.name} has no logbook")
                    continue
                kept = dict(
                    session.execute(
                        select(MessageRow.message, func.count(EntryRow.id))
                        .outerjoin(EntryRow, EntryRow.message_id == MessageRow.id)
                        .where(MessageRow.chat_id == row.id)
                        .group_by(MessageRow.message)
                    ).all()
                )
                found += [
                    f"{chat.name} {each} is not kept once" for each in chat.odometers
                    if kept.get(each) != 1
                ]  # fmt: skip
                shown = set(self.shown[chat.network, chat.name])
                for key, state in session.execute(
                    select(OutboxRow.id, OutboxRow.state).where(OutboxRow.chat_id == row.id)
                ):
                    name = f"drawbar-{key}"
                    told = {
                        outbox.SENT: name in shown,
                        outbox.PARKED: name in self.refused,
                        outbox.UNCERTAIN: name in self.in_doubt,
                    }
                    if not told.get(state, False):
                        found.append(f"answer {key} in {chat.name} is {state}")
            due = session.scalar(
                select(func.count()).where(WeeklyRow.logbook_id.in_(list(self.summaries)),
                                           WeeklyRow.due_at <= func.now())
            )  # fmt: skip
            found += [f"{due} summaries are still due"] if due else []
            found += [
                f"{self.summaries[book] - told} summaries of logbook {book} never came"
                for book, told in self._summaries_told(store).items()
                if told < self.summaries[book]
            ]
        return found

    def double(self, store: Store) -> list[str]:
        """What is in the log, answered or shown more than once, and nothing explains; in words."""
        found: list[str] = []
        with store.look() as session:
            found += [
                f"message {key} is answered {times} times"
                for key, times in session.execute(
                    select(OutboxRow.message_id, func.count())
                    .where(OutboxRow.message_id.is_not(None))
                    .group_by(OutboxRow.message_id)
                    .having(func.count() > 1)
                )
            ]
        explained = self.in_doubt | self.cut_off
        found += [f"answer {key} is shown again" for key in self.repeated if key not in explained]
        found += [
            f"{chat} shows {earlier} after {later}"
            for (_, chat), shown in self.shown.items()
            for earlier, later in _out_of_order(shown)
        ]
        found += [
            f"logbook {book} has {told - self.summaries[book]} summaries too many"
            for book, told in self._summaries_told(store).items()
            if told > self.summaries[book]
        ]
        return found

    def _summaries_told(self, store: Store) -> dict[int, int]:
        """How many summaries each logbook's first chat got."""
        with store.look() as session:
            rows = session.execute(
                select(ChatRow.logbook_id, func.count(OutboxRow.id))
                .outerjoin(
                    OutboxRow,
                    (OutboxRow.chat_id == ChatRow.id)
                    & OutboxRow.message_id.is_(None)
                    & OutboxRow.about.is_(None),
                )
                .where(ChatRow.logbook_id.in_(list(self.summaries)))
                .group_by(ChatRow.logbook_id)
            ).all()
        return {book: told for book, told in rows}  # noqa: C416 - rows, as far as types know


def _out_of_order(shown: list[str]) -> list[tuple[str, str]]:
    first = list(dict.fromkeys(shown))
    keys = [int(each.removeprefix("drawbar-")) for each in first if each[8:].isdigit()]
    return [
        (f"drawbar-{later}", f"drawbar-{earlier}")
        for earlier, later in pairwise(keys)
        if later < earlier
    ]
