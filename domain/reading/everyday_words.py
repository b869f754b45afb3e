"""Words that could name a place on the rig and say something else here.

This file decides when 'back' is an adverb, 'drive' an outing, 'steers' are cattle and 'outside' is
a preposition. `labels` asks it of each word before one begins.
"""

from __future__ import annotations

from bisect import bisect_left
from collections.abc import Sequence
from operator import attrgetter

from domain.reading.figures import Figure
from domain.reading.tokens import MARK, NUMBER, WORD, Token

EVERYDAY = frozenset(
    (
        "outside_word",
        "back_word",
        "outing_adjective",
        "outing_when",
        "animal_or_axle",
        "beside_us",
        "rightly",
        "all_in",
        "where_loaded",
        "everything_word",
    )
)
"""Groups without which no word that names something can be an everyday word instead."""


def is_everyday(
    tokens: Sequence[Token], index: int, figures: Sequence[Figure], groups: frozenset[str]
) -> bool:
    """Whether a word that could name something says something else here."""
    return (
        _is_before_us(tokens, index)
        or _is_seat(tokens, index)
        or _is_preposition(tokens, index)
        or _is_adverb(tokens, index)
        or _is_rightly(tokens, index)
        or _is_outing(tokens, index)
        or _is_cattle(tokens, index, figures, groups)
        or _tells_unit(tokens, index)
        or _is_condition(tokens, index)
        or _was_seen_to(tokens, index)
    )


def _was_seen_to(tokens: Sequence[Token], index: int) -> bool:
    """'greased everything, 51,240', 'everything checked': work that was done, and no gross."""
    if "everything_word" not in tokens[index].groups:
        return False
    beside = (*tokens[max(0, index - 1) : index], *tokens[index + 1 : index + 2])
    return any(
        "does_it" in token.groups
        or ("check_done" in token.senses and "vague_state" not in token.groups)
        for token in beside
    )


def _is_condition(tokens: Sequence[Token], index: int) -> bool:
    """'towball weight with everything packed: 212 kg': how it stood, and no gross."""
    if "everything_word" not in tokens[index].groups or index < LEAST_BEFORE:
        return False
    place, led = tokens[index - 2], "with" in tokens[index - 1].groups
    stowed = any("load_verb" in token.senses for token in tokens[index + 1 : index + 2])
    return led and stowed and not PLACES.isdisjoint(place.senses)


LEAST_BEFORE = 2
PLACES = frozenset(("whole", "axle", "axle_noun", "vehicle", "name"))
"""Classes of term for what is weighed, of which one stands before 'with everything packed'."""


def _tells_unit(tokens: Sequence[Token], index: int) -> bool:
    """'trailer 1,720 all in kg': the unit of what was told, and no gross."""
    behind = tokens[index + 1 : index + 2]
    return "all_in" in tokens[index].groups and bool(behind) and "unit" in behind[0].senses


def _is_before_us(tokens: Sequence[Token], index: int) -> bool:
    """'the truck in front of us': where another rig is, and no axle."""
    if "end" not in tokens[index].senses or "beside_us" not in tokens[index].groups:
        return False
    behind = tokens[index + 1 : index + 3]
    if not behind or "aboard" in behind[0].senses:
        return bool(behind)  # 'of us'
    return len(behind) == 2 and "of" in behind[0].groups and "speaks_for_us" in behind[1].groups


def _is_seat(tokens: Sequence[Token], index: int) -> bool:
    """'solo 8,140, me and dad up front': where people sit, and no axle."""
    if "where_loaded" not in tokens[index].groups or not index:
        return False
    before = tokens[index - 1]
    if "aboard" in before.senses or not before.groups.isdisjoint(PEOPLE):
        return True
    return comes_along(tokens, index - 1)


def comes_along(tokens: Sequence[Token], index: int) -> bool:
    """'me and denise up front': whom no phrase knows, between oneself and where both sit."""
    if index < LEAST_BEFORE or index + 1 >= len(tokens):
        return False
    who, seat = tokens[index], tokens[index + 1]
    known = who.kind is not WORD or who.senses or who.groups
    sits = "aboard" in seat.senses or "where_loaded" in seat.groups
    oneself, joins = tokens[index - 2 : index]
    return sits and not known and "and" in joins.groups and "oneself" in oneself.groups


PEOPLE = frozenset(("family", "oneself", "pet"))


def _is_adverb(tokens: Sequence[Token], index: int) -> bool:
    """'back around 6', 'moved the mower back:', 'camper off the back' are no rear axle."""
    if "end" not in tokens[index].senses or "back_word" not in tokens[index].groups:
        return False
    if index > 1 and "off_of" in tokens[index - 1].groups and names_trailer(tokens[index - 2]):
        return True
    if index and "object_pronoun" in tokens[index - 1].groups:
        return True  # '640 with them back'
    following = tokens[index + 1] if index + 1 < len(tokens) else None
    ends = following is None or following.kind is MARK
    if ends and index and tokens[index - 1].kind is WORD and not tokens[index - 1].senses:
        return True  # 'tongue 920 with the hives forward, ...'
    if following is not None and "behind_adverb" in following.groups:
        return True
    if ends and index > 1 and tokens[index - 1].senses.get("glue") == "onto":
        return _rides(tokens[index - 2])
    return any("moves_back" in token.groups for token in tokens[max(0, index - 4) : index])


