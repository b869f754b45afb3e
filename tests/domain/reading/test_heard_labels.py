"""Labels that a phone heard or corrected into another word, and counts of people behind a load."""

from __future__ import annotations

from dataclasses import replace

import pytest

from domain.entries import Observation
from domain.quantities import Quantity
from domain.verdicts import Ask, Facts, Question, Silent
from tests.domain.reading.chats import Reader, on_the_road
from tests.domain.reading.weighed import weighings
from tests.domain.scale_house import lb


@pytest.mark.parametrize(
    "text",
    [
        "steer 5240 driver 6780 trainer 9120",
        "steer 5240 drove 6780 trailer 9120",
        "steel 5240 drive 6780 trailer 9120",
        "steer was 5240 and driver was 6780 and trailer was 9120",
    ],
)
def test_the_load_that_is_missing_is_meant(text: str, reads: Reader) -> None:
    loads = {"steer": lb(5_240), "drive": lb(6_780), "trailer": lb(9_120)}
    (told,) = weighings(text, reads)
    assert told.loads == loads


@pytest.mark.parametrize(
    "text",
    ["steer 5240 doghouse 6780 trailer 9120", "steer 5240 drive 6780 trip 9120"],
)
def test_another_word_is_asked_about(text: str, reads: Reader) -> None:
    assert isinstance(reads(text, on_the_road()), Ask)


@pytest.mark.parametrize("text", ["trams temp 188", "tranz temp 188", "trans temp 188"])
def test_a_gauge_is_meant_before_its_temperature(text: str, reads: Reader) -> None:
    verdict = reads(text, on_the_road())
    assert isinstance(verdict, Facts)
    (entry,) = verdict.entries
    assert isinstance(entry, Observation)
    assert (entry.subject, entry.value) == ("transmission", Quantity(188, "degF"))


@pytest.mark.parametrize("text", ["oven temp 350", "pool temp 82", "trams at 188"])
def test_other_temperatures_are_talk(text: str, reads: Reader) -> None:
    assert isinstance(reads(text, on_the_road()), Silent)


@pytest.mark.parametrize(
    ("people", "trailer", "aboard"),
    [
        ("nine thousand nine hundred two of us in the truck", 9_900, 2),
        ("nine thousand nine hundred three kids aboard", 9_900, 3),
        ("ninety two forty two up", 9_240, 2),
        ("ninety two forty four people", 9_240, 4),
        ("nine thousand nine hundred forty", 9_940, None),
    ],
)
def test_people_behind_a_load_are_counted(
    people: str, trailer: float, aboard: int | None, reads: Reader
) -> None:
    said = f"steer fifty two hundred drive seventy seven twenty trailer {people}"
    (told,) = weighings(said, reads)
    assert told.loads["trailer"] == lb(trailer)
    assert told.aboard == aboard


@pytest.mark.parametrize(
    ("text", "heard"),
    [
        ("e g t hit eleven eighty up the grade", "egt hit eleven eighty up the grade"),
        ("rear g a w r 7,050", "rear gawr 7,050"),
        ("camper g v w r 14,000", "camper gvwr 14,000"),
        ("d e f 2.4 gallons 11.50", "def 2.4 gallons 11.50"),
        ("left rear trailer tire 80 p s i", "left rear trailer tire 80 psi"),
        ("what's our m p g", "what's our mpg"),
        ("what's the g c w r", "what's the gcwr"),
    ],
)
def test_short_forms_are_dictated_letter_by_letter(text: str, heard: str, reads: Reader) -> None:
    spelled, short = reads(text, on_the_road()), reads(heard, on_the_road())
    assert not isinstance(short, Silent)
    if isinstance(short, Question):
        assert isinstance(spelled, Question)
        assert replace(spelled, text=short.text) == short
    else:
        assert spelled == short


@pytest.mark.parametrize("text", ["e t a 1,180", "g h i 7,050", "i am a d e"])
def test_other_letters_are_no_short_form(text: str, reads: Reader) -> None:
    assert isinstance(reads(text, on_the_road()), Silent)
