"""Loads and pressures told side by side, wheel by wheel, and axles told by their numbers."""

from __future__ import annotations

from collections.abc import Mapping

import pytest

from domain.entries import Correction, Fill, Hitch, Observation, Odometer, Weighing
from domain.quantities import Quantity
from domain.verdicts import Ask, Facts, Silent
from tests.domain.reading.chats import Reader, on_the_road

WHEELS = {"steer_left": 2_560, "drive_left": 3_690, "steer_right": 2_570, "drive_right": 3_680}
AXLES = {"steer": 5_240, "drive": 6_880, "trailer_1": 4_710, "trailer_2": 4_790}
OF_CAMPER = {
    "trailer_1_left": 2_310,
    "trailer_1_right": 2_290,
    "trailer_2_left": 2_340,
    "trailer_2_right": 2_360,
}


@pytest.mark.parametrize(
    ("text", "loads"),
    [
        ("left: steer 2,560, drive 3,690. right: steer 2,570, drive 3,680", WHEELS),
        ("Left side - front 2,560, rear 3,690. Right side - front 2,570, rear 3,680", WHEELS),
        ("driver side front 2,560 rear 3,690 passenger side front 2,570 rear 3,680", WHEELS),
        (
            "nearside: front axle 2560, rear axle 3690\noffside: front axle 2570, rear axle 3680",
            WHEELS,
        ),
        ("right: steer 2,570 drive 3,680; left: steer 2,560 drive 3,690", WHEELS),
        # Thousands stand on a tyre, and are in none.
        ("lf tire 2,560 rf tire 2,570 lr tire 3,690 rr tire 3,680", WHEELS),
        (
            "left front trailer tire 2,310, right front 2,290, left rear 2,340, right rear 2,360",
            OF_CAMPER,
        ),
        ("axle 1 left 2,560 right 2,570 axle 2 left 3,690 right 3,680", WHEELS),
        (
            "left: steer 2560 drive 3690 trailer 4650 right: steer 2570 drive 3680 trailer 4700",
            {**WHEELS, "trailer_left": 4_650, "trailer_right": 4_700},
        ),
        (
            "lf 2560 lr 3690 tlf 2310 tlr 2340 rf 2570 rr 3680 trf 2290 trr 2360",
            {**WHEELS, **OF_CAMPER},
        ),
        (
            "steer 2,560 left 2,570 right, trailer 4,650 left 4,700 right",
            {
                "steer_left": 2_560,
                "steer_right": 2_570,
                "trailer_left": 4_650,
                "trailer_right": 4_700,
            },
        ),
        (
            "left steer 2,640 right steer 2,610 drive 6,900",
            {"steer_left": 2_640, "steer_right": 2_610, "drive": 6_900},
        ),
        ("camper front axle left 2,310 right 2,290, rear axle left 2,340 right 2,360", OF_CAMPER),
        ("camper axle 1 left 2,310 right 2,290, axle 2 left 2,340 right 2,360", OF_CAMPER),
        ("camper: left axle 1 2,310, axle 2 2,340. right axle 1 2,290, axle 2 2,360", OF_CAMPER),
        ("TL1 4710 TL2 4790 st 5240 dr 6880", AXLES),
        ("S 5240 D 6880 T1 4710 T2 4790", AXLES),
        ("s: 5240 d: 6880 t1: 4710 t2: 4790", AXLES),
        ("str 5,240 drv 6,880 trl1 4,710 trl2 4,790", AXLES),
        ("A1 5,240 A2 6,880 A3 4,710 A4 4,790", AXLES),
        ("steer 5,240 drive 6,880 trailer 1 4,710 trailer 2 4,790", AXLES),
        ("camper 1: 4,710 camper 2: 4,790 steer 5,240 drive 6,880", AXLES),
        ("fa 5240 ra 6880 ta 9500", {"steer": 5_240, "drive": 6_880, "trailer": 9_500}),
        ("trailer lt 4400 rt 4450", {"trailer_left": 4_400, "trailer_right": 4_450}),
        ("lt 4400 rt 4450 on the trailer", {"trailer_left": 4_400, "trailer_right": 4_450}),
        ("lt steer 2560 rt steer 2570", {"steer_left": 2_560, "steer_right": 2_570}),
        ("l 2560 r 2570 steer", {"steer_left": 2_560, "steer_right": 2_570}),
        ("steer lt 2560 rt 2570 drive lt 3690 rt 3680", WHEELS),
        ("lh 2,560 rh 2,570 on the steer axle", {"steer_left": 2_560, "steer_right": 2_570}),
        (
            "driver side 3,690, pass side 3,680 on the drives",
            {"drive_left": 3_690, "drive_right": 3_680},
        ),
        ("left 4,400 right 4,450 trailer", {"trailer_left": 4_400, "trailer_right": 4_450}),
    ],
)
def test_each_place_has_its_side_and_its_number(
    text: str, loads: Mapping[str, float], reads: Reader
) -> None:
    verdict = reads(text, on_the_road())
    assert isinstance(verdict, Facts), verdict
    (entry,) = verdict.entries
    assert isinstance(entry, Weighing)
    assert entry.loads == {at: Quantity(load, "lb") for at, load in loads.items()}


