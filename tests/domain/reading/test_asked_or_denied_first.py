"""What is asked and denied, hoped or planned first, and told behind it as it is."""

from __future__ import annotations

from typing import Any

import pytest

from domain.records import verdict_to_record
from domain.verdicts import Facts, Silent
from tests.domain.reading.chats import Reader, on_the_road


def told(reads: Reader, text: str) -> list[dict[str, Any]]:
    verdict = reads(text, on_the_road())
    assert isinstance(verdict, Facts), verdict
    entries: list[dict[str, Any]] = verdict_to_record(verdict)["entries"]
    return entries


@pytest.mark.parametrize(
    ("text", "gauges"),
    [
        (
            "truck tyres 44 psi both fronts? no, front left 44, front right 43 psi",
            [("left front", 44), ("right front", 43)],
        ),
        (
            "both fronts 65 psi? no, left front 65, right front 63",
            [("left front", 65), ("right front", 63)],
        ),
    ],
)
def test_what_was_asked_and_denied_is_none(
    reads: Reader, text: str, gauges: list[tuple[str, float]]
) -> None:
    found = [(each["position"], each["value"]["value"]) for each in told(reads, text)]
    assert found == gauges


def test_a_load_that_was_denied_gives_way(reads: Reader) -> None:
    (entry,) = told(reads, "steer 5,180? no, steer 5,280 drive 6,840 trailer 9,240")
    loads = {place: load["value"] for place, load in entry["loads"].items()}
    assert loads == {"steer": 5280, "drive": 6840, "trailer": 9240}


@pytest.mark.parametrize(
    "text",
    [
        "was hoping for 14 but dash gave 12.3 mpg, 24.6 gal in, 48,270",
        "hoped for 15, dash said 12.3 mpg, 24.6 gal, 48,270",
    ],
)
def test_no_dash_shows_what_was_hoped(reads: Reader, text: str) -> None:
    (fill,) = told(reads, text)
    assert fill["dash_economy"] == {"value": 12.3, "unit": "mi/gal"}
    assert fill["volume"]["value"] == 24.6


@pytest.mark.parametrize(
    "text",
    [
        "we'll probly drop the camper tomorrow, anyway 48,377 now",
        "might get new tires next week, anyhow the odo's 48,377 now",
    ],
)
def test_a_plan_is_left_behind_anyway(reads: Reader, text: str) -> None:
    (entry,) = told(reads, text)
    assert entry == {"kind": "odometer", "odometer": {"value": 48377, "unit": "mi"}}


@pytest.mark.parametrize(
    ("text", "speed"), [("2,100 revs at 62 with the camper on", 62), ("2,100 rpm at 55", 55)]
)
def test_a_speed_stands_behind_the_turns(reads: Reader, text: str, speed: float) -> None:
    turns, driven = told(reads, text)
    assert (turns["subject"], driven["subject"]) == ("engine_speed", "speed")
    assert driven["value"] == {"value": speed, "unit": "mph"}


@pytest.mark.parametrize("text", ["2,100 rpm at 9", "2,100 rpm at 180 trans"])
def test_no_speed_is_so_low_or_so_high(reads: Reader, text: str) -> None:
    verdict = verdict_to_record(reads(text, on_the_road()))
    assert all(each["subject"] != "speed" for each in verdict.get("entries", ()))


def test_what_something_weighs_is_told_behind_its_figure(reads: Reader) -> None:
    (entry,) = told(reads, "7,120 is what the camper weighs sat on the scale on its own")
    assert entry["trailer"] == "camper"
    assert entry["loads"] == {"gross": {"value": 7120, "unit": "lb"}}


@pytest.mark.parametrize(
    "text", ["did i say 31? no way", "we'll fill up tomorrow, 24 gal or so", "call at 9? no, 10"]
)
def test_talk_stays_talk(reads: Reader, text: str) -> None:
    assert reads(text, on_the_road()) == Silent()


@pytest.mark.parametrize(
    "text",
    [
        "Dave next to us scaled 26,400 lol. we did 5,060 steer, 6,700 drive, 8,240 trailer",
    ],
)
def test_another_rig_is_no_load(reads: Reader, text: str) -> None:
    (entry,) = told(reads, text)
    loads = {place: load["value"] for place, load in entry["loads"].items()}
    assert loads == {"steer": 5060, "drive": 6700, "trailer": 8240}
    assert "place" not in entry


@pytest.mark.parametrize(
    ("text", "item"),
    [
        ("straps checked at the rest area", "straps"),
        ("checked lugs at the layby, all tight", "lugs"),
    ],
)
def test_the_rig_is_looked_over_beside_the_road(reads: Reader, text: str, item: str) -> None:
    (entry,) = told(reads, text)
    assert entry == {"kind": "check", "item": item, "state": "done"}


def test_straps_of_another_thing_are_no_check(reads: Reader) -> None:
    assert reads("straps broke on my bag", on_the_road()) == Silent()
