"""Which checks in the log are of a thing that is asked about.

This file decides when two names mean one thing: named alike, one point of the walk-round, or one
kind of upkeep. A walk-round that was done whole is a check of every point.
"""

from __future__ import annotations

from collections.abc import Sequence

from domain.entries import Check
from domain.log import Log, Logged
from domain.upkeep import UpkeepTable
from domain.walkround import PointsTable, point_of


def checks_of(
    log: Log, item: str, trailer: str | None, table: UpkeepTable, points: PointsTable
) -> Sequence[Logged[Check]]:
    """The checks of an item, those of the trailer named where one is, in the order of the log."""
    whose = (trailer or "").casefold()
    return [
        each
        for each in log.of(Check)
        if _is_of(each.entry, item, table, points)
        and (not whose or (each.entry.trailer or whose).casefold() == whose)
    ]


def _is_of(check: Check, item: str, table: UpkeepTable, points: PointsTable) -> bool:
    said, asked = (each.casefold().removesuffix("s") for each in (check.item, item))
    if said == asked or said.endswith(f" {asked}") or table.chore(check.item) == table.chore(item):
        return True
    point = point_of(item, points)
    whole = check.state == "done" and check.item.casefold() in points.whole
    return point is not None and (whole or point.means(check.item))
