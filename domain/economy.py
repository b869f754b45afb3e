"""What each trailer costs in fuel, told apart from tanks that mix them.

This file decides how sure an economy figure is. Each tank is one equation: litres burnt
are the kilometres in each mode times that mode's litres a kilometre, plus what the pump's
click-off and the road added. The rates are the generalised least-squares solution with
none below zero. It does not know how tanks were cut out of the log (`fuel.py`).

Two errors are kept apart. The click-off at a full tank that two tanks share makes one too
large and the other too small by the same amount, so neighbours are correlated by minus a
half. The road (wind, grades, load, idling) makes every stretch thirstier or thriftier than
its mode's mean, and averages out over distance; how much is learned from the tanks
themselves, by restricted likelihood over a range of scatters, with a usual scatter assumed
until there are tanks enough to say otherwise.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field, replace
from datetime import timedelta
from math import hypot, sqrt
from typing import TYPE_CHECKING

from domain.fuel import CLICK_OFF_LITRES, NINETY, READING_KM, Rate, Tank, pooled
from domain.modes import towing
from domain.quantities import economy_to

if TYPE_CHECKING:
    import numpy as np
    from numpy.typing import NDArray

    Array = NDArray[np.float64]

STRETCH_KM = 100.0
"""Over so much road, wind and grades are taken as one; the next stretch has its own."""

USUAL_SCATTER = 0.10
"""How far a stretch lies from its mode's mean, as a share (common practice, no source).

It leaves tanks of 300 miles about 5 % apart.
"""

SCATTERS = tuple(each / 100 for each in (0, 1, 2, 3, 4, 6, 8, 10, 12, 14, 17, 20, 25, 30, 40, 50))

RECENT = timedelta(days=400)
"""Economy speaks of the last year or so: tyres, loads and the truck itself change."""

MOST_TANKS = 120
"""The newest so many tanks speak for the rig as it is now."""

TOO_WIDE = 0.25
"""An interval wider than this share of the figure, to either side, is no figure."""

FAINT = 1e-9
"""Combinations of modes that the tanks tell less of than this (relative) they tell nothing of."""

BOOKKEEPING = 0.004
"""Standard deviation that no number of tanks removes: a trailer dropped a mile before it was
texted, a splash that nobody logged (common practice, no source)."""

MISFIT = 4.0
"""A tank so many standard deviations from what the others say lacks a fill or a figure is wrong."""

LEAST_MISFIT = 0.15
"""A tank nearer than this share of its fuel is never set aside."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Estimates:
    """Rates by mode, how far a stretch of road scatters about them, and what could not be told.

    `unclear` are modes that were driven, but in too few tanks or always with another;
    `set_aside` are tanks that contradict the rest.
    """

    rates: Mapping[str, Rate] = field(default_factory=dict)
    unclear: tuple[str, ...] = ()
    scatter: float = USUAL_SCATTER
    set_aside: tuple[Tank, ...] = ()

    def ahead(self, mode: str, km: float) -> Rate | None:
        """What so much driving still to come will take: the mode's rate, with the road added."""
        known = self.rates.get(mode)
        if known is None:
            return None
        road = self.scatter * known.rate * sqrt(STRETCH_KM / max(km, STRETCH_KM))
        return replace(known, sd=hypot(known.sd, road))


def estimate(tanks: Sequence[Tank]) -> Estimates:
    """Each mode's rate from the newest tanks, those that contradict the rest set aside.

    A tank is judged by a fit that it had no part in, so that it cannot excuse itself.
    """
    used = [tank for tank in tanks if tank.split][-MOST_TANKS:]
    aside: list[Tank] = []
    fitted = _fit(used)
    while len(used) > len(fitted.means) + 2:
        worst = max(used, key=lambda tank: _misfit(tank, fitted))
        if not _misfit(worst, fitted):
            break
        others = [tank for tank in used if tank is not worst]
        without = _fit(others)
        if len(without.means) < len(fitted.means) or _misfit(worst, without) <= MISFIT:
            break
        used, fitted = others, without
        aside.append(worst)
    return _estimates(used, fitted, tuple(aside))


