"""A fuel tank's size, told and not filled.

This file decides whether the volume of a message is what a tank holds: '36 gallon tank', 'the
tank on Juniper holds 36', and which figures are of several tanks. A fish tank's is nobody's
business.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import pairwise

from domain.reading.dearest_fuel import DEAREST
from domain.reading.everyday_words import names_truck
from domain.reading.figures import MONEY, PRICE, VOLUME, Figure, follows_odometer
from domain.reading.fill_roles import price_band
from domain.reading.scene import Scene
from domain.reading.swapped_tanks import tank_before
from domain.reading.talk import OTHER, OTHER_VEHICLE
from domain.reading.tokens import CENTS, MILLS, NO_GROUPS, NUMBER, WORD, Token

TANK_FILLED = frozenset(("fuel_cue", "full", "odometer"))
"""Classes of term beside which a volume was put into a tank, and is not its size."""


def is_tank_size(scene: Scene) -> bool:
    """'36 gallon tank', 'tank holds 36 gallons': a size, not a fill."""
    if not TANK_FILLED.isdisjoint(scene.by_class):
        return any(_truck_holds(scene, each) for each in scene.figures)
    volumes = [figure for figure in scene.figures if figure.dimension == VOLUME]
    if not volumes or any(label.compound for label in scene.labels) or _compound_tank(scene):
        return False
    if is_pumped(scene):
        return False
    if _beside_ratings(scene, volumes):
        return True
    for figure in volumes:
        behind = scene.tokens[figure.end : figure.end + 2]
        if behind and "product" in behind[0].senses:
            behind = behind[1:]  # '36 gallon diesel tank'
        if behind and "tank" in behind[0].senses:
            return True
        for index in range(max(0, figure.start - 2), figure.start):
            if _counts_tankfuls(scene, index, figure):
                return False
            if "tank" in scene.tokens[index].senses and scene.has("rating"):
                return True
            if "tank" in scene.tokens[index].groups:
                return True
        if figure.whole and figure.value >= LEAST_TANK and _is_so_big(scene, figure):
            return True
        if figure.start and "holds" in scene.tokens[figure.start - 1].groups:
            if _truck_holds(scene, figure):
                return True
            start, _ = scene.clause_of(figure.start)
            if any(_is_tank(token) for token in scene.tokens[start : figure.start]):
                return True  # 'the fuel tank on Moss holds 117 L'
            if tank_before(scene, figure):
                return True
    return False


def _truck_holds(scene: Scene, size: Figure) -> bool:
    """'Juniper holds 36 gallons', 'of fuel' or 'when full': what fits in, whatever stands by."""
    before = scene.tokens[max(0, size.start - 2) : size.start]
    if len(before) < 2 or size.dimension != VOLUME:
        return False
    return names_truck(before[0]) and "holds" in before[1].groups


def _is_so_big(scene: Scene, size: Figure) -> bool:
    """'the tank on the truck is 60 gallons': whose tank it is stands between it and its size."""
    start, _ = scene.clause_of(size.start)
    at = next((at for at in range(start, size.start) if _is_tank(scene.tokens[at])), None)
    between = scene.tokens[at + 1 : size.start] if at is not None else ()
    return (
        len(between) > 1
        and "was" in between[-1].groups
        and any(names_truck(token) for token in between)
        and all("glue" in token.senses or names_truck(token) for token in between)
    )


def _counts_tankfuls(scene: Scene, index: int, volume: Figure) -> bool:
    """'2 tanks, 24.6 gallons', 'both tanks, 24.6': so much and a tenth was pumped into them."""
    counted = scene.tokens[index - 1] if index else None
    if counted is None or "tank" not in scene.tokens[index].senses or not volume.token.decimals:
        return False
    behind = scene.tokens[volume.end : volume.end + 1]
    if any("each_one" in token.groups for token in behind):
        return False
    return counted.kind is NUMBER or not counted.groups.isdisjoint(TANKFUL)


TANKFUL = frozenset(("pair", "one", "points_at_a_thing", "keeps_fuel"))
"""Groups of words before a tank that was pumped full, or from: 'both tanks', 'home tank'."""


def tanks_alike(scene: Scene, size: Figure) -> int:
    """'2 tanks, 18 gallons each': how many tanks have that size; else 1."""
    behind = scene.tokens[size.end : size.end + 1]
    if not any("each_one" in token.groups for token in behind):
        return 1
    for index, token in enumerate(scene.tokens[: size.start]):
        if index and "tank" in token.senses:
            counted = scene.tokens[index - 1]
            if "pair" in counted.groups:
                return 2
            if counted.kind is NUMBER and counted.decimals == 0 and counted.value <= MOST_TANKS:
                return max(1, int(counted.value))
    return 1


MOST_TANKS = 4
"""Fuel tanks of a pickup, with those in its bed."""


def is_pumped(scene: Scene) -> bool:
    """'front tank 19.2 gal, rear tank 14.6 gal, 3.899 a gallon, 51,411': volumes of a fill.

    A price of fuel stands beside them, what it came to, or the odometer's next reading; or there
    are several with tenths.
    """
    volumes = [figure for figure in scene.figures if figure.dimension == VOLUME]
    if len(volumes) > 1 and any(_has_tenths(each) for each in volumes):
        return not _holds(scene, volumes[0])
    if any(_goes_in(scene, each) for each in volumes):
        return True
    if any(pays_for(scene, volume, paid) for volume in volumes for paid in scene.figures):
        return True
    return bool(volumes) and any(
        figure.dimension == PRICE
        or (
            figure.dimension is None
            and figure.label is None
            and figure.claimed is None
            and (
                follows_odometer(figure.value, scene.context)
                or (figure.token.decimals == MILLS and figure.value < DEAREST)
                or _is_price_of(scene, figure, volumes[0])
            )
        )
        for figure in scene.figures
    )


def _goes_in(scene: Scene, volume: Figure) -> bool:
    """'swapped to the aux tank, 24.6 gal in', 'switched tanks, 24.6 gal front': it was pumped."""
    if not _has_tenths(volume) or _holds(scene, volume):
        return False
    behind = scene.tokens[volume.end].groups if volume.end < len(scene.tokens) else NO_GROUPS
    return "in" in behind or not SWITCHING.isdisjoint(scene.groups)


SWITCHING = frozenset(("swaps", "hitches_a_trailer"))
"""Groups of words with which one goes on at another tank: 'switched to the rear tank'."""


def _is_price_of(scene: Scene, figure: Figure, volume: Figure) -> bool:
    """'aux tank 20 gal, main 18 gal at 3.89': what a gallon of it cost."""
    before = scene.tokens[figure.start - 1] if figure.start else None
    low, high = price_band(scene.context, volume.unit)
    led = before is not None and "before_price" in before.groups
    return led and figure.token.decimals == CENTS and low <= figure.value <= high


def _has_tenths(volume: Figure) -> bool:
    """As a pump shows them; a tank may hold half a gallon more."""
    return volume.token.decimals > 0 and volume.value * 2 % 1 != 0


def _holds(scene: Scene, volume: Figure) -> bool:
    """'holds 26.2 gal', 'tanks are 26.2 and 19.7 gal'."""
    before = scene.tokens[max(0, volume.start - 1)]
    said = not scene.groups.isdisjoint(HOLDING) or "rating_cue" in scene.by_class
    return said or "there_are" in before.groups


HOLDING = frozenset(("holds", "has_room_for"))
"""Groups of words behind which a volume is a tank's size."""


