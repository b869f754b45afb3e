"""How the rig stood on the scale, as the message says it.

This file decides whether it was hitched, the truck alone or the trailer alone, and whether the bars
were on.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from itertools import pairwise
from typing import Literal, cast

from domain.entries import POSITIONS
from domain.quantities import Quantity
from domain.reading.everyday_words import names_trailer, names_truck
from domain.reading.evidence import names_rig
from domain.reading.label import Label
from domain.reading.passes import Pass
from domain.reading.scene import Scene
from domain.reading.tokens import NUMBER, WORD, Token

Bars = Literal["on", "off"]
Rig = Literal["hitched", "solo", "trailer"]
OF_TRUCK = frozenset(at for at in POSITIONS if at.startswith(("steer", "drive", "truck")))
OF_TRAILER = frozenset(at for at in POSITIONS if at.startswith("trailer"))
BEYOND = 1.05
"""A gross this much over the loads of one vehicle is that of both: the rig was hitched."""


def rig_of(loads: Mapping[str, Quantity], stated: str | None) -> Rig | None:
    """How the rig stood, as the loads show it, else as it was said."""
    truck = [position for position in loads if position in OF_TRUCK]
    trailer = [position for position in loads if position in OF_TRAILER]
    if truck and trailer:
        return "hitched"
    gross = loads.get("gross")
    own = truck or [*trailer, *(p for p in ("tongue",) if p in loads)]
    one_alone = truck or (trailer and stated is None)
    if stated == "solo" and len(truck) == 1 and truck[0] in ("steer", "drive"):
        one_alone = []  # 'solo 8,140, front 4,740': its other axle was not told
    if gross is not None and one_alone:
        carried = sum([loads[position].amount(gross.unit) for position in own])
        if gross.value > BEYOND * carried:
            return "hitched"
    return cast(Rig, stated) if loads.keys() != {"tongue"} else None


def stated_rig(scene: Scene, each: Pass, count: int, named: str | None) -> str | None:
    """How the rig stood, as the message says it: 'bobtail', 'trailer alone', 'unhooked'.

    `named` is what the vehicles that it names say, for the whole message.
    """
    if not scene.labels and STANDING.isdisjoint(scene.by_class):
        return named
    found: str | None = None
    for index, _, key in scene.find("rig"):
        if count > 1 and not each.start <= index < each.end:
            continue
        following = scene.tokens[index + 1] if index + 1 < len(scene.tokens) else None
        if following is not None and "axle_noun" in following.senses:
            continue  # 'only the trailer axle' is still hitched
        kind = key.split()[0]
        if kind == "hitched" and following is not None and "slack" in following.groups:
            kind = "solo"  # 'with the trailer off'
        if kind == "trailer" and found != kind and _says_truck(scene, index):
            kind = "solo"  # 'truck unhitched: LF 2,610 ...', and no trailer is named
        if kind == "solo" and named == "trailer" and "alone" in scene.tokens[index].senses:
            kind = named  # 'camper solo on the scale'
        if kind == "hitched" and (_not_yet(scene, index) or _is_next(scene, each, index)):
            kind = "solo"
        found = (found or kind) if kind == "hitched" else kind
    hitched = _still_hitched(scene, each) or _is_train(scene, each)
    found = found or named or ("hitched" if hitched else None)
    if found == "hitched" and any(
        count == 1 or each.start <= index < each.figures[-1].start
        for index, _, _ in scene.find("hitch", "unhitched")
    ):
        found = None
    if found is None and "home" in scene.groups and count == 1 and _stayed_home(scene):
        return "solo"
    if found is None and _unhitched_here(scene, each):
        found = "trailer" if _trailer_is_subject(scene) or _it_alone(scene) else "solo"
    if found is None and "weigh_cue" in scene.by_class and _truck_after_unhitching(scene, each):
        found = "solo"
    return found


def _stayed_home(scene: Scene) -> bool:
    return any("home" in t.groups and is_of_trailer(scene, at) for at, t, _ in scene.find("event"))


def is_of_trailer(scene: Scene, home: int) -> bool:
    """'left the trailer at home, gross 8,140', 'camper stayed home': where it is, and not we."""
    start, _ = scene.clause_of(home)
    ahead = [each for each in scene.tokens[start:home] if "article" not in each.groups]
    if any("weigh_cue" in each.senses or each.kind is NUMBER for each in ahead):
        return False
    subject = bool(ahead) and names_trailer(ahead[0])
    if subject:
        return all("hitch" not in each.senses for each in ahead)
    words = [word for each in ahead for word in each.text.split()]  # 'left the trailer' is a phrase
    known = scene.book.words
    trailer = any(known.get(word, {}).get("vehicle") == "trailer" for word in words)
    trailer = trailer or any(map(names_trailer, ahead))
    return trailer and not scene.book.groups["leaves_it"].isdisjoint(words)


def _not_yet(scene: Scene, index: int) -> bool:
    """'weighed the truck before we hitched'."""
    before = scene.tokens[index - 1].text.split() if index else []
    return bool(before) and before[0] in scene.book.groups["before_it"]


STANDING = frozenset(("rig", "hitch"))
"""Classes of term that say how the rig stood."""


def _says_truck(scene: Scene, index: int) -> bool:
    """Whether words for how the rig stood name the truck alone, and nothing else a trailer."""
    first = scene.book.words.get(scene.tokens[index].text.split(" ")[0], {})
    return first.get("vehicle") == "truck" and not any(
        label.vehicle == "trailer" for label in scene.labels
    )


def _still_hitched(scene: Scene, each: Pass) -> bool:
    """'still hooked to the ute', of axles 'hooked to Juniper': how it stood, and no event."""
    if "hitch" not in scene.by_class:
        return False
    by_axle = not any(isinstance(f.label, Label) and f.label.whole for f in each.figures)
    return any(
        (index and _describes(scene.tokens[max(0, index - FARTHEST_WITH) : index]))
        or (by_axle and any(map(_names_truck, scene.tokens[index + 1 : index + 2])))
        for index, _, _ in scene.find("hitch", "hitched")
    )


def _describes(before: Sequence[Token]) -> bool:
    """'still hooked', 'with the ute hooked on', 'whole rig hitched': how it was, and no event."""
    last = before[-1]
    if "describes_rig" in last.groups or last.senses.get("whole") == "gross":
        return True
    named = not last.senses.keys().isdisjoint(("vehicle", "name"))
    return named and any("with" in token.groups for token in before)


FARTHEST_WITH = 3
"""Tokens from 'with' to how what is named behind it stood."""


def _names_truck(token: Token) -> bool:
    return token.senses.get("name", "").startswith("truck:")


def _is_train(scene: Scene, each: Pass) -> bool:
    """'train weight 3,690': one load, by a word that truck and trailer together go by.

    Where the chat knows that a trailer is on, it need not be said.
    """
    label = each.figures[0].label if len(each.figures) == 1 else None
    known = scene.context.hitched is True
    if known or not isinstance(label, Label) or label.whole != "gross":
        return False
    words = scene.words_between(label.start, label.end).casefold().split()
    return not scene.book.groups["combination"].isdisjoint(words)


def rig_of_named(scene: Scene) -> str | None:
    """How the rig stood, as the vehicles that the message names say; None where they don't."""
    alone = stood_alone(scene)
    if alone is not None:
        return alone
    aside = [each for each in scene.labels if each.aside and each.vehicle == "trailer"]
    hitched = not all(_was_unhooked(scene, each) for each in aside)
    return "hitched" if hitched or _both_named(scene) else None


