"""What people text from a scale: how the rig stood, loads beside limits, and each of several."""

from __future__ import annotations

from typing import Any

import pytest

from domain.entries import Weighing
from domain.records import verdict_to_record
from domain.verdicts import Facts
from tests.domain.reading.chats import Reader, on_the_road


def told(reads: Reader, text: str, **known: Any) -> list[str]:
    """The entries of a message, each on a line: 'weighing gross=21300 rig=hitched'."""
    record = verdict_to_record(reads(text, on_the_road(**known)))
    if record["verdict"] != "entry":
        return [record["verdict"]]
    return [_in_short(entry) for entry in record["entries"]]


def _in_short(entry: dict[str, Any]) -> str:
    fields = {**entry.pop("loads", {}), **entry}
    kind = fields.pop("kind")
    figures = {key: _figure(value) for key, value in fields.items()}
    return " ".join([kind, *(f"{key}={figures[key]}" for key in sorted(figures))])


def _figure(value: Any) -> str:
    return f"{value['value']:g}" if isinstance(value, dict) else str(value)


@pytest.mark.parametrize(
    ("text", "entries"),
    [
        (
            "scales had us at 23,080 all in, hooked to the camper",
            ["weighing gross=23080 rig=hitched trailer=camper"],
        ),
        (
            "coupled to the flatdeck, gross 21,300",
            ["weighing gross=21300 rig=hitched trailer=flatdeck"],
        ),
        # What was done before it was weighed is news.
        (
            "swapped to the flatdeck, gross 21,300",
            [
                "hitch action=hitched trailer=flatdeck",
                "weighing gross=21300 rig=hitched trailer=flatdeck",
            ],
        ),
        (
            "hooked to the camper and rolling, 48,102",
            ["hitch action=hitched trailer=camper", "odometer event=depart odometer=48102"],
        ),
    ],
)
def test_to_what_a_rig_was_hitched_is_no_news_of_a_scale(
    reads: Reader, text: str, entries: list[str]
) -> None:
    assert told(reads, text) == entries


@pytest.mark.parametrize(
    ("text", "entries"),
    [
        (
            "22,900 is what she grossed, bars off, and steer was down to 4,940",
            ["weighing bars=off gross=22900 rig=hitched steer=4940"],
        ),
        (
            "steer 5,300, bars on, drive 6,900, trailer 9,800",
            ["weighing bars=on drive=6900 rig=hitched steer=5300 trailer=9800"],
        ),
        ("steer 5,300, bars off, 4,960", ["weighing steer=5300", "weighing bars=off steer=4960"]),
        (
            "steer 5,300, bars off, steer 4,960",
            ["weighing steer=5300", "weighing bars=off steer=4960"],
        ),
    ],
)
def test_bars_between_two_places_are_of_both(reads: Reader, text: str, entries: list[str]) -> None:
    assert told(reads, text) == entries


@pytest.mark.parametrize(
    ("text", "entries"),
    [
        ("2,200 lb each on the steer and drive", ["weighing drive=2200 steer=2200"]),
        ("steers and drives were 5,200 lb apiece", ["weighing drive=5200 steer=5200"]),
        (
            "each of the two trailer axles 4,240",
            ["weighing trailer_1=4240 trailer_2=4240"],
        ),
        ("each trailer axle 4,800", ["silent"]),  # of how many is not said
        ("weighed each axle: steer 5,160 drive 6,880", ["weighing drive=6880 steer=5160"]),
        (
            "steer 5.2k drive 6.8k trailer axles 4.9k each, theres 2",
            ["weighing drive=6800 rig=hitched steer=5200 trailer_1=4900 trailer_2=4900"],
        ),
        (
            "front 5,240 rear 6,820, both trailer axles 4,940 apiece",
            ["weighing drive=6820 rig=hitched steer=5240 trailer_1=4940 trailer_2=4940"],
        ),
        (
            "steer 5,240 drive 6,820 trailer 4,940 per axle, 2 axles",
            ["weighing drive=6820 rig=hitched steer=5240 trailer_1=4940 trailer_2=4940"],
        ),
        (
            "steer 5,240 drive 6,820 trailer 9,200 a bit heavy on the axles",
            ["weighing drive=6820 rig=hitched steer=5240 trailer=9200"],
        ),
        ("steer 5,240 drive 6,820 trailer axles 4,940 each", ["ask"]),
        ("trailer axles 4,900 each", ["rating rating=gawr subject=trailer value=4900"]),
        (
            "front gawr 5,600 rear gawr 7,050 trailer axles 5,200 each",
            [
                "rating rating=gawr_front subject=truck value=5600",
                "rating rating=gawr_rear subject=truck value=7050",
                "rating rating=gawr subject=trailer value=5200",
            ],
        ),
    ],
)
def test_one_load_of_each(reads: Reader, text: str, entries: list[str]) -> None:
    assert told(reads, text) == entries


