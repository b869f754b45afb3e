"""What is logged late: 'forgot to log yesterday's fill: 24 gal at 51,150'.

This file decides that what a message states was so on an earlier day, so that its odometer may
read less than the last one that is known, that a fill which was left out is the one told, and that
one is missing before it.
"""

from __future__ import annotations

from datetime import datetime

from domain.reading.scene import Scene
from domain.reading.times import has_times, local_time, read_when
from domain.reading.tokens import NUMBER, TIME, Token


def is_of_earlier_day(scene: Scene) -> bool:
    """Whether a message tells of a day before the one on which it was sent."""
    when = read_when(scene) if has_times(scene) else None
    if when is None:
        return False
    day = when.date() if isinstance(when, datetime) else when
    return day < local_time(scene.context).date()


def _is_left_out_fill(scene: Scene, missed: int) -> bool:
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


def leaves_one_out(scene: Scene) -> bool:
    """'there's a fill I never logged': a fill and a word for leaving it out, in one clause."""
    if "missed" in scene.by_class:
        return not _is_left_out_fill(scene, scene.by_class["missed"][0])
    if "missed_verb" not in scene.by_class:
        return False
    for index, _, _ in scene.find("missed_verb"):
        start, end = scene.clause_of(index)
        if any(_is_fill(scene, token) for token in scene.tokens[start:end]):
            return not _is_left_out_fill(scene, index)
        if _filled_then(scene, index, end):
            return True
    return False


def _filled_then(scene: Scene, missed: int, end: int) -> bool:
    """'forgot to log it when we gassed up Thursday, but today it took ...': one, and then this."""
    poured = [*scene.by_class.get("fuel_cue", ()), *scene.by_class.get("full", ())]
    fuelled = any(missed < at < end for at in poured)
    if not fuelled or any(missed < figure.start < end for figure in scene.figures):
        return False
    return scene.phrase_said("this_fill", end) is not None


def dates_missed(scene: Scene) -> bool:
    """'forgot to text when we filled up friday. this one is 22.1 gal': the day is of the other."""
    told = {*scene.by_class.get("time", ())}
    told.update(index for index, token in enumerate(scene.tokens) if token.kind is TIME)
    return bool(told) and any(
        start <= min(told)
        and max(told) < end
        and not any(start <= figure.start < end for figure in scene.figures)
        and scene.phrase_said("this_fill", end) is not None
        for start, end in [scene.clause_of(index) for index in scene.by_class["missed_verb"]]
    )


def dates_earlier(scene: Scene) -> bool:
    """'the last fill was two days ago, 24.6 gal today': the day is of the fill before this one."""
    at = next(at for at, token in enumerate(scene.tokens) if "ago" in token.groups)
    start, end = scene.clause_of(at)
    earlier = scene.phrase_said("earlier_fill", start, end) is not None
    return earlier and scene.phrase_said("this_fill", end) is not None


def _is_fill(scene: Scene, token: Token) -> bool:
    """'fillup', 'the previous fillup'."""
    last = token.text.rpartition(" ")[2]
    return "fill_noun" in token.groups or last in scene.book.groups["fill_noun"]
