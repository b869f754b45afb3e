"""The vocabulary that the reader reads with, from the shared data.

This file decides which language's phrasebook is used. It does not know what a phrase means.
"""

from __future__ import annotations

from functools import cache

from bot.shared_data import read_toml
from domain.reading import Phrasebook, compile_phrasebook

ENGLISH = "phrasebook/en.toml"


@cache
def phrasebook() -> Phrasebook:
    """The phrasebook, compiled once; raises NoSuchData where the installation lacks it."""
    return compile_phrasebook(read_toml(ENGLISH))
