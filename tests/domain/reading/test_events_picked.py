"""Answers by what happened, by a sum, and with what another day brought."""

from __future__ import annotations

from dataclasses import replace

import pytest

from domain.entries import Entry, Fill, Odometer
from domain.quantities import Quantity
from domain.verdicts import Ask, Choice, Facts
from tests.domain.reading.chats import Reader, on_the_road

READING = Quantity(48_255, "mi")
LEFT, CAME = Odometer(odometer=READING, event="depart"), Odometer(odometer=READING, event="arrive")
WHICH_END = Ask("event", (Choice("departing", (LEFT,)), Choice("arriving", (CAME,))))

PAID = Fill(volume=Quantity(22, "gal"), cost=Quantity(83.2, "USD"))
UNPAID = replace(PAID, cost=None)
WHICH_SUM = Ask("cost", (Choice("83.20 total", (PAID,)), Choice("something else", (UNPAID,))))

DIESEL = Fill(product="diesel", volume=Quantity(2.5, "gal"))
FLUID = replace(DIESEL, product="def")
WHICH_FLUID = Ask("product", (Choice("diesel", (DIESEL,)), Choice("DEF", (FLUID,))))


@pytest.mark.parametrize(
    ("text", "asked", "picked"),
    [
        ("oh we were just setting off", WHICH_END, LEFT),
        ("we were heading out", WHICH_END, LEFT),
        ("just rolled in", WHICH_END, CAME),
        ("yeah thats the whole bill", WHICH_SUM, PAID),
        ("yep thats what i paid all in", WHICH_SUM, PAID),
        ("def, only diesel i bought was friday", WHICH_FLUID, FLUID),
        ("def, the diesel was yesterday", WHICH_FLUID, FLUID),
    ],
)
def test_a_word_picks(reads: Reader, text: str, asked: Ask, picked: Entry) -> None:
    assert reads(text, replace(on_the_road(), asked=asked)) == Facts((picked,))


@pytest.mark.parametrize(
    ("text", "asked"),
    [
        ("setting off with the kids tomorrow", WHICH_END),
        ("we hadnt left yet", WHICH_END),
        ("yeah thats the whole point", WHICH_SUM),
        ("thats the bill for dinner", WHICH_SUM),
        ("def, dad bought diesel", WHICH_FLUID),
    ],
)
def test_nothing_is_picked(reads: Reader, text: str, asked: Ask) -> None:
    choices = {choice.entries for choice in asked.choices}
    verdict = reads(text, replace(on_the_road(), asked=asked))
    assert not (isinstance(verdict, Facts) and verdict.entries in choices)
