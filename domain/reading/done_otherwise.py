"""Volumes of something that was done, and is no fuelling: 'milked 21.4 gallons'.

This file decides by verbs that no phrase knows, and by what became of the fuel, that a lone volume
was bought nowhere.
"""

from __future__ import annotations

from domain.reading.everyday_words import names_truck
from domain.reading.figures import Figure
from domain.reading.fills_in_turn import speaks_of_stops
from domain.reading.scene import Scene
from domain.reading.tokens import TENTHS, Token


def done_otherwise(scene: Scene, volume: Figure) -> bool:
    """'pressed 18.2 gallons today': so much was done of something that no phrase knows.

    What somebody slammed into her is fuel all the same.
    """
    if "twice" in scene.groups and _is_one_of_two(scene, volume):
        return not speaks_of_stops(scene)  # 'went to the lake twice, 18.2 and 21.4 gallons'
    start, end = scene.clause_of(volume.start)
    beside = (*scene.tokens[start : volume.start], *scene.tokens[volume.end : end])
    if any(names_truck(each) or "hers" in each.groups for each in beside):
        return False
    done = scene.book.patterns["done"]
    if any(
        start <= index < volume.start
        and not scene.tokens[index].groups
        and done.fullmatch(scene.tokens[index].raw)
        for index in scene.unknown
    ):
        return True
    first = scene.tokens[start]
    known = bool(first.senses) and first.senses.keys() <= OF_NO_FUEL
    return known and start < volume.start and done.fullmatch(first.raw) is not None


OF_NO_FUEL = frozenset(("check_done", "check_fault", "correction"))
"""Classes of term that a verb at the head of a clause may have: 'mixed up 18.2 gal'."""


YIELDS = frozenset(("yields", "animal"))
"""Groups of words of which one is said of milk, honey or a mixture, and of no fuel."""


def is_yielded(scene: Scene, volume: Figure) -> bool:
    """'cows gave 18.2 gal', 'mixed up 18.2 gal': what something gave, or what somebody made.

    What somebody gave the truck is fuel.
    """
    start, _ = scene.clause_of(volume.start)
    ahead = scene.tokens[start : volume.start]
    if any("animal" in token.groups for token in ahead):
        return True
    verbs = scene.book.groups["yields"]
    return any(" ".join([token.text for token in ahead[-count:]]) in verbs for count in (1, 2))


def _is_one_of_two(scene: Scene, volume: Figure) -> bool:
    return any(
        other is not volume and other.dimension is None and other.token.decimals == TENTHS
        for other in scene.live
    )


def is_used_up(scene: Scene, volume: Figure) -> bool:
    """'burned 24.6 gal getting here': what became of it, and nobody bought it there."""
    start, _ = scene.clause_of(volume.start)
    ahead = max(start, volume.start - FARTHEST_USED)
    return scene.phrase_said("used_up", ahead, volume.start) is not None


FARTHEST_USED = 3
"""Tokens from 'went through' to how much: 'went through about 24.6 gal'."""


def is_burnt_at_work(scene: Scene, volume: Figure) -> bool:
    """'mowed the back 40, took 4 gallons of gas', 'ran the generator all night, 3.2 gal'.

    What was done in the field or the yard is told first, and no truck is named.
    """
    if WORKS.isdisjoint(scene.groups):
        return False
    start, _ = scene.sentence_of(volume.start)
    ahead = scene.tokens[start : volume.start]
    if any(names_truck(token) for token in ahead):
        return False
    at = next((i for i, token in enumerate(ahead) if not WORKS.isdisjoint(token.groups)), 0)
    behind = ahead[at:]
    if any(_leads_to_pump(token) for token in behind):
        return False
    worked = any("works_land" in token.groups for token in behind)
    return worked or any("carried_thing" in token.groups for token in behind)


WORKS = frozenset(("works_land", "runs_engine"))
"""Groups of words for work that burns fuel, and no truck's."""


def _leads_to_pump(token: Token) -> bool:
    """'mowed the lawn then got 24.1 gal diesel': fuel was pumped, whatever was done before."""
    then = "then" in token.groups and "and" not in token.groups
    return then or "full" in token.senses or "pours" in token.groups
