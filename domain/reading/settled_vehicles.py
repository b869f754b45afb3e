"""Words beside a truck or a trailer that mean what stands around them.

This file decides what a verb of hitching in two words says of the trailer between them, whose a
vehicle is, and whether one load is that of both. Other words are settled in `settling`.
"""

from __future__ import annotations

from collections.abc import Sequence
from itertools import pairwise
from typing import TYPE_CHECKING

from domain.reading.as_one import have_one_load
from domain.reading.everyday_words import names_trailer, names_truck
from domain.reading.tokens import NO_GROUPS, NUMBER, WORD, Token
from domain.reading.unmarked_owners import settle_owners

if TYPE_CHECKING:
    from domain.reading.scene import Scene

TOWED = frozenset(("name", "vehicle", "rig"))
"""Classes of term that can stand for a trailer."""


def settle_towed(scene: Scene) -> None:
    """What is said of a truck or a trailer, and whose it is."""
    _settle_apart(scene)
    if scene.unknown:
        settle_owners(scene)
    if "both_vehicles" in scene.groups and scene.numbers:
        _settle_both(scene)


def settle_kinds(scene: Scene) -> None:
    """'hooked up the dump', 'got the lowboy hooked up': a kind by itself is a trailer there."""
    tokens, settled = scene.tokens, False
    for index in range(1, len(tokens)):
        token = tokens[index]
        if token.senses or "kind_alone" not in token.groups:
            continue  # and not the name of one
        if "article" not in tokens[index - 1].groups:
            continue
        beside = (*tokens[max(0, index - 2) : index - 1], *tokens[index + 1 : index + 2])
        if any("hitch" in each.senses for each in beside):
            token.senses, settled = {"vehicle": "trailer"}, True
    if settled:
        scene.index_terms()


def settle_meant(scene: Scene) -> None:
    """'I meant gross not trailer on that last weight': which weighing it stood in, and no rig.

    Nor is 'not hitched' a rig that was hitched.
    """
    _settle_unhitched(scene)
    settled = False
    for index in scene.by_class.get("rig", ()):
        token, behind = scene.tokens[index], scene.tokens[index + 1 : index + 3]
        last = any(each.senses.get("ordinal") == "last" for each in behind)
        if last and token.text.endswith(" on") and "points_back" in behind[0].groups:
            token.senses, settled = {"vehicle": "trailer"}, True
    if settled:
        scene.index_terms()


def _settle_unhitched(scene: Scene) -> None:
    """'horse trailer alone, not hooked up, 4,980': it stood without the other, and was not hitched.

    Where no trailer is named that is the truck alone. 'Bars: not hooked' is of the bars.
    """
    if "bars_word" in scene.groups:
        return
    towed = any(names_trailer(token) for token in scene.tokens)
    for index in scene.by_class["rig"]:
        token, before = scene.tokens[index], scene.tokens[max(0, index - 1) : index]
        denied = any("not" in each.groups for each in before)
        if denied and token.senses["rig"] == HITCHED and "hitch" in token.senses:
            token.senses = {"glue": "function"} if towed else {"rig": "solo"}
            if towed and _bears_a_tongue(scene):
                token.senses = scene.book.words["alone"]
            before[0].senses, before[0].groups = {"glue": "function"}, NO_GROUPS
            scene.index_terms()
            return


def _bears_a_tongue(scene: Scene) -> bool:
    """'camper, not hooked up: front axle 2,460 rear axle 2,520 tongue 690': of no truck."""
    if scene.has("vehicle", "truck") or scene.named("truck") or "trucks_axle" in scene.groups:
        return False
    return scene.has("whole", "tongue")


HITCHED = "hitched"


def settle_turned(scene: Scene) -> None:
    """'Juniper turned 51,500': what its odometer shows then, where somebody turns 50."""
    tokens, known = scene.tokens, scene.context.odometer
    for index, (token, read) in enumerate(pairwise(tokens)):
        if "turns_reading" not in token.groups or read.kind is not NUMBER or known is None:
            continue
        before = tokens[max(0, index - 2) : index]
        told = any(names_truck(each) or "odometer" in each.senses for each in before)
        if told and known.value <= read.value <= known.value + MOST_TURNED:
            token.senses = {"odometer": "odometer"}
            scene.index_terms()


