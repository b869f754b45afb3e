"""What the scale says: passes gathered into one weighing, and what follows from them.

This file decides which passes belong together, which of them counts, and the arithmetic
between them: sums, tongue weight, what the bars moved. It knows no rating and no limit.
What was burned, filled or boarded between passes is `carried.py`'s business. Masses are in
kilograms, with the uncertainty of the scale that gave them.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass
from datetime import datetime, timedelta
from itertools import pairwise
from typing import Literal

from domain.entries import SIDES, SINGLE_AXLES, Weighing
from domain.log import Log, Logged
from domain.uncertainty import Measured, Scale, division_of, spread

Kind = Literal["hitched", "bars off", "solo", "trailer"]
"""How the rig stood: on the road, the same with the bars slack, the truck alone, the trailer
alone."""

TOGETHER = timedelta(hours=3)
"""Passes no further apart than this are one weighing; common practice, no source."""


_SIDED = tuple(
    (axle, tuple(f"{axle}_{side}" for side in SIDES))
    for axle in ("steer", "drive", "trailer", *SINGLE_AXLES)
)
SUMS: tuple[tuple[str, tuple[str, ...]], ...] = (
    *_SIDED,
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


@dataclass(frozen=True, slots=True, kw_only=True)
class Session:
    """Passes that belong together, the latest of each kind. At least one is there."""

    passes: Mapping[Kind, Pass]
    started: datetime
    ended: datetime
    trailer: str | None = None

    @property
    def road(self) -> Pass | None:
        """The rig as it would drive: hitched, with the bars on where there are any."""
        return self.passes.get("hitched") or self.passes.get("bars off")

    @property
    def slack(self) -> Pass | None:
        """The hitched pass from which the tongue weight follows: bars off where they are used."""
        return self.passes.get("bars off") or self.passes.get("hitched")


@dataclass(frozen=True, slots=True, kw_only=True)
class Tongue:
    """Tongue or pin weight (kg) and how it was come by.

    `reads_low` where the bars were on, which moves part of it to the trailer's axles.
    """

    load: Measured
    by: Literal["difference", "tongue scale", "trailer alone"]
    reads_low: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class Bars:
    """What the bars did (kg): brought back to the steer axle, moved to the trailer's axles.

    `restored` is the share of the steer axle's loss that came back, 1 for all of it; None
    without a solo pass.
    """

    to_steer: Measured
    off_drive: Measured
    to_trailer: Measured
    restored: Measured | None


@dataclass(frozen=True, slots=True, kw_only=True)
class Weights:
    """Everything that one weighing gives; a figure is None where its passes don't exist.

    `loads` are those of the rig on the road (else of the truck or trailer by itself), by
    position. `on_hitch` is what the truck carries of the trailer, bars as they are on the
    road; `drift` is the change of gross between the two hitched passes where it is more
    than the scale explains.
    """

    session: Session
    loads: Mapping[str, Measured]
    tongue: Tongue | None = None
    on_hitch: Measured | None = None
    trailer: Measured | None = None
    bars: Bars | None = None
    drift: Measured | None = None

    @property
    def share(self) -> Measured | None:
        """Tongue weight over trailer weight."""
        if self.tongue is None or self.trailer is None:
            return None
        return self.tongue.load / self.trailer


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


def sessions(log: Log) -> Iterator[Session]:
    """Every weighing in the log, the latest first."""
    group: list[Logged[Weighing]] = []
    for each in reversed(log.of(Weighing)):
        if group and not _together(each, group[-1]):
            yield _session(log, group)
            group = []
        group.append(each)
    if group:
        yield _session(log, group)


def latest_session(log: Log, trailer: str | None = None) -> Session | None:
    """The last weighing, of that trailer where one is named; None where there is none."""
    wanted = (trailer or "").casefold()
    for session in sessions(log):
        if not wanted or (session.trailer or wanted).casefold() == wanted:
            return session
    return None


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
    for each in oldest_first:
        kind = kind_of(each.entry, log.hitched_to(each.at) is not None)
        earlier = groups.get(kind, [])
        if any(_overlap(each.entry, other.entry) for other in earlier):
            earlier = []
        groups[kind] = [*earlier, each]
    named = [each.entry.trailer for each in oldest_first if each.entry.trailer]
    on = next(filter(None, (log.hitched_to(each.at) for each in oldest_first)), None)
    return Session(
        passes=_passes(groups),
        started=oldest_first[0].at,
        ended=oldest_first[-1].at,
        trailer=named[-1] if named else (on.entry.trailer if on else None),
    )


def _passes(groups: Mapping[Kind, list[Logged[Weighing]]]) -> dict[Kind, Pass]:
    entries = [each.entry for group in groups.values() for each in group]
    places = {each.place.casefold() for each in entries if each.place}
    division = division_of(load for each in entries for load in each.loads.values())
    scales: dict[str, Scale] = {}
    passes: dict[Kind, Pass] = {}
    for kind, group in groups.items():
        loads: dict[str, Measured] = {}
        for each in group:
            # An unnamed scale is the same one, unless two were named.
            place = (each.entry.place or "").casefold() if len(places) > 1 else ""
            scale = scales.setdefault(place, Scale(division))
            for position, load in each.entry.loads.items():
                loads[position] = scale.reading(position.split("_")[0], load.amount("kg"))
        passes[kind] = Pass(
            kind=kind,
            at=group[-1].at,
            key=group[-1].key,
            loads=completed(kind, loads),
            bars=next((each.entry.bars for each in group if each.entry.bars), None),
            aboard=next((e.entry.aboard for e in group if e.entry.aboard is not None), None),
            fuel_level=next(
                (e.entry.fuel_level for e in group if e.entry.fuel_level is not None), None
            ),
            place=next((each.entry.place for each in group if each.entry.place), None),
        )
    return passes


def _overlap(one: Weighing, other: Weighing) -> bool:
    """Whether two readings cover the same axle, so that the later is a pass of its own."""
    return any(
        a == b or a.startswith(f"{b}_") or b.startswith(f"{a}_")
        for a in one.loads
        for b in other.loads
    )


def weights_of(session: Session) -> Weights:
    """What one weighing gives, its passes brought to the same fuel and people beforehand.

    Three-pass algebra: tongue = (F2 + R2) - (F3 + R3); restored = (F1 - F2) / (F3 - F2);
    moved = T1 - T2, with 1 bars on, 2 bars off, 3 truck alone.
    """
    road = session.road
    alone = session.passes.get("solo")
    standing = road or alone or session.passes["trailer"]
    tongue = _tongue(session)
    bars, drift = _bars(session)
    return Weights(
        session=session,
        loads=standing.loads,
        tongue=tongue,
        on_hitch=_over_solo(road, alone),
        trailer=_trailer(session, tongue),
        bars=bars,
        drift=drift,
    )


def _over_solo(hitched: Pass | None, alone: Pass | None) -> Measured | None:
    if hitched is None or alone is None:
        return None
    if "truck" not in hitched.loads or "truck" not in alone.loads:
        return None
    return hitched.loads["truck"] - alone.loads["truck"]


def _tongue(session: Session) -> Tongue | None:
    slack = session.slack
    difference = _over_solo(slack, session.passes.get("solo"))
    low = slack is not None and slack.bars == "on"
    if difference is not None and not low:
        return Tongue(load=difference, by="difference")
    for each in session.passes.values():
        if "tongue" in each.loads:
            return Tongue(load=each.loads["tongue"], by="tongue scale")
    trailer_alone = session.passes.get("trailer")
    whole = trailer_alone.loads.get("gross") if trailer_alone else None
    if slack and whole is not None and not low and "trailer" in slack.loads:
        return Tongue(load=whole - slack.loads["trailer"], by="trailer alone")
    if difference is not None:
        return Tongue(load=difference, by="difference", reads_low=True)
    return None


def _trailer(session: Session, tongue: Tongue | None) -> Measured | None:
    """The whole trailer: gross less the truck alone, else axles and tongue, else by itself."""
    slack, alone = session.slack, session.passes.get("solo")
    if slack and alone and "gross" in slack.loads and "truck" in alone.loads:
        return slack.loads["gross"] - alone.loads["truck"]
    if slack and tongue and "trailer" in slack.loads:
        return slack.loads["trailer"] + tongue.load
    trailer_alone = session.passes.get("trailer")
    return trailer_alone.loads.get("gross") if trailer_alone else None


def _bars(session: Session) -> tuple[Bars | None, Measured | None]:
    on, off = session.passes.get("hitched"), session.passes.get("bars off")
    needed = ("steer", "drive", "trailer")
    if on is None or off is None:
        return None, None
    if not all(position in each.loads for each in (on, off) for position in needed):
        return None, None
    drift = total(on.loads[each] for each in needed) - total(off.loads[each] for each in needed)
    if abs(drift.nominal_value) > spread(drift):
        return None, drift
    to_steer = on.loads["steer"] - off.loads["steer"]
    return (
        Bars(
            to_steer=to_steer,
            off_drive=off.loads["drive"] - on.loads["drive"],
            to_trailer=on.loads["trailer"] - off.loads["trailer"],
            restored=_restored(to_steer, off, session.passes.get("solo")),
        ),
        None,
    )


def _restored(to_steer: Measured, off: Pass, alone: Pass | None) -> Measured | None:
    if alone is None or "steer" not in alone.loads:
        return None
    lost = alone.loads["steer"] - off.loads["steer"]
    return to_steer / lost if lost.nominal_value > spread(lost) else None


@dataclass(frozen=True, slots=True)
class Imbalance:
    """Two places that ought to carry alike: the heavier, the lighter, by how much (kg, share).

    The share is of what both carry together.
    """

    heavy: str
    light: str
    by: Measured
    share: float


def imbalances(weights: Weights) -> tuple[Imbalance, ...]:
    """Side to side on every axle that was weighed wheel by wheel, and trailer axle to axle."""
    sides = [parts for _, parts in _SIDED]
    axles = list(pairwise(SINGLE_AXLES))
    return tuple(
        _imbalance(weights.loads, *pair)
        for pair in (*sides, *axles)
        if all(each in weights.loads for each in pair)
    )


def _imbalance(loads: Mapping[str, Measured], one: str, other: str) -> Imbalance:
    heavy, light = sorted((one, other), key=lambda name: -loads[name].nominal_value)
    by, both = loads[heavy] - loads[light], loads[heavy] + loads[light]
    return Imbalance(heavy, light, by, by.nominal_value / both.nominal_value)
