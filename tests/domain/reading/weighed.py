"""What a message says that was weighed, and nothing besides."""

from __future__ import annotations

from domain.entries import Weighing
from domain.verdicts import Facts
from tests.domain.reading.chats import Reader, on_the_road


def weighings(text: str, reads: Reader) -> list[Weighing]:
    """The weighings that a message states; it states nothing else, and no place."""
    read = reads(text, on_the_road())
    assert isinstance(read, Facts), text
    found = [each for each in read.entries if isinstance(each, Weighing)]
    assert len(found) == len(read.entries)
    assert all(each.place is None for each in found)
    return found


def loads(text: str, reads: Reader) -> dict[str, float]:
    """The loads of the one weighing that a message states, in pounds."""
    (only,) = weighings(text, reads)
    return {at: load.value for at, load in only.loads.items()}
