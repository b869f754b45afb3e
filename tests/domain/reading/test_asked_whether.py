"""Whether something was done, asked without a mark: nobody told it, and nothing is kept."""

from __future__ import annotations

import pytest

from domain.entries import Check, Correction, Hitch
from domain.verdicts import Facts, Silent
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
"""

TOLD = {
    "the camper is hitched": Hitch,
    "hitched": Hitch,
    "camper is on": Hitch,
    "where we are: hitched the camper": Hitch,
    "when we stopped hitched the camper": Hitch,
    "which brings us to hitched the camper, 48,211": Hitch,
    "chains were crossed": Check,
    "was full": Correction,
}


@pytest.mark.parametrize("text", [line.strip() for line in ASKED.strip().splitlines()])
def test_what_is_asked_was_not_done(text: str, reads: Reader) -> None:
    assert reads(text, on_the_road()) == Silent()
    assert reads(text, chat()) == Silent()


@pytest.mark.parametrize(("text", "kind"), TOLD.items(), ids=TOLD.keys())
def test_what_is_told_in_like_words_was(text: str, kind: type, reads: Reader) -> None:
    told = reads(text, on_the_road())
    assert isinstance(told, Facts)
    assert isinstance(told.entries[0], kind)
