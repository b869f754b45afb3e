"""Places on the rig where something stands, as they are said: 'ahead of the trailer axle'.

This file decides where such a place begins and ends in a message, what leads to it, how far it is
from there, and which place is of which mass. What stands there is decided in `cargo`.
"""

from __future__ import annotations

from bisect import bisect_right
from collections.abc import Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING

from domain.quantities import Quantity
from domain.reading.figures import DIMENSION_OF, LENGTH, Figure
from domain.reading.phrasebook import ALONE, SPOT_CLASS, find_overlapping
from domain.reading.tokens import WORD

if TYPE_CHECKING:
    from domain.reading.scene import Scene


@dataclass(frozen=True, slots=True)
class Spot:
    """A place on the rig as it was said: the words kept, and the tokens they stand on."""

    words: str
    lead: str
    start: int
    end: int


def find_spots(scene: Scene) -> list[Spot]:
    """Places on the rig, each with what leads to it: 'ahead of the trailer axle'."""
    words = scene.words()
    found = _with_ends(scene, find_overlapping(words, scene.book.overlapping[SPOT_CLASS]))
    if not found:
        return []
    owners, groups = scene.owners(), scene.book.groups
    spots: list[Spot] = []
    leads: dict[int, int] = {}
    for start, end, keys in found:
        if "lead" in keys.split():
            leads[end] = min(start, leads.get(end, start))
    taken = -1
    begins = {start for start, _, keys in found if "spot" in keys.split()}
    for start, end, keys in found:
        if "spot" not in keys.split() or start < taken:
            continue
        if end in begins and words[end - 1] in groups["which_spot"]:
            continue  # 'in the front stall' is one place
        first = start
        while first > 0 and (
            words[first - 1] in groups["article"]
            or words[first - 1] in groups["which_spot"]
            or scene.tokens[owners[first - 1]].senses.keys() & {"vehicle", "name"}
        ):
            first -= 1
        if end < len(words) and owners[end] == owners[end - 1]:
            continue  # 'the ball weight' is no ball
        whole = _spot_end(scene, words, owners, end)
        lead_start = first if _alone(words, first, whole) else leads.get(first)
        vehicle = scene.tokens[owners[start]].senses.keys() & {"vehicle", "name"}
        if lead_start is None or (
            vehicle and groups["axle_word"].isdisjoint(words[start:end])
        ):  # 'eje del remolque' is a vehicle's, and a place
            continue
        led = lead_start and words[lead_start - 1] in groups["all_over"]
        if led and words[lead_start] in groups["over_it"]:
            continue  # 'all over the floor'
        lead = " ".join(words[lead_start:first])
        several = lead_start > 0 and words[lead_start - 1] in groups["several_of"]
        if several and lead in groups["of"] and words[first] not in groups["article"]:
            continue  # 'a set of ramps 190 lb in the bed': things, and not where they lie
        last = whole
        kept = [word for word in words[first:last] if word not in groups["article"]]
        if lead_start + 1 < first and words[lead_start + 1] in groups["measured_lead"]:
            kept = [*words[lead_start:first], *kept]  # 'in front of the axles'
        elif words[lead_start] in groups["kept_lead"]:
            kept = [word for word in words[lead_start:first] if word not in groups["in"]] + kept
        elif words[end - 1] in groups["axle_word"] and words[lead_start] in groups["at_place"]:
            continue  # that is where a scale weighs
        spots.append(Spot(" ".join(kept), lead, owners[lead_start], owners[last - 1] + 1))
        taken = last
    return spots


Found = list[tuple[int, int, str]]
"""Phrases of the table of places, each with its first word, the one behind its last, its keys."""


def _with_ends(scene: Scene, found: Found) -> Found:
    """'in the back of the truck': an end is a place, where 'back of' may lead to one.

    So it is behind a comma: 'crates, 310 lb, rear of the flatdeck'.
    """
    words, groups = scene.words(), scene.book.groups
    index = scene.book.overlapping[SPOT_CLASS]
    ends = [
        (start, end - 1, "spot")
        for start, end, keys in found
        if keys == "lead"
        and end == start + 2
        and start > 1
        and words[start + 1] in groups["of"]
        and (words[start - 1] in groups["article"] or _is_of_vehicle(scene, start))
        and any(key == "spot" for _, _, key in index[words[start]].get(ALONE, {}).get(ALONE, ()))
    ]
    return sorted((*found, *ends)) if ends else found


def _is_of_vehicle(scene: Scene, start: int) -> bool:
    """', rear of the flatdeck': whether an end behind a comma is that of a vehicle."""
    words, end = scene.words(), start + ENDS_OF
    whole = words[start - 1] == "," and _spot_end(scene, words, scene.owners(), end - 1)
    return bool(whole) and whole > end


ENDS_OF = 2
"""Words of 'rear of'."""


