"""What in a question speaks of the rig.

This file decides whether a vehicle, an axle, a rating or the gross is named, and no everyday
thing by the same word. What is asked of them is decided in `topics`.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from domain.reading.scene import Scene

if TYPE_CHECKING:
    from domain.reading.asked import Asked


def names_rig(scene: Scene) -> bool:
    """Whether a vehicle is named, by its kind or as the chat calls it."""
    return "vehicle" in scene.by_class or "name" in scene.by_class


def names_axle(scene: Scene, asked: Asked, *terms: str) -> bool:
    """An axle, and no hard drive: 'drives' is an everyday word beside words nobody knows."""
    named = [token for term in terms or ("axle",) for _, token, _ in scene.find(term)]
    return bool(named) and (
        asked.strangers == 0 or any("axle_or_word" not in token.groups for token in named)
    )


def names_rating(scene: Scene) -> bool:
    """A rating; 'atm' is one where roads are measured in km, or beside a vehicle."""
    if "rating" not in scene.by_class:
        return False
    known = scene.context.units == "metric" or names_rig(scene)
    return any(known or "metric_rating" not in token.groups for _, token, _ in scene.find("rating"))


def names_whole(scene: Scene, asked: Asked) -> bool:
    """The gross or the tongue; 'everything' is the rig's own only where 'we' and 'our' stand."""
    return any(
        asked.ours or "everyday_whole" not in token.groups for _, token, _ in scene.find("whole")
    )


def speaks_trade(scene: Scene) -> bool:
    """Whether the message has words that only someone who tows uses, or the chat's own names."""
    return (
        scene.has("name")
        or scene.has("vehicle", "trailer")
        or names_rating(scene)
        or scene.has("axle_noun")
        or scene.has("odometer")
        or any("surely_economy" in token.groups for token in scene.tokens)
    )
