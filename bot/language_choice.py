"""What a chat asks about the language of its answers.

This file decides which language a name means and who may choose (chats that keep the logbook),
and carries it out in the transaction of the message that asks: the confirmation comes in the new
language already. It words nothing.
"""

from __future__ import annotations

import unicodedata
from dataclasses import replace

from babel import Locale
from sqlalchemy.orm import Session

from bot.answers import setup, shared
from bot.answers.answer import Answer
from bot.answers.language import language_of, languages, speaking
from bot.store import journal
from bot.store.seen import Chat
from bot.store.tables import LogbookRow
from domain.verdicts import Question

ALSO_CALLED = {"castellano": "es"}
"""Names of a language that CLDR does not give it."""


def language_answer(session: Session, chat: Chat, question: Question) -> Answer:
    """Let the answers of a chat's logbook be in the language that is named."""
    if chat.role != journal.KEEPER:
        return shared.reader_answer()
    code = code_of(question.item or "")
    if code is None:
        return setup.which_language_answer()
    row = session.get_one(LogbookRow, chat.logbook.id)
    row.language = code
    with speaking(language_of(replace(journal.preferences_of(row), language=code))):
        return setup.language_answer()


def code_of(name: str) -> str | None:
    """The code of the language that is called so, in English or by its own people."""
    known = dict(ALSO_CALLED)
    for code in languages():
        locale = Locale(code)
        known |= dict.fromkeys((code, *_names(locale)), code)
    return known.get(_plain(name))


def _names(locale: Locale) -> tuple[str, ...]:
    """What a language is called in each of the languages that there are."""
    called = (locale.get_language_name(other) for other in languages())
    return tuple(_plain(name) for name in called if name)


def _plain(name: str) -> str:
    """A name without its accents and capitals."""
    letters = unicodedata.normalize("NFD", name.casefold())
    return "".join(each for each in letters if not unicodedata.combining(each))