@pytest.mark.parametrize(
    ("text", "entries"),
    [
        (
            "truck gvwr 11,500 and it weighed 12,080",
            ["rating rating=gvwr subject=truck value=11500", "weighing truck=12080"],
        ),
        (
            "rear gawr 7,050 actual 6,880",
            ["rating rating=gawr_rear subject=truck value=7050", "weighing drive=6880"],
        ),
        (
            "gcwr 24,000, actual 21,300",
            ["rating rating=gcwr subject=truck value=24000", "weighing gross=21300"],
        ),
        (
            "we came in at 21,300 on a 24,000 gcwr",
            ["weighing gross=21300", "rating rating=gcwr subject=truck value=24000"],
        ),
        (
            "at 21,300 of our 24,000 gcwr",
            ["weighing gross=21300", "rating rating=gcwr subject=truck value=24000"],
        ),
        # A trailer may have been weighed by its axles, or whole.
        (
            "camper gvwr 11,200 and it weighed 10,400",
            ["rating rating=gvwr subject=trailer trailer=camper value=11200"],
        ),
        # A price.
        (
            "saw one for 21,000 on a 24,000 gcwr",
            ["rating rating=gcwr subject=truck value=24000"],
        ),
        ("actual 6,880, gawr 7,050 rear", ["rating rating=gawr_rear subject=truck value=7050"]),
    ],
)
def test_what_was_weighed_beside_its_limit(reads: Reader, text: str, entries: list[str]) -> None:
    assert told(reads, text) == entries


@pytest.mark.parametrize(
    ("text", "entries"),
    [
        ("truck axles 5,160 and 6,880", ["weighing drive=6880 steer=5160"]),
        ("truck axles only 5,160 and 6,880, trailer still on", ["weighing drive=6880 steer=5160"]),
        (
            "truck axles 5,160 6,880 trailer axles 4,810 4,990",
            ["weighing drive=6880 rig=hitched steer=5160 trailer_1=4810 trailer_2=4990"],
        ),
        (
            "truck axles 12,040 and 9,840 on the trailer",
            ["weighing rig=hitched trailer=9840 truck=12040"],
        ),
        ("truck axles 5,160 6,880 9,840", ["silent"]),  # a truck has two
    ],
)
def test_two_axles_of_a_truck_in_a_row(reads: Reader, text: str, entries: list[str]) -> None:
    assert told(reads, text) == entries


UNHITCHED = "hitch action=unhitched trailer=camper"


@pytest.mark.parametrize(
    ("text", "entries"),
    [
        (
            "dropped camper on the scale and it was 10,620",
            [UNHITCHED, "weighing gross=10620 rig=trailer trailer=camper"],
        ),
        (
            "unhooked the camper and weighed it, 10,620",
            [UNHITCHED, "weighing gross=10620 rig=trailer trailer=camper"],
        ),
        ("unhooked the camper and weighed, 8,620", [UNHITCHED, "weighing gross=8620 rig=solo"]),
        (
            "unhooked the camper and weighed the truck, 8,620",
            [UNHITCHED, "weighing gross=8620 rig=solo"],
        ),
        (
            "dropped the camper n ran the truck back over the scale. 4890 frt 3420 rear",
            [UNHITCHED, "weighing drive=3420 rig=solo steer=4890"],
        ),
        (
            "unhitched the camper then weighed Juniper. steer 4,890 drive 3,420",
            [
                f"{UNHITCHED} truck=Juniper",
                "weighing drive=3420 rig=solo steer=4890 truck=Juniper",
            ],
        ),
        (
            "dropped the camper, weighed the truck before that. steer 5,240 drive 6,700",
            [UNHITCHED, "weighing drive=6700 steer=5240 trailer=camper"],
        ),
        (
            "dropped the camper, hitched the flatdeck, weighed the truck: steer 5,240 drive 6,700",
            [
                UNHITCHED,
                "hitch action=hitched trailer=flatdeck",
                "weighing drive=6700 steer=5240",
            ],
        ),
        (
            "just the trailer 10,620 with the truck off the pad",
            ["weighing gross=10620 rig=trailer"],
        ),
        # What was not on the scale has no load.
        ("scaled 12,040 with the camper on the truck and 9,480 trailer only", ["ask"]),
    ],
)
def test_which_of_the_two_stood_on_the_scale(reads: Reader, text: str, entries: list[str]) -> None:
    assert told(reads, text) == entries


@pytest.mark.parametrize(
    ("text", "entries"),
    [
        (
            "loaded the quad, 740 lb, nose of the flatdeck",
            ["cargo item=quad position=nose of flatdeck trailer=flatdeck value=740"],
        ),
        (
            "620 lb mower, nose of the camper",
            ["cargo item=mower position=nose of camper trailer=camper value=620"],
        ),
        ("loaded the quad on the nose of the flatdeck, 740", ["silent"]),
        ("moved the quad back, 1,180 lb on the tongue", ["weighing tongue=1180"]),
        (
            "moved the generator to the tongue, 210 lb",
            ["cargo item=generator position=tongue value=210"],
        ),
        (
            "loaded 300 lb of feed, tongue is 1,180 now",
            ["cargo item=feed value=300", "weighing tongue=1180"],
        ),
        ("with the quad on the tongue, 1,180", ["weighing tongue=1180"]),
    ],
)
def test_what_stands_on_the_tongue_and_what_bears_down_there(
    reads: Reader, text: str, entries: list[str]
) -> None:
    assert sorted(told(reads, text)) == sorted(entries)


@pytest.mark.parametrize(
    ("text", "entries"),
    [
        ("steer 5,080 drive 6,940, cost 14.50", ["weighing cost=14.5 drive=6940 steer=5080"]),
        ("steer 5,080 drive 6,940, air filter cost 14.50", ["weighing drive=6940 steer=5080"]),
        ("bars on at link 5 steer 5,180", ["weighing bars=on steer=5180"]),
        (
            "weighed at Link Creek 5,120 6,960 9,800",
            ["weighing drive=6960 place=Link Creek rig=hitched steer=5120 trailer=9800"],
        ),
    ],
)
def test_what_a_weighing_cost_and_where_it_was(
    reads: Reader, text: str, entries: list[str]
) -> None:
    assert told(reads, text) == entries


