"""A name of one word that was heard, or typed, as two."""

from __future__ import annotations

import pytest

from domain.entries import Hitch
from domain.verdicts import Facts, Question
from tests.domain.reading.chats import Reader, on_the_road


@pytest.mark.parametrize(
    ("text", "trailer"),
    [
        ("hitched the flat deck", "flatdeck"),
        ("unhitched the Flat Deck at home", "flatdeck"),
        ("hitched the work horse", "workhorse"),
        ("hooked up the honey-wagon", "honeywagon"),
    ],
)
def test_halves_are_the_name(text: str, trailer: str, reads: Reader) -> None:
    verdict = reads(text, on_the_road(trailers=("flatdeck", "workhorse", "honeywagon")))
    assert isinstance(verdict, Facts)
    (hitch,) = verdict.entries
    assert isinstance(hitch, Hitch)
    assert hitch.trailer == trailer


def test_it_is_asked_about_too(reads: Reader) -> None:
    verdict = reads("how much does the flat deck weigh", on_the_road())
    assert isinstance(verdict, Question)
    assert (verdict.topic, verdict.trailer) == ("weight", "flatdeck")


@pytest.mark.parametrize("text", ["hitched the trailer on the flat", "flat tire, deck is wet"])
def test_a_half_alone_is_no_name(text: str, reads: Reader) -> None:
    verdict = reads(text, on_the_road())
    trailers = {e.trailer for e in verdict.entries} if isinstance(verdict, Facts) else set()
    assert "flatdeck" not in trailers
