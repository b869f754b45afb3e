"""The `read` contract as a stream: a line in, a JSON line out, nothing kept.

This file decides how an input line becomes a text with its context, and that every line gets
an answer: one that is no JSON object is plain text, and an object that can't be used says why.
It does not read messages itself.
"""

from __future__ import annotations

import json
from collections.abc import Mapping
from datetime import UTC, datetime
from typing import Any, BinaryIO, TextIO
from zoneinfo import ZoneInfo

from bot.phrasebook import book_for
from domain.context import Context
from domain.entries import ImpossibleEntry
from domain.quantities import Quantity
from domain.reading import explain, read
from domain.records import NotARecord, Record, context_from_record, verdict_to_record
from domain.verdicts import Silent


class UnusableLine(ValueError):
    """An input object that is not in the form of the contract; the sentence says where."""


def read_lines(source: BinaryIO, out: BinaryIO, why: TextIO | None = None) -> None:
    """Read each line of UTF-8 and write its verdict; `why` also gets the explanations."""
    for raw in source:
        try:
            text, context = parsed(raw.decode("utf-8", "replace").rstrip("\r\n"))
        except UnusableLine as error:
            record = {**verdict_to_record(Silent()), "error": str(error)}
        else:
            book = book_for(context)
            record = verdict_to_record(read(text, context, book))
            if why is not None:
                why.write(explain(text, context, book).rstrip("\n") + "\n")
                why.flush()
        out.write(_line(record))
        out.flush()


def parsed(line: str, now: datetime | None = None) -> tuple[str, Context]:
    """The text and context of an input line; raises UnusableLine."""
    moment = now or datetime.now(UTC)
    given = _object(line)
    if given is None:
        return line, Context(sent_at=moment)
    text = given.get("text")
    if not isinstance(text, str):
        raise UnusableLine('an object needs a text, such as {"text": "odo 48211"}')
    context = {} if given.get("context") is None else given["context"]
    if not isinstance(context, Mapping):
        raise UnusableLine("context is an object")
    try:
        return text, _checked(context_from_record(context, _sent_at(given, context, moment)))
    except (
        NotARecord,
        ImpossibleEntry,
        ValueError,
        TypeError,
        AttributeError,
        LookupError,
    ) as error:
        reason = error.args[0] if error.args else error
        raise UnusableLine(f"this context can't be used: {reason}") from error


def _object(line: str) -> Mapping[str, Any] | None:
    if not line.lstrip().startswith("{"):
        return None
    try:
        found = json.loads(line)
    except (ValueError, RecursionError):
        return None
    return found if isinstance(found, Mapping) else None


def _sent_at(given: Mapping[str, Any], context: Mapping[str, Any], now: datetime) -> datetime:
    text = given.get("sent_at")
    zone = ZoneInfo(context["time_zone"]) if context.get("time_zone") else UTC
    if text is None:
        return now.astimezone(zone)
    moment = datetime.fromisoformat(text)
    return moment if moment.tzinfo else moment.replace(tzinfo=zone)


def _checked(context: Context) -> Context:
    """The context, if its quantities hold numbers; a record's figures come from outside."""
    for name in ("odometer", "tank"):
        quantity: Quantity | None = getattr(context, name)
        if quantity is not None and not isinstance(quantity.value, int | float):
            raise UnusableLine(f"the value of {name} is a number")
    return context


def _line(record: Record) -> bytes:
    # A lone surrogate from the input has no UTF-8; its escape is the same JSON string.
    text = json.dumps(record, ensure_ascii=False)
    return text.encode("utf-8", "backslashreplace") + b"\n"