@pytest.mark.parametrize(
    "text",
    [
        "2,000 braked 750 unbraked",
        "braked: 2,000 unbraked: 750",
        "max tow 2,000 lb braked 750 lb unbraked",
        "truck can pull 2,000 braked or 750 unbraked",
        "towable mass 2,000 lb braked, 750 unbraked",
    ],
)
def test_what_may_be_towed_without_brakes_is_no_limit_of_ours(reads: Reader, text: str) -> None:
    assert told(reads, text) == ["rating rating=tow subject=truck value=2000"]


OFF, ON = (
    "weighing bars=off drive=7480 rig=hitched steer=4760 trailer=9100",
    "weighing bars=on drive=6960 rig=hitched steer=5180 trailer=9200",
)


@pytest.mark.parametrize(
    ("text", "entries"),
    [
        (
            "bars on 5,300, bars off 4,960 on the steer",
            ["weighing bars=on steer=5300", "weighing bars=off steer=4960"],
        ),
        (
            "bars on 5,300 steer, bars off 7,400 drive",
            ["weighing bars=on steer=5300", "weighing bars=off drive=7400"],
        ),
        ("no bars: steer 4,760 drive 7,480 trl 9,100. bars: 5,180 6,960 9,200", [OFF, ON]),
        (
            "bars off: 4,760 front, 7,480 rear, 9,100 trailer. hooked them up and got 5,180 front, "
            "6,960 rear, 9,200 trailer",
            [OFF, ON],
        ),
        (
            "bars off steer 4,960, safety chains crossed, hooked them up right",
            [
                "weighing bars=off steer=4960",
                "check item=safety chains state=done",
            ],
        ),
        (
            "first time thru 4,760 7,480 9,100, tightened the chains and got 5,180 6,960 9,200",
            [OFF.replace("bars=off ", ""), ON.replace("bars=on ", "")],
        ),
        ("4,760 7,480 9,100 5,180 6,960 9,200", ["silent"]),  # six axles of what
    ],
)
def test_weighed_twice(reads: Reader, text: str, entries: list[str]) -> None:
    assert told(reads, text) == entries


def test_two_rows_of_nothing_that_is_known_are_no_loads(reads: Reader) -> None:
    text = "4,760 7,480 9,100 then 5,180 6,960 9,200"
    assert told(reads, text, hitched=None) == ["silent"]


@pytest.mark.parametrize(
    ("text", "entries"),
    [
        ("hooked the chains, 48,030", ["check item=chains state=done", "odometer odometer=48030"]),
        ("dropped the jack, 48,030", ["odometer odometer=48030"]),
        (
            "hooked the camper, 48,030",
            ["hitch action=hitched trailer=camper", "odometer odometer=48030"],
        ),
    ],
)
def test_a_part_that_is_hooked_is_no_trailer(reads: Reader, text: str, entries: list[str]) -> None:
    assert told(reads, text) == entries


@pytest.mark.parametrize(
    ("text", "entries"),
    [
        (
            "5,380 up front, 6,760 out back and the trailer 7,420",
            ["weighing drive=6760 rig=hitched steer=5380 trailer=7420"],
        ),
        (
            "5,160 on the steer, 6,880 on the drives and 9,840 out back",
            ["weighing drive=6880 rig=hitched steer=5160 trailer=9840"],
        ),
        ("hay 5,380 up front, 6,760 out back in the barn", ["silent"]),
        (
            "camper: first axle 3,260, middle 3,310, the last 3,190",
            ["weighing trailer=camper trailer_1=3260 trailer_2=3310 trailer_3=3190"],
        ),
        ("camper: first axle 3,260, second 3,310, last time we got 3,190", ["ask"]),
    ],
)
def test_ends_in_other_words(reads: Reader, text: str, entries: list[str]) -> None:
    assert told(reads, text) == entries