def pays_for(scene: Scene, volume: Figure, paid: Figure) -> bool:
    """'22.4 gal for $87.14': whether a figure with cents is what that much fuel comes to."""
    low, high = price_band(scene.context, volume.unit)
    return (
        paid.dimension in (None, MONEY)
        and paid.token.decimals == CENTS
        and volume.end <= paid.start
        and low * volume.value <= paid.value <= high * volume.value
    )


def _beside_ratings(scene: Scene, volumes: Sequence[Figure]) -> bool:
    """'GVWR 14,000, GAWR front 6,000, 60 gal diesel': whole gallons on a list of limits."""
    if any(figure.dimension == MONEY or figure.token.decimals for figure in scene.figures):
        return False
    limits = {label.rating for label in scene.labels if label.bound and label.rating in OF_TRUCK}
    return bool(limits) and all(figure.value >= LEAST_TANK for figure in volumes)


def is_listed_tank(scene: Scene, figure: Figure) -> bool:
    """'gvwr 11,500, payload 3,480, tank 36': among a truck's ratings a size needs no unit."""
    before = scene.tokens[figure.start - 1] if figure.start else None
    return (
        before is not None
        and "tank" in before.senses
        and figure.dimension is None
        and figure.whole
        and figure.value >= LEAST_TANK
        and any(label.rating in OF_TRUCK and label.bound for label in scene.labels)
        and not is_pumped(scene)
    )


