"""A product that was texted wrongly: 'that was def, not diesel', 'I meant diesel'.

This file decides when a message puts another product in the place of one: it has no figure, or
one that tells which fill is meant. Every word of it must be of that: who says more speaks of fuel,
and corrects nothing.
"""

from __future__ import annotations

from dataclasses import replace

from domain.entries import Correction
from domain.quantities import Quantity
from domain.reading.corrected_last import is_last_entry
from domain.reading.figures import VOLUME, Figure
from domain.reading.scene import Scene
from domain.reading.tokens import MARK, WORD, Token

LONGEST = 8
"""Words of such a message."""

SMALL = frozenset(
    ("answer_filler", "points_back", "contrasts", "of_fill", "points_at_a_thing", "entry_noun")
)
"""Groups of words that may stand in it, beside what joins words."""

PRODUCT = "product"


def corrected_product(scene: Scene) -> Correction | None:
    """The correction of a product that a message is, or None where it is none."""
    if "?" in scene.text:
        return None
    if scene.figures:
        return _of_poured(scene, scene.figures[0]) if len(scene.figures) == 1 else None
    said = [(index, key.split()[0]) for index, _, key in scene.find(PRODUCT)]
    words = sum(1 for token in scene.tokens if token.kind is WORD)
    if not 1 <= len(said) <= PAIR or words > LONGEST or not all(map(_is_small, scene.tokens)):
        return None
    if len(said) == PAIR:
        return _contrasted(scene, said)
    return _put_right(scene, *said[0])


PAIR = 2
"""Products: the right one and the wrong one."""


def _is_small(token: Token) -> bool:
    if token.kind is MARK:
        return token.raw in ",.-–"
    known = not {"glue", "correction", PRODUCT}.isdisjoint(token.senses)
    return token.kind is WORD and (known or not token.groups.isdisjoint(SMALL))


def _contrasted(scene: Scene, said: list[tuple[int, str]]) -> Correction | None:
    """'def, not diesel' and 'not diesel but def'."""
    (first, one), (second, other) = said
    if one == other:
        return None
    between = any("contrasts" in token.groups for token in scene.tokens[first:second])
    before = first > 0 and "contrasts" in scene.tokens[first - 1].groups
    if between == before:
        return None
    meant, wrong = (one, other) if between else (other, one)
    return Correction(action="amend", field=PRODUCT, value=meant, was=wrong)


def _of_poured(scene: Scene, poured: Figure) -> Correction | None:
    """'the 24.6 was def, sorry', 'the 24.6 gal was def not diesel': what was told as another."""
    tokens, said = scene.tokens, [(index, key.split()[0]) for index, _, key in scene.find(PRODUCT)]
    if not 1 <= len(said) <= PAIR or not poured.start or said[0][0] <= poured.end:
        return None
    measured = poured.dimension == VOLUME or (poured.dimension is None and poured.token.decimals)
    back = "points_back" in tokens[poured.start - 1].groups
    if not (measured and back and "was_then" in tokens[poured.end].groups):
        return None
    around = (*tokens[: poured.start], *tokens[poured.end :])
    if not all(map(_is_small, around)):
        return None
    if len(said) == PAIR:
        corrected = _contrasted(scene, said)
    elif "correction" in scene.by_class:
        corrected = Correction(action="amend", field=PRODUCT, value=said[0][1])
    else:
        corrected = None  # 'the 24.6 was def' may tell it for the first time
    about = Quantity(poured.value, poured.unit) if poured.unit else poured.value
    return replace(corrected, about=about) if corrected else None


def _put_right(scene: Scene, index: int, key: str) -> Correction | None:
    """'I meant diesel', 'no, diesel': what says so opens the message, and the product ends it."""
    opens, behind = scene.tokens[0], scene.tokens[index + 1 :]
    if index == 0 or any(token.kind is WORD for token in behind):
        return None
    meant = "correction" in opens.senses and not opens.groups.isdisjoint(MEANT)
    denied = "no_alone" in opens.groups and scene.tokens[1].raw == ","
    weak = "weak_product" in scene.tokens[index].groups  # 'no, regular' may be of a coffee
    if not (meant or (denied and not weak) or _is_told_of_last(scene, index)):
        return None
    return Correction(action="amend", field=PRODUCT, value=key)


def _is_told_of_last(scene: Scene, index: int) -> bool:
    """'that last fill was def': what the entry was that it points at."""
    before = scene.tokens[:index]
    return len(before) > 2 and "was_then" in before[-1].groups and is_last_entry(*before[-3:-1])


MEANT = frozenset(("marks_meant", "surely_corrects", "restates"))
"""Groups of words that open what should have been texted; 'sorry, diesel' may be for anybody."""
