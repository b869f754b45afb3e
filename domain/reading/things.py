"""What a thing that is carried is called.

This file decides which words of a message name a thing, and which of the things named a mass is
of: 'generator 210 lb', '900 lb of hay', 'threw the quad in the bed, 690 lb'.
"""

from __future__ import annotations

from collections.abc import Sequence

from domain.reading.figures import LENGTH, Figure
from domain.reading.phrasebook import APOSTROPHES
from domain.reading.scene import Scene
from domain.reading.spelling import spelt
from domain.reading.spots import Spot
from domain.reading.talk import OTHER_VEHICLE
from domain.reading.tokens import NUMBER, WORD, Token
from domain.reading.who_texts import texter


def item_of(scene: Scene, figure: Figure, spots: list[Spot]) -> str | None:
    """The noun that the mass is of: before it ('generator 210 lb'), or behind it ('of hay')."""
    after = figure.end
    led = figure.start > 0 and "article" in scene.tokens[figure.start - 1].groups
    if led and (words := noun_from(scene, after)):
        return words  # 'a 500 lb water tote'
    thrown = _put_there(scene, figure, spots)
    if thrown is not None:
        return thrown
    if after < len(scene.tokens) and "of" in scene.tokens[after].groups:
        words = noun_from(scene, after + 1)
        if words:
            return words
    words = _noun_before(scene, figure.start, spots)
    if words is None and after < len(scene.tokens) and not _each_of_them(scene, after):
        words = noun_from(scene, after) or _said_last(scene, figure, spots)
    return words


def _each_of_them(scene: Scene, index: int) -> bool:
    """'650 lb a head': for how many a weight is, and not what weighs it."""
    return scene.phrase_said("each_one", index, index + 2) is not None


def _said_last(scene: Scene, figure: Figure, spots: Sequence[Spot]) -> str | None:
    """'20 kg in the boot, dog food': what it is, behind where it is, and nothing else."""
    spot = next((each for each in spots if each.start >= figure.end), None)
    if spot is None or spot.end >= len(scene.tokens) or scene.tokens[spot.end].raw != ",":
        return None
    last = scene.sentence_of(spot.end)[1]
    whole = all(is_noun(scene, index) for index in range(spot.end + 1, last))
    return noun_from(scene, spot.end + 1) if whole and last - spot.end <= LONGEST_THING else None


LONGEST_THING = 4
"""Tokens of a comma and the name of a thing behind it."""


def _put_there(scene: Scene, figure: Figure, spots: list[Spot]) -> str | None:
    """'threw the quad in the bed, 690 lb': what was put somewhere in the clause before."""
    start, _ = scene.sentence_of(figure.start)
    for index in scene.by_class.get("load_verb", ()):
        thing = noun_from(scene, index + 1) if start <= index < figure.start else None
        between = [spot for spot in spots if index < spot.start and spot.end <= figure.start]
        # the first is where it lies: 'put hay on the deck, straw in the bed, 300 lb'
        if thing and between and not _names_another(scene, between[0], figure):
            comma = scene.tokens[figure.start - 1].raw == ","
            return thing if comma else None
    return None


def is_of_another(scene: Scene, figure: Figure, spot: Spot) -> bool:
    """'hay on the deck, straw 300 lb': where the first thing lies, and what the other weighs."""
    if spot.end > figure.start:
        return False
    start, _ = scene.sentence_of(spot.start)
    if any(start <= each.start < figure.start for each in scene.figures):
        return False  # 'hay on the deck, 24 bales, 1,300 lb'
    behind = spot.end
    if "part_of_spot" in scene.tokens[behind].groups:
        behind += 1  # 'bikes on the tongue rack, 90 lb'
    return has_goods(scene, start, spot.start) and has_goods(scene, behind, figure.start)


def are_goods(scene: Scene, figure: Figure) -> bool:
    """'bales are 9,600 lb', 'hay weighs 4,100 lb': what goods weigh, and no rig.

    'flatdeck with the hay weighed 9,600 lb' is told of the trailer.
    """
    tokens, at = scene.tokens, figure.start - SHORTEST_TOLD
    if at < 0 or tokens[at].text not in scene.book.goods:
        return False
    says = tokens[at + 1].senses
    if not ("weigh_cue" in says or "copula" in says.get("glue", "")):
        return False
    while at and "article" in tokens[at - 1].groups:
        at -= 1
    return not at or "glue" not in tokens[at - 1].senses


SHORTEST_TOLD = 2
"""Tokens of 'bales are' before what they weigh."""


def has_goods(scene: Scene, start: int, end: int) -> bool:
    """Whether one of several tokens is a thing that people carry."""
    return any(token.text in scene.book.goods for token in scene.tokens[start:end])


def _names_another(scene: Scene, spot: Spot, figure: Figure) -> bool:
    """'..., over the axles, and the honey buckets, 720 lb': a thing behind the spot.

    A noun right behind is of the spot itself: 'on the tongue rack, 145 lb'.
    """
    end = spot.end
    while end < figure.start and is_noun(scene, end):
        end += 1
    return any(is_noun(scene, index) for index in range(end, figure.start))


def noun_from(scene: Scene, index: int) -> str | None:
    """The noun that begins at a token, behind an article: 'the honey drums'.

    Of 'a yard of gravel' it is what there is so much of.
    """
    start = index
    while start < len(scene.tokens) and scene.tokens[start].groups & {"article", "some"}:
        start += 1
    end = start
    while end < len(scene.tokens) and is_noun(scene, end) and end - start < 4:
        end += 1
    measured = start < end < len(scene.tokens) - 1 and "of" in scene.tokens[end].groups
    if measured and is_noun(scene, end + 1):
        return noun_from(scene, end + 1)
    return _name_of(scene, start, end) or None


