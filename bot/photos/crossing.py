"""How pictures and their words cross between Drawbar and the process that looks at photos.

This file decides the bytes of both directions, once for both ends. A picture comes as its length
in four bytes, most significant first, and its bytes; each answer is one line of JSON. It knows
neither end.
"""

from __future__ import annotations

import json
import struct
from collections.abc import Sequence
from dataclasses import dataclass
from typing import Literal

from domain.page import Word

LENGTH = struct.Struct(">I")

Reason = Literal["too_large", "not_a_picture"]


@dataclass(frozen=True, slots=True)
class Ready:
    """The models are loaded; said once, before any picture."""


@dataclass(frozen=True, slots=True)
class Seen:
    """The words on a picture."""

    words: Sequence[Word]


@dataclass(frozen=True, slots=True)
class NotSeen:
    """A picture that was not looked at, and why."""

    reason: Reason


Reply = Ready | Seen | NotSeen


class NoReply(ValueError):
    """A line that is no answer: the process has ended, or something else wrote it."""


def framed(picture: bytes) -> bytes:
    """A picture as it goes in."""
    return LENGTH.pack(len(picture)) + picture


def line_of(reply: Reply) -> bytes:
    """An answer as it comes out."""
    return json.dumps(_record(reply)).encode() + b"\n"


def _record(reply: Reply) -> dict[str, object]:
    match reply:
        case Ready():
            return {"ready": True}
        case Seen(words):
            return {"words": [[word.text, word.corners, word.confidence] for word in words]}
        case NotSeen(reason):
            return {"not_seen": reason}


def reply_of(line: bytes) -> Reply:
    """An answer from its line; raises NoReply."""
    try:
        match json.loads(line):
            case {"ready": True}:
                return Ready()
            case {"words": [*words]}:
                return Seen(tuple(_word(*word) for word in words))
            case {"not_seen": ("too_large" | "not_a_picture") as reason}:
                return NotSeen(reason)
    except (ValueError, TypeError) as error:
        raise NoReply(str(error)) from error
    raise NoReply("an answer of another form")


def _word(text: str, corners: Sequence[tuple[float, float]], confidence: float) -> Word:
    first, second, third, fourth = ((float(x), float(y)) for x, y in corners)
    return Word(str(text), (first, second, third, fourth), float(confidence))
