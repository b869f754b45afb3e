"""Questions that are put to people, or are about somebody else's rig, beside those of ours."""

from __future__ import annotations

import pytest

from domain.verdicts import Question, Silent
from tests.domain.reading.chats import Reader, chat, on_the_road


@pytest.mark.parametrize(
    "text",
    [
        "dad, what does your camper weigh",
        "dad what does your camper weigh",
        "mom how heavy is your camper",
        "tim whats your mpg with the camper",
        "how much does ray's camper weigh",
        "how heavy is Ray's camper",
        "what mpg does Ray get",
        "what mpg does ray get",
        "what mpg does he get",
    ],
)
def test_what_people_ask_each_other(text: str, reads: Reader) -> None:
    assert reads(text, on_the_road()) == Silent()


@pytest.mark.parametrize(
    ("text", "topic"),
    [
        ("what does the camper weigh", "weight"),
        ("mom, what does the camper weigh", "weight"),
        ("dad wants to know what the camper weighs", "weight"),
        ("dad wants to know what you have for the gvwr", "ratings"),
        ("what mpg does she get with the camper", "economy"),
        ("what mpg does the camper give us", "economy"),
        ("what's Juniper rated to tow", "ratings"),
    ],
)
def test_what_drawbar_is_asked(text: str, topic: str, reads: Reader) -> None:
    verdict = reads(text, on_the_road())
    assert isinstance(verdict, Question)
    assert verdict.topic == topic


def test_a_name_may_be_that_of_a_truck_which_the_chat_does_not_know(reads: Reader) -> None:
    verdict = reads("what mpg does Juniper get", chat())
    assert isinstance(verdict, Question)
