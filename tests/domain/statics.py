"""A truck and its trailer as statics sees them, weighed on a scale with errors of its own.

Written from the free-body diagrams, in NumPy and in pounds and inches, so that the domain's
three-pass algebra and lever rules can be held against something that shares no line with
them. The truck has wheelbase w and a coupling b behind its drive axle; the trailer's axle
is c behind the coupling; the bars apply a couple M at the coupling.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

Vector = NDArray[np.float64]


@dataclass(frozen=True, slots=True, kw_only=True)
class Rig:
    """Lengths in inches, masses in pounds; `tongue` is without bars."""

    wheelbase: float
    overhang: float
    reach: float
    front: float
    rear: float
    tongue: float
    trailer: float
    couple: float = 0.0

    def axles(self, extra: tuple[tuple[float, float], ...] = (), bars: bool = False) -> Vector:
        """Steer, drive and trailer axle loads from force and moment balance.

        `extra` are loads with their distance behind the steer axle, on the truck, or behind
        the coupling plus `ON_TRAILER`, on the trailer. Unknowns: steer, drive, trailer and the
        force at the coupling. Rows: truck's forces, truck's moments about the steer axle,
        trailer's forces, trailer's moments about the coupling.
        """
        w, behind, c = self.wheelbase, self.wheelbase + self.overhang, self.reach
        couple = self.couple if bars else 0.0
        matrix = np.array(
            [[1, 1, 0, -1], [0, w, 0, -behind], [0, 0, 1, 1], [0, 0, c, 0]], dtype=float
        )
        on_truck = [(m, x) for m, x in extra if x < ON_TRAILER]
        on_trailer = [(m, x - ON_TRAILER) for m, x in extra if x >= ON_TRAILER]
        centre = c * (1 - self.tongue / self.trailer)
        known = np.array(
            [
                self.front + self.rear + sum(m for m, _ in on_truck),
                self.rear * w + sum(m * x for m, x in on_truck) - couple,
                self.trailer + sum(m for m, _ in on_trailer),
                self.trailer * centre + sum(m * x for m, x in on_trailer) + couple,
            ]
        )
        found: Vector = np.linalg.solve(matrix, known)[:3]
        return found

    def alone(self) -> Vector:
        """Steer and drive of the truck alone."""
        return np.array([self.front, self.rear])


ON_TRAILER = 10_000.0
"""Added to a distance behind the coupling, to tell it from one behind the steer axle."""


class Scale:
    """A platform scale inside its tolerances: one span error a platform, repeatability, rounding.

    HB 44 class III L, maintenance, 20 lb divisions: one division to 10,000 lb, two to 20,000.
    """

    division = 20.0

    def __init__(self, draw: np.random.Generator) -> None:
        self._draw = draw
        self._span = draw.uniform(-1, 1, 3)

    def read(self, loads: Vector) -> list[float]:
        """The figures on the ticket."""
        allowed = np.maximum(1, np.ceil(loads / self.division / 500)) * self.division
        span = self._span[: len(loads)] * self.division * loads / 10_000
        span = np.clip(span, -allowed, allowed)
        repeat = self._draw.uniform(-0.5, 0.5, len(loads)) * allowed
        shown = np.round((loads + span + repeat) / self.division) * self.division
        return [float(each) for each in shown]


def some_rig(draw: np.random.Generator) -> Rig:
    """A pickup with a trailer behind its bumper."""
    trailer = draw.uniform(4000, 14000)
    return Rig(
        wheelbase=draw.uniform(130, 180),
        overhang=draw.uniform(40, 70),
        reach=draw.uniform(140, 320),
        front=draw.uniform(3400, 5200),
        rear=draw.uniform(2600, 4600),
        tongue=trailer * draw.uniform(0.09, 0.16),
        trailer=trailer,
        couple=draw.uniform(15_000, 45_000),
    )
