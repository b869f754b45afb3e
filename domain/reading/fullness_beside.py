"""How full the last fill was, and beside it what the odometer reads now.

'last fill not full, 51,402 now', 'last fill wasnt full. odo now 51,402': this file decides that
the reading is no fill's. How full the last fill was is decided in `corrected_fullness`.
"""

from __future__ import annotations

from collections.abc import Callable

from domain.entries import Odometer
from domain.reading.corrected_fullness import full_or_partial
from domain.reading.lexer import clean
from domain.reading.scene import Scene
from domain.verdicts import Facts, Verdict

LONGEST = 14
"""Tokens of both."""


def fullness_beside(scene: Scene, facts: Callable[[Scene], Verdict]) -> Facts | None:
    """A correction of the last fill, and the reading that is told with it; None where not so."""
    tokens = scene.tokens
    if len(scene.live) != 1 or len(scene.figures) != 1 or len(tokens) > LONGEST:
        return None
    if scene.phrase_said("earlier_fill") is None:
        return None
    start, end = scene.clause_of(scene.live[0].start)
    if start == 0 or end < len(tokens) or scene.phrase_said("this_fill", start) is None:
        return None  # 'last fill not full, 51,402' may be where that was
    cut = tokens[start].start
    found = full_or_partial(Scene(clean(scene.text[:cut]), scene.context, scene.book))
    read = facts(Scene(clean(scene.text[cut:]), scene.context, scene.book))
    if found is None or not isinstance(read, Facts):
        return None
    sole = all(isinstance(each, Odometer) for each in read.entries)
    return Facts((found, *read.entries)) if sole else None
