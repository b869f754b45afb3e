"""What a field of the last entry was: 'price on that last fill was 3.799'.

This file decides that a message points back at one entry and says of it one figure anew, and no
more. Which field that is of is decided in `corrected_fields`.
"""

from __future__ import annotations

from itertools import pairwise

from domain.reading.beside import own_unit
from domain.reading.corrected_by_name import NAMES_ENTRY
from domain.reading.corrected_fields import field_of, fits_field
from domain.reading.figures import DISTANCE, NEXT_READING, PRICE, Figure
from domain.reading.fill_changed import field_by_form
from domain.reading.label import Label
from domain.reading.scene import Scene
from domain.reading.tokens import MARK, NUMBER, Token

LONGEST = 14
"""Tokens of 'the odometer reading on that last fill was 51,420, sorry'."""


def said_of_last(scene: Scene, figure: Figure, *, logged: bool = False) -> str | None:
    """Which field of the entry that 'that' or 'the last' points at a figure is of; None if of none.

    It is told what that was, or, where the field is named, what it is. An entry that is `logged`
    needs no word that points at it.
    """
    tokens = scene.tokens
    was = figure.start - 1
    while was > 0 and "at_alone" in tokens[was].groups:
        was -= 1  # 'was at 51,420'
    if len(tokens) > LONGEST or "?" in scene.text or was < 1:
        return None
    named = next(
        (at for at in range(1, was) if _is_entry(tokens[at - 1], tokens[at], logged)), None
    )
    if named is None or not all(is_small(scene, figure, at) for at in range(len(tokens))):
        return None
    over = "was_then" in tokens[was].groups
    if not over and not ("is_now" in tokens[was].groups and _names_field(scene, named)):
        return None
    field = field_of(scene, figure)
    if field is None and over and _is_read_there(scene, figure, named):
        return "odometer"
    alone = over and len(scene.figures) == 1
    if field is None and alone and "fuel_cue" in tokens[named].senses:
        field = field_by_form(scene, figure)  # 'that last fill was 24.6'
    if field in PAID and "per_volume" in scene.by_class:
        field = _be_of_one(scene, figure)
    return field if field is not None and fits_field(scene.context, figure, field) else None


def _be_of_one(scene: Scene, figure: Figure) -> str:
    """'cost per litre on that one was 1.789': a price, and of which volume one costs so much."""
    _, _, volume = next(iter(scene.find("per_volume")))
    if figure.dimension != PRICE and figure.unit not in IN_COINS:
        currency = figure.unit or scene.context.currency
        figure.unit = f"{currency}/{own_unit(volume, scene.context)}"
        figure.dimension = PRICE
    return "unit_price"


PAID = frozenset(("unit_price", "cost"))
"""Fields that are paid: a price for so much, or all of it."""

IN_COINS = ("pence", "cents")


def _names_field(scene: Scene, entry: int) -> bool:
    """'the volume on the last fill': what of it is told stands before it, by its name."""
    fields = scene.book.keys["corrected_field"]
    labelled = any(label.field and label.end < entry for label in scene.labels)
    return labelled or any(
        token.text in fields or "unit" in token.senses for token in scene.tokens[: entry - 1]
    )


def _is_read_there(scene: Scene, figure: Figure, entry: int) -> bool:
    """'that last fill was at 51,420': the truck stood there, and no hour or price is so large."""
    known, before = scene.context.odometer, scene.tokens[entry + 1 : figure.start]
    at = any(token.text.rpartition(" ")[2] in scene.book.groups["at_alone"] for token in before)
    if known is None or not at or READ_AT.isdisjoint(scene.tokens[entry].senses):
        return False
    driven = figure.dimension in (None, DISTANCE) and figure.whole
    return driven and abs(figure.value - known.value) <= NEXT_READING


READ_AT = frozenset(("fuel_cue", "hitch"))
"""Classes of term for an entry that has an odometer reading, or has one beside it."""


def _is_entry(before: Token, token: Token, logged: bool) -> bool:
    """'that fill', 'the unhitch': of what is done to a trailer, the last one is spoken of."""
    if logged and not NAMES_ENTRY.isdisjoint(token.groups):
        return True
    done = "hitch" in token.senses and "article" in before.groups
    return is_last_entry(before, token) or (done and "entry_noun" in token.groups)


def is_last_entry(before: Token, token: Token) -> bool:
    """'that fill', 'last one': whether two words point back at an entry."""
    if token.groups.isdisjoint(NAMES_ENTRY):
        return False
    return "points_at_a_thing" in before.groups or before.senses.get("ordinal") == "last"


def parts_last(scene: Scene) -> bool:
    """'the last fill was actually two, 20 gal and 8 gal': both were logged, as one."""
    if WAS.isdisjoint(scene.groups) or "fuel_cue" not in scene.by_class:
        return False
    for at, (one, entry) in enumerate(pairwise(scene.tokens)):
        if "fuel_cue" not in entry.senses or not is_last_entry(one, entry):
            continue
        said = scene.tokens[at + 2 : at + 2 + LONGEST_WAS]
        count = next((each for each in said if each.kind is NUMBER), None)
        was = any(not each.groups.isdisjoint(WAS) for each in said)
        if count is not None and was and count.decimals == 0 and FEWEST <= count.value <= MOST:
            behind = scene.tokens[scene.tokens.index(count) + 1 :]
            return bool(behind) and (behind[0].kind is MARK or "fill_noun" in behind[0].groups)
    return False


WAS = frozenset(("was_so", "restates"))
LONGEST_WAS = 4
"""Tokens of 'was in fact really two'."""

FEWEST, MOST = 2, 4
"""Fills that were logged as one."""


def is_of_next_fill(scene: Scene, figure: Figure) -> bool:
    """'next fill should be 26.1 gal': what is yet to come was not told, and is not put right."""
    start, _ = scene.clause_of(figure.start)
    ahead = scene.tokens[start : figure.start]
    return any(
        "coming_up" in one.groups and "of_fill" in other.groups for one, other in pairwise(ahead)
    )


def is_small(scene: Scene, figure: Figure, index: int) -> bool:
    """Whether a word says nothing of its own beside a figure and the entry that it is of."""
    token, label = scene.tokens[index], figure.label
    return (
        token.kind is MARK
        or figure.start <= index < figure.end
        or not SMALL.isdisjoint(token.senses)
        or not NAMES_ENTRY.isdisjoint(token.groups)
        or token.text in scene.book.keys["corrected_field"]
        or (isinstance(label, Label) and label.start <= index < label.end)
    )


SMALL = frozenset(("glue", "ordinal", "correction", "unit", "per_volume"))
"""Classes of term that say nothing of their own beside a figure and an entry."""
