"""A part at fault, or seen to, that is no part of the rig: a house's, or somebody else's.

This file decides when a part that houses and farms have, too, is theirs ('the porch light is
burned out', 'pin fell out of the gate'), and when who lost it is a person that nobody of the chat
tows with ('bob blew a tire'). What makes a check is decided in `checks`.
"""

from __future__ import annotations

from domain.reading.phrasebook import APOSTROPHES
from domain.reading.scene import Scene
from domain.reading.talk import OTHER, OTHER_VEHICLE
from domain.reading.tokens import MARK

OWNS = frozenset(APOSTROPHES)
"""Marks of which one stands in what is somebody's: 'Ned's'."""

OF_A_RIG = frozenset(
    ("name", "vehicle", "hitch", "weigh_cue", "odometer", "rig", "fuel_cue", "axle")
)
"""Classes of term that say that a rig is spoken of."""


def of_rig(scene: Scene, beside: int | None = None) -> bool:
    """Whether something of a rig is named, and that not by the part `beside` alone.

    A pump is also what fuels.
    """
    named = [each for each in OF_A_RIG if each in scene.by_class]
    return len(named) > 1 or (bool(named) and scene.by_class[named[0]] != [beside])


ELSEWHERE = frozenset(("of_a_house", "somebody_loses"))
"""Groups of words of which one stands where a part is not the rig's."""


def is_elsewhere(scene: Scene, index: int, state: int) -> bool:
    """Whether a part, whose state stands at `state`, is of a house or of somebody else's rig."""
    if of_rig(scene, index):
        return False
    house = "of_a_house" in scene.groups and _is_of_house(scene, index)
    loses = "somebody_loses" in scene.tokens[state].groups
    return house or (loses and (_lost(scene, state) or _is_for_another(scene, index)))


def owner_told_last(scene: Scene) -> int:
    """Where the clause begins that says no more than whose all before it is; 0 where none does.

    'boat trailer lights dont work, Uncle Roy's'.
    """
    last = len(scene.tokens) - 1
    while last and scene.tokens[last].kind is MARK:
        last -= 1
    owner = scene.tokens[last]
    if owner.raw[-2:-1] not in OWNS or owner.senses.keys() - {"talk"}:
        return 0
    start, _ = scene.clause_of(last)
    said = range(start, last)
    led = all("glue" in scene.tokens[at].senses or scene.talk[at] == OTHER for at in said)
    return start if led else 0


def _is_of_house(scene: Scene, index: int) -> bool:
    """'the gate latch broke', 'deck boards finished': not in a list of parts of a rig."""
    start, end = scene.clause_of(index)
    if not all(start <= at < end for at in scene.by_class["check_item"]):
        return False
    return any(
        "of_a_house" in scene.tokens[at].groups and (abs(at - index) <= 1 or _led_by_of(scene, at))
        for at in range(start, end)
    )


def _led_by_of(scene: Scene, index: int) -> bool:
    """'pin fell out of the gate', and not 'brakes tested at the gate'."""
    before = scene.tokens[max(0, index - 2) : index]
    return any("of" in token.groups for token in before)


def _lost(scene: Scene, verb: int) -> bool:
    """'ray lost a hub cap', 'the baler broke a chain': a word that nobody knows, and then that.

    What hits a rig breaks a part of it: 'a rock broke the marker light'.
    """
    start, _ = scene.clause_of(verb)
    start += "article" in scene.tokens[start].groups
    if verb != start + 1:
        return False
    who = scene.tokens[start]
    if scene.book.patterns["strikes_it"].fullmatch(who.text):
        return False
    return start in scene.unknown or "pet" in who.groups


def _is_for_another(scene: Scene, index: int) -> bool:
    """'lost the pin for the baler': it is of a thing that nobody knows."""
    behind = scene.tokens[index + 1 : index + 1 + LED]
    if not behind or behind[0].text.split(" ")[0] not in scene.book.groups["for"]:
        return False
    thing = next((each for each in behind[1:] if "article" not in each.groups), None)
    return thing is not None and not (thing.senses or thing.groups)


LED = 3
"""Tokens of 'for the', and what it leads to, behind a part."""


def are_tyres_of_another(scene: Scene) -> bool:
    """'bike tyres need air, 40 psi': another vehicle, that is none of a rig, stands before them."""
    if "talk" not in scene.by_class:
        return False
    return any(
        index > 0 and scene.tokens[index - 1].senses == ONLY_OTHER_VEHICLE
        for index, _, _ in scene.find("subject", "tyre")
    )


ONLY_OTHER_VEHICLE = {"talk": OTHER_VEHICLE}
"""All that a bike or a mower is called for."""
