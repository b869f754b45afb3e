"""What we did is told beside talk of others, and a plan to weigh is no question."""

from __future__ import annotations

import pytest

from bot.phrasebook import phrasebook
from domain.entries import Fill, Weighing
from domain.quantities import Quantity
from domain.reading import explain
from domain.verdicts import Facts, Question, Silent
from tests.domain.reading.chats import Reader, on_the_road


@pytest.mark.parametrize(
    "text",
    [
        "the young fella at the register had a dog and we filled up 26.2 gallons",
        "mom got lost so we filled up 26.2 gal",
        "the young fella at the register had a dog and anyhow I put 26.2 gallons in her",
        "we got to talking and I put 26.2 gallons in her",
    ],
)
def test_a_clause_of_ours_is_no_talk(text: str, reads: Reader) -> None:
    verdict = reads(text, on_the_road())
    assert isinstance(verdict, Facts)
    (fill,) = verdict.entries
    assert isinstance(fill, Fill)
    assert (fill.volume, fill.place) == (Quantity(26.2, "gal"), None)


@pytest.mark.parametrize(
    "text",
    [
        "the young fella at the register had a dog and filled up 26.2 gallons",
        "dave and I weighed his rig 5160 6900 9240",
        "she said it was 80 psi and I filled hers too",
    ],
)
def test_what_others_did_stays_talk(text: str, reads: Reader) -> None:
    assert isinstance(reads(text, on_the_road()), Silent)


def test_the_truck_by_himself_is_weighed(reads: Reader) -> None:
    verdict = reads("Juniper on his own, no camper, 8,140 lb at Kelby", on_the_road())
    assert isinstance(verdict, Facts)
    (weighing,) = verdict.entries
    assert isinstance(weighing, Weighing)
    assert (weighing.rig, weighing.place) == ("solo", "Kelby")


@pytest.mark.parametrize(
    "text",
    [
        "are we weighing at Kelby or home",
        "r we gonna weigh tomorrow",
        "will we weigh before the hill",
        "should we weigh again",
        "where are we weighing",
    ],
)
def test_a_plan_to_weigh_is_put_to_people(text: str, reads: Reader) -> None:
    assert isinstance(reads(text, on_the_road()), Silent)


@pytest.mark.parametrize(
    ("text", "topic"),
    [
        ("did we weigh this week", "weight"),
        ("how much are we gonna weigh with the tank full", "weight"),
        ("r we over with the camper", "margin"),
        ("when's the trans fluid due", "upkeep"),
        ("when was the gear oil changed", "upkeep"),
    ],
)
def test_what_the_log_has_is_asked(text: str, topic: str, reads: Reader) -> None:
    verdict = reads(text, on_the_road())
    assert isinstance(verdict, Question)
    assert verdict.topic == topic
    if "gear oil" in text:
        assert verdict.item == "gear oil"


RAMBLE = (
    "So I pulled in because the light came on and the young fella at the register had a dog that "
    "looked just like old Rusty and we got to talking about his folks and anyhow "
)


@pytest.mark.parametrize(
    "told",
    [
        "I put 26.2 gallons in her and it came to 83.18 and then we sat a while",
        "I put twenty six point two gallons in her and it came to eighty three dollars and "
        "eighteen cents",
    ],
)
def test_a_long_message_comes_to_what_we_did(told: str, reads: Reader) -> None:
    verdict = reads(RAMBLE + told, on_the_road())
    assert isinstance(verdict, Facts)
    (fill,) = verdict.entries
    assert isinstance(fill, Fill)
    assert (fill.volume, fill.cost) == (Quantity(26.2, "gal"), Quantity(83.18, "USD"))


def test_what_was_left_as_talk_is_explained() -> None:
    said = "I put 26.2 gallons in her and it came to 83.18"
    told = explain(RAMBLE + said, on_the_road(), phrasebook())
    assert f"all before {said!r} is talk" in told


@pytest.mark.parametrize(
    "told",
    [
        "he put 26.2 gallons in his and it came to 83.18",
        "I told him mine never took 26.2 gallons",
        "we had pie for 26.20 and then we sat a while under a tree there",
    ],
)
def test_a_long_message_may_be_all_talk(told: str, reads: Reader) -> None:
    assert isinstance(reads(RAMBLE + told, on_the_road()), Silent)


@pytest.mark.parametrize("lead", ["okay just come off the scale", "just come off the scales"])
def test_come_is_no_request_off_a_scale(lead: str, reads: Reader) -> None:
    verdict = reads(f"{lead} steer 4960 drive 7280 trailer 11400", on_the_road())
    assert isinstance(verdict, Facts)
    (weighing,) = verdict.entries
    assert isinstance(weighing, Weighing)


@pytest.mark.parametrize(
    "lead",
    [
        "car's in, just scaled",
        "tractor's on, just scaled",
        "boat's on, just scaled",
        "boat on",
        "with the boat on",
        "boat on & bars on",
    ],
)
def test_what_was_put_on_ours_is_weighed_with_it(lead: str, reads: Reader) -> None:
    verdict = reads(f"{lead}: 5,240 / 7,460 / 8,720", on_the_road())
    assert isinstance(verdict, Facts)
    (weighing,) = verdict.entries
    assert isinstance(weighing, Weighing)
    assert weighing.rig == "hitched"


@pytest.mark.parametrize(
    "text",
    [
        "boat's in the water, 48,402",
        "his boat's on, 5,240 7,460 8,720",
        "boat on the water: 5,240 7,460 8,720",
        "bus on: 62 mph",
    ],
)
def test_another_vehicle_stays_talk(text: str, reads: Reader) -> None:
    assert isinstance(reads(text, on_the_road()), Silent)


def test_where_the_trailer_was_left_nothing_was_weighed(reads: Reader) -> None:
    verdict = reads("left the camper at home, truck only 8,140", on_the_road())
    assert isinstance(verdict, Facts)
    (weighing,) = [entry for entry in verdict.entries if isinstance(entry, Weighing)]
    assert (weighing.rig, weighing.place) == ("solo", None)
