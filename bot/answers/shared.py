"""What is said about who shares a logbook.

This file words what a stranger, a newcomer, a reader and a keeper are told about getting in,
letting others in, and who is in. Who that is, the store knows.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from bot.answers.answer import Answer, Row
from bot.answers.words import counted, sentence


@dataclass(frozen=True, slots=True, kw_only=True)
class Sharer:
    """A chat that shares the logbook, as its people know it."""

    title: str
    network: str
    keeps: bool
    here: bool


def reader_answer() -> Answer:
    """The reply to figures from a chat that doesn't write."""
    return Answer(headline="This chat reads the logbook; nothing was kept.")


def stranger_answer() -> Answer:
    """The one sentence to a chat that nobody let in."""
    return Answer(headline="This logbook opens with a code. Text me the code if you have one.")


def wrong_code_answer() -> Answer:
    """The reply to a code that opens nothing."""
    return Answer(headline="That code opens nothing here. Ask for a new one.")


def has_its_own_answer() -> Answer:
    """A chat that has entries of its own can't join another logbook only to read."""
    return Answer(
        headline="This chat has a logbook of its own and stays with it.",
        notes=("A code to keep the other one would bring its entries along.",),
    )


def welcome_answer(*, keeps: bool, empty: bool) -> Answer:
    """A chat was let in."""
    if not keeps:
        return Answer(
            headline="This chat reads the logbook now.",
            notes=("It gets the summary each week, and can ask: how heavy are we?",),
        )
    if not empty:
        return Answer(
            headline="This chat keeps the logbook now.",
            notes=("Text readings as they come; help shows what can be told.",),
        )
    return Answer(
        headline="This chat keeps the logbook now.",
        rows=(
            Row("first", "truck NAME gvwr 11500 front axle 5600 rear axle 7000"),
            Row("then", "trailer NAME gvwr 12000 axles 2x6000"),
        ),
        notes=("The figures are on the door label and the trailer's plate. The rest can wait.",),
    )


def code_answer(code: str, *, keeps: bool) -> Answer:
    """A code for one more chat."""
    can = "keeps the logbook with you" if keeps else "reads the logbook and gets the week's summary"
    return Answer(
        headline=f"Code for one more chat: {code}",
        notes=(
            f"Text it to me there: that chat {can}.",
            "It works once, until this time tomorrow.",
        ),
    )


def members_answer(sharers: Sequence[Sharer]) -> Answer:
    """Who shares the logbook."""
    rows = tuple(
        Row(f"{number}", _named(each), "this chat" if each.here else "")
        for number, each in enumerate(sharers, start=1)
    )
    return Answer(
        headline=f"{sentence(counted(len(sharers), 'chat'))} on this logbook.",
        rows=rows,
        notes=("To take one off: remove 2. To let one in: invite, or invite reader.",),
    )


def removed_answer(sharer: Sharer) -> Answer:
    """A chat was shown out."""
    return Answer(headline=f"{_named(sharer)} is off the logbook. What it logged stays.")


def which_member_answer(sharers: Sequence[Sharer]) -> Answer:
    """Nobody, or several, are called so."""
    return Answer(
        headline="Which chat do you mean? Text remove with its number.",
        rows=members_answer(sharers).rows,
    )


def last_keeper_answer() -> Answer:
    """The only chat that writes can't go."""
    return Answer(headline="That is the only chat that keeps this logbook; it stays.")


def _named(sharer: Sharer) -> str:
    role = "keeps" if sharer.keeps else "reads"
    return f"{sharer.title or sharer.network} ({sharer.network}, {role})"
