"""A heading over what is carried: 'aboard:', 'cargo on the flatdeck:', 'on the flatdeck:'.

This file decides whether a message begins with one. What stands below it is read in `cargo`.
"""

from __future__ import annotations

from collections.abc import Sequence

from domain.reading.tokens import Token

ON_IT = frozenset(("on_or_in", "is_so", "standing_on"))
"""Groups of 'on', 'is on' and 'on the'."""

HEADING = ON_IT | {"heads_manifest"}
"""Groups of words that such a heading begins with."""

LONGEST = 6
"""Tokens of a heading, with its mark."""


def is_manifest(tokens: Sequence[Token]) -> bool:
    """Whether a heading over what is carried stands first; it may say on what, or that alone."""
    first = tokens[0].groups
    if HEADING.isdisjoint(first) or len(tokens) < 2:
        return False
    if "heads_manifest" in first and tokens[1].raw in (":", "-", "="):
        return True
    heading = tokens[:LONGEST]
    mark = next((at for at, token in enumerate(heading) if token.raw == ":"), 0)
    if not mark or not any(not ON_IT.isdisjoint(token.groups) for token in heading[:mark]):
        return False
    senses = heading[mark - 1].senses
    return senses.get("vehicle") == "trailer" or "name" in senses