def towing_rate(estimates: Estimates) -> Rate | None:
    """All trailers together, for one that has not been towed yet: their mean and their spread."""
    towed = [rate for mode, rate in estimates.rates.items() if towing(mode)]
    if not towed:
        return None
    km = sum(rate.km for rate in towed)
    mean = sum(rate.rate * rate.km for rate in towed) / km
    between = max((abs(rate.rate - mean) for rate in towed), default=0.0)
    return Rate(
        rate=mean,
        sd=hypot(max(rate.sd for rate in towed), between, 0.15 * mean),
        tanks=sum(rate.tanks for rate in towed),
        km=km,
    )


def as_measured(tanks: Sequence[Tank]) -> Mapping[str, Rate]:
    """What each mode took over just these tanks, which is surer than what it takes in general.

    All distance over all fuel where a mode never shares a tank; fitted where it does.
    """
    fitted = estimate(tanks)
    measured: dict[str, Rate] = {}
    for mode, rate in fitted.rates.items():
        own = [tank for tank in tanks if mode in tank.split and tank not in fitted.set_aside]
        alone = pooled(own) if all(len(tank.split) == 1 for tank in own) else None
        measured[mode] = alone or rate
    return measured


@dataclass(frozen=True, slots=True, kw_only=True)
class DashBias:
    """How far the dash reads above the pump: a share, its standard deviation, and the tanks."""

    share: float
    sd: float
    tanks: int


def dash_bias(tanks: Sequence[Tank]) -> DashBias | None:
    """The dash against the pump over every tank that was closed with a dash figure."""
    shown = [
        (tank, 1.0 / economy_to(stated, "km/L").value)
        for tank in tanks
        if (stated := tank.closed.entry.dash_economy) is not None and stated.value > 0
    ]
    if not shown:
        return None
    told = sum(rate * tank.km for tank, rate in shown)
    pumped = sum(tank.litres for tank, _ in shown)
    sd = sqrt(sum(tank.litres_sd**2 for tank, _ in shown)) / pumped
    return DashBias(share=pumped / told - 1, sd=sd, tanks=len(shown))


@dataclass(frozen=True, slots=True, kw_only=True)
class _Fit:
    """Means and standard deviations in l/km by mode, infinite where not told apart."""

    means: Mapping[str, float]
    sds: Mapping[str, float]
    scatter: float


def _estimates(used: Sequence[Tank], fitted: _Fit, aside: tuple[Tank, ...]) -> Estimates:
    rates: dict[str, Rate] = {}
    unclear: list[str] = []
    for mode, mean in fitted.means.items():
        sd = hypot(fitted.sds[mode], BOOKKEEPING * mean)
        if mean <= 0 or NINETY * sd > TOO_WIDE * mean:
            unclear.append(mode)
            continue
        legs = [tank.split[mode] for tank in used if mode in tank.split]
        rates[mode] = Rate(rate=mean, sd=sd, tanks=len(legs), km=sum(legs))
    return Estimates(rates=rates, unclear=tuple(unclear), scatter=fitted.scatter, set_aside=aside)


def _misfit(tank: Tank, fitted: _Fit) -> float:
    """How far a tank lies from what the rates say of it, in standard deviations."""
    expected = sum(fitted.means[mode] * km for mode, km in tank.split.items())
    off = abs(tank.litres - expected)
    if off <= LEAST_MISFIT * expected:
        return 0.0
    road = STRETCH_KM * sum(fitted.means[mode] ** 2 * km for mode, km in tank.split.items())
    return off / hypot(tank.litres_sd, fitted.scatter * sqrt(road))


