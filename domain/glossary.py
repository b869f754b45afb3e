"""The trade's words: when a message asks what one of them means, and which figures it is about.

This file decides that a message asks for a meaning: the whole of it is one of the ways to ask
('what is a GVWR', 'difference between GVWR and GCWR'), and what stands in it is a word of the
glossary. 'the GVWR' and 'our GVWR' are the rig's own, and ask for a figure. The ways, the words
and what is said of them are data, a file a language (`shared/glossary`).
"""

from __future__ import annotations

import re
import unicodedata
from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass
from typing import Any

LONGEST = 90
"""Characters: who asks what a word means asks little else."""

MOST_TERMS = 3
"""Words that are explained in one answer."""

TERM = "(.{2,48}?)"

DROPPED = dict.fromkeys(map(ord, "'’`\u00b4.,?!¿¡\"“”«»"), None) | {ord("-"): " ", ord("/"): " / "}

Figure = tuple[str | None, str]
"""A rating by its subject (None for any) and its name."""

FIGURES: Mapping[str, tuple[Figure, ...]] = {
    "gvwr": ((None, "gvwr"),),
    "gcwr": ((None, "gcwr"),),
    "mam": ((None, "gvwr"),),
    "atm": (("trailer", "gvwr"),),
    "gtm": (("trailer", "gtm"),),
    "gawr": ((None, "gawr_front"), (None, "gawr_rear"), (None, "gawr")),
    "payload": ((None, "payload"),),
    "tow": (("truck", "tow"),),
    "hitch_rating": (("hitch", "tow"), ("hitch", "tongue")),
    "curb": ((None, "curb"),),
    "load_index": ((None, "load_index"),),
}
"""Terms that are ratings of the rig, and which."""

TOPICS: Mapping[str, tuple[str, str | None]] = {
    "gross": ("weight", "gross"),
    "steer": ("weight", "steer"),
    "drive": ("weight", "drive"),
    "tongue": ("tongue", None),
    "pin": ("tongue", None),
    "margin": ("margin", None),
    "economy": ("economy", None),
    "range": ("range", None),
}
"""Terms of which the rig has a figure that is worked out: the topic and field that ask for it."""


@dataclass(frozen=True, slots=True)
class Term:
    """A word of the trade: what it is, where it stands and what governs, and who says so.

    `status` is how far the source was checked, in the letters of `shared/reference/sources.toml`.
    """

    says: str
    where: str
    source: str
    status: str


@dataclass(frozen=True, slots=True)
class Glossary:
    """The terms of a language by key, what they are called, and how one asks for a meaning.

    `heard` are letters, small ones, without any of which no way to ask is said; `outline` is any
    of the `frames`, each of which has its terms in groups.
    """

    terms: Mapping[str, Term]
    words: Mapping[str, str]
    heard: tuple[str, ...]
    outline: re.Pattern[str]
    frames: tuple[re.Pattern[str], ...]
    joins: re.Pattern[str]
    article: re.Pattern[str]


def glossary_from(table: Mapping[str, Any]) -> Glossary:
    """The glossary from its data; raises KeyError where a part is missing."""
    parts = {**table["part"], "term": TERM}
    frames = [_filled(f"{{lead}}(?:{frame}){{tail}}", parts) for frame in table["frames"]]
    return Glossary(
        terms={
            key: Term(each["says"], each["where"], each["source"], each["status"])
            for key, each in table["term"].items()
        },
        words={folded(word): key for key, each in table["term"].items() for word in each["words"]},
        heard=tuple(table["heard"]),
        outline=re.compile("|".join(frames)),
        frames=tuple(re.compile(frame) for frame in frames),
        joins=re.compile(table["joins"]),
        article=re.compile(f"(?:{table['part']['article']})"),
    )


def _filled(pattern: str, parts: Mapping[str, str]) -> str:
    for name, part in parts.items():
        pattern = pattern.replace("{" + name + "}", part)
    return pattern


def folded(text: str) -> str:
    """A text without case, accents, quotes and stops, its words one blank apart."""
    plain = text.casefold().translate(DROPPED)
    if not plain.isascii():
        apart = unicodedata.normalize("NFD", plain)
        plain = "".join(each for each in apart if not unicodedata.combining(each))
    return " ".join(plain.split())


def may_ask(text: str, glossary: Glossary) -> bool:
    """Whether a message is short and something of a way to ask is heard: few messages are so.

    It is asked of all talk, and costs a microsecond.
    """
    if len(text) > LONGEST:
        return False
    lowered = text.lower()
    for each in glossary.heard:  # noqa: SIM110 - a generator costs as much again
        if each in lowered:
            return True
    return False


def meaning_asked(
    text: str, glossary: Glossary, respelled: Callable[[str], str]
) -> tuple[str, ...]:
    """The terms whose meaning a whole message asks for, in its order; () for another matter.

    `respelled` gives a word as it is spelled, where it is a slip of another.
    """
    if not may_ask(text, glossary):
        return ()
    said = folded(text)
    if text.rstrip().endswith(("...", "…")) or glossary.outline.fullmatch(said) is None:
        return ()
    for frame in glossary.frames:
        asks = frame.fullmatch(said)
        terms = _terms(asks.groups(), glossary, respelled) if asks else ()
        if terms:
            return terms
    return ()


def _terms(
    groups: Sequence[str], glossary: Glossary, respelled: Callable[[str], str]
) -> tuple[str, ...]:
    """The terms that stand in the places of a frame; () where something else does."""
    named = [name for group in groups for name in _named(group, glossary)]
    terms = [_term(name, glossary, respelled) for name in named]
    known = tuple(dict.fromkeys(term for term in terms if term is not None))
    return known if None not in terms and len(named) <= MOST_TERMS else ()


def _named(group: str, glossary: Glossary) -> Sequence[str]:
    """'gvwr and gcwr' are two; a name that has an 'and' of its own is one.

    Commas are gone by now: of 'gvwr gawr' each word is a term.
    """
    if group in glossary.words:
        return (group,)
    names: list[str] = []
    for part in glossary.joins.split(group):
        words = part.split()
        names += words if all(word in glossary.words for word in words) else [part]
    return names


def _term(name: str, glossary: Glossary, respelled: Callable[[str], str]) -> str | None:
    bare = glossary.article.sub("", name, count=1) if glossary.article.match(name) else name
    found = glossary.words.get(bare)
    return found or glossary.words.get(" ".join(respelled(word) for word in bare.split()))
