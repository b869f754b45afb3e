"""Several fills in one message: fuel and exhaust fluid, two stops in one breath, other tanks."""

from __future__ import annotations

from datetime import date

import pytest

from domain.entries import Fill, Odometer
from domain.quantities import Quantity
from domain.verdicts import Facts, Silent
from tests.domain.reading.chats import Reader, on_the_road


def fills(text: str, reads: Reader) -> list[Fill]:
    """The fills that a message states, and nothing besides."""
    verdict = reads(text, on_the_road())
    assert isinstance(verdict, Facts), text
    found = [each for each in verdict.entries if isinstance(each, Fill)]
    assert len(found) == len(verdict.entries)
    return found


def dollars(fill: Fill) -> float | None:
    """What a fill cost, in dollars."""
    return fill.cost.value if fill.cost else None


def gallons(fill: Fill) -> float | None:
    """What went in, in gallons."""
    return fill.volume.value if fill.volume else None


@pytest.mark.parametrize(
    "text",
    [
        "18 gal diesel and 2.5 gal def, $89.20 total",
        "diesel 22 gallons, def 5 gallons, paid 105.35",
        "24.1 gal diesel and 2 gal def for 104.62",
        "31.2 gal, plus a 2.5 gal jug of def, 137.40 all in",
        "2.5 gal def and 18 gal diesel, $89.20 total",
        "put in 30 gallons of diesel and 3 of def, came to 128.10",
        "28.4 gal diesel at 3.899 and 2.5 gal def, 120.48 total",
        "96.53 total, 22.8 gal diesel and 2.6 gal def",
    ],
)
def test_a_sum_of_fuel_and_fluid_is_what_neither_cost(text: str, reads: Reader) -> None:
    assert [dollars(each) for each in fills(text, reads)] == [None, None]


@pytest.mark.parametrize(
    ("text", "cost"),
    [
        ("30 gal diesel, 2.5 gal def for 9.75", {"diesel": None, "def": 9.75}),
        ("2.5 gal def, 28.4 gal diesel at 3.899, 110.73 total", {"diesel": 110.73, "def": None}),
        ("30 gal diesel $116.70, 2.5 gal def, 128.45 total", {"diesel": 116.70, "def": None}),
        ("28.4 gal diesel 110.20, 2.5 gal def 9.75", {"diesel": 110.20, "def": 9.75}),
    ],
)
def test_what_one_of_them_cost_stays_its_own(
    text: str, cost: dict[str, float | None], reads: Reader
) -> None:
    assert {each.product: dollars(each) for each in fills(text, reads)} == cost


@pytest.mark.parametrize(
    ("text", "told"),
    [
        ("Bought 24.6 gallons and a gallon of DEF", [(None, 24.6), ("def", 1.0)]),
        ("a gallon of def and 19.8 gallons of diesel", [("def", 1.0), ("diesel", 19.8)]),
        ("poured in half a gallon of DEF", [("def", 0.5)]),
        ("31 gal and 2 gallons of def", [(None, 31.0), ("def", 2.0)]),
        ("put in 22.1 gal and a jug of def", [(None, 22.1)]),
    ],
)
def test_one_of_a_measure_is_a_volume(
    text: str, told: list[tuple[str | None, float]], reads: Reader
) -> None:
    assert [(each.product, gallons(each)) for each in fills(text, reads)] == told


@pytest.mark.parametrize(
    "text",
    [
        "a gallon of gas is 4 bucks now",
        "bring a gallon of def when you come",
        "drank a gallon of water and a gallon of tea",
        "i went twice, 18.2 and 21.4 miles",
        "18.2 percent yesterday, 21.4 today",
        "gas can be dear, 4.99 a gallon",
        "he can got 5 points",
        "my sister filled her jeep, 14 gal",
        "drained 4 gal of bad diesel",
        "picked 18.2 gallons of berries going and 21.4 coming back",
        "diesel 89.82 + def 12.50 = 102.32",
    ],
)
def test_gallons_and_cans_of_talk_are_no_fill(text: str, reads: Reader) -> None:
    assert isinstance(reads(text, on_the_road()), Silent)


