"""Fuel that goes into something else than the truck: a generator, a boat, a mower, a can.

This file decides whose tank a volume is for. It does not know what was paid for it.
"""

from __future__ import annotations

from collections.abc import Sequence
from itertools import takewhile

from domain.context import VOLUME_UNIT
from domain.reading.everyday_words import names_truck
from domain.reading.figures import VOLUME, Figure
from domain.reading.scene import Scene
from domain.reading.spots import Spot, find_spots
from domain.reading.talk import OTHER, OTHER_VEHICLE
from domain.reading.tokens import MARK, NUMBER, WORD, Token
from domain.reading.told_for_us import follows_on


def goes_elsewhere(scene: Scene, volume: Figure) -> bool:
    """'8.2 gal gas for the generator', '60 gal in the boat': neither the truck nor its tank."""
    if "transfer_tank" in scene.groups and _feeds_truck(scene):
        return False
    start, end = scene.sentence_of(volume.start)
    if not WATER_TANKS.isdisjoint(scene.groups) and _of_water(scene, start, end):
        return True
    if _took_by_another(scene, volume) or _is_led_by_another(scene, volume, start):
        return True
    if "talk" in scene.by_class and _is_of_other_vehicle(scene, volume, start):
        return True
    groups, words = scene.book.groups, scene.words()
    if groups["into"].isdisjoint(words) and groups["for"].isdisjoint(words):
        return False
    others = (each.start for each in scene.figures if each.dimension == VOLUME)
    end = min((start for start in others if start >= volume.end), default=end)
    if _in_another(scene, volume.end, end):
        return True
    behind = scene.tokens[volume.end : volume.end + 4]
    for step, token in enumerate(behind[:-1]):
        leads = token.text.split() or [""]
        if leads[0] not in scene.book.groups["for"]:
            continue
        rest = behind[step + 1 :]
        thing = next((each for each in rest if "article" not in each.groups), None)
        led = len(leads) > 1 or "article" in rest[0].groups
        return led and thing is not None and thing.kind is WORD and not thing.senses
    return False


def is_paid_for_another(scene: Scene, cost: Figure) -> bool:
    """'20 bucks of gas for the generator', 'put $20 of gas in the mower': it is not the truck's."""
    behind = scene.tokens[cost.end : cost.end + FARTHEST_CAN]
    groups = scene.book.groups
    for step, token in enumerate(behind):
        leads = token.text.partition(" ")[0]  # 'for the' is one
        if leads in groups["into"] or leads in groups["for"]:
            thing = next((t for t in behind[step + 1 :] if "article" not in t.groups), None)
            return thing is not None and ("container" in thing.groups or _is_carried(thing))
    return False


def leave_other_tanks(scene: Scene) -> bool:
    """'26.2 gal for the truck and 5 gal of gas for the generator': leave the generator's aside.

    Whether any was.
    """
    if HOLDS_FUEL.isdisjoint(scene.groups) and not _are_several(scene):
        return False
    if "transfer_tank" in scene.groups and _feeds_truck(scene):
        return False
    pumped = [
        figure
        for figure in scene.live
        if figure.dimension in (None, VOLUME) and figure.role is None and figure.value < MOST_PUMPED
    ]
    if not HOLDS_FUEL.isdisjoint(scene.groups):
        _leave_cans(scene, pumped)
    volumes = [each for each in pumped if each.dimension == VOLUME and each.claimed is None]
    for figure in volumes if len(volumes) > 1 else ():
        if goes_elsewhere(scene, figure):
            scene.claim(figure, ELSEWHERE)
    return any(figure.claimed == ELSEWHERE for figure in scene.figures)


def _are_several(scene: Scene) -> bool:
    """Whether two volumes are told."""
    told = False
    for figure in scene.figures:
        if figure.dimension == VOLUME:
            if told:
                return True
            told = True
    return False


def _feeds_truck(scene: Scene) -> bool:
    """'main tank 22.4 gal, transfer tank 40': whether it is one of the truck's own tanks."""
    return any(
        "one_of_tanks" in token.groups and "transfer_tank" not in token.groups
        for token in scene.tokens
    )


HOLDS_FUEL = frozenset(("container", "carried_thing"))
"""Groups of words for what else is filled: a can, a generator."""

ELSEWHERE = "what went into another tank than the truck's"


def _leave_cans(scene: Scene, pumped: Sequence[Figure]) -> None:
    """'gas can got 5, truck got 26.2': what a can took, or a mower, is none of the truck's.

    What comes out of cans ('two cans, 20 L each', 'a jug of def') goes into the truck.
    """
    cans = [figure for figure in pumped if _into_can(scene, figure) or _can_takes(scene, figure)]
    if "container" in scene.groups:
        spots = find_spots(scene)
        cans += [figure for figure in pumped if _are_carried(figure, spots) and figure not in cans]
    for figure in cans:
        scene.claim(figure, ELSEWHERE)
    units = [figure.unit for figure in cans if figure.unit] or [VOLUME_UNIT[scene.context.units]]
    for figure in pumped if cans else ():
        if figure.dimension is None and figure.claimed is None and _is_trucks(scene, figure):
            figure.unit, figure.dimension = units[0], VOLUME