def _noun_before(scene: Scene, index: int, spots: list[Spot]) -> str | None:
    """The last noun of the clause before a figure; failing that, of the clause before it.

    A length between them says where the thing stands: 'the crate is 2 ft behind the axle, 90 lb'.
    """
    start, _ = scene.sentence_of(index)
    floor = max(
        (
            other.end
            for other in scene.figures
            if start < other.end <= index and other.dimension != LENGTH
        ),
        default=start,
    )
    best: tuple[int, int] | None = None
    position = floor
    while position < index:
        if is_noun(scene, position) and not any(s.start <= position < s.end for s in spots):
            end = position
            while end < index and is_noun(scene, end):
                end += 1
            if best is not None and best[1] == position - 1 and _joins_name(scene, best):
                best = (best[0], end)
            elif best is None or not (
                _behind_place(scene, position) or any(s.end == position for s in spots)
            ):  # 'bikes on the tongue rack, 90 lb': the rack is of the spot
                best = (position, end)
            position = end
        else:
            position += 1
    if best and "stands_there" in scene.groups:
        best = _without_verb(scene, *best)
    return _name_of(scene, *best) if best else None


def _without_verb(scene: Scene, start: int, end: int) -> tuple[int, int]:
    """'the drums stand 1 m behind the axle': a verb, where a length follows right behind it."""
    stands = "stands_there" in scene.tokens[end - 1].groups and end - start > 1
    far = any(each.start == end and each.dimension == LENGTH for each in scene.figures)
    return (start, end - 1) if stands and far else (start, end)


def _joins_name(scene: Scene, noun: tuple[int, int]) -> bool:
    """'spare truck tire', 'caja de herramientas': a word between two others of one name."""
    start, end = noun
    between = scene.tokens[end]
    spared = "vehicle" in between.senses and "spare_tyre" in scene.tokens[start].groups
    return spared or "names_with_of" in between.groups


def _name_of(scene: Scene, start: int, end: int) -> str:
    """The words of a thing, spelt right; in 'generator's aboard' the s is a verb."""
    words = ""
    for index in range(start, end):
        token = scene.tokens[index]
        between = scene.text[scene.tokens[index - 1].end : token.start] if index > start else ""
        words += between + _spelt(scene, token, ends=index + 1 == end)
    return words


def _spelt(scene: Scene, token: Token, *, ends: bool) -> str:
    """A token's own words, of which one that nobody knows may be a slip."""
    typed = scene.text[token.start : token.end]
    if ends and (token.possessive or typed[-2:-1] in APOSTROPHES):
        typed = typed[:-2]
    named = typed[0].isupper() and not scene.text.isupper()
    known = token.text == typed.lower() and (token.senses or token.groups)
    return typed if named or known else spelt(typed, scene.book.goods)


def _behind_place(scene: Scene, position: int) -> bool:
    before = scene.tokens[position - 1] if position else None
    return before is not None and "onto" in before.senses.get("glue", "")


OTHERWISE_MEANT = frozenset(
    [
        "side",
        "ordinal",
        "corner",
        "glue",
        "order",
        "aboard",
        "alone",
        "level",
        "load_verb",
        "vehicle",
        "name",
        "unit",
        "weigh_cue",
        "correction",
        "axle",
        "end",
        "money",
        "axle_noun",
        "whole",
        "event",
        "hitch",
        "rig",
        "talk",
        "time",
        "moving",
        "full",
        "ticket",
        "fee",
        "bars",
        "rating",
    ]
)


NO_THING = frozenset(("not_a_thing", "kept_lead", "supposed_move", "changes_by", "around"))
"""Groups of words that are no part of a thing's name: 'tools behind the axle', 'putting'."""


def _is_somebody(token: Token) -> bool:
    """'they'; an 'el' that may be 'él' leads to a thing."""
    return "somebody" in token.groups and "article" not in token.groups


def is_noun(scene: Scene, index: int) -> bool:
    """Whether a token can be (part of) the name of a thing that is carried."""
    if index == len(scene.tokens):
        return False
    token = scene.tokens[index]
    if token.kind is not WORD or token.groups & NO_THING or len(token.raw) == 1:
        return False
    senses = token.senses
    if "labels_only" in token.groups and (not index or scene.tokens[index - 1].senses):
        return False  # 'the plate on the trailer says 1,800 kg'; 'steel plate' is a thing
    if "takes_out" in senses and index == scene.sentence_of(index)[0]:
        return False  # 'get rid of the 200 lb in the bed'; a chilly bin is a thing
    if not senses and index and _is_somebody(scene.tokens[index - 1]):
        return False  # 'before they waved me off': what somebody does
    if "subject" in senses and any(
        "bears_load" in behind.groups for behind in scene.tokens[index + 1 : index + 3]
    ):
        return False  # 'trailer tires are carrying 2,330 each'
    if "axle" in senses and index and "animal_or_axle" in token.groups:
        return scene.tokens[index - 1].kind is NUMBER  # 'loaded two steers'
    if not senses:
        return "texts_here" not in scene.groups or index not in texter(scene)
    if "check_item" in senses or "subject" in senses:
        return not senses.keys() & {"vehicle", "name", "axle_noun"}
    if "thing" in senses or "product" in senses:
        return True
    if senses.get("talk") == OTHER_VEHICLE:
        return senses.get("vehicle") != "trailer"  # 'van', where a caravan is called so
    return not senses.keys() & OTHERWISE_MEANT
