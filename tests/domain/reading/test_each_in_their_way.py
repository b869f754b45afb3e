"""What twenty people text, each in a way of their own: in clauses, in capitals, in courtesies."""

from __future__ import annotations

import pytest

from domain.entries import Cargo, Fill, Weighing
from domain.quantities import Quantity
from domain.verdicts import Ask, Facts, Question, Silent
from tests.domain.driving_log import gal
from tests.domain.reading.chats import Reader, on_the_road
from tests.domain.reading.test_told_at_the_scale import told
from tests.domain.scale_house import lb


@pytest.mark.parametrize(
    ("text", "entries"),
    [
        ("fuel 18.9, sixty-one forty-three", ["fill cost=61.43 volume=18.9"]),
        ("diesel 31.2, one eighteen sixty", ["fill cost=118.6 product=diesel volume=31.2"]),
        ("petrol 14, forty-one twenty", ["fill cost=41.2 product=gasoline volume=14"]),
        (
            "diesel 31.2, three seventy nine nine",
            ["fill product=diesel unit_price=3.799 volume=31.2"],
        ),
        ("fuel 31, forty-eight three eighty", ["fill odometer=48380 volume=31"]),
        (
            "open trailer, 2 axles: front one 2,410 back one 2,530",
            ["weighing trailer_1=2410 trailer_2=2530"],
        ),
        (
            "camper, tandem: front 3,100, rear 3,240",
            ["weighing trailer=camper trailer_1=3100 trailer_2=3240"],
        ),
        (
            "camper has two axles, truck front 4,800 rear 5,100",
            ["weighing drive=5100 steer=4800 trailer=camper"],
        ),
        (
            "5,010 and 4,380 for the truck, 9,390 total, nothing behind",
            ["weighing drive=4380 gross=9390 rig=solo steer=5010"],
        ),
        (
            "5620 4410 juniper by itself, no trailer",
            ["weighing drive=4410 rig=solo steer=5620 truck=Juniper"],
        ),
        ("9,390 gross, 5,010 and 4,380 truck", ["weighing drive=4380 gross=9390 steer=5010"]),
        (
            "steer 4,980 drive 3,860 trailer 8,240 crew 2",
            ["weighing aboard=2 drive=3860 rig=hitched steer=4980 trailer=8240"],
        ),
        ("people 4, steer 4,980 drive 3,860", ["weighing aboard=4 drive=3860 steer=4980"]),
        ("fuel: half. steer 4,980, drive 3,860", ["weighing drive=3860 fuel_level=0.5 steer=4980"]),
        (
            "tank about half, steer 4,980 drive 3,860",
            ["weighing drive=3860 fuel_level=0.5 steer=4980"],
        ),
        (
            "arrived 1715 odo 48,208",
            ["odometer at=2026-07-10T17:15:00-06:00 event=arrive odometer=48208"],
        ),
        (
            "left 0640 odo 48,208",
            ["odometer at=2026-07-11T06:40:00-06:00 event=depart odometer=48208"],
        ),
        ("dad filled it 19.6 gal it was 62 bucks even", ["fill cost=62 full=True volume=19.6"]),
        ("mom topped it off 14.2 gal", ["fill full=True volume=14.2"]),
        ("took on 34 gal, tank to brim", ["fill full=True volume=34"]),
        ("put in 20 to 21 gal, didnt look close", ["fill volume=21"]),
        ("i would like to record that we put in 22.7 gallons", ["fill volume=22.7"]),
        (
            "minus 34 out here eh, tranny only 161",
            ["observation subject=ambient value=-34", "observation subject=transmission value=161"],
        ),
        (
            "arrived 48,208 flatdeck off",
            ["hitch action=unhitched trailer=flatdeck", "odometer event=arrive odometer=48208"],
        ),
        (
            "crates, 310 lb, rear of the flatdeck",
            ["cargo item=crates position=rear of flatdeck trailer=flatdeck value=310"],
        ),
        (
            "race car 2,930 lb, 18 in ahead of the axles, flatdeck",
            ["cargo distance=18 item=race car position=ahead of axles trailer=flatdeck value=2930"],
        ),
        (
            "oak stump 4,500 to 5,000 lb on the flatdeck",
            ["cargo item=oak stump trailer=flatdeck value=5000"],
        ),
        ("two sleds 540 lb total on the flatdeck", ["cargo item=sleds trailer=flatdeck value=540"]),
        ("trans at summit 214", ["observation place=summit subject=transmission value=214"]),
        ("broke down at 48,790, got towed home", ["odometer odometer=48790"]),
        ("trailer tire down to 12", ["observation position=trailer subject=tyre value=12"]),
        (
            "the gallons I gave were 22.7; they ought to read 27.2",
            ["correction action=amend field=volume value=27.2 was=22.7"],
        ),
        (
            "drive was 6,240, it should be 6,420",
            ["correction action=amend field=drive value=6420 was=6240"],
        ),
        (
            "I gave the cost as $58.19; kindly alter it to $59.18.",
            ["correction action=amend field=cost value=59.18 was=58.19"],
        ),
        (
            "odometer previously charted as 48,494 mi. Correct value 48,449 mi.",
            ["correction action=amend field=odometer value=48449 was=48494"],
        ),
        (
            "that fill was 31.8 gallons eh not 38.1",
            ["correction action=amend field=volume value=31.8 was=38.1"],
        ),
        ("please scratch out that last thing I told you sweetheart", ["correction action=undo"]),
        ("rub out the last one I sent", ["correction action=undo"]),
    ],
)
def test_what_is_told(text: str, entries: list[str], reads: Reader) -> None:
    assert told(reads, text) == entries


