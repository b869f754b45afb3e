"""Mixed numbers: '26 and a quarter gallons', '31 1/2 gal', '2 gallons and a half'.

This file decides which part of one is added to a whole number before it.
"""

from __future__ import annotations

from collections.abc import Sequence

from domain.reading.figures import DIMENSION_OF, Figure, token_at, unit_key
from domain.reading.tokens import NUMBER, Token, make_token

PARTS = {"half_more": 0.5, "quarter_more": 0.25, "three_quarters_more": 0.75}
"""Groups of words for a part of one, and how much it is."""


def add_part(figure: Figure, tokens: Sequence[Token], at: int) -> bool:
    """Add the part of '26 and a quarter gallons' or '31 1/2 gal', and its unit.

    It begins at a token; says whether there is one. Without a unit behind it, a quarter may be
    what the gauge says.
    """
    part, end = _part(tokens, at)
    measure = token_at(tokens, end)
    unit = unit_key(measure)
    if not part or not figure.whole or measure is None or unit is None:
        return False
    mixed = make_token(NUMBER, "", figure.token.raw, figure.token.start, tokens[end - 1].end)
    mixed.value, mixed.decimals = figure.value + part, 1
    figure.token, figure.value, figure.end = mixed, mixed.value, end
    if "unit_or_word" not in measure.groups:  # '31 1/2 in the tank'
        figure.unit, figure.dimension, figure.end = unit, DIMENSION_OF.get(unit), end + 1
    return True


def add_part_behind(figure: Figure, tokens: Sequence[Token]) -> None:
    """'2 gallons and a half', '2 galones y medio'."""
    part, end = _part(tokens, figure.end + 1)
    if part and figure.whole and not _goes_on(tokens, end):
        figure.value += part
        figure.end = end


def _part(tokens: Sequence[Token], index: int) -> tuple[float, int]:
    """The part of one that is said at a token, and where it ends; 0 where there is none."""
    token = token_at(tokens, index)
    if token is not None and "a_thing" in token.groups:
        index += 1
        token = token_at(tokens, index)
    if token is None:
        return 0.0, index
    if token.kind is NUMBER and token.decimals == TYPED:
        return token.value, index + 1
    return next((size for group, size in PARTS.items() if group in token.groups), 0.0), index + 1


TYPED = -1
"""What the decimals of a fraction typed with a stroke are given as: '1/4'."""


def _goes_on(tokens: Sequence[Token], index: int) -> bool:
    """'30 gal and a half tank', '30 gal and a quarter of the tank': what the gauge says."""
    behind = tokens[index : index + FARTHEST_TANK]
    if behind and "of" not in behind[0].groups:
        behind = behind[:1]
    return any("tank" in token.groups for token in behind)


FARTHEST_TANK = 3
"""Tokens of 'of the tank'."""
