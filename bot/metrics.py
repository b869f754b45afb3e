"""What is counted while Drawbar runs.

This file decides the names of the figures and what each counts, by the conventions of the
Prometheus exposition format. It counts kinds of things alone: no chat, no person, no text.
"""

from __future__ import annotations

import time
from collections.abc import Callable
from datetime import datetime

from prometheus_client import CollectorRegistry, Counter, Gauge, Histogram, generate_latest

from bot.conversation import Reader
from bot.messages import Outcome
from bot.store import outbox
from bot.store.database import Store
from domain.context import Context
from domain.verdicts import Verdict

REGISTRY = CollectorRegistry()
READ = Counter(
    "drawbar_messages_read", "Messages by what they were read as.", ["verdict"], registry=REGISTRY
)
READING = Histogram(
    "drawbar_reading_seconds",
    "Time to read a message.",
    buckets=(0.0001, 0.0002, 0.0005, 0.001, 0.002, 0.005, 0.02, 0.1),
    registry=REGISTRY,
)
TAKEN = Counter(
    "drawbar_events_taken", "Events that networks handed over.", ["network"], registry=REGISTRY
)
FAILED = Counter(
    "drawbar_failures", "Messages that the program failed on and kept.", registry=REGISTRY
)
SENT = Counter(
    "drawbar_sends", "Answers by what became of a send.", ["network", "outcome"], registry=REGISTRY
)
QUEUED = Gauge("drawbar_queue_length", "Answers that wait to be sent.", registry=REGISTRY)
OLDEST = Gauge(
    "drawbar_queue_age_seconds", "How long the oldest of them has been due.", registry=REGISTRY
)


def counted(reader: Reader) -> Reader:
    """The reader, with what it makes of messages counted and its time taken."""

    def read(text: str, context: Context) -> Verdict:
        begun = time.perf_counter()
        verdict = reader(text, context)
        READING.observe(time.perf_counter() - begun)
        READ.labels(type(verdict).__name__.casefold()).inc()
        return verdict

    return read


def count_send(network: str, outcome: Outcome) -> None:
    """Count what became of a send."""
    SENT.labels(network, type(outcome).__name__.casefold()).inc()


def exposition(store: Store, clock: Callable[[], datetime]) -> bytes:
    """All figures as Prometheus reads them; looks into the outbox."""
    with store.look() as session:
        length, oldest = outbox.waiting(session)
    QUEUED.set(length)
    OLDEST.set(0 if oldest is None else max((clock() - oldest).total_seconds(), 0))
    return generate_latest(REGISTRY)
