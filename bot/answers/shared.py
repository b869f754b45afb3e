"""What is said about who shares a logbook.

This file words what a stranger, a newcomer, a reader and a keeper are told about getting in,
letting others in, and who is in. Who that is, the store knows.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from bot.answers.answer import Answer, Row
from bot.answers.examples import A_TRAILER, A_TRUCK, texted
from bot.answers.language import say, say_count
from domain.log import Preferences


@dataclass(frozen=True, slots=True, kw_only=True)
class Sharer:
    """A chat that shares the logbook, as its people know it."""

    title: str
    network: str
    keeps: bool
    here: bool


def reader_answer() -> Answer:
    """The reply to figures from a chat that doesn't write."""
    return Answer(headline=say("This chat reads the logbook; nothing was kept."))


def stranger_answer() -> Answer:
    """The one sentence to a chat that nobody let in."""
    return Answer(headline=say("This logbook opens with a code. Text me the code if you have one."))


def wrong_code_answer() -> Answer:
    """The reply to a code that opens nothing."""
    return Answer(headline=say("That code opens nothing here. Ask for a new one."))


def has_its_own_answer() -> Answer:
    """A chat that has entries of its own can't join another logbook only to read."""
    return Answer(
        headline=say("This chat has a logbook of its own and stays with it."),
        notes=(say("A code to keep the other one would bring its entries along."),),
    )


def welcome_answer(preferences: Preferences, *, keeps: bool, empty: bool) -> Answer:
    """A chat was let in."""
    if not keeps:
        return Answer(
            headline=say("This chat reads the logbook now."),
            notes=(say("It gets the summary each week, and can ask: how heavy are we?"),),
        )
    if not empty:
        return Answer(
            headline=say("This chat keeps the logbook now."),
            notes=(say("Text readings as they come; help shows what can be told."),),
        )
    return Answer(
        headline=say("This chat keeps the logbook now."),
        rows=(
            Row(say("first"), texted(A_TRUCK, preferences)),
            Row(say("then"), texted(A_TRAILER, preferences)),
        ),
        notes=(
            say("The figures are on the door label and the trailer's plate. The rest can wait."),
        ),
    )


def code_answer(code: str, *, keeps: bool) -> Answer:
    """A code for one more chat."""
    return Answer(
        headline=say("Code for one more chat: {code}", code=code),
        notes=(
            say("Text it to me there: that chat keeps the logbook with you.")
            if keeps
            else say(
                "Text it to me there: that chat reads the logbook and gets the week's summary."
            ),
            say("It works once, until this time tomorrow."),
        ),
    )


def members_answer(sharers: Sequence[Sharer]) -> Answer:
    """Who shares the logbook."""
    rows = tuple(
        Row(f"{number}", _named(each), say("this chat") if each.here else "")
        for number, each in enumerate(sharers, start=1)
    )
    return Answer(
        headline=say_count(
            "{count} chat on this logbook.", "{count} chats on this logbook.", len(sharers)
        ),
        rows=rows,
        notes=(say("To take one off: remove 2. To let one in: invite, or invite reader."),),
    )


def removed_answer(sharer: Sharer) -> Answer:
    """A chat was shown out."""
    return Answer(
        headline=say("{chat} is off the logbook. What it logged stays.", chat=_named(sharer))
    )


def which_member_answer(sharers: Sequence[Sharer]) -> Answer:
    """Nobody, or several, are called so."""
    return Answer(
        headline=say("Which chat do you mean? Text remove with its number."),
        rows=members_answer(sharers).rows,
    )


def last_keeper_answer() -> Answer:
    """The only chat that writes can't go."""
    return Answer(headline=say("That is the only chat that keeps this logbook; it stays."))


def _named(sharer: Sharer) -> str:
    role = say("keeps") if sharer.keeps else say("reads")
    return f"{sharer.title or sharer.network} ({sharer.network}, {role})"
