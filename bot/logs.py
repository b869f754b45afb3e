"""What is logged, and how a line looks.

This file decides that each line says when, how bad, where and what, and which message it is
about by a short trace (never by its text, its author or its chat); and that libraries which would
tell addresses with tokens in them keep quiet.
"""

from __future__ import annotations

import hashlib
import logging
from collections.abc import Iterator
from contextlib import contextmanager
from typing import TextIO

import structlog

from bot.messages import Edited, Event, Moved

TRACE = 10
"""Hexadecimal digits: a year's messages of a hundred thousand logbooks are still told apart
within any day."""

QUIET = ("httpx", "httpcore", "nio", "telegram", "aiohttp", "alembic", "peewee", "asyncio")


def log_to(stream: TextIO, level: int = logging.INFO) -> None:
    """A line for each thing that happened, as key=value pairs that people and tools can read."""
    shared: list[structlog.typing.Processor] = [
        structlog.contextvars.merge_contextvars,
        structlog.stdlib.add_log_level,
        structlog.stdlib.add_logger_name,
        structlog.processors.TimeStamper(fmt="iso", utc=True),
    ]
    handler = logging.StreamHandler(stream)
    handler.setFormatter(
        structlog.stdlib.ProcessorFormatter(
            foreign_pre_chain=shared,
            processors=[
                structlog.stdlib.ProcessorFormatter.remove_processors_meta,
                structlog.processors.format_exc_info,
                structlog.processors.LogfmtRenderer(
                    key_order=["timestamp", "level", "logger", "event"], drop_missing=True
                ),
            ],
        )
    )
    root = logging.getLogger()
    root.handlers, root.level = [handler], level
    for name in QUIET:
        logging.getLogger(name).setLevel(logging.WARNING)


def trace_of(event: Event) -> str:
    """What an event is called in the log: the same at every try, and telling nothing of it."""
    message = event.message if isinstance(event, Edited) else event
    told = message.to if isinstance(message, Moved) else message.id
    name = f"{message.network}\n{message.chat}\n{told}"
    return hashlib.sha256(name.encode()).hexdigest()[:TRACE]


@contextmanager
def about(event: Event) -> Iterator[None]:
    """Whatever is logged inside is about this event."""
    with structlog.contextvars.bound_contextvars(trace=trace_of(event)):
        yield
