"""The language of a logbook, from the setting or by text, through the whole of Drawbar."""

from __future__ import annotations

import asyncio
from datetime import UTC, datetime, timedelta
from itertools import count
from pathlib import Path

import pytest
from sqlalchemy import select

from bot.answers.answer import Answer
from bot.configuration import configuration
from bot.conversation import Conversation
from bot.messages import Message
from bot.settings import WrongSetting, settings
from bot.store import journal, outbox
from bot.store.database import open_store
from bot.store.tables import ChatRow, OutboxRow
from bot.wiring import drawbar, reader
from domain.log import Preferences
from tests.letters import Letters
from tests.store.logbooks import queue_due

SATURDAY = datetime(2026, 5, 30, 14, 0, tzinfo=UTC)
NETWORK = "ear"
CHAT = "hives"


async def said(folder: Path, *texts: str, language: str | None = None) -> list[Answer]:
    """What is answered to texts, in a new logbook or the one that is there."""
    ear = Letters(NETWORK)
    chosen = settings(database=str(folder / "log.db"), time_zone="UTC", language=language)
    async with drawbar(chosen, [ear]) as running:
        for text in texts:
            await running.take(texted(text, next(NUMBERS)))
    return ear.answers


NUMBERS = count(1)


def texted(text: str, number: int) -> Message:
    return Message(
        network=NETWORK,
        chat=CHAT,
        id=str(number),
        author="wren",
        name="Wren",
        sent_at=SATURDAY + timedelta(minutes=number),
        text=text,
        private=True,
    )


def headlines(answers: list[Answer]) -> list[str]:
    return [each.headline for each in answers]


def test_a_logbook_that_is_set_to_spanish_is_answered_in_spanish(tmp_path: Path) -> None:
    told = asyncio.run(said(tmp_path, "odo 48211", "mpg?", language="es"))
    assert headlines(told) == [
        "Odómetro 48,211 mi.",
        "Todavía no hay un tanque completo con que calcular.",
    ]


def test_a_logbook_keeps_its_language_from_one_start_to_the_next(tmp_path: Path) -> None:
    asyncio.run(said(tmp_path, "odo 48211", language="es"))
    assert headlines(asyncio.run(said(tmp_path, "odo 48212"))) == ["Odómetro 48,212 mi."]


@pytest.mark.parametrize(
    "text", ["language spanish", "en español", "idioma español", "Answer in Spanish, please."]
)
def test_a_chat_chooses_its_language_by_text(tmp_path: Path, text: str) -> None:
    told = asyncio.run(
        said(tmp_path, "odo 48211", text, "odo 48230", "language english", "odo 48240")
    )
    assert headlines(told) == [
        "Odometer 48,211 mi.",
        "De ahora en adelante respondo en español.",
        "Odómetro 48,230 mi.",
        "Answers come in English from now on.",
        "Odometer 48,240 mi.",
    ]


def test_talk_about_a_language_chooses_none(tmp_path: Path) -> None:
    assert asyncio.run(said(tmp_path, "she said it in spanish")) == []


def test_a_chat_that_only_reads_chooses_nothing(tmp_path: Path) -> None:
    asyncio.run(said(tmp_path, "odo 48211"))
    store = open_store(tmp_path / "log.db")
    with store.work() as session:
        chat = journal.chat_of(session, NETWORK, CHAT)
        assert chat is not None
        chat.role = journal.READER
        session.commit()
    store.close()
    told = asyncio.run(said(tmp_path, "language spanish"))
    assert headlines(told) == ["This chat reads the logbook; nothing was kept."]


def test_the_week_is_told_in_the_logbooks_language(tmp_path: Path) -> None:
    store = open_store(tmp_path / "log.db")
    spanish = Preferences(language="es")
    chat = Conversation(store, reader(), lambda: SATURDAY, spanish)
    for number, text in enumerate(("odo 48211", "odo 48411"), start=1):
        chat.take(texted(text, number))
    assert queue_due(store, SATURDAY) == 0
    assert queue_due(store, SATURDAY + timedelta(days=3)) == 1
    with store.look() as session:
        waiting = session.scalars(select(OutboxRow).order_by(OutboxRow.id)).all()
    store.close()
    week = outbox.answer_from_record(waiting[-1].body)
    assert week.headline == "Lun 25 a dom 31 may: 200 mi."


def test_a_doubt_and_its_choices_come_in_the_logbooks_language(tmp_path: Path) -> None:
    (answer,) = asyncio.run(said(tmp_path, "4960 6100 8480 19450", language="es"))
    assert answer.headline == (
        "Los ejes suman 19,540 lb, el peso bruto dice 19,450 lb. ¿Qué cifra está mal?"
    )
    assert answer.choices == ("19,540 lb de peso bruto", "los ejes, sin peso bruto")


def test_a_choice_is_picked_by_a_word_of_the_logbooks_language(tmp_path: Path) -> None:
    told = asyncio.run(
        said(tmp_path, "4960 6100 8480 19450", "los ejes", "borra eso", language="es")
    )
    assert told[2].headline == (
        "Anulado: dirección 4,960 lb, motriz 6,100 lb, ejes del remolque 8,480 lb."
    )


def test_what_is_not_kept_is_said_in_the_logbooks_language(tmp_path: Path) -> None:
    told = asyncio.run(said(tmp_path, "odo 48211", "7 of 9?", "x" * 20_000, language="es"))
    assert headlines(told)[1:] == [
        "No sé qué es eso; no se guarda nada. Envíalo con una palabra para cada cifra.",
        "Es demasiado largo para mí; no se guarda nada. Envíalo por partes.",
    ]


def test_the_served_are_set_to_a_language_by_the_environment() -> None:
    environment = {"DRAWBAR_LANGUAGE": "es", "DRAWBAR_TELEGRAM_TOKEN": "12345:" + "a" * 35}
    assert configuration(None, environment).settings.preferences.language == "es"


def test_a_language_that_there_is_none_of_is_a_wrong_setting() -> None:
    with pytest.raises(WrongSetting, match="--language is 'fr'; it wants en or es"):
        settings(language="fr")


def test_a_logbook_begun_before_there_were_languages_goes_on_in_english(tmp_path: Path) -> None:
    asyncio.run(said(tmp_path, "odo 48211"))
    store = open_store(tmp_path / "log.db")
    with store.look() as session:
        chat = session.get_one(ChatRow, 1)
        assert journal.preferences_in(session, chat.id).language == "en"
    store.close()


def test_what_is_said_of_a_lost_key_comes_in_the_logbooks_language(tmp_path: Path) -> None:
    async def asked() -> str:
        chosen = settings(database=str(tmp_path / "log.db"), time_zone="UTC", language="es")
        async with drawbar(chosen, [Letters(NETWORK)]) as running:
            return (await running.sealed_answer(NETWORK, CHAT)).headline

    assert asyncio.run(asked()).startswith("Todavía no puedo descifrar")