@pytest.mark.parametrize(
    ("text", "entries"),
    [
        ("weighed the truck before we hitched, 8,260", ["weighing gross=8260 rig=solo"]),
        ("weighed the truck after we hitched, 12,260", ["weighing rig=hitched truck=12260"]),
        ("unhooked trailer 8,120", ["weighing gross=8120 rig=trailer"]),
        ("unhooked trailer weighed in at 8,120", ["weighing gross=8120 rig=trailer"]),
        ("truck with trailer 18,420", ["weighing gross=18420 rig=hitched"]),
        ("truck with trailer hitched 11,420", ["weighing rig=hitched truck=11420"]),
        (
            "unhooked from the trailer and weighed her alone 8,120",
            ["hitch action=unhitched", "weighing gross=8120 rig=solo"],
        ),
        (
            "unhooked the trailer and weighed her alone 8,120",
            ["hitch action=unhitched", "weighing gross=8120 rig=trailer"],
        ),
        ("truck empty 8,020, with tools 8,610", ["ask"]),
        (
            "trailer 11,200 on its axles front of the truck 5,160 and the back axle is 7,480",
            ["weighing drive=7480 rig=hitched steer=5160 trailer=11200"],
        ),
        ("truck 12,640, 5,160 of it on the steer", ["weighing steer=5160 truck=12640"]),
        (
            "trailer by itself: 4,980 on the wheels, 520 on the tongue",
            ["weighing rig=trailer tongue=520 trailer=4980"],
        ),
        (
            "fr 2,690 rr 3,440 trlr 5,470 tot 11,600",
            ["weighing drive=3440 gross=11600 rig=hitched steer=2690 trailer=5470"],
        ),
        (
            "unhooked the trailer, truck 8,120",
            ["hitch action=unhitched", "weighing gross=8120 rig=solo"],
        ),
        # Two rows are no one row of five axles.
        ("weighed truck solo then hitched: 5,020 3,240, 5,180 6,900 9,840", ["silent"]),
        (
            "weighed 5,180, 6,900, 4,900, 4,940",
            ["weighing drive=6900 rig=hitched steer=5180 trailer_1=4900 trailer_2=4940"],
        ),
        ("steer 5,180, drive + trailer 16,740", ["weighing rig=hitched steer=5180"]),
        ("16,740 on the drive and trailer, 5,180 steer", ["weighing rig=hitched steer=5180"]),
        (
            "5,180 steer and 16,740 on the drives and the trailer",
            ["weighing rig=hitched steer=5180"],
        ),
        ("front 5,180, rear and trailer 16,740", ["weighing rig=hitched steer=5180"]),
        (
            "steer 5,180, 6,900 drive and trailer 9,840",
            ["weighing drive=6900 rig=hitched steer=5180 trailer=9840"],
        ),
        (
            "steer 5,180 drive 6,900 and trailer 9,840",
            ["weighing drive=6900 rig=hitched steer=5180 trailer=9840"],
        ),
        (
            "steer 5,180, drive and trailer together 16,740, gross 21,920",
            ["weighing gross=21920 rig=hitched steer=5180"],
        ),
        ("camper was 7,640 dry and 9,920 loaded", ["silent"]),
        ("camper dry 7,640, gross 9,920", ["weighing gross=9920 trailer=camper"]),
        (
            "camper alone and empty 6,240",
            ["weighing gross=6240 rig=trailer trailer=camper"],
        ),
        (
            "airbags 40 psi, steer 5,180 drive 6,900 trailer 9,840",
            ["weighing drive=6900 rig=hitched steer=5180 trailer=9840"],
        ),
        (
            "trailer tires 80 psi, bags 40 psi",
            ["observation position=trailer subject=tyre value=80"],
        ),
    ],
)
def test_what_stood_where_and_what_did_not(reads: Reader, text: str, entries: list[str]) -> None:
    assert told(reads, text) == entries


@pytest.mark.parametrize(
    ("text", "ratings"),
    [
        ("kerbweight 1,890 mtplm 1,600", ["truck curb 1890", "trailer gvwr 1600"]),
        ("mtplm 1,800 tare 1,540", ["trailer gvwr 1800", "trailer curb 1540"]),
        ("gvw 2,520, gtw 4,520 from the plate", ["truck gvwr 2520", "truck gcwr 4520"]),
        ("sticker on the tongue says gvwr 11,200", ["trailer gvwr 11200"]),
        ("sticker in the door says gvwr 11,200", ["truck gvwr 11200"]),
        (
            "weighbridge: ute 3,180, van 2,560, gvm 3,350 gcm 6,850",
            ["truck gvwr 3350", "truck gcwr 6850"],
        ),
        ("atm 3,000 weighed 2,950", ["trailer gvwr 3000"]),
    ],
)
def test_whose_limit_it_is(reads: Reader, text: str, ratings: list[str]) -> None:
    read = verdict_to_record(reads(text, on_the_road(units="imperial")))
    assert read["verdict"] == "entry"
    found = [
        f"{each['subject']} {each['rating']} {each['value']['value']:g}"
        for each in read["entries"]
        if each["kind"] == "rating"
    ]
    assert found == ratings


@pytest.mark.parametrize(
    ("text", "entries"),
    [
        (
            "tongue limit 1,200, we have 1,180",
            ["rating rating=tongue subject=truck value=1200", "weighing tongue=1180"],
        ),
        (
            "front gawr 5,250 and we had 5,120",
            ["rating rating=gawr_front subject=truck value=5250", "weighing steer=5120"],
        ),
        # What is left of it, and another thing, were not weighed.
        ("max tongue 1,200, we have 1,100 left", ["rating rating=tongue subject=truck value=1200"]),
        (
            "max tongue weight 1,200 but i have 1,000 lb bars",
            ["rating rating=tongue subject=truck value=1200"],
        ),
        ("pin's at 2,240 with the garage empty", ["weighing tongue=2240"]),
        ("rolling pin 1,200", ["silent"]),
        ("gross 21,920, 1,180 on the ball", ["weighing gross=21920 tongue=1180"]),
        (
            "without the wd it was steer 4,820 drive 7,360",
            ["weighing bars=off drive=7360 steer=4820"],
        ),
        (
            "driver side 4,480 passenger side 4,620 on the camper",
            ["weighing trailer=camper trailer_left=4480 trailer_right=4620"],
        ),
        ("left 2,480 right 2,620 on the barn", ["silent"]),
    ],
)
def test_what_bears_down_and_on_which_side(reads: Reader, text: str, entries: list[str]) -> None:
    assert told(reads, text) == entries


@pytest.mark.parametrize(
    ("text", "entries"),
    [
        ("put two 5 gal cans of diesel in the bed", ["silent"]),
        (
            "two 5 gal cans of diesel into the tank, 48,300",
            ["fill odometer=48300 product=diesel volume=10"],
        ),
        ("six round bales on the flatdeck, 7,500 lb total", ["silent"]),
        (
            "tractor 4,200 lb on the flatdeck",
            ["cargo item=tractor trailer=flatdeck value=4200"],
        ),
        ("a tractor on the highway, 4,200 lb", ["silent"]),
        (
            "reconnected the camper, 48,030",
            ["hitch action=hitched trailer=camper", "odometer odometer=48030"],
        ),
    ],
)
def test_what_is_carried(reads: Reader, text: str, entries: list[str]) -> None:
    assert told(reads, text) == entries


