"""Loads told in rows: the axles of a trailer, a left and a right, one pass and then another."""

from __future__ import annotations

import pytest

from domain.verdicts import Ask, Silent
from tests.domain.reading.chats import Reader, on_the_road
from tests.domain.reading.test_told_at_the_scale import told
from tests.domain.reading.weighed import loads, weighings


@pytest.mark.parametrize(
    "text",
    [
        "steer 5,300, drive 7,200, then the tri axle front to back: 3,900, 3,950, 3,870",
        "steer 5,300 drive 7,200, axles 1 thru 3: 3,900, 3,950, 3,870",
        "steer 5,300, drive 7,200, axles one through three 3,900, 3,950 and 3,870",
        "5,300 steer, 7,200 drive, triple axles 3,900, 3,950 and 3,870",
    ],
)
def test_axles_beside_the_trucks_own_are_the_trailers(text: str, reads: Reader) -> None:
    assert loads(text, reads) == {
        "steer": 5_300,
        "drive": 7_200,
        "trailer_1": 3_900,
        "trailer_2": 3_950,
        "trailer_3": 3_870,
    }


@pytest.mark.parametrize(
    "text",
    [
        "lefts then rights: steer 2,660 and 2,700, drive 3,380 and 3,460",
        "left/right: steer 2,660/2,700, drive 3,380/3,460",
        "driver side and passenger side, steer 2,660/2,700, drive 3,380/3,460",
        "rights then lefts: steer 2,700 and 2,660, drive 3,460 and 3,380",
    ],
)
def test_two_figures_of_an_axle_are_its_sides_in_the_order_that_is_said(
    text: str, reads: Reader
) -> None:
    assert loads(text, reads) == {
        "steer_left": 2_660,
        "steer_right": 2_700,
        "drive_left": 3_380,
        "drive_right": 3_460,
    }


@pytest.mark.parametrize(
    "text",
    [
        "First trailer axle: 2,480 left, 2,520 right. Second: 2,440 left, 2,560 right.",
        "first trailer axle 2,480 left and 2,520 right, second one 2,440 left and 2,560 right",
        "trailer's first axle 2,480 left and 2,520 right, the second 2,440 left and 2,560 right",
    ],
)
def test_a_second_axle_is_of_the_trailer_whose_first_was_told(text: str, reads: Reader) -> None:
    assert loads(text, reads) == {
        "trailer_1_left": 2_480,
        "trailer_1_right": 2_520,
        "trailer_2_left": 2_440,
        "trailer_2_right": 2_560,
    }


def test_numbered_sides_beside_the_trucks_axles_are_the_trailers(reads: Reader) -> None:
    read = loads(
        "left/right by axle: first 1,940/1,980, second 1,960/1,990. "
        "Truck: steer 5,420, drive 7,260",
        reads,
    )
    assert read == {
        "trailer_1_left": 1_940,
        "trailer_1_right": 1_980,
        "trailer_2_left": 1_960,
        "trailer_2_right": 1_990,
        "steer": 5_420,
        "drive": 7_260,
    }


@pytest.mark.parametrize(
    "text",
    [
        "Bars off first: 4,860 steer, 7,420 drive, 9,500 trailer. "
        "Then the bars on: 5,180 steer, 6,940 drive, 9,660 trailer.",
        "bars off first, 4,860 steer, 7,420 drive, 9,500 trailer, "
        "then bars on, 5,180 steer, 6,940 drive, 9,660 trailer",
    ],
)
def test_what_was_first_is_a_pass_and_no_axle(text: str, reads: Reader) -> None:
    off, on = weighings(text, reads)
    assert (off.bars, on.bars) == ("off", "on")
    assert [load.value for load in off.loads.values()] == [4_860, 7_420, 9_500]
    assert [load.value for load in on.loads.values()] == [5_180, 6_940, 9_660]


@pytest.mark.parametrize(
    "text",
    [
        "steer 5,360, the drive's 1,480 more than that, so 6,840, trailer 9,180",
        "steer's 5,360, drive is 1,480 more than it, which makes 6,840, trailer 9,180",
        "drive 6,840, steer is 1,480 less than that so 5,360, trailer 9,180",
        "steer 5,360, drives 6,840 and 9,180 back on the trailer",
        "dad read it off the ticket: steer 5,360, drive 6,840, trailer 9,180",
        "my wife reads off the slip steer 5,360 drive 6,840 trailer 9,180",
        "kids are yelling anyway steer 5,360 drive 6,840 trailer 9,180",
        "got weighed, you were right about it: steer 5,360, drive 6,840, trailer 9,180",
        "Deputy came out with pads. steer 5,360, drive 6,840, trailer 9,180",
    ],
)
def test_three_loads_are_told_among_other_words(text: str, reads: Reader) -> None:
    assert loads(text, reads) == {"steer": 5_360, "drive": 6_840, "trailer": 9_180}


