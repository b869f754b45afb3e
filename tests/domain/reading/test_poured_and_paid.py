"""What was poured on top, at another stop or into something else, and what it cost in the end."""

from __future__ import annotations

import pytest

from domain.entries import Fill, Observation
from domain.quantities import Quantity
from domain.verdicts import Facts, Silent
from tests.domain.reading.chats import Reader, chat, on_the_road
from tests.domain.reading.fills_told import told


@pytest.mark.parametrize(
    ("text", "volume"),
    [
        ("pump clicked at 27.3 then I squeezed 1.4 more in", 28.7),
        ("24.6 gal then another 1.2", 25.8),
        ("clicked off at 24.6, squeezed in another 2 gal", 26.6),
        ("24.6 gal, 3.2 more than last time", 24.6),
        ("thirty one even gallons, 118.40", 31.0),
        ("24.6 gal, even stevens at cards", 24.6),
        ("24.6 gal, 2 more stops today", 24.6),
        ("24.6 gal in, another 5 gal in the can", 24.6),
    ],
)
def test_what_was_squeezed_in_comes_on_top(text: str, volume: float, reads: Reader) -> None:
    assert [each[1] for each in told(text, reads)] == [volume]


@pytest.mark.parametrize(
    ("text", "volume"),
    [
        ("put 30 in the aux and 18.4 in the main", 48.4),
        ("left tank 17.2 right tank 15.9 48,133", 33.1),
        ("long range tank took 16.2, main 14.8 gal", 31.0),
        ("put 20.2 in the main", 20.2),
        ("front 27.4 rear 11.8 gal at 3.769", 39.2),
        ("odo 48133 trip 402.2 vol 27.4 ppg 3.769", 27.4),
        ("topped off both tanks 23.8 and 14.2 gal, 48,133", 38.0),
        ("filled main and aux, 21.3 and 18.2 gal", 39.5),
    ],
)
def test_bare_figures_of_several_tanks_are_one_fill(
    text: str, volume: float, reads: Reader
) -> None:
    assert [each[1:] for each in told(text, reads)] == [(volume, None)]


@pytest.mark.parametrize(
    "text",
    [
        "put 24.6 in the truck and 5 in the generator",
        "gens got 5, truck got 24.6",
        "filled the truck 24.6 and the quad 3.1 gal",
        "hauled the tractor, 24.6 gal",
        "home tank, 24.6 gal",
        "24.6 gal, def is at half",
        "fuel: 24.6 gal, def low",
    ],
)
def test_the_trucks_fuel_is_told_beside_other_tanks(text: str, reads: Reader) -> None:
    assert told(text, reads) == [(None, 24.6, None)]


@pytest.mark.parametrize(
    ("text", "volumes"),
    [
        ("we filled at the last exit and again here, 11.2 then 20.6 gal", [11.2, 20.6]),
        ("got 11.2 gal in Dunmore and again at the Gap, 20.6", [11.2, 20.6]),
        ("stopped twice, 18.2 and 21.4 gal", [18.2, 21.4]),
        ("24.6 gal in the morning and 18.9 in the afternoon", [24.6, 18.9]),
        ("fuel 48133 24.6 full, def 48133 2.5", [24.6, 2.5]),
        ("two tanks this trip, 23.8 and 14.2 gal", [23.8, 14.2]),
    ],
)
def test_two_stops_are_told_in_turn(text: str, volumes: list[float], reads: Reader) -> None:
    assert [each[1] for each in told(text, reads)] == volumes


@pytest.mark.parametrize(
    "text",
    [
        "milked twice, 18.2 and 21.4 gallons",
        "milked 21.4 gallons",
        "pressed 18.2 gallons today",
        "went to the lake twice, 18.2 and 21.4 gallons",
        "we burned 24.6 gal getting here",
        "went through 24.6 gal of diesel",
        "def 14.99",
        "adblue 18.50",
        "propane 20 lb tank 18.99",
        "pump stopped at 75 dollars so I ran it again: 75.00 and 14.82",
    ],
)
def test_what_was_done_otherwise_is_no_fill(text: str, reads: Reader) -> None:
    assert isinstance(reads(text, on_the_road()), Silent)


