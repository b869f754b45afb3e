"""Weighings in people's own grammar: whose axle it is, what stood apart, what was said short."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

import pytest

from domain.entries import Entry, Hitch, Weighing
from domain.quantities import Quantity
from domain.verdicts import Ask, Facts, Silent
from tests.domain.reading.chats import Reader, chat, on_the_road


def weighed(loads: Mapping[str, float], *, unit: str = "lb", **said: Any) -> Weighing:
    """A weighing of the loads given, in one unit; the rest as it is named."""
    return Weighing(loads={at: Quantity(load, unit) for at, load in loads.items()}, **said)


AXLES = {"steer": 5_220, "drive": 6_940, "trailer": 9_310}


@pytest.mark.parametrize(
    ("text", "entry"),
    [
        (
            "nothing but the camper on the scale, it came to 6,240",
            weighed({"gross": 6_240}, rig="trailer", trailer="camper"),
        ),
        (
            "flatdeck weighed off the truck, 4,180",
            weighed({"gross": 4_180}, rig="trailer", trailer="flatdeck"),
        ),
        (
            "just the flatdeck on the weighbridge, empty and off the truck: 680 kg",
            weighed({"gross": 680}, rig="trailer", unit="kg", trailer="flatdeck"),
        ),
        (
            "Juniper with nobody hooked on behind, 8,140 total on the scale",
            weighed({"gross": 8_140}, rig="solo", truck="Juniper"),
        ),
        (
            "camper still hitched, its front axle 3,210 and its rear axle 3,340",
            weighed({"trailer_1": 3_210, "trailer_2": 3_340}, rig="hitched", trailer="camper"),
        ),
        (
            "just the truck's axles on the scale, camper still hitched behind, 12,140 lb",
            weighed({"truck": 12_140}, rig="hitched", trailer="camper"),
        ),
        (
            "truck rear axle by side: left 3,420, right 3,480",
            weighed({"drive_left": 3_420, "drive_right": 3_480}),
        ),
        (
            "steer 2,540 left 2,600 right, drive 3,420 left 3,480 right",
            weighed(
                {
                    "steer_left": 2_540,
                    "steer_right": 2_600,
                    "drive_left": 3_420,
                    "drive_right": 3_480,
                }
            ),
        ),
        (
            "12,160 with the steers and drives together, 9,310 on the trailer axles",
            weighed({"truck": 12_160, "trailer": 9_310}, rig="hitched"),
        ),
        (
            "1,085 lb is what the scale under the tongue says",
            weighed({"tongue": 1_085}),
        ),
        (
            "steer 5,220 drive 6,940 trailer 9,310, bars tightened up",
            weighed(AXLES, rig="hitched", bars="on"),
        ),
        (
            "steer 5,220 drive 6,940 trailer 9,310, two adults and a kid in the cab",
            weighed(AXLES, rig="hitched", aboard=3),
        ),
        (
            "21,470 all in with the camper and three of us",
            weighed({"gross": 21_470}, rig="hitched", aboard=3, trailer="camper"),
        ),
        (
            "scale cost fifteen dollars steer fifty two twenty drive sixty nine forty "
            "trailer ninety three ten",
            weighed(AXLES, rig="hitched", cost=Quantity(15, "USD")),
        ),
    ],
)
def test_a_weighing_in_peoples_own_grammar(text: str, entry: Entry, reads: Reader) -> None:
    assert reads(text, on_the_road()) == Facts((entry,))


@pytest.mark.parametrize(
    ("text", "loads"),
    [
        # The axles make the gross: that decides between meanings.
        (
            "twelve-one-ninety on the truck, ninety-three ten trailer, twenty-one five all up",
            {"truck": 12_190, "trailer": 9_310, "gross": 21_500},
        ),
        (
            "steers five two drives six nine trailer nine three gross twenty one four",
            {"steer": 5_200, "drive": 6_900, "trailer": 9_300, "gross": 21_400},
        ),
        # No axle weighs 69 lb, nor 70,040.
        (
            "fifty-two twenty on the steers, sixty-nine even on the drives",
            {"steer": 5_220, "drive": 6_900},
        ),
        (
            "steer fifty two twenty drive seventy oh forty trailer ninety three ten",
            {"steer": 5_220, "drive": 7_040, "trailer": 9_310},
        ),
        (
            "steer fifty two oh five drive sixty nine forty trailer ninety three ten",
            {"steer": 5_205, "drive": 6_940, "trailer": 9_310},
        ),
    ],
)
def test_a_load_that_was_said_short(text: str, loads: dict[str, float], reads: Reader) -> None:
    verdict = reads(text, on_the_road())
    assert isinstance(verdict, Facts)
    (entry,) = verdict.entries
    assert isinstance(entry, Weighing)
    assert {at: load.value for at, load in entry.loads.items()} == loads


def test_what_could_be_hundreds_is_asked_about(reads: Reader) -> None:
    verdict = reads(
        "steer fifty two twenty drive sixty nine trailer ninety three ten", on_the_road()
    )
    assert isinstance(verdict, Ask)
    offered = [entry for choice in verdict.choices for entry in choice.entries]
    assert weighed({**AXLES, "drive": 6_900}) in offered


def test_the_truck_was_unhitched_and_then_weighed(reads: Reader) -> None:
    solo = weighed({"steer": 4_910, "drive": 3_860}, rig="solo")
    verdict = reads("unhitched and weighed just the truck, steer 4,910 drive 3,860", on_the_road())
    assert verdict == Facts((Hitch(action="unhitched"), solo))


@pytest.mark.parametrize(
    "text", ["my back weighs 5 tons today", "his rear weighs 3,400 lb, what a bull"]
)
def test_what_a_person_weighs_is_talk(text: str, reads: Reader) -> None:
    assert reads(text, on_the_road()) == Silent()


@pytest.mark.parametrize("text", ["5140/6120/8840", "5.1k/6.1k/8.8k", "hitched. 5140 6120 8840"])
def test_three_round_figures_in_a_row_are_axles_before_anybody_hitched(
    text: str, reads: Reader
) -> None:
    verdict = reads(text, chat())
    assert isinstance(verdict, Facts)
    weighing = verdict.entries[-1]
    assert isinstance(weighing, Weighing)
    assert list(weighing.loads) == ["steer", "drive", "trailer"]


@pytest.mark.parametrize(
    ("text", "entries"),
    [
        (
            "5,220 up front, 6,940 in back, 9,310 trailer",
            [weighed(AXLES, rig="hitched")],
        ),
        (
            "12,160 truck + 9,310 trailer = 21,470",
            [weighed({"truck": 12_160, "trailer": 9_310, "gross": 21_470}, rig="hitched")],
        ),
        (
            "the truck put down 12,160 and the trailer 9,310",
            [weighed({"truck": 12_160, "trailer": 9_310}, rig="hitched")],
        ),
        (
            "the two trailer axles came in at 4,620 and 4,690",
            [weighed({"trailer_1": 4_620, "trailer_2": 4_690})],
        ),
        (
            "unhooked the camper and weighed it on its own, 6,240",
            [
                Hitch(action="unhitched", trailer="camper"),
                weighed({"gross": 6_240}, rig="trailer", trailer="camper"),
            ],
        ),
        (
            "axle one fifty two twenty axle two sixty nine forty axle three ninety three ten",
            [weighed(AXLES, rig="hitched")],
        ),
        (
            "five two on the steer, seven oh on the drive, nine three on the trailer",
            [weighed({"steer": 5_200, "drive": 7_000, "trailer": 9_300}, rig="hitched")],
        ),
        (
            "the truck without anything behind it: 8,140",
            [weighed({"gross": 8_140}, rig="solo")],
        ),
        (
            "steer 5,220 drive 6,940 trailer 9,310, me and two kids",
            [weighed(AXLES, rig="hitched", aboard=3)],
        ),
        (
            "steer 5,220 drive 6,940 trailer 9,310, three adults, one kid",
            [weighed(AXLES, rig="hitched", aboard=4)],
        ),
        (
            "flatdeck off the back, truck only 8,140",
            [weighed({"gross": 8_140}, rig="solo")],
        ),
        (
            "with the bars loosened the steer dropped to 4,880",
            [weighed({"steer": 4_880}, bars="off")],
        ),
        (
            "steer 5,220 drive 6,940 trailer 9,310, just me",
            [weighed(AXLES, rig="hitched", aboard=1)],
        ),
    ],
)
def test_what_stands_between_the_loads(text: str, entries: list[Entry], reads: Reader) -> None:
    assert reads(text, on_the_road()) == Facts(tuple(entries))


def test_corners_beyond_a_pressure_are_loads_all_of_them(reads: Reader) -> None:
    text = "truck nearside front 720, offside front 735, nearside rear 980, offside rear 1,010"
    sides = {"steer_left": 720, "steer_right": 735, "drive_left": 980, "drive_right": 1_010}
    assert reads(text, on_the_road(units="metric")) == Facts((weighed(sides, unit="kg"),))


def test_numbers_that_could_be_pressures_are_asked_about(reads: Reader) -> None:
    assert isinstance(reads("steer ninety drive eighty", on_the_road()), Ask)


@pytest.mark.parametrize(
    "text",
    [
        "her solo album came out in 2016",
        "new record dropping on February 14th 2018",
        "the prices have dropped by 2k and people are happy",
        "they got back together in 2009",
        "the monitor does 1920x1080 or 1280x800 and nothing else",
    ],
)
def test_years_and_sizes_are_no_loads(text: str, reads: Reader) -> None:
    assert reads(text, on_the_road(odometer=None)) == Silent()


def test_a_figure_that_an_event_names_is_no_load_of_the_trailer_before_it(reads: Reader) -> None:
    verdict = reads("camper's hooked up, heading out 46,900", on_the_road())
    assert isinstance(verdict, Ask)
    assert (verdict.about, verdict.why) == ("odometer", "backwards")


@pytest.mark.parametrize(
    "text",
    [
        "weighed just Juniper: steer 4,780 drive 3,400",
        "just Juniper on the scale: 4,780 3,400",
        "Juniper solo 4,780 / 3,400",
    ],
)
def test_a_truck_by_its_name_and_nothing_else_was_alone(text: str, reads: Reader) -> None:
    truck = weighed({"steer": 4_780, "drive": 3_400}, rig="solo", truck="Juniper")
    assert reads(text, on_the_road()) == Facts((truck,))


@pytest.mark.parametrize(
    "text",
    [
        "unhooked the trailer. solo steer 5010 drive 3,870",
        "unhooked the trailer, solo 5010 / 3,870",
    ],
)
def test_what_was_unhooked_is_not_what_stood_alone(text: str, reads: Reader) -> None:
    verdict = reads(text, on_the_road())
    assert isinstance(verdict, Facts)
    assert verdict.entries[-1] == weighed({"steer": 5_010, "drive": 3_870}, rig="solo")


def test_a_trailers_front_axle_is_not_the_steer_axle_again(reads: Reader) -> None:
    text = "trailer front axle 4,880 trailer rear axle 5,020, steer 5300 drive 7120"
    loads = {"trailer_1": 4_880, "trailer_2": 5_020, "steer": 5_300, "drive": 7_120}
    assert reads(text, on_the_road()) == Facts((weighed(loads, rig="hitched"),))


def test_a_place_before_the_word_for_a_scale_is_nobody(reads: Reader) -> None:
    verdict = reads("Tamsin weighbridge front 1,340 rear 1,460 trailer 1,640", on_the_road())
    assert isinstance(verdict, Facts)
    assert isinstance(verdict.entries[0], Weighing)
    assert isinstance(reads("Tamsin weighed 1,340 front 1,460 rear", on_the_road()), Silent)


@pytest.mark.parametrize(
    "text",
    ["took 200 lb off the tongue", "moved 200 lb off the drive axle", "lost 300 lb off the steer"],
)
def test_what_was_taken_off_is_no_load(text: str, reads: Reader) -> None:
    assert isinstance(reads(text, on_the_road()), Silent)


@pytest.mark.parametrize(
    "text",
    [
        "weighed with steer n drive together: 8,140. flatdeck axles 6,460",
        "front and rear axles together 8,140, flatdeck axles 6,460",
        "front n back combined 8,140, flatdeck 6,460",
    ],
)
def test_both_axles_together_are_the_truck(text: str, reads: Reader) -> None:
    loads = {"truck": 8_140, "trailer": 6_460}
    assert reads(text, on_the_road()) == Facts((weighed(loads, rig="hitched", trailer="flatdeck"),))


@pytest.mark.parametrize("said", ["pin weight by itself", "tongue weight alone"])
def test_a_load_that_stood_alone_is_still_its_own(said: str, reads: Reader) -> None:
    expected = Facts((weighed({"tongue": 1_240}, trailer="camper"),))
    assert reads(f"{said} 1,240 on the camper", on_the_road()) == expected


@pytest.mark.parametrize(
    ("text", "entry"),
    [
        ("5220 6940 9310 thats front back trailer", weighed(AXLES, rig="hitched")),
        ("front, back, trailer: 5220, 6940, 9310", weighed(AXLES, rig="hitched")),
        ("9310, 6940 and 5220, that's trailer, rear and front", weighed(AXLES, rig="hitched")),
        (
            "got the trailer axles and the total before it shut, 9,310 and 21,470",
            weighed({"trailer": 9_310, "gross": 21_470}, rig="hitched"),
        ),
        (
            "trailer axles front 3880 middle 3940 rear 3860, steer 5340 drive 7260",
            weighed(
                {
                    "trailer_1": 3_880,
                    "trailer_2": 3_940,
                    "trailer_3": 3_860,
                    "steer": 5_340,
                    "drive": 7_260,
                },
                rig="hitched",
            ),
        ),
        (
            "truck front 5240 rear 6890 trailer front 4400 rear 4500",
            weighed(
                {"steer": 5_240, "drive": 6_890, "trailer_1": 4_400, "trailer_2": 4_500},
                rig="hitched",
            ),
        ),
        (
            "trailer front axle 4400, rear axle 4600, steer 5200, drive 6800",
            weighed(
                {"trailer_1": 4_400, "trailer_2": 4_600, "steer": 5_200, "drive": 6_800},
                rig="hitched",
            ),
        ),
        (
            "camper axle front 2,450 rear 2,510, truck front 4,980 rear 6,120",
            weighed(
                {"trailer_1": 2_450, "trailer_2": 2_510, "steer": 4_980, "drive": 6_120},
                rig="hitched",
                trailer="camper",
            ),
        ),
        (
            "5,220 on the front tires, 6,940 on the back ones and 9,310 on the trailer",
            weighed(AXLES, rig="hitched"),
        ),
        ("shifted the pallet and went back over, 5220 6940 9310", weighed(AXLES, rig="hitched")),
        (
            "moved the hives forward, rolled over it again, now 5220 6940 9310",
            weighed(AXLES, rig="hitched"),
        ),
        (
            "steer 5,220, drive 6,940, camper axles 9,310, twenty one thousand four seventy in all",
            weighed({**AXLES, "gross": 21_470}, rig="hitched", trailer="camper"),
        ),
        (
            "steer 5,220, drives 6,940 which is seventeen hundred more, trailer 9,310",
            weighed(AXLES, rig="hitched"),
        ),
        (
            "steer 5,220 drive 6,940 trailer 9,310, 340 heavier than last week",
            weighed(AXLES, rig="hitched"),
        ),
        (
            "the grain truck ahead of us was 78,400, us: steer 5,220 drive 6,940 trailer 9,310",
            weighed(AXLES, rig="hitched"),
        ),
        ("guy ahead of us weighed 78,400, we were 21,470 gross", weighed({"gross": 21_470})),
        (
            "they charged 14.25, steer 5,220 drive 6,940 trailer 9,310",
            weighed(AXLES, rig="hitched", cost=Quantity(14.25, "USD")),
        ),
        (
            "would have guessed ten thousand on the trailer. actual 9,310, steer 5,220 drive 6,940",
            weighed(AXLES, rig="hitched"),
        ),
        ("tongue 845", weighed({"tongue": 845})),
        ("our rig weighs 21,470 altogether", weighed({"gross": 21_470})),
        (
            "gross says 21,470 and the axles say 5,220, 6,940 and 9,310",
            weighed({**AXLES, "gross": 21_470}, rig="hitched"),
        ),
        ("had them weigh us again: 5,220 6,940 9,310", weighed(AXLES, rig="hitched")),
        (
            "put only the flatdeck on, no truck: 7,940",
            weighed({"gross": 7_940}, rig="trailer", trailer="flatdeck"),
        ),
        ("tongue's 812", weighed({"tongue": 812})),
        (
            "4,420 and 4,510 on the trailer's front and rear axle",
            weighed({"trailer_1": 4_420, "trailer_2": 4_510}),
        ),
        (
            "fronts and rears 5,220 and 6,940, 9,310 for the flatdeck",
            weighed(AXLES, rig="hitched", trailer="flatdeck"),
        ),
        ("trailer first then drive then steer: 9310 6940 5220", weighed(AXLES, rig="hitched")),
        (
            "drive 6,940 and steer 5,220, difference of 1,720, trailer 9,310",
            weighed(AXLES, rig="hitched"),
        ),
    ],
)
def test_which_place_each_figure_is_of(text: str, entry: Weighing, reads: Reader) -> None:
    verdict = reads(text, on_the_road(currency="USD"))
    assert isinstance(verdict, Facts), verdict
    assert verdict.entries == (entry,)


def test_what_was_unhooked_and_stood_there_alone_is_the_trailer(reads: Reader) -> None:
    verdict = reads("unhooked the flatdeck and put just it on the scale: 7,940", on_the_road())
    assert isinstance(verdict, Facts), verdict
    assert verdict.entries == (
        Hitch(action="unhitched", trailer="flatdeck"),
        weighed({"gross": 7_940}, rig="trailer", trailer="flatdeck"),
    )


@pytest.mark.parametrize(
    "text",
    [
        "the hay truck ahead of us: 78,400",
        "guy next to us was 78,400",
        "the cattle pot in front of us scaled 79,400",
        "neighbor weighed his rig, we watched, gross was 21,000",
        "front tires 1,540, all in 1,720",
        "new front tires 1,450 for the pair",
        "all in all a good day, 29,080 steps",
        "we raised 21,140 in all",
        "sold 2,140 altogether",
        "a rig like that weighs 21,140",
        "the rig cost 21,140 and weighs a ton",
        "ran over it again with the mower, 40 bucks",
        "pin 4521",
        "tongue 3",
    ],
)
def test_figures_of_others_and_of_things_are_no_loads(text: str, reads: Reader) -> None:
    assert isinstance(reads(text, on_the_road()), Silent)


@pytest.mark.parametrize(
    "text",
    [
        "float on: 1160 front, 1290 rear, 1640 float axles",
        "float on, 1160 front 1290 rear 1640 float axles",
        "flatdeck hooked: 1160 front, 1290 rear, 1640 flatdeck",
        "caravan hitched: 1160 front, 1290 rear, 1640 caravan axles",
        "camper on - front 1160, rear 1290, trailer 1640",
    ],
)
def test_a_trailer_that_is_on_heads_the_whole_rig(text: str, reads: Reader) -> None:
    verdict = reads(text, on_the_road())
    assert isinstance(verdict, Facts), verdict
    (weighing,) = [each for each in verdict.entries if isinstance(each, Weighing)]
    assert {name: load.value for name, load in weighing.loads.items()} == {
        "steer": 1160,
        "drive": 1290,
        "trailer": 1640,
    }


@pytest.mark.parametrize(
    "text", ["camper axles: 4200 front, 4400 rear", "camper: 4200 front, 4400 rear"]
)
def test_a_trailer_heads_its_own_axles(text: str, reads: Reader) -> None:
    verdict = reads(text, on_the_road())
    assert isinstance(verdict, Facts), verdict
    (weighing,) = [each for each in verdict.entries if isinstance(each, Weighing)]
    assert {name: load.value for name, load in weighing.loads.items()} == {
        "trailer_1": 4200,
        "trailer_2": 4400,
    }


def standing(text: str, reads: Reader) -> list[tuple[str | None, dict[str, float]]]:
    """How the rig stood and what the scale showed, pass by pass."""
    verdict = reads(text, on_the_road())
    assert isinstance(verdict, Facts), verdict
    return [
        (each.rig, {name: load.value for name, load in each.loads.items()})
        for each in verdict.entries
        if isinstance(each, Weighing)
    ]


@pytest.mark.parametrize(
    ("text", "alone"),
    [
        ("truck and camper 18,940, truck alone 9,820", ("solo", {"gross": 9_820})),
        ("truck and camper 18,940 lb, truck alone 9,820", ("solo", {"gross": 9_820})),
        ("truck and camper 18,940, camper alone 9,120", ("trailer", {"gross": 9_120})),
    ],
)
def test_both_together_and_then_one_of_them_alone(
    text: str, alone: tuple[str, dict[str, float]], reads: Reader
) -> None:
    assert standing(text, reads) == [("hitched", {"gross": 18_940}), alone]


@pytest.mark.parametrize(
    ("text", "loads"),
    [
        (
            "axle 1 4,560 axle 2 4,580 on the trailer, truck 12,100",
            {"trailer_1": 4_560, "trailer_2": 4_580, "truck": 12_100},
        ),
        (
            "axle 1 5,200 axle 2 6,800, truck 12,000, trailer 9,100",
            {"steer": 5_200, "drive": 6_800, "truck": 12_000, "trailer": 9_100},
        ),
        (
            "slip: steer ax 5 180 lb / drive ax 6 920 lb / trl ax 9 060 lb",
            {"steer": 5_180, "drive": 6_920, "trailer": 9_060},
        ),
    ],
)
def test_whose_the_numbered_axles_are(text: str, loads: dict[str, float], reads: Reader) -> None:
    assert standing(text, reads) == [("hitched", loads)]


def test_what_is_carried_somewhere_is_no_axles_load(reads: Reader) -> None:
    assert standing("loaded: hay 1,150 deck front, quad 690 rear, gen 140 tongue", reads) == []


THREE = {"trailer_1": 3_710.0, "trailer_2": 3_860.0, "trailer_3": 3_930.0}
BOTH = {"steer": 5_220.0, "drive": 6_940.0, **THREE}


@pytest.mark.parametrize(
    ("text", "entry"),
    [
        (
            "triple axle camper, pads: front axle 3,710, middle 3,860, back 3,930",
            weighed(THREE, trailer="camper"),
        ),
        (
            "triple axle camper: front axle 3,710, middle 3,860, back 3,930. hooked to Juniper",
            weighed(THREE, rig="hitched", truck="Juniper", trailer="camper"),
        ),
        ("front axle 3,710, middle axle 3,860, rear axle 3,930", weighed(THREE)),
        ("on the pads front 3,710, center 3,860, rear 3,930", weighed(THREE)),
        (
            "the camper's three axles: front 3,710, middle 3,860, back 3,930",
            weighed(THREE, trailer="camper"),
        ),
        ("flatdeck: front 3,710 / mid 3,860 / rear 3,930", weighed(THREE, trailer="flatdeck")),
        (
            "triple axle flatdeck: 3,710 front, 3,860 middle, 3,930 rear",
            weighed(THREE, trailer="flatdeck"),
        ),
        (
            "steer 5,220, drive 6,940, camper front axle 3,710, middle 3,860, rear 3,930",
            weighed(BOTH, rig="hitched", trailer="camper"),
        ),
        (
            "front axle 5,220, rear axle 6,940, trailer front 3,710, centre 3,860, rear 3,930",
            weighed(BOTH, rig="hitched"),
        ),
    ],
)
def test_three_axles_in_a_row_are_a_trailers(text: str, entry: Entry, reads: Reader) -> None:
    assert reads(text, on_the_road()) == Facts((entry,))


def test_two_axles_are_the_trucks(reads: Reader) -> None:
    stated = weighed({"steer": 5_220, "drive": 6_940})
    assert reads("front axle 5,220, rear axle 6,940", on_the_road()) == Facts((stated,))


@pytest.mark.parametrize(
    "text",
    [
        "front row 12, middle 14, back 15",
        "seats in the front 250, middle 180, back 90 bucks",
        "kids in the front, middle and back",
    ],
)
def test_front_middle_and_back_of_talk(text: str, reads: Reader) -> None:
    assert isinstance(reads(text, on_the_road()), Silent)


TANDEM = {"trailer_1": 3_640, "trailer_2": 3_590}


@pytest.mark.parametrize(
    ("text", "entry"),
    [
        (
            "tandem axle flatdeck hooked to Juniper: front axle 3,640, rear axle 3,590",
            weighed(TANDEM, rig="hitched", truck="Juniper", trailer="flatdeck"),
        ),
        (
            "tandem camper hitched: rear axle 3,590, front axle 3,640",
            weighed(TANDEM, rig="hitched", trailer="camper"),
        ),
        (
            "tandem axle camper on: front axle 3,640, rear axle 3,590",
            weighed(TANDEM, trailer="camper"),
        ),
        (
            "Juniper with the tandem axle camper hitched: front axle 5,220, rear axle 6,940",
            weighed(
                {"steer": 5_220, "drive": 6_940}, rig="hitched", truck="Juniper", trailer="camper"
            ),
        ),
        (
            "tandem camper hooked to Juniper: front axle 5,220, rear axle 6,940, camper 9,310",
            weighed(AXLES, rig="hitched", truck="Juniper", trailer="camper"),
        ),
        (
            "camper hooked to Juniper: steer 5,220 drive 6,940 trailer 9,310",
            weighed(AXLES, rig="hitched", truck="Juniper", trailer="camper"),
        ),
    ],
)
def test_a_trailer_told_by_its_axles_heads_them(reads: Reader, text: str, entry: Entry) -> None:
    assert reads(text, on_the_road()) == Facts((entry,))


def test_a_trailer_that_was_hooked_up_before_it_was_weighed(reads: Reader) -> None:
    read = reads("hooked camper to Juniper: steer 5,220 drive 6,940 trailer 9,310", on_the_road())
    assert isinstance(read, Facts)
    assert [type(entry) for entry in read.entries] == [Hitch, Weighing]


def test_unlike_axles_under_a_tandem_are_asked_about(reads: Reader) -> None:
    read = reads("tandem camper hitched: front axle 5,220, rear axle 6,940", on_the_road())
    assert isinstance(read, Ask)
    first, second = (choice.entries[0] for choice in read.choices)
    assert first == weighed({"steer": 5_220, "drive": 6_940}, rig="hitched")
    assert second == weighed({"trailer_1": 5_220, "trailer_2": 6_940}, rig="hitched")


def loads_of(text: str, reads: Reader, **known: Any) -> dict[str, float]:
    """The loads of the one weighing that a message states."""
    verdict = reads(text, on_the_road(**known))
    assert isinstance(verdict, Facts), verdict
    (entry,) = [each for each in verdict.entries if isinstance(each, Weighing)]
    return {at: load.value for at, load in entry.loads.items()}


@pytest.mark.parametrize(
    "text",
    [
        "Trailer (the two axles together) 9.1k, drive 6.75k, steer 5.15k, gross 21k",
        "trailer (both axles) 9,100, drive (rear axle) 6,750, steer 5,150, gross (all) 21,000",
    ],
)
def test_what_brackets_say_of_a_label(text: str, reads: Reader) -> None:
    assert loads_of(text, reads) == {
        "trailer": 9_100,
        "drive": 6_750,
        "steer": 5_150,
        "gross": 21_000,
    }


def test_axles_listed_behind_whose_they_are(reads: Reader) -> None:
    text = "the trailer's two axles, front to back, 4,520 then 4,580; truck 12,100; 21,200 gross"
    assert loads_of(text, reads) == {
        "trailer_1": 4_520,
        "trailer_2": 4_580,
        "truck": 12_100,
        "gross": 21_200,
    }


def test_a_unit_said_of_all_is_no_gross(reads: Reader) -> None:
    text = "rear axle 1,840 front axle 1,290 trailer 1,650 all in kg, 48,060 on the odo"
    assert loads_of(text, reads) == {"drive": 1_840, "steer": 1_290, "trailer": 1_650}


@pytest.mark.parametrize(
    "text",
    [
        "whole rig hitched on the scale, 14,600 lb",
        "weighed with the truck hooked on: trailer axle 1 3,980, trailer axle 2 4,010",
    ],
)
def test_how_it_stood_is_said_behind_what_stood(text: str, reads: Reader) -> None:
    verdict = reads(text, on_the_road())
    assert isinstance(verdict, Facts), verdict
    (entry,) = verdict.entries
    assert isinstance(entry, Weighing)
    assert entry.rig == "hitched"


def test_hitched_over_loads_is_news_where_nothing_was_on(reads: Reader) -> None:
    text = "camper hitched, steer 5,150 drive 6,750 trailer 9,100"
    for hitched, news in ((False, 1), (True, 0)):
        verdict = reads(text, on_the_road(hitched=hitched))
        assert isinstance(verdict, Facts), verdict
        assert len([each for each in verdict.entries if isinstance(each, Hitch)]) == news


@pytest.mark.parametrize(
    ("text", "loads"),
    [
        ("guy at the weighbridge says 20,380 gross", {"gross": 20_380}),
        ("only got the rear axle of the truck this time, 5,480", {"drive": 5_480}),
    ],
)
def test_one_load_and_who_tells_it(text: str, loads: dict[str, float], reads: Reader) -> None:
    assert loads_of(text, reads) == loads


@pytest.mark.parametrize(
    "text",
    ["guy at the scale weighed 20,380", "the guy at the scale says his rig is 20,380 gross"],
)
def test_what_the_other_weighed(text: str, reads: Reader) -> None:
    assert reads(text, on_the_road()) == Silent()


@pytest.mark.parametrize("text", ["1,060 lb on the coupler", "got 1,060 lb on the coupler"])
def test_what_rests_on_the_coupler_is_the_tongue(text: str, reads: Reader) -> None:
    assert loads_of(text, reads) == {"tongue": 1_060}


def test_what_is_stamped_on_it_is_no_load(reads: Reader) -> None:
    for text in ("15,000 lb on the coupler", "stamped 2,000 lb on the coupler"):
        verdict = reads(text, on_the_road())
        assert isinstance(verdict, Facts), text
        assert not any(isinstance(each, Weighing) for each in verdict.entries), text
