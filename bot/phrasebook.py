"""The vocabulary that the reader reads with, from the shared data.

This file decides which language's phrasebook is used. It does not know what a phrase means.
"""

from __future__ import annotations

from dataclasses import replace
from functools import cache

from bot.reference import points_table, upkeep_table
from bot.shared_data import read_toml
from domain.reading import Phrasebook, compile_phrasebook
from domain.reading.standing import standing_words_from

ENGLISH = "phrasebook/en.toml"
STANDING = "phrasebook/standing.en.toml"


@cache
def phrasebook() -> Phrasebook:
    """The phrasebook, compiled once; raises NoSuchData where the installation lacks it."""
    standing = standing_words_from(read_toml(STANDING), upkeep_table(), points_table())
    return replace(compile_phrasebook(read_toml(ENGLISH)), standing=standing)