@pytest.mark.parametrize(
    "text",
    [
        "driver side 10,720 pass side 10,740, all hooked up",
        "weighed it, left side 10,720 right side 10,740",
    ],
)
def test_sides_of_nothing_that_is_said_are_asked_about(text: str, reads: Reader) -> None:
    verdict = reads(text, on_the_road())
    assert isinstance(verdict, Ask), verdict
    assert (verdict.about, verdict.choices) == ("weighing", ())


def test_lt_and_rt_are_litres_and_a_road_elsewhere(reads: Reader) -> None:
    assert isinstance(reads("took rt 9 at 4800", on_the_road()), Silent)
    verdict = reads("filled 120 lt, rt 9 was closed", on_the_road())
    assert isinstance(verdict, Facts), verdict
    (entry,) = verdict.entries
    assert isinstance(entry, Fill)
    assert entry.volume == Quantity(120, "L")


def test_tyres_told_by_side_have_their_corners(reads: Reader) -> None:
    verdict = reads("left front 65 rear 80, right front 66 rear 78 psi", on_the_road())
    assert isinstance(verdict, Facts), verdict
    assert {
        (entry.position, entry.value.value)
        for entry in verdict.entries
        if isinstance(entry, Observation)
    } == {("left front", 65), ("left rear", 80), ("right front", 66), ("right rear", 78)}


def test_a_trailer_that_is_off_in_a_sentence_of_its_own_came_off(reads: Reader) -> None:
    verdict = reads("camper's off. 5,060 front 3,920 rear solo", on_the_road())
    assert isinstance(verdict, Facts), verdict
    assert verdict.entries == (
        Hitch(action="unhitched", trailer="camper"),
        Weighing(
            loads={"steer": Quantity(5_060, "lb"), "drive": Quantity(3_920, "lb")}, rig="solo"
        ),
    )


def test_no_before_a_trailer_with_its_article_takes_none_off(reads: Reader) -> None:
    verdict = reads("no the trailer was 9,640, not 9,460", on_the_road())
    assert isinstance(verdict, Facts)
    assert [type(each) for each in verdict.entries] == [Correction]
    verdict = reads("no trailer, 5,060 3,920", on_the_road())
    assert isinstance(verdict, Facts), verdict
    assert [entry.rig for entry in verdict.entries if isinstance(entry, Weighing)] == ["solo"]


def test_off_beside_a_load_says_how_it_stood(reads: Reader) -> None:
    verdict = reads("with the camper off: 5,060 3,920", on_the_road())
    assert isinstance(verdict, Facts), verdict
    assert [type(entry) for entry in verdict.entries] == [Weighing]


@pytest.mark.parametrize(
    "text",
    [
        "A1 sauce is on sale 2 for 5",
        "A1 2000 A2 3000 are the german textbooks",
        "printer needs A4 and A3, 500 sheets of each",
        "T1 scored 4500 and T2 scored 5200 in the game",
        "terminal t1 gate 4860",
        "turn left at 2640 then right at 3480",
        "left 40 bucks on the counter, right next to the keys",
        "trailer 1 is for the ceremony and trailer 2 for the food, 120 guests",
        "trailer park lot 1 450 lot 2 475 a month",
        "camper's off to grandma's",
        "camper's on sale. 11,000 firm",
    ],
)
def test_sides_and_numbers_of_other_things_are_talk(text: str, reads: Reader) -> None:
    assert isinstance(reads(text, on_the_road()), Silent)


@pytest.mark.parametrize(
    ("text", "first"),
    [
        ("right then left: steer 2,600 2,580 drive 3,400 3,450", "right"),
        ("left then right: steer 2,600 2,580 drive 3,400 3,450", "left"),
    ],
)
def test_two_sides_in_the_order_that_is_said(reads: Reader, text: str, first: str) -> None:
    read = reads(text, on_the_road())
    assert isinstance(read, Facts)
    (weighing,) = read.entries
    assert isinstance(weighing, Weighing)
    assert weighing.loads[f"steer_{first}"].value == 2_600
    assert len(weighing.loads) == 4


def test_right_then_is_no_side_where_somebody_leaves(reads: Reader) -> None:
    read = reads("right then, left at 48,040", on_the_road())
    assert isinstance(read, Facts)
    assert isinstance(read.entries[0], Odometer)