def test_what_a_thing_weighs_may_be_a_range(reads: Reader) -> None:
    verdict = reads("excavator around 8,000 to 8,500 lb on the flatdeck", on_the_road())
    assert isinstance(verdict, Facts)
    (cargo,) = verdict.entries
    assert isinstance(cargo, Cargo)
    assert cargo.value == Quantity(8_500, "lb", low=8_000)


@pytest.mark.parametrize(
    "text",
    [
        "solo: steer 5,010 drive 4,380 gross 19,390",
        "truck alone steer 4,880 drive 3,960 gross 18,840",
        "no trailer, steer 4,120, drive 3,540, total 17,660",
    ],
)
def test_a_gross_beyond_the_truck_alone_is_asked_about(text: str, reads: Reader) -> None:
    verdict = reads(text, on_the_road(hitched=False))
    assert isinstance(verdict, Ask)
    assert (verdict.about, verdict.why) == ("gross", "does_not_sum")
    (meant,) = verdict.choices[0].entries
    assert isinstance(meant, Weighing)
    assert meant.rig == "solo"
    assert meant.loads["gross"] == lb(meant.loads["steer"].value + meant.loads["drive"].value)


def test_which_was_weighed_is_no_correction(reads: Reader) -> None:
    verdict = reads("she's sitting at 9,140 on the scale, the trailer I mean", on_the_road())
    assert isinstance(verdict, Ask)
    assert verdict.why == "lone_load"


def test_a_gross_beyond_the_axles_of_a_rig_is_its_own(reads: Reader) -> None:
    text = "steer 5,010 drive 4,380 gross 19,390"
    assert told(reads, text) == ["weighing drive=4380 gross=19390 rig=hitched steer=5010"]


@pytest.mark.parametrize("text", ["we took on fifteen at the pump.", "put in 15 at the pump"])
def test_so_much_at_the_pump_is_gallons_or_money(text: str, reads: Reader) -> None:
    verdict = reads(text, on_the_road())
    assert isinstance(verdict, Ask)
    volume, money = (choice.entries[0] for choice in verdict.choices)
    assert (volume, money) == (Fill(volume=gal(15)), Fill(cost=Quantity(15, "USD")))


@pytest.mark.parametrize(
    "text",
    [
        "tires went off at lap 12",
        "tires were done by lap 14",
        "waited 15 at the pump",
        "we took on 15",
        "they should be 27.2 gallons",
        "tongue was 910, it should be 1,190",
        "the tailor had to alter it, 40 bucks",
        "drop the last thing off at mums love",
        "dad filled it with sand 19.6 gal",
        "neighbor filled it 19.6 gal",
        "dad filled the mower 1.2 gal",
        "the correct value is on the plate",
        "how do i use this ramp",
        "people 4",
        "bit chilly eh",
    ],
)
def test_what_looks_like_it_is_talk(text: str, reads: Reader) -> None:
    assert isinstance(reads(text, on_the_road()), Silent)


@pytest.mark.parametrize(
    ("text", "topic"),
    [
        ("wait how do i even use this", "help"),
        ("how does this even work", "help"),
        ("WEEKLY SUMMARY REQUESTED", "week"),
    ],
)
def test_what_is_asked(text: str, topic: str, reads: Reader) -> None:
    verdict = reads(text, on_the_road())
    assert isinstance(verdict, Question)
    assert verdict.topic == topic
