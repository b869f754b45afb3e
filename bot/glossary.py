"""The glossary of the trade's words, from the shared data.

This file decides which language's glossary is used: English for a language that has none. It
does not know what a word means, nor how one asks.
"""

from __future__ import annotations

from functools import cache

from bot.shared_data import names, read_toml
from domain.glossary import Glossary, glossary_from

FOLDER = "glossary"
SOURCE = "en"


def glossary_in(language: str) -> Glossary:
    """A language's glossary; the English one where it has none."""
    return _glossary(language if language in glossaries() else SOURCE)


@cache
def glossaries() -> frozenset[str]:
    """The languages that have a glossary."""
    found = (name.rpartition("/")[2] for name in names(FOLDER, ".toml"))
    return frozenset(name.removesuffix(".toml") for name in found)


@cache
def _glossary(language: str) -> Glossary:
    """A language's glossary, compiled once; raises NoSuchData where there is none."""
    return glossary_from(read_toml(f"{FOLDER}/{language}.toml"))
