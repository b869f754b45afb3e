"""Words that mean what their neighbours make of them.

This file decides what an initial, a short name of a gauge, a corner, 'reg', 'p', 'off' or 'put
down' is in this message, before figures are looked for. It gives such a token its senses; it
does not read what they state.
"""

from __future__ import annotations

from collections.abc import Sequence
from itertools import pairwise
from typing import TYPE_CHECKING

from domain.reading.bars_handled import (
    AGAIN,
    BESIDE_BARS,
    THEN,
    settle_bars_again,
    settle_bars_handled,
    settle_bars_then,
    settle_without_bars,
)
from domain.reading.beside import HEADS
from domain.reading.both_ways import STOOD_ALONE, TOLD, settle_both_ways
from domain.reading.ends_meant import OTHER_ENDS, settle_ends
from domain.reading.fuel_words import settle_cans, settle_dash, settle_one_of, settle_tankful
from domain.reading.initials import LEAST_INITIALS, LEAST_PAIRS, read_initials
from domain.reading.settled_corrections import settle_bids, settle_called, settle_weight
from domain.reading.settled_vehicles import (
    TOWED,
    settle_kinds,
    settle_meant,
    settle_towed,
    settle_turned,
)
from domain.reading.settled_wholes import settle_borne, settle_read_off, settle_tare, settle_wholes
from domain.reading.side_letters import (
    load_follows,
    read_side_letters,
    settle_short_right,
    settle_sides_in_turn,
)
from domain.reading.swapped_tanks import may_tell_swapped_tank, settle_swapped_tank
from domain.reading.tokens import NO_GROUPS, NUMBER, WORD, Token, make_token
from domain.reading.trailing import TRAILS, settle_out_back, settle_trailing
from domain.reading.yes_and_no import REPLIES, settle_answers, settle_denied

if TYPE_CHECKING:
    from domain.reading.scene import Scene

MEASURES = frozenset(("unit", "tank"))
PARTS = frozenset(("end", "side"))
"""Classes of term that also say which of several tanks."""

CORNER_OF_TRAILER = "_trailer"
ENDS = frozenset(("corner", "end"))
"""Classes of term behind which 'inner' and 'outer' say which of two wheels."""

PUTS_DOWN = frozenset(("axle", "vehicle", "name"))
"""Classes of what puts a load down on a scale."""

LEAST_REGULAR = 10
"""Gallons or litres: 'REG 17 GAL' is petrol, 'REG 4L' a plate."""

HOT = 50
"""Degrees: an engine that is running is hotter, in either unit."""
PENCE_A_LITRE = (60, 400)
"""What a litre has cost at British pumps, and may; wide on purpose."""


def settle_words(scene: Scene) -> None:
    """Give every such word of a message the senses that it has there."""
    if UNSETTLED.isdisjoint(scene.said):
        return
    if not OF_PLACES.isdisjoint(scene.said):
        _settle_places(scene)
    if scene.numbers and not OF_WAYS.isdisjoint(scene.said):
        settle_both_ways(scene)
    if not OF_BARS.isdisjoint(scene.said):
        _settle_all_of_bars(scene)
    if not OF_LOADS.isdisjoint(scene.said):
        _settle_loads(scene)
    if not OF_CORRECTIONS.isdisjoint(scene.said):
        _settle_corrections(scene)
    if not OF_MEASURES.isdisjoint(scene.said):
        _settle_measures(scene)
    if not OF_ANSWERS.isdisjoint(scene.said):
        _settle_all_of_answers(scene)
    if "kind_alone" in scene.groups and "hitch" in scene.by_class:
        settle_kinds(scene)
    if not TOWED.isdisjoint(scene.by_class):
        settle_towed(scene)


OF_PLACES = TRAILS | {
    "numbered_axle",
    "initial",
    "corner",
    "end",
    "side",
    "gauge_short",
    "right_letter",
    "short_right",
    "aboard",
}
OF_WAYS = TOLD | STOOD_ALONE
OF_BARS = frozenset(("bars", "bars_word"))
OF_LOADS = frozenset(
    ("hers", "side_marker", "bears_down", "whole", "tare", "fuel_or_register", "turns_reading")
)
OF_CORRECTIONS = frozenset(("swaps", "correction", "reported", "changes_field", "ago"))
OF_MEASURES = frozenset(("on_the_dash", "level", "per_volume", "container"))
OF_ANSWERS = REPLIES | {"full", "denies_goods"}
"""Classes of term and groups of words of which one stands where there is such a word."""

