"""Ratings that a careful weighmaster wants, and which of them were never given.

This file decides which ratings are worth asking for, in which order their lack hurts, and
what counts as given. It does not know what a rating is called, nor where it is written.
"""

from __future__ import annotations

from collections.abc import Iterator

from domain.countries import Country
from domain.rig import HITCH_CHAIN, STANDS_FOR, TRAILER_PARTS, Key, Rig
from domain.upkeep import DONE_AT, DUE_IN, DUE_IN_DAYS
from domain.walkround import SUBJECT
from domain.weighing import Weights

Wanted = tuple[str, str]
"""Subject and rating."""

NOT_OF_THE_RIG = ("every", "every_days", DONE_AT, DUE_IN, DUE_IN_DAYS)
"""What is told like a rating, and is of upkeep."""

OWN_SUBJECTS = (SUBJECT, "odometer")
"""Subjects of what is told like a rating, and is none of a maker's."""

LOADED_BY: dict[Wanted, str] = {
    ("truck", "gvwr"): "truck",
    ("truck", "gawr_rear"): "drive",
    ("truck", "gawr_front"): "steer",
    ("trailer", "gvwr"): "trailer",
    ("truck", "gcwr"): "gross",
    ("hitch", "tow"): "trailer",
    ("trailer", "gawr"): "trailer",
    ("hitch", "tongue"): "trailer",
    ("truck", "payload"): "truck",
    ("truck", "tow"): "trailer",
    ("trailer tyres", "load"): "trailer",
    ("truck tyres", "load"): "truck",
}
"""The ratings wanted, the one whose lack hurts most first, and the load without which each is
idle; the order is common practice, no source."""

PAYLOAD, PULL, TONGUE = ("truck", "payload"), ("hitch", "tow"), ("hitch", "tongue")
COUPLING_VALUES = ("d", "dc")
"""What a coupling is stamped with under UN Regulation 55 instead of a mass that it may pull."""

PLATES = tuple(list(LOADED_BY)[:5])
"""Without these, being inside every rating given says little."""


def is_of_the_rig(key: Key) -> bool:
    """Whether what is told like a rating is one, and no reminder or setting of the owner's."""
    subject, rating, _ = key
    return subject not in OWN_SUBJECTS and rating not in NOT_OF_THE_RIG


def lacking(rig: Rig, country: Country) -> tuple[Wanted, ...]:
    """The ratings that were never given; a trailer's only where there is a trailer."""
    return tuple(
        each
        for each in _worth_asking(country)
        if (rig.trailer or each[0] not in TRAILER_PARTS) and not given(rig, each)
    )


def missing(rig: Rig, weights: Weights, country: Country) -> tuple[Wanted, ...]:
    """The ratings that bound something weighed and were never given."""
    return tuple(
        each
        for each in _worth_asking(country)
        if _is_loaded(each, weights) and not given(rig, each)
    )


def _is_loaded(wanted: Wanted, weights: Weights) -> bool:
    """Whether what the rating bounds was weighed; a tongue by itself is what its own bounds."""
    return LOADED_BY[wanted] in weights.loads or (wanted == TONGUE and "tongue" in weights.loads)


def _worth_asking(country: Country) -> Iterator[Wanted]:
    """The ratings that somebody there can find: a payload only where a placard states one."""
    return (each for each in LOADED_BY if country.placard or each != PAYLOAD)


def given(rig: Rig, wanted: Wanted) -> bool:
    """Whether a rating was given in any form; of the hitch chain, any part's will do."""
    subject, rating = wanted
    subjects = HITCH_CHAIN if subject == "hitch" else (subject,)
    names = (rating,) if subject == "truck" else STANDS_FOR.get(rating, (rating,))
    if wanted == PULL:
        names = (*names, *COUPLING_VALUES)
    return any(key[0] in subjects and key[1] in names for key in rig.ratings)
