"""Work on the truck that is logged at a reading, by a noun: 'oil change 51,301', 'tire rotation'.

This file decides which words name work, and that it was done where the odometer is told beside it.
What was done in a verb ('greased the bearings') is decided in `checks`.
"""

from __future__ import annotations

from domain.reading.scene import Scene

WORK = frozenset(("names_work", "names_work_behind", "put_right", "chore_done"))
"""Groups of words for work, and for what was done to a part."""

DONE_TO_IT = frozenset(("put_right", "chore_done"))
"""Those of them for what was done to a part."""


def worked_on(scene: Scene, index: int) -> int | None:
    """Behind which token the name of a part that was worked on ends; None where it was not.

    'tire rotation 51,300' names both; 'oil changed yesterday at 51,300' the part alone.
    """
    start, end = scene.sentence_of(index)
    read = any(
        figure.role == "odometer" and start <= figure.start < end for figure in scene.figures
    )
    if any("coming_up" in token.groups for token in scene.tokens[start:end]):
        return None
    if not (read or _several_worked_on(scene)):
        return None
    if "names_work" in scene.tokens[index].groups:
        return index + 1
    behind = scene.tokens[index + 1 : index + 2]
    if not behind or behind[0].groups.isdisjoint(WORK):
        return None
    return index + 2 if "names_work_behind" in behind[0].groups else index + 1


def _several_worked_on(scene: Scene) -> bool:
    """'oil changed, filter changed': two parts, each with what was done to it right behind."""
    worked = [
        index
        for index in scene.by_class.get("check_item", ())
        if any(token.groups & DONE_TO_IT for token in scene.tokens[index + 1 : index + 2])
        and scene.stated(index + 1)
    ]
    return len(worked) > 1