@pytest.mark.parametrize(
    "text",
    [
        "quarry guy says 21,380 gross, steer 5,360 drive 6,840 trailer 9,180",
        "boss says 5,360 steer, 6,840 drive, 9,180 trailer, 21,380 gross",
        "Jo guessed 19,000, I said 24,000, the scale says 21,380 gross: "
        "5,360 steer, 6,840 drive, 9,180 trailer",
        "Fwd: photo text\n\nAXLE 1 STEER 5360 LB\nAXLE 2 DRIVE 6840 LB\nAXLE 3 TRAILER 9180 LB"
        "\nTOTAL 21380 LB",
    ],
)
def test_loads_and_the_gross_that_they_make_are_ours(text: str, reads: Reader) -> None:
    assert loads(text, reads) == {"steer": 5_360, "drive": 6_840, "trailer": 9_180, "gross": 21_380}


@pytest.mark.parametrize(
    "text",
    [
        "he says 5,280 steer, 6,900 drive, 10,120 trailer",
        "neighbor says his steer is 5,280, drive 6,900, trailer 10,120, gross 22,300",
        "the guy ahead of us says 22,300 gross, 5,280 steer, 6,900 drive, 10,120 trailer",
        "dad read it off the internet: 5,280 steer",
        "Mia guessed 20,000, I guessed 23,000",
        "I guessed 23,000 and the scale is closed",
        "lefts and rights all day, 2,660 steps",
        "axles one through three are fine",
        "anyway he weighed 210 lb",
        "you were right about the drive: 480 miles",
        "bars off first, then bars on",
        "the drive's 40 miles more than that",
        "he was 1,480 more than that, so 6,840",
    ],
)
def test_what_others_weigh_and_guess_is_talk(text: str, reads: Reader) -> None:
    assert isinstance(reads(text, on_the_road()), Silent)


@pytest.mark.parametrize(
    "text",
    [
        "steer 5,360 drive 6,840 trailer 9,180 gross 21,380, last week it was 21,900",
        "steer 5,360 drive 6,840 trailer 9,180 gross 21,380, last time it was 20,900",
        "STR | DRV | TRL\n5360 | 6840 | 9180\n-----\nGRS 21380 LB\nTHANK YOU",
        "steer | drive | trailer\n5360 | 6840 | 9180\ngross 21380\ndrive safe",
    ],
)
def test_a_gross_is_of_the_row_and_of_today(text: str, reads: Reader) -> None:
    assert loads(text, reads) == {"steer": 5_360, "drive": 6_840, "trailer": 9_180, "gross": 21_380}


@pytest.mark.parametrize(
    "text",
    [
        "Steer axle's fine at 5,360; the drive is where it hurts, 6,840; "
        "and 9,180 trails along behind on the trailer axles.",
        "drive is the one that worries us most of all, 6,840; steer 5,360; "
        "trailer axles came in lovely, honestly, 9,180",
    ],
)
def test_a_part_of_a_sentence_has_one_place_and_its_load(text: str, reads: Reader) -> None:
    assert loads(text, reads) == {"steer": 5_360, "drive": 6_840, "trailer": 9_180}


@pytest.mark.parametrize(
    "text",
    [
        "scale says 21,380, last time it was 21,900",
        "so the ticket says 21,380, last trip it was 21,900",
    ],
)
def test_a_lone_load_of_today_is_asked_about_and_not_that_of_another_day(
    text: str, reads: Reader
) -> None:
    read = reads(text, on_the_road())
    assert isinstance(read, Ask)
    assert [each.value for each in read.figures] == [21_380]


def test_a_total_of_a_vehicle_by_itself_is_no_money(reads: Reader) -> None:
    (only,) = weighings(
        "This one's the truck by herself, no trailer, me and Odile aboard, "
        "dog stayed home in protest: 8,920 total",
        reads,
    )
    assert (only.rig, only.aboard) == ("solo", 2)


@pytest.mark.parametrize(
    "text",
    [
        "weighed the camper by itself, 7,940 on its wheels and 1,120 on the tongue jack scale",
        "camper by itself, 1,120 on the tongue scale, 7,940 on the axles",
    ],
)
def test_a_scale_under_the_tongue_weighs_it(text: str, reads: Reader) -> None:
    assert loads(text, reads) == {"trailer": 7_940, "tongue": 1_120}


