"""What a pronoun before a mass stands for: 'Extractor's aboard. It weighs 340 pounds'.

This file decides which thing was named before, as one that rides along, and is only pointed at
where its mass is told. What it weighs and where it stands is decided in `cargo`.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from domain.reading.figures import MASS, Figure, kilograms
from domain.reading.pressing_pounds import LIES
from domain.reading.scene import Scene
from domain.reading.spots import Spot
from domain.reading.things import is_noun, noun_from
from domain.reading.what_rides import LEAST_BEAST

POINTS, POINTS_AT_BODY = "points_at_things", "points_at_a_body"
"""The groups of words that point at a thing that was named before, and at an animal or a person."""

POINTING = frozenset((POINTS, POINTS_AT_BODY))

LEAST_TOLD_KG = 30.0
"""Less is said of anything; a load is named once more with what it weighs because it is heavy."""


@dataclass(frozen=True, slots=True)
class Meant:
    """The thing that is meant, and where it was said to stand."""

    item: str
    spot: Spot | None


def thing_meant(scene: Scene, figure: Figure, spots: Sequence[Spot]) -> Meant | None:
    """The thing that rides along, of which a mass is told by pronoun; None for none."""
    if figure.dimension != MASS or kilograms(figure) < LEAST_TOLD_KG:
        return None
    if "carried_thing" in scene.groups and (named := _on_trailer(scene, figure)) is not None:
        item = noun_from(scene, named)
        return None if item is None else Meant(item, None)
    at = _pronoun_before(scene, figure)
    if at is None or at == 0:
        return None
    start, _ = scene.sentence_of(max(0, at - 2))
    if any(start <= other.start < at and other.dimension == MASS for other in scene.figures):
        return None
    own = [spot for spot in spots if start <= spot.start < at]
    nouns = [
        index
        for index in range(start, at)
        if is_noun(scene, index)
        and (_is_led(scene, index) or NO_THING.isdisjoint(scene.tokens[index].senses))
        and not any(spot.start <= index < spot.end for spot in own)
        and "puts_it" not in scene.tokens[index + 1].groups  # 'Ted put firewood in the bed'
    ]
    named = next((index for index in nouns if _is_led(scene, index)), None)
    named = nouns[0] if nouns and named is None else named
    item = noun_from(scene, named) if named is not None else None
    if item is None or named is None:
        return None
    spot = next(
        (each for each in own if each.start > named and not _is_household(scene, each)), None
    )
    if spot is None and POINTS_AT_BODY in scene.tokens[at].groups:
        return None  # 'loaded up on pizza, he's 240 lb'
    if POINTS_AT_BODY in scene.tokens[at].groups and kilograms(figure) < LEAST_BEAST:
        return None
    if spot is None and not (
        _rides_along(scene, start, at) or _stands_there(scene, figure, spots, named)
    ):
        return None
    return Meant(item, spot)


NO_THING = frozenset(("fuel_cue",))
"""Classes of words that are no thing that rides along: 'took the forklift along'."""


def _on_trailer(scene: Scene, figure: Figure) -> int | None:
    """'the quad on the flatdeck weighs 640 lb': where the thing is named that stands there.

    It opens its sentence, and the trailer is named behind it or behind what it weighs.
    """
    if not figure.start or "weighs_it" not in scene.tokens[figure.start - 1].groups:
        return None
    named, end = scene.sentence_of(figure.start)
    while named < figure.start and "article" in scene.tokens[named].groups:
        named += 1
    if "carried_thing" not in scene.tokens[named].groups:
        return None
    for index in range(named + 1, end - 1):
        if index < figure.start and index > named + 1:
            continue  # before its weight, right behind its name
        if not LIES.isdisjoint(scene.tokens[index].groups):
            trailer = scene.tokens[index + 1 : index + 3]
            return named if any("vehicle" in each.senses for each in trailer) else None
    return None


def _is_led(scene: Scene, index: int) -> bool:
    return index > 0 and "article" in scene.tokens[index - 1].groups


def _pronoun_before(scene: Scene, figure: Figure) -> int | None:
    """Where the word stands that points, before a mass or right behind it: '165 lb it weighs'."""
    start, end = scene.clause_of(figure.start)
    for index in range(figure.start - 1, start - 1, -1):
        if not POINTING.isdisjoint(scene.tokens[index].groups):
            return index
        if is_noun(scene, index):
            return None
    opens = scene.tokens[start]
    if opens.senses.get("weigh_cue") and start < figure.start:
        return start  # 'Weighs 94 kilos.'
    behind = scene.tokens[figure.end : min(end, figure.end + 1)]
    if start == figure.start and any(POINTS in token.groups for token in behind):
        return start
    return None


def _rides_along(scene: Scene, start: int, end: int) -> bool:
    """Whether it is said there that something was loaded, or is in."""
    for index in range(start, end):
        token = scene.tokens[index]
        if "load_verb" in token.senses and scene.stated(index):
            return True
        if "goes_in" in token.groups:
            behind = scene.tokens[index + 1 : index + 2]
            ends = not behind or behind[0].ends_sentence or behind[0].raw == ","
            if ends or "and" in behind[0].groups:
                return True
    return False


def _stands_there(scene: Scene, figure: Figure, spots: Sequence[Spot], named: int) -> bool:
    """'took the forklift along. It weighs 2,900 lb and stands over the axles': behind its mass."""
    _, end = scene.sentence_of(figure.start)
    known = _is_led(scene, named) or "carried_thing" in scene.tokens[named].groups
    return known and any(
        figure.end < spot.start < end
        and not _is_household(scene, spot)
        and "stands_there" in scene.tokens[spot.start - 1].groups
        for spot in spots
    )


def _is_household(scene: Scene, spot: Spot) -> bool:
    """'in the basement': of a house, where no vehicle is named."""
    if scene.has("vehicle") or scene.has("name"):
        return False
    return spot.words.casefold() in scene.book.groups["household_spot"]
