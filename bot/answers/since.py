"""What changed since the weighing before, told beside a new one or when asked.

This file decides in which order changes are named and when a load counts as unchanged. Which
earlier weighing is meant is decided in `domain/since.py`.
"""

from __future__ import annotations

from datetime import datetime
from zoneinfo import ZoneInfo

from bot.answers.answer import Answer, Row
from bot.answers.as_of import stale_notes
from bot.answers.language import say
from bot.answers.limits import CAUTION, mass_text
from bot.answers.weighed import Weighed, headline, load_name
from bot.answers.words import clock, moment, sentence
from bot.reference import references
from domain.context import MASS_UNIT
from domain.log import Log, Preferences
from domain.passes import Kind
from domain.rig import Rig
from domain.since import TONGUE, Since, since_before
from domain.uncertainty import Measured

ORDER = ("gross", TONGUE, "steer", "drive", "trailer")


def since_pass(log: Log, told: Weighed, key: int, preferences: Preferences) -> str:
    """What changed since the pass before the one with that key, in a line; '' without one."""
    passes = told.weights.session.passes.values()
    kind = next((each.kind for each in passes if each.key == key), None)
    since = None if kind is None else _since(log, told, kind)
    if since is None or (not _changed(since) and set(since.now.loads) - set(since.before.loads)):
        return ""  # what was not weighed then may have changed
    return _note(since, told.rig, preferences)


def _since(log: Log, told: Weighed, kind: Kind) -> Since | None:
    return since_before(log, told.weights, kind, told.rig, references().densities)


def _note(since: Since, rig: Rig, preferences: Preferences) -> str:
    """One line: `Since Sat 4 Jul 8:10 am: gross +520 lb, drive +240 lb`."""
    unit, when = MASS_UNIT[preferences.units], _when(since, preferences)
    changed = ", ".join(
        f"{load_name(name, rig)} {_gain(name, gain, unit)}" for name, gain in _changed(since)
    )
    if not changed:
        return say("No load has changed since {when}.", when=when)
    return say("Since {when}: {changes}.", when=when, changes=changed)


def since_answer(log: Log, told: Weighed, preferences: Preferences, now: datetime) -> Answer:
    """Every load that changed since the weighing before, with what it was."""
    session, unit = told.weights.session, MASS_UNIT[preferences.units]
    tongue_alone = session.axles_at is not None
    since = _since(log, told, "trailer" if tongue_alone else session.standing.kind)
    if since is None:
        return Answer(
            headline=say("There is no earlier weighing to hold the last one against."),
            notes=(say("Text the next one's figures, and I tell what changed."),),
        )
    changed = _changed(since)
    return Answer(
        headline=say("Changed since {when}:", when=_when(since, preferences))
        if changed
        else _note(since, told.rig, preferences),
        rows=tuple(_row(since, told.rig, name, gain, unit) for name, gain in changed),
        notes=tuple(
            filter(
                None,
                (
                    headline(told, unit),
                    *stale_notes(log, session, preferences, now),
                    say(CAUTION),
                ),
            )
        ),
    )


def _row(since: Since, rig: Rig, name: str, gain: Measured, unit: str) -> Row:
    remark = ""
    if name in since.now.loads:
        now, was = (mass_text(each.loads[name], unit) for each in (since.now, since.before))
        remark = say("{now}, was {was}", now=now, was=was)
    return Row(sentence(load_name(name, rig)), _gain(name, gain, unit), remark)


def _changed(since: Since) -> list[tuple[str, Measured]]:
    changes = since.changes
    named = [(name, changes[name]) for name in ORDER if name in changes]
    return [(name, gain) for name, gain in named if abs(gain.nominal_value) > ROUNDING]


ROUNDING = 0.2
"""Kilograms: less than half a pound is the rounding of a sum."""


def _gain(name: str, gain: Measured, unit: str) -> str:
    return mass_text(gain, unit, derived=name == TONGUE, sign=True)


def _when(since: Since, preferences: Preferences) -> str:
    zone = ZoneInfo(preferences.time_zone)
    before, now = (each.at.astimezone(zone) for each in (since.before, since.now))
    if before.date() == now.date():
        return clock(before, preferences.units)
    return moment(before, preferences)
