"""Corrections of how full a tank was: 'that last fill was only partial', 'it did get full'.

This file decides when a message says that the last fill was full or was not, and for which reason
that is no matter of the log ('the restaurant wasn't full').
"""

from __future__ import annotations

from itertools import pairwise

from domain.entries import Correction
from domain.reading.corrected_by_name import NAMES_ENTRY
from domain.reading.corrected_fields import strangers
from domain.reading.corrected_last import is_last_entry
from domain.reading.figures import token_at
from domain.reading.filled_up import left_out
from domain.reading.scene import Scene
from domain.reading.talk import OTHER_VEHICLE, PLAN, REQUEST
from domain.reading.tokens import MARK, Token


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
    marked = _is_marked(scene)
    restated = restated or marked or _is_told_late(scene, scene.by_class["full"][0])
    plain = bool(of_fill and pointed and restated)
    if not plain and not (restated and len(said) <= MOST_OF_FULL):
        return None
    if strangers(scene, end) > (1 if plain or marked else 0):
        return None
    if not plain and any(map(_holds, said)):
        return None  # 'and my apartment is only half full'
    if "water_tank" in scene.groups:
        return None  # 'fresh water tank was low, topped it up'
    for index, _, key in scene.find("full"):
        if scene.talk[index] in (PLAN, REQUEST) and not marked:
            continue  # 'gonna fill up in the morning, dont wait on me'
        if _full_of_things(scene, index):
            continue
        if left_out(scene, index) and not _is_told_late(scene, index):
            continue
        behind = scene.tokens[max(0, index - 1) : index + 1]
        if "points_back" in behind[0].groups and "fill_itself" in behind[-1].groups:
            continue  # 'that fill-up was thursday'
        before = {token.text for token in scene.tokens[:index]}
        denied = key == "true" and bool(before & scene.book.groups["denies"])
        return Correction(action="amend", field="full", value=key == "true" and not denied)
    return None


def _is_marked(scene: Scene) -> bool:
    """'mark that one as full', 'please set that last fill to full': what an entry is to be."""
    at, tokens = scene.by_class["full"][0], scene.tokens
    verb = next((i for i, each in enumerate(tokens[:LATEST]) if "marks_entry" in each.groups), at)
    named = tokens[verb + 1 : at]
    said = [token for token in (*named, *tokens[at + 1 :]) if token.kind is not MARK]
    if len(named) < MARKED or any("glue" not in t.senses and not _is_entry(t) for t in said):
        return False
    back = not named[0].groups.isdisjoint(("points_at_a_thing", "points_back"))
    given = any("gives_state" in token.groups for token in named)
    return back and (given or any(is_last_entry(one, other) for one, other in pairwise(named)))


LATEST = 3
"""Tokens in which the verb stands: 'can you mark ...'."""

MARKED = 2
"""Tokens of 'that one', 'that as'."""


def _is_entry(token: Token) -> bool:
    return "ordinal" in token.senses or not NAMES_ENTRY.isdisjoint(token.groups)


def _is_told_late(scene: Scene, index: int) -> bool:
    """'forgot to say it was full': what was not told is that it was so, and no fill is missing."""
    missed = next((at for at in scene.by_class.get("missed_verb", ()) if at < index), index)
    words = {word for token in scene.tokens[missed + 1 : index + 1] for word in token.text.split()}
    return not words.isdisjoint(scene.book.groups["restates_fill"])


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