UNSETTLED = (OF_PLACES | OF_LOADS | OF_CORRECTIONS | OF_MEASURES | OF_ANSWERS | TOLD | TOWED) | {
    "bars",
    "alone",
    "kind_alone",
}
"""All of them together."""


def _settle_places(scene: Scene) -> None:
    """Initials, corners, ends and what trails: where a figure was read."""
    if "numbered_axle" in scene.by_class:
        _settle_numbered(scene)
    if "right_letter" in scene.groups and "left_letter" in scene.groups:
        read_side_letters(scene)
    if "initial" in scene.by_class:
        read_initials(scene)
    if "corner" in scene.by_class:
        _settle_corners(scene)
    if not ENDS.isdisjoint(scene.by_class):
        _join_duals(scene)
    if not (MEASURES.isdisjoint(scene.by_class) or PARTS.isdisjoint(scene.by_class)):
        _settle_tanks(scene)
    if "out_back" in scene.groups and scene.has("subject", "tyre"):
        settle_out_back(scene)
    elif scene.numbers and not TRAILS.isdisjoint(scene.groups):
        settle_trailing(scene)
    if "gauge_short" in scene.by_class:
        _read_gauges(scene)
    if "short_right" in scene.groups and "subject" in scene.by_class:
        settle_short_right(scene)
    if "aboard" in scene.by_class and scene.numbers:
        _settle_pence(scene)
    if "end" in scene.by_class and not OTHER_ENDS.isdisjoint(scene.said):
        settle_ends(scene)


def _settle_all_of_bars(scene: Scene) -> None:
    """Spring bars: on, off, put on again, or none."""
    if "bars_word" in scene.groups and not BESIDE_BARS.isdisjoint(scene.groups):
        settle_bars_handled(scene)
    if "bars" in scene.by_class:
        _settle_bars(scene)
        if not AGAIN.isdisjoint(scene.groups):
            settle_bars_again(scene)
        if "without_bars" in scene.groups and scene.numbers:
            settle_without_bars(scene)
        if len(scene.by_class["bars"]) == 1 and not THEN.isdisjoint(scene.groups):
            settle_bars_then(scene)


def _settle_loads(scene: Scene) -> None:
    """Whose a load is, and what bears it."""
    if "hers" in scene.groups:
        _settle_hers(scene)
    if "side_marker" in scene.groups:
        _settle_markers(scene)
    if "bears_down" in scene.groups and scene.numbers and "hitch" in scene.by_class:
        settle_borne(scene)
    if "whole" in scene.by_class:
        settle_wholes(scene)
    if "tare" in scene.groups and scene.numbers:
        settle_tare(scene)
    if "fee" in scene.by_class and "read_off" in scene.groups:
        settle_read_off(scene)
    if "fuel_or_register" in scene.groups:
        _settle_regular(scene)
    if "turns_reading" in scene.groups and scene.numbers:
        settle_turned(scene)


def _settle_corrections(scene: Scene) -> None:
    """What puts right, or only sounds like it."""
    if "swaps" in scene.groups:
        if {"correction", "name"} <= scene.by_class.keys():
            _settle_swapped(scene)
        if "carried_thing" in scene.groups and scene.has("correction"):
            _settle_swapped_goods(scene)
        if may_tell_swapped_tank(scene):
            settle_swapped_tank(scene)
    if "correction" in scene.by_class:
        _settle_put_down(scene)
        if "heard_for_weight" in scene.groups:
            settle_weight(scene)
        if "rig" in scene.by_class and "contrasts" in scene.groups:
            settle_meant(scene)
    if "reported" in scene.by_class and "calls_it" in scene.groups:
        settle_called(scene)
    if "changes_field" in scene.groups and scene.numbers:
        settle_bids(scene)
    if "ago" in scene.groups:
        _settle_ago(scene)


def _settle_measures(scene: Scene) -> None:
    """What the dash shows, how full a tank is, what one of a measure costs, and cans of it."""
    if "on_the_dash" in scene.groups and scene.numbers:
        settle_dash(scene)
    if "level" in scene.by_class and "unit" in scene.by_class:
        settle_tankful(scene)
    if "per_volume" in scene.by_class and "product" in scene.by_class:
        settle_one_of(scene)
    if "container" in scene.groups and "talk" in scene.by_class:
        settle_cans(scene)