def is_left(scene: Scene, spot: Spot) -> bool:
    """'from the bed', 'off the deck', 'out of the tack room': what was there is there no more."""
    groups = scene.book.groups
    out = spot.start > 0 and "out" in scene.tokens[spot.start - 1].groups
    return spot.lead in groups["from"] | groups["off"] or (out and spot.lead in groups["of"])


def _alone(words: Sequence[str], start: int, end: int) -> bool:
    """'added a toolbox, 165 lb, truck bed', 'boot: 30 kg of tins': a place by itself."""
    if start == 0:
        return end < len(words) and words[end] == ":"
    return words[start - 1] == "," and (end == len(words) or words[end] in ",.;")


def _spot_end(scene: Scene, words: Sequence[str], owners: Sequence[int], end: int) -> int:
    """'the nose of the camper': what the spot is of belongs to it."""
    if end < len(words) and words[end] in scene.book.groups["of"]:
        last = end + 1
        while last < len(words) and words[last] in scene.book.groups["article"]:
            last += 1
        if last < len(words) and scene.tokens[owners[last]].senses.keys() & {"vehicle", "name"}:
            return bisect_right(owners, owners[last])  # of a name all words
    return end


def spot_of(scene: Scene, figure: Figure, masses: list[Figure], spots: list[Spot]) -> Spot | None:
    """The spot nearest to a mass, on its side of the next mass."""
    position = masses.index(figure)
    floor = masses[position - 1].end if position else 0
    ceiling = masses[position + 1].start if position + 1 < len(masses) else len(scene.tokens)
    start, end = scene.sentence_of(figure.start)
    floor, ceiling = max(floor, start), min(ceiling, end)
    near = [spot for spot in spots if floor <= spot.start and spot.end <= ceiling]
    behind = [spot for spot in near if spot.start >= figure.end]
    if len(behind) > 1 and behind[1].start <= behind[0].end + 1:
        # 'on the caravan floor over the axle' is one place.
        first, second = behind[:2]
        return Spot(f"{first.words} {second.words}", second.lead, first.start, second.end)
    if behind:
        ahead = [spot for spot in near if spot.end <= figure.start]
        if ahead and _is_of_next(scene, figure, behind[-1], ceiling):
            return ahead[-1]
        return behind[0]
    told = {"vehicle", "name"}  # 'on the flatdeck and the forklift 2,900 lb at the rear'
    own = any(not told.isdisjoint(each.senses) for each in scene.tokens[figure.end : ceiling])
    if (position + 1 < len(masses) and not own) and (
        _joined(scene, figure.end, ceiling) or _of_all(scene, spots, masses[-1])
    ):
        return spot_of(scene, masses[position + 1], masses, spots)
    if near and (position == 0 or floor < near[-1].start):
        return near[-1]
    # 'In the bed: 260 lb of feed and the toolbox, 95 lb': a heading is of all that follows.
    heads = spots and spots[0].end < len(scene.tokens) and scene.tokens[spots[0].end].raw == ":"
    return spots[0] if heads and spots[0].end <= figure.start else None


def _is_of_next(scene: Scene, figure: Figure, last: Spot, following: int) -> bool:
    """'hay over the axles 960 kg and tack up front 70 kg': each place before what stands there."""
    between = scene.tokens[figure.end : last.start]
    named = any(token.kind is WORD and "glue" not in token.senses for token in between)
    return named and last.end == following < len(scene.tokens)


def _of_all(scene: Scene, spots: list[Spot], last: Figure) -> bool:
    """'generator 128 lb, compressor 94 lb, both in the bed': where all of a list stands."""
    return any(
        spot.start >= last.end and "of_all" in scene.tokens[spot.start - 1].groups for spot in spots
    )


def _joined(scene: Scene, start: int, end: int) -> bool:
    """'an 85 lb cooler and a 60 lb toolbox in the bed': what is joined by 'and' stands together."""
    return any("and" in token.groups for token in scene.tokens[start:end])


def distance_to(scene: Scene, spot: Spot) -> Quantity | None:
    """How far a place is from what it names: '2 feet ahead of the axle'; None where unsaid."""
    if not set(spot.lead.split()) & scene.book.groups["measured_lead"]:
        return None
    for figure in reversed(scene.figures):
        before = figure.end <= spot.start <= figure.end + 2
        if before and figure.dimension == LENGTH and figure.unit and figure.role is None:
            figure.role = "distance"
            return Quantity(figure.value, figure.unit)
    return said_length(scene, spot.start)


def said_length(scene: Scene, end: int) -> Quantity | None:
    """'half a metre', 'a foot' or 'one metre' right before a token: a length without a number."""
    if end < 2:
        return None
    count = scene.tokens[end - 2]
    if "a_thing" not in count.groups and scene.book.numbers.get(count.text) != "1":
        return None
    unit = scene.tokens[end - 1].senses.get("unit", "")
    if DIMENSION_OF.get(unit) != LENGTH:
        return None
    half = end > 2 and "half_more" in scene.tokens[end - 3].groups
    return Quantity(0.5 if half else 1, unit)
