"""What rides on our rig, and is neither somebody nor another rig.

This file decides when 'they', 'he' and a vehicle that is no pickup are what was loaded.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from domain.reading.figures import MASS, kilograms
from domain.reading.theirs import stands_on_ours
from domain.reading.tokens import WORD

if TYPE_CHECKING:
    from domain.reading.scene import Scene

NEAR_ITS_WEIGHT = 3
"""Tokens from who or what was loaded to what it weighs."""


def are_loaded(scene: Scene, index: int) -> bool:
    """'loaded three heifers they come to 3,600 lb': what was loaded, and no people."""
    if "they" not in scene.tokens[index].groups:
        return _is_beast(scene, index)
    weighs = scene.tokens[index + 1 : index + 2]
    if not weighs or weighs[0].groups.isdisjoint(COMES_TO) or "load_verb" not in scene.by_class:
        return False
    start, _ = scene.sentence_of(index)
    loaded = [at for at in scene.by_class["load_verb"] if start <= at < index]
    between = scene.tokens[loaded[0] + 1 : index] if loaded else ()
    return any(not token.groups.isdisjoint(RIDES) for token in between)


def _is_beast(scene: Scene, index: int) -> bool:
    """'loaded Copper in the front stall, he's 1,140 lb': an animal that was loaded, and nobody."""
    loaded = scene.by_class.get("load_verb", ())
    if not loaded or not scene.sentence_of(index)[0] <= loaded[0] < index:
        return False
    near = (each for each in scene.figures if index < each.start <= index + NEAR_ITS_WEIGHT)
    return any(
        each.dimension == MASS
        and kilograms(each) >= LEAST_BEAST
        and all(not t.groups.isdisjoint(WEIGHS) for t in scene.tokens[index + 1 : each.start])
        for each in near
    )


WEIGHS = frozenset(("was", "weighs_it", "around"))
"""Groups of words between who is meant and what he weighs."""

LEAST_BEAST = 150.0
"""Kilograms: of nobody who rides along it is told that he weighs more."""

COMES_TO = frozenset(("came_word", "weighs_it"))
"""Groups of verbs behind which stands what something weighs."""

RIDES = frozenset(("animal", "carried_thing"))
"""Groups of what is loaded."""


def _is_put_on(scene: Scene, index: int) -> bool:
    """'tractor's on, just scaled': it rides on ours, where 'boat's in the water' floats.

    So it does where 'boat on:' or 'boat on & bars hooked:' heads what was weighed.
    """
    behind = scene.tokens[index + 1 : index + 3]
    if "goes_in" not in behind[0].groups:
        return False
    if scene.tokens[index].possessive:
        return len(behind) == 1 or behind[1].kind is not WORD
    return len(behind) > 1 and (behind[1].raw == ":" or "and" in behind[1].groups)


def is_other_vehicle(scene: Scene, index: int) -> bool:
    """A vehicle not the chat's: neither 'car + trailer' nor what is carried ('a tractor')."""
    if scene.has("load_verb") or scene.context.truck is None:
        return "vehicle" not in scene.by_class and not _was_loaded(scene, index)
    following = scene.tokens[index + 1] if index + 1 < len(scene.tokens) else None
    if following is None:
        return True
    tows = "towing_tractor" in scene.tokens[index].groups and "axle" in following.senses
    ours = following.senses.keys() & {"vehicle", "rig"} or stands_on_ours(scene, index)
    return not (tows or ours or _is_put_on(scene, index))


def _was_loaded(scene: Scene, index: int) -> bool:
    """'loaded the mower 640 lb': whoever says so without saying who did it themselves.

    So it is where an axle is named that it stands by: 'loaded the tractor over the axles'.
    """
    if "carried_thing" not in scene.tokens[index].groups:
        return False
    if "axle_noun" in scene.by_class:
        return True
    start, _ = scene.clause_of(index)
    ahead = [each for each in scene.tokens[start:index] if "article" not in each.groups]
    return len(ahead) == 1 and "surely_loads" in ahead[0].groups
