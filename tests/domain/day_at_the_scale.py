"""One day at the scale, with all that its readings give, worked out by other means than ours.

Three passes (bars on, bars off, the truck alone) with two fills between them and one person
who gets out; NumPy brings all readings to the first pass and solves them together.
"""

from __future__ import annotations

import numpy as np

from tests.domain.scale_house import POUND, Ticket, flatdeck, juniper

GALLON = 0.8325 * 3.785411784 / POUND
"""Pounds in a gallon of diesel: the middle of EN 590, 0.820 to 0.845 kg/L."""

PERSON = 68 / POUND
"""150 lb, 68 kg as manuals print it (49 CFR 571.110)."""


def three_passes_two_fills() -> Ticket:
    """The day as it is logged, with every rating of the rig."""
    return (
        Ticket(*juniper(), *flatdeck())
        .hitched()
        .weighs(bars="on", aboard=2, steer=5100, drive=4480, trailer=8160)
        .fills(12)
        .weighs(bars="off", aboard=2, steer=4740, drive=5080, trailer=8000)
        .fills(8)
        .weighs("solo", aboard=1, steer=5060, drive=3580)
    )


def least_squares() -> dict[str, float]:
    """Truck alone as on the road, tongue, trailer, and what the bars move, in pounds.

    Rows: truck with bars on and off, truck alone, trailer axles on and off. The tongue comes
    from the passes without bars; those with bars tell what the bars move.
    """
    rows = np.array([[1, 1, 0, -1], [1, 1, 0, 0], [1, 0, 0, 0], [0, -1, 1, 1], [0, -1, 1, 0]])
    readings = np.array(
        [
            5100 + 4480,
            4740 + 5080 - 12 * GALLON,
            5060 + 3580 - 20 * GALLON + PERSON,
            8160,
            8000,
        ]
    )
    weight = np.diag([1.0, 1e3, 1e3, 1.0, 1e3])
    found, *_ = np.linalg.lstsq(weight @ rows, weight @ readings, rcond=None)
    return dict(zip(("truck", "tongue", "trailer", "moved"), map(float, found), strict=True))


def lever() -> float:
    """Overhang over wheelbase: what a pound of tongue takes off the steer axle.

    Half of the fuel and of the person is on it.
    """
    off = 4740 - 12 * GALLON / 2
    alone = 5060 - 20 * GALLON / 2 + PERSON / 2
    return (alone - off) / least_squares()["tongue"]


def tongue_doubt() -> float:
    """A person good to 16 kg, and four readings each with two errors anywhere within 10 lb.

    Repeatability and rounding (HB 44 2.20, from memory); times Student's t of 2.2.
    """
    return float(2.2 * np.hypot(16 / POUND, (4 * 2 * 10**2 / 3) ** 0.5))