def _unhitched_here(scene: Scene, each: Pass) -> bool:
    """'unhooked: 8,140' describes the rig; 'Unhitched.' in a sentence of its own is an event."""
    if "hitch" not in scene.by_class:
        return False
    if all(isinstance(f.label, Label) and f.label.whole == "tongue" for f in each.figures):
        return False
    for index, token, _ in scene.find("hitch", "unhitched"):
        if token.groups & {"hitches_a_trailer", "leaves_it"}:
            continue  # 'parked', 'took off', 'left': said of anything
        if "surely_hitches" not in token.groups and not names_rig(scene):
            continue  # 'the numbers have dropped'
        behind = each.end < len(scene.tokens) and index > each.figures[-1].start
        if behind or _is_next(scene, each, index):
            continue  # 'gross 23,960, dropped the trailer and truck was 8,880': of the next pass
        if any(index < at < each.figures[0].start for at, _, _ in scene.find("hitch", "hitched")):
            continue  # 'dropped the flatdeck, hitched the camper and weighed the truck: ...'
        start, end = scene.sentence_of(index)
        if any(start <= figure.start < end for figure in each.figures):
            return True
    return False


def _is_next(scene: Scene, each: Pass, verb: int) -> bool:
    """'gross 8,140, then hooked up the camper': what was done when the pass was over."""
    return verb > each.figures[-1].start and "after_that" in scene.tokens[verb - 1].groups


