"""Numbers that a body has: the pressure of a heart, the steps that somebody walked.

This file decides by the words beside a number that it is of a body, and so none of the log's.
"""

from __future__ import annotations

from collections.abc import Sequence

from domain.reading.figures import Figure, token_at
from domain.reading.tokens import NUMBER, Token

OF_A_BODY = frozenset(("over_word", "counts_steps", "body_counts"))
"""Groups of words of which one stands beside such a number."""

LEAST_STEPS = 100

STEPS = "a count of steps"


def number_of_a_body(
    tokens: Sequence[Token], figure: Figure, after: Token | None, said: frozenset[str]
) -> str | None:
    """What of a body a bare number is; None where it is of none."""
    if after is not None and "body_counts" in after.groups and figure.value >= LEAST_STEPS:
        return f"a count of {after.text}"  # 'I did 9,840 steps'
    if "counts_steps" in said and _counts_steps(tokens, figure):
        return STEPS
    if "over_word" in said and _of_the_heart(tokens, figure):
        return "a blood pressure"
    return None


def _counts_steps(tokens: Sequence[Token], figure: Figure) -> bool:
    """'my watch says 11,140', 'fitbit at 9,240': what somebody walked."""
    before = tokens[max(0, figure.start - FARTHEST) : figure.start]
    counts = [at for at, token in enumerate(before) if "counts_steps" in token.groups]
    return bool(counts) and all("glue" in token.senses for token in before[counts[-1] + 1 :])


FARTHEST = 5
"""Tokens from what counts steps to how many there were: 'my watch has me at 9,240'."""


def _of_the_heart(tokens: Sequence[Token], figure: Figure) -> bool:
    """'128 over 82': one pressure over another is a person's."""
    for over, other in ((figure.start - 1, figure.start - 2), (figure.end, figure.end + 1)):
        between, beside = token_at(tokens, over), token_at(tokens, other)
        if between is None or beside is None or beside.kind is not NUMBER:
            continue
        if "over_word" in between.groups and 30 <= figure.value <= 250 and beside.value >= 30:
            return True
    return False
