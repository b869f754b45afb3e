"""The process that looks at photos: pictures in on standard input, their words out.

A picture from a stranger is decoded here and nowhere else, away from the log, the networks and
their tokens: whatever it does, it ends this process and no other. This file decides what the
process may use of the machine; the form of what goes in and out is decided in `crossing`.
"""

from __future__ import annotations

import os
import sys
from typing import BinaryIO

from bot.photos.crossing import LENGTH, NotSeen, Ready, Reply, Seen, line_of
from bot.photos.opening import NotAPicture, TooLarge, opened
from bot.photos.recognition import Recogniser

MOST_MEMORY = 4 * 1024**3
"""Bytes of addresses; a photo of 40 megapixels takes a quarter of it."""


def serve(pictures: BinaryIO, answers: BinaryIO) -> None:
    """Answer each picture until there are no more."""
    recogniser = Recogniser()
    answers.write(line_of(Ready()))
    answers.flush()
    while head := pictures.read(LENGTH.size):
        (length,) = LENGTH.unpack(head)
        answers.write(line_of(_reply(recogniser, pictures.read(length))))
        answers.flush()


def _reply(recogniser: Recogniser, picture: bytes) -> Reply:
    try:
        return Seen(recogniser.words(opened(picture)))
    except TooLarge:
        return NotSeen("too_large")
    except NotAPicture:
        return NotSeen("not_a_picture")


def _bound_memory() -> None:
    if sys.platform != "win32":
        import resource

        resource.setrlimit(resource.RLIMIT_AS, (MOST_MEMORY, MOST_MEMORY))


def main() -> None:
    """Serve on standard input and output; what libraries print goes to standard error."""
    _bound_memory()
    answers = os.fdopen(os.dup(1), "wb")
    os.dup2(2, 1)
    serve(sys.stdin.buffer, answers)


if __name__ == "__main__":
    main()
