"""For whom a question is asked, who sat in the truck, and whose home was left."""

from __future__ import annotations

import pytest

from domain.entries import Odometer, Weighing
from domain.quantities import Quantity
from domain.verdicts import Facts, Question, Silent
from tests.domain.reading.chats import Reader, on_the_road


@pytest.mark.parametrize(
    ("text", "topic"),
    [
        ("Dad wants to know what we weigh", "weight"),
        ("dad asks what the tongue weight is", "tongue"),
        ("Grandma wants to know is the tongue weight ok", "tongue"),
        ("my wife is wondering what mpg we got", "economy"),
        ("mum wants to know how far we can get", "range"),
        ("dad asks are we legal", "margin"),
    ],
)
def test_who_passes_a_question_on_asks_it(reads: Reader, text: str, topic: str) -> None:
    verdict = reads(text, on_the_road())
    assert isinstance(verdict, Question), text
    assert verdict.topic == topic


@pytest.mark.parametrize(
    "text",
    [
        "ask dad what his truck weighs",
        "Grandma wants to know when we eat",
        "my wife is asking what the cat weighs",
    ],
)
def test_who_asks_people_of_theirs_asks_no_logbook(reads: Reader, text: str) -> None:
    assert isinstance(reads(text, on_the_road()), Silent), text


@pytest.mark.parametrize(
    ("text", "aboard"),
    [
        ("truck by itself is 8,260 on the scale with me in it", 1),
        ("truck weighed 8,260, me in it", 1),
        ("truck 8,260 with 2 of us in it", 2),
        ("just the pickup and me, front 4,980 rear 3,860", 1),
        ("just the pickup, front 4,980 rear 3,860, tell me if that's ok", None),
    ],
)
def test_who_sits_in_it_is_aboard(reads: Reader, text: str, aboard: int | None) -> None:
    verdict = reads(text, on_the_road())
    assert isinstance(verdict, Facts), text
    (weighing,) = verdict.entries
    assert isinstance(weighing, Weighing)
    assert weighing.aboard == aboard


@pytest.mark.parametrize(
    ("text", "event", "place"),
    [
        ("heading off from Mum's 48,230", "depart", "Mum's"),
        ("left Grandma's at 48,230", "depart", "Grandma's"),
        ("leaving dads 48,230", "depart", None),
    ],
)
def test_a_home_that_is_left_is_a_place(
    reads: Reader, text: str, event: str, place: str | None
) -> None:
    verdict = reads(text, on_the_road())
    assert isinstance(verdict, Facts), text
    (reading,) = verdict.entries
    assert isinstance(reading, Odometer)
    assert (reading.odometer, reading.event) == (Quantity(48_230, "mi"), event)
    assert place is None or reading.place == place


@pytest.mark.parametrize("text", ["mum's 48,230", "left Mum's truck at 48,230", "mums odo 48,230"])
def test_what_is_hers_is_no_place(reads: Reader, text: str) -> None:
    assert isinstance(reads(text, on_the_road()), Silent), text
