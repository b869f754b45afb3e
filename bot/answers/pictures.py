"""Pictures as values, before any of them is drawn.

This file decides what each picture tells: words and figures already written as a person reads
them, in their language, and beside them the numbers that place a mark. `alt` says the same in
words. A picture is equal to another that would
look the same, and goes through plain data and back, so that it can wait with its answer. How
it is worked out is decided in `scale_pictures.py` and `road_pictures.py`, how it looks in
`bot/pictures`, how it is said in words in `alt_text.py`.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import asdict, dataclass, is_dataclass
from types import UnionType
from typing import Any, Literal, get_args, get_origin, get_type_hints

State = Literal["inside", "near", "over", "unrated"]
"""How a load stands to its limit; `unrated` where no limit was given for it."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Bar:
    """A load under its limit: `used` and `doubt` are shares of the limit, 1.0 being all of it.

    `name` is of the load or of the limit, whichever the picture lists. `against` is the limit as
    it stands beside the load, `of 5,600 lb GAWR`, and `left` what remains, `320 lb over`,
    `500 lb left`, or that no rating was given.
    """

    name: str
    load: str
    left: str
    against: str = ""
    state: State = "unrated"
    used: float = 0.0
    doubt: float = 0.0


@dataclass(frozen=True, slots=True, kw_only=True)
class RigPicture:
    """The rig at the scale, from the side: each axle's load, the tongue's, and the sums.

    `pin` says that the trailer rests over the truck's rear axle, on a fifth wheel or gooseneck.
    `steer`, `drive` and `tongue` are None where they were not weighed; `trailer` has a bar for
    each axle that was weighed by itself, else one for all `axles` together, and is empty where
    no trailer was behind.
    """

    title: str
    verdict: str
    when: str
    truck: str
    trailer_name: str
    pin: bool
    axles: int
    steer: Bar | None
    drive: Bar | None
    tongue: Bar | None
    trailer: tuple[Bar, ...]
    sums: tuple[Bar, ...]
    caution: str
    alt: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class MarginsPicture:
    """What is left of each limit, the tightest first; `notes` name what can't be shown.

    `inside`, `outside` and `line` are what the sides of the rating, and the rating, are called.
    """

    title: str
    verdict: str
    when: str
    bars: tuple[Bar, ...]
    inside: str
    outside: str
    line: str
    notes: tuple[str, ...]
    caution: str
    alt: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Point:
    """One tank: `at` is where in the picture's days it was closed, 0.0 to 1.0.

    `value` and the ends of its 90 % interval are in the picture's unit.
    """

    at: float
    value: float
    low: float
    high: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Series:
    """One way of driving: its figure over all its tanks, the interval of that, each tank.

    `figure` is empty, and `value`, `low` and `high` are 0.0, of tanks that mix several ways.
    """

    name: str
    figure: str
    grounds: str
    value: float
    low: float
    high: float
    points: tuple[Point, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Tick:
    """A day that is written below the picture: where it is, 0.0 to 1.0, and its words."""

    at: float
    label: str


@dataclass(frozen=True, slots=True, kw_only=True)
class EconomyPicture:
    """Economy over time, a series a trailer; `unit` says too which way is the better one."""

    title: str
    headline: str
    days: str
    unit: str
    series: tuple[Series, ...]
    ticks: tuple[Tick, ...]
    notes: tuple[str, ...]
    alt: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Part:
    """A part of a whole: its name, its figure, and its share, 0.0 to 1.0."""

    name: str
    figure: str
    share: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Fact:
    """A figure with its name and a remark."""

    name: str
    figure: str
    remark: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Section:
    """A part of a card: facts in rows, then a bar, then lines of text, whichever there are."""

    title: str
    facts: tuple[Fact, ...] = ()
    bar: Bar | None = None
    lines: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class WeekPicture:
    """A week on one card; `total` is how far, whose `parts` are what was towed and what not.

    `verdict` is empty unless something was over when it was last weighed.
    """

    title: str
    verdict: str
    days: str
    total: str
    parts: tuple[Part, ...]
    sections: tuple[Section, ...]
    caution: str
    alt: str = ""


Picture = RigPicture | MarginsPicture | EconomyPicture | WeekPicture

KINDS: Mapping[str, type[Picture]] = {
    "rig": RigPicture,
    "margins": MarginsPicture,
    "economy": EconomyPicture,
    "week": WeekPicture,
}
"""What each picture goes by in plain data."""


def picture_to_record(picture: Picture) -> dict[str, Any]:
    """A picture as plain data."""
    name = next(name for name, kind in KINDS.items() if isinstance(picture, kind))
    return {"kind": name, **asdict(picture)}


def picture_from_record(record: Mapping[str, Any]) -> Picture:
    """The picture that plain data describes; raises KeyError for a kind that is none."""
    picture: Picture = _built(KINDS[record["kind"]], record)
    return picture


def _built(kind: Any, data: Any) -> Any:
    """Plain data as what the type says that it is."""
    if isinstance(kind, type) and is_dataclass(kind):
        hints = get_type_hints(kind)
        return kind(**{name: _built(hint, data[name]) for name, hint in hints.items()})
    if get_origin(kind) is tuple:
        return tuple(_built(get_args(kind)[0], each) for each in data)
    if get_origin(kind) is UnionType:
        return None if data is None else _built(get_args(kind)[0], data)
    return data
