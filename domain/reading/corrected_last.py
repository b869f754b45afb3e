"""What a field of the last entry was: 'price on that last fill was 3.799'.

This file decides that a message points back at one entry and says of it one figure anew, and no
more. Which field that is of is decided in `corrected_fields`.
"""

from __future__ import annotations

from domain.reading.corrected_by_name import NAMES_ENTRY
from domain.reading.corrected_fields import field_of, fits_field
from domain.reading.figures import Figure
from domain.reading.label import Label
from domain.reading.scene import Scene
from domain.reading.tokens import MARK, Token

LONGEST = 14
"""Tokens of 'the odometer reading on that last fill was 51,420, sorry'."""


def is_of_last(scene: Scene, figure: Figure) -> bool:
    """Whether a figure is what one field of an entry was that 'that' or 'the last' points at."""
    if "was_then" not in scene.groups:
        return False
    tokens = scene.tokens
    was = figure.start - 1
    while was > 0 and "at_alone" in tokens[was].groups:
        was -= 1  # 'was at 51,420'
    if len(tokens) > LONGEST or "?" in scene.text or was < 1:
        return False
    if "was_then" not in tokens[was].groups:
        return False
    named = next((at for at in range(1, was) if _is_pointed_at(tokens[at - 1], tokens[at])), None)
    if named is None or not all(_is_small(scene, figure, at) for at in range(len(tokens))):
        return False
    field = field_of(scene, figure)
    return field is not None and fits_field(scene.context, figure, field)


def _is_pointed_at(before: Token, token: Token) -> bool:
    """'that fill', 'last one'."""
    if token.groups.isdisjoint(NAMES_ENTRY):
        return False
    return "points_at_a_thing" in before.groups or before.senses.get("ordinal") == "last"


def _is_small(scene: Scene, figure: Figure, index: int) -> bool:
    token, label = scene.tokens[index], figure.label
    return (
        token.kind is MARK
        or figure.start <= index < figure.end
        or not SMALL.isdisjoint(token.senses)
        or not NAMES_ENTRY.isdisjoint(token.groups)
        or token.text in scene.book.keys["corrected_field"]
        or (isinstance(label, Label) and label.start <= index < label.end)
    )


SMALL = frozenset(("glue", "ordinal", "correction", "unit"))
"""Classes of term that say nothing of their own beside a figure and an entry."""
