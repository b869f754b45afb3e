"""What the database holds, one typed table a thing.

This file decides the tables, their columns and what must be unique; the migrations bring a
database to this form and a test compares the two. It does not know how rows are read into
records, nor when they are written.

A message is the spine's start: it is journalled raw, and everything it brought about refers
to it. An entry's common fields stand in `entries`, its own figures in the table of its kind,
as stated (a note has common fields only). An entry is never changed and never deleted: an
amendment is a new entry that `replaces` the old one, and `changes` tells the story in order.
"""

from __future__ import annotations

from datetime import datetime
from typing import Any, ClassVar

from sqlalchemy import JSON, ForeignKey, Index, MetaData, Text, UniqueConstraint, false, true
from sqlalchemy import Table as PlainTable
from sqlalchemy.orm import DeclarativeBase, Mapped, mapped_column

from bot.store.columns import Moment


class Table(DeclarativeBase):
    """The base of every table; constraints are named so that migrations can find them."""

    metadata = MetaData(
        naming_convention={
            "ix": "ix_%(table_name)s_%(column_0_N_name)s",
            "uq": "uq_%(table_name)s_%(column_0_N_name)s",
            "fk": "fk_%(table_name)s_%(column_0_name)s",
            "pk": "pk_%(table_name)s",
        }
    )
    type_annotation_map: ClassVar[dict[Any, Any]] = {
        datetime: Moment,
        dict[str, Any]: JSON,
        list[Any]: JSON,
    }

    @classmethod
    def rows(cls) -> PlainTable:
        """The table for plain rows, which cost a fraction of objects that track their changes."""
        return cls.metadata.tables[cls.__tablename__]


class LogbookRow(Table):
    """A logbook, and how its people want their figures and, by its code, their language.

    `revision` goes up with whatever changes what is known of it. The week's summary leaves on
    `week_day` (Monday is 0) at `week_hour`, in the logbook's own time zone.
    """

    __tablename__ = "logbooks"
    id: Mapped[int] = mapped_column(primary_key=True)
    units: Mapped[str]
    currency: Mapped[str]
    time_zone: Mapped[str]
    language: Mapped[str] = mapped_column(default="en", server_default="en")
    revision: Mapped[int] = mapped_column(default=0)
    week_day: Mapped[int] = mapped_column(default=0, server_default="0")
    week_hour: Mapped[int] = mapped_column(default=7, server_default="7")
    created_at: Mapped[datetime]


class ChatRow(Table):
    """A chat on a network, the logbook that it writes to (keeper) or hears of (reader).

    One that was shown out (out) does neither. `title` is what its people see it called.
    """

    __tablename__ = "chats"
    __table_args__ = (UniqueConstraint("network", "chat"),)
    id: Mapped[int] = mapped_column(primary_key=True)
    network: Mapped[str]
    chat: Mapped[str]
    logbook_id: Mapped[int] = mapped_column(ForeignKey("logbooks.id"), index=True)
    role: Mapped[str]
    title: Mapped[str] = mapped_column(default="", server_default="")
    created_at: Mapped[datetime]


class CodeRow(Table):
    """A code that lets one chat in: to a logbook, or to a new one of its own where there is none.

    `digest` is the SHA-256 of the code in hexadecimal; the code itself is not kept here.
    """

    __tablename__ = "codes"
    id: Mapped[int] = mapped_column(primary_key=True)
    digest: Mapped[str] = mapped_column(unique=True)
    logbook_id: Mapped[int | None] = mapped_column(ForeignKey("logbooks.id"), index=True)
    role: Mapped[str]
    created_at: Mapped[datetime]
    expires_at: Mapped[datetime | None]
    used_at: Mapped[datetime | None]


class StrangerRow(Table):
    """A chat that was not let in: when it was last heard, and how often its codes were wrong."""

    __tablename__ = "strangers"
    __table_args__ = (UniqueConstraint("network", "chat"),)
    id: Mapped[int] = mapped_column(primary_key=True)
    network: Mapped[str]
    chat: Mapped[str]
    heard_at: Mapped[datetime] = mapped_column(index=True)
    failures: Mapped[int] = mapped_column(default=0)
    waits_until: Mapped[datetime | None]


class PersonRow(Table):
    """Someone who texts. A name that was given by hand (`named`) outlasts a network's."""

    __tablename__ = "people"
    id: Mapped[int] = mapped_column(primary_key=True)
    name: Mapped[str]
    named: Mapped[bool] = mapped_column(default=False, server_default=false())


