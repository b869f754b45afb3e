"""The rig weighed in two ways, told in one breath: '21,220 with the trailer and 11,980 without'.

This file decides, before figures are looked for, which words behind two loads say that the trailer
was on and that it was off, and makes them plain words for how the rig stood.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import TYPE_CHECKING

from domain.reading.everyday_words import names_trailer, names_truck
from domain.reading.tokens import NO_GROUPS, NUMBER, WORD, Token

if TYPE_CHECKING:
    from domain.reading.scene import Scene

TOLD = frozenset(("with", "without_it", "surely_loads", "alone_word"))
STOOD = frozenset(("rig", "hitch"))
"""Groups of words and classes of term of which one says how the rig stood."""

STOOD_ALONE = STOOD | {"alone"}
"""Classes of term of which one says how the rig stood, or that one vehicle of it stood alone."""

LEAST_WHOLE, MOST_APART = 1_000, 5.0
"""Pounds or kilograms of a rig, and what it weighs over the truck by itself at most."""

HITCHED, SOLO = "hitched", "solo"
OTHER_WAY: Mapping[str | None, str] = {HITCHED: SOLO, SOLO: HITCHED}
BOTH_WAYS = ({HITCHED, SOLO}, {HITCHED, "trailer"})
"""The ways in which a rig was weighed twice: the one time it was hitched."""

OWN_PASS = frozenset(("said_of_own_pass",))
"""The group of words that say how the rig stood of the load before, and part it from the other."""

PAID = frozenset(("pays", "plain_money", "asks_money", "price_word"))
"""Groups of words of what things cost, with extras and without."""


def settle_both_ways(scene: Scene) -> None:
    """Make what is said behind two loads of one rig say how it stood."""
    tokens = scene.tokens
    if "hitch" in scene.by_class:
        _settle_headings(scene)
    loads = [index for index in scene.numbers if _is_load(tokens[index])]
    if not loads:
        if "in_tons" not in scene.groups:
            return
        loads = [index for index in scene.numbers if tokens[index].decimals]  # 7.42 t
    if len(loads) != len((HITCHED, SOLO)) or not PAID.isdisjoint(scene.groups):
        if len(loads) > LEAST_ROW and "hitch" in scene.by_class:
            _settle_ends(scene)
        return
    if max(tokens[at].value for at in loads) >= HEAVIEST:
        return  # '51,240 unhooked, 51,260 hooked'
    if "hitch" in scene.by_class and _hooked_since(scene, *loads):
        return
    for said in (_said_behind, _said_before):
        spans = [said(tokens, at) for at in loads]
        stood = _both_stood(tokens, spans)
        if set(stood) in BOTH_WAYS and spans[0][1] <= spans[1][0]:
            break
    else:
        return
    if not _is_of_rig(scene, spans):
        return
    together = stood.index(HITCHED)
    heavy, light = tokens[loads[together]].value, tokens[loads[1 - together]].value
    axles = scene.by_class.get("axle", ())
    if not (1 / MOST_APART if axles else 1) < heavy / light <= MOST_APART:
        return
    for (start, end), how in zip(spans, stood, strict=True):
        told = [index for index in range(start, end) if index not in axles]
        for index in told:
            token = tokens[index]
            name = {"name": token.senses["name"]} if "name" in token.senses else {}
            token.senses, token.groups = {"glue": "filler"}, NO_GROUPS
            if name or index == told[0]:
                token.senses, token.groups = {"rig": how or HITCHED, **name}, OWN_PASS
    scene.index_terms()


def _both_stood(tokens: Sequence[Token], spans: Sequence[tuple[int, int]]) -> list[str | None]:
    """How the rig stood of each load: 'not' is the other way: '5,180 hitched, 5,260 not'."""
    stood = [_stood(tokens[start:end]) for start, end in spans]
    last = _without_opening(tokens[slice(*spans[1])])
    if len(last) == 1 and "not" in last[0].groups and stood[0] in OTHER_WAY:
        return [stood[0], OTHER_WAY[stood[0]]]
    return stood


def _hooked_since(scene: Scene, alone: int, together: int) -> bool:
    """'truck alone 8,900. hooked back up, 21,600 gross': what happened in between tells both ways.

    So does 'dropped the camper and weighed the truck, 8,900, then hooked up, 21,600'.
    """
    tokens = scene.tokens
    hooks = [at for at, _, key in scene.find("hitch") if key.startswith(HITCHED)]
    hooked = next((at for at in hooks if alone < at < together), 0)
    if not hooked or not 1 < tokens[together].value / tokens[alone].value <= MOST_APART:
        return False
    left = [at for at, _, key in scene.find("hitch") if key.startswith("un") and at < alone]
    solo = any(at < alone for at, _, _ in scene.find("rig", SOLO))
    whole = any("whole" in token.senses for token in tokens[hooked:])
    if not whole or not (solo or (left and any(map(names_truck, tokens[left[-1] : alone])))):
        return False
    for at, how in ((hooked, HITCHED), *(() if solo else ((left[-1], SOLO),))):
        tokens[at].senses, tokens[at].groups = (
            {**tokens[at].senses, "rig": how},
            tokens[at].groups | OWN_PASS,
        )
    scene.index_terms()
    return True


def _settle_headings(scene: Scene) -> None:
    """'unhooked: 5,020 6,120. hooked: 4,880 6,990 9,330': over a row of loads no trailer moved.

    Nor did one where nothing stands between: 'hitched 5,180 6,940 9,200, unhitched 5,260 3,200',
    nor where both ways are told: 'hitched up 19,420 / unhitched 8,140'.
    """
    tokens, settled = scene.tokens, False
    heads = [(index, *_headed(tokens, index)) for index in scene.by_class["hitch"]]
    both = {how for _, how, row in heads if row} == {HITCHED, SOLO}
    for index, how, row in heads:
        if row >= LEAST_ROW or (both and row):
            tokens[index].senses, tokens[index].groups, settled = {"rig": how}, OWN_PASS, True
        elif how == SOLO and (truck := _truck_left(tokens, index)):
            tokens[truck].senses, settled = {"rig": SOLO}, True
    if settled:
        scene.index_terms()


def _settle_ends(scene: Scene) -> None:
    """'5160/6880 truck only, 4980/7060/9420 hooked up': so it stood, where a row is told before."""
    tokens = scene.tokens
    ends = [at for at in scene.by_class["hitch"] if _row_before(tokens, at) >= LEAST_ROW]
    for index in ends:
        tokens[index].senses = {"rig": _headed(tokens, index)[0]}
        tokens[index].groups = OWN_PASS
    if ends:
        scene.index_terms()


def _truck_left(tokens: Sequence[Token], index: int) -> int:
    """'gross 23,960, dropped the trailer and truck was 8,880': what was weighed then; or 0."""
    if not any(map(_is_load, tokens[:index])):
        return 0
    behind = range(index + 1, min(len(tokens) - 1, index + FARTHEST))
    trailer = next((at for at in behind if names_trailer(tokens[at])), 0)
    truck = next((at for at in behind if at > trailer and names_truck(tokens[at])), 0)
    load = truck + 1
    while load < len(tokens) and "copula" in tokens[load].senses.get("glue", "").split():
        load += 1
    named = trailer or "surely_hitches" in tokens[index].groups
    alone = named and truck and load < len(tokens) and _is_load(tokens[load])
    return truck if alone else 0


FARTHEST = 8
"""Tokens from dropping a trailer to the truck that was weighed then."""


def _headed(tokens: Sequence[Token], index: int) -> tuple[str, int]:
    """How the rig stood by a word of hitching, and how many loads stand in a row right behind it.

    Those behind a colon may be of any size.
    """
    how = HITCHED if tokens[index].senses["hitch"].startswith(HITCHED) else SOLO
    start = index + 1
    colon = start < len(tokens) and tokens[start].raw == ":"
    row = tokens[start + colon : start + colon + ROW]
    loads = [token for token in row if _is_load(token)]
    if not loads or loads[0] is not row[0]:
        return how, 0
    heaviest = max(load.value for load in loads)
    return how, len(loads) if colon or heaviest < HEAVIEST else 0


def _row_before(tokens: Sequence[Token], index: int) -> int:
    """'..., 4980/7060/9420 hooked up': how many loads stand before the last word of a clause."""
    behind = tokens[index + 1] if index + 1 < len(tokens) else None
    if behind is not None and behind.kind is WORD and "then" not in behind.groups:
        return 0
    loads, at = 0, index - 1
    while at >= 0 and _is_load(tokens[at]) and tokens[at].value < HEAVIEST:
        loads += 1
        at -= 2 if at and tokens[at - 1].raw in "/-" else 1
    return loads


ROW, LEAST_ROW, HEAVIEST = 3, 2, 40_000
"""Tokens that a row is looked for in, loads that make one, and more pounds than a rig weighs."""


def _is_load(token: Token) -> bool:
    return token.kind is NUMBER and token.decimals == 0 and token.value >= LEAST_WHOLE


def _said_behind(tokens: Sequence[Token], load: int) -> tuple[int, int]:
    """The words right behind a load, across its unit, up to the next mark or joining word."""
    start = load + 1
    if start < len(tokens) and "unit" in tokens[start].senses and not _is_small(tokens[start]):
        start += 1
    end = start
    while end < len(tokens) and tokens[end].kind is WORD and "and" not in tokens[end].groups:
        end += 1
    return start, end


def _said_before(tokens: Sequence[Token], load: int) -> tuple[int, int]:
    """The words before a load, back to a mark, a joining word or another figure.

    'truck by itself was 11,940': what only leads to the figure is left out.
    """
    end = load
    if end > 1 and tokens[end - 1].raw == "," and tokens[end - 2].kind is WORD:
        end -= 1  # 'once with the camper, 18,200, once without, 8,960'
    while end and "copula" in tokens[end - 1].senses.get("glue", "").split():
        end -= 1
    start = end
    while start and tokens[start - 1].kind is WORD:
        if "and" in tokens[start - 1].groups and not _joins_vehicles(tokens, start - 1):
            break
        if tokens[start - 1].raw == ":":
            break  # 'at the scale: whole thing 21,000, ...'
        start -= 1
    while start < end and ("weigh_cue" in tokens[start].senses or _fills_in(tokens[start])):
        start += 1
    return start, end


def _joins_vehicles(tokens: Sequence[Token], index: int) -> bool:
    """'truck and camper 19,140': what is joined is one rig."""
    behind = tokens[index + 1 : index + 3]
    named = bool(behind) and names_trailer(behind[-1 if _points(behind[0]) else 0])
    return named and index > 0 and names_truck(tokens[index - 1])


def _fills_in(token: Token) -> bool:
    """'ok so truck only 7,880': what only opens a message."""
    return token.senses.get("glue") == "filler"


def _is_small(token: Token) -> bool:
    return "glue" in token.senses


def _stood(said: Sequence[Token]) -> str | None:
    """How the rig stood by the words of a load; None where they say no such thing, or more."""
    said = _without_opening(said)
    alone = [token for token in said if "alone_word" in token.groups or "alone" in token.senses]
    if alone and not any("rig" in token.senses for token in said):
        return _stood_alone([token for token in said if token not in alone])
    plain = [token for token in said if not (_points(token) or names_truck(token) or _axle(token))]
    told = [token for token in plain if token.senses.get("whole") != "gross"]
    if not told:
        return HITCHED if plain else None  # 'whole thing 21,260'
    first, rest = told[0], told[1:]
    if "joins_vehicles" in first.groups and rest and any(map(names_truck, said)):
        return HITCHED if all(map(names_trailer, rest)) else None
    off = bool(rest) and not rest[-1].groups.isdisjoint(("slack", "off"))
    on = bool(rest) and "on_or_in" in rest[-1].groups
    things = rest[:-1] if off or on else rest
    if not all(names_trailer(token) for token in things):
        return None
    if "without_it" in first.groups:
        return None if off or on else SOLO
    if "with" in first.groups:
        return SOLO if off else HITCHED
    if "hitch" in first.senses:
        return HITCHED if first.senses["hitch"].startswith(HITCHED) else SOLO
    if "rig" in first.senses:
        kind = first.senses["rig"].split()[0]
        return SOLO if kind == SOLO or (kind == HITCHED and off) else kind
    return HITCHED if "surely_loads" in first.groups and not rest else None


def _without_opening(said: Sequence[Token]) -> Sequence[Token]:
    """'then just the flatdeck', 'first hooked 21,320, once solo 8,960': which time it was."""
    while len(said) > 1 and ("ordinal" in said[0].senses or not OPENS.isdisjoint(said[0].groups)):
        said = said[1:]
    return said


OPENS = frozenset(("after_that", "once_or_when"))


def _stood_alone(said: Sequence[Token]) -> str | None:
    """'just Juniper', 'the camper by itself'; None where more than the one is named."""
    named = [token for token in said if not (_points(token) or "glue" in token.senses)]
    if len(named) != 1:
        return None
    return SOLO if names_truck(named[0]) else "trailer" if names_trailer(named[0]) else None


def _axle(token: Token) -> bool:
    """Whether a word names the place that both loads are of."""
    return "axle" in token.senses or "axle_noun" in token.senses


def _points(token: Token) -> bool:
    return "article" in token.groups or "it" in token.groups


def _is_of_rig(scene: Scene, spans: Sequence[tuple[int, int]]) -> bool:
    """Whether a trailer or a hitching is named behind a load, or the message tells of a scale."""
    if not WEIGHED.isdisjoint(scene.by_class):
        return True
    return any(
        names_trailer(token) or not STOOD.isdisjoint(token.senses)
        for start, end in spans
        for token in scene.tokens[start:end]
    )


WEIGHED = frozenset(("weigh_cue", "whole"))
"""Classes of term of which one says that something was weighed."""
