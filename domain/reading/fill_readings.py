"""Which odometer readings of a message are a fill's, and which of where one left or came.

This file decides it by clauses and sentences: what was read where something happened is of that,
unless it stands beside the volume. Which figures make a fill is decided in `fills`.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence

from domain.reading.figures import DISTANCE, VOLUME, Figure, follows_odometer
from domain.reading.fill_roles import ODOMETER_ROLE, VOLUME_ROLE
from domain.reading.label import Label
from domain.reading.places import read_places
from domain.reading.scene import Scene

READ_THERE = 0.9
"""What it adds that the odometer was read where one came or left, in the same message."""


def read_on_leaving(scene: Scene, figure: Figure, own: Sequence[Figure]) -> bool:
    """'52.3 L, $78.40. hitched the camper. 38,733, off we go': the reading is the departure's.

    A sentence with an event, and one more between it and the volume, is of the fill no longer.
    """
    if figure.dimension not in (None, DISTANCE) or figure.value < LEAST_READING:
        return False
    volumes = [other for other in own if other.dimension == VOLUME and other.end <= figure.start]
    if not volumes:
        return False
    start, end = scene.clause_of(figure.start)
    if "then" in scene.tokens[start].groups and not any(
        start <= other.start < end for other in own if other is not figure
    ):  # 'filled 31.2 gal, then left at 48,340'
        return _happened(scene, start, end)
    then = range(volumes[-1].end, figure.start if volumes[-1].end <= start else start)
    hitched = next((at for at in scene.by_class.get("hitch", ()) if at in then), None)
    if hitched is not None:
        since, _ = scene.clause_of(hitched)
        if _happened(scene, since if since >= volumes[-1].end else start, end):
            return True  # 'fueled up 24.1 gal, hitched the camper and left, 48,402'
    if _happened(scene, start, figure.start) and _gauges_between(scene, volumes[-1], figure):
        return True  # 'fuel 26.2 gal, trans 197, arrived 63,911'
    start, end = scene.sentence_of(figure.start)
    _, told = scene.sentence_of(volumes[-1].start)
    return (
        any(not scene.tokens[index].ends_sentence for index in range(told, start))
        and _happened(scene, start, end)
        and not any(start <= other.start < end for other in own if other is not figure)
    )


def _gauges_between(scene: Scene, first: Figure, last: Figure) -> bool:
    """Whether gauges were read, or a load weighed, between two figures of a message."""
    return any(
        first.end <= each.start < last.start
        and isinstance(each.label, Label)
        and (each.label.subject or each.label.places_load)
        for each in scene.figures
    )


def _happened(scene: Scene, start: int, end: int) -> bool:
    """Whether leaving, arriving or turning round is stated between two tokens."""
    return any(start <= at < end and scene.stated(at) for at in scene.by_class.get("event", ()))


def read_on_arriving(scene: Scene, figure: Figure, own: Sequence[Figure]) -> bool:
    """'arrived 51,488. dropped the flatdeck. 29.6 gal': read where something happened, and then.

    A volume in a sentence of its own, or behind a clause of hitching, was pumped after that.
    """
    if figure.dimension not in (None, DISTANCE) or figure.value < LEAST_READING:
        return False
    volume = next((each for each in own if each.dimension == VOLUME), None)
    start, end = scene.clause_of(figure.start)
    if volume is None or volume.start < figure.end:
        return False
    if _happened(scene, start, figure.start) and _gauges_between(scene, figure, volume):
        return True
    parted = "hitch" in scene.by_class and _parted_places(scene, (start, end), volume)
    between = scene.tokens[figure.end : volume.start]
    then = "after_that" in scene.groups and any("after_that" in each.groups for each in between)
    happened = _happened(scene, start, end)
    hitched = then and "hitch" in scene.by_class and _hitched(scene, figure, volume)
    if then and (parted or happened or hitched):
        return True  # 'arrived 51,488, then topped off, 19.8 gal'
    if not (parted or happened):
        return _is_for_exhaust(scene) and _hitched_there(scene, figure, volume)
    if volume.start < end:
        return False
    if any(start <= other.start < end for other in own if other is not figure):
        return False
    if parted:
        return True
    behind = range(end, scene.clause_of(volume.start)[0])
    hitched = any(index in behind for index in scene.by_class.get("hitch", ()))
    return hitched or scene.sentence_of(volume.start)[0] >= scene.sentence_of(figure.start)[1]


def _is_for_exhaust(scene: Scene) -> bool:
    """'unhitched at the arena, 51,417. put 2.5 gal def in': no fuel was pumped at that reading."""
    products = [key for _, _, key in scene.find("product")]
    return bool(products) and all(key == "def" for key in products) and "hitch" in scene.by_class


def _hitched_there(scene: Scene, figure: Figure, volume: Figure) -> bool:
    """'dropped the camper at Willow Flat, 51,402. then got 22.6 gal': read where it was dropped."""
    start, end = scene.sentence_of(figure.start)
    hitches = scene.by_class.get("hitch", ())
    return volume.start >= end and any(start <= at < end and scene.stated(at) for at in hitches)


def _hitched(scene: Scene, figure: Figure, volume: Figure) -> bool:
    """Whether a trailer was put on or taken off where the odometer was read, before the pump."""
    return _hitched_there(scene, figure, volume) or _hitched_amid(scene, figure, volume)


def _hitched_amid(scene: Scene, figure: Figure, volume: Figure) -> bool:
    """'at Pell, 51,402, camper unhitched, then 22.6 gal': the reading, the hitching, the pump."""
    hitches = scene.by_class.get("hitch", ())
    amid = [at for at in hitches if figure.end <= at < volume.start and scene.stated(at)]
    behind = scene.tokens[amid[-1] : volume.start] if amid else ()
    return any("after_that" in each.groups for each in behind)


def _parted_places(scene: Scene, read: tuple[int, int], volume: Figure) -> bool:
    """'dropped the camper in Pell 48,388, fueled in Dorset 24.1 gal': each in a place of its own.

    `read` is the clause in which the odometer was, and something was done to the trailer.
    """
    if not any(read[0] <= at < read[1] for at in scene.by_class["hitch"]):
        return False
    clauses = read, scene.clause_of(volume.start)
    leads = scene.book.groups["leads_to_place"]
    return clauses[0] != clauses[1] and all(
        any(token.text.partition(" ")[0] in leads for token in scene.tokens[start:end])
        for start, end in clauses
    )


def read_elsewhere(scene: Scene, figure: Figure, own: Sequence[Figure]) -> bool:
    """'left 51,240, fuel 51,402 29.4 gal, home 51,610': what was read where something happened.

    The fill has a reading of its own, in the clause of its volume.
    """
    if figure.dimension is not None or not follows_odometer(figure.value, scene.context):
        return False
    if "home" in scene.groups and _read_at_home(scene, figure, own):
        return True
    if "on_the_way" in scene.groups and _read_in_the_end(scene, figure, own):
        return True
    return any(
        _read_apart(scene, figure, own, part) for part in (scene.clause_of, scene.sentence_of)
    )


def _read_at_home(scene: Scene, figure: Figure, own: Sequence[Figure]) -> bool:
    """'24.1 gal in Dorset, home 51,544': in a clause of its own, beside a fill somewhere else.

    Of two fills in turn none was at home.
    """
    start, end = scene.clause_of(figure.start)
    home = any("home" in token.groups for token in scene.tokens[start : figure.start])
    if not home or not _happened(scene, start, end):
        return False
    if any(start <= other.start < end for other in own if other is not figure):
        return False
    volume = next((each for each in own if each.dimension == VOLUME), None)
    if volume is None or start <= volume.start < end:
        return False
    several = [each.dimension for each in scene.live].count(VOLUME) > 1
    if several and not scene.has("product", "def"):
        return True
    first, last = scene.clause_of(volume.start)
    if volume.start >= end:
        return any(first <= at < last for at, place in read_places(scene) if place != "home")
    led = any("leads_to_place" in token.groups for token in scene.tokens[first:last])
    named = any(first <= at < last and scene.tokens[at].raw.istitle() for at in scene.unknown)
    return led or named


def _read_in_the_end(scene: Scene, figure: Figure, own: Sequence[Figure]) -> bool:
    """'unhitched at the farm, 51,544, added 18.2 gal on the way': where one came, and no pump."""
    volume = next((each for each in own if each.dimension == VOLUME), None)
    if volume is None or not is_on_the_way(scene, volume.start):
        return False
    start, end = scene.clause_of(figure.start)
    if start == figure.start and end - figure.end <= 1 and start > 1:
        start, _ = scene.clause_of(start - 1)  # 'unhitched at the farm, 51,544'
    if start <= volume.start < end or scene.phrase_said("stops_on_way", start, end):
        return False
    return _happened(scene, start, end) or any(
        start <= at < end and scene.stated(at) for at in scene.by_class.get("hitch", ())
    )


def is_on_the_way(scene: Scene, index: int) -> bool:
    """Whether it is said that something was done before one came: in its clause, or beside it.

    'added 18.2 gal on the way', 'fueled on the way, 18.2 gal': a clause beside has no figure.
    """
    start, end = scene.clause_of(index)
    around = [(start, end)]
    around += [scene.clause_of(start - 1)] if start > 1 else []
    around += [scene.clause_of(end)] if end < len(scene.tokens) else []
    return any(
        scene.phrase_said("stops_on_way", *part) is not None
        and (part == (start, end) or not any(part[0] <= f.start < part[1] for f in scene.figures))
        for part in around
    )


def read_at_signal(scene: Scene, figure: Figure, own: Sequence[Figure]) -> bool:
    """'fuel light came on at 51,488, put in 30.1': where the light was, and the pump further on."""
    if figure.dimension is not None or not follows_odometer(figure.value, scene.context):
        return False
    start, end = scene.clause_of(figure.start)
    ahead = scene.tokens[start : figure.start]
    if not any("fuel_signal" in token.groups for token in ahead):
        return False
    inside = any(start <= each.start < end for each in own if each is not figure)
    poured = any(start <= at < end for at in scene.by_class.get("full", ()))
    return not (inside or poured) and any(each.start >= end for each in own)


def _read_apart(
    scene: Scene,
    figure: Figure,
    own: Sequence[Figure],
    part: Callable[[int], tuple[int, int]],
) -> bool:
    """Whether something happened in a figure's part of the message, and the fill was in another."""
    start, end = part(figure.start)
    if not _happened(scene, start, end):
        return False
    fuelled = {part(other.start) for other in own if other.dimension == VOLUME}
    if not fuelled or (start, end) in fuelled:
        return False
    return any(
        other is not figure
        and other.dimension is None
        and follows_odometer(other.value, scene.context)
        and part(other.start) in fuelled
        for other in own
    )


