"""Whose a vehicle is where nobody typed the apostrophe."""

from __future__ import annotations

import pytest

from domain.verdicts import Facts, Silent
from tests.domain.reading.chats import Reader, on_the_road


@pytest.mark.parametrize(
    "text",
    [
        "bro jaxons truck weighs like 9k empty thats nuts",
        "daves rig grossed 21,300 lol",
        "the hendersons trailer is 3,400 lb",
        "the neighbors new camper has a GVWR of 9,995",
        "Neds trailer 2,340 lb on the plate",
    ],
)
def test_what_somebody_elses_weighs_is_talk(text: str, reads: Reader) -> None:
    assert isinstance(reads(text, on_the_road()), Silent)


@pytest.mark.parametrize(
    "text",
    [
        "our flatdecks truck weighs 9,060, steer 5,180 drive 3,880",
        "350 class truck, steer 5,180 drive 6,900",
        "junipers truck axles 5,180 6,900",
    ],
)
def test_our_own_and_words_that_are_no_name_are_read(text: str, reads: Reader) -> None:
    verdict = reads(text, on_the_road())
    assert isinstance(verdict, Facts), verdict
