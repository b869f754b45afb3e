"""Names that a message gives: 'truck Juniper gvwr 11,500', 'the horse trailer is called Wren'.

This file decides which word is the name of the truck or trailer whose label is told. Names that
the chat knows already are found in `names`.
"""

from __future__ import annotations

import re
from collections.abc import Sequence

from domain.reading.label import Label
from domain.reading.scene import Scene
from domain.reading.tokens import WORD, Token

LEAST_HEADED = 4
"""Tokens: less behind a name and its colon is no label's text."""


LONGEST_NAME = 3
"""Words of a name."""

BEHIND_NAME = frozenset(("rating", "rating_cue", "tank", "axle_noun", "unit"))
"""Classes of term of which one may stand right behind a name of several words."""


def _end_of_name(scene: Scene, start: int) -> int:
    """'trailer sled deck gvwr 9,990': where a name ends that begins at a token.

    It has several words only where a mark or a rating's name follows them: else what follows the
    first is said of it.
    """
    tokens, end = scene.tokens, start + 1
    bound = {
        index
        for label in scene.labels
        if label.bound is not None
        for index in range(label.start, label.end)
        if "rating" in tokens[index].senses
    }
    while end < len(tokens) and end - start < LONGEST_NAME and end not in bound:
        if tokens[end].kind is not WORD or not _names_on(tokens[end]):
            break
        end += 1
    behind = tokens[end] if end < len(tokens) else None
    closed = behind is None or behind.kind is not WORD or not BEHIND_NAME.isdisjoint(behind.senses)
    return end if closed else start + 1


def _names_on(token: Token) -> bool:
    """Whether a word may be a further one of a name: an unknown one, or a part or a kind."""
    return token.senses.keys() <= IN_NAME and token.groups.isdisjoint(NO_NAME)


IN_NAME = frozenset(("rating", "vehicle", "spot"))
"""Classes of term of which a name's further words may be, where no figure is theirs."""


def heading_name(scene: Scene) -> str | None:
    """'Bess: ...': a capitalized word that nobody knows, with a colon, before all else."""
    colon = [at for at in range(1, LONGEST_NAME + 1) if scene.tokens[at : at + 1]]
    end = next((at for at in colon if scene.tokens[at].raw == ":"), 0)
    if not end or len(scene.tokens) < LEAST_HEADED or scene.text.isupper():
        return None
    words = scene.tokens[:end]
    named = all(each.kind is WORD and not (each.senses or each.groups) for each in words)
    written = all(each.raw[0].isupper() and each.raw.isalpha() for each in words)
    return scene.words_between(0, end) if named and written else None


def _leads_to_name(tokens: Sequence[Token], at: int) -> bool:
    """'is', ':', 'called' and ', name' between a vehicle and its name."""
    token, behind = tokens[at], tokens[at + 1 : at + 2]
    if token.raw == ",":
        return bool(behind) and "calls_it" in behind[0].groups
    return "calls_it" in token.groups or "copula" in token.senses.get("glue", "")


NO_NAME = frozenset(("holds", "unladen"))
"""Groups of words that stand behind a vehicle and are no name: 'camper dry 7,200'."""

NAME_WORD = re.compile(r"[A-Za-z][\w'-]+$")
"""Two letters at least: 'tires on the truck E load' gives it no name."""


def _is_kind(token: Token) -> bool:
    return set(token.senses.items()) == {("vehicle", "trailer")}


def _is_proper(scene: Scene, at: int) -> bool:
    """Whether a token is an unknown word, written as a name is."""
    token = scene.tokens[at] if at < len(scene.tokens) else None
    if token is None or token.kind is not WORD or token.senses or token.groups & NO_NAME:
        return False
    return token.raw[0].isupper() and NAME_WORD.match(token.raw) is not None


def _has_load(scene: Scene, at: int) -> bool:
    """'gcwr 26k, the truck leaves 14k': a word with a figure that is no rating's is a verb."""
    if scene.tokens[at].raw[0].isupper():
        return False
    figure = next((each for each in scene.figures if each.start == at + 1), None)
    return figure is not None and not (isinstance(figure.label, Label) and figure.label.rating)


def named_vehicle(scene: Scene, vehicle: str) -> str | None:
    """A name given in 'truck Juniper gvwr ...': the unknown word right behind the vehicle.

    'the truck is called Juniper', 'truck is Juniper' give one too, and 'trailer camper gvwr ...'
    by what kind it is.
    """
    for index, _, key in scene.find("vehicle"):
        if key != vehicle:
            continue
        at, capital = index + 1, False
        while at < len(scene.tokens) and _leads_to_name(scene.tokens, at):
            at, capital = at + 1, "calls_it" not in scene.tokens[at].groups
        if at >= len(scene.tokens):
            continue
        if vehicle == "trailer" and _is_kind(scene.tokens[at]) and _is_proper(scene, at + 1):
            at += 1  # 'gooseneck trailer Anvil'
        following = scene.tokens[at]
        kind = _is_kind(following)
        plain = not (following.senses or following.groups & NO_NAME)
        plain = plain or (kind and vehicle == "trailer")
        behind = scene.tokens[at + 1].senses if at + 1 < len(scene.tokens) else {}
        verb = behind.get("glue") == "function"  # 'the truck came with a 36 gallon tank'
        written = NAME_WORD.match(following.raw) and (
            following.raw[0].isupper() or not (capital or verb)
        )
        if following.kind is WORD and plain and written and not _has_load(scene, at):
            return scene.words_between(at, _end_of_name(scene, at))
    if vehicle == "truck":
        for token, following in zip(scene.tokens, scene.tokens[1:], strict=False):
            named = token.possessive and not token.senses and token.raw[0].isupper()
            if named and following.senses.keys() & {"rating", "tank"}:
                return token.raw[:-2]
    return _called_beside(scene, vehicle)


def _called_beside(scene: Scene, vehicle: str) -> str | None:
    """'the trailer is a two horse slant we call Duchess', 'this is Duchess, the horse trailer'."""
    kinds = {key for _, _, key in scene.find("vehicle")}
    if kinds != {vehicle}:
        return None
    if "calls_it" in scene.groups:
        for at, token in enumerate(scene.tokens):
            if "calls_it" in token.groups and _is_proper(scene, at + 1):
                return scene.words_between(at + 1, _end_of_name(scene, at + 1))
    for index, _, _ in scene.find("vehicle"):
        parted = index > FARTHEST_NAME - 1 and scene.tokens[index - 2].raw == ","
        if parted and "article" in scene.tokens[index - 1].groups:
            name = index - FARTHEST_NAME
            if _is_proper(scene, name) and not scene.text.isupper():
                return scene.words_between(name, name + 1)
    return None


FARTHEST_NAME = 3
"""Tokens from a name to the vehicle that it is of: a comma and an article stand between."""
