"""What a correction means: which entry it is about, and what that entry should say.

This file decides how 'make that 5,230', 'I meant drive not trailer' and 'scratch that' bind
to what was texted before. A correction that could mean two figures is put back to the texter
as choices, never guessed. It does not know how entries are kept or replaced.
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, fields, replace
from datetime import UTC, date, datetime, time, tzinfo
from typing import Any

from rapidfuzz.distance import OSA

from domain.entries import (
    DAY_SAID,
    KIND_NAMES,
    KINDS,
    POSITIONS,
    Cargo,
    Correction,
    Entry,
    Fill,
    Observation,
    Rating,
    Weighing,
)
from domain.log import Logged
from domain.quantities import MixedDimensions, Quantity, UnknownUnit

Value = Quantity | float | str | bool


@dataclass(frozen=True, slots=True, kw_only=True)
class Change:
    """What one message did: the entries that it left standing, and those that it took back."""

    kept: tuple[Logged[Entry], ...]
    replaced: tuple[Logged[Entry], ...] = ()


@dataclass(frozen=True, slots=True)
class Amended:
    """One entry says something else now. `field` names what changed."""

    before: Logged[Entry]
    after: Entry
    field: str


@dataclass(frozen=True, slots=True)
class Redated:
    """Entries that happened at another time, each as it was logged and as it stands now."""

    entries: tuple[tuple[Logged[Entry], Entry], ...]


@dataclass(frozen=True, slots=True)
class Withdrawn:
    """Entries taken back, and those which they had replaced and which count again."""

    entries: tuple[Logged[Entry], ...]
    restored: tuple[Logged[Entry], ...] = ()


@dataclass(frozen=True, slots=True)
class Unclear:
    """It does not bind: nothing fits (no choices), or several figures do, each a choice."""

    why: str
    choices: tuple[Amended, ...] = ()


Outcome = Amended | Redated | Withdrawn | Unclear

NOTHING_TO_UNDO = "nothing to undo"
NOTHING_FITS = "nothing fits"
NO_SUCH_FIGURE = "no such figure"
SEVERAL_FIT = "several fit"
WRONG_MEASURE = "wrong measure"
ALREADY_SO = "already so"

TRAILER = "trailer"
"""A load of a weighing, and in any entry the name of the trailer that it is of."""

TIME = "at"
"""The field that says when an entry happened."""

REACH = 5
"""How many messages with figures a bare 'make that ...' looks back over."""

MOST_DIGITS_OFF = 2.5
LIKELY_RATIO = math.log(1.35)
SLIPPED_RATIO = math.log(11)
CLEAR_LEAD = 0.75
"""When a bare figure can be a correction of another: nearly its size, or one slip of the thumb
away (a digit dropped or doubled is at most a factor of ten), and clearly nearer than any other.
Common practice, no source."""


def bind(correction: Correction, recent: Sequence[Change], zone: tzinfo | None = None) -> Outcome:
    """What a correction does to what was texted before, the newest change first.

    `zone` is where the day begins on which something that is to be undone happened; UTC if None.
    """
    if correction.action == "undo":
        return _undo(recent, correction, zone or UTC)
    if correction.about is not None:
        recent = [told for each in recent if (told := _told_of(each, correction)) is not None]
        if not recent:
            return Unclear(NO_SUCH_FIGURE)
    if correction.field == TIME:
        return _redated(correction, recent, zone or UTC)
    if correction.field is not None and _names_a_field(correction.was):
        return _moved(str(correction.was), correction, recent)
    value, was = correction.value, correction.was
    if value is None:
        return Unclear(NOTHING_FITS)
    if correction.field is not None:
        return _named(correction.field, value, was, recent)
    if was is not None:
        return _by_old_value(value, was, recent)
    return _nearest(value, recent)


def figures(entry: Entry) -> Mapping[str, Quantity | float]:
    """Every figure of an entry under the name by which a correction can call it."""
    found: dict[str, Quantity | float] = {}
    match entry:
        case Weighing():
            found |= entry.loads
        case Rating():
            return {entry.rating: entry.value}
        case Observation():
            return {entry.subject: entry.value}
        case _:
            pass
    for each in fields(entry):
        value = getattr(entry, each.name)
        if isinstance(value, Quantity):
            found[each.name] = value
    return found


def stated(entry: Entry, field: str, *, by_name: bool = False) -> Value | None:
    """What an entry says in a field, by any name that `figures` knows, or None.

    A weighing's trailer is a load and, `by_name`, the one that stood on the scale.
    """
    found = None if by_name else figures(entry).get(field)
    if found is not None:
        return found
    return getattr(entry, field) if field in _plain_fields(entry) else None


def changed(entry: Entry, field: str, value: Value) -> Entry | None:
    """The entry with a field set; None where its kind has no such field, or not so measured."""
    words = tuple(pair for pair in entry.words if pair[0] not in (field, f"loads.{field}"))
    if isinstance(entry, Weighing) and field in POSITIONS and not isinstance(value, str):
        load = _as_stated(value, entry.loads.get(field) or next(iter(entry.loads.values())))
        if not isinstance(load, Quantity):
            return None
        return _with_loads(replace(entry, words=words), {**entry.loads, field: load})
    own = "value" if field in figures(entry) and field not in _plain_fields(entry) else field
    if own not in _plain_fields(entry):
        return None
    mended: dict[str, Any] = {own: _as_stated(value, getattr(entry, own))}
    return None if mended[own] is None else replace(entry, words=words, **mended)


def _plain_fields(entry: Entry) -> frozenset[str]:
    return frozenset(each.name for each in fields(entry)) - {"loads", "words", "at"}


def _as_stated(value: Value, before: object) -> Value | None:
    """A corrected value in the unit of the old one where it has none; None where they differ."""
    if isinstance(before, Quantity):
        if isinstance(value, Quantity):
            return value if _same_measure(value, before) else None
        is_number = isinstance(value, int | float) and not isinstance(value, bool)
        return Quantity(float(value), before.unit) if is_number else None
    if before is None or isinstance(before, type(value)):
        return value
    numbers = isinstance(before, int | float) and isinstance(value, int | float)
    return value if numbers else None


def _same_measure(one: Quantity, other: Quantity) -> bool:
    if one.unit == other.unit:
        return True
    try:
        one.to(other.unit)
    except (MixedDimensions, UnknownUnit):
        return False
    return True


def _with_loads(weighing: Weighing, loads: Mapping[str, Quantity]) -> Weighing:
    """A weighing with other loads; 'hitched' that followed from a trailer axle goes with it."""
    said = any(name == "rig" for name, _ in weighing.words)
    rig = weighing.rig
    if not said and _shows_trailer(weighing.loads) != _shows_trailer(loads):
        rig = "hitched" if _shows_trailer(loads) else None
    return replace(weighing, loads=loads, rig=rig)


def _shows_trailer(loads: Mapping[str, Quantity]) -> bool:
    return any(position.startswith("trailer") for position in loads)


def _undo(recent: Sequence[Change], undo: Correction, zone: tzinfo) -> Outcome:
    """What the last message did is undone; of what is named, the last one that did any.

    A kind, a figure or a day may name it; what else such a message stated stays.
    """
    kinds = [kind for kind, _ in undo.words]
    if undo.was is not None or undo.at is not None:
        return _undo_named(recent, undo, kinds, zone)
    for change in recent:
        kept, replaced = (_of_kinds(each, kinds) for each in (change.kept, change.replaced))
        if kept or (replaced and not kinds):
            return Withdrawn(kept, replaced)
    return Unclear(NOTHING_TO_UNDO)


def _undo_named(
    recent: Sequence[Change], undo: Correction, kinds: Sequence[str], zone: tzinfo
) -> Outcome:
    """'delete the fill at 48,260', 'the weighing from yesterday': out, and nothing in its place."""
    for change in recent:
        that_day = tuple(each for each in change.kept if _is_of_day(each, undo, zone))
        stating = tuple(each for each in that_day if _states(each.entry, undo.was))
        # 'odo 48,260, 21 gal': the reading that names the fill may be an entry of its own.
        meant = _of_kinds(that_day if stating else (), kinds) if kinds else stating
        if meant:
            return Withdrawn(meant)
    return Unclear(NOTHING_TO_UNDO if undo.was is None else NO_SUCH_FIGURE)


def _states(entry: Entry, was: Value | None) -> bool:
    if isinstance(was, str):
        return _same(entry.item if isinstance(entry, Cargo) else entry.place, was)
    return was is None or any(_same(each, was) for each in figures(entry).values())


def _is_of_day(logged: Logged[Entry], undo: Correction, zone: tzinfo) -> bool:
    if undo.at is None:
        return True
    day = undo.at.astimezone(zone).date() if isinstance(undo.at, datetime) else undo.at
    return logged.at.astimezone(zone).date() == day


def _of_kinds(
    entries: tuple[Logged[Entry], ...], kinds: Sequence[str]
) -> tuple[Logged[Entry], ...]:
    if not kinds:
        return entries
    return tuple(each for each in entries if KIND_NAMES[type(each.entry)] in kinds)


def _told_of(change: Change, correction: Correction) -> Change | None:
    """'the 51,402 fill should be 24.6 gal': what a message told of it, if it told that figure.

    'odo 51,402, 24.1 gal': the reading that names the fill may be an entry of its own.
    """
    stating = tuple(each for each in change.kept if _states(each.entry, correction.about))
    own = [each for each in stating if _has_field(each.entry, correction)]
    return replace(change, kept=stating if own else change.kept) if stating else None


def _has_field(entry: Entry, correction: Correction) -> bool:
    field, value = correction.field, correction.value
    if field == TIME:
        return not _kinds_named(correction) or KIND_NAMES[type(entry)] in _kinds_named(correction)
    return field is None or (value is not None and changed(entry, field, value) is not None)


def _kinds_named(correction: Correction) -> list[str]:
    return [kind for kind, _ in correction.words if kind in KINDS]


def _redated(correction: Correction, recent: Sequence[Change], zone: tzinfo) -> Outcome:
    """'that fill was yesterday': all of that kind in the newest message that states any."""
    kinds = _kinds_named(correction)
    for change in recent:
        meant = _of_kinds(change.kept, kinds)
        moments = [_moment(correction, each, zone) for each in meant]
        entries = tuple(
            (logged, replace(logged.entry, at=at))
            for logged, at in zip(meant, moments, strict=True)
            if not _is_then(logged, at, zone)
        )
        if meant:
            return Redated(entries) if entries else Unclear(ALREADY_SO)
    return Unclear(NOTHING_FITS)


def _moment(correction: Correction, logged: Logged[Entry], zone: tzinfo) -> datetime | date:
    """When an entry happened: the day that was said, or its own, at the time that was told of it.

    A clock time by itself is of the entry's own day, unless that was still to come.
    """
    said, was = str(correction.value), logged.entry.at
    if CLOCK_FOLLOWS not in said:
        day = date.fromisoformat(said)
        if not isinstance(was, datetime):
            return day
        return datetime.combine(day, was.astimezone(zone).time(), zone)
    moment = datetime.fromisoformat(said)
    if any(name == DAY_SAID for name, _ in correction.words):
        return moment
    clock: time = moment.astimezone(zone).time()
    return min(moment, datetime.combine(logged.at.astimezone(zone).date(), clock, zone))


CLOCK_FOLLOWS = "T"
"""What stands between the day and the clock time (ISO 8601)."""


def _is_then(logged: Logged[Entry], at: datetime | date, zone: tzinfo) -> bool:
    if isinstance(at, datetime):
        return at == logged.at
    return at == logged.at.astimezone(zone).date()


def _names_a_field(was: object) -> bool:
    return isinstance(was, str) and (was in POSITIONS or was in _ALL_FIELDS)


_ALL_FIELDS = frozenset(each.name for each in (*fields(Fill), *fields(Weighing)))


def _entries(recent: Sequence[Change]) -> Iterator[Logged[Entry]]:
    """Every standing entry, the newest first; within a message the last stated first."""
    for change in recent:
        yield from reversed(change.kept)


def _moved(source: str, correction: Correction, recent: Sequence[Change]) -> Outcome:
    """'I meant drive not trailer': the figure moves, or the two change places."""
    target = str(correction.field)
    for logged in _entries(recent):
        wheel = _of_other_wheel(logged.entry, source, target)
        if wheel is not None:
            return Amended(logged, wheel, "position")
        value = stated(logged.entry, source)
        if value is None:
            continue
        if correction.value is not None:
            value = correction.value
        other = stated(logged.entry, target)
        emptied = _emptied(logged.entry, source, target, value, other)
        if emptied is None:
            return Unclear(WRONG_MEASURE)
        return Amended(logged, emptied, target)
    return Unclear(NO_SUCH_FIGURE)


WHEELS = {
    "steer_left": "left front",
    "steer_right": "right front",
    "drive_left": "left rear",
    "drive_right": "right rear",
}
"""Where a gauge of a wheel was read, by the name of the load that rests there."""


def _of_other_wheel(entry: Entry, source: str, target: str) -> Entry | None:
    """'it was the right rear not the left rear': a tyre or hub that was read, at another wheel."""
    if not (isinstance(entry, Observation) and entry.position and source in WHEELS):
        return None
    before, _, _ = entry.position.rpartition(WHEELS[source])
    if target not in WHEELS or entry.position != before + WHEELS[source]:
        return None
    return replace(entry, position=before + WHEELS[target])


def _emptied(
    entry: Entry, source: str, target: str, value: Value, other: Value | None
) -> Entry | None:
    moved = changed(entry, target, value)
    if moved is None:
        return None
    if other is not None:
        return changed(moved, source, other)
    if isinstance(moved, Weighing) and source in moved.loads:
        return _with_loads(
            moved, {name: load for name, load in moved.loads.items() if name != source}
        )
    without: dict[str, Any] = {source: None}
    return replace(moved, **without) if source in _plain_fields(moved) else None


def _named(field: str, value: Value, was: Value | None, recent: Sequence[Change]) -> Outcome:
    """The field is named: the newest entry that states it (as `was`, where that is said)."""
    name = isinstance(value, str)
    told = [(each, stated(each.entry, field, by_name=name)) for each in _entries(recent)]
    stating = [each for each, said in told if said is not None]
    if name and field == TRAILER and was is None:
        stating = []  # 'that last one was the camper', whatever it said
    if was is not None:
        stating = [each for each, said in told if _same(said, was)]
        if not stating:
            return Unclear(NO_SUCH_FIGURE)
    # Words such as 'partial' or a place correct an entry that had left them open.
    for logged in stating or (each for each in _entries(recent)):
        after = changed(logged.entry, field, value)
        if after is not None:
            return Unclear(ALREADY_SO) if after == logged.entry else Amended(logged, after, field)
    return Unclear(WRONG_MEASURE if stating else NOTHING_FITS)


def _by_old_value(value: Value, was: Value, recent: Sequence[Change]) -> Outcome:
    """Only the wrong figure is named: the newest entry that states it."""
    for logged in _entries(recent):
        names = [
            name
            for name in (*figures(logged.entry), *_plain_fields(logged.entry))
            if _same(stated(logged.entry, name), was)
        ]
        found = [
            Amended(logged, after, name)
            for name in dict.fromkeys(names)
            if (after := changed(logged.entry, name, value)) is not None
        ]
        if found:
            return found[0] if len(found) == 1 else Unclear(SEVERAL_FIT, tuple(found))
    return Unclear(NO_SUCH_FIGURE)


def _same(one: object, other: object) -> bool:
    match one, other:
        case Quantity(), Quantity():
            near = SAME if one.unit == other.unit else CONVERTED
            return _same_measure(one, other) and math.isclose(
                one.amount(other.unit), other.value, rel_tol=near
            )
        case Quantity(), bool():
            return False
        case Quantity(), int() | float():
            return math.isclose(one.value, other, rel_tol=SAME)
        case str(), str():
            return one.casefold() == other.casefold()
    return one == other


SAME, CONVERTED = 1e-6, 1e-3
"""How near a figure is to the same one as it was said again, in its own unit and in another.

