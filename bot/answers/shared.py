"""What a chat that only reads a logbook is told.

This file words the one answer that a reader's chat gets to what it states. Which chats are
readers, the store knows.
"""

from __future__ import annotations

from bot.answers.answer import Answer


def reader_answer() -> Answer:
    """The reply to figures from a chat that doesn't write."""
    return Answer(headline="This chat reads the logbook; nothing was kept.")