@pytest.mark.parametrize(
    "text",
    [
        "the ticket says row 12",
        "my ticket says 7 pm",
        "raffle ticket says 1482",
        "last time it was 21,900 people",
        "the dog stayed in Elk Fork; the cat is where it hurts; total 40",
    ],
)
def test_tickets_and_other_days_are_talk(text: str, reads: Reader) -> None:
    assert isinstance(reads(text, on_the_road()), Silent)


@pytest.mark.parametrize(
    "text",
    [
        "steers 54 hundred, drives 71 fifty, trailer 98 fifty",
        "steer 54 hundred drive 71 fifty trailer 98 fifty",
        "steer fifty-four hundred, drive 71 fifty, trailer ninety-eight fifty",
    ],
)
def test_a_load_may_be_half_typed_and_half_said(text: str, reads: Reader) -> None:
    assert loads(text, reads) == {"steer": 5_400, "drive": 7_150, "trailer": 9_850}


@pytest.mark.parametrize(
    "text", ["route 66 forty miles on", "trailer 98 fifty miles on", "the drive 98 twenty times"]
)
def test_two_numbers_of_other_things_are_none(text: str, reads: Reader) -> None:
    assert isinstance(reads(text, on_the_road()), Silent)


@pytest.mark.parametrize(
    ("text", "stated"),
    [
        (
            "steer 5.2k drive 6.9 trailer 9.7",
            "weighing drive=6900 rig=hitched steer=5200 trailer=9700",
        ),
        (
            "5.2k, 6.9 and 9.7 on the scale",
            "weighing drive=6900 rig=hitched steer=5200 trailer=9700",
        ),
        ("steer 5.2k, drive 6.9, 24.3 gal", "weighing drive=6900 steer=5200"),
        ("odo 51.3k, 24.1, 98.20", "fill cost=98.2 odometer=51300 volume=24.1"),
    ],
)
def test_thousands_are_said_of_the_first_for_all_of_a_row(
    reads: Reader, text: str, stated: str
) -> None:
    assert told(reads, text)[0] == stated


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        (
            "900 kg on the front, 1,100 on the back of the trailer",
            {"trailer_1": 900, "trailer_2": 1_100},
        ),
        (
            "4,400 on the front and 4,800 on the rear of the camper",
            {"trailer_1": 4_400, "trailer_2": 4_800},
        ),
        ("5,180 on the front, 6,940 on the rear", {"steer": 5_180, "drive": 6_940}),
        (
            "front 5,180, rear 6,940, 9,240 on the back of the trailer",
            {"steer": 5_180, "drive": 6_940, "trailer_2": 9_240},
        ),
    ],
)
def test_both_ends_are_of_what_is_named_behind_the_last(
    text: str, expected: dict[str, float], reads: Reader
) -> None:
    assert loads(text, reads) == expected


def test_axles_that_make_a_gcm_were_weighed_with_it(reads: Reader) -> None:
    axles = "Axle 1: 2380 kg\nAxle 2: 3120 kg\nAxle 3: 1640 kg\nAxle 4: 1660 kg\n"
    assert loads(f"{axles}GCM: 8800 kg", reads) == {
        "steer": 2_380,
        "drive": 3_120,
        "trailer_1": 1_640,
        "trailer_2": 1_660,
        "gross": 8_800,
    }
    assert "rating=gcwr" in told(reads, f"{axles}GCM: 7500 kg")[-1]


@pytest.mark.parametrize(
    "text",
    [
        "5160 6880 9420 for 21460, tongue 1,040 by the jack scale",
        "tongue 1,040, 5160 6880 9420 21460",
    ],
)
def test_a_row_that_makes_its_gross_may_stand_beside_a_tongue(text: str, reads: Reader) -> None:
    assert loads(text, reads) == {
        "tongue": 1_040,
        "steer": 5_160,
        "drive": 6_880,
        "trailer": 9_420,
        "gross": 21_460,
    }


@pytest.mark.parametrize(
    "text",
    [
        "front 5,160 rear 6,420 tr 7,980 tot 19,560",
        "steer 5,160, 6,420, trailer 7,980, gross 19,560",
        "steer 5,160 drive 6,420, 7,980, gross 19,560",
    ],
)
def test_the_one_load_without_a_name_is_what_the_gross_lacks(text: str, reads: Reader) -> None:
    assert loads(text, reads) == {"steer": 5160, "drive": 6420, "trailer": 7980, "gross": 19560}


def test_a_load_without_a_name_is_asked_about_where_the_gross_lacks_another(
    reads: Reader,
) -> None:
    assert isinstance(reads("front 5,160 rear 6,420 tr 7,890 tot 19,560", on_the_road()), Ask)
