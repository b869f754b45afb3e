"""What joining a figure to the label before or behind it costs.

This file weighs what stands between the two: punctuation costs, a colon or 'is' or 'on the' speaks
for the pair. Which pairs are cheapest together is decided in `pairing`.
"""

from __future__ import annotations

from collections.abc import Sequence

from domain.reading.figures import Figure
from domain.reading.label import Label
from domain.reading.tokens import BREAK, MARK, NUMBER, WORD, Token

NO_LINK = 4.0

BESIDE = 0.5
"""Cost up to which a figure stands right beside its label."""

ASIDE_AT_MOST = 2.2
"""What an aside costs between a label and 'came in at': less than leaving the figure alone."""

PLACING_SENSES = frozenset(("axle", "vehicle", "whole", "end", "name"))


def link_before(tokens: Sequence[Token], label: Label, figure: Figure) -> float:
    """What stands between a label and the figure behind it."""
    cost = _between(tokens, label.end, figure.start)
    if cost > BESIDE and label.only_side:
        return NO_LINK  # 'left Cedar Flats at 48,396'
    last = tokens[figure.start - 1] if figure.start else None
    if figure.start > label.end and last is not None:
        if last.raw == "=" and not label.whole and _adds_up(tokens, figure.start - 1):
            cost += 2.0
        elif last.raw in ":=":
            vague = label.end_of and not (label.axle or label.wheel or label.side)
            whole = vague or label.only_vehicle
            cost -= 1.2 if last.raw == ":" and not whole else 0.3
        elif "states" in last.groups:
            cost -= 0.6
        elif "we_have" in last.groups and _is_of_number_before(tokens, label):
            return NO_LINK
        if "says_so" in last.groups and not label.only_vehicle:
            # 'the drives, and that surprised me, came in at 6,910'
            cost = min(cost, ASIDE_AT_MOST)
    if label.field == "ticket":
        heads = figure.start > label.end and last is not None and last.raw == ":"
        if heads:
            cost += _placed_behind(tokens, figure)
        cost += 1.5 * any(
            token.kind is WORD and not token.senses for token in tokens[label.end : figure.start]
        )
    return cost


def _placed_behind(tokens: Sequence[Token], figure: Figure) -> float:
    """'scale ticket: 10,760 tlr': what it costs a ticket's number that a place stands behind it.

    'ticket: 4,920 on the steer, 6,480 ...' is none: the place has no other figure beside it.
    """
    behind = tokens[figure.end : figure.end + 3]
    if behind and "onto" in behind[0].senses.get("glue", ""):
        behind = behind[1:]
    if not behind or PLACING_SENSES.isdisjoint(behind[0].senses):
        return 0.0
    others = behind[1:2]
    return NO_LINK if any(t.kind in (MARK, BREAK) and t.raw not in ":=" for t in others) else 2.0


def _is_of_number_before(tokens: Sequence[Token], label: Label) -> bool:
    """'hitch rated 1,500 tongue, we have 1,180': the label ends the clause of its own figure."""
    before = tokens[label.start - 1] if label.start else None
    return before is not None and before.kind is NUMBER and tokens[label.end].raw == ","


def link_after(tokens: Sequence[Token], figure: Figure, label: Label) -> float:
    """What stands between a figure and the label behind it."""
    cost = _between(tokens, figure.end, label.start) + 0.1
    if label.start > figure.end:
        first = tokens[figure.end]
        second = tokens[figure.end + 1] if figure.end + 1 < label.start else None
        if label.rating and "onto" in first.senses.get("glue", ""):
            cost += 0.5  # 'weighed 20,980 on a gcwr of 27,500'
        elif "onto" in first.senses.get("glue", ""):
            cost -= 0.4 if label.only_vehicle or label.rating_subject else 1.0
        elif second is not None and "onto" in second.senses.get("glue", ""):
            # '900 max on the tongue'
            cost -= 1.0 if "rating_cue" in first.senses else 0.6
        elif first.raw in ":=" or "is_at" in first.groups:
            cost += 1.5
    following = tokens[label.end] if label.end < len(tokens) else None
    if following is not None and following.raw in ":=" and not _adds_up(tokens, label.end):
        cost += 2.0
    return cost


def _adds_up(tokens: Sequence[Token], end: int) -> bool:
    """'12,120 truck + 9,360 trailer = 21,480': the sum follows, and not the label's figure."""
    ahead = tokens[max(0, end - LONGEST_SUM) : end]
    if tokens[end].raw != "=" or not any("join" in each.senses.get("glue", "") for each in ahead):
        return False
    behind = tokens[end + 1 : end + LONGEST_SUM]
    return all(each.raw != "=" for each in (*ahead, *behind))  # 'drive = 4000 and steer = 4000'


LONGEST_SUM = 16
"""Tokens before a sum."""


PASSED_OVER = frozenset(("weigh_cue", "rating_cue", "tank", "alone"))
"""Classes of term that part no label from its figure: 'pin weight by itself 2,140'."""

PASSED_BY = frozenset(("how_warm", "which_dual"))
"""Groups of words that do so no more: 'left hub hot 180', 'left rear outside dual 72 psi'."""


def _between(tokens: Sequence[Token], start: int, end: int) -> float:
    cost = 0.0
    for index in range(start, end):
        token = tokens[index]
        if token.kind is BREAK:
            cost += 2.0
        elif token.kind is MARK:
            raw = token.raw
            if raw == ",":
                cost += 1.5
            elif raw in ".!?;":
                cost += 3.0
            elif raw in "|·•—–":
                cost += 1.0
            elif raw in ":=":
                cost += 0.0
            elif raw in "/-+&@":
                # a dash that opens a line parts nothing
                cost += 0.5 if index == start or tokens[index - 1].kind is not BREAK else 0.1
            else:
                cost += 0.2
        elif token.kind is WORD:
            senses = token.senses
            if "glue" in senses:
                cost += 0.05 if senses["glue"] == "filler" else 0.15
            elif not (PASSED_OVER.isdisjoint(senses) and PASSED_BY.isdisjoint(token.groups)):
                cost += 0.15
            elif not senses:
                cost += 1.6
            else:
                cost += 1.0
        else:
            cost += 1.0
    return cost
