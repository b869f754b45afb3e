"""Pounds that press in a tyre, and are no load: 'trailer tires at 65 lbs'.

This file decides which pounds are pounds per square inch. What is told of tyres without a unit is
read by `bare_pressures`.
"""

from __future__ import annotations

from collections.abc import Sequence

from domain.reading.figures import Figure
from domain.reading.tokens import NUMBER, WORD, Token


def presses(tokens: Sequence[Token], figure: Figure) -> bool:
    """'trailer tires at 65 lbs': pounds that press in a tyre, and no load."""
    if figure.value < TYRE_PSI[0] or any("load_verb" in token.senses for token in tokens):
        return False
    if any("airs_up" in token.groups for token in tokens[: figure.start]):
        return True  # 'aired up the left front, 80 lbs now'
    if figure.start > 1 and "at_alone" in tokens[figure.start - 1].groups:
        near = tokens[max(0, figure.start - FARTHEST_TYRE) : figure.start]
        if any("spare_tyre" in token.groups for token in near):
            return True  # 'spare tire on the flatdeck is at 60 lbs'
    return any(
        tokens[index].senses.get("subject") == "tyre"
        and (index == 0 or tokens[index - 1].kind is not NUMBER)  # '4 tires 120 lbs' are cargo
        and not _is_carried(tokens, index, figure.start)
        for index in range(max(0, figure.start - FARTHEST_TYRE), figure.start)
    ) or _presses_there(tokens, figure)


def _presses_there(tokens: Sequence[Token], figure: Figure) -> bool:
    """'the gauge read 48 pounds on the left front tire': the tyre is told behind."""
    behind = tokens[figure.end + 1 : figure.end + 2 + FARTHEST_TYRE]
    if not behind or behind[0].groups.isdisjoint(ON_A_TYRE):
        return False
    tyre = next((at for at, t in enumerate(behind) if t.senses.get("subject") == "tyre"), None)
    if tyre is None or any(token.kind is not WORD for token in behind[:tyre]):
        return False
    ends = behind[tyre + 1 : tyre + 2]
    return not ends or ends[0].kind is not WORD  # and no 'tire rack'


ON_A_TYRE = frozenset(("on_the", "on_or_in"))
"""Groups of words that lead from the pounds to the tyre that they press in."""


def _is_carried(tokens: Sequence[Token], tyre: int, end: int) -> bool:
    """'spare tire's in the bed, 85 lbs': what lies somewhere is weighed; 'at 60 lbs' presses."""
    where = [token for token in tokens[tyre + 1 : end] if token.raw != ","]
    lead = next((at for at, token in enumerate(where) if token.groups & LIES), len(where))
    where = where[lead + 1 :]
    if not where or where[-1].kind is not WORD:
        return False
    if "load_place" in where[-1].groups:
        return True
    spare = any("spare_tyre" in token.groups for token in tokens[max(0, tyre - 2) : tyre])
    return spare and not where[-1].senses.keys().isdisjoint(("name", "vehicle"))


LIES = frozenset(("standing_on", "is_so"))
"""Groups of words that lead to where something lies."""


FARTHEST_TYRE = 5
"""Tokens between a tyre and the pounds that press in it, at most."""

TYRE_PSI = (20, 130)
"""What tyres of a truck and its trailers are inflated to; common practice, no source."""
