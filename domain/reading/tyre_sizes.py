"""The sizes of tyres, '275/65R18', and how deep their tread is: no gauge of the log shows them."""

from __future__ import annotations

from collections.abc import Sequence

from domain.reading.tokens import NUMBER, Token


def of_tyre_size(tokens: Sequence[Token], index: int) -> bool:
    """'275/65R18', 'ST235/80R16': a tyre's width and height, which nothing measured."""
    for slash in (index + 1, index - 1):
        if not 0 <= slash < len(tokens) or tokens[slash].raw != "/":
            continue
        height, built, rim = (*tokens[slash + 1 : slash + 4], None, None, None)[:3]
        if built is None or rim is None or built.text not in TYRE_BUILDS:
            continue
        sized = height is not None and height.kind is NUMBER and rim.kind is NUMBER
        if sized and TYRE_RIMS[0] <= rim.value <= TYRE_RIMS[1]:
            return True
    return False


TYRE_SIZE = "a tyre's size"


TYRE_BUILDS = frozenset(("r", "zr", "b", "d"))
"""Radial, belted and diagonal, as ISO 4000-1 marks how a tyre is built; from memory."""


TYRE_RIMS = (8, 26)
"""Inches across."""


def is_tread_depth(tokens: Sequence[Token], index: int) -> bool:
    """'tire tread 6/32': the parts of an inch that a tread is measured in."""
    if index < FRACTION:
        return False
    depth, slash = tokens[index - FRACTION : index]
    return slash.raw == "/" and depth.kind is NUMBER and depth.value < TREAD_PARTS


FRACTION = 2
"""Tokens of a fraction before its last number."""

TREAD_PARTS = 32