@pytest.mark.parametrize(
    ("text", "cost"),
    [
        ("24.6 gal, $95.92 before tax and $101.44 after", 101.44),
        ("24.6 gal 101.44 with tax, 95.92 without", 101.44),
        ("24.6 gal $95.92 less $2.46 = $93.46", 93.46),
        ("filled 24.6 gal $95.92 minus $2.46", None),
        ("24.6 gal $95.92 minus 10 cents a gallon", None),
        ("24.6 gal 95.92, 2.46 less than last time", 95.92),
        ("24.6 gal @ 3.899 w/ 10c off = 93.46", 93.46),
        ("22.1 gal and a jug of def, 105.30 altogether", None),
        ("22.1 gal from cans, 85.30 total", 85.30),
        ("5 gal in the can, 23.8 in the truck, $112.03 altogether", None),
        ("23.8 in the truck, $92.58, and 5 gal in the can", 92.58),
        ("71.3L less 4 cents = $135.40", 135.40),
        ("card cut off at $100, had to swipe twice, 100.00 then 22.47, 31.4 gal", None),
        ("it cut me off at $100.00, 25.6 gal", 100),
    ],
)
def test_only_what_the_fuel_came_to_is_its_cost(
    text: str, cost: float | None, reads: Reader
) -> None:
    assert [each[2] for each in told(text, reads)] == [cost]


def test_a_jug_is_paid_for(reads: Reader) -> None:
    assert told("jug of def 14.99 at 48,133", reads) == [("def", None, 14.99)]
    assert told("def 4.2 48,133", reads) == [("def", 4.2, None)]
    assert told("29.8 gal diesel, jug of def 14.99, total 131.20", reads) == [
        ("diesel", 29.8, None)
    ]


def test_a_plus_parts_fuel_from_fluid(reads: Reader) -> None:
    text = "fuel $92.58 (23.8 gal) + def $12.83 (3.9 gal) = $105.41"
    assert told(text, reads) == [(None, 23.8, 92.58), ("def", 3.9, 12.83)]


@pytest.mark.parametrize(
    ("text", "place"),
    [
        ("didnt log the one in Pell. 23.8 gal here 48,133", None),
        ("missed logging one at Dunmore, this one is 30.4 gal", None),
        ("forgot to log a fill. 23.8 gal in Pell", "Pell"),
        ("passed 3.59 in Pell, paid 3.769 here 27.4 gal", None),
        ("24.6 gal at 3.899, it was 3.59 in Pell", None),
        ("24.6 gal in Pell, 3.899 a gallon", "Pell"),
        ("27.4 gal, 3.769 in Pell, 103.27 total", "Pell"),
        ("Pump 6 DIESEL\nGallons 23.801\nFuel Sale 92.58\nCoffee 2.19\nTotal 94.77", None),
    ],
)
def test_the_place_is_of_this_fill(text: str, place: str | None, reads: Reader) -> None:
    verdict = reads(text, on_the_road())
    assert isinstance(verdict, Facts)
    assert [each.place for each in verdict.entries] == [place]


def test_what_is_full_is_the_fluids(reads: Reader) -> None:
    for text, full in (("24.6 gal, def topped off too", None), ("24.6 gal, topped off", True)):
        verdict = reads(text, on_the_road())
        assert isinstance(verdict, Facts)
        (only,) = verdict.entries
        assert isinstance(only, Fill)
        assert only.full is full


def test_cents_are_a_price_behind_litres(reads: Reader) -> None:
    abroad = chat(units="metric", currency="AUD")
    bought, trans = reads("78.4L 189.9c 148.88", abroad), reads("trans 92.1c", abroad)
    assert isinstance(bought, Facts)
    assert isinstance(trans, Facts)
    (fill,), (heat,) = bought.entries, trans.entries
    assert isinstance(fill, Fill)
    assert isinstance(heat, Observation)
    assert fill.unit_price == Quantity(1.899, "AUD/L")
    assert heat.value == Quantity(92.1, "degC")


@pytest.mark.parametrize(
    ("text", "volume"),
    [
        ("pumped 21 and a quarter gallons, 83.10", Quantity(21.25, "gal")),
        ("squeezed in 17 and three quarters gal at 3.899", Quantity(17.75, "gal")),
        ("24 gallons and a quarter, $94.60", Quantity(24.25, "gal")),
        ("27 and 3/4 gal at 3.899", Quantity(27.75, "gal")),
        ("41 1/2 litres at 1.39", Quantity(41.5, "L")),
    ],
)
def test_a_part_of_one_belongs_to_the_volume(text: str, volume: Quantity, reads: Reader) -> None:
    read = reads(text, on_the_road())
    assert isinstance(read, Facts), read
    (entry,) = read.entries
    assert isinstance(entry, Fill)
    assert entry.volume == volume


