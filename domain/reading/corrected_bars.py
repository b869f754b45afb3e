"""Corrections of how the spread bars were: 'that weigh was with the bars off, not on'.

This file decides when a message without figures says that of the last weighing.
"""

from __future__ import annotations

from domain.entries import Correction
from domain.reading.corrected_fields import strangers
from domain.reading.figures import token_at
from domain.reading.scene import Scene
from domain.reading.tokens import MARK

OTHER_WAY = {"on": "off", "off": "on"}

LONGEST = 12
"""Tokens of a message that says so, and nothing else."""


def bars_meant(scene: Scene) -> Correction | None:
    """'bars were off, not on', 'sorry, that was with the bars off'."""
    if "bars" not in scene.by_class or len(scene.tokens) > LONGEST or "?" in scene.text:
        return None
    if any(figure.claimed is None for figure in scene.figures) or strangers(scene):
        return None
    (index, _, key), *more = scene.find("bars")
    if not more and _is_denied(scene, index + 1, OTHER_WAY[key]):
        return Correction(action="amend", field="bars", value=key, was=OTHER_WAY[key])
    restated = any("opens_correction" in token.groups for token in scene.tokens)
    if more or not restated or not _were(scene, index):
        return None
    return Correction(action="amend", field="bars", value=key)


def _were(scene: Scene, index: int) -> bool:
    """'that was with the bars off', 'bars were on': how they were then, and nothing behind."""
    said = scene.tokens[index].text.split()
    before = scene.tokens[index - 1].groups if index else frozenset()
    past = "was_then" in before or not scene.book.groups["was_then"].isdisjoint(said)
    behind = scene.tokens[index + 1 :]
    return past and all(each.kind is MARK or "opens_correction" in each.groups for each in behind)


def _is_denied(scene: Scene, index: int, other: str) -> bool:
    """Whether 'not on' stands behind: the other way, and denied."""
    while (mark := token_at(scene.tokens, index)) is not None and mark.raw == ",":
        index += 1
    denies, way = token_at(scene.tokens, index), token_at(scene.tokens, index + 1)
    if denies is None or way is None or "contrasts" not in denies.groups:
        return False
    return scene.book.means("bars", way.text).get("bars") == other
