"""What a message says once of all its entries: their order, when, where and with what.

This file decides which entries a time, a place, a truck or a trailer is of, and which of them
have one of their own. What an entry states is decided by its reader.
"""

from __future__ import annotations

from collections.abc import Sequence
from operator import itemgetter

from domain.entries import (
    Cargo,
    Check,
    Entry,
    Fill,
    Hitch,
    Observation,
    Odometer,
    Rating,
    Weighing,
)
from domain.reading.fill_readings import is_on_the_way
from domain.reading.gauge_places import is_on_trailer, wheels_of_both
from domain.reading.given_names import heading_name, named_vehicle
from domain.reading.hitches import REACH
from domain.reading.logged_late import dates_earlier, dates_missed
from domain.reading.own_parts import (
    is_done_elsewhere,
    is_of_another,
    is_of_another_hour,
    moment_of,
    of_own_part,
    read_apart,
)
from domain.reading.places import read_places
from domain.reading.scene import Scene
from domain.reading.times import clock_told, day_told, has_times, read_when, whens_by_part


def in_order(scene: Scene, entries: Sequence[Entry]) -> list[Entry]:
    """Entries in the order in which the message states them."""
    if len(entries) < 2:
        return list(entries)
    placed: list[tuple[int, Entry]] = []
    read = 0
    for entry in entries:
        # Of 'left 80 79, right 81 80' each is read in turn, and the last is no first one.
        at = _stands_at(scene, entry, read if isinstance(entry, Observation) else 0)
        read = at if isinstance(entry, Observation) else read
        placed.append((at, entry))
    return [entry for _, entry in sorted(placed, key=itemgetter(0))]


def _stands_at(scene: Scene, entry: Entry, floor: int = 0) -> int:
    """The character where a message begins to state an entry, `floor` or later."""
    if entry.words:
        return _whole_at(scene.text, entry.words[0][1], floor)
    if isinstance(entry, Check):
        at = scene.text.find(entry.item)
        if at < 0 and "check_item" in scene.by_class:
            at = scene.tokens[scene.by_class["check_item"][0]].start  # 'breaks' for brakes
        return max(at, 0)
    if isinstance(entry, Hitch):
        return _hitched_at(scene, entry)
    return 0


def _hitched_at(scene: Scene, entry: Hitch) -> int:
    """Where a trailer is put on or taken off: the verb before its name, where it has one."""
    verbs = [index for index, _, _ in scene.find("hitch", entry.action)]
    if len(verbs) == 1:
        return scene.tokens[verbs[0]].start
    named = [at for at, _, key in scene.find("name", f"trailer:{entry.trailer}")]
    own = [index for index in verbs if any(index < at <= index + REACH for at in named)]
    return next((scene.tokens[index].start for index in own or verbs), 0)


def _whole_at(text: str, words: str, floor: int) -> int:
    """Where words stand in a text, and are no end of a longer word or figure; else its start."""
    at = text.find(words, floor)
    while at > 0 and (text[at - 1].isalnum() or text[at - 1] in "_,."):
        at = text.find(words, at + 1)
    return max(at, 0)


def _token_of(scene: Scene, entry: Entry) -> int:
    """The token where a message begins to state an entry."""
    at = _stands_at(scene, entry)
    return next((i for i, token in enumerate(scene.tokens) if token.end > at), 0)


def _read_in_turn(
    scene: Scene, entries: Sequence[Entry], driven: Sequence[int], stated: list[int]
) -> list[int]:
    """The tokens of the odometer readings, which then are where their entries are `stated`."""
    for number in driven:
        stated[number] = _token_of_reading(scene, entries[number], stated[number])
    return [stated[number] for number in driven]


def _token_of_reading(scene: Scene, entry: Entry, otherwise: int) -> int:
    """The token where an entry's odometer reading is told: 'got to pell 51,690, 22.3 gal'."""
    said = next((words for field, words in entry.words if field == "odometer"), None)
    if said is None:
        return otherwise
    at = _whole_at(scene.text, said, 0)
    return next((i for i, token in enumerate(scene.tokens) if token.end > at), otherwise)


OF_TRAILER = ("trailer", "coupler", "tyres")


