"""What a message says of one of the things that it states, and not of the others.

'Fuelled at Elm Creek 31.2 gal, weighed at Dry Fork steer 5,140 ...' names two places. This file
decides which of several places or moments an entry takes: the one of its own clause, else of what
is told up to 'then', else of its sentence, else the last that was said before it.
"""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date, datetime
from typing import TypeVar

from domain.entries import Entry, Fill, Odometer
from domain.reading.scene import Scene

Said = TypeVar("Said")


def of_own_part(
    scene: Scene, said: Sequence[tuple[int, Said]], stated: Sequence[int], at: int
) -> Said:
    """Which of what was `said` holds for what is stated at a token; `said` is not empty.

    `stated` are the tokens where anything is stated, and `said` has its own, both in order.
    """
    clause, stretch = scene.clause_of(at), _until_then(scene, at)
    narrow = max(clause[0], stretch[0]), min(clause[1], stretch[1])
    for start, end in (narrow, stretch, scene.sentence_of(at)):
        within = [each for each in said if start <= each[0] < end]
        if within:
            first = min([index for index in stated if start <= index < end], default=at)
            return _nearest(within, at, follows=first < within[0][0])
    return _nearest(said, at, follows=stated[0] < said[0][0])


def read_apart(entries: Sequence[Entry]) -> list[int]:
    """Which entries have an odometer reading, where those of several are miles apart; else none.

    A fill is where the truck was at its reading: '31.2 gal 51,402, home 51,733'.
    """
    read = [
        (number, entry.odometer.value)
        for number, entry in enumerate(entries)
        if isinstance(entry, (Odometer, Fill)) and entry.odometer is not None
    ]
    values = [value for _, value in read]
    if len(read) >= FEWEST and max(values) - min(values) >= APART:
        return [number for number, _ in read]
    return _filled_before(entries) if len(entries) > FEWEST else []


def _filled_before(entries: Sequence[Entry]) -> list[int]:
    """'24.1 gal 93.99, 19.4 gal 75.66, home 51,544': nobody fills up twice in one place."""
    fuelled = [
        number
        for number, entry in enumerate(entries)
        if isinstance(entry, Fill) and entry.product != "def"
    ]
    came = [
        number
        for number, entry in enumerate(entries)
        if isinstance(entry, Odometer) and entry.event == "arrive"
    ]
    return sorted([*fuelled, *came]) if came and len(fuelled) >= FEWEST else []


FEWEST = 2
APART = 5
"""Miles or kilometres: readings that are nearer may be of one place."""


def is_of_another(scene: Scene, place: int, readings: Sequence[int], at: int) -> bool:
    """Whether a place is where another odometer reading was taken: it stands nearest to it.

    'left 51,300, got to the lake 51,410': a truck is at one place only at each reading.
    """
    start, end = scene.clause_of(place)
    here = [index for index in readings if start <= index < end]
    if at not in readings or not here:
        return False
    return at != min(here, key=lambda index: (abs(index - place), index < place))


def is_done_elsewhere(scene: Scene, place: int, readings: Sequence[int], at: int) -> bool:
    """Whether a thing was done at a reading of its own clause, and the place is at another's."""
    start, end = scene.clause_of(at)
    first, last = scene.clause_of(place)
    apart = (start, end) != (first, last) and any(first <= each < last for each in readings)
    return apart and any(start <= each < end for each in readings)


def is_of_another_hour(scene: Scene, clock: int, readings: Sequence[int], at: int) -> bool:
    """Whether a clock time is that of another reading: 'left at 6:10, 51,300, arrived 51,410'."""
    if at not in readings:
        return False
    start, end = scene.clause_of(clock)
    here = [index for index in readings if start <= index < end] or readings
    return at != min(here, key=lambda index: (abs(index - clock), index < clock))


def moment_of(
    scene: Scene, parts: Sequence[tuple[int, datetime | date]], stated: Sequence[int], at: int
) -> datetime | date | None:
    """The moment that the sentence tells in which a thing is stated at a token, if it tells any."""
    start, end = scene.sentence_of(at)
    told = [part for part in parts if start <= part[0] < end]
    return of_own_part(scene, told, stated, at) if told else None


def _nearest(said: Sequence[tuple[int, Said]], at: int, *, follows: bool) -> Said:
    """The next one behind a token where each follows what it is of, else the last one before."""
    before = [what for index, what in said if index <= at]
    behind = [what for index, what in said if index > at]
    if follows:
        return behind[0] if behind else before[-1]
    return before[-1] if before else behind[0]


def _until_then(scene: Scene, at: int) -> tuple[int, int]:
    """The stretch of a sentence around a token that 'then' parts from the others."""
    start, end = scene.sentence_of(at)
    parting = [index for index in range(start, end) if "then" in scene.tokens[index].groups]
    opens = max((index for index in parting if index <= at), default=start)
    return opens, min((index for index in parting if index > at), default=end)
