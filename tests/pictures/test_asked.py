"""Wishes to be shown something, as they are texted in a chat."""

from __future__ import annotations

from datetime import UTC, datetime

import pytest

from bot.phrasebook import phrasebook
from domain.context import Context
from domain.reading import read
from domain.verdicts import PICTURE, Question, Silent

CHAT = Context(
    sent_at=datetime(2026, 7, 11, 20, 22, tzinfo=UTC),
    truck="Juniper",
    trailers=("flatdeck", "camper"),
)


@pytest.mark.parametrize(
    ("text", "shown"),
    [
        ("show me", "weight"),
        ("Picture please", "weight"),
        ("chart", "weight"),
        ("show me the rig", "weight"),
        ("picture of the rig", "weight"),
        ("Draw our rig.", "weight"),
        ("show us the margins", "margin"),
        ("margins chart", "margin"),
        ("show me the economy over time", "economy"),
        ("chart of mpg over the season", "economy"),
        ("show me the week", "week"),
        ("a picture of last week", "week"),
    ],
)
def test_a_wish_to_be_shown_something_is_a_question(text: str, shown: str) -> None:
    verdict = read(text, CHAT, phrasebook())
    assert verdict == Question(topic=shown, form=PICTURE, text=text)


@pytest.mark.parametrize(
    "text",
    [
        "I'll show you at the shop",
        "show me the picture you took of the bear",
        "pic please",
        "did the kids get the picture?",
        "he charts the bees every week",
    ],
)
def test_people_who_talk_of_pictures_are_left_alone(text: str) -> None:
    assert isinstance(read(text, CHAT, phrasebook()), Silent)
