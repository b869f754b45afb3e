"""People with ways of their own: who says who they are, draws arrows, signs off, adds tenths."""

from __future__ import annotations

import pytest

from domain.entries import Weighing
from domain.verdicts import Facts, Question, Silent
from tests.domain.reading.chats import Reader, on_the_road
from tests.domain.reading.test_told_at_the_scale import told


def asked(reads: Reader, text: str) -> str:
    """The topic of a question, and the places, trailer and days that it names; else 'none'."""
    verdict = reads(text, on_the_road())
    if not isinstance(verdict, Question):
        return "none"
    named = (verdict.since, verdict.until, verdict.trailer)
    return " ".join([verdict.topic, *(each for each in named if isinstance(each, str))])


def loads(reads: Reader, text: str) -> dict[str, float]:
    """The loads of a message that is one weighing."""
    verdict = reads(text, on_the_road())
    assert isinstance(verdict, Facts)
    (weighing,) = verdict.entries
    assert isinstance(weighing, Weighing)
    return {position: load.value for position, load in weighing.loads.items()}


@pytest.mark.parametrize(
    ("text", "entries"),
    [
        ("Mel here, 24.1 gal", ["fill volume=24.1"]),
        ("Mel again. steer 5,160 drive 6,880", ["weighing drive=6880 steer=5160"]),
        ("Mel reporting: 24.1 gal", ["fill volume=24.1"]),
        ("Mary Ann here, hooked up the camper", ["hitch action=hitched trailer=camper"]),
        ("Ned here: 420 lb in the bed", ["silent"]),
        ("stopped at Pell again, 24.1 gal", ["fill place=Pell volume=24.1"]),
        ("Pell 24.1 gal", ["fill place=Pell volume=24.1"]),
    ],
)
def test_who_texts_is_no_place_and_no_load(reads: Reader, text: str, entries: list[str]) -> None:
    assert told(reads, text) == entries


@pytest.mark.parametrize(
    ("text", "entries"),
    [
        ("thirty-one gallons and four tenths", ["fill volume=31.4"]),
        ("thirty one and four tenths gallons", ["fill volume=31.4"]),
        ("31 gallons and nine tenths", ["fill volume=31.9"]),
        ("24 gal at 3.49 and nine tenths", ["fill unit_price=3.499 volume=24"]),
        ("24 gallons at three forty nine and nine tenths", ["fill unit_price=3.499 volume=24"]),
        ("28 gallons and a half", ["fill volume=28.5"]),
    ],
)
def test_tenths_behind_a_volume_are_its_own(reads: Reader, text: str, entries: list[str]) -> None:
    assert told(reads, text) == entries


@pytest.mark.parametrize(
    ("text", "entries"),
    [
        ("egt 1280 rpm 2150", ["exhaust=1280", "engine_speed=2150"]),
        ("coolant 205 rpm 2150 speed 62", ["coolant=205", "engine_speed=2150", "speed=62"]),
        ("2150 rpm egt 1280", ["engine_speed=2150", "exhaust=1280"]),
        ("tach 2150 rpm 1280 egt", ["engine_speed=2150", "exhaust=1280"]),
        ("revs 2150 rpm", ["engine_speed=2150"]),
    ],
)
def test_a_gauge_before_its_figure_is_no_unit_of_the_one_before(
    reads: Reader, text: str, entries: list[str]
) -> None:
    shown = [
        f"{fields['subject']}={fields['value']}"
        for line in told(reads, text)
        if (fields := dict(each.split("=") for each in line.split(" ")[1:]))
    ]
    assert shown == entries


@pytest.mark.parametrize(
    ("text", "entries"),
    [
        ("48 hives on the flatdeck, 3,900 lb all told", ["item=hives"]),
        ("12 bales on the flatdeck, 780 lb in all", ["item=bales"]),
        ("hay 420 lb, all in the nose", ["item=hay"]),
        ("tools are 420 lb, all up the front of the camper", ["item=tools"]),
        ("48 hives on the flatdeck, gross 21,900 lb", ["weighing"]),
        ("48 hives on, scale says 21,900 lb all told", ["weighing"]),
        ("9,420 lb all up", ["weighing"]),
    ],
)
def test_all_of_what_was_counted_is_no_rig(reads: Reader, text: str, entries: list[str]) -> None:
    lines = told(reads, text)
    assert len(lines) == len(entries)
    for line, entry in zip(lines, entries, strict=True):
        assert entry in line.split(" ")


