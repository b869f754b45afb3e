"""Water taken aboard: a volume that is no fuel, and rides along.

This file decides when a volume is of the trailer's fresh water: a word for water and where it
went, or a tank that holds nothing else. It is cargo, kept in the volume that was stated.
"""

from __future__ import annotations

from collections.abc import Sequence

from domain.entries import Cargo
from domain.quantities import Quantity
from domain.reading.figures import MASS, VOLUME, Figure
from domain.reading.label import Label
from domain.reading.phrasebook import APOSTROPHES
from domain.reading.scene import Scene
from domain.reading.spots import find_spots
from domain.reading.things import is_noun
from domain.reading.tokens import MARK, NUMBER, Token
from domain.water import mass_of

LONGEST_NAME = 4
"""Tokens of what a tank is called: 'front fresh water tank'."""


def read_water(scene: Scene) -> list[Cargo]:
    """The water that a message says was taken aboard."""
    figures = [figure for figure in scene.live if figure.dimension == VOLUME]
    found: list[Cargo] = []
    for number, figure in enumerate(figures):
        start, end = scene.sentence_of(figure.start)
        floor = max(start, figures[number - 1].end) if number else start
        ceiling = min([end, *(other.start for other in figures[number + 1 : number + 2])])
        tank = _tank(scene, range(figure.end, ceiling)) or _tank(scene, range(floor, figure.start))
        item = _item(scene, figure, ceiling)
        poured = _is_poured(scene, figure, floor)
        led = poured or _is_led(scene, figure, floor)
        if not (item or led) and not (tank and _holds_water(tank)):
            continue
        if any("holds" in token.groups for token in scene.tokens[floor:ceiling]):
            continue  # 'the water tank holds 40 gal': what it can, and not what it does
        aboard = tank or poured or _aboard(scene, floor, ceiling) or _on_a_scale(scene)
        aboard = aboard or (led and _is_all_told(scene, figure))
        spot = None if tank else _spot(scene, figure, ceiling)
        if not (aboard or spot) or figure.unit is None:
            if led:
                scene.claim(figure, WATER)
            continue
        figure.role = "cargo"
        _leave_its_weight(scene, figure)
        found.append(
            Cargo(
                item=item or WATER,
                value=Quantity(figure.value * _how_many(scene, figure, floor), figure.unit),
                position=_called(scene, tank) if tank else spot,
                words=(("value", scene.words_between(figure.start, figure.end)),),
            )
        )
    return found


def _leave_its_weight(scene: Scene, volume: Figure) -> None:
    """'30 gal in the fresh tank, that's 250 lb': told of the same water, and no load besides."""
    weighs = mass_of(Quantity(volume.value, volume.unit or ""))
    for other in scene.live if weighs is not None else ():
        if other.dimension != MASS or other.start < volume.end or weighs is None:
            continue
        things = (
            is_noun(scene, at) and not _is_of_water(scene.tokens[at])
            for at in range(volume.end, other.start)
        )
        behind = scene.tokens[other.end : other.end + 1]
        if any(things) or any("of" in token.groups for token in behind):
            continue  # '40 gal of water and a generator, 330 lb'
        told = Quantity(other.value, other.unit or "").amount("kg")
        if abs(told - weighs.amount("kg")) <= ROUNDED * told:
            scene.claim(other, "what that water weighs")


def _is_of_water(token: Token) -> bool:
    return not token.groups.isdisjoint(WATERY | TANKS)


ROUNDED = 0.05
"""The share by which people round what water weighs."""


def _is_led(scene: Scene, figure: Figure, floor: int) -> bool:
    """'water 40 gal', 'fresh: 40 gal': whether water is what stands right before a volume."""
    at = figure.start - 1
    while at > floor and (scene.tokens[at].raw in ":=-" or "is_at" in scene.tokens[at].groups):
        at -= 1
    return at >= floor and not scene.tokens[at].groups.isdisjoint(WATERY)


def _is_poured(scene: Scene, figure: Figure, floor: int) -> bool:
    """'filled the fresh water, 45 gal', 'water's full, 45 gal': so much of it was filled."""
    at, full = figure.start - 1, False
    while at > floor and _leads_to_volume(scene.tokens[at]):
        full = full or "full" in scene.tokens[at].senses
        at -= 1
    held = WATERY if full else NAMED_WATER  # 'fresh tank full' is of water, too
    if at < floor or held.isdisjoint(scene.tokens[at].groups):
        return False
    while at > floor and scene.tokens[at].groups & OF_WATER:
        at -= 1
    poured = full or POURED & scene.tokens[at].senses.keys()
    behind = scene.tokens[figure.end : figure.end + 1]
    return bool(poured) and not any("product" in token.senses for token in behind)


