"""More fuel poured on top when the pump had stopped: 'clicked at 27.3, squeezed 1.4 more in'.

This file decides which volume came on top of a fill's first one, and adds it. What a second stop
or another tank took is none of it.
"""

from __future__ import annotations

from collections.abc import Sequence

from domain.reading.figures import Figure
from domain.reading.scene import Scene
from domain.reading.tokens import WORD

MORE = frozenset(("still_more", "another"))
"""Groups of words beside what came on top: '1.4 more', 'another 1.4'."""

MOST_SQUEEZED = 0.5
"""What comes on top is no more than that part of what was poured before."""


def add_squeezed(scene: Scene, volume: Figure, own: Sequence[Figure]) -> None:
    """'24.6 gal then another 1.2': one fill of both, where nothing tells of a second stop."""
    start, end = scene.sentence_of(volume.start)
    for other in own:
        first, top = (volume, other) if volume.start < other.start else (other, volume)
        told = start <= other.start < end and other is not volume
        if told and _is_volume(volume, other) and _comes_on_top(scene, first, top):
            volume.value = round(first.value + top.value, 3)
            scene.claim(other, "poured before or on top")
            return


def _is_volume(volume: Figure, other: Figure) -> bool:
    tenths = other.dimension is None and other.label is None and other.token.decimals == 1
    return tenths or other.unit == volume.unit


def _comes_on_top(scene: Scene, first: Figure, top: Figure) -> bool:
    """Whether the second of two volumes is so little, and told as more."""
    _, end = scene.clause_of(top.start)
    if top.value > MOST_SQUEEZED * first.value:
        return False
    if any(_is_elsewhere(scene, index) for index in range(first.end, end)):
        return False
    before, behind = scene.tokens[top.start - 1], scene.tokens[top.end : top.end + 2]
    if behind and "still_more" in behind[0].groups:
        return len(behind) == 1 or "bounds_above" not in behind[1].groups  # '3 more than last time'
    return "another" in before.groups


def _is_elsewhere(scene: Scene, index: int) -> bool:
    """'10 more at Elk Fork', '5 more in the can': a place that is named, or a can."""
    token, behind = scene.tokens[index], scene.tokens[index + 1 : index + 2]
    led = "leads_to_place" in token.groups and behind and behind[0].kind is WORD
    return bool(led and behind[0].raw[0].isupper()) or "container" in token.groups
