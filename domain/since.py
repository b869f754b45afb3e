"""What changed since the weighing before: each load now less what it was.

This file decides which earlier pass a pass is held against: the same trailer, standing the
same way, earlier in the same weighing or in the last one before it. It knows no rating, and
does not say why a load changed. Masses are in kilograms.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace
from itertools import dropwhile

from domain.carried import Densities
from domain.log import Log
from domain.naming import names_in
from domain.passes import Kind, Pass, Session, sessions
from domain.rig import Rig
from domain.uncertainty import Measured
from domain.weighing import Weights, weigh

COMPARED = ("steer", "drive", "trailer", "gross")
"""Loads that are held against those before, where both passes give them."""

TONGUE = "tongue"


@dataclass(frozen=True, slots=True, kw_only=True)
class Since:
    """A pass, the one before it, and what each load gained (kg, less than nothing if it lost).

    `changes` has the tongue too, where both weighings give it and come by it the same way.
    """

    now: Pass
    before: Pass
    changes: Mapping[str, Measured]


def since_before(
    log: Log, weights: Weights, kind: Kind, rig: Rig, densities: Densities
) -> Since | None:
    """What changed since the pass before of this kind; None where there was none.

    `weights` are those of the weighing that holds the pass. Passes of one weighing share
    their scale's error, those of two do not.
    """
    session = weights.session
    before = _before(log, session, kind)
    if before is None:
        return None
    now, then = session.passes[kind], before.passes[kind]
    changes = {
        name: now.loads[name] - then.loads[name]
        for name in COMPARED
        if name in now.loads and name in then.loads
    }
    tongue, earlier = weights.tongue, weigh(log, before, rig, densities)[0].tongue
    if tongue and earlier and (tongue.by, tongue.reads_low) == (earlier.by, earlier.reads_low):
        changes[TONGUE] = tongue.load - earlier.load
    return Since(now=now, before=then, changes=changes) if changes else None


def _before(log: Log, session: Session, kind: Kind) -> Session | None:
    """The weighing as it was before the pass, or the last one that has such a pass."""
    repeated = session.repeated.get(kind)
    if repeated is not None:
        return replace(session, passes={**session.passes, kind: repeated}, repeated={})
    of_before = dropwhile(lambda each: each.started >= session.started, sessions(log))
    only = len(names_in(log).trailers) < 2
    return next(
        (each for each in of_before if kind in each.passes and _same_trailer(each, session, only)),
        None,
    )


def _same_trailer(one: Session, other: Session, only: bool) -> bool:
    """Whether two weighings are of one trailer; a nameless one is the `only` one there is."""
    if only and (one.trailer is None or other.trailer is None):
        return True
    return (one.trailer or "").casefold() == (other.trailer or "").casefold()