class IdentityRow(Table):
    """Who a person is on one network."""

    __tablename__ = "identities"
    __table_args__ = (UniqueConstraint("network", "identity"),)
    id: Mapped[int] = mapped_column(primary_key=True)
    network: Mapped[str]
    identity: Mapped[str]
    person_id: Mapped[int] = mapped_column(ForeignKey("people.id"), index=True)


class MessageRow(Table):
    """A journalled message, as it came; its states are told in journal.py.

    `photo` is the network's reference to a picture whose lines stand in the text; `sure` is
    false where those lines may be misread.
    """

    __tablename__ = "messages"
    __table_args__ = (UniqueConstraint("chat_id", "message"), Index(None, "state", "id"))
    id: Mapped[int] = mapped_column(primary_key=True)
    chat_id: Mapped[int] = mapped_column(ForeignKey("chats.id"))
    message: Mapped[str]
    person_id: Mapped[int] = mapped_column(ForeignKey("people.id"), index=True)
    sent_at: Mapped[datetime]
    received_at: Mapped[datetime]
    text: Mapped[str] = mapped_column(Text)
    reply_to: Mapped[str | None]
    thread: Mapped[str | None]
    photo: Mapped[str | None]
    sure: Mapped[bool] = mapped_column(default=True, server_default=true())
    private: Mapped[bool] = mapped_column(default=False, server_default=false())
    state: Mapped[str]
    failures: Mapped[int] = mapped_column(default=0)


class VersionRow(Table):
    """A message that says anew what the message `of` said; see revising.py for the acts.

    `reading` is what it was read as, each entry's record beside the key of the row that was kept
    for it; `ask` is the question that it answers. `said_at` orders the versions of a message.
    """

    __tablename__ = "versions"
    __table_args__ = (Index(None, "of", "said_at"),)
    message_id: Mapped[int] = mapped_column(ForeignKey("messages.id"), primary_key=True)
    of: Mapped[int] = mapped_column(ForeignKey("messages.id"))
    act: Mapped[str]
    said_at: Mapped[datetime]
    reading: Mapped[list[Any] | None]
    ask: Mapped[dict[str, Any] | None]


class EntryRow(Table):
    """What every kind of entry has. `stated_at` is the time as the message gave it."""

    __tablename__ = "entries"
    __table_args__ = (
        Index(None, "logbook_id", "kind", "withdrawn_by", "happened_at"),
        Index(None, "logbook_id", "withdrawn_by", "message_id"),
        Index(None, "message_id", "ordinal"),
    )
    id: Mapped[int] = mapped_column(primary_key=True)
    logbook_id: Mapped[int] = mapped_column(ForeignKey("logbooks.id"))
    message_id: Mapped[int] = mapped_column(ForeignKey("messages.id"))
    ordinal: Mapped[int]
    kind: Mapped[str]
    happened_at: Mapped[datetime]
    stated_at: Mapped[str | None]
    place: Mapped[str | None]
    truck: Mapped[str | None]
    trailer: Mapped[str | None]
    note: Mapped[str | None] = mapped_column(Text)
    words: Mapped[list[Any]]
    replaces: Mapped[int | None] = mapped_column(ForeignKey("entries.id"), index=True)
    withdrawn_by: Mapped[int | None] = mapped_column(ForeignKey("messages.id"), index=True)


class ChangeRow(Table):
    """One step in an entry's history, and the message that brought it about (see logbook.py)."""

    __tablename__ = "changes"
    id: Mapped[int] = mapped_column(primary_key=True)
    message_id: Mapped[int] = mapped_column(ForeignKey("messages.id"), index=True)
    entry_id: Mapped[int] = mapped_column(ForeignKey("entries.id"), index=True)
    act: Mapped[str]


class OwnTable(Table):
    """The table of one kind of entry: what it has beyond the common fields."""

    __abstract__ = True
    entry_id: Mapped[int] = mapped_column(ForeignKey("entries.id"), primary_key=True)


class WeighingRow(OwnTable):
    """A pass over a scale, but for its loads."""

    __tablename__ = "weighings"
    rig: Mapped[str | None]
    bars: Mapped[str | None]
    aboard: Mapped[int | None]
    fuel_level: Mapped[float | None]
    ticket: Mapped[str | None]
    cost: Mapped[float | None]
    cost_unit: Mapped[str | None]
    cost_low: Mapped[float | None]


class WeighingLoadRow(Table):
    """One load of a weighing, by its position, in the order stated."""

    __tablename__ = "weighing_loads"
    entry_id: Mapped[int] = mapped_column(ForeignKey("weighings.entry_id"), primary_key=True)
    position: Mapped[str] = mapped_column(primary_key=True)
    ordinal: Mapped[int]
    load: Mapped[float]
    load_unit: Mapped[str]
    load_low: Mapped[float | None]


