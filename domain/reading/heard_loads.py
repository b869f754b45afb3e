"""A load's label heard or corrected into another word: 'steer 5240 driver 6780 trainer 9120'.

This file decides which load the word before a figure means that nothing took, where the other
loads of the weighing are told: the one that is missing, if the word is a slip of its name.
"""

from __future__ import annotations

from collections.abc import Collection, Sequence

from rapidfuzz import process
from rapidfuzz.distance import OSA

from domain.entries import Entry, Weighing
from domain.quantities import Quantity
from domain.reading.scene import Scene
from domain.reading.tokens import WORD

LABELS = {
    "steer": ("axle", "steer"),
    "drive": ("axle", "drive"),
    "trailer": ("vehicle", "trailer"),
    "gross": ("whole", "gross"),
}
"""The loads of a row, each with the class of term and the key that name it."""

LEAST_TOLD = 2
"""Loads that make the row plain."""

MOST_SLIPS, SHORTEST = 2, 4
"""Letters that are wrong, missing or swapped, and those of a word that can be a slip."""


def as_meant(scene: Scene, told: Sequence[Entry], unplaced: Sequence[Quantity]) -> str | None:
    """The message with the label in place of what was heard for it; None where none is meant."""
    weighing = told[0]
    if len(told) > 1 or len(unplaced) > 1 or not isinstance(weighing, Weighing):
        return None
    value = unplaced[0].value
    missing = [load for load in LABELS if load not in weighing.loads]
    if len(LABELS) - len(missing) < LEAST_TOLD:
        return None
    figure = next((each for each in scene.live if each.value == value and each.role is None), None)
    at = figure.start - 1 if figure is not None else -1
    while at > 0 and "copula" in scene.tokens[at].senses.get("glue", ""):
        at -= 1
    if at < 0:
        return None
    said = scene.tokens[at]
    if said.kind is not WORD or said.senses or len(said.text) < SHORTEST:
        return None
    label = _label_like(scene, said.text, missing)
    return None if label is None else f"{scene.text[: said.start]}{label}{scene.text[said.end :]}"


def _label_like(scene: Scene, word: str, missing: Collection[str]) -> str | None:
    """The word for a load that is missing, of which this one is a slip; None for another word."""
    named = [
        label
        for label, senses in scene.book.correctable.items()
        if any(senses.get(LABELS[load][0]) == LABELS[load][1] for load in missing)
    ]
    match = process.extractOne(word, named, scorer=OSA.distance, score_cutoff=MOST_SLIPS)
    return match[0] if match is not None and match[0][0] == word[0] else None
