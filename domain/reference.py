"""The tables that the arithmetic is held to, as records.

This file decides the form of the published tables: load indices, default working load
limits, fuel densities. Their rows are handed in (they lie in `shared/reference`, each with
its source and how far it was checked); nothing here reads a file.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass

from domain.uncertainty import Measured, evenly, measured

Rows = Iterable[Mapping[str, str]]
"""A table as read: a mapping of column to text for each row."""


@dataclass(frozen=True, slots=True, kw_only=True)
class WorkingLoad:
    """One row of the 393.108 table: material, grade or type, nominal size (in, mm), limit in kg.

    `status` says how far the figure was checked; M is from memory.
    """

    material: str
    type: str
    size: str
    size_mm: str
    kg: float
    lb: float
    status: str


@dataclass(frozen=True, slots=True, kw_only=True)
class References:
    """Load index to kg a tyre, default working load limits, and kg a litre by product."""

    load_index: Mapping[int, float]
    working_loads: tuple[WorkingLoad, ...]
    densities: Mapping[str, Measured]


def references_from(*, load_index: Rows, working_loads: Rows, densities: Rows) -> References:
    """The tables from their rows; raises KeyError or ValueError where a row is malformed."""
    return References(
        load_index={int(row["index"]): float(row["kg"]) for row in load_index},
        working_loads=tuple(
            WorkingLoad(
                material=row["material"],
                type=row["type"],
                size=row["size_in"],
                size_mm=row["size_mm"],
                kg=float(row["wll_kg"]),
                lb=float(row["wll_lb"]),
                status=row["status"],
            )
            for row in working_loads
        ),
        densities={
            row["product"]: _between(float(row["low_kg_per_l"]), float(row["high_kg_per_l"]))
            for row in densities
        },
    )


def _between(low: float, high: float) -> Measured:
    return measured((low + high) / 2, evenly((high - low) / 2))
