"""Who texts, where a message begins with it: 'Mel here, 24.2 gal', 'Kev again. steer 5,160'.

This file decides that such a name is neither a place nor a thing that was loaded.
"""

from __future__ import annotations

from domain.reading.scene import Scene
from domain.reading.tokens import BREAK, MARK

LONGEST_NAME = 2
"""Words of a name."""


def texter(scene: Scene) -> range:
    """Where the name of whoever texts stands; empty where none is told so.

    A capitalized word or two that mean nothing else, and 'here' or 'again' between them and a mark.
    """
    tokens = scene.tokens
    for index, token in enumerate(tokens[: LONGEST_NAME + 1]):
        if "texts_here" in token.groups:
            behind = tokens[index + 1] if index + 1 < len(tokens) else None
            parted = behind is not None and (behind.kind in (MARK, BREAK) or behind.raw == ":")
            return range(index if parted else 0)
        if token.senses or not token.raw[0].isupper():
            return range(0)
    return range(0)