def _truck_after_unhitching(scene: Scene, each: Pass) -> bool:
    """'dropped the camper. Ran the truck over the scale: ...': without it, and not 'earlier'.

    Where both axles and nothing else are told, the truck need not be named.
    """
    if "hitch" not in scene.by_class or scene.has("hitch", "hitched"):
        return False
    if "back_then" in scene.groups or "before_it" in scene.groups:
        return False
    off = [
        index
        for index, token, _ in scene.find("hitch", "unhitched")
        if "surely_hitches" in token.groups or any(map(names_trailer, _object(scene, index)))
    ]
    return bool(off) and any(
        cue > off[0]
        and (_is_of_truck(scene, cue) or (_are_trucks_axles(each) and not _it_alone(scene)))
        and not any(map(names_trailer, scene.tokens[cue:]))
        for cue in scene.by_class["weigh_cue"]
    )


def _are_trucks_axles(each: Pass) -> bool:
    """'5,190 front, 6,080 rear': one load by its end for each axle of a truck, and no other."""
    told = [f.label.axle or f.label.end_of for f in each.figures if isinstance(f.label, Label)]
    return len(each.figures) == len(told) == BOTH_AXLES == len({*told} - {None})


BOTH_AXLES = 2


def _object(scene: Scene, verb: int) -> Sequence[Token]:
    """'the camper': what a verb is done to."""
    return scene.tokens[verb + 1 : verb + 3]


def _is_of_truck(scene: Scene, cue: int) -> bool:
    """'ran the truck back over the scale', 'weighed Juniper': whose weighing is spoken of."""
    if any(map(names_truck, _object(scene, cue))):
        return True
    for token in reversed(scene.tokens[max(0, cue - FARTHEST_WITH) : cue]):
        if names_truck(token):
            return True
        if token.kind is not WORD or "and" in token.groups:
            return False
    return False


def _both_named(scene: Scene) -> bool:
    """'that's Bertha and the fiver together': truck and trailer as one."""
    kinds = {label.vehicle for label in scene.labels if label.bound is None and label.only_vehicle}
    if {"truck", "trailer"} <= kinds:
        return any("joins_vehicles" in token.groups for token in scene.tokens)
    return any(label.of_both for label in scene.labels)


def stood_alone(scene: Scene) -> str | None:
    """'float on its own', 'no truck': which of the two stood on the scale."""
    if "alone" not in scene.by_class and scene.groups.isdisjoint(SAYS_ALONE):
        return None
    for label in scene.labels:
        if label.vehicle not in ("truck", "trailer") or label.wheel or label.axle:
            continue
        start, end = scene.sentence_of(label.start)
        beside = [
            scene.tokens[index]
            for index in (label.start - 1, label.start - 2, label.end, label.end + 1)
            if start <= index < end and not _leads_to_trailer(scene, index)
        ]
        ahead = scene.tokens[max(0, label.start - 2) : label.start]
        denied = len(ahead) == 2 and "no_alone" in ahead[0].groups and "article" in ahead[1].groups
        denied = denied or (
            bool(ahead)
            and "no_alone" in ahead[-1].groups
            and "with_article" in scene.tokens[label.start].groups
        )
        if denied:
            continue  # 'no the trailer was 9,640'
        behind = scene.tokens[label.end] if label.end < len(scene.tokens) else None
        off = behind is not None and "slack" in behind.groups and "hitch" not in behind.senses
        off = off and not any(map(names_truck, scene.tokens[label.end + 1 : label.end + 2]))
        off = off and not _was_unhooked(scene, label)  # 'took the camper off and weighed her alone'
        if off and label.only_vehicle and label.vehicle == "trailer":
            return "solo"  # 'with the camper off'
        if label.vehicle == "trailer" and (
            _was_unhooked(scene, label) or _was_left(scene, label.start)
        ):
            continue  # 'unhooked the trailer, solo 5,010 3,870'
        beside += _behind_the_scale(scene, label, end)
        if label.vehicle == "trailer" and "alone" in scene.by_class:
            beside += _behind_its_state(scene, label, end)
        if label.bound is not None and label.end <= label.bound.start:
            # 'camper weighed in at 9,180 on its own'
            beside += scene.tokens[label.bound.end : min(label.bound.end + 1, end)]
        if label.vehicle == "truck" and label.aside and "off_of" in _lead(scene, label).groups:
            return "trailer"  # 'weighed off the truck'
        if any("alone" in token.senses for token in beside) or _just_named(scene, label):
            return "solo" if label.vehicle == "truck" else "trailer"
        if label.vehicle == "truck" and _is_denied(beside, ahead, behind):
            return "trailer"
        if label.vehicle == "trailer" and any("absent" in token.groups for token in ahead):
            return "solo"
    return _alone_apart(scene) if len(scene.labels) == 1 and "alone" in scene.by_class else None


