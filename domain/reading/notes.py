"""Notes: words that somebody asks to be kept as they are.

This file decides when a message is a note and what of it is kept. 'note:' and 'for the log' ask
for it whatever follows; 'remember' and 'note that' are said of everything, and ask for it only
where what follows has to do with the rig, the road or the scale.
"""

from __future__ import annotations

from domain.entries import Note
from domain.reading.pairing import LEAST_BORNE
from domain.reading.places import read_places
from domain.reading.scene import Scene

MARKS = ":,-–—.!;"
OF_THE_TRADE = frozenset(
    (
        "vehicle",
        "name",
        "check_item",
        "weigh_cue",
        "fuel_cue",
        "hitch",
        "axle",
        "ticket",
        "bars",
        "odometer",
    )
)
"""Classes of term one of which a note has that nothing else marks as one."""


def read_note(scene: Scene) -> Note | None:
    """The note that a message is, or None.

    Where the loads of several axles are told, they are to be kept: 'log this, steer 5,120 drive
    6,640' is a weighing.
    """
    if "logs_now" in scene.groups and _tells_loads(scene):
        return None
    for index, token in enumerate(scene.tokens):
        if "note" in token.senses:
            rest = index + 1
            while rest < len(scene.tokens) and scene.tokens[rest].raw in MARKS:
                rest += 1
            return _note_of(scene, index, rest) if _asks(scene, index, rest) else None
        if token.senses.get("glue") != "filler":
            return None
    return None


def _tells_loads(scene: Scene) -> bool:
    """Whether several axles have a load each, and hardly a word stands beside them."""
    loads = [
        label.bound
        for label in scene.labels
        if label.bound is not None
        and label.places_load
        and not (label.rating or label.subject)
        and label.bound.value >= LEAST_BORNE
    ]
    return len(loads) >= SEVERAL and len(scene.unknown_words(names=False)) <= MOST_STRANGE


SEVERAL = 2

MOST_STRANGE = 2
"""Words that no phrase knows: among more of them something is told that no figure holds."""


def recalls(scene: Scene) -> bool:
    """'remember the year the axle snapped': people think of something, and state no figure."""
    return "recalls" in scene.tokens[0].groups and not scene.figures


def _asks(scene: Scene, index: int, rest: int) -> bool:
    """Whether the words for a note ask for one, given those from token `rest` on."""
    groups = scene.tokens[index].groups
    if len(scene.tokens) - rest < 2 or any(token.raw == "?" for token in scene.tokens[rest:]):
        return False
    if "said_openly" in groups and scene.tokens[rest - 1].raw != ":":
        return False  # 'for the record, steer was 5,180' tells it
    if "recalls" in groups and rest == index + 1 and not _tells(scene, rest):
        return False
    if "note_to_people" in groups or ("note_or_word" in groups and rest == index + 1):
        return not OF_THE_TRADE.isdisjoint(
            term_class for token in scene.tokens[rest:] for term_class in token.senses
        )
    return True


def _tells(scene: Scene, start: int) -> bool:
    """'remember the spare is at the shop', and not 'remember the old truck', nor 'your belt'."""
    first = scene.tokens[start]
    told = scene.book.patterns["tells_how_it_is"].search(scene.text, first.start)
    return told is not None and first.groups.isdisjoint(PUT_TO_PEOPLE)


PUT_TO_PEOPLE = frozenset(("addressed_own", "asks_indirectly"))
"""Groups of words that begin what somebody is to think of: 'your keys', 'how it pulled'."""


def _note_of(scene: Scene, index: int, rest: int) -> Note:
    trailers, trucks = set(scene.named("trailer")), set(scene.named("truck"))
    return Note(
        note=scene.text[scene.tokens[rest].start :].strip(),
        place=next((place for _, place in read_places(scene)), None),
        trailer=trailers.pop() if len(trailers) == 1 else None,
        truck=trucks.pop() if len(trucks) == 1 else None,
    )