def _are_carried(figure: Figure, spots: Sequence[Spot]) -> bool:
    """'two jerries of diesel, 20 L each, on the van a-frame': where cans stand, and no tank is."""
    return figure.dimension == VOLUME and any(
        0 <= spot.start - figure.end <= FARTHEST_CAN for spot in spots
    )


def _into_can(scene: Scene, figure: Figure) -> bool:
    """'5 gal in the gas can', '5 more in a can'."""
    behind = scene.tokens[figure.end : figure.end + FARTHEST_CAN]
    if behind and "transfer_tank" in behind[0].groups:
        return True  # '40 gal transfer tank'
    for step, token in enumerate(behind):
        if token.kind is not WORD or "and" in token.groups:
            return False
        if token.text.split(" ")[0] in scene.book.groups["into"]:
            things = takewhile(_is_not_source, behind[step + 1 : step + 4])
            return any("container" in each.groups or _is_carried(each) for each in things)
    return False


def _is_carried(token: Token) -> bool:
    """Whether a word is for what has a tank of its own; 'fuel tank' alone is the truck's."""
    return "carried_thing" in token.groups and token.senses.get("rating") != "tank"


def _is_not_source(token: Token) -> bool:
    """'put 4 gal in from the cans': what it was poured from took none of it."""
    return token.groups.isdisjoint(("from", "out", "off_of"))


def _can_takes(scene: Scene, figure: Figure) -> bool:
    """'the gas can took 5', 'gens got 5', 'gas can 5 gal', 'filled the jerry can too, 5 gal'."""
    for index in range(figure.start - 1, max(figure.start - FARTHEST_CAN, 0) - 1, -1):
        token = scene.tokens[index]
        if "container" in token.groups and "talk" not in token.senses:
            return _is_filled(scene, index)
        if _is_carried(token):
            # 'the quad 3.1 gal', and not 'hauled the quad, 24.6 gal'
            return all(each.raw != "," for each in scene.tokens[index : figure.start])
        if index == figure.start - 1 and "and" in token.groups:
            return False  # 'in the transfer tank and 22.1 in the truck'
        small = "glue" in token.senses or "fuel_cue" in token.senses or token.raw == ","
        poured = not scene.book.groups["in"].isdisjoint(token.text.split())  # 'the can went in'
        if poured or not small or "of" in token.groups:
            return False
    return False


def _is_filled(scene: Scene, index: int) -> bool:
    """Whether a can is what is filled: the can, a gas can, and none that somebody pours from."""
    sort = index - 1
    while sort >= 0 and ("container" in scene.tokens[sort].groups or _is_burnt(scene, sort)):
        sort -= 1
    named = sort < index - 1
    lead = scene.tokens[sort] if sort >= 0 else None
    if lead is not None and lead.kind is NUMBER:
        # 'filled 4 jerry cans', and not 'two jerry cans went in'
        return sort > 0 and "pours" in scene.tokens[sort - 1].groups
    if lead is None or lead.kind is not WORD or "and" in lead.groups:
        return named
    definite = "article" in lead.groups and "a_thing" not in lead.groups
    before = scene.tokens[sort - 1] if sort else None
    from_it = before is not None and not before.groups.isdisjoint(("from", "out", "with", "off_of"))
    return definite and not from_it


def _is_burnt(scene: Scene, index: int) -> bool:
    """'gas can', and not 'def jug': exhaust fluid is bought in the jug that it is poured from."""
    return scene.tokens[index].senses.get("product", "def") != "def"


def _is_trucks(scene: Scene, figure: Figure) -> bool:
    """'truck got 26.2', '26.2 in the truck'."""
    start, end = scene.clause_of(figure.start)
    return any(
        names_truck(token) or "aboard_or_place" in token.groups for token in scene.tokens[start:end]
    )


FARTHEST_CAN = 6
"""Tokens between a can and what it took, and the can, at most."""

MOST_PUMPED = 200
"""Gallons or litres that go into a truck."""


def _took_by_another(scene: Scene, volume: Figure) -> bool:
    """'the generator took 5 gallons', 'quads took 6': what drinks it is no vehicle that we know."""
    ahead = scene.tokens[max(0, volume.start - 3) : volume.start]
    if len(ahead) < 2 or "fuel_cue" not in ahead[-1].senses:
        return False
    thing, lead = ahead[-2], ahead[0] if len(ahead) > 2 else None
    if lead is not None and "article" in lead.groups:
        return thing.kind is WORD and (not thing.senses or _is_carried(thing))
    opens = lead is None or lead.kind is not WORD or "and" in lead.groups or lead.possessive
    return opens and _is_carried(thing)


