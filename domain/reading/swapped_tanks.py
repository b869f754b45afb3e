"""A fuel tank that was put in the place of another: 'swapped the tank, it now holds 60 gal'.

This file decides that nobody puts a figure right where a tank was swapped, and that what is said
to hold so much is the tank of the clause before. What tells a tank's size is in `tank_sizes`.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from domain.reading.figures import Figure

if TYPE_CHECKING:
    from domain.reading.scene import Scene


def may_tell_swapped_tank(scene: Scene) -> bool:
    """Whether something holds so much, or a tank has its size: 'swapped in a 60 gal tank'."""
    if "correction" not in scene.by_class:
        return False
    return "holds" in scene.groups or scene.has("rating", "tank")


def settle_swapped_tank(scene: Scene) -> None:
    """'swapped the tank, it now holds 60 gal': a thing that holds so much was, and no figures."""
    tokens, settled = scene.tokens, False
    for index in scene.by_class["correction"]:
        if "swaps" in tokens[index].groups:
            tokens[index].senses = {"glue": "function"}
            settled = True
    if settled:
        scene.index_terms()


def tank_before(scene: Scene, size: Figure) -> bool:
    """'new bigger tank, holds 62 gal': whether it is the tank of the clause before that holds it.

    `size` stands behind a word for holding, before which nothing else is named.
    """
    start, _ = scene.clause_of(size.start)
    named = scene.tokens[start : size.start - 1]
    if not start or any("glue" not in each.senses and not each.groups for each in named):
        return False
    first, _ = scene.clause_of(start - 1)
    return any("tank" in each.senses for each in scene.tokens[first:start])