@pytest.mark.parametrize(
    ("text", "entries"),
    [
        (
            "steer 52 60 drive 68 80 trailer 91 40",
            ["weighing drive=6880 rig=hitched steer=5260 trailer=9140"],
        ),
        ("steer 52 60 drive 6880", ["weighing drive=6880 steer=5260"]),
        ("steer 52 80", ["silent"]),  # alone it could be anything
        ("front 62 65 rear 80 80", ["silent"]),  # and so could what tyres have
    ],
)
def test_a_load_in_two_halves(reads: Reader, text: str, entries: list[str]) -> None:
    assert told(reads, text) == entries


@pytest.mark.parametrize(
    ("text", "entries"),
    [
        (
            "that weigh was with the bars off, not on",
            ["correction action=amend field=bars value=off was=on"],
        ),
        ("sorry that was with the bars off", ["correction action=amend field=bars value=off"]),
        ("oops bars were on", ["correction action=amend field=bars value=on"]),
        ("actually bars off is fine", ["silent"]),
        ("oops left the bars off", ["silent"]),
        ("I said bars on but they were off", ["silent"]),
    ],
)
def test_how_the_bars_were_is_put_right(reads: Reader, text: str, entries: list[str]) -> None:
    assert told(reads, text) == entries


@pytest.mark.parametrize(
    ("text", "entries"),
    [
        (
            "truck tows 14,200 conventional 18,700 gooseneck",
            [
                "rating rating=tow subject=truck value=14200",
                "rating note=gooseneck rating=tow subject=truck value=18700",
            ],
        ),
        (
            "truck 8,140 tows the gooseneck 9,760",
            ["weighing rig=hitched trailer=9760 truck=8140"],
        ),
        (
            "three axles 3,100 3,240 3,180",
            ["weighing trailer_1=3100 trailer_2=3240 trailer_3=3180"],
        ),
        (
            "weighed 3 axles, 5,140 6,820 9,760",
            ["weighing drive=6820 rig=hitched steer=5140 trailer=9760"],
        ),
        (
            "solo front 4,960 rear 3,480, hitched front 5,140 rear 6,820 trailer 9,760",
            [
                "weighing drive=3480 rig=solo steer=4960",
                "weighing drive=6820 rig=hitched steer=5140 trailer=9760",
            ],
        ),
        ("dropped a link, steer 5,060 now", ["weighing steer=5060"]),
        ("steers at 1,150", ["silent"]),
    ],
)
def test_what_a_truck_tows_and_axles_told_again(
    reads: Reader, text: str, entries: list[str]
) -> None:
    assert told(reads, text) == entries


@pytest.mark.parametrize(
    ("text", "entries"),
    [
        (
            "hey dad the truck by itself was 8,420 full tank",
            ["weighing fuel_level=1 gross=8420 rig=solo"],
        ),
        ("dad, our tongue is 1,180", ["weighing tongue=1180"]),
        ("dad says the trailer weighs 9,760", ["silent"]),
        ("dad weighed 9,200", ["silent"]),
        ("theirs was 5,140 6,820 9,760", ["silent"]),
        ("2 axles each 4,880 lb", ["rating note=2 axles rating=gawr subject=trailer value=4880"]),
        (
            "hitch limit 15,000, trailer is 10,910",
            ["rating rating=tow subject=hitch value=15000"],
        ),
        (
            "hitch is rated 1,200 tongue 12,000 trailer",
            [
                "rating rating=tongue subject=hitch value=1200",
                "rating rating=tow subject=hitch value=12000",
            ],
        ),
        (
            "hitch rated 1,500 tongue, we have 1,180",
            ["rating rating=tongue subject=hitch value=1500"],
        ),
        ("steer 5,140, drive we got 6,820", ["weighing drive=6820 steer=5140"]),
        ("loaded the flatdeck's nose with 600 lb of hay", ["silent"]),
        ("1,180 lb of tongue weight", ["weighing tongue=1180"]),
        ("coupled with the heat it was a long day, 48,090", ["odometer odometer=48090"]),
        ("trailer is off the road", ["silent"]),
        ("camper is off the pin", ["hitch action=unhitched trailer=camper"]),
        ("coupled up, 48,090", ["hitch action=hitched", "odometer odometer=48090"]),
    ],
)
def test_who_is_told_and_what_is_its_own(reads: Reader, text: str, entries: list[str]) -> None:
    assert told(reads, text) == entries


@pytest.mark.parametrize(
    ("text", "entries"),
    [
        (
            "steer 5140 drive 6820, 1/2 tank",
            ["weighing drive=6820 fuel_level=0.5 steer=5140"],
        ),
        ("hay 1/2 ton in the bed", ["cargo item=hay position=bed value=0.5"]),
        ("weighed 7/9 steer 5140 drive 6820", ["weighing at=2026-07-09 drive=6820 steer=5140"]),
    ],
)
def test_a_half_is_no_day(reads: Reader, text: str, entries: list[str]) -> None:
    assert told(reads, text) == entries


@pytest.mark.parametrize(
    ("text", "entries"),
    [
        ("truck by itself 8,460 on the nose", ["weighing gross=8460 rig=solo"]),
        ("gross 21,480 on the nose", ["weighing gross=21480"]),
        ("weighed the camper, 9,180 on the nose", ["ask"]),
        ("12,240 on the nose at the scale", ["ask"]),
        (
            "trailer 9,180 with 1,100 on the nose",
            ["weighing tongue=1100 trailer=9180"],
        ),
    ],
)
def test_a_load_to_the_pound_is_no_tongues(reads: Reader, text: str, entries: list[str]) -> None:
    assert told(reads, text) == entries