def placed(scene: Scene, entries: Sequence[Entry]) -> tuple[Entry, ...]:
    """When, where and with what, said once for the whole message."""
    timed, places, rated = has_times(scene), read_places(scene), Rating in map(type, entries)
    if not (timed or places or rated or "name" in scene.by_class):
        return tuple(entries)  # most messages say nothing of the kind
    if timed and "missed_verb" in scene.by_class and dates_missed(scene):
        timed = False
    if timed and "ago" in scene.groups and dates_earlier(scene):
        timed = False
    when = read_when(scene) if timed else None
    parts = whens_by_part(scene) if timed else []
    place = places[0][1] if places else None
    truck = trailer = None
    if rated or "name" in scene.by_class:
        truck = _named(scene, "truck", rated=rated)
        trailer = _named(scene, "trailer", rated=rated)
    if rated and truck is None and trailer is None:
        truck, trailer = _headed(scene, entries)
    if not (timed or place or truck or trailer):
        return tuple(entries)
    clock = clock_told(scene) if len(entries) > 1 and not parts and timed else None
    lone, away = len(places) == 1, "on_the_way" in scene.groups
    driven = read_apart(entries) if len(entries) > 1 and (places or clock is not None) else []
    apart = bool(driven)
    several = bool(parts) or len(places) > 1 or apart
    stated = [_token_of(scene, entry) for entry in entries] if several else []
    spots = [(at, (at, name)) for at, name in places] if several else []
    readings = _read_in_turn(scene, entries, driven, stated) if apart else []
    for number, entry in enumerate(entries):
        own = moment_of(scene, parts, stated, stated[number]) if parts else None
        if (
            readings
            and clock is not None
            and is_of_another_hour(scene, clock, readings, stated[number])
        ):
            own = day_told(scene, when)  # another reading was taken at that hour
            if own is not None:
                _complete(entry, "at", own)
        elif own is not None or when is not None:
            _complete(entry, "at", own or when)
        if readings and lone and is_of_another(scene, places[0][0], readings, stated[number]):
            pass  # another reading was taken there
        elif readings and lone and is_done_elsewhere(scene, places[0][0], readings, stated[number]):
            pass  # 'dropped the camper 51,402, home 51,450'
        elif away and lone and _filled_on_the_way(scene, entry, places[0][0]):
            pass  # one came there afterwards
        elif place is not None and not isinstance(entry, (Rating, Check, Cargo)):
            spot, own_place = 0, place
            if stated:
                spot, own_place = of_own_part(scene, spots, stated, stated[number])
            if lone or not is_done_elsewhere(scene, spot, readings, stated[number]):
                _complete(entry, "place", own_place)
        if truck is not None and not (isinstance(entry, Rating) and entry.subject == "trailer"):
            _complete(entry, "truck", truck)
        towed = entry.subject in OF_TRAILER if isinstance(entry, Rating) else True
        towed = towed and not (isinstance(entry, Weighing) and entry.rig == "solo")
        towed = towed and not (
            isinstance(entry, Hitch) and _gives_way(scene, entry, entries[number:])
        )
        if trailer is not None and towed and not isinstance(entry, (Fill, Odometer)):
            _complete(entry, "trailer", trailer)
    if len(entries) > 1 and len(scene.figures) > 1 and (truck or trailer):
        for entry in wheels_of_both(entries):
            _complete(entry, *(("truck", None) if is_on_trailer(entry) else ("trailer", None)))
    return tuple(entries)


def _gives_way(scene: Scene, taken_off: Hitch, entries: Sequence[Entry]) -> bool:
    """'trailer off 51,390, camper on 51,391': it was not the one that is put on by its name."""
    if taken_off.action != "unhitched":
        return False
    starts = [token.start for _, token, key in scene.find("name") if key.startswith("trailer")]
    return any(
        isinstance(each, Hitch)
        and each.action == "hitched"
        and (each.trailer is not None or _hitched_at(scene, each) < min(starts, default=0))
        for each in entries
    )


def _filled_on_the_way(scene: Scene, entry: Entry, place: int) -> bool:
    """'unhitched at home, added 18.2 gal on the way': where one came is no place of the fill."""
    if not isinstance(entry, Fill):
        return False
    at = _token_of(scene, entry)
    start, end = scene.clause_of(at)
    return is_on_the_way(scene, at) and not start <= place < end


def _complete(entry: Entry, field: str, value: object) -> None:
    """Give an entry a field that was open, while nobody but the reader has it: a copy is dear."""
    object.__setattr__(entry, field, value)


def _headed(scene: Scene, entries: Sequence[Entry]) -> tuple[str | None, str | None]:
    """'Bess: gvwr 10,000': the truck or trailer that a name before its label's figures names."""
    rated = {each.subject for each in entries if isinstance(each, Rating)}
    name = heading_name(scene) if rated else None
    if name is None or scene.has("vehicle"):
        return None, None
    if "truck" in rated and "trailer" not in rated:
        return name, None
    return (None, name) if "trailer" in rated and "truck" not in rated else (None, None)


def _named(scene: Scene, vehicle: str, *, rated: bool) -> str | None:
    """The chat's truck or trailer that the message names, or a name that it gives a `rated` one."""
    names = set(scene.named(vehicle))
    if len(names) == 1:
        name = names.pop()
        of_kind = vehicle == "trailer" and name not in scene.context.trailers
        # 'fifth wheel Homestead gvwr 16,500': what is called by its kind may be given a name
        return (named_vehicle(scene, vehicle) if rated and of_kind else None) or name
    return named_vehicle(scene, vehicle) if rated and not names else None
