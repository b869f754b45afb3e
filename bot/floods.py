"""Too many messages at once from one person.

This file decides how many messages of a person are taken in, and that of what comes beyond
they are told once. It keeps count in memory alone: a count is worth a minute.
"""

from __future__ import annotations

from collections import OrderedDict
from collections.abc import Callable
from dataclasses import dataclass
from datetime import datetime

from bot.answers import trouble
from bot.answers.answer import Answer
from bot.messages import Message

AT_ONCE = 40
"""Messages that may come together: an evening's receipts, forwarded."""

A_SECOND = 0.5
MOST_PEOPLE = 10_000


@dataclass(frozen=True, slots=True)
class Flooded:
    """A message that is not taken in, and what its sender is told of it, if anything."""

    answer: Answer | None


@dataclass(slots=True)
class _Bucket:
    left: float
    at: datetime
    closed: bool = False


class Floods:
    """One bucket a person, that empties with each message and fills again with time.

    Once empty it stays closed until it is half full, so that a flood is refused as a whole.
    """

    def __init__(self, clock: Callable[[], datetime]) -> None:
        self._clock = clock
        self._buckets: OrderedDict[tuple[str, str], _Bucket] = OrderedDict()

    def meet(self, message: Message) -> Flooded | None:
        """Count a message; None where it may go on."""
        now, key = self._clock(), (message.network, message.author)
        bucket = self._buckets.setdefault(key, _Bucket(AT_ONCE, now))
        self._buckets.move_to_end(key)
        if len(self._buckets) > MOST_PEOPLE:
            self._buckets.popitem(last=False)
        passed = (now - bucket.at).total_seconds()
        bucket.left = min(AT_ONCE, bucket.left + max(passed, 0) * A_SECOND)
        bucket.at = now
        if bucket.closed and bucket.left < AT_ONCE / 2:
            return Flooded(None)
        if bucket.left < 1:
            bucket.closed = True
            return Flooded(trouble.too_many_answer())
        bucket.closed = False
        bucket.left -= 1
        return None