LEAST_READING = 1000
"""Miles or kilometres: less is no odometer's."""


def odometer_beside(scene: Scene, roles: dict[str, Figure], bare: Sequence[Figure]) -> None:
    """'26.4 gal at 48,330, then weighed it: ...': what follows on, beside a volume.

    In its clause, or right behind it where nothing happened there: '..., then 19.4 gal, 48,330'.
    """
    volume = roles[VOLUME_ROLE]
    start, end = scene.clause_of(volume.start)
    for figure in bare:
        beside = start <= figure.start < end
        if figure.start == volume.end + 1 and scene.tokens[volume.end].raw == ",":
            behind, last = scene.clause_of(figure.start)
            beside = beside or last - behind == 1
        if beside and follows_odometer(figure.value, scene.context):
            roles.setdefault(ODOMETER_ROLE, figure)


def without_readings(scene: Scene, bare: Sequence[Figure]) -> list[Figure]:
    """'24.1 gal 51,402 then weighed 21,300': the figures that are no reading beside a volume."""
    volumes = [each for each in scene.live if each.dimension == VOLUME]
    loads = [
        figure
        for figure in bare
        if not follows_odometer(figure.value, scene.context)
        or not any(_are_beside(figure, volume) for volume in volumes)
    ]
    return loads or list(bare)


def _are_beside(figure: Figure, volume: Figure) -> bool:
    apart = figure.start - volume.end if figure.start > volume.start else volume.start - figure.end
    return apart <= 1  # 'at', a comma
