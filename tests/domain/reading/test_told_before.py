"""What one says that one told before: put right with any figure like it, and no news by itself."""

from __future__ import annotations

import pytest

from domain.entries import Correction
from domain.quantities import Quantity
from domain.verdicts import Facts, Silent
from tests.domain.reading.chats import Reader, on_the_road

UNDO = Correction(action="undo")


def amended(field: str, value: tuple[float, str], was: tuple[float, str] | None) -> Correction:
    before = Quantity(*was) if was else None
    return Correction(action="amend", field=field, value=Quantity(*value), was=before)


@pytest.mark.parametrize(
    ("text", "correction"),
    [
        (
            "the 31.9 gallons i gave you earlier? really 29.1",
            amended("volume", (29.1, "gal"), (31.9, "gal")),
        ),
        (
            "the 31.9 gallons i gave you this morning is really 29.1",
            amended("volume", (29.1, "gal"), (31.9, "gal")),
        ),
        ("i gave you 31.9 gallons, really 29.1", amended("volume", (29.1, "gal"), (31.9, "gal"))),
        (
            "i told you 412 on the trip meter, its 421.6",
            amended("distance", (421.6, "mi"), (412, "mi")),
        ),
        ("told you 5,310 on the steers, its 5,020", amended("steer", (5020, "lb"), (5310, "lb"))),
        (
            "drive is 6,480 on the ticket, i wrote 6,840",
            amended("drive", (6480, "lb"), (6840, "lb")),
        ),
        (
            "steer axle is 5,020 on the slip and i'd gone and written 5,200, please fix",
            amended("steer", (5020, "lb"), (5200, "lb")),
        ),
        (
            "price per gallon was 3.629, my bad, missread the pump",
            amended("unit_price", (3.629, "USD/gal"), None),
        ),
        ("take that last weigh-in off again would you, the jack was still down", UNDO),
        ("take the last fill off again", UNDO),
        ("delete what i just sent pls & thank you", UNDO),
    ],
)
def test_it_is_put_right(reads: Reader, text: str, correction: Correction) -> None:
    assert reads(text, on_the_road()) == Facts((correction,))


@pytest.mark.parametrize(
    "text",
    [
        "what about the 31.9 gallons i gave you earlier",
        "i told you 20 bucks, its 31",
        "it was 20 dollars, sorry im late",
        "it was 14 gallons of paint, sorry, misread the label",
        "take the camper off again would you",
        "take the last fuel out, its gone off",
    ],
)
def test_nothing_is_put_right_or_told_anew(reads: Reader, text: str) -> None:
    assert reads(text, on_the_road()) == Silent()
