"""What is counted while networks are served.

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

SECONDS = (0.0001, 0.0002, 0.0005, 0.001, 0.002, 0.005, 0.02, 0.1)
"""Where times of reading are told apart: a tenth of a millisecond to a tenth of a second."""


class Figures:
    """The counts of one running Drawbar."""

    def __init__(self) -> None:
        self._registry = registry = CollectorRegistry()
        self._read = Counter(
            "drawbar_messages_read",
            "Messages by what they were read as.",
            ["verdict"],
            registry=registry,
        )
        self._reading = Histogram(
            "drawbar_reading_seconds", "Time to read a message.", buckets=SECONDS, registry=registry
        )
        self._failed = Counter(
            "drawbar_failures", "Messages that the program failed on and kept.", registry=registry
        )
        self._sent = Counter(
            "drawbar_sends",
            "Answers by what became of a send.",
            ["network", "outcome"],
            registry=registry,
        )
        self._queued = Gauge(
            "drawbar_queue_length", "Answers that wait to be sent.", registry=registry
        )
        self._oldest = Gauge(
            "drawbar_queue_age_seconds",
            "How long the oldest of them has been due.",
            registry=registry,
        )

    def counted(self, reader: Reader) -> Reader:
        """The reader, with what it makes of messages counted and its time taken."""

        def read(text: str, context: Context) -> Verdict:
            begun = time.perf_counter()
            verdict = reader(text, context)
            self._reading.observe(time.perf_counter() - begun)
            self._read.labels(type(verdict).__name__.casefold()).inc()
            return verdict

        return read

    def count_send(self, network: str, outcome: Outcome) -> None:
        """Count what became of a send."""
        self._sent.labels(network, type(outcome).__name__.casefold()).inc()

    def count_failure(self) -> None:
        """Count a message that the program failed on."""
        self._failed.inc()

    def exposition(self, store: Store, clock: Callable[[], datetime]) -> bytes:
        """All figures as Prometheus reads them; looks into the outbox."""
        with store.look() as session:
            length, oldest = outbox.waiting(session)
        self._queued.set(length)
        self._oldest.set(0 if oldest is None else max((clock() - oldest).total_seconds(), 0))
        return generate_latest(self._registry)