@pytest.mark.parametrize(
    "text",
    [
        "put 24 gal in and a quarter tank showing, $94.60",
        "pumped 24 gallons and a quarter of the tank to spare, $94.60",
    ],
)
def test_a_part_of_a_tank_is_none_of_the_volume(text: str, reads: Reader) -> None:
    read = reads(text, on_the_road())
    assert isinstance(read, Facts), read
    assert [each.volume for each in read.entries if isinstance(each, Fill)] == [Quantity(24, "gal")]


@pytest.mark.parametrize(
    ("text", "volume"),
    [
        ("3.879 a gallon and 23.4 of em", Quantity(23.4, "gal")),
        ("1.389 a litre, 58 of them, 48,300", Quantity(58, "L")),
    ],
)
def test_so_many_of_them_are_what_the_price_is_for(
    text: str, volume: Quantity, reads: Reader
) -> None:
    read = reads(text, on_the_road())
    assert isinstance(read, Facts), read
    (entry,) = read.entries
    assert isinstance(entry, Fill)
    assert (entry.volume, entry.cost) == (volume, None)


def test_so_many_of_them_are_no_fuel_without_a_price(reads: Reader) -> None:
    assert isinstance(reads("the hens, 23 of em, got out", on_the_road()), Silent)
    assert isinstance(reads("3.99 a gallon, 4 of them were there", on_the_road()), Silent)


@pytest.mark.parametrize(
    ("text", "told"),
    [
        ("had 8 gal left, took 28.1 gal", (28.1, None, None)),
        ("8 gallons left when we filled, 48,302, 28.1", (28.1, None, None)),
        ("got 24.6 gal left Pell 48,302", (24.6, None, None)),
        ("took 24.6 of its 36", (24.6, None, None)),
        ("dte said 40 at 48,280, filled 28.1 gal at 48,302", (28.1, None, None)),
        ("prepay 100 got 4.06 back, 24.6 gal", (24.6, None, None)),
        ("got 24.6 gal back in Pell, $95.94", (24.6, None, 95.94)),
        ("pump price 3.999 paid 3.899 w the card, 24.6 gal", (24.6, 3.899, None)),
        ("paid 3.769 here 27.4 gal, it was 3.599 in Pell", (27.4, 3.769, None)),
    ],
)
def test_what_is_told_of_the_tank_and_of_change_is_not_pumped_or_paid(
    text: str, told: tuple[float, float | None, float | None], reads: Reader
) -> None:
    verdict = reads(text, on_the_road())
    assert isinstance(verdict, Facts)
    (fill,) = [each for each in verdict.entries if isinstance(each, Fill)]
    assert fill.volume == Quantity(told[0], "gal")
    assert (fill.unit_price.value if fill.unit_price else None) == told[1]
    assert (fill.cost.value if fill.cost else None) == told[2]


@pytest.mark.parametrize("brim", ["right to the brim", "right up to the brim", "to the brim"])
def test_a_price_before_the_brim_is_one(brim: str, reads: Reader) -> None:
    verdict = reads(f"fuel stop, 28.3 gal, 3.969, {brim}", on_the_road())
    assert isinstance(verdict, Facts)
    (entry,) = verdict.entries
    assert isinstance(entry, Fill)
    assert entry.full is True
    assert entry.unit_price == Quantity(3.969, "USD/gal")


@pytest.mark.parametrize(
    ("text", "volume", "cost"),
    [
        ("27.4 gal, 106.83 total, 12 of that was ice", 27.4, None),
        ("106.83 total, 27.4 gal, 12 bucks of that was ice", 27.4, None),
        ("paid 106.83, 9.50 of that for coffee, 24.6 gal", 24.6, None),
        ("27.4 gal, $106.83, $12 of which was ice", 27.4, None),
        ("27.4 gal, 106.83 total, 94.83 of that was diesel", 27.4, 94.83),
        ("$106.83 total, 94.83 of it fuel, 24.6 gal", 24.6, 94.83),
        ("27.4 gal of diesel, $106.83", 27.4, 106.83),
    ],
)
def test_a_part_of_a_sum_was_paid_for_something_else(
    reads: Reader, text: str, volume: float, cost: float | None
) -> None:
    ((_, poured, paid),) = told(text, reads)
    assert (poured, paid) == (volume, cost)


def test_what_is_no_fuel_of_a_sum_is_no_volume(reads: Reader) -> None:
    assert reads("filled up 106.83 but 12 of that was ice", on_the_road()) == Silent()
