"""Questions that are put to people, or are about somebody else's rig.

This file decides by whom a question is put to, and whose rig it is about: 'dad, what does your
camper weigh', 'how heavy is Bob's camper', 'what mpg does Ray get'. What else makes a question
one of Drawbar's is decided in `questions`.
"""

from __future__ import annotations

from domain.reading.scene import Scene
from domain.reading.tokens import Token

OF_PEOPLE = frozenset(("of_other_rig", "addressed_own", "gets_it"))
"""Groups of words of which one stands in such a question, where nobody's name is its owner's."""


def is_put_to_others(scene: Scene) -> bool:
    """Whether a question is asked of somebody who is called, or about a rig that is not ours."""
    groups = scene.groups
    if "of_other_rig" in groups and _calls_behind(scene):
        return True
    if "addressed_own" in groups and _calls_first(scene):
        return True
    if "does" in groups and not DOES_WHAT.isdisjoint(groups) and _does(scene):
        return True
    return not OWNED.isdisjoint(scene.by_class) and _owns_rig(scene)


DOES_WHAT = frozenset(("man", "gets_it"))
"""Groups of words with which it is asked what a rig does."""


def _calls_behind(scene: Scene) -> bool:
    """'what does your camper weigh, Pruett?': with a name that is nobody's of the chat."""
    said = scene.tokens[:-1] if scene.tokens[-1].raw == "?" else scene.tokens
    if len(said) < SHORTEST_CALL or said[-2].raw != "," or len(said) - 1 not in scene.unknown:
        return False
    called = said[-1].raw[0].isupper() and not said[-1].raw.isupper()
    return called and any("of_other_rig" in token.groups for token in said)


SHORTEST_CALL = 4
"""Tokens of a question with a name behind its comma."""


def _calls_first(scene: Scene) -> bool:
    """'dad, what does your camper weigh': somebody is called, and then asked about his own."""
    index = 0
    while index < len(scene.tokens) and "before_question" in scene.tokens[index].groups:
        index += 1
    if index + 1 >= len(scene.tokens):
        return False
    called = scene.tokens[index]
    if "family" not in called.groups and (called.groups or index not in scene.unknown):
        return False
    behind = scene.tokens[index + 1]
    return behind.raw == "," or "asks_indirectly" in behind.groups


def _owns_rig(scene: Scene) -> bool:
    """'how much does ray's camper weigh': it is somebody's who is no part of the chat's rig."""
    for index in scene.unknown:
        owner = scene.tokens[index]
        if owner.possessive and not owner.groups:
            behind = scene.tokens[index + 1 : index + 2]
            if behind and not OWNED.isdisjoint(behind[0].senses):
                return True
    return False


OWNED = frozenset(("name", "vehicle"))
"""Classes of term for what somebody has."""


def _does(scene: Scene) -> bool:
    """'what mpg does Ray get', 'how much does he weigh': the rig has another name, or is a she."""
    if scene.context.truck is None:
        return False  # it may be the name of ours
    for index in range(1, len(scene.tokens) - 1):
        if "does" not in scene.tokens[index - 1].groups:
            continue
        if "man" in scene.tokens[index].groups or _is_name(scene, index):
            return True
    return False


def _is_name(scene: Scene, index: int) -> bool:
    behind: Token = scene.tokens[index + 1]
    return index in scene.unknown and "gets_it" in behind.groups
