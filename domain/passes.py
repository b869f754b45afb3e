"""Passes over the scale, gathered into weighings.

This file decides how the rig stood at each pass, which passes belong together, which of
them counts, and the sums that follow from one pass alone. What follows from several is in
`weighing.py`; what was burned, filled or boarded between them in `carried.py`. Masses are
in kilograms, with the uncertainty of the scale that gave them.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, field, replace
from datetime import datetime, timedelta
from typing import Literal

from domain.entries import SIDES, SINGLE_AXLES, Hitch, Weighing
from domain.log import Log, Logged
from domain.uncertainty import Measured, Scale, division_of

Kind = Literal["hitched", "bars off", "solo", "trailer"]
"""How the rig stood: on the road, the same with the bars slack, the truck alone, the trailer
alone."""

ROAD: tuple[Kind, ...] = ("hitched", "bars off")
"""How the rig stood as it drives."""

TOGETHER = timedelta(hours=3)
"""Passes no further apart than this are one weighing; common practice, no source."""

A_YEAR = timedelta(days=365)
"""Axles that were weighed longer ago are of another rig; common practice, no source."""

SIDED = tuple(
    (axle, tuple(f"{axle}_{side}" for side in SIDES))
    for axle in ("steer", "drive", "trailer", *SINGLE_AXLES)
)
SUMS: tuple[tuple[str, tuple[str, ...]], ...] = (
    *SIDED,
    ("trailer", SINGLE_AXLES),
    ("trailer", SINGLE_AXLES[:2]),
    ("truck", ("steer", "drive")),
)
"""Each load that is the sum of others, whatever stands on the scale."""

WHOLE: Mapping[Kind, tuple[str, ...]] = {
    "hitched": ("truck", "trailer"),
    "bars off": ("truck", "trailer"),
    "solo": ("truck",),
    "trailer": ("trailer", "tongue"),
}
"""What makes up the gross, by how the rig stood."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Pass:
    """One pass over the scale, completed: every load that was read or follows from others."""

    kind: Kind
    at: datetime
    key: int = 0
    loads: Mapping[str, Measured]
    bars: Literal["on", "off"] | None = None
    aboard: int | None = None
    fuel_level: float | None = None
    place: str | None = None

    @property
    def order(self) -> tuple[datetime, int]:
        """Sorts passes, and other entries by their time and key, as they happened."""
        return self.at, self.key


@dataclass(frozen=True, slots=True, kw_only=True)
class Session:
    """Passes that belong together, the latest of each kind. At least one is there.

    `repeated` are the passes that the latest ones were made again for, by kind; `axles_at` is
    when the axles were weighed, where that was another time than the tongue (`with_axles`).
    """

    passes: Mapping[Kind, Pass]
    started: datetime
    ended: datetime
    trailer: str | None = None
    repeated: Mapping[Kind, Pass] = field(default_factory=dict)
    axles_at: datetime | None = None

    @property
    def road(self) -> Pass | None:
        """The rig as it would drive: hitched, with the bars on where there are any."""
        return self.passes.get("hitched") or self.passes.get("bars off")

    @property
    def standing(self) -> Pass:
        """The pass whose loads are the weighing's: on the road, else the truck or the trailer."""
        return self.road or self.passes.get("solo") or self.passes["trailer"]

    @property
    def slack(self) -> Pass | None:
        """The hitched pass from which the tongue weight follows: bars off where they are used."""
        return self.passes.get("bars off") or self.passes.get("hitched")


def kind_of(weighing: Weighing, hitched: bool) -> Kind:
    """How the rig stood: as said, as the loads show, else as the log has it (`hitched`)."""
    if weighing.rig == "solo" or weighing.rig == "trailer":
        return weighing.rig
    if weighing.bars == "off":
        return "bars off"
    if weighing.rig == "hitched" or weighing.bars == "on":
        return "hitched"
    roots = {position.split("_")[0] for position in weighing.loads}
    on_truck = roots & {"steer", "drive", "truck"}
    if (on_truck and "trailer" in roots) or (hitched and roots != {"tongue"}):
        return "hitched"
    return "solo" if on_truck or roots == {"gross"} else "trailer"


def sessions(log: Log, until: datetime | None = None) -> Iterator[Session]:
    """Every weighing in the log, or of what had been weighed by then, the latest first."""
    group: list[Logged[Weighing]] = []
    for each in reversed(log.upto(Weighing, until)):
        if group and not _together(each, group[-1]):
            yield _session(log, group)
            group = []
        group.append(each)
    if group:
        yield _session(log, group)