@pytest.mark.parametrize(
    ("text", "entries"),
    [
        (
            "1st axle 5180 2nd axle 6900 3rd 4900 4th 4940",
            ["weighing drive=6900 rig=hitched steer=5180 trailer_1=4900 trailer_2=4940"],
        ),
        (
            "first axle 5,180 second 6,900 third 9,200",
            ["weighing drive=6900 rig=hitched steer=5180 trailer=9200"],
        ),
        (
            "camper first axle 4,900, second 4,940",
            ["weighing trailer=camper trailer_1=4900 trailer_2=4940"],
        ),
        (
            "tri axle trailer. first axle carried 3,260, middle one 3,310 and the last 3,190. "
            "steer 5,420, drive 8,300",
            [
                "weighing drive=8300 rig=hitched steer=5420 trailer_1=3260 trailer_2=3310"
                " trailer_3=3190"
            ],
        ),
    ],
)
def test_axles_are_counted_on(reads: Reader, text: str, entries: list[str]) -> None:
    assert told(reads, text) == entries


@pytest.mark.parametrize(
    ("text", "entries"),
    [
        (
            "quarter tank, just me: 4,980 3,860",
            ["weighing aboard=1 drive=3860 fuel_level=0.25 steer=4980"],
        ),
        (
            "two up front plus the dog, 5,220 6,940",
            ["weighing aboard=2 drive=6940 steer=5220"],
        ),
        ("full tank, 5,220/6,940", ["weighing drive=6940 fuel_level=1 steer=5220"]),
        (
            "driver only: 5,220 6,940 9,200",
            ["weighing aboard=1 drive=6940 rig=hitched steer=5220 trailer=9200"],
        ),
        ("weighed, 5,220 6,940", ["ask"]),
        ("5,220 6,940", ["silent"]),
        ("just me today, 2,100 1,900 steps", ["silent"]),
        ("two of us, 2016 2019", ["silent"]),
        ("just me and the kids, 480 620", ["silent"]),
    ],
)
def test_who_sat_in_the_truck_tells_whose_axles_they_are(
    reads: Reader, text: str, entries: list[str]
) -> None:
    assert told(reads, text) == entries


@pytest.mark.parametrize(
    ("text", "entries"),
    [
        (
            "weighed w/ 3/4 tank, me and dad: 21,340 gross",
            ["weighing aboard=2 fuel_level=0.75 gross=21340"],
        ),
        ("me and my dad aboard: 21,340 gross", ["weighing aboard=2 gross=21340"]),
        ("dad: 21,340 gross", ["silent"]),
        ("text from me and dad: 51,300", ["silent"]),
    ],
)
def test_who_sat_with_us_says_nothing(reads: Reader, text: str, entries: list[str]) -> None:
    assert told(reads, text) == entries


@pytest.mark.parametrize(
    ("text", "entries"),
    [
        ("paid 13.50 to weigh, 21,900", ["ask"]),
        (
            "14 bucks to weigh, 5,180 6,940 9,200",
            ["weighing cost=14 drive=6940 rig=hitched steer=5180 trailer=9200"],
        ),
        ("paid 14 to weigh", ["silent"]),
        ("stopped to weigh, 48,101", ["odometer odometer=48101"]),
    ],
)
def test_what_it_cost_to_weigh_was_weighed(reads: Reader, text: str, entries: list[str]) -> None:
    assert told(reads, text) == entries


@pytest.mark.parametrize(
    ("text", "entries"),
    [
        (
            "hitched 5,180 6,940 9,200, unhitched 5,260 3,200",
            [
                "weighing drive=6940 rig=hitched steer=5180 trailer=9200",
                "weighing drive=3200 rig=solo steer=5260",
            ],
        ),
        (
            "hitched the camper, 48,101",
            ["hitch action=hitched trailer=camper", "odometer odometer=48101"],
        ),
        (
            "truck and camper 21,320, pulled off and just truck 8,460",
            ["weighing gross=21320 rig=hitched trailer=camper", "weighing gross=8460 rig=solo"],
        ),
        (
            "at the scale: whole thing 21,000, truck without trailer 8,820",
            ["weighing gross=21000 rig=hitched", "weighing gross=8820 rig=solo"],
        ),
        (
            "gross 23,960, dropped the trailer and truck was 8,880",
            [
                "weighing gross=23960 rig=hitched",
                "hitch action=unhitched",
                "weighing gross=8880 rig=solo",
            ],
        ),
        (
            "Unhitched pass: 4,960 steer 3,900 drive. Hitched pass: 5,380 steer 7,320 drive "
            "10,820 trailer.",
            [
                "weighing drive=3900 rig=solo steer=4960",
                "weighing drive=7320 rig=hitched steer=5380 trailer=10820",
            ],
        ),
        (
            "unhitched 4,860 front 3,640 rear, hitched 5,260 front 6,600 rear 10,280 trailer",
            [
                "weighing drive=3640 rig=solo steer=4860",
                "weighing drive=6600 rig=hitched steer=5260 trailer=10280",
            ],
        ),
        (
            "dropped the trailer, truck was in the shop, 48,101",
            ["hitch action=unhitched", "odometer odometer=48101"],
        ),
        (
            "truck and trailer together 12,240, trailer 9,200",
            ["weighing gross=12240 rig=hitched trailer=9200"],
        ),
    ],
)
def test_both_and_then_one_of_them(reads: Reader, text: str, entries: list[str]) -> None:
    assert told(reads, text) == entries


