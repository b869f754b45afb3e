"""Whether a place and its load are told as they are now: 'steer's at 5,180', 'steer 5,060 now'.

What such a load needs besides, to be one, is decided in `weighings`.
"""

from __future__ import annotations

from domain.reading.figures import Figure
from domain.reading.label import Label
from domain.reading.scene import Scene

TELLS = frozenset(("says_so", "now_word"))
"""Groups of words between a place and its load that say that it is so now."""


def is_told_now(scene: Scene, label: Label, figure: Figure) -> bool:
    """'steer is 5,180', 'steer's at 5,180', 'drive now 6,320', 'steer 5,060 now'."""
    said = scene.tokens[label.end : figure.start]
    if any(not token.groups.isdisjoint(TELLS) for token in said):
        return True
    if any("at_alone" in token.groups for token in said):
        return scene.tokens[label.end - 1].possessive
    return any("now_word" in token.groups for token in scene.tokens[figure.end : figure.end + 1])
