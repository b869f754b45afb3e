"""Words for hitching that say how a rig stood when it was weighed, and tell no news.

This file decides what around such a word speaks for the one or the other; whether it is an event
is decided in `hitches`.
"""

from __future__ import annotations

from domain.reading.everyday_words import names_trailer
from domain.reading.scene import Scene


def is_behind_load(scene: Scene, index: int) -> bool:
    """'grossed 21,720 hooked to the camper': whether a load stands before it in its clause."""
    start, _ = scene.clause_of(index)
    return any(figure.role == "load" and start <= figure.start < index for figure in scene.figures)


def is_hooked_to(scene: Scene, index: int) -> bool:
    """'23,080 all in, hooked to the fiver': what the rig was hitched to, and is known to be."""
    verb = scene.tokens[index]
    other = verb.senses["hitch"].startswith("unhitched") or "hitches_a_trailer" in verb.groups
    if not scene.context.hitched or other:
        return False  # 'swapped to the flatdeck' is news
    said = verb.text.split()
    leads = said[-1] if len(said) > 1 else scene.tokens[min(index + 1, len(scene.tokens) - 1)].text
    return leads in scene.book.groups["to"]


def object_follows(scene: Scene, index: int) -> bool:
    """'dropped the camper': whether a vehicle is what the verb is done to, and not 'from' it."""
    for step in range(1, 4):
        if index + step >= len(scene.tokens):
            return False
        token = scene.tokens[index + step]
        if "vehicle" in token.senses or "name" in token.senses:
            return "from" not in scene.tokens[index + step - 1].groups
        if "glue" not in token.senses:
            return False
    return False


def heads_loads(scene: Scene, index: int) -> bool:
    """'camper hooked to Juniper: front axle ...': what stood on the scale, over its loads."""
    before = scene.tokens[index - 1] if index else None
    if before is None or not names_trailer(before):
        return False
    return any(token.raw == ":" for token in scene.tokens[index + 1 : index + 1 + FARTHEST_COLON])


FARTHEST_COLON = 5
"""Tokens behind a verb in which the colon stands that heads the loads."""


def is_setting(scene: Scene, index: int) -> bool:
    """'with the camper hooked up' describes the rig on the scale."""
    return any("describes_rig" in scene.tokens[k].groups for k in range(max(0, index - 4), index))
