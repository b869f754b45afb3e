"""What an edited message changes: its entries as read before, as they stand, and as read now.

This file decides that an edit changes what its author changed and nothing else: a figure that
the new text leaves as it was keeps whatever others have corrected it to meanwhile, so that
neither of two people loses a change. Where both changed one figure, the edit stands. It does
not know how entries are kept or replaced.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, fields, replace
from typing import Any

from domain.corrections import figures
from domain.entries import Entry, ImpossibleEntry, Weighing
from domain.log import Logged


@dataclass(frozen=True, slots=True)
class Line:
    """One entry of a message: as it was read, and what stands of it (None: taken back since)."""

    read: Entry
    standing: Logged[Entry] | None


@dataclass(frozen=True, slots=True)
class Anew:
    """One entry as the edited message is read. `says` is what the logbook says from now on.

    `line` is the line that it takes the place of; without one it is new. Where `says` is None
    nothing changes: the line stands, or stays taken back.
    """

    read: Entry
    says: Entry | None
    line: Line | None = None


@dataclass(frozen=True, slots=True)
class Revision:
    """What an edit does: the entries of the new text in its order, and the lines that are gone."""

    anew: tuple[Anew, ...]
    gone: tuple[Line, ...]


def revised(lines: Sequence[Line], entries: Sequence[Entry]) -> Revision:
    """Hold the new reading against the old one: equal entries first, then one of each kind."""
    left = list(lines)
    partners: list[Line | None] = [_take(left, entry, _equal) for entry in entries]
    partners = [
        partner or _take(left, entry, _same_kind)
        for partner, entry in zip(partners, entries, strict=True)
    ]
    return Revision(
        tuple(_anew(entry, line) for entry, line in zip(entries, partners, strict=True)),
        tuple(left),
    )


def _take(left: list[Line], entry: Entry, fits: Any) -> Line | None:
    found = next((line for line in left if fits(line.read, entry)), None)
    if found is not None:
        left.remove(found)
    return found


def _equal(one: Entry, other: Entry) -> bool:
    return one == other


def _same_kind(one: Entry, other: Entry) -> bool:
    return type(one) is type(other)


def _anew(entry: Entry, line: Line | None) -> Anew:
    if line is None:
        return Anew(entry, entry)
    if line.read == entry:
        return Anew(entry, None, line)
    if line.standing is None:
        return Anew(entry, entry)
    merged = merge(line.read, entry, line.standing.entry)
    return Anew(entry, None if merged == line.standing.entry else merged, line)


def merge(before: Entry, after: Entry, standing: Entry) -> Entry:
    """The standing entry with what changed from `before` to `after`; all three of one kind."""
    if not type(before) is type(after) is type(standing):
        return after
    values: dict[str, Any] = {
        name: getattr(after if getattr(after, name) != getattr(before, name) else standing, name)
        for name in (each.name for each in fields(after))
        if name not in ("loads", "words")
    }
    if isinstance(before, Weighing) and isinstance(after, Weighing):
        values["loads"] = _merged_loads(before, after, standing)
    try:
        return replace(after, **values)
    except ImpossibleEntry:
        # The two changes do not go together; the newer text is the newer word.
        return after


def _merged_loads(before: Weighing, after: Weighing, standing: Entry) -> dict[str, Any]:
    loads = dict(standing.loads) if isinstance(standing, Weighing) else {}
    for position in dict.fromkeys((*before.loads, *after.loads)):
        now = after.loads.get(position)
        if now == before.loads.get(position):
            continue
        if now is None:
            loads.pop(position, None)
        else:
            loads[position] = now
    return loads


def differences(before: Entry, after: Entry) -> tuple[str, ...]:
    """The fields in which two entries of one kind differ, by the names that corrections use."""
    was, now = figures(before), figures(after)
    named = [name for name in dict.fromkeys((*was, *now)) if was.get(name) != now.get(name)]
    plain = [
        each.name
        for each in fields(after)
        if each.name not in ("loads", "words", "value")
        and each.name not in was
        and each.name not in now
        and getattr(before, each.name, None) != getattr(after, each.name)
    ]
    return (*named, *plain)
