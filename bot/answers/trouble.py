"""What is said when something outside the log goes wrong.

This file decides the words for a database that can't be written to, for answers that can't be
delivered and for messages that can't be decrypted. It does not know how any of them is noticed.
"""

from __future__ import annotations

from dataclasses import replace

from bot.answers.answer import Answer
from bot.answers.language import say


def not_written_answer() -> Answer:
    """What a sender is told at once where their message can't be put on the disk yet."""
    return Answer(
        headline=say("I can't write that down just now."),
        notes=(say("I keep trying, and answer once it is in the log."),),
    )


def too_long_answer() -> Answer:
    """What is said of a message with more text than is taken in."""
    return Answer(headline=say("That is too long for me; none of it is kept. Send it in parts."))


def too_many_answer() -> Answer:
    """What is said, once, where one person's messages come faster than they are taken in."""
    return Answer(
        headline=say("That was a lot at once. What comes in the next minute is not kept."),
        notes=(say("Send the rest again after that."),),
    )


def not_seen_answer(why: str) -> Answer:
    """What is said of a photo of which nothing could be read."""
    return Answer(headline=say(why))


def not_read_answer() -> Answer:
    """What somebody alone with Drawbar is told of a text that says nothing for the log."""
    return Answer(
        headline=say(
            "I can't tell what that is; nothing is kept. Send it with a word for each figure."
        ),
        notes=(say("help shows what can be told."),),
    )


def unprinted_answer(answer: Answer) -> Answer:
    """An answer whose document can't be had where it is said: in a terminal, or for now."""
    note = say("The file is not here; `drawbar report FILE` writes it where Drawbar runs.")
    return replace(answer, notes=(*answer.notes, note))


def undelivered_answer(network: str, chat: str, reason: str) -> Answer:
    """What another keeper of a logbook is told of a chat that can't be reached."""
    return Answer(
        headline=say(
            "Answers to the {network} chat {chat} can't be delivered.", network=network, chat=chat
        ),
        notes=(
            say("The network says: {reason}", reason=reason),
            say("What was texted there is in the log."),
        ),
    )


def undecryptable_answer() -> Answer:
    """What is said once in an encrypted chat where the key to a message did not come."""
    return Answer(headline=say("I can't decrypt this yet; if it stays so, please send it again."))
