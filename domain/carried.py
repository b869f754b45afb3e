"""What the truck carried at each pass: fuel and people, and the difference between passes.

This file decides how far two passes can be compared. Fuel bought and burnt between them
follows from the log, else from the levels that were stated; people from how many were
aboard. Every pass is then brought to what the truck carried on the road. It knows no
rating, and does not judge whether a correction is worth a mention. Masses are in kilograms.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from datetime import timedelta
from functools import cached_property

from domain.entries import Fill, Odometer
from domain.fuel import chain, is_fuel, is_full, truck_fuel
from domain.log import Log, Logged
from domain.modes import modes
from domain.money import fill_volume
from domain.odometer import Track, track
from domain.passes import Kind, Pass, Session
from domain.rig import Rig
from domain.uncertainty import Measured, evenly, exact, measured

PERSON = 68.0
"""A person, in kg: 150 lb (49 CFR 571.110, as owners' manuals restate it)."""

PERSON_SPREAD = 16.0
"""Standard deviation of one person's weight, in kg; common practice, no source."""

STEER_SHARE = (0.5, 0.2)
"""Share of fuel and people on the steer axle, and its standard deviation; no source."""

NEEDLE = 1 / 16
"""How far a stated level may be from the true one, in tanks; common practice, no source."""

PUMP = 0.005
"""How far a dispenser may be out: 0.5 % (HB 44 3.30 Table T.2, maintenance, from memory)."""

USUAL_RATE = (0.25, 0.08)
"""Litres a kilometre, and its standard deviation, before the log knows; no source."""

A_DAY = timedelta(days=1)
RECENT = timedelta(days=30)
"""How far back a tank is looked for that tells what the truck burns."""

Densities = Mapping[str, Measured]
"""Kilograms a litre by product."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Change:
    """What the truck carries on the road more than it did at a pass, in kg."""

    at: Kind
    fuel: Measured
    people: Measured

    @property
    def total(self) -> Measured:
        """Fuel and people together."""
        return self.fuel + self.people


def corrected(
    log: Log, session: Session, rig: Rig, densities: Densities
) -> tuple[Session, tuple[Change, ...]]:
    """The session with every pass brought to what the truck carried on the road, and by how much.

    A pass that needs no correction is left as it was, and gives no change.
    """
    road = session.road
    if road is None:
        return session, ()
    if len(session.passes) == 1:
        return session, ()
    share = measured(*STEER_SHARE)
    books = _Books(_recent(log, session), rig, densities)
    passes: dict[Kind, Pass] = {}
    changes: list[Change] = []
    for kind, each in session.passes.items():
        passes[kind] = each
        if each is road or kind == "trailer":
            continue
        change = Change(at=kind, fuel=books.fuel(each, road), people=_people(each, road))
        if change.total.nominal_value or change.total.std_dev:
            changes.append(change)
            passes[kind] = replace(each, loads=_with(each.loads, change.total, share))
    return replace(session, passes=passes), tuple(changes)


def _recent(log: Log, session: Session) -> Log:
    """What can bear on the fuel between passes: the weeks before, and facts that stand."""
    return log.lately(session.started - RECENT)


def _with(loads: Mapping[str, Measured], more: Measured, share: Measured) -> dict[str, Measured]:
    added = {"steer": more * share, "drive": more * (1 - share), "truck": more, "gross": more}
    return {name: load + added[name] if name in added else load for name, load in loads.items()}


def _people(then: Pass, road: Pass) -> Measured:
    if then.aboard is None or road.aboard is None or then.aboard == road.aboard:
        return exact(0.0)
    more = road.aboard - then.aboard
    return measured(more * PERSON, PERSON_SPREAD * abs(more) ** 0.5)


class _Books:
    """The log's fuel, looked up once for all passes of a session."""

    def __init__(self, log: Log, rig: Rig, densities: Densities) -> None:
        self._log = log
        self._densities = densities
        self._burns = rig.fuel or truck_fuel(log)
        tank = rig.quantity("truck", "tank")
        self._tank = tank.amount("L") if tank else None

    def fuel(self, then: Pass, road: Pass) -> Measured:
        """Fuel on the road less fuel at the pass, in kg."""
        first, second = sorted((then, road), key=lambda each: each.order)
        gained = self._gained(first, second)
        return gained if second is road else -gained

    def _gained(self, first: Pass, second: Pass) -> Measured:
        fills = self._fills(first, second)
        bought = [fill_volume(each.entry) for each in fills]
        if None in bought or not fills:
            levels = self._level(first), self._level(second)
            if levels[0] is not None and levels[1] is not None and self._tank:
                return (levels[1] - levels[0]) * self._tank * self._density(self._burns)
        pumped = exact(0.0)
        for each, volume in zip(fills, bought, strict=True):
            if volume is not None:
                litres = volume.amount("L")
                product = each.entry.product or self._burns
                pumped = pumped + measured(litres, evenly(PUMP * litres)) * self._density(product)
        density = self._density(self._burns)
        gained = pumped - self._burnt(first, second) * density
        if self._tank and abs(gained.nominal_value) > self._tank * density.nominal_value:
            # More than a tank holds: fuel that nobody logged was bought; any level is as likely.
            return measured(0.0, evenly(self._tank)) * density
        return gained

    def _fills(self, first: Pass, second: Pass) -> Sequence[Logged[Fill]]:
        between = (first.order, second.order)
        return [
            each for each in self._log.of(Fill) if between[0] < (each.at, each.key) < between[1]
        ]

    def _level(self, at: Pass) -> Measured | None:
        """How full the tank was, in tanks: as stated, else full where it was just filled."""
        if at.fuel_level is not None:
            return measured(at.fuel_level, evenly(NEEDLE))
        before = [
            each
            for each in self._log.of(Fill)
            if is_fuel(each.entry) and (each.at, each.key) < at.order
        ]
        if not before or not is_full(before[-1].entry) or not self._tank:
            return None
        way = self._way
        here, filled = way.before(at.at), way.before(before[-1].at)
        km = here.km - filled.km if here and filled else 0.0
        return 1 - km * self._rate / self._tank

    def _burnt(self, first: Pass, second: Pass) -> Measured:
        """Litres burnt between two passes; none where no reading shows that it drove."""
        if not self._read_between(first, second):
            return exact(0.0)
        way = self._way
        start, end = way.before(first.at), way.before(second.at)
        if start is None or end is None or end.km <= start.km:
            return exact(0.0)
        return (end.km - start.km) * self._rate

    def _read_between(self, first: Pass, second: Pass) -> bool:
        """Whether any reading may lie between two passes, one that names only its day included.

        Looked at first, because most passes follow each other on the spot, and laying out the
        road takes longer than all else here.
        """
        fills = (each for each in self._log.of(Fill) if each.entry.odometer or each.entry.distance)
        start, end = first.at - A_DAY, second.at + A_DAY
        return any(start <= each.at <= end for each in (*self._log.of(Odometer), *fills))

    @cached_property
    def _rate(self) -> Measured:
        """Litres a kilometre: the last tank's, taken to be no better known than a tenth."""
        tanks = chain(self._log, self._way, modes(self._log, self._way)).tanks
        if not tanks:
            return measured(*USUAL_RATE)
        return measured(tanks[-1].rate.rate, max(tanks[-1].rate.sd, 0.1 * tanks[-1].rate.rate))

    @cached_property
    def _way(self) -> Track:
        return track(self._log)

    def _density(self, product: str | None) -> Measured:
        if product is not None and product in self._densities:
            return self._densities[product]
        fuels = [self._densities[name] for name in ("gasoline", "diesel")]
        low, high = (each.nominal_value for each in fuels)
        return measured((low + high) / 2, evenly((high - low) / 2) + fuels[0].std_dev)
