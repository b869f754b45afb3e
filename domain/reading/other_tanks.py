"""Fuel that goes into something else than the truck: a generator, a boat, a mower.

This file decides whose tank a volume is for. It does not know what was paid for it.
"""

from __future__ import annotations

from domain.reading.figures import VOLUME, Figure
from domain.reading.scene import Scene
from domain.reading.talk import OTHER_VEHICLE
from domain.reading.tokens import WORD


def goes_elsewhere(scene: Scene, volume: Figure) -> bool:
    """'8.2 gal gas for the generator', '60 gal in the boat': neither the truck nor its tank."""
    start, end = scene.sentence_of(volume.start)
    if not WATER_TANKS.isdisjoint(scene.groups) and _of_water(scene, start, end):
        return True
    if _took_by_another(scene, volume):
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


def _took_by_another(scene: Scene, volume: Figure) -> bool:
    """'the generator took 5 gallons': what drinks it is no vehicle that anybody knows."""
    ahead = scene.tokens[max(0, volume.start - 3) : volume.start]
    if len(ahead) < 3 or "fuel_cue" not in ahead[2].senses or "article" not in ahead[0].groups:
        return False
    thing = ahead[1]
    return thing.kind is WORD and (not thing.senses or "carried_thing" in thing.groups)


def _in_another(scene: Scene, first: int, end: int) -> bool:
    """'60 gal at 5.10 in the boat': what is known for another vehicle, and tows nothing."""
    for index in range(first, end):
        leads = scene.tokens[index].text.partition(" ")[0]  # 'for the' is one
        if leads not in scene.book.groups["into"] and leads not in scene.book.groups["for"]:
            continue
        behind = scene.tokens[index + 1 : end]
        thing = next((each for each in behind if "article" not in each.groups), None)
        if thing is None:
            return False
        if thing.senses.get("talk") == OTHER_VEHICLE and "vehicle" not in thing.senses:
            return True
    return False


def _of_water(scene: Scene, start: int, end: int) -> bool:
    """'fresh tank full, 60 gal', 'grey tank full 40 gal': a tank that burns nothing."""
    return any(
        start < index < end and not scene.tokens[index - 1].groups.isdisjoint(WATER_TANKS)
        for index, _, _ in scene.find("full")
    )


WATER_TANKS = frozenset(("water_tank", "waste_tank"))