def latest_session(
    log: Log,
    trailer: str | None = None,
    since: datetime | None = None,
    until: datetime | None = None,
) -> Session | None:
    """The last weighing, of that trailer where one is named, between two moments where they are.

    None where there is none.
    """
    wanted = (trailer or "").casefold()
    for session in sessions(log, until):
        if since is not None and session.ended < since:
            return None
        if not wanted or (session.trailer or wanted).casefold() == wanted:
            return session
    return None


def session_of(log: Log, weighing: Logged[Weighing]) -> Session | None:
    """The weighing that one pass belongs to, with the passes texted before and after it."""
    for session in sessions(log):
        if session.started <= weighing.at <= session.ended:
            return session
    return None


def with_axles(log: Log, session: Session) -> Session:
    """A weighing of the tongue alone, beside the axles as they were last weighed on the road.

    A gauge is put under the coupler before every trip, the axles stand on a scale once a season.
    The truck alone is left out: the tongue that would follow from it is of that day.
    """
    if set(session.standing.loads) != {"tongue"}:
        return session
    before = sessions(log, session.started)
    earlier = next((each for each in before if _before(each, session)), None)
    if earlier is None:
        return session
    on_road = {kind: each for kind, each in earlier.passes.items() if kind in ROAD}
    return replace(
        session,
        passes={**on_road, **session.passes},
        trailer=session.trailer or earlier.trailer,
        axles_at=earlier.ended,
    )


def _before(earlier: Session, later: Session) -> bool:
    """Whether a weighing on the road was made of the same trailer, no more than a year before."""
    names = {each.trailer.casefold() for each in (earlier, later) if each.trailer}
    age = later.started - earlier.ended
    return earlier.road is not None and len(names) < 2 and timedelta() < age <= A_YEAR


def first_weighed(log: Log, weighing: Logged[Weighing], loads: Iterable[str]) -> set[str]:
    """Those of the loads (steer, drive, truck, trailer, gross) that no earlier pass gave.

    A pass with another trailer on says nothing of this one's load.
    """
    left = set(loads)
    trailer = _trailer_of(log, weighing)
    for each in reversed(log.upto(Weighing, weighing.at)):
        if left and (each.at, each.key) < (weighing.at, weighing.key):
            other = _trailer_of(log, each)
            of_another = trailer is not None and other is not None and trailer != other
            left -= _given_by(log, each) - ({"trailer"} if of_another else set())
    return left


def _trailer_of(log: Log, weighing: Logged[Weighing]) -> str | None:
    on = log.hitched_to(weighing.at)
    name = weighing.entry.trailer or (on.entry.trailer if on else None)
    return name.casefold() if name else None


def _given_by(log: Log, weighing: Logged[Weighing]) -> set[str]:
    """The loads that a pass gave, by name, wheels and single axles counting for their axle."""
    kind = kind_of(weighing.entry, log.hitched_to(weighing.at) is not None)
    given = {position.split("_")[0] for position in weighing.entry.loads}
    if "gross" in given and kind not in ROAD:
        given = given - {"gross"} | ({"truck"} if kind == "solo" else set())
    if {"steer", "drive"} <= given:
        given.add("truck")
    if kind in ROAD and {"truck", "trailer"} <= given:
        given.add("gross")
    return given


def completed(kind: Kind, loads: Mapping[str, Measured]) -> dict[str, Measured]:
    """The loads with every sum and difference that follows from them.

    A total that was read is kept beside its parts only where the parts don't give it, so
    that all figures hang together on the same readings.
    """
    known = dict(loads)
    sums = (*SUMS, ("gross", WHOLE[kind]))
    for whole, parts in sums:
        if whole not in known or (whole in loads and _agree(loads[whole], parts, known)):
            _add(known, whole, parts)
    for whole, parts in reversed(sums):
        missing = [part for part in parts if part not in known]
        if whole in known and len(missing) == 1 and not parts[0].startswith("trailer_"):
            others = [known[part] for part in parts if part != missing[0]]
            known[missing[0]] = known[whole] - total(others) if others else known[whole]
    for whole, parts in sums:
        if whole not in known:
            _add(known, whole, parts)
    return known


def total(loads: Iterable[Measured]) -> Measured:
    """The sum of at least one load."""
    first, *rest = loads
    for each in rest:
        first = first + each
    return first


