"""Corrections in people's own words: slips of thumbs and phones, and which trailer it was."""

from __future__ import annotations

import pytest

from domain.entries import Correction
from domain.quantities import Quantity
from domain.verdicts import Facts, Silent
from tests.domain.reading.chats import Reader, on_the_road


def amend(value: object, field: str | None = None, was: object = None) -> Correction:
    return Correction(action="amend", field=field, value=value, was=was)  # type: ignore[arg-type]


def lb(value: float) -> Quantity:
    return Quantity(value, "lb")


def mi(value: float) -> Quantity:
    return Quantity(value, "mi")


@pytest.mark.parametrize(
    ("text", "corrections"),
    [
        ("Correction: arrived 48,490 not 48,409", (amend(mi(48490), "odometer", mi(48409)),)),
        ("left 48,210 not 48,201", (amend(mi(48210), "odometer", mi(48201)),)),
        (
            "correction on the fill, it was 30.1 gal and 121.90",
            (amend(Quantity(30.1, "gal"), "volume"), amend(Quantity(121.9, "USD"), "cost")),
        ),
        (
            "fill was 31.4 not 34.1 and the price was 3.799",
            (amend(31.4, None, 34.1), amend(Quantity(3.799, "USD/gal"), "unit_price")),
        ),
        (
            "i had it backwards, steer 5,180 drive 6,920",
            (amend(lb(5180), "steer"), amend(lb(6920), "drive")),
        ),
        ("hold up thats 48,218", (amend(48218),)),
        ("dropped a digit, it's 48,218", (amend(48218),)),
        ("left off a zero, 6,880", (amend(6880),)),
        ("stupid autocorrect, drive is 6,880", (amend(lb(6880), "drive"),)),
        ("meant to say 48,318", (amend(48318),)),
        ("the trailer number was 8,860 i read it wrong", (amend(lb(8860), "trailer"),)),
        ("my last odometer was off by 100, 48,218", (amend(mi(48218), "odometer"),)),
        ("gross is off by 40, 21,540", (amend(lb(21540), "gross"),)),
        ("oops the generator is 120 lb", (amend(lb(120)),)),
        ("oops generator is 120 lb not 102", (amend(lb(120), None, lb(102)),)),
        ("it was Saltlick sorry not Larkfold", (amend("Saltlick", "place", "Larkfold"),)),
        ("wrong town - Saltlick", (amend("Saltlick", "place"),)),
        ("that last one was the camper", (amend("camper", "trailer"),)),
        ("wrong trailer, it was the flatdeck", (amend("flatdeck", "trailer"),)),
        ("sorry i meant the camper", (amend("camper", "trailer"),)),
        ("those were flatdeck weights not camper", (amend("flatdeck", "trailer", "camper"),)),
        ("it wasnt the camper, the flatdeck, sorry", ()),
        (
            "that ticket was the flatdeck, not the camper",
            (amend("flatdeck", "trailer", "camper"),),
        ),
        ("not the camper, the flatdeck", (amend("flatdeck", "trailer", "camper"),)),
        (
            "24.6 gal sorry, not 26.4",
            (amend(Quantity(24.6, "gal"), "volume", Quantity(26.4, "gal")),),
        ),
        ("my eyes are shot, make that 7,140", (amend(7140),)),
        ("hang on im seeing double, should be 48,218", (amend(48218),)),
        (
            "tongue's 1,095, sorry i put 1,059",
            (amend(lb(1095), "tongue", lb(1059)),),
        ),
        ("gross shoulda been 6.12 t", (amend(Quantity(6.12, "t"), "gross"),)),
        ("total should be 118.20", (amend(Quantity(118.2, "USD"), "cost"),)),
        ("change the trailer weight on that last ticket to 8,340", (amend(lb(8340), "trailer"),)),
        ("change the ticket to 40771", (amend(40771, "ticket"),)),
        ("Amend: odometer 48,218, was 48,281", (amend(mi(48218), "odometer", mi(48281)),)),
        (
            "Correction: volume 24.6, was 26.4",
            (amend(Quantity(24.6, "gal"), "volume", Quantity(26.4, "gal")),),
        ),
        ("i need chairs, make it 60", ()),
        ("my cousin is late, make that 6:30", ()),
        ("nvm that last one", (Correction(action="undo"),)),
        ("nevermind the last text", (Correction(action="undo"),)),
    ],
)
def test_it_is_put_right(reads: Reader, text: str, corrections: tuple[Correction, ...]) -> None:
    verdict = reads(text, on_the_road())
    assert verdict == (Facts(corrections) if corrections else Silent())


@pytest.mark.parametrize(
    "text",
    [
        "that's the camper's tire not the truck's",
        "that was the camper",
        "that last one was rough",
        "take the camper not the flatdeck",
        "was that last weigh the camper?",
        "tires are off by 10 psi",
        "the scale was off by 40 lb",
        "oops the package is 12 lb",
        "not bad, steer 5,160, was 5,240 last time",
        "i messed up",
        "autocorrect is funny",
        "i had them swapped at 48,230",
        "wrong town, Dave",
        "meant to say hi",
    ],
)
def test_nothing_is_put_right(reads: Reader, text: str) -> None:
    verdict = reads(text, on_the_road())
    entries = verdict.entries if isinstance(verdict, Facts) else ()
    assert not entries
