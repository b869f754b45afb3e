"""Two figures of one stamp, '14000/1400': what a hitch may pull, and what may rest on it.

This file decides when two figures side by side are such a pair. The smaller is the tongue's: on a
hitch's label it is customarily a tenth of the other, up to a fifth or more where a pin rests.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from itertools import pairwise

from domain.reading.figures import MASS, Figure
from domain.reading.framing import LABEL_STEP
from domain.reading.scene import Scene
from domain.reading.tokens import Token

SHARE = (0.05, 0.3)
"""Tongue over pull on a label: 10 to 25 % and some room; common practice, no source."""

PARTS = ("hitch", "ball", "ball mount", "coupler", "pin box")
LEAST_PULL = 1000
"""Pounds or kilograms: less is no hitch's rating."""

MOST_BETWEEN = 3


def stamped_pairs(scene: Scene) -> Mapping[int, tuple[str, str]]:
    """Subject and rating of each figure of a pair, by where the figure starts; mostly none."""
    if "initial" in scene.by_class and not COUPLINGS.isdisjoint(scene.said):
        static = _with_static(scene)
        if static:
            return static
    if "rating_subject" not in scene.by_class:
        return {}
    found: dict[int, tuple[str, str]] = {}
    if "plated_at" in scene.groups:
        found = _plated(scene)
    for first, second in pairwise(scene.figures):
        part = part_before(scene, first)
        if part not in PARTS:
            continue
        if _is_pair(scene, first, second):
            found[first.start], found[second.start] = (part, "tow"), (part, "tongue")
        elif _is_turned(scene, first, second):
            found[first.start], found[second.start] = (part, "tongue"), (part, "tow")
    return found


COUPLINGS = frozenset(("rating_subject", "ball"))
"""A class of term and a group of words for what couples a trailer."""

S_VALUE = "S"
"""What may rest on a coupling, as UN Regulation 55 has it stamped."""


def _with_static(scene: Scene) -> dict[int, tuple[str, str]]:
    """'towball 3500 kg S 350': the S of a towbar's plate, and what it may pull before it."""
    found: dict[int, tuple[str, str]] = {}
    for pull, rest in pairwise(scene.figures):
        between = [token.raw for token in scene.tokens[pull.end : rest.start]]
        lead = [raw for raw in between if raw not in ",;=:" and raw != pull.unit]
        stamped = S_VALUE in between and len(lead) == 1 and not pull.value % LABEL_STEP
        if stamped and _are_alike(pull, rest):
            found[pull.start], found[rest.start] = ("hitch", "tow"), ("hitch", "tongue")
    return found


def _plated(scene: Scene) -> dict[int, tuple[str, str]]:
    """'the towbar's plated at 3,500': of a part it is what it may pull, and no gross."""
    return {
        figure.start: (part, "tow")
        for figure in scene.figures
        if figure.start
        and "plated_at" in scene.tokens[figure.start - 1].groups
        and (part := part_before(scene, figure)) in PARTS
    }


def hitched_how(scene: Scene, figure: Figure) -> str | None:
    """With bars or without, where a hitch is rated for both: said before a pair, or behind it.

    'WD 14000/1400 WC 8000/800', '12000/1200 weight distributing, 10000/1000 without'.
    """
    said = [index for index, token in enumerate(scene.tokens) if token.groups & HOW]
    if not said or len(scene.figures) < 2:
        return None
    first = said[0] < scene.figures[0].start
    for index in reversed(said) if first else said:
        if (index < figure.start) if first else (index >= figure.end):
            return "carrying" if "without_bars" in scene.tokens[index].groups else "with bars"
    return None


HOW = frozenset(("by_bars", "without_bars"))


def _is_turned(scene: Scene, rest: Figure, pull: Figure) -> bool:
    """'hitch says 1,500/15,000': the tongue's first, with nothing but a slash between.

    It may be named: 'receiver says 1,250 tongue 12,500 trailer', and also on one that says
    'weight carrying 1,000 tongue 10,000 trailer'.
    """
    between = scene.tokens[rest.end : pull.start]
    joined = all(token.raw == "," or "and" in token.groups for token in between[1:])
    named = bool(between) and joined and between[0].senses.get("whole") == "tongue"
    says = "says" in scene.tokens[rest.start - 1].groups
    named = named and (says or not HOW.isdisjoint(scene.groups))
    return (named or [token.raw for token in between] == ["/"]) and _are_alike(pull, rest)


def _is_pair(scene: Scene, pull: Figure, rest: Figure) -> bool:
    if not _are_alike(pull, rest):
        return False
    between = scene.tokens[pull.end : rest.start]
    joined = any(token.raw == "/" or "and" in token.groups for token in between)
    return len(between) <= MOST_BETWEEN and joined


def _are_alike(pull: Figure, rest: Figure) -> bool:
    """Whether so little may rest on what may pull so much."""
    loads = all(each.dimension in (None, MASS) and each.foreign is None for each in (pull, rest))
    if not loads or pull.value < LEAST_PULL:
        return False
    return SHARE[0] <= rest.value / pull.value <= SHARE[1]


def part_before(scene: Scene, figure: Figure) -> str | None:
    """The last thing with ratings of its own that the figure's sentence names before it."""
    start, _ = scene.sentence_of(figure.start)
    parts = [
        (index, key)
        for index, _, key in scene.find("rating_subject")
        if start <= index < figure.start
    ]
    while len(parts) > 1 and _is_where(scene.tokens[parts[-2][0] + 1 : parts[-1][0]]):
        parts.pop()
    return parts[-1][1] if parts else None


def _is_where(between: Sequence[Token]) -> bool:
    """'ball on this shank': what stands between a part and another that tells where it is."""
    where = bool(between) and not between[0].groups.isdisjoint(("on_the", "on_or_in"))
    return where and all(
        "name" in each.senses or "vehicle" in each.senses or each.groups & {"article", "points_at"}
        for each in between[1:]
    )
