"""One volume of several fills: '4 stops, 96.2 gal total', '96.2 gal in all this week'.

This file decides that a volume sums up fills which are told nowhere: it is none of them.
"""

from __future__ import annotations

from domain.reading.figures import VOLUME, Figure
from domain.reading.scene import Scene

TALLYING = frozenset(("together", "in_all", "counts_fills"))
"""Groups of words of which one stands where a volume is of several fills."""

FEWEST = 2


def is_tally(scene: Scene, volume: Figure) -> bool:
    """Whether a lone volume is of so many fills as are counted, or sums up a span of days."""
    if any(each is not volume and each.dimension == VOLUME for each in scene.figures):
        return False
    fills = scene.book.groups["counts_fills"]
    if any(each.foreign in fills and each.value >= FEWEST for each in scene.figures):
        return True
    summed = "together" in scene.groups or "in_all" in scene.groups
    return summed and scene.phrase_said("over_a_span") is not None