Two readings of one day differ by less than a thousandth: 88,379 and 88,455 mi."""


def _nearest(value: Value, recent: Sequence[Change]) -> Outcome:
    """A bare figure: the one it is most like among what was texted last."""
    if isinstance(value, bool | str):
        return Unclear(NOTHING_FITS)
    seen = 0
    for change in recent:
        rivals = sorted(_likeness(value, change.kept), key=lambda each: each[0])
        if rivals:
            best = rivals[0][0]
            close = tuple(amended for score, amended in rivals if score - best < CLEAR_LEAD)
            return close[0] if len(close) == 1 else Unclear(SEVERAL_FIT, close)
        seen += any(figures(each.entry) for each in change.kept)
        if seen == REACH:
            break
    return Unclear(NOTHING_FITS)


def _likeness(
    value: Quantity | float, entries: Sequence[Logged[Entry]]
) -> Iterator[tuple[float, Amended]]:
    """Each figure that the value may be meant to correct, with its distance from it."""
    for logged in entries:
        for name, old in figures(logged.entry).items():
            after = changed(logged.entry, name, value)
            if after is None or after == logged.entry:
                continue
            distance = _distance(
                value.value if isinstance(value, Quantity) else float(value),
                old.value if isinstance(old, Quantity) else float(old),
            )
            if distance is not None:
                yield distance, Amended(logged, after, name)


def _distance(new: float, old: float) -> float | None:
    """How unlike two figures are, in digits mistyped and in size; None where too unlike."""
    if new <= 0 or old <= 0:
        return None
    slips = OSA.distance(f"{new:.12g}", f"{old:.12g}")
    ratio = abs(math.log(new / old))
    near = ratio <= LIKELY_RATIO
    slipped = slips <= 1 and ratio <= SLIPPED_RATIO
    if not (near or slipped):
        return None
    return min(slips, MOST_DIGITS_OFF) + 10 * min(ratio, LIKELY_RATIO)