def _leads_to_volume(token: Token) -> bool:
    """A mark, or a word that says how full it is: '... is full, 45 gal', '... off with 45 gal'."""
    small = not token.groups.isdisjoint(("with", "off", "was"))
    return small or token.kind is MARK or "full" in token.senses


def _is_all_told(scene: Scene, figure: Figure) -> bool:
    """'fresh water 60 gal': the trailer's water by its name, how much, and no word besides."""
    said = scene.tokens[: figure.start]
    fresh = any("water_tank" in token.groups for token in said)
    plain = all(token.groups & OF_WATER or token.raw in ":=-" for token in said)
    return fresh and plain and figure.end == len(scene.tokens)


OF_WATER = frozenset(("water", "water_tank", "article", "our", "with"))
"""Groups of words between what was poured and the verb."""

POURED = frozenset(("fuel_cue", "full", "check_done"))
"""Classes of term that 'filled' and 'topped up' are in."""


def _spot(scene: Scene, figure: Figure, ceiling: int) -> str | None:
    """'30 gal of water in the tack room': where it stands on the rig."""
    spots = (spot for spot in find_spots(scene) if figure.end <= spot.start < ceiling)
    return next((spot.words for spot in spots), None)


def _on_a_scale(scene: Scene) -> bool:
    """Whether the rig was weighed, and what is told beside its loads rode along."""
    labels = [figure.label for figure in scene.figures if figure.value >= LEAST_LOAD]
    places = [each for each in labels if isinstance(each, Label) and not each.rating]
    return sum(1 for each in places if each.places) >= FEWEST_LOADS


LEAST_LOAD, FEWEST_LOADS = 400, 2
"""Pounds or kilograms, and how many such places are a weighing."""


def _how_many(scene: Scene, figure: Figure, floor: int) -> int:
    """'2 x 95 L', 'both water tanks, 95 L each': tanks that took so much each; else 1."""
    ahead = scene.tokens[max(floor, figure.start - 2) : figure.start]
    if len(ahead) == 2 and ahead[1].raw in "x×":
        return _count(ahead[0])
    behind = scene.tokens[figure.end] if figure.end < len(scene.tokens) else None
    if behind is None or "each_one" not in behind.groups:
        return 1
    before = scene.tokens[floor : figure.start]
    if any("pair" in token.groups for token in before):
        return 2
    return max(map(_count, before), default=1)


def _count(token: Token) -> int:
    counts = token.kind is NUMBER and token.decimals == 0 and 1 <= token.value <= MOST_TANKS
    return int(token.value) if counts else 1


MOST_TANKS = 6

WATERY = frozenset(("water", "water_tank"))
NAMED_WATER = frozenset(("water",))
WATER = "water"


def _item(scene: Scene, figure: Figure, ceiling: int) -> str | None:
    """'of water', 'fresh water', behind the figure."""
    for index in range(figure.end, min(ceiling, figure.end + 3)):
        groups = scene.tokens[index].groups
        if "water" in groups:
            first = index
            while first > figure.end and "water_tank" in scene.tokens[first - 1].groups:
                first -= 1
            return scene.words_between(first, index + 1)
        if not groups & {"of", "water_tank"}:
            return None
    return None


Named = tuple[Sequence[Token], tuple[int, int]]
"""What a tank is called: its tokens, and where they stand (start, end)."""


def _tank(scene: Scene, within: range) -> Named | None:
    """The tank that stands in a stretch, with the words before it that name it."""
    for index in within:
        if TANKS.isdisjoint(scene.tokens[index].groups) or not scene.stated(index):
            continue
        first = index
        while first > max(within.start, index - LONGEST_NAME) and _names(scene.tokens[first - 1]):
            first -= 1
        return scene.tokens[first : index + 1], (first, index + 1)
    return None


TANKS = frozenset(("tank_word", "tank_full"))


def _called(scene: Scene, tank: Named) -> str:
    """What the tank is called: of 'fresh tank full' or 'tank's full', not how full it is."""
    tokens, place = tank
    said = scene.words_between(*place)
    if said[-2:-1] in APOSTROPHES and said.endswith("s"):
        return said[:-2]
    return said.rpartition(" ")[0] if "tank_full" in tokens[-1].groups else said


def _names(token: Token) -> bool:
    """Whether a word may be part of a tank's name: no small word, number or mark."""
    return token.kind not in (MARK, NUMBER) and not token.senses.keys() & {
        "glue",
        "fuel_cue",
        "load_verb",
        "full",
        "talk",
    }


def _holds_water(tank: Named) -> bool:
    return any(token.groups & WATERY for token in tank[0])


def _aboard(scene: Scene, start: int, end: int) -> bool:
    """Whether it rides along: 'on board', in the trailer, or loaded onto a rig that is named."""
    if scene.phrase_said("takes_on", start, end) is not None:
        return True
    return any(
        "aboard_word" in token.groups or token.senses.keys() & {"name", "load_verb"}
        for token in scene.tokens[start:end]
    )