@pytest.mark.parametrize(
    ("text", "full"),
    [
        ("filled up twice, 18.2 and 21.4 gallons", True),
        ("filled up two times, 18.2 gallons and 21.4 gallons", True),
        ("two fills, 18.2 and 21.4 gal", None),
        ("18.2 + 21.4 gal", None),
        ("two stops: 18.2 gal and 21.4 gal", None),
        ("stopped twice for fuel, 18.2 gal then 21.4 gal", None),
        ("first stop 18.2 gal, second stop 21.4 gal", None),
        ("18.2 gal in Larkfold and 21.4 gal in Elk Fork", None),
        ("two tanks this trip, 18.2 and 21.4 gal", None),
        ("18.2 gal at lunch, 21.4 gal at dinner", None),
        ("got 18.2 gal on the way out, 21.4 gal coming back", None),
        ("filled 18.2 gal going up and 21.4 gal coming home", True),
    ],
)
def test_each_of_two_stops_is_a_fill(text: str, full: bool | None, reads: Reader) -> None:
    found = fills(text, reads)
    assert [gallons(each) for each in found] == [18.2, 21.4]
    assert {each.full for each in found} == {full}


def test_two_stops_have_their_own_days_and_places(reads: Reader) -> None:
    first, second = fills("filled 20.1 gal yesterday, 22.6 gal today", reads)
    assert (first.at, second.at) == (date(2026, 7, 10), date(2026, 7, 11))
    first, second = fills("18.2 gal in Larkfold and 21.4 gal in Elk Fork", reads)
    assert (first.place, second.place) == ("Larkfold", "Elk Fork")


@pytest.mark.parametrize(
    "text",
    [
        "gas can got 5, truck got 26.2",
        "5 gal in the gas can, 26.2 in the truck",
        "truck took 26.2 gal, 5 more in the gas can",
        "filled the gas can too, 5 gal, truck took 26.2",
        "26.2 gal for the truck and 5 gal gas for the generator",
        "26.2 gal in the truck and 6 gal in the boat",
        "quads took 6 gal, truck took 26.2 gal",
    ],
)
def test_what_went_into_a_can_or_another_tank_is_not_the_trucks(text: str, reads: Reader) -> None:
    (only,) = fills(text, reads)
    assert (only.product, gallons(only)) == (None, 26.2)


@pytest.mark.parametrize(
    "text",
    [
        "topped off from the gas can, 5 gallons, odo 48,133",
        "the jerry can went in, 5 gallons, odo 48,133",
        "2 cans went in, 2.5 gal each, odo 48,133",
    ],
)
def test_what_came_out_of_cans_is_the_trucks(text: str, reads: Reader) -> None:
    (only,) = fills(text, reads)
    assert gallons(only) == 5
    assert only.odometer == Quantity(48_133, "mi")


@pytest.mark.parametrize(
    "text",
    [
        "26.1 gal, 95.92 before the discount and 93.46 after",
        "26.1 gal, $95.92 before discount, $93.46 after",
        "26.1 gal for 93.46 after rewards, was 95.92",
        "26.1 gal, 93.46 with the discount, 95.92 without",
        "26.1 gal 95.92 less 2.46 off = 93.46",
        "26.1 gal $95.92, discount 2.46, paid $93.46",
        "26.1 gal was 95.92 but 93.46 after points",
    ],
)
def test_the_cost_is_what_was_paid_in_the_end(text: str, reads: Reader) -> None:
    (only,) = fills(text, reads)
    assert (gallons(only), dollars(only)) == (26.1, 93.46)


def test_so_is_the_price(reads: Reader) -> None:
    (only,) = fills("24.6 gal at 3.899 before discount, 3.799 after", reads)
    assert only.unit_price == Quantity(3.799, "USD/gal")


@pytest.mark.parametrize(
    "text", ["2 tanks, 24.6 gallons", "both tanks, 24.6 gallons", "one tank 24.6 gal"]
)
def test_tenths_of_a_gallon_in_counted_tanks_were_pumped(text: str, reads: Reader) -> None:
    (only,) = fills(text, reads)
    assert gallons(only) == 24.6


def test_a_tank_beside_the_nameless_one_took_its_share(reads: Reader) -> None:
    (only,) = fills("took on 31 gal diesel plus 9 gal in the aux", reads)
    assert gallons(only) == 40


