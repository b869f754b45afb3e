"""When a message answers the question that is open.

This file decides which statements close a doubt: one that picks a choice, or one of the kind
that was in doubt. It does not know how the answer was read.
"""

from __future__ import annotations

from dataclasses import fields

from domain.entries import KINDS, POSITIONS, Entry, Weighing
from domain.verdicts import Ask


def answers_doubt(entries: tuple[Entry, ...], ask: Ask) -> bool:
    """Whether facts settle an open question: they are of a kind that was in doubt."""
    kinds = kinds_in_doubt(ask)
    return any(type(entry) in kinds for entry in entries)


def picked(entries: tuple[Entry, ...], ask: Ask) -> bool:
    """Whether facts are exactly one of the readings that were offered."""
    return any(choice.entries == entries for choice in ask.choices)


def kinds_in_doubt(ask: Ask) -> frozenset[type[Entry]]:
    """The kinds of entry that an answer to a question can be of."""
    offered = {type(entry) for choice in ask.choices for entry in choice.entries}
    if offered:
        return frozenset(offered)
    if ask.about in POSITIONS:
        return frozenset({Weighing})
    common = {each.name for each in fields(Entry)}
    return frozenset(
        kind
        for name, kind in KINDS.items()
        if ask.about == name or ask.about in {each.name for each in fields(kind)} - common
    )