MOST_TURNED = 5_000
"""Miles or kilometres since the last reading."""


def _settle_both(scene: Scene) -> None:
    """'truck and trailer 19,660': one load behind both is that of both."""
    for index in scene.by_class.get("rig", ()):
        token = scene.tokens[index]
        if "both_vehicles" in token.groups and have_one_load(scene.tokens, index + 1):
            token.senses = {**token.senses, "whole": "gross"}
            token.groups |= {"as_one"}
            scene.index_terms()


def _settle_apart(scene: Scene) -> None:
    """'picked the camper up': a verb of hitching in two words, the trailer between them."""
    tokens, apart = scene.tokens, False
    for index in scene.by_class.get("rig", ()):
        token, verb = tokens[index], index - 1
        if index + 1 < len(tokens) and "axle_noun" in tokens[index + 1].senses:
            apart = _name_whose(token) or apart  # 'just the truck axles' may be hitched
            continue
        if verb > 0 and "article" in tokens[verb].groups:
            verb -= 1
        off = scene.book.means(tokens[verb].text, token.text.split()[-1]) if verb >= 0 else {}
        if "hitch" not in off:
            continue
        if "hitch" in tokens[verb].senses or _puts_on_or_off(tokens, verb, index):
            tokens[verb].senses = {"hitch": off["hitch"]}
            token.senses, apart = {"vehicle": "trailer"}, True  # 'dropped the trailer off'
    for index in (*scene.by_class.get("name", ()), *scene.by_class.get("vehicle", ())):
        verb = index - 2 if index > 1 and "article" in tokens[index - 1].groups else index - 1
        if verb < 0 or index + 1 == len(tokens):
            continue
        free = "sets_free" in tokens[index + 1].groups  # 'kicked the camper loose around 1pm'
        if "glue" not in tokens[index + 1].senses and not free:
            continue
        behind = tokens[index + 2] if index + 2 < len(tokens) else None
        if "leaves_it" in tokens[verb].groups and _stays(tokens, index):
            tokens[verb].senses, apart = {"hitch": "unhitched"}, True
            continue
        if behind is not None and not free and _leads_on(behind):
            continue  # 'took the camper off road'
        action = scene.book.means(tokens[verb].text, tokens[index + 1].text).get("hitch")
        if action is not None:
            tokens[verb].senses, apart = {"hitch": action}, True
    if apart:
        scene.index_terms()


def _leads_on(behind: Token) -> bool:
    """Whether what stands behind 'on' and 'off' makes more of them: no small word and no time."""
    return behind.kind is WORD and behind.senses.keys().isdisjoint(("glue", "time"))


def _puts_on_or_off(tokens: Sequence[Token], verb: int, index: int) -> bool:
    """'took the trailer off', 'put the trailer on': no more is said than a place or what else."""
    if "beside_switch" not in tokens[verb].groups:
        return False
    behind = tokens[index + 1] if index + 1 < len(tokens) else None
    return behind is None or behind.kind is not WORD or not behind.groups.isdisjoint(BEHIND_SWITCH)


BEHIND_SWITCH = frozenset(("at", "and"))
"""Groups of words that can stand behind a trailer that is put on or taken off."""


def _stays(tokens: Sequence[Token], index: int) -> bool:
    """'left the camper at the lake': where a trailer stays, and no time at which one left."""
    token, behind = tokens[index], tokens[index + 2] if index + 2 < len(tokens) else None
    if not names_trailer(token) or "stays" not in tokens[index + 1].groups:
        return False
    if "rig" in token.senses:
        return False  # 'left with the caravan on the back'
    return behind is None or behind.kind is WORD


def _name_whose(token: Token) -> bool:
    """Make 'just the camper', said of its axles, name the vehicle and not how it stood."""
    vehicle = {"solo": "truck", "trailer": "trailer"}.get(token.senses["rig"].split()[0])
    if vehicle is None:
        return False
    named = {key: value for key, value in token.senses.items() if key == "name"}
    token.senses = named or {"vehicle": vehicle}
    return True
