"""Whether the log says that the rig is on the move.

This file decides it from what was texted: it left, and nothing since says that it stopped. A
question that is no more than bookkeeping then waits, since the texter may be at the wheel.
"""

from __future__ import annotations

from datetime import datetime, timedelta

from domain.entries import Check, Entry, Fill, Hitch, Odometer, Weighing
from domain.log import Log

STOPS: tuple[type[Entry], ...] = (Fill, Weighing, Hitch, Check)
"""What is done standing."""

LONGEST_LEG = timedelta(hours=14)
"""After this nobody is still at the wheel; 49 CFR 395.3(a)(2)'s driving window (from memory)."""


def is_moving(log: Log, at: datetime) -> bool:
    """Whether the rig is between leaving and its next stop at that moment (aware)."""
    moves = [each for each in log.upto(Odometer, at) if each.entry.event is not None]
    if not moves or moves[-1].entry.event == "arrive" or at - moves[-1].at > LONGEST_LEG:
        return False
    left = moves[-1].at
    return not any(each.at > left for kind in STOPS for each in log.upto(kind, at)[-1:])


def is_stop(entries: tuple[Entry, ...]) -> bool:
    """Whether a message that states this was sent standing."""
    return any(
        isinstance(each, STOPS) or (isinstance(each, Odometer) and each.event == "arrive")
        for each in entries
    )
