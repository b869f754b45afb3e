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
    """Whether the number that begins there is of a mixed number behind a ball: '2 5/16'.

    Or behind what takes a ball of that size: 'coupler says 2 5/16, 14,000'.
    """
    for part in range(max(0, start - SIZED - NEAR), start):
        if has_size(tokens[part]):
            end = end_of_size(tokens, part)
            if end - SIZED <= start < end:
                return True
    return False


def has_size(token: Token) -> bool:
    """Whether what a token names is made for balls of one size."""
    return token.senses.get("rating_subject") in ("ball", "coupler")


def end_of_size(tokens: Sequence[Token], part: int) -> int:
    """Where the size ends that stands behind a ball or a coupler; right behind it without one."""
    for whole in range(part + 1, part + 1 + NEAR):
        if _is_mixed(tokens[whole : whole + SIZED]):
            return whole + SIZED
    return part + 1


NEAR = 3
"""Tokens from a part to its size: 'coupler is stamped 2 5/16'."""


def _is_mixed(said: Sequence[Token]) -> bool:
    """Whether four tokens are inches and a fraction of one."""
    if len(said) < SIZED:
        return False
    whole, over, slash, parts = said
    numbers = all(each.kind is NUMBER for each in (whole, over, parts))
    fraction = slash.raw == "/" and parts.value in PARTS and over.value < parts.value
    return numbers and fraction and whole.value <= MOST_INCHES
