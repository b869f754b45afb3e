"""What is told of a rig by the way: what was done then, sizes and limits, cash, and prices."""

from __future__ import annotations

import pytest

from domain.quantities import Quantity
from tests.domain.reading.chats import Reader
from tests.domain.reading.test_told_at_the_scale import told


@pytest.mark.parametrize(
    ("text", "entries"),
    [
        (
            "4,760 st, 5,920 dr, 7,480 trl, 18,160 gross",
            ["weighing drive=5920 gross=18160 rig=hitched steer=4760 trailer=7480"],
        ),
        ("4,760 s, 5,920 d, 7,480 t", ["weighing drive=5920 rig=hitched steer=4760 trailer=7480"]),
        ("S 4,760 D 5,920 T 7,480", ["weighing drive=5920 rig=hitched steer=4760 trailer=7480"]),
        # A digit too many behind so light a truck.
        ("4,760 st, 5,920 dr, 74,800 trl", ["ask"]),
        ("gross on that ticket was 21,660", ["weighing gross=21660"]),
        ("on that ticket was a fee of 13.50", ["silent"]),
        ("1,200 s and 3,400 d", ["silent"]),
        ("she lives at 4760 st. marys dr", ["silent"]),
    ],
)
def test_letters_stand_before_their_loads_or_behind(
    text: str, entries: list[str], reads: Reader
) -> None:
    assert told(reads, text) == entries


@pytest.mark.parametrize(
    ("text", "entries"),
    [
        (
            "first trailer axle thirty one forty second one thirty three ten",
            ["weighing trailer_1=3140 trailer_2=3310"],
        ),
        (
            "trailer axles: first one thirty one forty, second one sixty three ten",
            ["weighing trailer_1=3140 trailer_2=6310"],
        ),
        (
            "axle one forty one eighty axle two forty two sixty on the camper",
            ["weighing trailer=camper trailer_1=4180 trailer_2=4260"],
        ),
    ],
)
def test_one_behind_an_ordinal_is_a_thing(text: str, entries: list[str], reads: Reader) -> None:
    assert told(reads, text) == entries


@pytest.mark.parametrize(
    ("text", "entries"),
    [
        (
            "dropped the flatdeck and went back over. 5190 front, 6080 rear",
            ["hitch action=unhitched trailer=flatdeck", "weighing drive=6080 rig=solo steer=5190"],
        ),
        (
            "dropped the camper. weighed it: front axle 3,190, rear axle 3,080",
            [
                "hitch action=unhitched trailer=camper",
                "weighing drive=3080 steer=3190 trailer=camper",
            ],
        ),
        (
            "weighed front 5,190 rear 6,080 then dropped the camper",
            [
                "weighing drive=6080 steer=5190 trailer=camper",
                "hitch action=unhitched trailer=camper",
            ],
        ),
        ("gross 19,400 then unhitched", ["weighing gross=19400", "hitch action=unhitched"]),
        ("gross 8,140 unhitched", ["weighing gross=8140 rig=solo"]),
        (
            "gross 8,140 then hooked up the camper",
            ["weighing gross=8140 rig=solo", "hitch action=hitched trailer=camper"],
        ),
        (
            "first solo steer 5,100 drive 4,260 then hitched steer 5,240 drive 7,120 trailer 9,080",
            [
                "weighing drive=4260 rig=solo steer=5100",
                "weighing drive=7120 rig=hitched steer=5240 trailer=9080",
            ],
        ),
    ],
)
def test_what_is_done_then_is_an_event_before_or_after(
    text: str, entries: list[str], reads: Reader
) -> None:
    assert told(reads, text) == entries


@pytest.mark.parametrize(
    ("text", "entries"),
    [
        (
            "camper is rated 7,000 lb an axle",
            ["rating rating=gawr subject=trailer trailer=camper value=7000"],
        ),
        (
            "the flatdeck is good for 3,500 on each axle",
            ["rating rating=gawr subject=trailer trailer=flatdeck value=3500"],
        ),
        (
            "7,000 lb per axle and gvwr 14,000 on the camper",
            [
                "rating rating=gawr subject=trailer trailer=camper value=7000",
                "rating rating=gvwr subject=trailer trailer=camper value=14000",
            ],
        ),
        (
            "camper's rated gross is 11,700 and each axle 5,200",
            [
                "rating rating=gvwr subject=trailer trailer=camper value=11700",
                "rating rating=gawr subject=trailer trailer=camper value=5200",
            ],
        ),
        (
            "camper plate shows gross 9,800 lb",
            ["rating rating=gvwr subject=trailer trailer=camper value=9800"],
        ),
        (
            "the plate gives 9,800 gross for the camper",
            ["rating rating=gvwr subject=trailer trailer=camper value=9800"],
        ),
        (
            "placard 9,800 gross on the flatdeck",
            ["rating rating=gvwr subject=trailer trailer=flatdeck value=9800"],
        ),
        ("the scale shows gross 21,300", ["weighing gross=21300"]),
        (
            "flatdeck by itself on the plate: nose 620, axles 5,200, whole lot 5,820",
            ["weighing gross=5820 rig=trailer tongue=620 trailer=flatdeck"],
        ),
        (
            "load index 121 on the camper tires",
            ["rating rating=load_index subject=tyres trailer=camper value=121"],
        ),
        (
            "Juniper holds 36 gallons when full",
            ["rating rating=tank subject=truck truck=Juniper value=36"],
        ),
        (
            "the truck holds 36 gallons of fuel",
            ["rating rating=tank subject=truck value=36"],
        ),
        ("someday I'd like a truck with a fifty gallon tank", ["silent"]),
    ],
)
def test_sizes_and_limits(text: str, entries: list[str], reads: Reader) -> None:
    assert told(reads, text) == entries


