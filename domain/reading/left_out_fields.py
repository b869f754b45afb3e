"""A field that was left out of the last entry, and is told now.

'forgot the odo on that last fill, 51,402', 'forgot the price, 3.799': this file decides that the
figure completes what was logged before, and is no reading of its own. Which field it is of is
decided in `corrected_fields`.
"""

from __future__ import annotations

from itertools import pairwise

from domain.reading.corrected_fields import field_of, fits_field
from domain.reading.corrected_last import is_last_entry, is_small
from domain.reading.figures import Figure
from domain.reading.label import Label
from domain.reading.scene import Scene
from domain.reading.tokens import MARK, Token

LEFT_OUT = frozenset(("missed_verb", "lacks_field"))
"""A class of term and a group of words with which a field is said to be missing."""

LONGEST = 16
"""Tokens of 'sorry i forgot to put the odometer on that last fill up, it was 51,402'."""

FARTHEST = 4
"""Tokens from what says that it is missing to the name of the field."""

FUELLED = frozenset(("fuel_cue", "product"))
"""Classes of term for the fill itself, which a field is not."""

OF_A_FILL = frozenset(("unit_price", "cost", "volume"))
"""Fields that no other entry has, so that none need be pointed at."""


def left_out(scene: Scene, figure: Figure) -> str | None:
    """The field of the last entry that a figure was left out of; None where it is of none."""
    tokens = scene.tokens
    if len(tokens) > LONGEST or "?" in scene.text or len(scene.figures) != 1:
        return None
    lacks = next((at for at, token in enumerate(tokens) if _lacks(token)), len(tokens))
    named = _name(scene, figure, lacks)
    if named is None or not lacks < named <= lacks + FARTHEST or named > figure.start:
        return None
    between = tokens[lacks : named + 1]
    if any(token.kind is MARK or not FUELLED.isdisjoint(token.senses) for token in between):
        return None  # 'forgot to log the last fill, odo 51,402', 'forgot to log diesel, 24.6'
    behind = range(named, len(tokens))
    if not all(is_small(scene, figure, at) or "time" in tokens[at].senses for at in behind):
        return None
    field = field_of(scene, figure)
    if field is None or not fits_field(scene.context, figure, field):
        return None
    of_last = any(is_last_entry(one, other) for one, other in _entries(tokens))
    alone = field in OF_A_FILL and "missed_verb" in tokens[lacks].senses
    return field if of_last or alone else None


def _lacks(token: Token) -> bool:
    return "missed_verb" in token.senses or "lacks_field" in token.groups


def _name(scene: Scene, figure: Figure, lacks: int) -> int | None:
    """Where the field is named, behind what says that it is missing."""
    label = figure.label
    if isinstance(label, Label):
        return label.start
    fields = scene.book.keys["corrected_field"]
    return next(
        (
            at
            for at in range(lacks + 1, figure.start)
            if scene.tokens[at].text in fields or "unit" in scene.tokens[at].senses
        ),
        None,
    )


def _entries(tokens: list[Token]) -> list[tuple[Token, Token]]:
    """The pairs of words of which the second is of what was done; 'that odo' is no entry."""
    return [each for each in pairwise(tokens) if "odometer" not in each[1].senses]