def _settle_all_of_answers(scene: Scene) -> None:
    """Yes and no, and what was not bought."""
    if not REPLIES.isdisjoint(scene.groups) or (
        "full" in scene.by_class and not HEADS.isdisjoint(scene.text)
    ):
        settle_answers(scene)
    if "product" in scene.by_class and "denies_goods" in scene.groups:
        settle_denied(scene)


def _settle_ago(scene: Scene) -> None:
    """'a day and a half ago', 'an hour or so ago': words of a time, and no guess nor strangers."""
    match = scene.book.patterns["ago"].search(scene.text)
    for token in scene.tokens if match else ():
        inside = match is not None and match.start() <= token.start < match.end()
        if inside and token.kind is WORD and (not token.senses or "talk" in token.senses):
            token.senses = {"glue": "function"}
    scene.index_terms()


def settle_vans(scene: Scene) -> None:
    """Outside the US a van is a caravan, and a wagon tows; so they are where kilograms are told."""
    units = {token.senses.get("unit") for token in scene.tokens}
    if scene.context.units == "us" and units.isdisjoint(METRIC):
        return
    for token in scene.tokens:
        if "caravan" in token.groups:
            token.senses = {**token.senses, "vehicle": "trailer"}
        elif "towed_wagon" in token.groups and "name" not in token.senses:
            token.senses = {**token.senses, "vehicle": "truck"}


METRIC = frozenset(("kg", "t"))
"""Units that nobody in the US weighs with."""


def _settle_numbered(scene: Scene) -> None:
    """'T1 4,860 T2 4,940': numbered letters are axles where several stand by loads."""
    tokens = scene.tokens
    numbered = scene.by_class["numbered_axle"]
    loaded = [at for at in numbered if at + 1 < len(tokens) and load_follows(tokens, at + 1)]
    towed = all(tokens[at].senses["numbered_axle"].startswith("trailer") for at in numbered)
    meant = len(loaded) == len(numbered) >= (LEAST_PAIRS if towed else LEAST_INITIALS)
    for index in numbered:
        senses = tokens[index].senses
        tokens[index].senses = {
            term_class: key
            for term_class, key in senses.items()
            if (term_class == "numbered_axle") == meant
        }
    scene.index_terms()


def _figure_at(tokens: Sequence[Token], index: int) -> bool:
    return index < len(tokens) and tokens[index].kind is NUMBER


def _settle_corners(scene: Scene) -> None:
    """'TLF 2,410 TRF 2,450 TLR 2,520': beside other corners of a trailer, one more of them."""
    if "left_then_right" in scene.groups:
        settle_sides_in_turn(scene)
    corners = [key for _, _, key in scene.find("corner")]
    if "end_or_corner" in scene.groups and 0 < len(set(corners)) <= BOTH:
        _settle_ends(scene)
    if not any(key.endswith(CORNER_OF_TRAILER) for key in corners):
        return
    for token in scene.tokens:
        if token.raw.casefold() in scene.book.groups["trailer_or_corner"]:
            token.senses = {"corner": f"left_rear{CORNER_OF_TRAILER}"}
    scene.index_terms()


def _settle_ends(scene: Scene) -> None:
    """'fr 5,210 rr 6,890 trl 9,440': no wheel's where no left one is told, but a rig's axles."""
    tokens, at, alone = scene.tokens, scene.by_class["corner"], scene.has("rig", "solo")
    if not (alone or not ENDS_OF_RIG.isdisjoint(scene.by_class)) or not scene.numbers:
        return
    least = LEAST_OF_AXLE["lb" if scene.context.units == "us" else "kg"][alone]
    least *= not scene.has("whole", "gross")  # 'fr 1190kg rr 1560kg trlr 2480kg tot 5230kg'
    if all(
        "end_or_corner" in tokens[index].groups
        and (alone or (index + 1 < len(tokens) and load_follows(tokens, index + 1)))
        and max(token.value for token in tokens[max(0, index - alone) : index + 3]) >= least
        for index in at
    ):
        for index in at:
            rear = tokens[index].senses["corner"].endswith("rear")
            tokens[index].senses = {"axle": "drive" if rear else "steer"}
        scene.index_terms()


LEAST_OF_AXLE = {"lb": (4_000, 2_600), "kg": (1_800, 1_200)}
"""More than a wheel of a pickup bears, and of one alone: common practice, no source."""

ENDS_OF_RIG = frozenset(("axle", "whole", "vehicle", "name", "weigh_cue", "passes"))
"""Classes of term beside which a load is an axle's."""


