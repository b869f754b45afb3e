"""Faults that are told without a part of the walk-round: 'trans is running hot', 'got a flat'.

This file decides when what a gauge is of is at fault, where nobody says what the gauge showed, and
when a flat or a puncture is one of the rig's tyres, be it named by its corner alone. All other
faults are read in `checks`.
"""

from __future__ import annotations

from collections.abc import Iterator

from domain.entries import Check
from domain.reading.fault_before import VEHICLES
from domain.reading.scene import Scene
from domain.reading.talk import NEGATION
from domain.reading.tokens import MARK, Token

TOLD_FAULTS = frozenset(("gauge_fault", "tyre_fault", "goes_flat", "oil_pressure"))
"""Groups of words for such faults."""


def read_told_faults(scene: Scene) -> list[Check]:
    """The faults of gauges and tyres that a message tells, without a figure of theirs."""
    if any(figure.role == "observation" for figure in scene.figures) or "?" in scene.text:
        return []
    return [*_gauges(scene), *_oil(scene), *_tyres(scene), *_flats(scene), *_corners(scene)]


def _gauges(scene: Scene) -> Iterator[Check]:
    """'trans is running hot', 'coolant's overheating'."""
    if "gauge_fault" not in scene.groups:
        return
    for index, _, subject in scene.find("subject"):
        if subject.split()[0] not in OF_THE_ENGINE or "check_item" in scene.tokens[index].senses:
            continue
        behind = index + 1
        while behind < len(scene.tokens) and "glue" in scene.tokens[behind].senses:
            behind += 1
        told = behind < len(scene.tokens) and "gauge_fault" in scene.tokens[behind].groups
        if told and _is_ours(scene, index, behind):
            yield Check(item=_name(scene, index), state="fault")


def _oil(scene: Scene) -> Iterator[Check]:
    """'oil pressure is low', 'lost oil pressure', 'no oil pressure'."""
    if "oil_pressure" not in scene.groups:
        return
    index = next(at for at, _, _ in scene.find("subject") if _is_oil(scene, at))
    start, end = scene.clause_of(index)
    told = [*scene.tokens[start:index], *scene.tokens[index + 1 : end]]
    short = [token for token in told if "runs_short" in token.groups]
    rest = all("glue" in each.senses or each.kind is MARK or each in short for each in told)
    gone = len(short) == 1 and rest
    if gone and {*scene.talk[start:end]} <= {None, NEGATION}:
        yield Check(item=_name(scene, index), state="fault")


def _is_oil(scene: Scene, index: int) -> bool:
    return "oil_pressure" in scene.tokens[index].groups


OF_THE_ENGINE = frozenset(("transmission", "coolant"))
"""Gauges of what nobody but a vehicle has."""


def _name(scene: Scene, index: int) -> str:
    """'trans' of 'trans is', which is one phrase, and of 'trans's'."""
    said = scene.words_between(index, index + 1).split(" is")[0]
    return said[:-2] if said[-2:] in ("'s", "’s") else said


def _tyres(scene: Scene) -> Iterator[Check]:
    """'got a flat on the camper', 'the truck has a puncture'; a flat may be a bicycle's, too."""
    if "tyre_fault" not in scene.groups or OF_A_TYRE.isdisjoint(scene.by_class):
        return
    for index, token, _ in scene.find("check_fault"):
        before = scene.tokens[index - 1] if index else None
        if before is None or "tyre_fault" not in token.groups or "a_thing" not in before.groups:
            continue
        behind = scene.tokens[index + 1 : index + 2]
        ends = not behind or behind[0].kind is MARK or "standing_on" in behind[0].groups
        if ends and "subject" not in scene.by_class and _is_ours(scene, index, index):
            yield Check(item=scene.words_between(index, index + 1).casefold(), state="fault")


def _flats(scene: Scene) -> Iterator[Check]:
    """'flat on the right rear of the camper', 'puncture on the flatdeck': the fault comes first."""
    if "tyre_fault" not in scene.groups or OF_A_TYRE.isdisjoint(scene.by_class):
        return
    for index, token, _ in scene.find("check_fault"):
        start, end = scene.clause_of(index)
        behind = [each for each in scene.tokens[index + 1 : end] if "article" not in each.groups]
        led = len(behind) > 1 and "standing_on" in behind[0].groups
        if "tyre_fault" not in token.groups or index != start or not led:
            continue
        where = index + 1 + scene.tokens[index + 1 : end].index(behind[1])
        rest = all(map(_is_between, behind[2:]))
        if rest and not OF_A_TYRE.isdisjoint(behind[1].senses) and _is_ours(scene, index, index):
            at = where if "corner" in behind[1].senses else index
            yield Check(item=_name(scene, at).casefold(), state="fault")


def _corners(scene: Scene) -> Iterator[Check]:
    """'left rear is flat', 'the right front of the camper's losing air': a tyre by its corner.

    Where a part is named, too, the fault is that part's.
    """
    if "goes_flat" not in scene.groups or not PARTS.isdisjoint(scene.by_class):
        return
    for index in scene.by_class.get("corner", ()):
        fault = index + 1
        while fault < len(scene.tokens) and _is_between(scene.tokens[fault]):
            fault += 1
        behind = scene.tokens[fault : fault + 2]
        told = bool(behind) and "goes_flat" in behind[0].groups
        ends = len(behind) < END or behind[1].kind is MARK or "standing_on" in behind[1].groups
        start, _ = scene.clause_of(index)
        first = all(map(_is_between, scene.tokens[start:index])) and not any(
            "of_a_person" in token.groups and "our" not in token.groups
            for token in scene.tokens[start:index]
        )
        if told and ends and first and _is_ours(scene, index, fault):
            yield Check(item=_name(scene, index), state="fault")


PARTS = frozenset(("check_item", "subject"))

END = 2
"""Tokens of a fault and what must not follow it."""


def _is_between(token: Token) -> bool:
    """Whether a token may stand between a corner and its fault: 'of the camper is'."""
    return "glue" in token.senses or not VEHICLES.isdisjoint(token.senses)


OF_A_TYRE = frozenset(("vehicle", "name", "corner"))
"""Classes of term of which one says that it is a tyre of a rig."""


def _is_ours(scene: Scene, index: int, fault: int) -> bool:
    """Whether it is stated, and of nobody who is named before it."""
    start, end = scene.clause_of(index)
    stranger = any(at in scene.unknown for at in range(start, fault))
    return not stranger and all(scene.stated(at) for at in range(start, end))
