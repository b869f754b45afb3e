"""Fluid that came in so many of a container: 'two 2.5 gallon jugs', '3 jerry cans, 20 L each'.

This file decides how many of them there were; what all of them hold is the volume that was
poured.
"""

from __future__ import annotations

from domain.reading.everyday_words import names_truck
from domain.reading.figures import Figure
from domain.reading.scene import Scene
from domain.reading.tokens import NUMBER

MOST = 12
"""Containers that anybody pours into one tank."""

FARTHEST = 6
"""Tokens from how many there were to how much each holds: '2 jugs of def at 2.5'."""


def containers(scene: Scene, volume: Figure) -> int:
    """How many of what holds a volume there were, else 1."""
    each = (
        "each_one" in scene.groups
        and volume.end < len(scene.tokens)
        and "each_one" in scene.tokens[volume.end].groups
    )
    named = each or "container" in scene.groups
    if not (named or volume.count or _times(scene, volume.start - 1)):
        return 1
    if volume.count:
        return volume.count
    start, _ = scene.sentence_of(volume.start)
    before = [index for index in range(start, volume.start) if _counts(scene, index)]
    if not before:
        return 1
    count, between = before[-1], scene.tokens[before[-1] + 1 : volume.start]
    if not between or _times(scene, volume.start - 1):
        held = any("container" in token.groups for token in scene.tokens[volume.end :][:NEAR])
        held = held or bool(between)
    else:
        near = len(between) <= FARTHEST and "container" in between[0].groups
        held = near and (each or bool(between[-1].groups & HOLDING))
    return int(scene.tokens[count].value) if held else 1


def is_poured_in(scene: Scene) -> bool:
    """'poured a 5 gal can in', 'two cans, 5 gal each, into the truck': whether it went into a tank.

    A can that is loaded into the truck is carried.
    """
    if "pours_can" in scene.groups:
        return True
    if "load_verb" in scene.by_class:
        return False
    for index, token in enumerate(scene.tokens):
        behind = scene.tokens[index + 1 : index + 3]
        if "into" in token.groups and any(names_truck(t) or "tank" in t.senses for t in behind):
            return True
    return False


HOLDING = frozenset(("of", "at"))
"""Groups of words right before how much is in each container: 'jugs of 10 litres'."""

NEAR = 3
"""Tokens from a volume to the container that it is of: 'gallon', 'jerry', 'cans'."""


def _counts(scene: Scene, index: int) -> bool:
    token = scene.tokens[index]
    return token.kind is NUMBER and token.decimals == 0 and 2 <= token.value <= MOST


def _times(scene: Scene, index: int) -> bool:
    """'2 x 2.5 gal'."""
    return index > 0 and scene.tokens[index].text in ("x", "×") and _counts(scene, index - 1)