def _settle_tanks(scene: Scene) -> None:
    """'both tanks, 19 gal front, 14 rear': the ends name tanks, and no axles."""
    tokens = scene.tokens
    named = [index for part in ("end", "side") for index, _, _ in scene.find(part)]
    several = "several_tanks" in scene.groups or _took_so_much(tokens, named)
    if not (several or any(_is_tank(each) for at in named for each in tokens[at + 1 : at + 2])):
        return
    units = scene.by_class.get("unit", ())
    pumped = any(_is_volume(tokens[index]) for index in units)
    pumped = pumped or (not units and _are_pumped(tokens, named))
    if pumped and not ("subject" in scene.by_class or "water" in scene.groups):
        for index in named:
            token = tokens[index]
            token.senses, token.groups = {"glue": "filler"}, token.groups | {"one_of_tanks"}
        scene.index_terms()
        scene.groups |= {"one_of_tanks"}


def _are_pumped(tokens: Sequence[Token], named: Sequence[int]) -> bool:
    """'left tank 17.2 right tank 15.9': each of several tanks took so much and some tenths."""
    took = [tokens[at + 2] for at in named if at + 2 < len(tokens) and _is_tank(tokens[at + 1])]
    return len(took) > 1 and all(each.kind is NUMBER and each.decimals == 1 for each in took)


def _took_so_much(tokens: Sequence[Token], named: Sequence[int]) -> bool:
    """'front 27.4 rear 11.8 gal': tenths of one unit behind each of two ends, and of a volume."""
    if len(named) != BOTH or any("axle" in token.senses for token in tokens):
        return False
    units = [token for token in tokens if "unit" in token.senses]
    volumes = bool(units) and all(_is_volume(token) for token in units)
    behind = [tokens[at + 1] for at in named if at + 1 < len(tokens)]
    return volumes and [each.decimals for each in behind if each.kind is NUMBER] == [1, 1]


BOTH = 2


def _is_tank(token: Token) -> bool:
    return "tank" in token.groups or token.senses.get("rating") == "tank"


def _join_duals(scene: Scene) -> None:
    """'right rear inner tyre': which of two wheels belongs to the place, and parts no label."""
    tokens, duals = scene.tokens, scene.book.keys["dual_wheel"]
    joined = [
        index
        for index in range(len(tokens) - 1, 0, -1)
        if tokens[index].text in duals and not ENDS.isdisjoint(tokens[index - 1].senses)
    ]
    for index in joined:
        place, dual = tokens[index - 1], tokens.pop(index)
        both = make_token(WORD, f"{place.text} {dual.text}", place.raw, place.start, dual.end)
        both.senses, both.glued = place.senses, place.glued
        both.groups = place.groups - {"rear_or_right"}  # of two wheels: one on the right
        tokens[index - 1] = both
    last: Token | None = None
    for index, token in enumerate(tokens):
        if "corner" in token.senses:
            last = token
        elif last is not None and token.text in duals and _figure_at(tokens, index + 1):
            # 'left rear outer 66 inner 65': the other wheel of the place before
            token.senses, joined = last.senses, [*joined, index]
    if joined:
        scene.index_terms()


def _read_gauges(scene: Scene) -> None:
    """'trans 194, water 201': beside another gauge, an everyday word is one too; else none."""
    tokens = scene.tokens
    for index in scene.by_class["gauge_short"]:
        token = tokens[index]
        following = tokens[index + 1] if index + 1 < len(tokens) else None
        heats = following is not None and following.kind is NUMBER and following.value >= HOT
        if heats and "subject" in scene.by_class:
            token.senses = {"subject": token.senses["gauge_short"]}
        else:
            token.senses = {
                term_class: key
                for term_class, key in token.senses.items()
                if term_class != "gauge_short"
            }
    scene.index_terms()


def _settle_pence(scene: Scene) -> None:
    """'PPL 151.9', '151.9 ppl': beside a pump's price pence per litre, and no people."""
    tokens, settled = scene.tokens, False
    for index in scene.by_class["aboard"]:
        token = tokens[index]
        if token.raw.casefold() not in scene.book.groups["price_or_people"]:
            continue
        beside = (*tokens[max(0, index - 1) : index], *tokens[index + 1 : index + 2])
        if any(_is_in_pence(each) for each in beside):
            token.senses, settled = {"money": "pence"}, True
            token.groups |= {"coins_per_litre"}
    if settled:
        scene.index_terms()