def _alone_apart(scene: Scene) -> str | None:
    """'weighed the skiff yesterday at the boatyard, on its own, 2,180': the one vehicle told of."""
    (label,), (index, *others) = scene.labels, scene.by_class["alone"]
    start, end = scene.sentence_of(label.start)
    if others or not label.only_vehicle or not label.end <= index < end:
        return None
    weighed = any("weigh_cue" in token.senses for token in scene.tokens[start:index])
    kinds = {"truck": "solo", "trailer": "solo" if _was_left(scene, label.start) else "trailer"}
    return kinds.get(label.vehicle or "") if weighed else None


def _was_left(scene: Scene, vehicle: int) -> bool:
    """'unhooked from the camper and weighed her alone': what came off it stood on the scale."""
    lead = scene.tokens[max(0, vehicle - 2) : vehicle]
    return any("from" in token.groups for token in lead)


def _leads_to_trailer(scene: Scene, index: int) -> bool:
    """'ute loaded no van': whose absence it is."""
    behind = scene.tokens[index + 1 : index + 2]
    return "absent" in scene.tokens[index].groups and any(map(names_trailer, behind))


def _is_denied(beside: Sequence[Token], ahead: Sequence[Token], behind: Token | None) -> bool:
    """'without the truck', 'truck not on it'; 'Juniper without the boat' was on the scale."""
    absent = [token for token in beside if "absent" in token.groups]
    return any(token in ahead or token is not behind or "not" in token.groups for token in absent)


SAYS_ALONE = frozenset(("alone_word", "absent", "off_of", "slack"))
"""Groups of words that tell that a vehicle stood by itself."""


def _behind_the_scale(scene: Scene, label: Label, end: int) -> list[Token]:
    """'whole caravan on the weighbridge by itself': what follows where it was weighed."""
    behind = scene.tokens[label.end : end]
    at = next((at for at, token in enumerate(behind) if not _of_scale(token)), len(behind))
    return list(behind[at : at + 1]) if any("weigh_cue" in t.senses for t in behind[:at]) else []


def _behind_its_state(scene: Scene, label: Label, end: int) -> list[Token]:
    """'camper packed and full of water, weighed on its own': what follows how it was loaded."""
    behind = scene.tokens[label.end : end]
    at = next((at for at, token in enumerate(behind) if "alone" in token.senses), 0)
    between = behind[:at]
    laden = any("load_verb" in t.senses or "laden_word" in t.groups for t in between)
    told = any(t.kind is NUMBER or not OF_ANOTHER.isdisjoint(t.senses) for t in between)
    return list(behind[at : at + 1]) if laden and not told else []


OF_ANOTHER = frozenset(("vehicle", "name", "hitch", "event", "rig"))
"""Classes of term of another vehicle, and of what was done before it stood alone."""


def _of_scale(token: Token) -> bool:
    return bool(token.senses.keys() & {"weigh_cue", "glue"})


def _was_unhooked(scene: Scene, label: Label) -> bool:
    """Whether a verb of unhitching has the vehicle as its object."""
    lead = _lead(scene, label).senses if label.start else {}
    return "unhitched" in lead.get("hitch", "").split()


def _just_named(scene: Scene, label: Label) -> bool:
    """'weighed just Juniper'."""
    named = "name" in scene.tokens[label.start].senses
    return named and label.start > 0 and "alone_word" in scene.tokens[label.start - 1].groups


def _lead(scene: Scene, label: Label) -> Token:
    """The word that leads to a vehicle, in front of its article."""
    before = scene.tokens[label.start - 1]
    further = label.start > 1 and not before.groups.isdisjoint(("our", "article"))
    return scene.tokens[label.start - 2] if further else before