@pytest.mark.parametrize(
    ("text", "entries"),
    [
        ("trailer axles 4,500 4,620", ["weighing trailer_1=4500 trailer_2=4620"]),
        ("camper on its jack: axles 9,200 jack 1,180", ["silent"]),
    ],
)
def test_axles_in_a_row_are_alike(reads: Reader, text: str, entries: list[str]) -> None:
    assert told(reads, text) == entries


@pytest.mark.parametrize(
    ("text", "entries"),
    [
        (
            "this morning front 5,400. back 6,640. trailer 9,200",
            ["weighing at=2026-07-11 drive=6640 rig=hitched steer=5400 trailer=9200"],
        ),
        (
            "this morning str was 4,600 lb; back was 7,200 lb",
            ["weighing at=2026-07-11 drive=7200 steer=4600"],
        ),
        (
            "Steer at 5,580. back at 6,560. tlr at 10,600",
            ["weighing drive=6560 rig=hitched steer=5580 trailer=10600"],
        ),
        (
            "frt at 5,160 lb and back at 6,760 lb and trl at 9,540 lb",
            ["weighing drive=6760 rig=hitched steer=5160 trailer=9540"],
        ),
        ("back at 48,120", ["odometer event=arrive odometer=48120"]),
        (
            "steer 5,180 drive 6,940 trailer 9,200, 21,320 grand total",
            ["weighing drive=6940 gross=21320 rig=hitched steer=5180 trailer=9200"],
        ),
        ("twenty two thousand eighty grand total", ["weighing gross=22080"]),
        ("truck was 40 grand", ["silent"]),
        (
            "on the scale: 5,160, 7,360, 8,280 brrr",
            ["weighing drive=7360 rig=hitched steer=5160 trailer=8280"],
        ),
    ],
)
def test_front_and_back_in_a_hurry(reads: Reader, text: str, entries: list[str]) -> None:
    assert told(reads, text) == entries


@pytest.mark.parametrize(
    ("text", "entries"),
    [
        (
            "ticket: 4920 on the Steer / 6480 for the rears / axle 3 5140 axle 4 5120",
            ["weighing drive=6480 rig=hitched steer=4920 trailer_1=5140 trailer_2=5120"],
        ),
        (
            "ticket: 88213 steer 5,180 drive 6,940 trailer 9,200",
            ["weighing drive=6940 rig=hitched steer=5180 ticket=88213 trailer=9200"],
        ),
        (
            "ticket: up front is 4,760 lb; drive axle is 7,020 lb",
            ["weighing drive=7020 steer=4760"],
        ),
        ("980 pounds on tongue, bars off", ["weighing bars=off tongue=980"]),
    ],
)
def test_what_heads_a_load_is_no_cargo_and_a_load_no_number(
    reads: Reader, text: str, entries: list[str]
) -> None:
    assert told(reads, text) == entries


@pytest.mark.parametrize(
    ("text", "bars"),
    [
        ("5,240, 6,640, 9,500. bars on. then bars off: 4,720, 6,520, 9,560", ["on", "off"]),
        ("5,240 6,640 9,500 bars on, 4,720 6,520 9,560 bars off", ["on", "off"]),
        ("5,240 6,640 9,500. bars off: 4,720 6,520 9,560", [None, "off"]),
    ],
)
def test_bars_that_end_their_row_are_of_it(
    reads: Reader, text: str, bars: list[str | None]
) -> None:
    record = verdict_to_record(reads(text, on_the_road()))
    assert [entry.get("bars") for entry in record["entries"]] == bars


@pytest.mark.parametrize(
    ("text", "entries"),
    [
        (
            "weighed five point three, six point one and eight point nine thousand",
            ["weighing drive=6100 rig=hitched steer=5300 trailer=8900"],
        ),
        (
            "5.3 front, 6.1 rear and 8.9k on the trailer axles",
            ["weighing drive=6100 rig=hitched steer=5300 trailer=8900"],
        ),
        ("steer 5.3, drive 6.1k", ["weighing drive=6100 steer=5300"]),
        # A volume beside a reading in thousands stays one.
        ("24.1, 48.3 thousand on the clock", ["fill odometer=48300 volume=24.1"]),
    ],
)
def test_thousands_said_once_for_a_row(reads: Reader, text: str, entries: list[str]) -> None:
    assert told(reads, text) == entries


@pytest.mark.parametrize(
    ("text", "kind"),
    [
        ("log this um steer five two twenty drive six one forty", "weighing"),
        ("write down 5,220 steer 6,140 drive, trailer 8,960", "weighing"),
        ("log this: steer felt light with 300 lb in the bed", "note"),
        ("for next time: steer was 5,220 and drive 6,140 with the hay up front", "note"),
    ],
)
def test_loads_that_a_note_tells_are_weighed(reads: Reader, text: str, kind: str) -> None:
    (entry,) = told(reads, text)
    assert entry.partition(" ")[0] == kind


@pytest.mark.parametrize(
    ("text", "entries"),
    [
        (
            "GRP 1 STEER ..... 5,160\nGRP 2 DRIVE ..... 6,980\nGRP 3 TRAILER TANDEM .. 11,840",
            ["weighing drive=6980 rig=hitched steer=5160 trailer=11840"],
        ),
        (
            "BAY 1 STEER .. 5,160\nBAY 2 DRIVE .. 6,980\nBAY 3 TRAILER .. 8,840",
            ["weighing drive=6980 rig=hitched steer=5160 trailer=8840"],
        ),
        # Of two rows of a trailer the number tells which axle it is.
        (
            "AXLE 1 STEER 5160\nAXLE 2 DRIVE 6980\nAXLE 3 TRAILER 4820\nAXLE 4 TRAILER 4940",
            ["weighing drive=6980 rig=hitched steer=5160 trailer_1=4820 trailer_2=4940"],
        ),
        # Names that stand under their figures.
        (
            "5160 lb\n - steer axle\n6980 lb\n - drive axle\n8840 lb\n - trailer axles",
            ["weighing drive=6980 rig=hitched steer=5160 trailer=8840"],
        ),
        (
            "- steer 5160\n- drive 6980\n- trailer 8840",
            ["weighing drive=6980 rig=hitched steer=5160 trailer=8840"],
        ),
    ],
)
def test_rows_with_numbers_and_dashes(reads: Reader, text: str, entries: list[str]) -> None:
    assert told(reads, text) == entries


