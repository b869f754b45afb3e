"""Chats to read a message in: one that knows nothing yet, and the beekeepers' on the road.

Everything is an argument with a default, so that a test names only what it is about.
"""

from __future__ import annotations

from collections.abc import Callable
from datetime import datetime, timedelta, timezone
from typing import Any

from domain.context import Context
from domain.quantities import Quantity
from domain.verdicts import Verdict

SENT_AT = datetime(2026, 7, 11, 14, 22, tzinfo=timezone(-timedelta(hours=6)))
ODOMETER = Quantity(48_010, "mi")

Reader = Callable[..., Verdict]
"""`reads(text, context)`: the fixture of conftest.py."""


def chat(**known: Any) -> Context:
    """A chat on its first day: the time is known, and what is given."""
    return Context(**{"sent_at": SENT_AT, "time_zone": "America/Boise", **known})


def on_the_road(**known: Any) -> Context:
    """Juniper with a trailer on, 36 gallons of tank, and 48,010 miles at the last reading."""
    juniper = {
        "odometer": ODOMETER,
        "tank": Quantity(36, "gal"),
        "fuel": "diesel",
        "hitched": True,
        "truck": "Juniper",
        "trailers": ("flatdeck", "camper"),
    }
    return chat(**{**juniper, **known})