def _rides(token: Token) -> bool:
    """'toys in the back, 4,240 ...': what rides there, and not where a load was."""
    people = "aboard" in token.senses or not token.groups.isdisjoint(PEOPLE)
    return people or (token.kind is WORD and not token.senses)


def _is_rightly(tokens: Sequence[Token], index: int) -> bool:
    """'I'm reading it right': as one should, and no side."""
    sided = tokens[index].senses.get("side") == "right" and "rightly" in tokens[index].groups
    return sided and index > 0 and "it" in tokens[index - 1].groups


def _is_outing(tokens: Sequence[Token], index: int) -> bool:
    """'great drive today', 'tires after the drive, 70 71': an outing is no axle."""
    if tokens[index].senses.get("axle") != "drive" or not index:
        return False
    before = tokens[index - 1].groups
    timed = index > 1 and "article" in before and "outing_when" in tokens[index - 2].groups
    return timed or "outing_adjective" in before


def _is_cattle(
    tokens: Sequence[Token], index: int, figures: Sequence[Figure], groups: frozenset[str]
) -> bool:
    """'40 steers at 1,150 lb', 'heifers 620, steers 655': animals, and no axle."""
    if "animal_or_axle" not in tokens[index].groups:
        return False
    herd = "animal" in groups or _is_head_count(tokens, index, figures, groups)
    return herd and not _drives_beside(tokens)


def _is_head_count(
    tokens: Sequence[Token], index: int, figures: Sequence[Figure], groups: frozenset[str]
) -> bool:
    """'40 steers', 'bought 2 steers', '2 steers at 1,100 each': so many animals, and no load."""
    place = bisect_left(figures, index, key=attrgetter("start"))
    before = figures[place - 1] if place else None
    if before is None or before.end != index or before.dimension is not None or not before.whole:
        return False
    told = before.start > 0 and tokens[before.start - 1].kind is WORD
    told = told or "each_one" in groups
    fewest = 1 if told and tokens[index].text[-1] == "s" else MOST_ROWS  # '2 steers' heads a row
    return fewest < before.value < FEWEST_POUNDS


def _drives_beside(tokens: Sequence[Token]) -> bool:
    """'behind a cattle hauler, 5,340 steer, 6,900 drive': the truck's other axle."""
    return any(
        token.senses.get("axle") == "drive" and _is_loaded(tokens, index)
        for index, token in enumerate(tokens)
    )


def _is_loaded(tokens: Sequence[Token], index: int) -> bool:
    """'6,900 drive', 'drive 6,900', 'drive axle is at 6,900'; 'the drive was 480 miles' is none."""
    before = tokens[index - 1] if index else None
    if before is not None and before.kind is NUMBER and before.value >= FEWEST_POUNDS:
        return True
    behind = tokens[index + 1 : index + 2 + MOST_BETWEEN]
    at = next((at for at, token in enumerate(behind) if "glue" not in token.senses), None)
    if at is None or behind[at].kind is not NUMBER:
        return False
    return behind[at].value >= (LEAST_ON_DRIVE if at else FEWEST_POUNDS)


MOST_BETWEEN = 2
"""Small words between an axle and its load: 'is at'."""

LEAST_ON_DRIVE = 1_000
"""Pounds or kilograms; less, behind a verb, is how far somebody drove."""


MOST_ROWS, FEWEST_POUNDS = 6, 400
"""More than a row's number on a ticket, and less than stands on any steer axle: a count."""


def _is_preposition(tokens: Sequence[Token], index: int) -> bool:
    """'outside the post office' is no air temperature; '97 outside, wind 30' is one."""
    if "outside_word" not in tokens[index].groups:
        return False
    following = tokens[index + 1] if index + 1 < len(tokens) else None
    if following is None or following.kind is not WORD:
        return False
    if following.groups & {"and", "now_word", "minus_word", "as_it_is"}:
        return False  # "outside it's 31"
    beside = following.senses.keys() & {"subject", "unit", "time"}
    return "states" not in following.groups and not beside


def names_trailer(token: Token) -> bool:
    """Whether a word names a trailer, by what it is or by its own name."""
    return token.senses.get("vehicle") == "trailer" or token.senses.get("name", "").startswith(
        "trailer:"
    )


def names_truck(token: Token) -> bool:
    """Whether a word names the truck, by what it is or by its own name."""
    return token.senses.get("vehicle") == "truck" or token.senses.get("name", "").startswith(
        "truck:"
    )


def hitches_ours(tokens: Sequence[Token], verb: int) -> bool:
    """'Ben has just hooked up the camper': whoever does it, it is one of the chat's trailers."""
    if verb >= len(tokens):
        return False
    if "hitch" not in tokens[verb].senses:
        return "has_done" in tokens[verb].groups and hitches_ours(tokens, verb + 1)
    behind = tokens[verb + 1 : verb + 3]
    if not behind:
        return False
    named = behind[-1] if "the" in behind[0].groups else behind[0]
    return named.senses.get("name", "").startswith("trailer:")


def sees_to_part(tokens: Sequence[Token], verb: int) -> bool:
    """'Ted has greased the ball': whoever did it, it is one of the rig's parts."""
    behind = tokens[verb + 1 : verb + 4]
    if len(behind) < len(DONE_TO) or "has_done" not in tokens[verb].groups:
        return False
    done, led, part = behind
    told = "check_done" in done.senses and "the" in led.groups
    return told and "check_item" in part.senses


DONE_TO = ("greased", "the", "ball")
"""Words of what was done, of what leads to a part, and of the part."""
