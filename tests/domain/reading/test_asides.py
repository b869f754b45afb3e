"""Long messages in which a fact, a question or a correction stands amid a story."""

from __future__ import annotations

from dataclasses import replace

import pytest

from domain.verdicts import Question, Silent
from tests.domain.reading.chats import Reader, on_the_road


@pytest.mark.parametrize(
    ("text", "alone"),
    [
        (
            "undo that please, the twins got hold of my phone in the back and sent you something",
            "undo that please",
        ),
        (
            "actually that last fill wasn't full, it clicked off early and I only found out up the"
            " road when the needle never moved. grr",
            "actually that last fill wasn't full",
        ),
        (
            "how many miles is it since the last fill, Kev forgot to reset the little thing again"
            " and he keeps a notebook about it",
            "how many miles is it since the last fill",
        ),
        (
            "what are we averaging with the camper on, mpg I mean? a man at the next table says"
            " he gets more and I told him he dreams",
            "what are we averaging with the camper on, mpg I mean?",
        ),
        (
            "odo's 51,300. can't feel my legs. Walt wants to take the next stretch, heaven help"
            " us, he is 79 and waves at every cow",
            "odo's 51,300",
        ),
        (
            "no no I told you the wrong axle in that last weighing, I meant drive not trailer, the"
            " man in the booth mumbles and it was foggy in there",
            "I told you the wrong axle in that last weighing, I meant drive not trailer",
        ),
    ],
)
def test_a_story_around_it_changes_nothing(text: str, alone: str, reads: Reader) -> None:
    told = reads(alone, on_the_road())
    assert not isinstance(told, Silent)
    whole = reads(text, on_the_road())
    if isinstance(told, Question) and isinstance(whole, Question):
        assert replace(whole, text=told.text) == told
    else:
        assert whole == told


@pytest.mark.parametrize(
    "text",
    [
        "scratch that, pizza sounds better than curry tonight, what do the rest of you think",
        "battery died sorry, home now, ring the landline if you want me before supper",
        "imagine if the drive came in at 8,000, we'd have to leave grandma at the next stop",
        "its gonna be 97 on saturday and 101 on sunday, wind 20 to 30, so stay home and drink",
        "my brother says he filled up 20 gal for 80 bucks, then he drove all night to see her",
        "bracket is busted, lost ten dollars to Tam over it, and she laughed the whole way back",
        "hypothetically, nine hundred pounds of gravel in the trailer and uncle Walt, then what?",
        "got a good ticket, $12 instead of 20, but they want a reply tonight or it goes to Bo",
    ],
)
def test_talk_between_people_tells_nothing_by_a_part_of_it(text: str, reads: Reader) -> None:
    assert isinstance(reads(text, on_the_road()), Silent)
