"""How Drawbar introduces itself on a network that has a page and a menu for it.

This file decides the words of the menu and what is said of them, in each language that answers
have. Every word of it is read in any chat, whatever its language: a telephone's own language is
not always that of the logbook.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from bot.answers.language import languages, say, say_of, speaking, spoken_as


@dataclass(frozen=True, slots=True, kw_only=True)
class Introduction:
    """What a network shows of Drawbar in one language: a line, a paragraph, and the menu.

    `menu` is what can be texted, each with what it brings.
    """

    language: str
    about: str
    description: str
    menu: Mapping[str, str]


def introductions() -> tuple[Introduction, ...]:
    """The introduction in each language, English first."""
    return tuple(_introduction(code) for code in languages())


def _introduction(code: str) -> Introduction:
    with speaking(spoken_as(code)):
        return Introduction(
            language=code,
            about=say(
                "Text it scale readings and fill-ups; it answers with weights, margins and economy."
            ),
            description=say(
                "A logbook that you text: scale readings, odometer and fill-ups in; weights,"
                " margins to every rating and economy out. Text while parked, or let the passenger"
                " do it. Door label, maker's manual, local law and a licensed mechanic govern."
            ),
            menu={
                say_of("menu", "help"): say("What can be told and asked"),
                say_of("menu", "ratings"): say("Every rating that is known"),
                say_of("menu", "weight"): say("The last weighing"),
                say_of("menu", "margins"): say("What is left to every rating"),
                say_of("menu", "economy"): say("Fuel economy and cost"),
                say_of("menu", "trip"): say("The last trip"),
                say_of("menu", "week"): say("The week so far"),
                say_of("menu", "undo"): say("Take the last entry back"),
            },
        )