OF_TRUCK = frozenset(("gvwr", "gcwr", "gawr", "gawr_front", "gawr_rear", "payload"))
LEAST_TANK = 12
"""Gallons or litres: a DEF tank is smaller."""


def further_tanks(scene: Scene, size: Figure) -> Sequence[Figure]:
    """'60 gal aux plus 34 main': the other figures, where one of several tanks has this size."""
    together = _told_together(scene, size)
    if together or "one_of_tanks" not in scene.groups:
        return together
    if not is_one_of_tanks(scene, size):
        return _added_tank(scene, size)
    return [
        other
        for other in scene.figures
        if other is not size and other.dimension in (None, VOLUME) and is_one_of_tanks(scene, other)
    ]


def _told_together(scene: Scene, size: Figure) -> Sequence[Figure]:
    """'both tanks 23.8 and 14.2 gal', 'main and aux, 71.3 and 38.2 L': the other of two tanks."""
    at = scene.figures.index(size)
    for first, second in pairwise(scene.figures[max(0, at - 1) : at + 2]):
        between = scene.tokens[first.end : second.start]
        joined = len(between) == 1 and "and" in between[0].groups
        pumped = first.token.decimals > 0 or VOLUME in (first.dimension, second.dimension)
        alike = pumped and first.token.decimals == second.token.decimals
        if joined and alike and _names_both(scene, first.start):
            return [second if first is size else first]
    return ()


def _names_both(scene: Scene, end: int) -> bool:
    """Whether two tanks are named before what went into them."""
    start, _ = scene.sentence_of(end)
    ahead = scene.tokens[start:end]
    if sum("one_of_tanks" in token.groups for token in ahead) > 1:
        return True
    return any(
        "several_tanks" in token.groups
        and (" " in token.text or (at and "pair" in ahead[at - 1].groups))
        for at, token in enumerate(ahead)
    )


def _added_tank(scene: Scene, size: Figure) -> Sequence[Figure]:
    """'31 gal diesel plus 9 gal in the aux': what went into a tank beside the nameless one."""
    place = scene.figures.index(size) + 1
    other = scene.figures[place] if place < len(scene.figures) else None
    if other is None or other.dimension != VOLUME or not is_one_of_tanks(scene, other):
        return ()
    between = scene.tokens[size.end : other.start]
    joined = any("and" in token.groups for token in between)
    plain = all("glue" in token.senses or "product" in token.senses for token in between)
    return [other] if joined and plain else ()


def is_one_of_tanks(scene: Scene, figure: Figure) -> bool:
    """Whether 'main', 'aux' or the 'front' one stands beside a figure, or behind what it cost.

    Beside such a tank the truck's own may go by its name: 'transfer tank 40 gal, truck 22.1'.
    """
    paid = next((each for each in scene.figures if each.start >= figure.end), None)
    ends = [figure.end]
    if paid is not None and paid.start <= figure.end + 2 and pays_for(scene, figure, paid):
        ends.append(paid.end)  # '19.2 gal $74.80 into the main'
    for end in ends:
        for index in range(end, min(end + FARTHEST_NAME, len(scene.tokens))):
            token = scene.tokens[index]
            if token.kind is NUMBER or token.raw in (",", ":"):
                break
            if _names_tank(scene, index):
                return True
    for index in range(figure.start - 1, max(figure.start - FARTHEST_NAME, 0) - 1, -1):
        if scene.tokens[index].kind is NUMBER:
            return False
        if _names_tank(scene, index):
            return True
    return False


