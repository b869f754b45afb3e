"""Water that rides along: kept in gallons or litres, it weighs what its volume says.

This file decides what a load stated as a volume weighs. Only water is stated so; a litre of it
weighs 0.998 to 1.000 kg (shared/reference/densities.csv, general), and the heavier one counts.
"""

from __future__ import annotations

from domain.quantities import MASSES, VOLUMES, Quantity

KG_PER_LITRE = 1.0


def mass_of(load: Quantity) -> Quantity | None:
    """The mass of a load: as stated, or of so much water (lb for US gallons, else kg).

    None where it is neither a mass nor a volume.
    """
    if load.unit in MASSES:
        return load
    if load.unit not in VOLUMES:
        return None
    mass = Quantity(load.amount("L") * KG_PER_LITRE, "kg")
    return mass.to("lb") if load.unit == "gal" else mass
