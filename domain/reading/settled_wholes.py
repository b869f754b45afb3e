"""Words of a weight that are of the whole beside some words, and of something else beside others.

This file gives 'all in', 'tare', 'train' and what bears down on a ball the sense that they have
beside their neighbours; `settling` asks for it.
"""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING

from domain.reading.as_one import LEAST_OF_BOTH
from domain.reading.clocks import HAPPENED
from domain.reading.everyday_words import names_trailer
from domain.reading.side_letters import load_follows
from domain.reading.tokens import NUMBER, Token

if TYPE_CHECKING:
    from domain.reading.scene import Scene


def settle_borne(scene: Scene) -> None:
    """'camper on the ball 1,180': how much bears down there, and nothing was hitched.

    So it is behind its figure, where that has a unit or stands beside other loads: '74 kg on the
    towball', 'axles 2,310, 190 on the ball'.
    """
    tokens = scene.tokens
    weighed = not SAYS_LOADS.isdisjoint(scene.by_class)
    loading = (
        "load_verb" in scene.by_class and scene.by_class["load_verb"][0] + 1 not in scene.numbers
    )
    for index in scene.by_class["hitch"]:
        behind = tokens[index + 1 : index + 2]
        loaded = bool(behind) and behind[0].kind is NUMBER and behind[0].value >= LEAST_BORNE
        if loaded and behind[0].value >= MOST_BORNE and "on_the_ball" in tokens[index].groups:
            # 'stamp on the coupler says 8,000 and on the ball 6,000'
            if "rating_subject" in scene.by_class:
                tokens[index].senses = {"rating_subject": "ball"}
            continue
        measured = index > 1 and "mass_unit" in tokens[index - 1].groups and not loading
        before = tokens[index - 1 - measured] if index and (weighed or measured) else None
        loaded = loaded or (
            before is not None
            and before.kind is NUMBER
            and LEAST_BORNE <= before.value < MOST_BORNE
        )
        if loaded and "bears_down" in tokens[index].groups:
            tokens[index].senses = {"whole": TONGUE}
    scene.index_terms()


LEAST_BORNE, MOST_BORNE = 40, 5_000
"""Pounds or kilograms: no hitch bears less that anybody weighs, and few pickups' bear more."""


SAYS_LOADS = frozenset(("weigh_cue", "axle_noun", "axle", "whole", "vehicle", "name"))
"""Classes of term beside which a figure is a load."""


def settle_wholes(scene: Scene) -> None:
    """What 'all in' and 'train' are of, where either stands."""
    if "unit" in scene.by_class:
        _settle_all_in(scene)
    if "everything_word" in scene.groups and not HAPPENED.isdisjoint(scene.by_class):
        _settle_and_everything(scene)
    if "claim" in scene.by_class and "combination" in scene.groups:
        _settle_train(scene)


def _settle_and_everything(scene: Scene) -> None:
    """'48,466 unhooked n everything': all that goes with it, and no gross; none is told behind."""
    tokens = scene.tokens
    for index in scene.by_class["whole"]:
        before, behind = tokens[max(0, index - 3) : index], tokens[index + 1 : index + 2]
        told = any(not HAPPENED.isdisjoint(token.senses) for token in before[:-1])
        if (
            told
            and "everything_word" in tokens[index].groups
            and "and_alone" in before[-1].groups
            and not (behind and behind[0].kind is NUMBER)
        ):
            tokens[index].senses = {"glue": "filler"}
    scene.index_terms()


def _settle_train(scene: Scene) -> None:
    """'car gross 2,520, train 4,520': beside a gross it is of both, and no railway's number."""
    for index in scene.by_class["claim"]:
        token, behind = scene.tokens[index], scene.tokens[index + 1 : index + 2]
        loaded = bool(behind) and behind[0].kind is NUMBER and behind[0].value >= LEAST_OF_BOTH
        if loaded and "combination" in token.groups:
            token.senses = {"whole": "gross"}
    scene.index_terms()


def _settle_all_in(scene: Scene) -> None:
    """'1,940, 1,380, 1,720, all in kg': the unit of them all, and no gross.

    No more is 'hay 420 lb, all in the nose', which tells where it lies.
    """
    tokens = scene.tokens
    for index in scene.by_class["whole"]:
        behind = tokens[index + 1 : index + 3]
        common = "before_common_unit" in tokens[index].groups and behind
        lies = "all_there" in tokens[index].groups and len(behind) > 1
        lies = lies and "article" in behind[0].groups and not SPOTS.isdisjoint(behind[1].groups)
        if lies or (common and "mass_unit" in behind[0].groups and behind[-1].kind is not NUMBER):
            tokens[index].senses = {"glue": "function"}
            scene.index_terms()
            return


SPOTS = frozenset(("which_spot", "load_place", "front_of_trailer"))
"""Groups of words for where a load lies."""


def settle_read_off(scene: Scene) -> None:
    """'gross on that ticket was 21,660': the paper that a load was read off, and no fee for it."""
    tokens, last = scene.tokens, len(scene.tokens) - 1
    for index in scene.by_class["fee"]:
        led = tokens[max(0, index - FARTHEST_READ) : index]
        read_off = any("read_off" in token.groups for token in led)
        if read_off and index < last and load_follows(tokens, index + 1):
            tokens[index].senses = {"glue": "copula"}
    scene.index_terms()


FARTHEST_READ = 3
"""Tokens: 'on that last ticket'."""


def settle_tare(scene: Scene) -> None:
    """'trailer tare 3,200', 'gvwr 9,990 tare 3,200': a plate's; a ticket has gross and net, too."""
    tokens = scene.tokens
    weighed = any(
        each.senses.get("whole", TONGUE) != TONGUE and "tare" not in each.groups for each in tokens
    )
    if weighed or "ticket" in scene.by_class or "weigh_cue" in scene.by_class:
        return
    plated = "rating" in scene.by_class
    for index, token in enumerate(tokens):
        if "tare" in token.groups and (plated or _is_of_trailer(tokens, index)):
            token.senses = {"rating": "curb"}
    scene.index_terms()


TONGUE = "tongue"


def _is_of_trailer(tokens: Sequence[Token], index: int) -> bool:
    """Whether a trailer stands before, or behind 'of' and an article."""
    if index and names_trailer(tokens[index - 1]):
        return True
    behind = tokens[index + 1 : index + 4]
    if not behind:
        return False
    onto = "onto" in behind[0].senses.get("glue", "").split()  # 'tare on the flatdeck'
    if not onto and behind[0].groups.isdisjoint(("of", "on")):
        return False
    return any(names_trailer(each) for each in behind[1:])
