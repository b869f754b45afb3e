"""What a place weighed another day, beside what it weighs now.

'Scale says 21,460, last time it was 21,900', 'tongue 1,180 -> 1,240': this file decides which of
two figures is of another day, and leaves it aside. Figures that were guessed or feared are left
in `superseded`.
"""

from __future__ import annotations

from collections.abc import Sequence
from collections.abc import Set as AbstractSet
from itertools import pairwise

from domain.reading.figures import MASS, Figure, token_at
from domain.reading.superseded import ALIKE, FARTHEST, PLACES, is_put_right, unsay
from domain.reading.taken_back import measured_so
from domain.reading.tokens import MARK, WORD, Token

OTHER_DAY = "a figure of another day"


def leave_past(
    tokens: Sequence[Token], figures: Sequence[Figure], text: str, groups: AbstractSet[str]
) -> bool:
    """Claim what is of another day. Whether there was any."""
    arrow = ">" in text or "→" in text
    if not arrow and OF_THEN.isdisjoint(groups):
        return False
    then, found = "back_then" in groups, False
    arrow = arrow and "surely_corrects" not in groups  # 'typo: gross 21,480 -> 24,180'
    live = [each for each in figures if each.claimed is None and each.value > 0]
    for first, second in pairwise(live):
        if not measured_so(first, second) or second.start - first.end > FARTHEST:
            continue
        if then and _was_back_then(tokens, first, second):
            second.claimed = OTHER_DAY
            unsay(tokens, first.end, first.end, second.end)
            found = True
        elif arrow and _points_to(tokens, first, second):
            second.claimed, first.value, first.token = OTHER_DAY, second.value, second.token
            unsay(tokens, first.end, first.end, second.end)
            found = True
        elif _came_from(tokens, first, second):
            second.claimed = OTHER_DAY
            stood = any("rig" in token.senses for token in tokens[second.end : second.end + 1])
            unsay(tokens, first.end, first.end, second.end + stood)
            found = True
    return found


def _came_from(tokens: Sequence[Token], first: Figure, second: Figure) -> bool:
    """'gross went up to 21,340 from 20,980', 'steer 4,860 (was 5,210)': what it weighed before.

    Nothing stands between the two but the words for it, and before them what weighed so much.
    """
    between = tokens[first.end : second.start]
    if not between or between[-1].groups.isdisjoint(CAME_FROM):
        return False
    was = "from" not in between[-1].groups
    if was and between[0].raw not in ",(":
        return False
    if not all(t.raw in ",(" or not t.groups.isdisjoint(CHANGED) for t in between[:-1]):
        return False
    ahead = tokens[max(0, first.start - LONGEST_LEAD) : first.start]
    if not any(not token.senses.keys().isdisjoint(WEIGHED) for token in ahead):
        return False
    return first.value >= LEAST_CHANGED and ALIKE[0] < second.value / first.value < ALIKE[1]


CAME_FROM = frozenset(("from", "was_then"))
"""Groups of words of which one stands before what a place weighed before."""

OF_THEN = CAME_FROM | {"back_then"}
"""Groups of words of which one stands where something is told of another day."""

CHANGED = frozenset(("changed_by", "changes_by"))
"""Groups of words before it that tell whether it weighs more now."""

LONGEST_LEAD, LEAST_CHANGED = 4, 80
"""Tokens of a place and of what leads to its load, and pounds or kilograms on a tongue."""


def _was_back_then(tokens: Sequence[Token], first: Figure, second: Figure) -> bool:
    """'scale says 21,460, last time it was 21,900': what is told behind was so another day.

    'tongue 1,180, last time 1,340' is the same, where nothing but the time stands before it.
    """
    between = tokens[first.end : second.start]
    if len(between) < SHORTEST_CLAUSE or between[0].raw not in ",.;(":
        return False
    thens = [at for at, token in enumerate(between[:-1]) if "back_then" in token.groups]
    # 'last trip', and no 'last was'
    then = any("ordinal" not in between[at].senses or _names_span(between[at + 1]) for at in thens)
    was = any("was_then" in token.groups for token in between) or (
        "back_then" in between[-2].groups and _names_span(between[-1])
    )
    now = any("now_word" in token.groups for token in tokens[second.end : second.end + 1])
    small = all(
        token.kind is MARK or "glue" in token.senses or at in thens or at - 1 in thens
        for at, token in enumerate(between)
    )
    return then and was and small and not now


def _names_span(token: Token) -> bool:
    return token.kind is WORD and "glue" not in token.senses


SHORTEST_CLAUSE = 3
"""Tokens: a comma, 'last time', 'was'."""


def _points_to(tokens: Sequence[Token], first: Figure, second: Figure) -> bool:
    """'tongue 1,180 -> 1,240': an arrow from what a place weighed to what it weighs now."""
    before = token_at(tokens, first.start - 1)
    if before is None or before.senses.keys().isdisjoint(WEIGHED):
        return False
    if not points(tokens[first.end : second.start]) or is_put_right(tokens, first.start):
        return False
    return second.dimension in (None, MASS) and ALIKE[0] < second.value / first.value < ALIKE[1]


def points(between: Sequence[Token]) -> bool:
    """Whether no more than an arrow stands between two figures."""
    return "".join([token.raw for token in between]) in ARROWS


ARROWS = ("->", "=>", "-->", "→")

WEIGHED = PLACES | {"whole", "axle_noun"}
"""Classes of term for what a load is of."""
