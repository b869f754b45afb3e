"""The published tables, read once from the shared data.

This file decides which file holds which table. It does not know what the figures mean.
"""

from __future__ import annotations

from functools import cache
from typing import TYPE_CHECKING

from bot.shared_data import read_csv, read_toml
from domain.emissions import FuelFacts, fuel_facts_from
from domain.gauges import GaugeTable, gauge_table_from
from domain.upkeep import UpkeepTable, upkeep_table_from
from domain.walkround import PointsTable, points_table_from

if TYPE_CHECKING:
    from domain.reference import References


@cache
def references() -> References:
    """Every reference table; raises NoSuchData where the installation lacks one."""
    # With its errors' arithmetic comes numpy, which reading has no use for.
    from domain.reference import references_from

    return references_from(
        load_index=read_csv("reference/tyre_load_index.csv"),
        working_loads=read_csv("reference/working_load_limits.csv"),
        densities=read_csv("reference/densities.csv"),
    )


@cache
def fuel_facts() -> FuelFacts:
    """Carbon dioxide by fuel; raises NoSuchData where the installation lacks it."""
    return fuel_facts_from(read_toml("reference/fuel.toml"))


@cache
def gauge_table() -> GaugeTable:
    """From when a part is hot; raises NoSuchData where the installation lacks it."""
    return gauge_table_from(read_toml("reference/gauges.toml"))


@cache
def upkeep_table() -> UpkeepTable:
    """Kinds of upkeep; raises NoSuchData where the installation lacks them."""
    return upkeep_table_from(read_toml("reference/upkeep.toml"))


@cache
def points_table() -> PointsTable:
    """The usual points of a walk-round; raises NoSuchData where the installation lacks them."""
    return points_table_from(read_toml("reference/walkround.toml"))