class FillRow(OwnTable):
    """Fuel or exhaust fluid bought."""

    __tablename__ = "fills"
    product: Mapped[str | None]
    volume: Mapped[float | None]
    volume_unit: Mapped[str | None]
    volume_low: Mapped[float | None]
    odometer: Mapped[float | None]
    odometer_unit: Mapped[str | None]
    odometer_low: Mapped[float | None]
    distance: Mapped[float | None]
    distance_unit: Mapped[str | None]
    distance_low: Mapped[float | None]
    unit_price: Mapped[float | None]
    unit_price_unit: Mapped[str | None]
    unit_price_low: Mapped[float | None]
    cost: Mapped[float | None]
    cost_unit: Mapped[str | None]
    cost_low: Mapped[float | None]
    full: Mapped[bool | None]
    missed: Mapped[bool | None]
    dash_economy: Mapped[float | None]
    dash_economy_unit: Mapped[str | None]
    dash_economy_low: Mapped[float | None]


class OdometerRow(OwnTable):
    """An odometer reading, and what happened there."""

    __tablename__ = "odometers"
    odometer: Mapped[float]
    odometer_unit: Mapped[str]
    odometer_low: Mapped[float | None]
    event: Mapped[str | None]


class HitchRow(OwnTable):
    """A trailer put on or taken off."""

    __tablename__ = "hitches"
    action: Mapped[str]


class ObservationRow(OwnTable):
    """A reading off a gauge."""

    __tablename__ = "observations"
    subject: Mapped[str]
    value: Mapped[float]
    value_unit: Mapped[str]
    value_low: Mapped[float | None]
    position: Mapped[str | None]


class RatingRow(OwnTable):
    """A maker's limit; `value_unit` is empty for a load index, which is a bare number."""

    __tablename__ = "ratings"
    subject: Mapped[str]
    rating: Mapped[str]
    value: Mapped[float]
    value_unit: Mapped[str | None]
    value_low: Mapped[float | None]


class CargoRow(OwnTable):
    """Something loaded, its weight and where it stands."""

    __tablename__ = "cargo"
    item: Mapped[str]
    value: Mapped[float]
    value_unit: Mapped[str]
    value_low: Mapped[float | None]
    position: Mapped[str | None]
    distance: Mapped[float | None]
    distance_unit: Mapped[str | None]
    distance_low: Mapped[float | None]


class CheckRow(OwnTable):
    """A point of the walk-round."""

    __tablename__ = "checks"
    item: Mapped[str]
    state: Mapped[str]


class OpenQuestionRow(Table):
    """The doubt that the last answer in a chat put to its people.

    `entry_id` is the kept entry that the answer completes, where there is one; `held` says that
    the question itself waits for the next stop.
    """

    __tablename__ = "open_questions"
    chat_id: Mapped[int] = mapped_column(ForeignKey("chats.id"), primary_key=True)
    message_id: Mapped[int] = mapped_column(ForeignKey("messages.id"))
    ask: Mapped[dict[str, Any]]
    entry_id: Mapped[int | None] = mapped_column(ForeignKey("entries.id"))
    held: Mapped[bool] = mapped_column(default=False, server_default=false())


class OutboxRow(Table):
    """An answer to send. `state`: queued, sent, uncertain or parked; `due_at` is the next attempt.

    `about` is the key of the parked answer that a notice to the owner tells of; `reference` the
    network's id of what was sent, by which a reply to it is known; `doubtful` counts the
    attempts after which it may have arrived.
    """

    __tablename__ = "outbox"
    __table_args__ = (
        Index(None, "state", "chat_id", "id"),
        Index(None, "state", "message_id", "id"),
        Index(None, "chat_id", "reference"),
    )
    id: Mapped[int] = mapped_column(primary_key=True)
    chat_id: Mapped[int] = mapped_column(ForeignKey("chats.id"))
    message_id: Mapped[int | None] = mapped_column(ForeignKey("messages.id"), index=True)
    body: Mapped[dict[str, Any]]
    state: Mapped[str]
    attempts: Mapped[int] = mapped_column(default=0)
    doubtful: Mapped[int] = mapped_column(default=0, server_default="0")
    created_at: Mapped[datetime]
    due_at: Mapped[datetime]
    reason: Mapped[str | None]
    about: Mapped[int | None]
    reference: Mapped[str | None]


class WeeklyRow(Table):
    """When a logbook's next summary is due: the local time, its zone, and the moment it means."""

    __tablename__ = "weeklies"
    logbook_id: Mapped[int] = mapped_column(ForeignKey("logbooks.id"), primary_key=True)
    local_time: Mapped[str]
    time_zone: Mapped[str]
    due_at: Mapped[datetime] = mapped_column(index=True)
