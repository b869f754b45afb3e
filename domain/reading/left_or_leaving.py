"""'Left': a side of the rig, or that somebody drove off.

This file decides which it is, by what stands beside the word.
"""

from __future__ import annotations

from collections.abc import Sequence

from domain.reading.label import NAMING
from domain.reading.tokens import NUMBER, WORD, Token


def is_leaving(tokens: Sequence[Token], index: int) -> bool:
    """'left at 48,211' is no side; 'left 2,640', 'left front' and 'left side' are."""
    senses = tokens[index].senses
    if "event" not in senses:
        return False
    following = tokens[index + 1] if index + 1 < len(tokens) else None
    who = index - 1
    while who > 0 and "filler" in tokens[who].senses.get("glue", "").split():
        who -= 1
    if index and tokens[who].groups & LEAVING:
        return True  # 'before we left:', '48,211 and we just left', 'which left 6,910'
    if following is not None and following.kind is NUMBER and following.value >= BEYOND_A_SIDE:
        return True  # 'hitched up and left 48,211'
    if following is None or following.kind is not WORD or following.raw in ":=":
        return False
    if not following.groups.isdisjoint(TO_OTHER_SIDE) and any(
        "side" in token.senses for token in tokens[index + 2 : index + 4]
    ):
        return False  # 'left then right: ...', '5,220 left against 5,480 right'
    if index and not SIDED.isdisjoint(tokens[index - 1].senses):
        set_to = "to" in following.groups and any(
            t.kind is NUMBER for t in tokens[index + 2 : index + 3]
        )
        if set_to or "correction" in following.senses:
            return False  # 'drive left should be 2,890', 'change the steer left to 2,640'
    beside = following.senses.keys() & (NAMING | {"check_item", "unit"})
    return not beside and "behind_side" not in following.groups


TO_OTHER_SIDE = frozenset(("then", "against_limit"))
"""Groups of words between one side and the other."""

SIDED = frozenset(("axle", "axle_noun", "vehicle", "name"))
"""Classes of term for what has sides."""

LEAVING = frozenset(("pronoun", "asks_which", "before_we"))
"""Groups of words behind which somebody left."""

BEYOND_A_SIDE = 20_000
"""Pounds or kilograms: no one side of an axle behind a pickup carries as much."""
