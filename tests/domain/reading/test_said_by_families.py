"""Faults, corrections and questions as families of several lands text them."""

from __future__ import annotations

import pytest

from domain.entries import Check, Correction
from domain.verdicts import Facts, Question, Silent
from tests.domain.reading.chats import Reader, on_the_road
from tests.domain.reading.test_told_at_the_scale import told


@pytest.mark.parametrize(
    ("text", "item"),
    [
        ("fuel gauge don't work no more", "fuel gauge"),
        ("gas gauge is broke", "gas gauge"),
        ("temp gauge quit working", "temp gauge"),
        ("clutch on Juniper is after starting to slip in third", "clutch"),
        ("clutch started slipping going up the grade", "clutch"),
        ("amber beacon not working", "amber beacon"),
        ("left trailer tail lite is out agian", "left trailer tail light"),
        ("brake contrller keeps cutting out on me", "brake controller"),
    ],
)
def test_what_gave_out(text: str, item: str, reads: Reader) -> None:
    verdict = reads(text, on_the_road())
    assert isinstance(verdict, Facts)
    (check,) = verdict.entries
    assert isinstance(check, Check)
    assert (check.item, check.state) == (item, "fault")


@pytest.mark.parametrize(
    "text",
    [
        "fuel gauge is low",
        "fuel gauge says half",
        "that shot was clutch",
        "he came in clutch with the win",
        "the beacon on the hill is out",
        "the clutch is good",
        "the last 1 hour was slow",
    ],
)
def test_what_sounds_like_it_is_talk(text: str, reads: Reader) -> None:
    assert isinstance(reads(text, on_the_road()), Silent)


def test_lamps_that_warn_others_are_looked_after(reads: Reader) -> None:
    assert told(reads, "lug nuts torqued, chains checked, strobes good") == [
        "check item=lug nuts state=done",
        "check item=chains state=done",
        "check item=strobes state=done",
    ]


@pytest.mark.parametrize(
    "text",
    [
        "nvm that last 1 delete it",
        "delete that last 1",
        "undo the last 1",
        "delete what i just sent i sent it twice",
        "delete that i sent it twice",
    ],
)
def test_the_last_one_goes(text: str, reads: Reader) -> None:
    assert reads(text, on_the_road()) == Facts((Correction(action="undo"),))


@pytest.mark.parametrize("last", ["that last weight", "the last weighing", "the last one"])
def test_what_was_meant_on_the_last_one(last: str, reads: Reader) -> None:
    meant = Correction(action="amend", field="gross", was="trailer")
    assert reads(f"I meant gross not trailer on {last}", on_the_road()) == Facts((meant,))
    assert told(reads, "gross 18,940, trailer on") == ["weighing gross=18940 rig=hitched"]


@pytest.mark.parametrize(
    ("text", "item"),
    [
        ("could I add 12 bales at 55 lbs each in the bed?", "bales"),
        ("could I add 12 bales in the bed?", "bales"),
        ("could I add 12 bags of feed at 55 lbs each in the bed?", "feed"),
        ("what if we load 14 hives at 90 lb each on the flatdeck", "hives"),
        ("what happens if we hang the 4 bikes, 130 lbs total, on the back bumper", "bikes"),
        ("if I put another 6 ewes on at the back, what does that do to the nose weight?", "ewes"),
        ("what if we put 300 lb in the bed", None),
    ],
)
def test_so_many_of_a_thing_are_that_thing(text: str, item: str | None, reads: Reader) -> None:
    question = reads(text, on_the_road())
    assert isinstance(question, Question)
    assert (question.topic, question.item) == ("whatif", item)
    assert question.field in (None, "tongue")
