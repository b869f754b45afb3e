"""What every test of the reader needs: the English phrasebook, and a way to read with it."""

from __future__ import annotations

import pytest

from bot.phrasebook import phrasebook
from domain.context import Context
from domain.reading import Phrasebook, read
from domain.verdicts import Verdict
from tests.domain.reading.chats import Reader, chat


@pytest.fixture(scope="session")
def book() -> Phrasebook:
    """The English phrasebook, compiled once."""
    return phrasebook()


@pytest.fixture(scope="session")
def reads(book: Phrasebook) -> Reader:
    """Read a text, in a chat that knows nothing unless one is given."""

    def reader(text: str, context: Context | None = None) -> Verdict:
        return read(text, context or chat(), book)

    return reader
