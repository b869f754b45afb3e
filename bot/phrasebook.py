"""The vocabulary that the reader reads with, from the shared data.

This file decides which language's phrasebook is used: the logbook's own, and English for a
language that answers have and reading has not. It does not know what a phrase means.
"""

from __future__ import annotations

from dataclasses import replace
from functools import cache

from bot.glossary import glossary_in
from bot.reference import points_table, upkeep_table
from bot.shared_data import names, read_toml
from domain.asked_words import AskedWords, asked_words_from
from domain.context import Context
from domain.reading import Phrasebook, compile_phrasebook
from domain.reading.short_words import short_words_from
from domain.reading.standing import standing_words_from

FOLDER = "phrasebook"
SOURCE = "en"
STANDING, ASKED, SHORT = "standing", "asked", "short"
"""What the files of standing matters, of questions about load and of questions of few words are
called, then the language."""


def book_for(context: Context) -> Phrasebook:
    """The phrasebook of the language that a chat texts in."""
    return book_in(context.language)


def book_in(language: str) -> Phrasebook:
    """A language's phrasebook; the English one where it has none."""
    return phrasebook(language if language in _languages() else SOURCE)


@cache
def phrasebook(language: str = SOURCE) -> Phrasebook:
    """A language's phrasebook, compiled once; raises NoSuchData where there is none."""
    words = read_toml(f"{FOLDER}/{STANDING}.{language}.toml")
    standing = standing_words_from(words, upkeep_table(), points_table())
    compiled = compile_phrasebook(read_toml(f"{FOLDER}/{language}.toml"))
    short = short_words_from(read_toml(f"{FOLDER}/{SHORT}.{language}.toml"))
    return replace(compiled, standing=standing, short=short, glossary=glossary_in(language))


@cache
def asked_words() -> AskedWords:
    """What questions about load and tie-downs say, in all languages that are read."""
    # English first: the order in which its tables are looked through is that of all.
    languages = sorted(_languages(), key=lambda language: language != SOURCE)
    return asked_words_from([read_toml(f"{FOLDER}/{ASKED}.{each}.toml") for each in languages])


@cache
def _languages() -> frozenset[str]:
    """The languages that have a phrasebook: those of the files without another name before."""
    found = (name.rpartition("/")[2].removesuffix(".toml") for name in names(FOLDER, ".toml"))
    return frozenset(name for name in found if "." not in name)