def _fit(tanks: Sequence[Tank]) -> _Fit:
    """Generalised least squares, averaged over how likely each scatter is."""
    import numpy as np

    names = list(dict.fromkeys(mode for tank in tanks for mode in tank.split))
    if not names:
        return _Fit(means={}, sds={}, scatter=USUAL_SCATTER)
    km = np.array([[tank.split.get(name, 0.0) for name in names] for tank in tanks])
    litres = np.array([tank.litres for tank in tanks])
    pumped = _pumped(tanks)
    mean_rate = litres.sum() / km.sum()
    rough = np.clip(nonnegative(km, litres), mean_rate / 3, mean_rate * 3)
    road = STRETCH_KM * km @ rough**2
    likelihoods, means, covariances = [], [], []
    for scatter in SCATTERS:
        covariance = pumped + np.diag(scatter**2 * road)
        mean, covariance, likelihood = _solve(km, litres, covariance)
        prior = -0.5 * (scatter / (2 * USUAL_SCATTER)) ** 2
        likelihoods.append(likelihood + prior)
        means.append(mean)
        covariances.append(np.diag(covariance))
    weights = np.exp(np.array(likelihoods) - max(likelihoods))
    weights /= weights.sum()
    mean = weights @ np.array(means)
    variance = weights @ (np.array(covariances) + (np.array(means) - mean) ** 2)
    told = _told_apart(km)
    return _Fit(
        means=dict(zip(names, mean.tolist(), strict=True)),
        sds=dict(zip(names, np.where(told, np.sqrt(variance), np.inf).tolist(), strict=True)),
        scatter=float(np.sqrt(weights @ np.array(SCATTERS) ** 2)),
    )


def _pumped(tanks: Sequence[Tank]) -> Array:
    """Covariance of the fuel pumped: one error a full tank, shared by the tanks on either side.

    An odometer's rounding works in the same way, and is turned into litres by the mean rate.
    Each dispenser's own error stays with its fill.
    """
    import numpy as np

    mean = sum(tank.litres for tank in tanks) / sum(tank.km for tank in tanks)
    variance = CLICK_OFF_LITRES**2 + (mean * READING_KM) ** 2
    covariance = np.diag([2 * variance + tank.dispensed_sd**2 for tank in tanks])
    for index in range(1, len(tanks)):
        if tanks[index].opened == tanks[index - 1].closed:
            covariance[index, index - 1] = covariance[index - 1, index] = -variance
    return covariance


def _solve(km: Array, litres: Array, covariance: Array) -> tuple[Array, Array, float]:
    """Rates, their covariance and the restricted log-likelihood for one error covariance."""
    import numpy as np

    root = np.linalg.cholesky(covariance)
    whitened = np.linalg.solve(root, np.column_stack((km, litres)))
    design, observed = whitened[:, :-1], whitened[:, -1]
    information = design.T @ design
    strengths = np.linalg.eigvalsh(information)
    inverse = np.linalg.pinv(information, rcond=FAINT, hermitian=True)
    mean = inverse @ design.T @ observed
    if (mean < 0).any():
        mean = nonnegative(design, observed)
    residual = observed - design @ mean
    likelihood = -0.5 * (
        2 * np.log(np.diag(root)).sum()
        + np.log(strengths[strengths > FAINT * strengths.max()]).sum()
        + residual @ residual
    )
    return mean, inverse, float(likelihood)


def _told_apart(km: Array) -> NDArray[np.bool_]:
    """Which modes the tanks can tell from the others: those whose axis the tanks span."""
    import numpy as np

    scaled = km / np.maximum(np.linalg.norm(km, axis=0), 1e-9)
    projection = np.linalg.pinv(scaled, rcond=1e-6) @ scaled
    told: NDArray[np.bool_] = np.abs(np.diag(projection) - 1) < 1e-6
    return told


def nonnegative(design: Array, observed: Array) -> Array:
    """The least-squares solution with no component below zero.

    Lawson and Hanson, Solving Least Squares Problems (1974), chapter 23: components are freed
    one by one where the residual still pulls them up, and those that go below zero are
    brought back to it.
    """
    import numpy as np

    count = design.shape[1]
    solution = np.zeros(count)
    free = np.zeros(count, dtype=bool)
    tolerance = 1e-10 * np.abs(design.T @ observed).max(initial=1.0)
    for _ in range(3 * count):
        pull = np.where(free, -np.inf, design.T @ (observed - design @ solution))
        if free.all() or pull.max() <= tolerance:
            break
        free[int(pull.argmax())] = True
        while True:
            trial = np.zeros(count)
            trial[free] = np.linalg.lstsq(design[:, free], observed, rcond=None)[0]
            below = free & (trial <= 0)
            if not below.any():
                break
            step = float((solution[below] / (solution[below] - trial[below])).min())
            solution = solution + step * (trial - solution)
            free &= solution > tolerance / max(np.abs(design).max(), 1.0) * 1e-6
            solution[~free] = 0.0
        solution = trial
    return solution
