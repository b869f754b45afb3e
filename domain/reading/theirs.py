"""What somebody else has: 'lady had a camper on', 'guy lost a chain'.

This file decides when a thing that is told of belongs to whoever the clause is about, when it is
carried on a trailer of ours, and when somebody is no more than called: 'hey dad, ...'.
"""

from __future__ import annotations

from itertools import pairwise
from typing import TYPE_CHECKING

from domain.reading.figures import MASS
from domain.reading.manifests import is_manifest
from domain.reading.spots import find_spots
from domain.reading.tokens import MARK, NUMBER, Token

if TYPE_CHECKING:
    from domain.reading.scene import Scene

THINGS = frozenset(("name", "vehicle", "rig", "check_item", "talk"))
"""Classes of term that somebody else may have one of."""

SUBJECTS = frozenset(("talk", "vehicle"))
"""Classes of term that somebody else, or his rig, may be said with."""


def has_one(scene: Scene, index: int) -> bool:
    """'lady had a camper on', 'lost a chain': theirs, and what follows is of it.

    Not where they tell of ours ('guy behind us flashed, trailer light out'), nor where they
    are no subject ('filled up next to a guy with a camper, 31.4 gal').
    """
    if THINGS.isdisjoint(scene.tokens[index].senses):
        return False
    before = scene.tokens[max(0, index - 2) : index]
    if not any("a_thing" in each.groups for each in before):
        return False
    start, end = scene.clause_of(index)
    clause = scene.tokens[start:end]
    if any("alerts" in each.groups for each in clause):
        return False
    who = next((each for each in clause if each.senses.keys() - {"glue"}), None)
    return who is not None and not SUBJECTS.isdisjoint(who.senses)


def stands_on_ours(scene: Scene, index: int) -> bool:
    """'tractor 4,200 lb on the flatdeck': another vehicle, and what is carried on ours.

    So is it below 'on the flatdeck:', and where it stands at a place of a rig: 'mower 740 lb, 30
    in ahead of the trailer axle'.
    """
    if _opens_on_trailer(scene, index):
        return True
    if "carried_thing" not in scene.tokens[index].groups:
        return False
    if any(figure.dimension == MASS and figure.start > index for figure in scene.figures) and any(
        spot.start > index for spot in find_spots(scene)
    ):
        return True
    return is_manifest(scene.tokens) or any(
        "standing_on" in lead.groups and {"name", "vehicle"} <= thing.senses.keys()
        for lead, thing in pairwise(scene.tokens[index + 1 :])
    )


def _opens_on_trailer(scene: Scene, index: int) -> bool:
    """'race car on the trailer 2,780 lb': a line that begins with what stands there."""
    behind = scene.tokens[index + 1 : index + 3]
    if len(behind) < TRAILER_LED or "standing_on" not in behind[0].groups:
        return False
    start, _ = scene.sentence_of(index)
    if index - start > LONGEST_KIND or behind[1].senses.get("vehicle") != "trailer":
        return False
    named = all("article" in t.groups or not t.senses for t in scene.tokens[start:index])
    return named and "weigh_cue" not in scene.by_class


LONGEST_KIND, TRAILER_LED = 2, 2
"""Tokens before a vehicle of some kind, 'the race car', and of 'on the trailer' behind it."""


def is_somebodys(scene: Scene, index: int) -> bool:
    """'payload's only 1,400 on jim's', "dave's hauling 40 bales": an owner whom nobody knows."""
    behind = scene.tokens[index + 1 : index + 2]
    if behind and "hauls" in behind[0].groups:
        return True
    return (not behind or _tells_how_much(behind[0])) and is_last_owner(scene, index)


def is_last_owner(scene: Scene, index: int) -> bool:
    """Whether a clause ends with 'on jim's', where all that it says is of what he has.

    So it does with 'on jim's is 1,400'.
    """
    token = scene.tokens[index]
    if token.senses or token.groups or index == 0:
        return False
    led = not LEADS.isdisjoint(scene.tokens[index - 1].groups)
    behind = scene.tokens[index + 1 : scene.clause_of(index)[1]]
    return led and all(map(_tells_how_much, behind))


def _tells_how_much(token: Token) -> bool:
    """A mark, 'is' or the figure: nothing that says more of whose it is."""
    if token.kind is MARK or token.kind is NUMBER or "unit" in token.senses:
        return True
    return "copula" in token.senses.get("glue", "").split()


LEADS = frozenset(("on_or_in", "standing_on", "of"))
"""Groups of words that lead to whose it is: 'on jim's'; 'at Ned's' is a place."""


def is_hauled_by_somebody(scene: Scene) -> bool:
    """'jim is carrying 900 lb in the bed': whoever is named does it, and not we."""
    for index in range(1, len(scene.tokens)):
        if "hauls" not in scene.tokens[index].groups:
            continue
        who = index - 1
        if who and "copula" in scene.tokens[who].senses.get("glue", "").split():
            who -= 1
        if who in scene.unknown and who == scene.clause_of(who)[0]:
            return True
    return False


def is_called(scene: Scene, index: int) -> bool:
    """'hey dad the truck by itself was 8,420', 'mom we weighed 21,720': to whom it is told."""
    before, behind = scene.tokens[:index], scene.tokens[index + 1 : index + 3]
    if scene.tokens[index].possessive or any("before_question" not in t.groups for t in before):
        return False
    if len(behind) > 1 and behind[0].raw == ",":
        behind = behind[1:]
    return bool(behind) and not behind[0].groups.isdisjoint(("the", "our", "we"))
