"""Four digits with a space in the middle: 'steer 52 60 drive 68 80 trailer 91 40'.

So people write down what they are told as 'fifty-two sixty'. This file decides that two numbers
are one load; it takes at least two places that are told so, as one could be anything.
"""

from __future__ import annotations

from collections.abc import Sequence

from domain.reading.figures import Figure, token_at
from domain.reading.tokens import MARK, NUMBER, Token, make_number

LEAST_LOAD = 1_000
"""Pounds or kilograms."""

LEAST_PLACES = 2
"""Places with two numbers each, from which on they are one load each."""


def join_pairs(figure: Figure, tokens: Sequence[Token]) -> None:
    """Make one load of two numbers of two digits behind a place, where another is told so, too."""
    at = figure.start
    if not _is_pair(tokens, at):
        return
    told = [_is_pair(tokens, other) or _is_whole(tokens, other) for other in range(1, len(tokens))]
    if sum(told) < LEAST_PLACES:
        return
    first, second = tokens[at], tokens[at + 1]
    value = first.value * 100 + second.value
    merged = make_number("", f"{first.raw} {second.raw}", first.start, second.end, value)
    merged.grouped = True
    figure.token, figure.value = merged, merged.value
    figure.end = at + 2


def _is_pair(tokens: Sequence[Token], index: int) -> bool:
    """Whether two such numbers stand behind a place, and no third number."""
    behind = token_at(tokens, index + 2)
    if not _names_place(tokens[index - 1]) or index + 1 == len(tokens):
        return False
    first, second = tokens[index], tokens[index + 1]
    apart = second.start == first.end + 1
    return apart and _has_two(first) and _has_two(second) and not _goes_on(behind)


def _names_place(token: Token) -> bool:
    """'front 62 65 rear 80 80' are of tyres."""
    return "trucks_axle" in token.groups or token.senses.get("vehicle") == "trailer"


def _is_whole(tokens: Sequence[Token], index: int) -> bool:
    """'drive 6,880': a place that is told in full."""
    token = tokens[index]
    return token.kind is NUMBER and token.value >= LEAST_LOAD and _names_place(tokens[index - 1])


def _has_two(token: Token) -> bool:
    return token.kind is NUMBER and len(token.raw) == 2 and token.raw.isdigit()


def _goes_on(behind: Token | None) -> bool:
    """'front 62 65 psi', 'front 52 60 64': more follows that counts."""
    if behind is None or behind.kind is MARK:
        return False
    return behind.kind is NUMBER or ("unit" in behind.senses and "mass_unit" not in behind.groups)
