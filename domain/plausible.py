"""Whether a weighing can be right, given the rig that it is said to be of.

This file decides when a load is so far from its rating that it is asked about before it is
kept: read in another unit, steer and drive swapped, or simply not to be believed. An
overload that happens is not asked about. What a message alone shows to be wrong is decided
where it is read. Masses are in kilograms.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, replace

from domain.bounds import RULES
from domain.choices import ChoiceLabel
from domain.entries import Entry, Weighing
from domain.quantities import MASSES, Quantity
from domain.rig import Rig
from domain.verdicts import Ask, Choice

FAR = 1.5
"""A load above its rating by this factor is asked about; nobody loads an axle so."""

SWAPPED = 1.2
"""A steer axle above its rating by this factor may be the drive axle's figure."""

FITS = 1.05
LIGHTEST = 0.3
"""Another reading fits where every load is between these shares of its rating."""

FAR_OVER = "far_over"

OTHER_READINGS: Mapping[str, tuple[float, str]] = {
    "t": (1000.0, "lb"),
    "kg": (1.0, "lb"),
    "lb": (1.0, "kg"),
}
"""What a figure may have meant by its unit: thousands of pounds for tonnes, pounds for kg."""


@dataclass(frozen=True, slots=True)
class _Finding:
    """A load that can't be right: where, why, the figures in doubt, and another reading."""

    position: str
    why: str
    figures: tuple[Quantity, ...]
    instead: Weighing | None = None


Check = Callable[[Weighing, Mapping[str, float]], _Finding | None]


def doubt_of(entries: Sequence[Entry], rig: Rig) -> Ask | None:
    """The question that a message's weighings raise, with complete readings to choose from."""
    bounds = _bounds(rig)
    for index, entry in enumerate(entries):
        if not isinstance(entry, Weighing):
            continue
        for check in CHECKS:
            found = check(entry, bounds)
            if found is not None:
                return _ask(found, entries, index)
    return None


def _ask(found: _Finding, entries: Sequence[Entry], index: int) -> Ask:
    choices = [Choice(ChoiceLabel("as_texted"), tuple(entries))]
    if found.instead is not None:
        instead = (*entries[:index], found.instead, *entries[index + 1 :])
        choices.insert(0, Choice(ChoiceLabel("loads", loads=found.instead.loads), instead))
    return Ask(found.position, tuple(choices), found.why, found.figures)


def _bounds(rig: Rig) -> dict[str, float]:
    """What each position may carry (kg), as far as it was told."""
    gawr, gvwr = rig.mass("trailer", "gawr"), rig.mass("trailer", "gvwr")
    told = {rule.bounds: rig.mass(rule.subject, rule.rating) for rule in RULES}
    told["trailer"] = gawr * rig.axles if gawr and rig.axles else told["trailer"] or gvwr
    return {name: bound for name, bound in told.items() if bound}


def _shares(loads: Mapping[str, Quantity], bounds: Mapping[str, float]) -> dict[str, float]:
    """Each load over what its position may carry."""
    return {
        name: load.amount("kg") / bounds[name]
        for name, load in loads.items()
        if name in bounds and load.unit in MASSES
    }


def _fits(loads: Mapping[str, Quantity], bounds: Mapping[str, float]) -> bool:
    return all(LIGHTEST <= share <= FITS for share in _shares(loads, bounds).values())


def _worst(
    weighing: Weighing, bounds: Mapping[str, float], factor: float
) -> tuple[str, Quantity, Quantity] | None:
    """The load that is furthest above its rating by more than a factor, and that rating."""
    shares = _shares(weighing.loads, bounds)
    name = max(shares, key=lambda each: shares[each], default=None)
    if name is None or shares[name] <= factor:
        return None
    load = weighing.loads[name]
    unit = "lb" if load.unit in ("lb", "ton") else "kg"
    return name, load, Quantity(round(Quantity(bounds[name], "kg").amount(unit)), unit)


def _other_unit(weighing: Weighing, bounds: Mapping[str, float]) -> _Finding | None:
    worst = _worst(weighing, bounds, FAR)
    if worst is None or any(load.unit not in OTHER_READINGS for load in weighing.loads.values()):
        return None
    loads = {name: _in_other_unit(load) for name, load in weighing.loads.items()}
    if not _fits(loads, bounds):
        return None
    name, load, bound = worst
    return _Finding(name, FAR_OVER, (load, bound), replace(weighing, loads=loads))


def _in_other_unit(load: Quantity) -> Quantity:
    factor, unit = OTHER_READINGS[load.unit]
    return Quantity(round(load.value * factor, 6), unit)


def _swapped(weighing: Weighing, bounds: Mapping[str, float]) -> _Finding | None:
    loads = dict(weighing.loads)
    if not {"steer", "drive"} <= loads.keys() & bounds.keys():
        return None
    if _shares(loads, bounds)["steer"] <= SWAPPED:
        return None
    steer, drive = loads["steer"], loads["drive"]
    loads["steer"], loads["drive"] = drive, steer
    if not _fits({"steer": drive, "drive": steer}, bounds):
        return None
    return _Finding("steer", "swapped", (steer, drive), replace(weighing, loads=loads))


def _far_over(weighing: Weighing, bounds: Mapping[str, float]) -> _Finding | None:
    worst = _worst(weighing, bounds, FAR)
    return None if worst is None else _Finding(worst[0], FAR_OVER, worst[1:])


CHECKS: tuple[Check, ...] = (_other_unit, _swapped, _far_over)
"""Each looks at one weighing against the rig; the first that finds something is asked about."""
