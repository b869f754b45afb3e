"""What a plate allows and what a scale showed, told in one breath: which figure is which."""

from __future__ import annotations

import pytest

from domain.entries import Entry, Rating, Weighing
from domain.quantities import Quantity
from domain.verdicts import Facts
from tests.domain.reading.chats import Reader, on_the_road

ENDS = ["truck gawr_front 5600 lb", "truck gawr_rear 7050 lb"]


def in_short(entry: Entry) -> str:
    """'trailer gvwr 9995 lb', 'weighed tongue 1020 lb, trailer 9240 lb'."""
    if isinstance(entry, Weighing):
        loads = sorted((at, f"{load.value:g} {load.unit}") for at, load in entry.loads.items())
        return "weighed " + ", ".join(" ".join(each) for each in loads)
    assert isinstance(entry, Rating), entry
    assert isinstance(entry.value, Quantity)
    return f"{entry.subject} {entry.rating} {entry.value.value:g} {entry.value.unit}"


@pytest.mark.parametrize(
    ("text", "told"),
    [
        # The word behind a limit is the limit's, and what 'we have' was weighed.
        ("trailer axle 5,200 gawr, we have 4,700 on each", ["trailer gawr 5200 lb"]),
        ("camper 5,200 gawr per axle, 4,700 on each", ["trailer gawr 5200 lb"]),
        ("camper axles 5,200 gawr, we've got 4,700 each", ["trailer gawr 5200 lb"]),
        ("trailer gawr 5,200 on each axle", ["trailer gawr 5200 lb"]),
        (
            "steer 5,600 gawr, ours is at 4,980",
            ["truck gawr_front 5600 lb", "weighed steer 4980 lb"],
        ),
        (
            "drive axle 7,050 gawr we are at 6,880",
            ["truck gawr_rear 7050 lb", "weighed drive 6880 lb"],
        ),
        ("steer 5,180 gawr - 5,600", ["weighed steer 5180 lb", "truck gawr_front 5600 lb"]),
        (
            "front axle 5,600 gawr, rear axle 7,050 gawr",
            ["truck gawr_front 5600 lb", "truck gawr_rear 7050 lb"],
        ),
        (
            "front 4,900 of 5,600, rear 6,760 of 7,050",
            [
                "weighed drive 6760 lb, steer 4900 lb",
                "truck gawr_front 5600 lb",
                "truck gawr_rear 7050 lb",
            ],
        ),
        # A heading is of both ends, and of neither where they were weighed.
        ("GAWR: front 5,600 rear 7,050", ENDS),
        ("GAWR 5,600 front 7,050 rear", ENDS),
        ("axle ratings: front 5,600 rear 7,050", ENDS),
        ("axle rating 5,600 front and 7,050 rear", ENDS),
        ("axle limit 5,600 front, 7,050 rear", ENDS),
        ("axles rated 5,600 front 7,050 rear", ENDS),
        ("GVWR 11,400 GAWR 5,600 front 7,050 rear", ["truck gvwr 11400 lb", *ENDS]),
        ("GAWR 5,600 front", ENDS[:1]),
        (
            "front 5,180 rear 6,940, gawr 7,050",
            ["weighed drive 6940 lb, steer 5180 lb", "truck gawr_rear 7050 lb"],
        ),
        (
            "trailer gawr 5,200, front 4,600 rear 4,660",
            ["trailer gawr 5200 lb", "weighed trailer_1 4600 lb, trailer_2 4660 lb"],
        ),
        # A limit of no end is that of the axle held against it.
        ("gawr 7,050, drive 6,880", ["truck gawr_rear 7050 lb", "weighed drive 6880 lb"]),
        ("gawr 7,050 drive 6,900", ["truck gawr_rear 7050 lb", "weighed drive 6900 lb"]),
        ("axle rating 7,050, rear 6,880", ["truck gawr_rear 7050 lb", "weighed drive 6880 lb"]),
        ("gawr 5,600, steer 5,120", ["truck gawr_front 5600 lb", "weighed steer 5120 lb"]),
        (
            "gawr 5,600 steer 4,980, gawr 7,050 drive 6,240",
            ["truck gawr_front 5600 lb", "weighed drive 6240 lb, steer 4980 lb", ENDS[1]],
        ),
        (
            "drive 6,240 (gawr 7,050) steer 4,980 (gawr 5,600)",
            ["weighed drive 6240 lb, steer 4980 lb", *reversed(ENDS)],
        ),
        (
            "steer 4,980 gawr 5,600 drive 6,240 gawr 7,050",
            ["weighed drive 6240 lb, steer 4980 lb", *ENDS],
        ),
        ("gawr 5600 front 7,050 rear", ENDS),
        ("gawr 5,600 front, rear 7,050", ENDS),
        (
            "trailer gawr 5,200, axle 1 4,880 axle 2 4,960",
            ["trailer gawr 5200 lb", "weighed trailer_1 4880 lb, trailer_2 4960 lb"],
        ),
        (
            "gawr 5200, front trailer axle 4,880, rear trailer axle 4,960",
            ["trailer gawr 5200 lb", "weighed trailer_1 4880 lb, trailer_2 4960 lb"],
        ),
        # A label tells what is, and a scale what was.
        (
            "sticker says gvwr 9,995, tongue was 1,020",
            ["truck gvwr 9995 lb", "weighed tongue 1020 lb"],
        ),
        (
            "gvwr on the plate 9,995. gross was 9,480",
            ["truck gvwr 9995 lb", "weighed gross 9480 lb"],
        ),
        (
            "sticker said gvwr was 11,500, front was 5,620, rear was 7,060",
            ["truck gvwr 11500 lb", "truck gawr_front 5620 lb", "truck gawr_rear 7060 lb"],
        ),
        (
            "plate says gvwr 9,995, tongue limit was 1,020",
            ["truck gvwr 9995 lb", "truck tongue 1020 lb"],
        ),
        # On a door both ends stand in the steps that makers round to.
        ("door: front 5,600 rear 7,050", ENDS),
        ("on the door: front 5,600, rear 7,050", ENDS),
        ("weighed out the door: front 5,620 rear 6,940", ["weighed drive 6940 lb, steer 5620 lb"]),
        # A truck has no tongue.
        (
            "GVWR 9,995 and she weighed 9,240 plus 1,020 on the tongue",
            ["trailer gvwr 9995 lb", "weighed tongue 1020 lb, trailer 9240 lb"],
        ),
        ("gvwr 13,500, pin 2,260", ["trailer gvwr 13500 lb", "weighed tongue 2260 lb"]),
        (
            "truck gvwr 11,500, tongue 1,020",
            ["truck gvwr 11500 lb", "weighed tongue 1020 lb"],
        ),
        ("GVWR 11,400 and she weighed 9,240", ["truck gvwr 11400 lb", "weighed truck 9240 lb"]),
        # What rests on a hitch is printed dry beside what a trailer weighs dry.
        ("UVW 7,640 hitch weight 980", ["trailer curb 7640 lb"]),
        (
            "dry weight 6,940, hitch 720, gvwr 9,500",
            ["trailer curb 6940 lb", "trailer gvwr 9500 lb"],
        ),
        ("uvw 7,640, tongue scaled at 980", ["trailer curb 7640 lb", "weighed tongue 980 lb"]),
        (
            "UVW 7,640 GVWR 9,995 max hitch weight 1,200",
            ["trailer curb 7640 lb", "trailer gvwr 9995 lb", "trailer tongue 1200 lb"],
        ),
        ("dry weight 6,940", ["trailer curb 6940 lb"]),
        ("truck dry weight 6,940", ["truck curb 6940 lb"]),
        # What is over a limit was weighed.
        ("we're 340 over gvwr, 11,740", ["weighed truck 11740 lb"]),
        ("truck is 340 over gvwr, weighed 11,740", ["weighed truck 11740 lb"]),
        ("340 over rear gawr at 7,390", ["weighed drive 7390 lb"]),
        ("340 over the gvwr of 11,400", ["truck gvwr 11400 lb"]),
        (
            "gross 22,300, that's 1,100 under gcwr of 23,400",
            ["weighed gross 22300 lb", "truck gcwr 23400 lb"],
        ),
        ("payload is 3,412 and we used 2,900 of it", ["truck payload 3412 lb"]),
        # What a tyre carries at its pressure is no payload.
        (
            "tyre plate says 80 psi and 3,195 lb max load",
            ["tyres pressure 80 psi", "tyres tyre_load 3195 lb"],
        ),
        ("max load 3,195 at 80 psi", ["tyres tyre_load 3195 lb", "tyres pressure 80 psi"]),
        ("trailer tires max load 2,830 lbs", ["tyres tyre_load 2830 lb"]),
        (
            "sticker says max load 3,412, tires 80 psi",
            ["truck payload 3412 lb", "tyres pressure 80 psi"],
        ),
        # What stands on a label is the limit, and what it is of was weighed.
        (
            "hitch wt 1,140, way over the 1,000 on the sticker",
            ["weighed tongue 1140 lb", "hitch tongue 1000 lb"],
        ),
        (
            "drive 7,180, over the 7,050 on the door sticker",
            ["weighed drive 7180 lb", "truck gawr_rear 7050 lb"],
        ),
        (
            "receiver says 1,250 tongue 12,500 trailer",
            ["hitch tongue 1250 lb", "hitch tow 12500 lb"],
        ),
        ("scale says 1,250 tongue 9,240 trailer", ["weighed tongue 1250 lb, trailer 9240 lb"]),
        ("cargo sticker on the camper reads 1,880 lb", ["trailer payload 1880 lb"]),
        # So much rests on no ball.
        ("towball 3500 kg", ["ball tow 3500 kg"]),
        ("tow ball 3,500", ["ball tow 3500 lb"]),
        ("towball 350 kg", ["weighed tongue 350 kg"]),
        ("towball 3500 kg S 350", ["hitch tow 3500 kg", "hitch tongue 350 kg"]),
        ("towbar 3500 kg, S=350", ["hitch tow 3500 kg", "hitch tongue 350 kg"]),
        ("towbar plate: 3500 braked, 350 ball", ["hitch tow 3500 lb", "hitch tongue 350 lb"]),
        ("towbar: 3,500 kg, ball 350 kg", ["hitch tow 3500 kg", "hitch tongue 350 kg"]),
    ],
)
def test_each_figure_is_what_it_is_said_to_be(text: str, told: list[str], reads: Reader) -> None:
    verdict = reads(text, on_the_road())
    assert isinstance(verdict, Facts), verdict
    assert [in_short(entry) for entry in verdict.entries] == told


@pytest.mark.parametrize(
    "text",
    [
        "van was 60 kg over its ATM at the weighbridge, 2,560",
        "camper came in 240 over its gvwr at 9,990",
        "we're 340 over gvwr, which is a lot",
    ],
)
def test_no_limit_is_made_of_what_is_past_it(text: str, reads: Reader) -> None:
    assert not isinstance(reads(text, on_the_road()), Facts)