def test_tenths_of_a_cent_are_no_date(reads: Reader) -> None:
    (only,) = fills("22 1/2 gallons at 3.79 and 9/10", reads)
    assert (only.unit_price, only.at) == (Quantity(3.799, "USD/gal"), None)


def test_a_little_more_than_so_much_gives_way_to_what_the_pump_says(reads: Reader) -> None:
    (only,) = fills("a bit over 25 gallons, pump says 25.12", reads)
    assert (gallons(only), only.cost) == (25.12, None)


def test_a_quarter_on_the_gauge_is_no_day_of_january(reads: Reader) -> None:
    for told in ("filled up at 1/4", "filled up 1/4", "went from 1/4 to full"):
        (only,) = fills(f"{told}, 26.1 gal", reads)
        assert (gallons(only), only.at) == (26.1, None)
    (only,) = fills("filled up 7/8, 26.1 gal", reads)
    assert only.at == date(2026, 7, 8)


def test_till_payday_is_no_place(reads: Reader) -> None:
    (only,) = fills("put 20 bucks in till payday, 48,170", reads)
    assert (dollars(only), only.place) == (20, None)


def test_rows_of_a_reading_and_a_volume_are_a_fill_each(reads: Reader) -> None:
    found = fills("48,120 23.7; 48,410 22.1; 48,740 25.0", reads)
    told = [(each.odometer.value if each.odometer else None, gallons(each)) for each in found]
    assert told == [(48_120, 23.7), (48_410, 22.1), (48_740, 25.0)]


@pytest.mark.parametrize(
    ("text", "cost"),
    [
        ("88.50 after the dollar-thirty-two discount, 23.7 gal", 88.50),
        ("used 1,000 points, paid 74.20 for 23.7 gal", 74.20),
    ],
)
def test_points_and_discounts_are_no_fills(text: str, cost: float, reads: Reader) -> None:
    (only,) = fills(text, reads)
    assert (gallons(only), dollars(only), only.odometer) == (23.7, cost, None)


@pytest.mark.parametrize(
    "text",
    [
        "fuel: 24.8. no def this time.",
        "put 24.8 gal in, def light on too",
        "13.87 mpg this tank, 24.8 gal",
    ],
)
def test_a_light_a_denial_and_a_tankful_are_of_no_other_fluid(text: str, reads: Reader) -> None:
    (only,) = fills(text, reads)
    assert (only.product, gallons(only)) == (None, 24.8)


def test_a_light_before_the_volume_says_what_was_bought(reads: Reader) -> None:
    (only,) = fills("DEF light came on so bought a box, 2.5 gallons 14.99", reads)
    assert (only.product, gallons(only)) == ("def", 2.5)


def test_a_second_sentence_with_a_volume_is_a_fill_more(reads: Reader) -> None:
    found = fills("before leaving: 24.8 gal. at the pass: 10 gal.", reads)
    assert [gallons(each) for each in found] == [24.8, 10]


@pytest.mark.parametrize(
    ("text", "places"),
    [
        ("Dorset 24.1 gal 93.99, Pell 19.4 gal 75.66, home 48,544", ["Dorset", "Pell"]),
        ("24.1 gal at Dorset, 19.4 at Pell, home at 48,544", ["Dorset", "Pell"]),
        ("24.1 gal 93.99, 19.4 gal 75.66, home 48,544", [None, None]),
        ("24.1 gal in Dorset, home 48,544", ["Dorset"]),
        ("Dorset 24.1 gal 93.99, home 48,544", ["Dorset"]),
    ],
)
def test_who_came_home_in_the_end_did_not_fill_up_there(
    text: str, places: list[str | None], reads: Reader
) -> None:
    verdict = reads(text, on_the_road())
    assert isinstance(verdict, Facts)
    *told, home = verdict.entries
    assert home == Odometer(odometer=Quantity(48_544, "mi"), event="arrive", place="home")
    assert [(each.place, each.odometer) for each in told if isinstance(each, Fill)] == [
        (place, None) for place in places
    ]


def test_who_fills_up_at_home_reads_the_odometer_there(reads: Reader) -> None:
    (fill,) = fills("24.1 gal, home 48,544", reads)
    assert (fill.odometer, fill.place) == (Quantity(48_544, "mi"), "home")
