"""Figures that are denied beside the one that is so: '93.99 not 99.93'.

This file decides that, where a message is no correction as a whole, what stands behind 'not' is
stated nowhere, and neither is what it says was told before; and which reading only names the fill
that is put right.
"""

from __future__ import annotations

from collections.abc import Sequence
from itertools import pairwise

from domain.reading.figures import Figure
from domain.reading.scene import Scene
from domain.reading.taken_back import refers_back
from domain.reading.tokens import MARK

DENIED = "what it was not"
TOLD = "what was told before"


def leave_told(scene: Scene) -> None:
    """Claim 'the 31.9 gallons i gave you', where nothing is put in the place of it."""
    for figure in scene.figures:
        if refers_back(scene.tokens, figure):
            scene.claim(figure, TOLD)


def leave_denied(scene: Scene) -> None:
    """Claim what stands behind 'not', where a figure like it stands right before that."""
    for first, second in pairwise(scene.figures):
        between = scene.tokens[first.end : second.start]
        denied = [token for token in between if token.kind is not MARK]
        alike = first.token.decimals == second.token.decimals
        measured = second.dimension in (None, first.dimension)
        if not denied or "contrasts" not in denied[-1].groups:
            continue
        slip = all("takes_back" in token.groups for token in denied[:-1])  # '24.6 sorry, not 26.4'
        if slip and alike and measured:
            scene.claim(second, DENIED)


def without_name(scene: Scene, figures: Sequence[Figure]) -> list[Figure]:
    """'the fill at 51,402 was 24.6 not 26.4', 'on the 51,402 fill': without what names the fill."""
    return [figure for figure in figures if not _names_fill(scene, figure)]


def _names_fill(scene: Scene, figure: Figure) -> bool:
    known = scene.context.odometer
    if known is None or not figure.whole or not known.value / 2 < figure.value < known.value * 2:
        return False
    behind = scene.tokens[figure.end : figure.end + 1]
    if any("fuel_cue" in token.senses for token in behind):
        return True
    before = scene.tokens[max(0, figure.start - 2) : figure.start]
    led = len(before) == 2 and "at" in before[1].groups and "fuel_cue" in before[0].senses
    return led and any(not token.groups.isdisjoint(WAS) for token in behind)


WAS = frozenset(("was_so", "restates", "was_then"))
"""Groups of words behind what names a fill, and before what it should say."""