@pytest.mark.parametrize(
    ("text", "entries"),
    [
        # The second of two is told with a load of its own.
        (
            "5,140 front 6,320 back and the trailer has 8,760 on its axles",
            ["weighing drive=6320 rig=hitched steer=5140 trailer=8760"],
        ),
        (
            "15,080 on the drive and trailer, 5,140 steer",
            ["weighing rig=hitched steer=5140"],
        ),
        # What one can read is not what one could do.
        (
            "too wet, all i can make out is 5,140 steer and 6,320 drive",
            ["weighing drive=6320 steer=5140"],
        ),
        (
            "20,220 altogether, 8,760 of that is on the trailer axles",
            ["weighing gross=20220 rig=hitched trailer=8760"],
        ),
        (
            "truck on its own pad 11,460, trailer 8,760, total 20,220",
            ["weighing gross=20220 rig=hitched trailer=8760 truck=11460"],
        ),
        # No axles of a truck, where the trailer is named between.
        ("truck by itself on one pad 11,460 and the trailer on the other 8,760", ["silent"]),
    ],
)
def test_each_load_where_it_is_told(reads: Reader, text: str, entries: list[str]) -> None:
    assert told(reads, text) == entries


@pytest.mark.parametrize(
    ("place", "kept"),
    [
        ("the public weighbridge", None),
        ("the local scale", None),
        ("the Shire scale", "Shire"),
        ("the local co-op", "local co-op"),
    ],
)
def test_what_sort_of_place_it_was_is_no_name(place: str, kept: str | None, reads: Reader) -> None:
    verdict = reads(f"weighed at {place}, 5,180 6,900 9,240", on_the_road())
    assert isinstance(verdict, Facts)
    assert [getattr(entry, "place", None) for entry in verdict.entries] == [kept]


@pytest.mark.parametrize(
    ("text", "entries"),
    [
        (
            "bars hooked up, toys in the back, 4,240 / 4,810 / 6,190",
            ["weighing bars=on drive=4810 rig=hitched steer=4240 trailer=6190"],
        ),
        (
            "wife and 2 kids in the back, bars on, 4,240 / 4,810 / 6,190",
            ["weighing aboard=3 bars=on drive=4810 rig=hitched steer=4240 trailer=6190"],
        ),
        ("5,180 in the front, 6,240 in the back", ["weighing drive=6240 steer=5180"]),
        (
            "no bars cos i left them in the shed: steer 3,980 drive 4,760 trailer 5,120",
            ["weighing bars=off drive=4760 rig=hitched steer=3980 trailer=5120"],
        ),
        (
            "no bars, i left them at home: steer 3,980 drive 4,760 trailer 5,120",
            ["weighing bars=off drive=4760 rig=hitched steer=3980 trailer=5120"],
        ),
        (
            "no bars, they broke: steer 3,980 drive 4,760 trailer 5,120",
            ["weighing bars=off drive=4760 rig=hitched steer=3980 trailer=5120"],
        ),
        (
            "left the bars in the barn. steer 3,980 drive 4,760 trailer 5,120",
            ["weighing drive=4760 rig=hitched steer=3980 trailer=5120"],
        ),
        ("no bars, they say 21,000 is the limit", ["silent"]),
        ("bars on, their truck was steer 5,180 drive 6,240", ["silent"]),
        (
            "camper packed and full of water, weighed on its own, 5,180 lb",
            ["weighing gross=5180 rig=trailer trailer=camper"],
        ),
        (
            "flatdeck loaded, by itself, 3,180 lb",
            ["weighing gross=3180 rig=trailer trailer=flatdeck"],
        ),
        ("camper loaded, truck on its own, 8,180 lb", ["weighing gross=8180 rig=solo"]),
    ],
)
def test_what_was_said_beside_the_loads_and_how_the_rig_stood(
    text: str, entries: list[str], reads: Reader
) -> None:
    assert told(reads, text) == entries


@pytest.mark.parametrize(
    ("text", "loads"),
    [
        (
            "camper still hooked on: front 3,560, rear 4,110, camper wheels 6,480",
            {"steer": 3_560, "drive": 4_110, "trailer": 6_480},
        ),
        (
            "camper hooked on: front wheels 3,560, rear wheels 4,110, camper wheels 6,480",
            {"steer": 3_560, "drive": 4_110, "trailer": 6_480},
        ),
        (
            "camper wheel weights: front 2,560, rear 2,110",
            {"trailer_1": 2_560, "trailer_2": 2_110},
        ),
        (
            "camper unhitched, wheels front 2,560, rear 2,110",
            {"trailer_1": 2_560, "trailer_2": 2_110},
        ),
    ],
)
def test_a_trailer_that_was_on_heads_none_of_the_trucks_axles(
    text: str, loads: dict[str, float], reads: Reader
) -> None:
    verdict = reads(text, on_the_road())
    assert isinstance(verdict, Facts)
    (entry,) = verdict.entries
    assert isinstance(entry, Weighing)
    assert {at: load.value for at, load in entry.loads.items()} == loads
