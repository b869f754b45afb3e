"""Letters for what is weighed or rated: 'S 5,180 D 6,240 T 8,860 G 20,280', '4,760 st, 5,920 dr'.

This file decides when letters that people also text for something else are axles, the trailer or
the whole: where several stand by loads, all before them or all behind.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import TYPE_CHECKING

from domain.reading.side_letters import load_follows
from domain.reading.tokens import NUMBER, WORD

if TYPE_CHECKING:
    from domain.reading.scene import Scene

LEAST_INITIALS, LEAST_PAIRS = 3, 2
"""Letters by loads that are meant so: alone, and beside a place that is named by more."""


def read_initials(scene: Scene) -> None:
    """'S 5,180 D 6,240 T 8,860 G 20,280': letters are labels where three stand by loads."""
    if _heads_axles(scene):
        _read_rated_initials(scene)
        return
    # '9,420tr 6,880dr 5,060st 21,360gr': the order in which more of them have a load
    told = max(_told_with(scene, 1), _told_with(scene, -1), key=len)
    for index in told:
        key = scene.tokens[index].senses["initial"].split()[0]
        term_class = {"trailer": "vehicle", "gross": "whole"}.get(key, "axle")
        scene.tokens[index].senses = {term_class: key}
    if told:
        scene.index_terms()


def _told_with(scene: Scene, step: int) -> list[int]:
    """The letters that have their loads behind them (1) or before them (-1); none if too few."""
    beside = [at for at in scene.by_class["initial"] if _has_load(scene, at, step)]
    others = len(scene.by_class.get("numbered_axle", ()))
    if len(beside) >= LEAST_PAIRS or any(_ends_row(scene, index, step) for index in beside):
        others += sum(_has_load(scene, index, step) for index in _places_named(scene))
    row = len(beside) + others >= LEAST_INITIALS
    return beside if row or (beside and _are_both_axles(scene, beside, step)) else []


def _are_both_axles(scene: Scene, beside: Sequence[int], step: int) -> bool:
    """'st 4,620 dr 7,180', 'steer 4,620 dr 7,180': a truck's two, and no word that is strange.

    A single letter needs something that says that they were weighed.
    """
    tokens = scene.tokens
    keys = [tokens[index].senses["initial"].split()[0] for index in beside]
    named = [index for index in scene.by_class.get("axle", ()) if index not in beside]
    keys += [tokens[index].senses["axle"] for index in named if _has_load(scene, index, step)]
    if sorted(keys) != ["drive", "steer"]:
        return False
    if any(len(tokens[index].text) == 1 for index in beside):
        return not WEIGHED.isdisjoint(scene.by_class)
    return all(token.senses or token.groups for token in tokens if token.kind is WORD)


WEIGHED = frozenset(("weigh_cue", "bars", "rig"))
"""Classes of term of which one stands where something was weighed."""


def _has_load(scene: Scene, index: int, step: int) -> bool:
    return 0 <= index + step < len(scene.tokens) and load_follows(scene.tokens, index + step)


def _ends_row(scene: Scene, index: int, step: int) -> bool:
    """'steer 4,610 drive 7,390 tl 7,080': what both axles of a truck stand beside.

    'Ticket: T-88213' has a mark between.
    """
    key = scene.tokens[index].senses["initial"].split()[0]
    return key in ("trailer", "gross") and scene.tokens[index + step].kind is NUMBER


def _places_named(scene: Scene) -> Iterator[int]:
    """Where a place is named by more than its letter: 'st 5310 dr 6920 trl 9580', 'fr', 'rr'."""
    for term_class in ("axle", "vehicle", "whole", "end", "corner"):
        for index in scene.by_class.get(term_class, ()):
            token = scene.tokens[index]
            wheel = term_class == "corner" and "rear_or_right" not in token.groups
            if "initial" not in token.senses and not wheel:
                yield index


def _read_rated_initials(scene: Scene) -> None:
    """'GAWR F 3,750 R 4,100': beside the word they are of the two axles."""
    tokens = scene.tokens
    for index in scene.by_class.get("initial", ()):
        rating = RATED_INITIALS.get(tokens[index].senses["initial"].split()[0])
        if rating is not None and _has_load(scene, index, 1):
            tokens[index].senses = {"rating": rating}
    scene.index_terms()


def _heads_axles(scene: Scene) -> bool:
    """'gvwr 11,400 F 5,250 R 7,000': on a label, both axles behind a GAWR or a GVWR."""
    rated = [(index, key) for index, _, key in scene.find("rating")]
    if any(key.startswith("gawr") for _, key in rated):
        return True
    if "weigh_cue" in scene.by_class or not any(key in WHOLE_RATINGS for _, key in rated):
        return False
    said = [
        (index, scene.tokens[index].senses["initial"].split()[0])
        for index in scene.by_class.get("initial", ())
        if _has_load(scene, index, 1)
    ]
    keys = [key for _, key in said]
    return keys == list(RATED_INITIALS) and rated[0][0] < said[0][0]


WHOLE_RATINGS = ("gvwr", "gcwr")

RATED_INITIALS = {"steer": "gawr_front", "drive": "gawr_rear"}
