"""How many things there are that weigh so much each: '14 hives at 90 lb each'.

This file decides which number before a weight counts what the weight is of. What was loaded, and
what it is worth, is decided by who asks.
"""

from __future__ import annotations

from domain.reading.antecedents import POINTS
from domain.reading.figures import MASS, Figure
from domain.reading.label import Label
from domain.reading.scene import Scene
from domain.reading.things import is_noun
from domain.reading.tokens import WORD


def are_things(scene: Scene, figure: Figure, label: Label) -> bool:
    """'one vehicle pass, up to 6 adults', 'six round bales on the flatdeck': a count, and no load.

    'camper nine two' is a load that was said short.
    """
    if not figure.whole or figure.value >= FEW:
        return False
    return not figure.token.said.spoken or (figure.end < label.start and is_noun(scene, figure.end))


FEW = 40
"""Typed without a unit it is a count, and no load that was said short."""


def how_many(scene: Scene, figure: Figure) -> int:
    """'14 hives at 90 lb each': the number of things that weigh so much each, else 1."""
    behind = scene.tokens[figure.end] if figure.end < len(scene.tokens) else None
    start, _ = scene.sentence_of(figure.start)
    if _at_so_much(scene, figure) or _of_so_much(scene, figure):
        return int(scene.figures[scene.figures.index(figure) - 1].value)
    each = behind is not None and scene.phrase_said("each_one", figure.end, figure.end + PAIR)
    if behind is None or not (each or not behind.groups.isdisjoint(FOR_EACH)):
        return 1
    if "each_one" in behind.groups and (count := counted_behind(scene, figure)):
        return count
    counts = [other for other in scene.figures if start <= other.start < figure.start]
    if not counts or counts[-1].dimension is not None or not counts[-1].whole:
        return 1
    if not each and not _for_one_of(scene, figure, counts[-1]):
        return 1
    return int(counts[-1].value) if 2 <= counts[-1].value <= MOST_ALIKE else 1


def counted_behind(scene: Scene, figure: Figure) -> int:
    """'55 pounds each and there's 12 of them': how many there are, told behind; 0 where not."""
    place = scene.figures.index(figure) + 1
    count = scene.figures[place] if place < len(scene.figures) else None
    if count is None or not count.whole or not 2 <= count.value <= MOST_ALIKE:
        return 0
    between = scene.tokens[figure.end + 1 : count.start]
    small = all(
        token.raw == "," or "and" in token.groups or "there_are" in token.groups
        for token in between
    )
    of, them = scene.tokens[count.end : count.end + 1], scene.tokens[count.end + 1 :][:1]
    counted = of and them and "of" in of[0].groups and POINTS in them[0].groups
    ends = not of or of[0].kind is not WORD
    return int(count.value) if small and (counted or (ends and between)) else 0


def _at_so_much(scene: Scene, figure: Figure) -> bool:
    """'8 bags @ 50 lb', '24 supers at 45 lb', '40 bales x 55': between a count and what each is."""
    at = scene.figures.index(figure)
    count = scene.figures[at - 1] if at else None
    lead = scene.tokens[figure.start - 1] if figure.start else None
    if count is None or lead is None or not (lead.raw in TIMES or "at" in lead.groups):
        return False
    counted = count.whole and count.dimension is None and 2 <= count.value <= MOST_ALIKE
    return counted and count.start < figure.start <= count.end + LONGEST_COUNTED


TIMES = "@xX×"
"""Signs between how many there are and what each weighs."""


def _of_so_much(scene: Scene, figure: Figure) -> bool:
    """'6 bags of 50 lb feed', 'ten 50 lb bags': the count, and how much each of it weighs."""
    at = scene.figures.index(figure)
    count = scene.figures[at - 1] if at else None
    behind = scene.tokens[figure.end : figure.end + 1]
    if count is None or not behind or behind[0].kind is not WORD or figure.dimension != MASS:
        return False
    if not (count.whole and count.dimension is None and 2 <= count.value <= MOST_ALIKE):
        return False
    counts = count.claimed is None or count.claimed.startswith("a count")
    if "in_all" in behind[0].groups or not counts:
        return False
    between = scene.tokens[count.end : figure.start]
    if not between:
        return behind[0].text.endswith("s") and count.value < figure.value
    named = all(token.kind is WORD for token in between) and len(between) <= LONGEST_COUNTED
    return named and len(between) > 1 and "of" in between[-1].groups


LONGEST_COUNTED = 4
"""Tokens of a counted thing's name and the sign behind it."""

PAIR = 2
"""Tokens of 'a head'."""

FOR_EACH = frozenset(("each_one", "per_one"))
"""Groups of words behind a weight that many things have."""


def _for_one_of(scene: Scene, figure: Figure, count: Figure) -> bool:
    """'32 hives on, 110 lb a hive': so much for each of what was counted before."""
    counted = scene.tokens[count.end : figure.start]
    one = scene.tokens[figure.end + 1 : figure.end + 2]
    return bool(counted and one) and counted[0].text in (f"{one[0].text}s", f"{one[0].text}es")


MOST_ALIKE = 200
"""Things of one kind in one load."""
