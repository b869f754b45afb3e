"""Trailers that were put on or taken off at a reading: 'camper on at 52,014, off at 52,190'.

This file decides it by the word before the odometer reading, and by the trailer before that word or
in the clause before. What else is told of a trailer that is on or off is read in `hitches`.
"""

from __future__ import annotations

from typing import Literal, NamedTuple, cast

from domain.reading.everyday_words import names_trailer
from domain.reading.figures import DISTANCE, Figure, follows_odometer
from domain.reading.scene import Scene
from domain.reading.tokens import MARK


class Switch(NamedTuple):
    """A trailer that was put on or taken off, by its name where it has one, and where that is told.

    `named` is the token of the trailer itself; `at` that of the word which says what was done.
    """

    action: Literal["hitched", "unhitched"]
    trailer: str | None
    named: int
    at: int


def switched_at(scene: Scene, figure: Figure) -> Switch | None:
    """What was done to a trailer at an odometer's reading; None where nothing was."""
    if figure.dimension not in (None, DISTANCE) or not figure.whole:
        return None
    if not follows_odometer(figure.value, scene.context) or _goes_on(scene, figure):
        return None
    tokens, at = scene.tokens, figure.start - 1
    while at >= 0 and (tokens[at].raw in "@:" or "at_alone" in tokens[at].groups):
        at -= 1
    if at < 0 or not scene.stated(at):
        return None
    before, _, last = tokens[at].text.rpartition(" ")
    action = scene.book.keys["switch"].get(last)
    if action is None:
        return None
    named = at if before else _before(scene, at)
    if named is None:
        return None
    trailer = tokens[named].senses.get("name", "").partition(":")[2] or None
    return Switch(cast('Literal["hitched", "unhitched"]', action), trailer, named, at)


def _before(scene: Scene, at: int) -> int | None:
    """The trailer before 'on' or 'off', or the one of the clause before: 'camper on ..., off'."""
    tokens = scene.tokens
    start, _ = scene.clause_of(at)
    opens = at - 1
    while opens >= start and "beside_switch" in tokens[opens].groups:
        opens -= 1
    if opens >= start:
        return opens if names_trailer(tokens[opens]) else None
    first, end = scene.clause_of(start - 1) if start > 1 else (0, 0)
    switch = scene.book.keys["switch"]
    for index in range(first, end - 1):
        whole = "rig" in tokens[index].senses and tokens[index].text.rpartition(" ")[2] in switch
        if whole or (names_trailer(tokens[index]) and tokens[index + 1].text in switch):
            return index
    return None


def _goes_on(scene: Scene, figure: Figure) -> bool:
    """Whether a word stands right behind a reading that it may count: 'camper off 51,402 acres'."""
    behind = scene.tokens[figure.end : figure.end + 1]
    return bool(behind) and behind[0].kind is not MARK and not behind[0].senses
