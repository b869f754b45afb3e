"""A message in fragments, whose stops only part them: 'chains. plug. breakaway. all good'.

This file decides which stops of a text end no sentence, where it tells nothing if they do.
"""

from __future__ import annotations

STOP, PART = ". ", ", "

LONGEST_FRAGMENT = 4
"""Words: 'alone on the scale'."""


def as_list(text: str) -> str | None:
    """The same text with commas for stops, where all its sentences are fragments; else None."""
    first, *others = text.split(STOP)
    opened = any(not each or each[0].isupper() for each in others)
    if opened or any(len(each.split()) > LONGEST_FRAGMENT for each in (first, *others)):
        return None
    return text.replace(STOP, PART)
