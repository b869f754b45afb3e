"""The terminal as a network: lines in, answers out."""

from __future__ import annotations

import io
from collections.abc import AsyncIterator
from datetime import UTC, datetime

from rich.console import Console

from bot.answers.answer import Answer, Row
from bot.answers.plain import as_text
from bot.messages import Delivered, Letter, Message
from bot.networks.terminal import PipedTerminal, ShownTerminal, chat, piped_lines

AT = datetime(2026, 7, 11, 20, 22, tzinfo=UTC)

OVER = Answer(
    headline="60 lb over the drive axle.",
    rows=(Row("Drive axle", "7,060 lb", "of 7,000 lb"), Row("Steer", "4,380 lb")),
    notes=("Don't tow it like this.",),
    choices=("flatdeck", "camper"),
)
PLAIN = """\
60 lb over the drive axle.
  Drive axle  7,060 lb  of 7,000 lb
  Steer       4,380 lb
Don't tow it like this.
  1  flatdeck
  2  camper"""


def test_figures_stand_in_columns_and_choices_under_their_numbers() -> None:
    assert as_text(OVER) == PLAIN


def test_an_answer_that_is_one_sentence_is_one_line() -> None:
    assert as_text(Answer(headline="Noted: brakes grab when wet")) == "Noted: brakes grab when wet"


async def test_piped_answers_are_plain_text() -> None:
    out = io.StringIO()
    assert (
        await PipedTerminal(out).send(Letter(chat="home", answer=OVER, key="drawbar-1"))
        == Delivered()
    )
    assert out.getvalue() == PLAIN + "\n"


async def test_shown_answers_say_the_same_as_piped_ones() -> None:
    out = io.StringIO()
    network = ShownTerminal(Console(file=out, width=80))
    assert await network.send(Letter(chat="home", answer=OVER, key="drawbar-1")) == Delivered()
    assert [line.rstrip() for line in out.getvalue().splitlines()] == PLAIN.splitlines()


async def test_an_answer_with_square_brackets_is_shown_as_it_is() -> None:
    out = io.StringIO()
    await ShownTerminal(Console(file=out, width=80)).send(
        Letter(chat="home", answer=Answer(headline="[bold]"), key="drawbar-1")
    )
    assert out.getvalue() == "[bold]\n"


async def test_each_piped_line_is_a_message_and_blank_ones_are_none() -> None:
    source = io.StringIO("odo 48211\n\n   \r\n  how heavy are we?\nlast, without an end")
    lines = [line async for line in piped_lines(source)]
    assert lines == ["odo 48211", "how heavy are we?", "last, without an end"]


async def test_lines_are_taken_one_after_the_other_under_ids_of_their_own() -> None:
    taken: list[Message] = []

    async def take(message: Message) -> None:
        taken.append(message)

    async def lines() -> AsyncIterator[str]:
        for line in ("odo 48211", "odo 48211"):
            yield line

    await chat(lines(), "Wren", lambda: AT, take)
    first, second = taken
    assert first.id != second.id
    assert (first.network, first.chat, first.author, first.name) == (
        "terminal",
        "home",
        "wren",
        "Wren",
    )
    assert (first.sent_at, first.text) == (AT, "odo 48211")
