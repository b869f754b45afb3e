"""What is logged late: 'forgot to log yesterday's fill: 24 gal at 51,150'.

This file decides that what a message states was so on an earlier day, so that its odometer may
read less than the last one that is known, and that a fill which was left out is the one told.
"""

from __future__ import annotations

from datetime import datetime

from domain.reading.scene import Scene
from domain.reading.times import has_times, local_time, read_when
from domain.reading.tokens import NUMBER


def is_of_earlier_day(scene: Scene) -> bool:
    """Whether a message tells of a day before the one on which it was sent."""
    when = read_when(scene) if has_times(scene) else None
    if when is None:
        return False
    day = when.date() if isinstance(when, datetime) else when
    return day < local_time(scene.context).date()


def is_left_out_fill(scene: Scene, missed: int) -> bool:
    """'forgot to log yesterday's fill: 24 gal': the fill that was left out is told right behind.

    `missed` is where a word says that one was left out.
    """
    _, end = scene.sentence_of(missed)
    behind = scene.tokens[missed + 1 : end]
    first = next((at for at, each in enumerate(behind) if each.kind is NUMBER), 0)
    if not any(each.raw == ":" for each in behind[:first]):
        return False
    told_of_this = any("this_fill" in each.groups for each in behind)
    return not told_of_this and scene.phrase_said("earlier_fill", missed, end) is None
