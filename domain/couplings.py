"""Metric couplings: the D, Dc, S and V values of UN Regulation 55.

This file decides what a rig asks of a coupling in kilonewtons. It does not know what is
stamped on the coupling. Formulas as couplings' makers print them; the Regulation itself
was not read. Masses are in tonnes, lengths in metres, g is 9.81 m/s².
"""

from __future__ import annotations

from typing import Literal

G = 9.81

Suspension = Literal["air", "other"]

FORCE = {"air": 1.8, "other": 2.4}
"""Vertical acceleration at the coupling by the towing vehicle's suspension, in m/s²."""


def d_value(truck: float, trailer: float) -> float:
    """D in kN of a drawbar coupling: g T R / (T + R)."""
    return G * truck * trailer / (truck + trailer)


def d_fifth_wheel(truck: float, trailer: float, on_pin: float) -> float:
    """D in kN of a fifth wheel: 0.6 g T R / (T + R - U), U the mass on the pin."""
    return 0.6 * G * truck * trailer / (truck + trailer - on_pin)


def dc_value(truck: float, axles: float) -> float:
    """Dc in kN of a centre-axle trailer: g T C / (T + C), C what its axles carry."""
    return G * truck * axles / (truck + axles)


def v_value(axles: float, deck: float, drawbar: float, suspension: Suspension) -> float:
    """V in kN of a centre-axle trailer: a C X² / L², the ratio no lower than one.

    X is the length of the loading area, L from the coupling to the axle's middle.
    """
    return FORCE[suspension] * axles * max(1.0, deck**2 / drawbar**2)
