"""The walk-round: what was looked at before pulling away, by whom, and what is not right.

This file decides which point a check ticks, and how long a fault is carried: until somebody
logs it as put right, however many trips later. The points come with their table
(`shared/reference/walkround.toml`); the owner adds one, or drops it, with a rating whose
subject is `walk-round`, named as the point, 1 or 0.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from datetime import datetime
from typing import Any

from domain.entries import EVERY_ONE, MENDED, Check, Rating
from domain.log import Log, Logged
from domain.rig import rig_of

SUBJECT = "walk-round"


@dataclass(frozen=True, slots=True, kw_only=True)
class Point:
    """One thing to look at, and what people call it."""

    name: str
    words: frozenset[str] = frozenset()
    not_on_fifth_wheels: bool = False

    def means(self, item: str) -> bool:
        """Whether a checked item is this point."""
        return item.casefold() == self.name.casefold() or item.casefold() in self.words


@dataclass(frozen=True, slots=True, kw_only=True)
class PointsTable:
    """The usual points, and the words for having done them all."""

    points: tuple[Point, ...]
    whole: frozenset[str]


@dataclass(frozen=True, slots=True, kw_only=True)
class WalkRound:
    """The points ticked since a moment, each with its check, those left, and the open faults."""

    ticked: Mapping[str, Logged[Check]]
    left: tuple[str, ...]
    faults: tuple[Logged[Check], ...]

    @property
    def begun(self) -> bool:
        """Whether anything was ticked."""
        return bool(self.ticked)


def points_table_from(table: Mapping[str, Any]) -> PointsTable:
    """The usual points from their table; raises KeyError where a field lacks."""
    return PointsTable(
        points=tuple(
            Point(
                name=row["name"],
                words=frozenset(row["words"]),
                not_on_fifth_wheels=row.get("not_on_fifth_wheels", False),
            )
            for row in table["point"]
        ),
        whole=frozenset(table["whole"]["words"]),
    )


def point_of(item: str, table: PointsTable) -> Point | None:
    """The usual point that an item's name means, or None."""
    return next((point for point in table.points if point.means(item)), None)


def points_of(log: Log, table: PointsTable) -> tuple[Point, ...]:
    """The owner's points: the usual ones, with those added and without those dropped.

    What the trailer that is towed does not have is none of them.
    """
    in_bed = rig_of(log).is_fifth_wheel
    points = {
        point.name.casefold(): point
        for point in table.points
        if not (in_bed and point.not_on_fifth_wheels)
    }
    for each in log.of(Rating):
        if each.entry.subject != SUBJECT:
            continue
        name = each.entry.rating.casefold()
        known = next((key for key, point in points.items() if point.means(name)), name)
        if each.entry.value:
            points.setdefault(known, Point(name=each.entry.rating))
        else:
            points.pop(known, None)
    return tuple(points.values())


def walk_round(log: Log, table: PointsTable, since: datetime | None) -> WalkRound:
    """How the walk-round stands since a moment (of hitching or leaving)."""
    points = points_of(log, table)
    checks = log.of(Check)
    faults = open_faults(checks)
    ticked: dict[str, Logged[Check]] = {}
    for each in checks:
        if each.entry.state != "done" or (since is not None and each.at < since):
            continue
        whole = each.entry.item.casefold() in table.whole
        for point in points:
            if whole or point.means(each.entry.item):
                ticked[point.name] = each
    for fault in faults:
        for point in points:
            if point.means(fault.entry.item):
                ticked.pop(point.name, None)
    return WalkRound(
        ticked=ticked,
        left=tuple(point.name for point in points if point.name not in ticked),
        faults=faults,
    )


def open_faults(checks: Sequence[Logged[Check]]) -> tuple[Logged[Check], ...]:
    """Faults that nobody has logged as put right, oldest first."""
    standing: list[Logged[Check]] = []
    for each in checks:
        settled = put_right(each.entry, standing)
        standing = [fault for fault in standing if fault not in settled]
        if each.entry.state == "fault":
            standing.append(each)
    return tuple(standing)


def put_right(later: Check, standing: Sequence[Logged[Check]]) -> tuple[Logged[Check], ...]:
    """The faults that a later check settles, of those that are open."""
    mends = _mended_by(later, standing)
    return tuple(fault for fault in standing if fault is mends or _settles(later, fault.entry))


def _mended_by(later: Check, standing: Sequence[Logged[Check]]) -> Logged[Check] | None:
    """'lights fixed' is of the only lights that are at fault: 'trailer lights'.

    Of several it is not said which, and all stay open.
    """
    if later.state != "done" or not any(name == MENDED for name, _ in later.words):
        return None
    said = later.item.casefold().removesuffix("s")
    alike = [
        fault
        for fault in standing
        if fault.entry.item.casefold().removesuffix("s").endswith(f" {said}")
        and _of_same_trailer(later, fault.entry)
    ]
    return alike[0] if len(alike) == 1 else None


def _of_same_trailer(later: Check, fault: Check) -> bool:
    """Whether neither names a trailer that the other does not."""
    if not (later.trailer and fault.trailer):
        return True
    return later.trailer.casefold() == fault.trailer.casefold()


def _settles(later: Check, fault: Check) -> bool:
    """Whether a later check is about the same thing: named alike, or by its closer part.

    'marker light fixed' settles 'left marker light', and so does 'all marker lights work';
    'lights done' does not.
    """
    if not _of_same_trailer(later, fault):
        return False
    said, faulty = later.item.casefold().split(), fault.item.casefold().split()
    if later.state == "done" and any(name == EVERY_ONE for name, _ in later.words):
        one, broken = (" ".join(each).removesuffix("s") for each in (said, faulty))
        return broken == one or broken.endswith(f" {one}")
    return said == faulty or (
        later.state == "done" and len(said) > 1 and faulty[-len(said) :] == said
    )
