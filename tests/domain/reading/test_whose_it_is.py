"""What a word beside a figure makes of it: whose it is, what it was paid for, which trailer's."""

from __future__ import annotations

import pytest

from domain.entries import Cargo, Check, Correction, Entry, Fill, Hitch, Odometer, Weighing
from domain.quantities import Quantity
from domain.verdicts import Ask, Facts, Silent
from tests.domain.reading.chats import Reader, on_the_road
from tests.domain.reading.test_told_at_the_scale import told


def lb(value: float) -> Quantity:
    return Quantity(value, "lb")


def kg(value: float) -> Quantity:
    return Quantity(value, "kg")


def usd(value: float, per: str = "") -> Quantity:
    return Quantity(value, f"USD{per}")


def gallons(value: float) -> Quantity:
    return Quantity(value, "gal")


WEIGHED = {"steer": lb(5_240), "drive": lb(6_310), "trailer": lb(7_180)}
AXLES = "steer 5,240 drive 6,310 trailer 7,180"


@pytest.mark.parametrize(
    ("text", "entries"),
    [
        (f"its grandma, {AXLES}", [Weighing(loads=WEIGHED, rig="hitched")]),
        (f"this is dad {AXLES}", [Weighing(loads=WEIGHED, rig="hitched")]),
        (f"{AXLES}, pretzels were $7", [Weighing(loads=WEIGHED, rig="hitched")]),
        (f"{AXLES}, $7 for pretzels", [Weighing(loads=WEIGHED, rig="hitched")]),
        (
            f"{AXLES}, the scale was $13",
            [Weighing(loads=WEIGHED, rig="hitched", cost=usd(13))],
        ),
        (
            "truck and trailer 18,730",
            [Weighing(loads={"gross": lb(18_730)}, rig="hitched")],
        ),
        (
            "vehicle + trailer: 3,480 kg",
            [Weighing(loads={"gross": kg(3_480)}, rig="hitched")],
        ),
        (f"truck and trailer {AXLES}", [Weighing(loads=WEIGHED, rig="hitched")]),
        (
            "trailer on its own, left 3,210 right 3,350",
            [
                Weighing(
                    loads={"trailer_left": lb(3_210), "trailer_right": lb(3_350)}, rig="trailer"
                )
            ],
        ),
        (
            "28.4 gal 109.62, two pies 7.50",
            [Fill(volume=gallons(28.4), cost=usd(109.62))],
        ),
        (
            "28.4 gal $109.62, pretzels $7",
            [Fill(volume=gallons(28.4), cost=usd(109.62))],
        ),
        (
            "28.4 gallons at three dollars eighty five nine a gallon",
            [Fill(volume=gallons(28.4), unit_price=usd(3.859, "/gal"))],
        ),
        (
            "28.4 gal at 3 dollars 85.9 a gallon",
            [Fill(volume=gallons(28.4), unit_price=usd(3.859, "/gal"))],
        ),
        (
            "flatdeck unhooked, camper is hooked up",
            [
                Hitch(action="unhitched", trailer="flatdeck"),
                Hitch(action="hitched", trailer="camper"),
            ],
        ),
        ("took the trailer off", [Hitch(action="unhitched")]),
        (
            "swapped the camper for the flatdeck, 48,340",
            [
                Hitch(action="unhitched", trailer="camper"),
                Hitch(action="hitched", trailer="flatdeck"),
                Odometer(odometer=Quantity(48_340, "mi")),
            ],
        ),
        (
            "odometer 48,340 chains checked",
            [
                Odometer(odometer=Quantity(48_340, "mi")),
                Check(item="chains", state="done"),
            ],
        ),
        ("added a workbench, 140 lb", [Cargo(item="workbench", value=lb(140))]),
        (
            "place should read Thistle Ford",
            [Correction(action="amend", field="place", value="Thistle Ford")],
        ),
    ],
)
def test_it_is_of_what_stands_beside_it(reads: Reader, text: str, entries: list[Entry]) -> None:
    assert reads(text, on_the_road()) == Facts(tuple(entries))


@pytest.mark.parametrize(
    "text",
    [
        f"my cousin's truck, {AXLES}",
        f"the neighbors rig: {AXLES}",
        "mum filled her little hatchback, 38 litres",
        "sold the truck and trailer for 19,000",
        "put the trailer on craigslist",
        "took the trailer off his hands",
        "added a new goalkeeper, 12 lb heavier",
        "added 140 lb to my squat",
    ],
)
def test_what_is_somebody_elses_is_left_alone(reads: Reader, text: str) -> None:
    assert reads(text, on_the_road()) == Silent()


