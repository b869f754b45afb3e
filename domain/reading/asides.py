"""What a long message tells amid a story: the text without the clauses around it that are talk.

People tell a fact and go on about the weather. This file decides which clauses at the ends of a
long message have nothing to do with a rig, and in which order it is tried without them. What is
left is read as a message of its own, and kept only where that is told for sure.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import pairwise

from domain.entries import Check, Correction
from domain.reading.figures import (
    DISTANCE,
    ECONOMY,
    MASS,
    PRESSURE,
    PRICE,
    SPEED,
    TEMPERATURE,
    VOLUME,
)
from domain.reading.scene import Scene
from domain.reading.talk import ADVERT
from domain.reading.told_and_asked import OF_OWN_FIGURES
from domain.verdicts import Facts, Question, Verdict

LONGEST_TOLD = 12
"""Tokens: in what has more, a story may stand around what is told."""

MOST_TRIED = 6
"""Stretches of one message that are tried, the longest first."""

OURS = frozenset(
    (
        "axle",
        "check_fault",
        "check_item",
        "correction",
        "dash",
        "entry_noun",
        "event",
        "fuel_cue",
        "hitch",
        "level",
        "name",
        "odometer",
        "product",
        "rating",
        "rating_subject",
        "subject",
        "takes_out",
        "topic",
        "trip_meter",
        "vehicle",
        "weigh_cue",
        "whole",
    )
)
"""Classes of term and groups of words for a rig and its log: a clause with one may tell of them."""


def without_asides(scene: Scene) -> Iterator[str]:
    """A long message without the talk at its end and its beginning; nothing for another."""
    if len(scene.tokens) <= LONGEST_TOLD or OURS.isdisjoint(scene.said):
        return
    if scene.has("talk", ADVERT):
        return
    ends = _clause_ends(scene)
    clauses = list(pairwise((0, *ends)))
    ours = [_is_ours(scene, *clause) for clause in clauses]
    if True not in ours:
        return
    first = ours.index(True)
    if first and not scene.tokens[clauses[first][0] - 1].ends_sentence:
        first = 0  # 'mowed the back 40, took 4 gallons of gas': what it is of stands before
    if any("talk" in token.senses for token in scene.tokens[: clauses[first][0]]):
        return  # what is planned or told of others may go on
    figured = [n for n, (start, end) in enumerate(clauses) if _has_figure(scene, start, end)]
    least = max([first, *figured])
    tried = 0
    for begin in dict.fromkeys((0, first)):
        for last in range(len(clauses) - 1, least - 1, -1):
            if (begin, last) == (0, len(clauses) - 1) or tried == MOST_TRIED:
                continue
            tried += 1
            start, end = scene.tokens[clauses[begin][0]], scene.tokens[clauses[last][1] - 1]
            yield scene.text[start.start : end.end].rstrip(" ,;:-–—(")


def is_told_for_sure(scene: Scene, verdict: Verdict, rest: str) -> bool:
    """Whether what a stretch of a message tells is told for sure, whatever stands around it."""
    match verdict:
        case Question(topic=topic, value=None):
            asks_on = "?" in scene.text[len(rest) + 1 :]
            return scene.text.startswith(rest) and not asks_on and topic not in OF_OWN_FIGURES
        case Facts(entries) if "?" not in scene.text:
            if all(isinstance(each, Check) for each in entries):
                return len(entries) > 1
            if any(isinstance(each, Correction) for each in entries):
                put_right = [each for each in scene.tokens if PUT_RIGHT & each.senses.keys()]
                return len(put_right) > 1 or not OF_THE_LOG.isdisjoint(scene.said)
            return True
    return False


PUT_RIGHT = frozenset(("correction", "takes_out"))
"""Classes of term that put something right; two of them are said of the log."""

OF_THE_LOG = frozenset(
    ("axle", "entry_noun", "fuel_cue", "name", "odometer", "said_to_log", "ticket", "weigh_cue")
)
"""Classes of term and groups of words without which what is put right may be anything."""


def _has_figure(scene: Scene, start: int, end: int) -> bool:
    return any(start <= each.start < end and each.dimension in MEASURED for each in scene.figures)


MEASURED = frozenset((MASS, VOLUME, DISTANCE, TEMPERATURE, PRESSURE, SPEED, PRICE, ECONOMY))
"""What is measured of a rig; hours, ages and money are of anything."""


def _clause_ends(scene: Scene) -> Sequence[int]:
    """Where each clause ends: behind its stop, comma, dash or bracket."""
    marks = [
        index + 1
        for index, token in enumerate(scene.tokens)
        if index + 1 < len(scene.tokens) and (token.ends_sentence or token.raw in PARTING)
    ]
    return [*marks, len(scene.tokens)]


PARTING = frozenset((",", ";", "(", ")", "-", "–", "—"))
"""Marks between clauses."""


def _is_ours(scene: Scene, start: int, end: int) -> bool:
    """Whether a clause has a word of the rig or its log, or a figure with a unit of theirs."""
    if any(OURS & token.senses.keys() or OURS & token.groups for token in scene.tokens[start:end]):
        return True
    return _has_figure(scene, start, end)
