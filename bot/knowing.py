"""What a chat knows when a message is read.

This file decides which of a logbook's entries the reader is told of: the rig's names and
ratings, and where the truck stood when the message was sent, so that one that arrives late or
is read again is held against its own time. It does not read messages.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from datetime import datetime

from bot.answers import dispatch
from bot.store import questions, replies
from bot.store.seen import Chat
from bot.store.shelf import Book
from domain.context import Context
from domain.entries import Fill, Hitch, Odometer, Rating
from domain.fuel import truck_fuel
from domain.log import Log, Preferences, Reach
from domain.naming import Names, names_in
from domain.odometer import last_shown
from domain.quantities import Quantity
from domain.rig import Rig, rig_of

LATEST_FILLS = 20
"""Fills that tell what the truck burns, where its tank's rating does not."""


LATEST_READINGS = (20, dispatch.LATELY)
"""Readings among which the truck's own is looked for: a few, and then more."""

RIG = Reach(kinds=(Rating, Hitch), latest=dispatch.LATELY)
"""What tells the names and the ratings of the rig."""


@dataclass(frozen=True, slots=True)
class Known:
    """What a chat knew at a revision of its logbook; None where it had none yet."""

    context: Context
    names: Names
    revision: int | None = None


def nothing_known(sent_at: datetime, defaults: Preferences) -> Known:
    """What a chat knows that was never heard before."""
    context = Context(
        sent_at=sent_at,
        units=defaults.units,
        currency=defaults.currency,
        time_zone=defaults.time_zone,
        language=defaults.language,
        names_by_kind=True,
    )
    return Known(context, Names())


def known(
    book: Book,
    chat: Chat,
    preferences: Preferences,
    sent_at: datetime,
    reply_to: str | None = None,
) -> Known:
    """What the chat knows by now of the time when a message was sent.

    A reply to something else than the open question does not answer that.
    """
    told = book.worked_out(RIG, _told)
    hitched = told.log.hitched_to(sent_at)
    names = replace(told.names, on=hitched.entry.trailer if hitched else None)
    question = chat.question
    if question is not None and reply_to is not None:
        about = replies.about(book.session, chat.id, reply_to)
        if about not in (None, replies.first_of(book.session, question.message_id)):
            question = None
    context = Context(
        sent_at=sent_at,
        units=preferences.units,
        currency=preferences.currency,
        time_zone=preferences.time_zone,
        odometer=_last_shown(book, names.truck, sent_at),
        tank=told.rig.quantity("truck", "tank"),
        fuel=told.rig.fuel or truck_fuel(book.log(Reach(kinds=(Fill,), latest=LATEST_FILLS))),
        hitched=hitched is not None if told.log.of(Hitch) else None,
        truck=names.truck,
        trailers=names.trailers,
        asked=questions.asked(question) if question else None,
        language=preferences.language,
        names_by_kind=True,
    )
    return Known(context, names, book.revision)


@dataclass(frozen=True, slots=True)
class _Told:
    log: Log
    names: Names
    rig: Rig


def _told(log: Log) -> _Told:
    return _Told(log, names_in(log), rig_of(log))


def _last_shown(book: Book, truck: str | None, moment: datetime) -> Quantity | None:
    for latest in LATEST_READINGS:
        log = book.log(Reach(kinds=(Fill, Odometer), latest=latest, until=moment))
        shown = last_shown(log, truck, moment)
        if shown is not None:
            return shown
    return None
