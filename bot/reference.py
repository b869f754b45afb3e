"""The published tables, read once from the shared data.

This file decides which file holds which table. It does not know what the figures mean.
"""

from __future__ import annotations

from functools import cache

from bot.shared_data import read_csv
from domain.reference import References, references_from


@cache
def references() -> References:
    """Every reference table; raises NoSuchData where the installation lacks one."""
    return references_from(
        load_index=read_csv("reference/tyre_load_index.csv"),
        working_loads=read_csv("reference/working_load_limits.csv"),
        densities=read_csv("reference/densities.csv"),
    )
