"""Questions as people put them in their own words, with what they say beside them."""

from __future__ import annotations

from dataclasses import replace
from datetime import date

import pytest

from domain.quantities import Quantity
from domain.verdicts import Question, Silent
from tests.domain.reading.chats import Reader, on_the_road


@pytest.mark.parametrize(
    ("text", "question"),
    [
        (
            "what's she drinking these days with the camper on",
            Question("economy", trailer="camper"),
        ),
        (
            "can i squeeze another 140 miles out of whats in there or am i walking",
            Question("range", distance=Quantity(140, "mi")),
        ),
        (
            "would she eke out another 60 miles on what's left in the tank",
            Question("range", distance=Quantity(60, "mi")),
        ),
        ("have we got enough on the ball or is she tail heavy you reckon", Question("tongue")),
        ("is she nose heavy or tail heavy", Question("tongue")),
        ("so um what kinda stuff am i able to ask you", Question("help")),
        ("what have we sunk into fuel since June 1", Question("cost", since=date(2026, 6, 1))),
        (
            "what did the log look like from 3 May through 17 May",
            Question("period", since=date(2026, 5, 3), until=date(2026, 5, 17)),
        ),
        (
            "how did our numbers look between May 3 and May 17",
            Question("period", since=date(2026, 5, 3), until=date(2026, 5, 17)),
        ),
        ("give me the past seven days", Question("period", since=date(2026, 7, 4))),
        ("anything wants greasing or tightening soon?", Question("upkeep")),
    ],
)
def test_it_is_asked(reads: Reader, text: str, question: Question) -> None:
    asked = reads(text, on_the_road())
    assert isinstance(asked, Question)
    assert replace(asked, form=None, text="") == question


@pytest.mark.parametrize(
    "text",
    [
        "what's he drinking at the bar",
        "what is she drinking lately",
        "can i squeeze 140 out of him",
        "what have i sunk into the boat since june",
        "how did your numbers look from 3 May to 17 May",
        "anything wants eating soon?",
        "enough on the plate or is she still hungry",
    ],
)
def test_people_are_asked(reads: Reader, text: str) -> None:
    assert reads(text, on_the_road()) == Silent()