def test_a_reading_below_the_last_is_asked_about_where_something_happened(reads: Reader) -> None:
    verdict = reads("arrived Heron Lake, 47,366", on_the_road())
    assert isinstance(verdict, Ask)
    assert (verdict.about, verdict.why) == ("odometer", "backwards")


NEW_TRUCK = on_the_road(odometer=Quantity(10_612, "mi"))


@pytest.mark.parametrize(
    "text",
    [
        "home 10,950, dropped the camper",
        "10950 home, unhitched the camper",
        "got home at 10,950 and dropped the camper",
        "arrived 10950, camper off",
    ],
)
def test_where_a_lone_figure_was_driven_to_it_is_what_a_young_trucks_odometer_shows(
    text: str, reads: Reader
) -> None:
    verdict = reads(text, NEW_TRUCK)
    assert isinstance(verdict, Facts)
    assert [each.odometer for each in verdict.entries if isinstance(each, Odometer)] == [
        Quantity(10_950, "mi")
    ]
    assert not any(isinstance(each, Weighing) for each in verdict.entries)


@pytest.mark.parametrize(
    ("text", "loads"),
    [
        ("home, truck alone weighs 10950", {"gross": lb(10_950)}),
        ("home, dropped the camper, weighed 10950", {"gross": lb(10_950)}),
        ("camper off 9320", {"gross": lb(9_320)}),
        ("home, steer 5340 drive 10900", {"steer": lb(5_340), "drive": lb(10_900)}),
    ],
)
def test_what_was_weighed_is_no_reading_of_a_young_truck(
    text: str, loads: dict[str, Quantity], reads: Reader
) -> None:
    verdict = reads(text, NEW_TRUCK)
    assert isinstance(verdict, Facts)
    weighed = [each.loads for each in verdict.entries if isinstance(each, Weighing)]
    assert weighed == [loads]


@pytest.mark.parametrize(
    ("text", "name"),
    [
        ("5th wheel trailer Heron gvwr 18200 axles 2x8000", "Heron"),
        ("gooseneck trailer Anvil gvwr 15900", "Anvil"),
        ("horse float Pepper ATM 2000 kg", "Pepper"),
        ("trailer hopper gvwr 9500", "hopper"),
        ("travel trailer gvwr 9500", None),
    ],
)
def test_a_kind_of_trailer_is_no_part_of_its_name(
    text: str, name: str | None, reads: Reader
) -> None:
    verdict = reads(text, on_the_road(trailers=()))
    assert isinstance(verdict, Facts)
    assert {entry.trailer for entry in verdict.entries} == {name}


@pytest.mark.parametrize(
    "text",
    [
        "the in-laws new camper is 7,700 lb gvwr",
        "the in-laws' camper grossed 8,200",
        "my parents new camper is 7,700 lb gvwr",
    ],
)
def test_what_the_in_laws_have_is_theirs(text: str, reads: Reader) -> None:
    assert told(reads, text) == ["silent"]


def test_a_fill_at_the_in_laws_is_ours(reads: Reader) -> None:
    assert told(reads, "filled up at the in-laws, 31.4 gal") == ["fill full=True volume=31.4"]


@pytest.mark.parametrize(
    ("text", "entries"),
    [
        (
            "They weighed each front wheel of the truck, bless them: left 2,310 and right 2,290",
            ["weighing steer_left=2310 steer_right=2290"],
        ),
        (
            "they weighed each trailer wheel: left 2,310 right 2,290",
            ["weighing trailer_left=2310 trailer_right=2290"],
        ),
        ("they weighed the truck ahead of us: 78,400", ["silent"]),
        ("they weighed their truck: 8,140", ["silent"]),
        ("they weighed the bull on the trailer: 1,800", ["silent"]),
        (
            "Ted put firewood in the truck bed, and he says it is 210 pounds",
            ["cargo item=firewood position=truck bed value=210"],
        ),
        (
            "put the generator in the bed and my brother says it weighs 180 lb",
            ["cargo item=generator position=bed value=180"],
        ),
        ("dad says its 210 lb", ["silent"]),
        (
            "dad read the ball its stamped 10,000 lbs",
            ["rating rating=tow subject=ball value=10000"],
        ),
        ("mom read the book its 300 pages", ["silent"]),
        ("dad says the ball weighs 12 lb", ["silent"]),
    ],
)
def test_what_others_weigh_read_and_say_of_ours(
    text: str, entries: list[str], reads: Reader
) -> None:
    assert told(reads, text) == entries
