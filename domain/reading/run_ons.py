"""What a long message tells in one of its clauses, where all the rest of it is talk.

This file decides where in a message without stops somebody comes to what was done, and that it is
told for sure there. What the clause says is read as a message of its own.
"""

from __future__ import annotations

from domain.entries import Entry, Fill, Weighing
from domain.reading.scene import Scene
from domain.reading.talk import we_do
from domain.verdicts import Facts, Verdict

LONGEST_SAID = 30
"""Tokens: what has more, and no end, is told as people talk."""

LOADS_TOLD = 3
"""Loads of a weighing that is told for sure."""


def rest_of_run_on(scene: Scene) -> str | None:
    """A message from where it comes to what we did and then tells figures; None for another."""
    if not scene.figures or "leads_clause" not in scene.groups:
        return None
    starts = [
        token.end
        for index, token in enumerate(scene.tokens[: scene.figures[0].start])
        if "leads_clause" in token.groups
        and (we_do(scene, index + 1) or _we_weighed(scene, index + 1))
    ]
    return scene.text[starts[-1] :].lstrip() if starts else None


def _we_weighed(scene: Scene, index: int) -> bool:
    """'we crossed that scale': a scale is named right behind what we did."""
    who, behind = scene.tokens[index : index + 1], scene.tokens[index + 1 : index + 1 + NEAR]
    return bool(who) and "we" in who[0].groups and any("weigh_cue" in t.senses for t in behind)


NEAR = 3
"""Tokens from who did something to the scale: 'crossed that scale'."""


def is_sure(verdict: Verdict) -> bool:
    """Whether a fill with what it cost is told, or the loads of a whole rig."""
    return isinstance(verdict, Facts) and all(map(_is_told_whole, verdict.entries))


def _is_told_whole(entry: Entry) -> bool:
    if isinstance(entry, Fill):
        return entry.volume is not None and (entry.cost or entry.unit_price) is not None
    return isinstance(entry, Weighing) and len(entry.loads) >= LOADS_TOLD
