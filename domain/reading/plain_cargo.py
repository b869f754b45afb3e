"""Lists of nothing but things, what each weighs and where they lie: 'feed 400 salt 150 in the bed'.

This file decides whether bare figures are weights although no unit says so: every word of the
message is a thing that people carry, loading, or a place on the rig, and each figure stands by its
thing. What is made of them is decided in `cargo`.
"""

from __future__ import annotations

from collections.abc import Sequence
from itertools import chain

from domain.reading.claimed_dates import is_bare_year
from domain.reading.everyday_words import names_trailer
from domain.reading.figures import LENGTH, MASS, Figure, follows_odometer
from domain.reading.scene import Scene
from domain.reading.spots import Spot
from domain.reading.tokens import MARK, NUMBER, Token

LEAST = 100
"""Pounds or kilograms: less without a unit may be a count."""

LEAST_UNPLACED = 200
"""The same of what was loaded, it is not said where: 'packed the cooler 100'."""

LEAST_OF_SEVERAL = 1_000
"""The same of what is counted: 'bales 120 on the deck' are so many."""

MOST_UNKNOWN_ODOMETER = 10_000
"""Pounds or kilograms: more may be an odometer's reading, where none is known."""


def tells_weights(scene: Scene, spots: Sequence[Spot]) -> bool:
    """Whether every bare figure of a message is what a thing weighs that is named with it."""
    bare = [each for each in scene.live if each.dimension is None]
    if not bare or not all(_may_weigh(scene, each) for each in bare):
        return False
    groups = scene.book.groups
    # in a house nothing is loaded, and on the nose the figure may be what bears down there
    elsewhere = groups["household_spot"] | groups["front_of_trailer"]
    if any(not elsewhere.isdisjoint(each.words.casefold().split()) for each in spots):
        return False
    if any(each.dimension not in (None, LENGTH, MASS) for each in scene.figures):
        return False
    lying = set(chain.from_iterable(range(each.start, each.end) for each in spots))
    told = set(chain.from_iterable(range(each.start, each.end) for each in scene.figures))
    things: list[int] = []
    loaded, placed = False, bool(spots)
    for index, token in enumerate(scene.tokens):
        if index in lying or index in told or token.kind is MARK:
            continue
        if _is_thing(scene, token):
            things.append(index)
        elif names_trailer(token):
            if not index or "standing_on" not in scene.tokens[index - 1].groups:
                return False  # 'flatdeck loaded with hay 9,180' may be all of it
            placed = True
        elif "load_verb" in token.senses:
            if not scene.stated(index):
                return False
            loaded = loaded or "surely_loads" in token.groups
        elif token.kind is NUMBER or not ("glue" in token.senses or token.groups & SMALL):
            return False
    if not things or any(_counts(scene, things, each) for each in bare):
        return False
    if not (placed or (loaded and all(each.value >= LEAST_UNPLACED for each in bare))):
        return False
    if len(bare) == len(things) == 1:
        return _weighs(scene.tokens[things[0]], bare[0])
    return all(
        (each.start - 1) in things and _weighs(scene.tokens[each.start - 1], each) for each in bare
    )


SMALL = frozenset(("article", "of_all", "and_alone", "standing_on"))
"""Groups of small words in such a list."""


def _is_thing(scene: Scene, token: Token) -> bool:
    if "carried_thing" in token.groups:
        return True
    # 'on' of 'ride on' is none, and a chain has what it holds stamped on it
    return token.text in scene.book.goods and NO_THING.isdisjoint(token.senses)


NO_THING = frozenset(("glue", "check_item"))
"""Classes of term of words that are of a thing's name elsewhere."""


def _counts(scene: Scene, things: Sequence[int], figure: Figure) -> bool:
    """'loaded 1,200 bales': a thing right behind a figure is counted, unless it has its own."""
    behind = scene.tokens[figure.end + 1 : figure.end + 2]
    return figure.end in things and not any(each.kind is NUMBER for each in behind)


def _weighs(thing: Token, figure: Figure) -> bool:
    return figure.value >= (LEAST_OF_SEVERAL if thing.text.endswith("s") else LEAST)


def _may_weigh(scene: Scene, figure: Figure) -> bool:
    if not figure.whole or figure.role is not None or is_bare_year(figure):
        return False
    if figure.value < LEAST:
        return False
    if scene.context.odometer is None:
        return figure.value < MOST_UNKNOWN_ODOMETER
    return not follows_odometer(figure.value, scene.context)