def _settle_hers(scene: Scene) -> None:
    """'her camper weighs 5,200': before a vehicle it is somebody's, and no name for the truck."""
    changed = False
    for token, behind in pairwise(scene.tokens):
        # 'weighed her without the trailer': how she stood is told, and nothing of hers.
        owned = not TOWED.isdisjoint(behind.senses) and "rig" not in behind.senses
        if "hers" in token.groups and owned:
            token.senses, token.groups = {"talk": "other"}, token.groups | {"owner"}
            changed = True
    if changed:
        scene.index_terms()


def _settle_markers(scene: Scene) -> None:
    """'left marker out': one on a side is a lamp, and no mile's."""
    for before, token in pairwise(scene.tokens):
        if "side_marker" in token.groups and not before.senses.keys().isdisjoint(SIDED):
            token.senses = {"check_item": "item"}
    scene.index_terms()


SIDED = frozenset(("side", "corner", "end"))
"""Classes of term that say on which side of a rig something is."""


def _settle_bars(scene: Scene) -> None:
    """'with the bars unhooked': the bars are off, and no trailer was unhooked."""
    slack = [
        index
        for index in scene.by_class["bars"]
        if index + 1 < len(scene.tokens) and "slack" in scene.tokens[index + 1].groups
    ]
    for index in slack:
        scene.tokens[index].senses = {"bars": "off"}
        scene.tokens[index + 1].senses = {"glue": "function"}
    if slack:
        scene.index_terms()


def _settle_swapped(scene: Scene) -> None:
    """'swapped the camper for the flatdeck, 51,300', 'swapped trailers': no figures were."""
    tokens, named = scene.tokens, scene.by_class["name"]
    for index in scene.by_class["correction"]:
        token = tokens[index]
        first = next((at for at in named if index < at <= index + 3), named[-1])
        between = tokens[first : named[-1]]
        behind = tokens[index + 1 : index + 2]
        told = any("swapped_for" in each.groups for each in between) or (
            bool(behind) and behind[0].senses.get("vehicle") == "trailer" and len(named) > 1
        )
        if "swaps" in token.groups and told:
            token.senses = {"glue": "function"}
    scene.index_terms()


def _settle_swapped_goods(scene: Scene) -> None:
    """'swapped the quad for the side by side, 1,480 lb': things were, and the first is gone."""
    for index in scene.by_class["correction"]:
        behind = [t for t in scene.tokens[index + 1 : index + 3] if "article" not in t.groups]
        swaps = "swaps" in scene.tokens[index].groups
        if swaps and behind and "carried_thing" in behind[0].groups:
            scene.tokens[index].senses = behind[0].senses = {"glue": "function"}
            behind[0].groups = NO_GROUPS
    scene.index_terms()


def _settle_put_down(scene: Scene) -> None:
    """'the truck put down 12,120': an axle or a vehicle does so, and nobody wrote wrongly."""
    for index in scene.by_class["correction"]:
        token = scene.tokens[index]
        puts = index and "glue" in token.senses and token.senses["glue"] == "copula"
        if puts and not PUTS_DOWN.isdisjoint(scene.tokens[index - 1].senses):
            token.senses = {"glue": "copula"}
            token.groups -= {"marks_mistake"}
            scene.by_class["correction"].remove(index)
            if not scene.by_class["correction"]:
                del scene.by_class["correction"]
            return


def _settle_regular(scene: Scene) -> None:
    """'18.2 gal reg 3.199': beside a volume or a pump's decimals it is a fuel."""
    tokens = scene.tokens
    for index, token in enumerate(tokens):
        if "fuel_or_register" not in token.groups:
            continue
        behind = tokens[index + 1 : index + 3]
        number = behind[0] if behind and behind[0].kind is NUMBER else None
        pumped = number is not None and (
            number.decimals > 0 or (number.value >= LEAST_REGULAR and _is_volume(behind[-1]))
        )
        if pumped or (index and _is_volume(tokens[index - 1])):
            token.senses, token.groups = {"product": "gasoline"}, NO_GROUPS
    scene.index_terms()


def _is_in_pence(token: Token) -> bool:
    """Whether a number looks like a litre's price in pence: '151.9'."""
    low, high = PENCE_A_LITRE
    return token.kind is NUMBER and token.decimals > 0 and low <= token.value <= high


def _is_volume(token: Token) -> bool:
    return token.senses.get("unit", "").split()[:1] in (["gal"], ["L"])