@pytest.mark.parametrize(
    ("text", "field", "value", "was"),
    [
        ("corr: gross 21,480 -> 24,180", "gross", 24180, 21480),
        ("correction: odo 48,410 → 48,140", "odometer", 48140, 48410),
        ("drive 6,840 to 6,480, typo", "drive", 6480, 6840),
        ("change gross 21,480 -> 24,180", "gross", 24180, 21480),
        ("corr: 24.6 gal => 26.4 gal", "volume", 26.4, 24.6),
        ("amendment: steer 5,610", "steer", 5610, None),
    ],
)
def test_an_arrow_points_from_the_slip_to_what_is_meant(
    reads: Reader, text: str, field: str, value: float, was: float | None
) -> None:
    wrong = f" was={was:g}" if was else ""
    assert told(reads, text) == [f"correction action=amend field={field} value={value:g}{wrong}"]


@pytest.mark.parametrize(
    ("text", "weighed"),
    [
        ("steer 5,160 -> 5,610", {"steer": 5610}),
        (
            "camper on: 4,960 front 5,240 back 7,180 trailer",
            {"steer": 4960, "drive": 5240, "trailer": 7180},
        ),
        (
            "camper behind: 4,960 front 5,240 back 7,180 trailer",
            {"steer": 4960, "drive": 5240, "trailer": 7180},
        ),
        (
            "camper on: steer 5,160 drive 6,840 trailer 9,220",
            {"steer": 5160, "drive": 6840, "trailer": 9220},
        ),
        (
            "Kev again, weighbridge says 5,160 on the truck and 7,240 on the camper wheels",
            {"truck": 5160, "trailer": 7240},
        ),
        ("camper: 4,160 front axle 4,240 rear axle", {"trailer_1": 4160, "trailer_2": 4240}),
        (
            "flatdeck loaded: 5,160 front 6,840 rear 9,220 trailer 21,220 all up",
            {"steer": 5160, "drive": 6840, "trailer": 9220, "gross": 21220},
        ),
        (
            "flatdeck: 4,160 front 4,240 rear 8,400 trailer",
            {"trailer_1": 4160, "trailer_2": 4240, "trailer": 8400},
        ),
        ("steer 5,610 drive 6,240, trailer not on", {"steer": 5610, "drive": 6240}),
        ("vertical load on the ball 185 lb", {"tongue": 185}),
    ],
)
def test_what_heads_a_row_names_no_load_of_it(
    reads: Reader, text: str, weighed: dict[str, float]
) -> None:
    assert loads(reads, text) == weighed


@pytest.mark.parametrize(
    ("text", "topic"),
    [
        ("plan: Alder Bend -> Cutbank, 412 mi, fuel?", "plan Alder Bend Cutbank"),
        ("how much fuel Alder Bend → Cutbank, 412 mi?", "plan Alder Bend Cutbank"),
        ("query: latest pin weight, camper", "tongue camper"),
        ("what did fuel cost this month, over", "cost"),
        ("how far have we come? Over.", "distance"),
        ("what do we weigh, and are we over", "margin"),
        ("Tongue weight. How much now?", "tongue"),
        ("Fuel economy. How much this week?", "economy"),
        ("what all can this bot do", "help"),
        ("Request permission to enter the weighbridge", "none"),
        ("Heavy rain. How much now?", "none"),
    ],
)
def test_what_is_asked_in_ways_of_their_own(reads: Reader, text: str, topic: str) -> None:
    assert asked(reads, text) == topic


@pytest.mark.parametrize(
    ("text", "entries"),
    [
        (
            "walkaround complete: oil, coolant, belts, fire extinguisher",
            ["walkaround", "oil", "coolant", "belts", "fire extinguisher"],
        ),
        ("checked the oil, coolant and lights", ["oil", "coolant", "lights"]),
    ],
)
def test_what_has_a_gauge_stands_in_a_list_of_what_was_checked(
    reads: Reader, text: str, entries: list[str]
) -> None:
    assert told(reads, text) == [f"check item={each} state=done" for each in entries]


def test_what_has_a_gauge_is_no_check_by_itself(reads: Reader) -> None:
    assert isinstance(reads("checked the mail, coolant smells", on_the_road()), Silent)


@pytest.mark.parametrize(
    ("text", "entries"),
    [
        (
            "arrived 48,211 - camper off",
            ["hitch action=unhitched trailer=camper", "odometer event=arrive odometer=48211"],
        ),
        (
            "camper off at Pell woolshed 48,211",
            [
                "hitch action=unhitched place=Pell woolshed trailer=camper",
                "odometer odometer=48211 place=Pell woolshed",
            ],
        ),
        ("music on - camper off limits", ["silent"]),
    ],
)
def test_dashes_part_what_was_done_from_what_was_read(
    reads: Reader, text: str, entries: list[str]
) -> None:
    assert told(reads, text) == entries
