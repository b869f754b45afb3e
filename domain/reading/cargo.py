"""Cargo: what was loaded, what it weighs and where it stands.

This file decides when a mass is that of a thing: a noun beside it that is no part of the rig,
and a place on the rig or a word of loading that says it was put there.
"""

from __future__ import annotations

from domain.context import MASS_UNIT
from domain.entries import Cargo
from domain.quantities import Quantity
from domain.reading.figures import LENGTH, MASS, Figure
from domain.reading.labels import Label
from domain.reading.phrasebook import Phrasebook
from domain.reading.scene import Scene
from domain.reading.tokens import BREAK, MARK, NUMBER, WORD

LOAD_KG = (2.0, 20_000.0)
RELATIVE = ("ahead of", "behind")
NOT_ITEMS = frozenset(("of", "is", "are", "weighs", "the", "a", "an", "about", "total", "at", "was"))


def read_cargo(scene: Scene, book: Phrasebook) -> list[Cargo]:
    """The cargo that a message states."""
    verb = any(scene.stated(index) for index in scene.by_class.get("load_verb", ()))
    found: list[Cargo] = []
    for figure in scene.live_figures():
        if figure.role is not None or not _is_mass(scene, figure, verb=verb):
            continue
        position, at = find_location(scene, book, figure)
        item = _item(scene, figure)
        if item is None or not (position or verb):
            continue
        value = Quantity(figure.value, figure.unit or MASS_UNIT[scene.context.units], figure.low)
        if not LOAD_KG[0] <= value.amount("kg") <= LOAD_KG[1]:
            continue
        distance = _distance(scene, position, at)
        figure.role = "cargo"
        found.append(
            Cargo(
                item=item,
                value=value,
                position=position,
                distance=distance,
                words=(("value", scene.words_between(figure.start, figure.end)),),
            )
        )
    return found


def _is_mass(scene: Scene, figure: Figure, *, verb: bool) -> bool:
    label = figure.label
    if isinstance(label, Label) and (label.rating or label.field or label.subject):
        return False
    if isinstance(label, Label) and label.axle:
        return False
    if figure.dimension == MASS:
        return True
    return figure.dimension is None and verb and figure.value >= 100 and figure.token.grouped


def find_location(
    scene: Scene, book: Phrasebook, figure: Figure | None = None
) -> tuple[str | None, int]:
    """Where something stands, in the phrasebook's terms, and the character where it is said."""
    text = " ".join(token.text for token in scene.tokens)
    padded = f" {text} "
    for phrase, key in book.locations:
        at = padded.find(f" {phrase} ")
        if at >= 0:
            return key, at
    for trailer in scene.context.trailers:
        name = trailer.casefold()
        for lead, key in (
            ("in front of", "trailer nose"),
            ("front of", "trailer nose"),
            ("nose of", "trailer nose"),
            ("back of", "trailer rear"),
            ("rear of", "trailer rear"),
            ("in", "in trailer"),
            ("on", "in trailer"),
        ):
            for article in ("the ", ""):
                at = padded.find(f" {lead} {article}{name} ")
                if at >= 0:
                    return key, at
    return None, -1


def _distance(scene: Scene, position: str | None, at: int) -> Quantity | None:
    if position is None or not position.startswith(RELATIVE):
        return None
    for figure in scene.figures:
        if figure.dimension == LENGTH and figure.role is None and figure.unit:
            figure.role = "distance"
            return Quantity(figure.value, figure.unit)
    return None


def _item(scene: Scene, figure: Figure) -> str | None:
    """The noun that the mass is of: before it ('generator 210 lb'), or behind it ('of hay')."""
    after = figure.end
    if after < len(scene.tokens) and scene.tokens[after].text == "of":
        words = _noun_from(scene, after + 1)
        if words:
            return words
    if figure.foreign is not None and after < len(scene.tokens):
        words = _noun_from(scene, after)
        if words:
            return words
    return _noun_before(scene, figure.start)


def _noun_from(scene: Scene, index: int) -> str | None:
    start = index
    while start < len(scene.tokens) and scene.tokens[start].text in ("the", "a", "my", "our", "some"):
        start += 1
    end = start
    while end < len(scene.tokens) and _is_noun(scene, end) and end - start < 4:
        end += 1
    return scene.words_between(start, end) or None


def _noun_before(scene: Scene, index: int) -> str | None:
    """The last noun phrase of the sentence before the figure, skipping 'is' and the location."""
    start, _ = scene.sentence_of(index)
    best: tuple[int, int] | None = None
    position = start
    while position < index:
        if _is_noun(scene, position):
            end = position
            while end < index and _is_noun(scene, end):
                end += 1
            if best is None or _leads(scene, position):
                best = (position, end)
            position = end
        else:
            position += 1
    return scene.words_between(*best) if best else None


def _leads(scene: Scene, position: int) -> bool:
    """A noun behind an article is a thing of its own; behind 'on the' it is a place."""
    before = scene.tokens[position - 1] if position else None
    return before is None or "onto" not in before.senses.get("glue", "")


def _is_noun(scene: Scene, index: int) -> bool:
    token = scene.tokens[index]
    if token.kind in (MARK, BREAK, NUMBER) or token.kind is not WORD:
        return False
    if token.text in NOT_ITEMS:
        return False
    senses = token.senses
    if not senses:
        return True
    return not senses.keys() & {
        "glue",
        "load_verb",
        "vehicle",
        "name",
        "unit",
        "weigh_cue",
        "axle",
        "end",
        "money",
        "ordinal",
        "axle_noun",
        "whole",
        "event",
        "hitch",
    } or bool(senses.keys() & {"check_item"} and not senses.keys() & {"vehicle", "axle_noun"})