def _it_alone(scene: Scene) -> bool:
    """'unhooked the camper and weighed it on its own', 'weighed just it': that stood alone."""
    if any(_stands_for_trailer(scene, index - 1) for index, _, _ in scene.find("alone") if index):
        return True
    return any(
        "it" in other.groups and ("alone_word" in one.groups or _is_of_trailer(scene, index))
        for index, (one, other) in enumerate(pairwise(scene.tokens))
    )


def _is_of_trailer(scene: Scene, weighs: int) -> bool:
    """'unhooked the camper and weighed it': the last thing that was named before."""
    return "weighs_it" in scene.tokens[weighs].groups and _trailer_named_last(scene, weighs)


def _stands_for_trailer(scene: Scene, index: int) -> bool:
    """'weighed it alone'; 'weighed her alone' is of the last thing that was named before."""
    groups = scene.tokens[index].groups
    if "hers" not in groups:
        return "it" in groups
    return (
        _trailer_named_last(scene, index)
        or any(
            "hers" in token.groups  # 'unhitched her and weighed her by herself'
            for verb, _, _ in scene.find("hitch", "unhitched")
            for token in scene.tokens[verb + 1 : verb + 2]
        )
    )


def _trailer_named_last(scene: Scene, index: int) -> bool:
    """Whether the last vehicle before is a trailer; 'unhooked from the camper' is of the truck."""
    named = [i for i in range(index) if not THINGS.isdisjoint(scene.tokens[i].senses)]
    if not named or not names_trailer(scene.tokens[named[-1]]):
        return False
    return not _was_left(scene, named[-1])


THINGS = frozenset(("vehicle", "name"))
"""Classes of term for what can be weighed."""


def _trailer_is_subject(scene: Scene) -> bool:
    """'flatdeck on the scale, unhooked': the trailer was weighed, and is not what was dropped."""
    if any("trucks_axle" in scene.tokens[label.start].groups for label in scene.labels):
        return False
    index = next(index for index, _, _ in scene.find("hitch", "unhitched"))
    behind = scene.tokens[index + 1 : index + 4]
    taken = next((at for at, each in enumerate(behind) if "from" in each.groups), len(behind))
    if _stands_on_scale(behind) or describes_trailer(scene, index):
        return True
    if any(each.senses.get("vehicle") == "trailer" for each in behind) or any(
        "name" in each.senses for each in behind[:taken]
    ):
        return False
    return any(label.vehicle == "trailer" and not label.wheel for label in scene.labels)


def describes_trailer(scene: Scene, verb: int) -> bool:
    """'unhooked trailer 8,120', 'uncoupled van weighed in at 2.8 t': how it stood, and no event."""
    behind = scene.tokens[verb + 1 : verb + 4]
    if len(behind) > 2 and "weigh_cue" in behind[1].senses:
        del behind[1]
    return len(behind) > 1 and names_trailer(behind[0]) and behind[1].kind is NUMBER


def puts_on_scale(scene: Scene, verb: int) -> bool:
    """'weighed', 'ran Juniper over again', 'put the truck on the scale': what is done there."""
    if "on_scale" in scene.tokens[verb].groups:
        return True
    behind = scene.tokens[verb + 1 : verb + 1 + OVER_IT]
    onto = next((at for at, each in enumerate(behind) if _leads_onto_scale(each)), None)
    moved = "runs_it" in scene.tokens[verb].groups
    return moved and onto is not None and any(names_truck(each) for each in behind[:onto])


OVER_IT = 4
"""Tokens: 'the truck back over'."""


def _leads_onto_scale(token: Token) -> bool:
    return "over_it" in token.groups or "weigh_cue" in token.senses


def _stands_on_scale(behind: Sequence[Token]) -> bool:
    """'dropped the camper on the scale': where it was dropped is where it was weighed."""
    return any(
        names_trailer(thing) and "weigh_cue" in scale.senses and scale.text.startswith("on ")
        for thing, scale in pairwise(behind)
    )


def bars_of(scene: Scene, each: Pass, count: int) -> Bars | None:
    """Whether the spread bars of this pass were on or off, or None where nothing is said."""
    if "bars" not in scene.by_class:
        return None
    found = [key for index, _, key in scene.find("bars") if each.start <= index < each.end]
    if not found and count == 1:
        found = [key for _, _, key in scene.find("bars")]
    return cast(Bars, found[0]) if found else None
