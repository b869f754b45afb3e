"""Stops of which each is told by the same figures in turn: '18.1 gal at 51,310, 22.7 at 51,620'.

This file decides it by the figures alone: a volume and a reading, a volume and what was paid, or
all three, again and again in one order. What is told of a stop in words is read elsewhere.
"""

from __future__ import annotations

from collections.abc import Sequence

from domain.reading.figures import DISTANCE, MONEY, PRICE, VOLUME, Figure, follows_odometer
from domain.reading.fill_roles import price_band
from domain.reading.label import Label
from domain.reading.scene import Scene
from domain.reading.tank_sizes import is_one_of_tanks
from domain.reading.tokens import CENTS, TENTHS

FEWEST = 2
"""Figures of a stop, and stops."""

MOST_ALIKE = 8
"""What one stop took is never so many times what another did."""


def stops_in_turn(scene: Scene, live: Sequence[Figure], unit: str) -> list[int]:
    """Where each further stop begins; `unit` is that of a volume which is told without one.

    The figures of the stops are given the dimensions that they have in turn.
    """
    if sum([each.dimension == VOLUME or each.token.decimals == TENTHS for each in live]) < FEWEST:
        return []
    live = [each for each in live if not _numbers_a_stop(scene, each)]
    if "event" in scene.by_class and _is_read_behind(scene, live[-1]):
        live = live[:-1]
    kinds = [_kind(scene, figure, unit) for figure in live]
    stops = kinds.count(VOLUME)
    if stops < FEWEST or None in kinds or len(kinds) % stops:
        return []
    size = len(kinds) // stops
    pattern = kinds[:size]
    if size < FEWEST or kinds != pattern * stops or len(set(pattern)) < size:
        return []
    rows = [live[at : at + size] for at in range(0, len(live), size)]
    if not (_go_on(scene, rows, pattern) and _are_pumped(scene, rows, pattern, unit)):
        return []
    units = {VOLUME: unit, DISTANCE: scene.context.odometer_unit, MONEY: scene.context.currency}
    for figure, kind in zip(live, kinds, strict=True):
        if figure.dimension is None and kind in units:
            figure.unit, figure.dimension = units[kind], kind
    return [row[0].start for row in rows[1:]]


def _numbers_a_stop(scene: Scene, figure: Figure) -> bool:
    """'stop 1 22.1 gal': which of them it was."""
    before = scene.tokens[figure.start - 1] if figure.start else None
    named = before is not None and "fill_noun" in before.groups
    return named and figure.whole and figure.dimension is None and figure.value <= MOST_STOPS


MOST_STOPS = 9


def _is_read_behind(scene: Scene, last: Figure) -> bool:
    """'dorset 24.1 gal 93.99, pell 19.4 gal 75.66, home 51,544': where one came in the end."""
    start, end = scene.clause_of(last.start)
    others = [each for each in scene.figures if start <= each.start < end]
    happened = any(start <= at < last.start for at in scene.by_class["event"])
    return len(others) == 1 and happened and follows_odometer(last.value, scene.context)


def _kind(scene: Scene, figure: Figure, unit: str) -> str | None:
    """What a figure of a stop measures, by its unit or its form; None where it is no such one."""
    if figure.dimension in (VOLUME, MONEY, PRICE):
        return figure.dimension
    read = isinstance(figure.label, Label) and figure.label.field == "odometer"
    if figure.dimension == DISTANCE or read or follows_odometer(figure.value, scene.context):
        follows = figure.whole and follows_odometer(figure.value, scene.context)
        return DISTANCE if follows and (read or not _is_named(figure)) else None
    if figure.dimension is not None or _is_named(figure):
        return None
    low, high = price_band(scene.context, unit)
    if figure.token.decimals == TENTHS:
        return VOLUME
    if low <= figure.value <= high:
        return PRICE
    return MONEY if figure.token.decimals == CENTS else None


def _is_named(figure: Figure) -> bool:
    """Whether a figure is named as something of the rig; 'second' may be the next stop's."""
    return isinstance(figure.label, Label) and not figure.label.only_ordinal


def _go_on(scene: Scene, rows: Sequence[Sequence[Figure]], pattern: Sequence[str | None]) -> bool:
    """Whether the readings rise from stop to stop; without any, no tanks of one truck are told."""
    if DISTANCE not in pattern:
        return not any(is_one_of_tanks(scene, figure) for row in rows for figure in row)
    readings = [row[pattern.index(DISTANCE)].value for row in rows]
    return readings == sorted(set(readings))


def _are_pumped(
    scene: Scene, rows: Sequence[Sequence[Figure]], pattern: Sequence[str | None], unit: str
) -> bool:
    """Whether the volumes are alike, what was paid fits them, and one without a unit stands so."""
    low, high = price_band(scene.context, unit)
    volumes = [row[pattern.index(VOLUME)] for row in rows]
    if max(each.value for each in volumes) > MOST_ALIKE * min(each.value for each in volumes):
        return False
    for row, volume in zip(rows, volumes, strict=True):
        if volume.foreign is not None or volume.unit not in (None, unit):
            return False
        if volume.unit is None and _linked(scene, row) != _linked(scene, rows[0]):
            return False
        if MONEY in pattern:
            paid = row[pattern.index(MONEY)].value
            if not low * volume.value <= paid <= high * volume.value:
                return False
    return True


def _linked(scene: Scene, row: Sequence[Figure]) -> list[str]:
    """The words between the figures of a stop: 'at', in '18.1 gal at 51,310'."""
    figures = {at for figure in row for at in range(figure.start, figure.end)}
    between = range(row[0].end, row[-1].start)
    return [scene.tokens[at].text for at in between if at not in figures]