def _names_tank(scene: Scene, index: int) -> bool:
    """'aux', 'the second', and the truck for its own tank; 'second stop' is none."""
    token = scene.tokens[index]
    if names_truck(token):
        return True
    behind = scene.tokens[index + 1 : index + 2]
    if "ordinal" in token.senses and behind and "fill_noun" in behind[0].groups:
        return "tank" in behind[0].groups
    return "one_of_tanks" in token.groups


FARTHEST_NAME = 3
"""Tokens from the name of a tank to what went into it: 'the aux tank, 14.2 gal'."""


def _is_tank(token: Token) -> bool:
    return "tank" in token.senses or token.senses.get("rating") == "tank"


def _compound_tank(scene: Scene) -> bool:
    """'fish tank', 'a tank for the turtles': a tank that is of no truck."""
    return any(
        _is_of_a_sort(scene, index) or of_another(scene, index) for index in tanks_named(scene)
    )


def other_sort_of_tank(scene: Scene) -> bool:
    """'fish tank': whether a word before a tank makes it no fuel tank."""
    return any(_is_of_a_sort(scene, index) for index in tanks_named(scene))


def tanks_named(scene: Scene) -> Iterator[int]:
    """Where a tank is named behind another word."""
    for index, token in enumerate(scene.tokens):
        if index and says_tank(scene, token):
            yield index


def says_tank(scene: Scene, token: Token) -> bool:
    """Whether a word, or one of a phrase, is for a tank: 'fuel tank'."""
    return not scene.book.groups["tank"].isdisjoint(token.text.split())


def _is_of_a_sort(scene: Scene, index: int) -> bool:
    before = scene.tokens[index - 1]
    own = "one_of_tanks" in before.groups
    own = own or ("holds" in scene.groups and "compares_size" in before.groups)
    return before.kind is WORD and not before.senses and before.raw.islower() and not own


def of_another(scene: Scene, index: int) -> bool:
    """'our guppies have a 30 gallon tank': it is said of something that no phrase knows."""
    start, _ = scene.sentence_of(index)
    rig = any(not RIG.isdisjoint(token.senses) for token in scene.tokens[start:index])
    strangers = any(
        start <= at < index and not _is_tank(scene.tokens[at + 1])  # 'main tank 32 gal'
        for at in scene.unknown_words(names=False)
    )
    if "talk" in scene.by_class and not rig:
        said = scene.tokens[start : index + 1]
        strangers = strangers or any(  # "the boat's tank holds 41 gal"
            one.senses.get("talk") == OTHER_VEHICLE and says_tank(scene, other)
            for one, other in pairwise(said)
        )
    return (strangers and not rig) or _for_another(scene, index)


def lasts_somebody(scene: Scene, behind: int) -> bool:
    """'the 80 L tank lasts oom Piet 900 km': how far somebody comes with it; 'lasts us' is ours."""
    tokens = scene.tokens
    while behind < len(tokens) and "future" in tokens[behind].groups:
        behind += 1
    if behind >= len(tokens) or "takes_so_far" not in tokens[behind].groups:
        return False
    somebody = behind + 1
    while somebody < len(tokens) and "article" in tokens[somebody].groups:
        somebody += 1
    return somebody in scene.unknown or scene.talk[somebody : somebody + 1] == [OTHER]


def _for_another(scene: Scene, index: int) -> bool:
    """'a 75 gallon tank for the turtles'."""
    _, end = scene.clause_of(index)
    for at in range(index, end - 1):
        if not scene.book.groups["for"].isdisjoint(scene.tokens[at].text.split()):
            return any(at < other < end for other in scene.unknown_words(names=False))
    return False


RIG = frozenset(("vehicle", "name", "rig"))