@pytest.mark.parametrize(
    ("text", "entries"),
    [
        ("48,640 on the clock 24 gallons 91 dollars", ["fill cost=91 odometer=48640 volume=24"]),
        (
            "five hundred feet of rope for forty cash",
            ["silent"],
        ),
        (
            "forty cash, no fill up. clock reads 48,640",
            ["fill cost=40 full=False odometer=48640"],
        ),
        ("pump 4 cash 40.00 diesel 10.5 gal", ["fill cost=40 product=diesel volume=10.5"]),
        (
            "twenty one point eight gallons at three twenty nine nine, seventy one ninety two",
            ["fill cost=71.92 unit_price=3.299 volume=21.8"],
        ),
        ("diesel filter 18.99", ["silent"]),
        ("fuel filter 18.99, odo 48,640", ["odometer odometer=48640"]),
        ("24.2 gal, brimful, 48,640", ["fill full=True odometer=48640 volume=24.2"]),
        ("Juniper ticked past 48,640", ["odometer odometer=48640 truck=Juniper"]),
    ],
)
def test_the_pump_and_the_clock(text: str, entries: list[str], reads: Reader) -> None:
    assert told(reads, text) == entries


@pytest.mark.parametrize(
    "text",
    [
        "48,35 l à 1,799 = 86,98",
        "48,35 l à 1,799 € = 86,98 €",
        "48,35 liter 1,799 macht 86,98",
    ],
)
def test_a_price_has_the_decimal_comma_of_its_message(text: str, reads: Reader) -> None:
    known = {"units": "metric", "currency": "EUR", "tank": Quantity(140, "L")}
    assert told(reads, text, **known) == ["fill cost=86.98 unit_price=1.799 volume=48.35"]


@pytest.mark.parametrize(
    ("text", "entries"),
    [
        (
            "1285 + 1590 + 1675 = 4550 kg",
            ["weighing drive=1590 gross=4550 rig=hitched steer=1285 trailer=1675"],
        ),
        ("1285 1590 1675", ["silent"]),
        ("1285 1590 1675 5951", ["silent"]),
    ],
)
def test_a_gross_vouches_for_loads_in_steps_of_five(
    text: str, entries: list[str], reads: Reader
) -> None:
    known = {"units": "metric", "odometer": Quantity(148_000, "km"), "hitched": True}
    assert told(reads, text, **known) == entries


@pytest.mark.parametrize(
    ("text", "entries"),
    [
        (
            "101 out in the canyon, coolant sitting at 224",
            ["observation subject=ambient value=101", "observation subject=coolant value=224"],
        ),
        (
            "111 outside lol and trans is 201",
            ["observation subject=ambient value=111", "observation subject=transmission value=201"],
        ),
        ("80 out on the lake, 12 fish", ["silent"]),
        ("tongue gauge bounced between 1150 and 1200", ["weighing tongue=1200"]),
        (
            "lights working, tyres looked over",
            ["check item=lights state=done", "check item=tyres state=done"],
        ),
        ("we looked over the brochure", ["silent"]),
        (
            "chains coupler lights all good",
            [f"check item={each} state=done" for each in ("chains", "coupler", "lights")],
        ),
        (
            "checked chains plug",
            ["check item=chains state=done", "check item=plug state=done"],
        ),
        (
            "did the walk round coupler and plug good",
            [f"check item={each} state=done" for each in ("walk round", "coupler", "plug")],
        ),
        ("coupler pin good", ["check item=coupler pin state=done"]),
        ("haven't checked chains coupler plug", ["silent"]),
        ("ewes loaded, 520 lb all told", ["cargo item=ewes value=520"]),
        ("12 ewes on board, 720 lb the lot", ["cargo item=ewes value=720"]),
        ("rig loaded, 21,300 lb all told", ["weighing gross=21300"]),
        ("3 on board, gross 19,400", ["weighing aboard=3 gross=19400"]),
        (
            "dash reckons 9.8 mpg, pump reckons 30.6 gal",
            ["fill dash_economy=9.8 volume=30.6"],
        ),
        ("dad reckons 21,300 gross", ["silent"]),
    ],
)
def test_gauges_checks_and_cargo(text: str, entries: list[str], reads: Reader) -> None:
    assert told(reads, text) == entries


@pytest.mark.parametrize(
    ("text", "entries"),
    [
        ("sorry, it was 31.4 gal", ["correction action=amend field=volume value=31.4"]),
        # One may be sorry for something else.
        ("filled 31.4 gal, sorry im late", ["fill full=True volume=31.4"]),
        ("sorry for the delay, 31.4 gal", ["fill volume=31.4"]),
        (
            "steer 5,140 drive 6,880 trailer 9,120, sorry to bother you",
            ["weighing drive=6880 rig=hitched steer=5140 trailer=9120"],
        ),
        ("sorry im late for dinner", ["silent"]),
    ],
)
def test_what_one_is_sorry_for(text: str, entries: list[str], reads: Reader) -> None:
    assert told(reads, text) == entries