def _agree(read: Measured, parts: tuple[str, ...], known: Mapping[str, Measured]) -> bool:
    if not all(part in known for part in parts):
        return False
    return abs((read - total(known[part] for part in parts)).nominal_value) < 1e-6


def _add(known: dict[str, Measured], whole: str, parts: tuple[str, ...]) -> None:
    if all(part in known for part in parts):
        known[whole] = total(known[part] for part in parts)


def _together(earlier: Logged[Weighing], later: Logged[Weighing]) -> bool:
    names = {each.entry.trailer.casefold() for each in (earlier, later) if each.entry.trailer}
    return later.at - earlier.at <= TOGETHER and len(names) < 2


def _session(log: Log, newest_first: list[Logged[Weighing]]) -> Session:
    oldest_first = newest_first[::-1]
    groups: dict[Kind, list[Logged[Weighing]]] = {}
    repeated: dict[Kind, list[Logged[Weighing]]] = {}
    trailer: str | None = None
    for each in oldest_first:
        on = log.hitched_to(each.at)
        kind = kind_of(each.entry, on is not None or _still_hitched(log, each, groups))
        name = each.entry.trailer or (on.entry.trailer if on else None)
        if kind != "solo" and name is not None:
            if trailer is not None and name.casefold() != trailer.casefold():
                # Another trailer was put on: of the passes before only the truck's own count.
                groups, repeated = _solo(groups), _solo(repeated)
            trailer = name
        earlier = groups.get(kind, [])
        if any(_overlap(each.entry, other.entry) for other in earlier):
            repeated[kind], earlier = earlier, []
        groups[kind] = [*earlier, each]
    passes, before = _passes(groups, repeated)
    return Session(
        passes=passes,
        started=oldest_first[0].at,
        ended=oldest_first[-1].at,
        trailer=trailer,
        repeated=before,
    )


Groups = Mapping[Kind, list[Logged[Weighing]]]


def _still_hitched(log: Log, weighing: Logged[Weighing], groups: Groups) -> bool:
    """'steer 5,240' after a hitched pass: one axle again, as the rig stood if nothing was said.

    Who weighs the truck alone has both of its axles.
    """
    passed = groups.get("hitched")
    roots = {position.split("_")[0] for position in weighing.entry.loads}
    if not passed or roots not in ({"steer"}, {"drive"}):
        return False
    moved = log.upto(Hitch, weighing.at)
    return not moved or moved[-1].at <= passed[-1].at


def _solo(groups: Groups) -> dict[Kind, list[Logged[Weighing]]]:
    return {kind: group for kind, group in groups.items() if kind == "solo"}


def _passes(*several: Groups) -> list[dict[Kind, Pass]]:
    """The passes of each, all over the same scales."""
    entries = [each.entry for groups in several for group in groups.values() for each in group]
    places = {each.place.casefold() for each in entries if each.place}
    division = division_of(load for each in entries for load in each.loads.values())
    scales: dict[str, Scale] = {}

    def read(each: Weighing) -> Iterator[tuple[str, Measured]]:
        # An unnamed scale is the same one, unless two were named.
        place = (each.place or "").casefold() if len(places) > 1 else ""
        scale = scales.setdefault(place, Scale(division))
        for position, load in each.loads.items():
            yield position, scale.reading(position.split("_")[0], load.amount("kg"))

    return [
        {
            kind: Pass(
                kind=kind,
                at=group[-1].at,
                key=group[-1].key,
                loads=completed(kind, dict(pair for each in group for pair in read(each.entry))),
                bars=_bars(group, used="bars off" in groups),
                aboard=next((e.entry.aboard for e in group if e.entry.aboard is not None), None),
                fuel_level=next(
                    (e.entry.fuel_level for e in group if e.entry.fuel_level is not None), None
                ),
                place=next((each.entry.place for each in group if each.entry.place), None),
            )
            for kind, group in groups.items()
        }
        for groups in several
    ]


def _bars(group: Sequence[Logged[Weighing]], *, used: bool) -> Literal["on", "off"] | None:
    """As said; on, where nothing was said and another pass was made with them off."""
    said = next((each.entry.bars for each in group if each.entry.bars), None)
    return said or ("on" if used else None)


def _overlap(one: Weighing, other: Weighing) -> bool:
    """Whether two readings cover the same axle, so that the later is a pass of its own."""
    return any(
        a == b or a.startswith(f"{b}_") or b.startswith(f"{a}_")
        for a in one.loads
        for b in other.loads
    )
