"""Reading again what could not be read, once the reader knows better.

This file decides how what would change is shown: a line for each message of which something is
made by now, and nothing is changed unless that is asked for. It does not read messages itself.
"""

from __future__ import annotations

from collections.abc import Iterator

from bot.answers.brief import brief
from bot.answers.words import counted, day, listed
from bot.conversation import Conversation
from bot.settings import Settings
from bot.store import journal
from bot.store.database import Store, open_store
from bot.wiring import now, reader
from domain.verdicts import Facts


def reread_all(settings: Settings, apply: bool) -> Iterator[str]:
    """Lines that say what is made of each message by now; raises DatabaseTrouble."""
    store = open_store(settings.database)
    try:
        yield from reread(store, Conversation(store, reader(), now, settings.preferences), apply)
    finally:
        store.close()


def reread(store: Store, conversation: Conversation, apply: bool) -> Iterator[str]:
    """Read every waiting message again; with `apply` those that state something take effect."""
    with store.look() as session:
        keys = journal.unread(session)
    made = 0
    for key in keys:
        message, verdict = conversation.read_again(key)
        if not isinstance(verdict, Facts):
            continue
        made += 1
        read = listed([brief(entry) for entry in verdict.entries])
        yield f"{day(message.sent_at)}: {message.text}"
        yield f"  {read}"
        if apply:
            conversation.handle_again(key)
    yield _summed_up(made, len(keys), apply)


def _summed_up(made: int, waiting: int, apply: bool) -> str:
    if not waiting:
        return "No message waits to be read again."
    of_all = f"{made} of {counted(waiting, 'message')}"
    if apply:
        return f"{of_all} read again and in the log."
    if not made:
        return f"{of_all} can be read by now."
    return f"{of_all} can be read by now. To let them count: drawbar reread --apply"
