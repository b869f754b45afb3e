"""How big a ball is: '2 5/16'.

This file decides which numbers are that size, in inches and a fraction; what may be towed on the
ball stands behind it.
"""

from __future__ import annotations

from collections.abc import Sequence

from domain.reading.tokens import NUMBER, Token

BALL_SIZE = "the size of a ball"

SIZED = 4
"""Tokens of a size: '2', '5', '/', '16'."""

MOST_INCHES, PARTS = 3, (2, 4, 8, 16)


def of_ball_size(tokens: Sequence[Token], start: int) -> bool:
    """Whether the number that begins there is of a mixed number behind a ball: '2 5/16'."""
    for whole in range(max(1, start - SIZED + 1), start + 1):
        if "ball" in tokens[whole - 1].groups and is_mixed(tokens[whole : whole + SIZED]):
            return True
    return False


def is_mixed(said: Sequence[Token]) -> bool:
    """Whether four tokens are inches and a fraction of one."""
    if len(said) < SIZED:
        return False
    whole, over, slash, parts = said
    numbers = all(each.kind is NUMBER for each in (whole, over, parts))
    fraction = slash.raw == "/" and parts.value in PARTS and over.value < parts.value
    return numbers and fraction and whole.value <= MOST_INCHES
