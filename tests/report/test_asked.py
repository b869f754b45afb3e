"""A report asked for in a chat: what is read as such, and how the file goes with its words."""

from __future__ import annotations

import asyncio
from concurrent.futures import ThreadPoolExecutor
from dataclasses import replace
from datetime import UTC, date, datetime
from pathlib import Path

import pytest

from bot.answers import dispatch
from bot.answers.answer import Answer
from bot.delivery import Delivery
from bot.messages import Letter
from bot.phrasebook import phrasebook
from bot.pictures.studio import Studio
from bot.report.value import Report
from bot.store import journal, outbox
from bot.store.database import open_store
from domain.context import Context
from domain.reading import read
from domain.verdicts import PAGE, Question
from tests.letters import Letters
from tests.report.conftest import NOW, Book

CHAT = Context(
    sent_at=datetime(2026, 7, 11, 20, 22, tzinfo=UTC),
    truck="Juniper",
    trailers=("flatdeck", "camper"),
)


@pytest.mark.parametrize(
    ("text", "wish"),
    [
        ("report", Question(topic="period", form=PAGE)),
        ("Print this.", Question(topic="period", form=PAGE)),
        ("send me the report please", Question(topic="period", form=PAGE)),
        ("trip report", Question(topic="trip", form=PAGE)),
        ("report of the last trip", Question(topic="trip", form=PAGE)),
        (
            "report for june",
            Question(topic="period", since=date(2026, 6, 1), until=date(2026, 6, 30), form=PAGE),
        ),
        (
            "report for last month",
            Question(topic="period", since=date(2026, 6, 1), until=date(2026, 6, 30), form=PAGE),
        ),
        (
            "report for 2025",
            Question(topic="period", since=date(2025, 1, 1), until=date(2025, 12, 31), form=PAGE),
        ),
    ],
)
def test_a_wish_for_a_report_is_a_question(text: str, wish: Question) -> None:
    assert read(text, CHAT, phrasebook()) == replace(wish, text=text)


@pytest.mark.parametrize(
    "text",
    [
        "report for duty",
        "the report of your teacher came",
        "school report is in",
        "did you print this",
        "weather report for tomorrow",
    ],
)
def test_talk_of_other_reports_is_no_wish(text: str) -> None:
    verdict = read(text, CHAT, phrasebook())
    assert not (isinstance(verdict, Question) and verdict.form == PAGE)


def asked(book: Book, question: Question) -> Answer:
    return dispatch.question_answer(book.log, book.preferences, NOW, question)


def test_the_answer_says_which_days_and_carries_the_report(season: Book) -> None:
    june = Question(topic="period", since=date(2026, 6, 1), until=date(2026, 6, 30), form=PAGE)
    answer = asked(season, june)
    assert answer.headline == "Report: Logbook of Juniper, 1 Jun 2026 to 30 Jun 2026."
    assert answer.document is not None
    assert answer.document.span == "1 Jun 2026 to 30 Jun 2026"


def test_days_without_an_entry_are_answered_in_a_sentence(season: Book) -> None:
    answer = asked(
        season, Question(topic="period", since=date(2020, 1, 1), until=date(2020, 1, 2), form=PAGE)
    )
    assert answer == Answer(headline="1 Jan 2020 to 2 Jan 2020: nothing logged.")


def delivered(book: Book, folder: Path, studio: Studio | None) -> Letter:
    """The letter with the report of the trip, once it waited in the database."""
    store, post = open_store(str(folder / "post.db")), Letters("demo")
    with store.work() as session:
        row = journal.open_chat(session, "demo", "hives", book.preferences, NOW)
        outbox.queue(session, row.id, asked(book, Question(topic="trip", form=PAGE)), NOW)
        session.commit()
    with ThreadPoolExecutor(1) as worker:
        delivery = Delivery(store, {"demo": post}, lambda: NOW, worker, studio=studio)
        asyncio.run(delivery.deliver())
    store.close()
    (letter,) = post.kept
    return letter


def test_a_letter_takes_the_file_along(weekend: Book, tmp_path: Path) -> None:
    studio = Studio()
    letter = delivered(weekend, tmp_path, studio)
    studio.close()
    assert letter.document is not None
    assert letter.document.name == "Orchard trip, 30 May 2026 to 31 May 2026.pdf"
    assert letter.document.pdf.startswith(b"%PDF-")
    assert letter.answer.notes == ()


def test_where_no_files_go_the_words_say_how_to_have_one(weekend: Book, tmp_path: Path) -> None:
    letter = delivered(weekend, tmp_path, None)
    assert letter.document is None
    assert "`drawbar report FILE` writes it" in letter.answer.notes[-1]


def test_a_report_that_cannot_be_printed_leaves_the_words(weekend: Book, tmp_path: Path) -> None:
    def jammed(report: Report) -> bytes:
        raise OSError("paper jam")

    studio = Studio(print_=jammed)
    letter = delivered(weekend, tmp_path, studio)
    studio.close()
    assert letter.document is None
    assert "`drawbar report FILE` writes it" in letter.answer.notes[-1]
