"""Corrections of how full a tank was: 'that last fill was only partial', 'it did get full'.

This file decides when a message says that the last fill was full or was not, and for which reason
that is no matter of the log ('the restaurant wasn't full').
"""

from __future__ import annotations

from domain.entries import Correction
from domain.reading.corrected_fields import strangers
from domain.reading.figures import token_at
from domain.reading.filled_up import left_out
from domain.reading.scene import Scene
from domain.reading.talk import OTHER_VEHICLE, PLAN, REQUEST
from domain.reading.tokens import Token


def full_or_partial(scene: Scene) -> Correction | None:
    """'that last fill was only partial actually', 'my mistake, it did get full'."""
    if any(figure.claimed is None for figure in scene.figures) or not scene.has("full"):
        return None
    behind = scene.tokens[1:2]
    if "inverts" in scene.tokens[0].groups and behind and "points_back" in behind[0].groups:
        return None  # 'was it a full tank'
    end = _end_before_reason(scene)
    said = scene.tokens[:end]
    words = {word for token in said for word in token.text.split()}
    of_fill = words & scene.book.groups["of_fill"]
    pointed = words & scene.book.groups["points_back"]
    restated = any("opens_correction" in token.groups for token in said) or bool(
        words & scene.book.groups["restates_fill"]
    )
    plain = bool(of_fill and pointed and restated)
    if not plain and not (restated and len(said) <= MOST_OF_FULL):
        return None
    if strangers(scene, end) > (1 if plain else 0):
        return None
    if not plain and any(map(_holds, said)):
        return None  # 'and my apartment is only half full'
    if "water_tank" in scene.groups:
        return None  # 'fresh water tank was low, topped it up'
    for index, _, key in scene.find("full"):
        if scene.talk[index] in (PLAN, REQUEST):
            continue  # 'gonna fill up in the morning, dont wait on me'
        if _full_of_things(scene, index) or left_out(scene, index):
            continue
        behind = scene.tokens[max(0, index - 1) : index + 1]
        if "points_back" in behind[0].groups and "fill_itself" in behind[-1].groups:
            continue  # 'that fill-up was thursday'
        before = {token.text for token in scene.tokens[:index]}
        denied = key == "true" and bool(before & scene.book.groups["denies"])
        return Correction(action="amend", field="full", value=key == "true" and not denied)
    return None


MOST_OF_FULL = 6
"""Tokens that say that it was full or not, where none of them is of a fill."""


def _full_of_things(scene: Scene, index: int) -> bool:
    """'full of people': of what no tank holds."""
    of, what = token_at(scene.tokens, index + 1), token_at(scene.tokens, index + 2)
    if of is None or what is None or "of" not in of.groups:
        return False
    return "product" not in what.senses and "fuel" not in what.groups


def _end_before_reason(scene: Scene) -> int:
    """'it wasn't full, the pump quit': where the clause of it ends, if what follows is why."""
    at = scene.by_class["full"][0]
    _, end = scene.clause_of(at)
    behind = scene.tokens[end:]
    reasoned = any("cuts_short" in token.groups for token in behind)
    return end if reasoned and len(behind) <= MOST_OF_REASON else len(scene.tokens)


MOST_OF_REASON = 8


def _holds(token: Token) -> bool:
    """'the bus', 'my plate': what is no tank can be full, too."""
    return not HOLDS.isdisjoint(token.senses) or token.senses.get("talk") == OTHER_VEHICLE


HOLDS = frozenset(
    ("claim", "rating_subject", "rating_cue", "check_item", "subject", "thing", "spot", "vehicle")
)
"""Classes of other things that can be full."""
