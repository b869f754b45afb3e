"""What is said when something outside the log goes wrong.

This file decides the words for a database that can't be written to and for answers that can't
be delivered. It does not know how either is noticed.
"""

from __future__ import annotations

from bot.answers.answer import Answer


def not_written_answer() -> Answer:
    """What a sender is told at once where their message can't be put on the disk yet."""
    return Answer(
        headline="I can't write that down just now.",
        notes=("I keep trying, and answer once it is in the log.",),
    )


def undelivered_answer(network: str, chat: str, reason: str) -> Answer:
    """What another keeper of a logbook is told of a chat that can't be reached."""
    return Answer(
        headline=f"Answers to the {network} chat {chat} can't be delivered.",
        notes=(f"The network says: {reason}", "What was texted there is in the log."),
    )
