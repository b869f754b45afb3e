"""As of when the figures of a weighing are, and what was loaded since and is in none of them.

This file decides when an answer from a weighing says so. Which weighing is meant is decided in
`which_weighing.py`.
"""

from __future__ import annotations

from datetime import datetime

from bot.answers.language import say
from bot.answers.measures import local
from bot.answers.words import figure, listed, moment
from domain.entries import Cargo, Weighing
from domain.log import Log, Preferences
from domain.passes import Session

MOST_LOADS = 3
"""Loads that are named, the last ones."""


def as_of_notes(log: Log, session: Session, preferences: Preferences) -> tuple[str, ...]:
    """When it was weighed, and what was loaded since and is in no figure."""
    notes = [when_note(session, preferences)]
    if session.axles_at is not None:
        notes.append(axles_note(session.axles_at, preferences))
    return (*notes, *_loaded_notes(log, session))


def stale_notes(
    log: Log, session: Session, preferences: Preferences, now: datetime, *, but: str = ""
) -> tuple[str, ...]:
    """The same, where the figures are of another day or something was loaded since.

    `but` is a load that the answer itself reckons with.
    """
    loaded = _loaded_notes(log, session, but)
    if loaded or is_of_another_day(session, now, preferences):
        return (when_note(session, preferences), *loaded)
    return ()


def when_note(session: Session, preferences: Preferences) -> str:
    """When it was weighed."""
    return say("Weighed {when}.", when=moment(session.ended, preferences))


def axles_note(at: datetime, preferences: Preferences) -> str:
    """When the axles were weighed that stand beside a tongue weighed by itself."""
    return say("Axles as weighed {when}.", when=moment(at, preferences))


def is_of_another_day(session: Session, now: datetime, preferences: Preferences) -> bool:
    """Whether a weighing ended on another day than today."""
    days = [local(at, preferences).date() for at in (session.ended, now)]
    return days[0] != days[1]


def _loaded_notes(log: Log, session: Session, but: str = "") -> tuple[str, ...]:
    """The loads put on since; none where anything was weighed after it, which may have them."""
    at = session.axles_at or session.ended
    known = but.casefold()
    loads = [
        each.entry
        for each in log.of(Cargo)
        if each.at > at and not (known and known in each.entry.item.casefold())
    ]
    if not loads or log.of(Weighing)[-1].at > session.ended:
        return ()
    named = [f"{each.item} {figure(each.value)}" for each in loads[-MOST_LOADS:]]
    return (say("Loaded since, and not counted: {loads}.", loads=listed(named)),)
