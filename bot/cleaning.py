"""What of a message no database can hold is taken out of it.

This file decides that NUL characters go (PostgreSQL's text has none) and halves of surrogate
pairs become the replacement character (UTF-8 has none), in whatever a network hands over, and
how long a name may be. It does not judge what a text says.
"""

from __future__ import annotations

from dataclasses import fields, replace
from typing import Any

from bot.messages import Event, Message

LONGEST_NAME = 80
"""Characters of a person's or a chat's name that are kept; more is not a name."""

_NAMES = ("name", "title")


def storable(event: Event) -> Event:
    """The event with every text in a form that any database holds."""
    changes: dict[str, Any] = {}
    for each in fields(event):
        value = getattr(event, each.name)
        if isinstance(value, Message):
            changes[each.name] = storable(value)
        elif isinstance(value, str):
            changes[each.name] = _storable(value)[: LONGEST_NAME if each.name in _NAMES else None]
    return replace(event, **changes)


def _storable(text: str) -> str:
    # Two halves that belong together become the character that they stand for.
    whole = text.encode("utf-16", "surrogatepass").decode("utf-16", "replace")
    return whole.replace("\x00", "")