def _is_led_by_another(scene: Scene, volume: Figure, start: int) -> bool:
    """'filled the mower, 1.1 gal', 'gas for the mower, 2.5 gal', 'quad 3.1 gal': so much is its."""
    at = volume.start - 1
    while at > start and (scene.tokens[at].raw in ",:-" or "is_at" in scene.tokens[at].groups):
        at -= 1
    if at < start or not _is_carried(scene.tokens[at]):
        return False
    lead = scene.tokens[at - 1] if at > start else None
    if lead is None or lead.raw == "," or "and" in lead.groups:
        return at == volume.start - 1
    led_at = at - 1
    if not lead.groups.isdisjoint(("article", "our")):
        led_at = at - 2
        lead = scene.tokens[led_at] if at - 1 > start else None
    if any(each.dimension == VOLUME and each.end == led_at for each in scene.figures):
        return False  # '5 gal for the tractor, 22.4 gal for Juniper'
    words = lead.text.split(" ") if lead is not None else ()
    groups = scene.book.groups
    return not (groups["pours"].isdisjoint(words) and groups["for"].isdisjoint(words))


def _is_of_other_vehicle(scene: Scene, volume: Figure, start: int) -> bool:
    """'filled the boat, 20 gallons', "boat's tank took 41": what no truck is was filled.

    'towed the boat, 24.6 gal' and 'the boat is on, took 24.6 gal' tell what was towed.
    """
    tokens, at = scene.tokens, volume.start - 1
    while at > start and tokens[at].kind is MARK:
        at -= 1
    last = at
    while at > start and _tells_filling(tokens[at]):
        at -= 1
    filled = at < last
    if at < start or not is_other_vehicle(tokens[at]):
        return False
    while not filled and at > start and not tokens[at - 1].groups.isdisjoint(("article", "our")):
        at -= 1
    led = tokens[at - 1].text.split(" ") if at > start else ()
    return filled or not scene.book.groups["pours"].isdisjoint(led)


def _tells_filling(token: Token) -> bool:
    """'took', 'tank', 'tank took': what stands between a vehicle and what went into it."""
    return "tank" in token.senses or "fuel_cue" in token.senses


def is_other_vehicle(token: Token) -> bool:
    """'boat', 'rental': known for a vehicle, and tows nothing."""
    return token.senses.get("talk") == OTHER_VEHICLE and "vehicle" not in token.senses


def _in_another(scene: Scene, first: int, end: int) -> bool:
    """'60 gal at 5.10 in the boat': what is known for another vehicle, and tows nothing."""
    for index in range(first, end):
        leads = scene.tokens[index].text.partition(" ")[0]  # 'for the' is one
        if leads not in scene.book.groups["into"] and leads not in scene.book.groups["for"]:
            continue
        behind = scene.tokens[index + 1 : end]
        if behind and "of_other_rig" in behind[0].groups:
            return not follows_on(scene)  # 'dave put 24 gal in his truck'
        thing = next((each for each in behind if "article" not in each.groups), None)
        if thing is None:
            return False
        into = leads in scene.book.groups["into"]
        others = OTHERS if into else OTHERS[:1]
        if thing.senses.get("talk") in others and "vehicle" not in thing.senses:
            return True
        beside = into and not any(first <= each.start < index for each in scene.figures)
        if beside and (
            _is_carried(thing) or (index == first and _is_put_into(scene, first, thing))
        ):
            return True
    return False


def _is_put_into(scene: Scene, end: int, thing: Token) -> bool:
    """'put 12 gal in the zamboni': the volume that ends there was put into what nobody knows."""
    strange = thing.kind is WORD and not thing.senses and not thing.groups
    volume = next((each for each in scene.figures if each.end == end), None)
    if not strange or not thing.raw.islower() or volume is None or volume.start == 0:
        return False
    return "putting" in scene.tokens[volume.start - 1].groups


OTHERS = (OTHER_VEHICLE, OTHER)
"""What fuel goes into that is not ours: 'in the boat', 'in the rental'; 'for mom' is for whom."""


def _of_water(scene: Scene, start: int, end: int) -> bool:
    """'fresh tank full, 60 gal', 'grey tank full 40 gal': a tank that burns nothing."""
    return any(
        start < index < end and not scene.tokens[index - 1].groups.isdisjoint(WATER_TANKS)
        for index, _, _ in scene.find("full")
    )


WATER_TANKS = frozenset(("water_tank", "waste_tank"))
