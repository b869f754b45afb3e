"""Whether something was done, asked without a mark: nobody told it, and nothing is kept."""

from __future__ import annotations

import pytest

from domain.entries import Check, Correction, Fill, Hitch, Observation, Weighing
from domain.verdicts import Facts, Question, Silent
from tests.domain.reading.chats import Reader, chat, on_the_road

ASKED = """
    is the trailer hitched
    are we hitched
    was the camper hitched
    so is the camper hitched up yet
    is our camper on
    is the flatdeck off
    which trailer is on
    which trailer did we hitch
    when was the camper hitched
    where was the flatdeck unhitched
    are they hooked up
    is juniper hitched
    were the chains crossed
    was the tank full
    did the turn signal get fixed
    did the lug nuts get torqued
    have the lug nuts been torqued
    has the camper been hitched yet
    have we hitched up
    did the straps stay tight
    arent the lugs torqued
    do we have the camper hitched
    is the trans at 210
    did it take 31.4 gallons
    did we put in 31.4 gal
    is the odometer at 48211
    was the drive axle 6100
    was the tongue 1160
    were the tires at 80 psi
    can we call it 31.4 gal
    room for another hive box 80 lb on the tongue
    got room for a quad, 640 lb
"""

TOLD = {
    "the camper is hitched": Hitch,
    "hitched": Hitch,
    "camper is on": Hitch,
    "where we are: hitched the camper": Hitch,
    "when we stopped hitched the camper": Hitch,
    "which brings us to hitched the camper, 48,211": Hitch,
    "chains were crossed": Check,
    "did the oil change": Check,
    "did the lug nuts": Check,
    "have the camper hitched": Hitch,
    "did the tires, 80 psi all around": Observation,
    "did 31.4 gal": Fill,
    "is steer 5280 and drive 4620": Weighing,
    "was full": Correction,
}


@pytest.mark.parametrize("text", [line.strip() for line in ASKED.strip().splitlines()])
def test_what_is_asked_was_not_done(text: str, reads: Reader) -> None:
    assert isinstance(reads(text, on_the_road()), Silent | Question)
    assert isinstance(reads(text, chat()), Silent | Question)


@pytest.mark.parametrize(("text", "kind"), TOLD.items(), ids=TOLD.keys())
def test_what_is_told_in_like_words_was(text: str, kind: type, reads: Reader) -> None:
    told = reads(text, on_the_road())
    assert isinstance(told, Facts)
    assert isinstance(told.entries[0], kind)
