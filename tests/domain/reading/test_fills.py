"""Fills in people's own words: prices in pence, what was full, whose the odometer is."""

from __future__ import annotations

import pytest

from domain.entries import Fill, Hitch, Odometer
from domain.quantities import Quantity
from domain.records import verdict_to_record
from domain.verdicts import Ask, Facts, Silent
from tests.domain.driving_log import gal
from tests.domain.reading.chats import Reader, chat, on_the_road

BRITISH = chat(
    units="imperial",
    currency="GBP",
    time_zone="Europe/London",
    odometer=Quantity(48_010, "mi"),
    tank=Quantity(18, "gal_imp"),
    fuel="diesel",
    truck="Juniper",
    trailers=("caravan",),
)


def fill(text: str, reads: Reader) -> Fill:
    """The one fill that a message in a British chat states."""
    verdict = reads(text, BRITISH)
    assert isinstance(verdict, Facts)
    (entry,) = verdict.entries
    assert isinstance(entry, Fill)
    return entry


@pytest.mark.parametrize(
    "text",
    [
        "Receipt: DERV 52.40 LTR  PPL 147.9  £77.50  mileage 48,210",
        "52.4 litres at 147.9 ppl, £77.50, 48,210 miles",
        "ppl 147.9 vol 52.40 total £77.50 odo 48,210",
        "52.4 litres at 147.9, £77.50, odo 48,210",
        "52.4 litres 147.9 £77.50 odo 48,210",
        "52.40 L 1.479 £77.50 odo 48,210",
    ],
)
def test_a_price_in_pence_is_one_of_a_litre(text: str, reads: Reader) -> None:
    read = fill(text, reads)
    assert read.volume == Quantity(52.4, "L")
    assert read.unit_price == Quantity(1.479, "GBP/L")
    assert read.cost == Quantity(77.5, "GBP")
    assert read.odometer == Quantity(48_210, "mi")
    assert read.distance is None


def test_the_same_decimals_of_miles_are_a_trip(reads: Reader) -> None:
    assert fill("52.4 litres, 147.9 miles since last fill", reads).distance == Quantity(147.9, "mi")


def test_letters_for_pence_are_people_beside_a_count(reads: Reader) -> None:
    assert isinstance(reads("12 ppl coming at 7.30", BRITISH), Silent)


@pytest.mark.parametrize("price", ["1479.00 per litre", "1479.9/L", "£1479.00/L"])
def test_a_price_a_thousand_times_too_dear_is_asked_about(price: str, reads: Reader) -> None:
    verdict = reads(f"52.4 L at {price}, odo 48,210", BRITISH)
    assert isinstance(verdict, Ask)
    assert (verdict.about, verdict.why) == ("unit_price", "implausible")


@pytest.mark.parametrize(
    ("text", "full"),
    [
        ("filled the Juniper up, 31.4 gal at 3.699", True),
        ("filled Juniper, 31.4 gal at 3.699", True),
        ("filled Juniper with 20 gal at 3.699", None),
        ("forgot to log the fill up before this, 31.4 gal at 3.699", None),
    ],
)
def test_a_truck_filled_by_its_name_is_full(text: str, full: bool | None, reads: Reader) -> None:
    verdict = reads(text, on_the_road())
    assert isinstance(verdict, Facts)
    (entry,) = verdict.entries
    assert isinstance(entry, Fill)
    assert entry.full is full


@pytest.mark.parametrize("said", ["fergot to log", "frgot to log", "forgt to log"])
def test_forgotten_in_any_spelling_was_left_out(said: str, reads: Reader) -> None:
    verdict = reads(f"{said} the one before this. 31.4 gal odo 48,210", on_the_road())
    assert isinstance(verdict, Facts)
    (entry,) = verdict.entries
    assert isinstance(entry, Fill)
    assert entry.missed is True


@pytest.mark.parametrize(
    "text",
    [
        "31.4 gal, $112.80. hooked up the camper. 48,210 miles, off we go",
        "fuel 31.4 gal\nhitched the camper\nleft at 48,210",
        "31.4 gallons, $112.06. hitched the flatdeck and off, 48,210",
        "31.4 gal, $112, hooked up the camper and left, 48,210",
    ],
)
def test_a_reading_on_leaving_is_not_of_the_fill_two_sentences_before(
    text: str, reads: Reader
) -> None:
    verdict = reads(text, on_the_road(hitched=False))
    assert isinstance(verdict, Facts)
    filled, hitched, left = verdict.entries
    assert isinstance(filled, Fill)
    assert filled.odometer is None
    assert isinstance(hitched, Hitch)
    assert isinstance(left, Odometer)
    assert (left.odometer, left.event) == (Quantity(48_210, "mi"), "depart")


@pytest.mark.parametrize(
    "text",
    [
        "31.4 gal. odo 48,210, off we go",
        "31.4 gal, $112.80. grabbed a coffee. odo 48,210",
        "31.4 gal with the camper hooked up and leaving, 48,210",
        "31.4 gal, $112.80, camper unhooked and off, 48,210",
    ],
)
def test_a_reading_beside_a_fill_stays_its_own(text: str, reads: Reader) -> None:
    verdict = reads(text, on_the_road())
    assert isinstance(verdict, Facts)
    assert isinstance(verdict.entries[0], Fill)
    assert verdict.entries[0].odometer == Quantity(48_210, "mi")


@pytest.mark.parametrize("text", ["hooked up the camper and left 48,210", "left 48,210"])
def test_so_high_a_figure_behind_left_is_no_side(text: str, reads: Reader) -> None:
    verdict = reads(text, on_the_road(hitched=False))
    assert isinstance(verdict, Facts)
    left = verdict.entries[-1]
    assert isinstance(left, Odometer)
    assert (left.odometer, left.event) == (Quantity(48_210, "mi"), "depart")


@pytest.mark.parametrize(
    ("text", "price"),
    [
        ("22.4 gallons, 3.459 each", 3.459),
        ("31 gallons of diesel at 3.89 apiece", 3.89),
        ("28.4 gal $3.799 / gal", 3.799),
        ("they wanted 4.29 a gallon in town, got 30 gal here at 3.99", 3.99),
        ("4.15 a gallon down the road, paid 3.85 a gallon, took 27.2 gal", 3.85),
        ("4.25 a gallon at the exit, drove 2 miles and paid 3.75, 30 gal", 3.75),
        ("3.79 a gallon here, was 4.05 last week. 29.8 gal", 3.79),
        ("two prices on the sign, 3.60 a gallon and 3.80 a gallon. 20 gal, 76.00 total", 3.80),
    ],
)
def test_the_price_is_the_one_that_was_paid_for_each(
    text: str, price: float, reads: Reader
) -> None:
    verdict = reads(text, on_the_road(currency="USD"))
    assert isinstance(verdict, Facts), verdict
    (entry,) = verdict.entries
    assert isinstance(entry, Fill)
    assert entry.unit_price == Quantity(price, "USD/gal")


def test_a_comma_before_dollars_a_litre_is_a_decimal_one(reads: Reader) -> None:
    verdict = reads("94,6 L, 1,634 $/L", on_the_road(units="metric", currency="CAD", tank=None))
    assert isinstance(verdict, Facts), verdict
    (entry,) = verdict.entries
    assert entry == Fill(volume=Quantity(94.6, "L"), unit_price=Quantity(1.634, "CAD/L"))


@pytest.mark.parametrize(
    ("text", "cost"),
    [
        ("def 2.5 gal twenty one fifty", 21.5),
        ("31.4 gallons, one nineteen thirty two", 119.32),
        ("24.6 gal, ninety two oh five", 92.05),
        ("20.5 gallons, eighty two even, thats four bucks a gallon", 82),
        ("total at the register was 88.40, 71.20 of it diesel, 18.3 gal", 71.2),
        ("bill was 164, 40 of it groceries, so 124 in diesel, 31 gal", 124),
        ("paid 152 total, 31 was ice and jerky so 121 for fuel, 30 gal", 121),
    ],
)
def test_the_total_is_what_the_fuel_came_to(text: str, cost: float, reads: Reader) -> None:
    verdict = reads(text, on_the_road(currency="USD"))
    assert isinstance(verdict, Facts), verdict
    (entry,) = verdict.entries
    assert isinstance(entry, Fill)
    assert entry.cost == Quantity(cost, "USD")


@pytest.mark.parametrize(
    ("text", "volume"),
    [
        ("last fill was 31 gal, this one 29.4, odo 48,355", 29.4),
        ("last fill was 31 gal this one 29.4 gal", 29.4),
        ("31 gal last fill and 29.4 gal this time", 29.4),
        ("29.4 gallons today vs 31.4 last time", 29.4),
        ("27.4 gal this time, last time 31.2, odo 48,420", 27.4),
        ("previous tank took 30.1 gallons, today 28.7 gallons, odo 48,430", 28.7),
    ],
)
def test_an_earlier_fill_that_is_told_beside_this_one_is_left(
    text: str, volume: float, reads: Reader
) -> None:
    verdict = reads(text, on_the_road())
    assert isinstance(verdict, Facts), verdict
    (entry,) = verdict.entries
    assert isinstance(entry, Fill)
    assert entry.volume == Quantity(volume, "gal")


@pytest.mark.parametrize(
    ("text", "full", "missed"),
    [
        ("put 15 gal in, nowhere near full", False, None),
        ("12 gal, far from full", False, None),
        ("we forgot to log the previous fillup. 34.2 gal, full, 48,477", True, True),
        ("skipped logging the previous fill, now 33 gal full odo 48,700", True, True),
    ],
)
def test_how_full_it_was_and_what_was_not_logged(
    text: str, full: bool, missed: bool | None, reads: Reader
) -> None:
    verdict = reads(text, on_the_road())
    assert isinstance(verdict, Facts), verdict
    (entry,) = verdict.entries
    assert isinstance(entry, Fill)
    assert (entry.full, entry.missed) == (full, missed)


@pytest.mark.parametrize(
    "text",
    [
        "DIESEL 28.411 GAL @ 3.799 107.93\nWASHER FLUID 1 GAL 4.29\nTOTAL 112.22",
        "MILK 1 GAL 3.89\nDIESEL 28.411 GAL 3.799 107.93\nTOTAL 111.82",
        "Antifreeze 1 gal 13.99\nDiesel 28.411 gal 3.799 107.93\nTotal 121.92",
    ],
)
def test_another_fluid_on_the_receipt_is_no_fill(text: str, reads: Reader) -> None:
    verdict = reads(text, on_the_road(currency="USD"))
    assert isinstance(verdict, Facts), verdict
    (entry,) = verdict.entries
    assert entry == Fill(
        product="diesel",
        volume=Quantity(28.411, "gal"),
        unit_price=Quantity(3.799, "USD/gal"),
        cost=Quantity(107.93, "USD"),
    )


@pytest.mark.parametrize(
    "text",
    [
        "grabbed milk, 2 gallons, 3.99 each",
        "jugs of cider 2.5 gallons 7.99 each",
        "5 gal buckets 8.99 each",
        "tickets were nineteen ninety nine",
        "gas is 4.19 across the street and 3.95 here",
        "last time it was 31 people, this time 29",
    ],
)
def test_prices_of_other_things_are_no_fill(text: str, reads: Reader) -> None:
    assert isinstance(reads(text, on_the_road()), Silent)


@pytest.mark.parametrize(
    "text",
    [
        "40 gal of gas at 4.90 in the boat",
        "6 gal 22.10 for the mower",
        "12 gal diesel into our tractor, 44.30",
    ],
)
def test_fuel_for_what_does_not_tow_is_no_fill(text: str, reads: Reader) -> None:
    assert isinstance(reads(text, on_the_road()), Silent)


def test_the_truck_is_filled_whatever_else_was(reads: Reader) -> None:
    verdict = reads("filled 22 gal, 9 gal in the boat", on_the_road())
    assert isinstance(verdict, Facts)
    assert [each.volume for each in verdict.entries if isinstance(each, Fill)] == [
        Quantity(22, "gal")
    ]


def test_a_tank_of_water_is_no_fill(reads: Reader) -> None:
    assert isinstance(reads("grey tank full 28 gal", on_the_road()), Silent)
    fresh = reads("fresh tank full, 30 gal", on_the_road())
    assert isinstance(fresh, Facts)
    assert not any(isinstance(each, Fill) for each in fresh.entries)


def test_money_put_into_what_has_an_odometer_is_a_fill(reads: Reader) -> None:
    verdict = reads("put $20 in it, odo 48,310", on_the_road())
    assert isinstance(verdict, Facts)
    (fill,) = verdict.entries
    assert isinstance(fill, Fill)
    assert (fill.cost, fill.odometer) == (Quantity(20, "USD"), Quantity(48_310, "mi"))
    assert isinstance(reads("put $20 in it for the card", on_the_road()), Silent)


@pytest.mark.parametrize(
    ("text", "full"),
    [
        ("put $60 in the tank", None),
        ("bought $60 of fuel", None),
        ("put $60 in the tank, didn't fill it", False),
    ],
)
def test_money_that_went_into_the_tank_is_a_fill(
    text: str, full: bool | None, reads: Reader
) -> None:
    assert reads(text, on_the_road()) == Facts((Fill(cost=Quantity(60, "USD"), full=full),))


@pytest.mark.parametrize(
    "text",
    [
        "put $60 in the plate at church",
        "left $60 in the tank bag",
        "put $5 into the fish tank",
        "he owes me $60 of fuel",
        "they want 2 bucks more in the name of diesel prices",
    ],
)
def test_money_that_went_elsewhere_is_none(text: str, reads: Reader) -> None:
    assert reads(text, on_the_road()) == Silent()


@pytest.mark.parametrize(
    "text",
    [
        "filled up 30 gal diesel and 2.5 gal def, odo 48,211",
        "30 gal diesel, 2.5 gal def, 48,211",
        "30 gal diesel 2.5 gal def 48,211",
        "diesel 30 gal + 2.5 gal def @ 48,211",
        "30 gal diesel $118, DEF 2.5 gal $11, odo 48,211",
        "odo 48,211: diesel 30 gal, def 2.5 gal",
        "2.5 gal def and 30 gal diesel, odometer 48,211",
        "put in 30 gal diesel at 3.89 and 2.5 of def, odo 48,211",
        "2.5 gal def at 48,211 and 30 gal diesel",
    ],
)
def test_a_reading_beside_fuel_and_exhaust_fluid_is_the_fuels(text: str, reads: Reader) -> None:
    verdict = reads(text, on_the_road())
    assert isinstance(verdict, Facts), verdict
    read = {
        (each.product, each.volume, each.odometer)
        for each in verdict.entries
        if isinstance(each, Fill)
    }
    assert read == {
        ("diesel", Quantity(30, "gal"), Quantity(48_211, "mi")),
        ("def", Quantity(2.5, "gal"), None),
    }


@pytest.mark.parametrize(
    ("text", "readings"),
    [
        ("30 gal diesel, def 2.5 gal, both at 48,211", (48_211, 48_211)),
        ("diesel 30 gal odo 48,211, def 2.5 gal odo 48,240", (48_211, 48_240)),
        ("diesel 30 gal. then at 48,240 def 2.5 gal", (None, 48_240)),
    ],
)
def test_a_reading_of_the_exhaust_fluids_own(
    text: str, readings: tuple[float | None, float], reads: Reader
) -> None:
    verdict = reads(text, on_the_road())
    assert isinstance(verdict, Facts), verdict
    assert [
        each.odometer and each.odometer.value for each in verdict.entries if isinstance(each, Fill)
    ] == list(readings)


@pytest.mark.parametrize(
    ("text", "event"),
    [
        ("arrived 48,488. dropped the flatdeck. 29.6 gal", "arrive"),
        ("arrived 48,488, dropped the flatdeck, 29.6 gal", "arrive"),
        ("home 48,488. 29.6 gal diesel. unhooked", "arrive"),
        ("left 48,488. filled 29.6 gal", "depart"),
        ("pulled in 48,488. filled up, 29.6 gal at 3.89", "arrive"),
        ("48,488 arrived. 29.6 gal. dropped camper", "arrive"),
    ],
)
def test_what_was_read_on_arriving_is_no_reading_of_the_fill_behind(
    text: str, event: str, reads: Reader
) -> None:
    verdict = reads(text, on_the_road())
    assert isinstance(verdict, Facts), verdict
    read = [each for each in verdict.entries if isinstance(each, Odometer)]
    assert [(each.event, each.odometer) for each in read] == [(event, Quantity(48_488, "mi"))]
    (fill,) = [each for each in verdict.entries if isinstance(each, Fill)]
    assert (fill.volume, fill.odometer) == (Quantity(29.6, "gal"), None)


@pytest.mark.parametrize(
    "text",
    [
        "29.6 gal, home 48,488",
        "odo 48,488. 29.6 gal. arrived",
        "arrived 48,488 and put in 29.6 gal",
        "48,488, 29.6 gal, unhooked the camper",
    ],
)
def test_a_reading_beside_the_volume_stays_with_the_fill(text: str, reads: Reader) -> None:
    verdict = reads(text, on_the_road())
    assert isinstance(verdict, Facts), verdict
    assert [each.odometer for each in verdict.entries if isinstance(each, Fill)] == [
        Quantity(48_488, "mi")
    ]


def test_gallons_beyond_any_pump_are_asked_about_and_not_lost(reads: Reader) -> None:
    for text in ("dsl 412g od 48,211", "diesel 298g odo 48,211"):
        verdict = reads(text, on_the_road())
        assert isinstance(verdict, Ask), verdict
        assert (verdict.about, verdict.why) == ("volume", "over_tank")
    assert isinstance(reads("a 412g bag of rice", on_the_road()), Silent)


@pytest.mark.parametrize(
    ("text", "told"),
    [
        (
            "you would not believe the queue, some fella counting coins, but eventually I got my "
            "24.6 gallons in, $96.92 total, and a stale bun",
            {"volume": Quantity(24.6, "gal"), "cost": Quantity(96.92, "USD")},
        ),
        (
            "sun's coming up over the hills and I'm standing here pumping 29.3 gallons at 3.859",
            {"volume": Quantity(29.3, "gal"), "unit_price": Quantity(3.859, "USD/gal")},
        ),
        (
            "ended up putting 12 gallons in just to get us home, 48,420, what a robbery",
            {"volume": Quantity(12, "gal"), "odometer": Quantity(48_420, "mi")},
        ),
        (
            "hey can you put down that I bought 27.4 gallons, $104.67, at 48,460",
            {"volume": Quantity(27.4, "gal"), "odometer": Quantity(48_460, "mi")},
        ),
        (
            "got the good stuff, 28 gallons premium diesel, 3.999 a gallon, odo 48,444",
            {"product": "diesel", "unit_price": Quantity(3.999, "USD/gal")},
        ),
        (
            "my card was declined twice, then it worked, 29.9 gal, 115.12",
            {"volume": Quantity(29.9, "gal"), "cost": Quantity(115.12, "USD")},
        ),
        (
            "my turn to pay apparently, $118.32 for 30.1 gallons",
            {"volume": Quantity(30.1, "gal"), "cost": Quantity(118.32, "USD")},
        ),
        (
            "so much for good mileage, 34.2 gallons since Tuesday, trip meter says 340",
            {"volume": Quantity(34.2, "gal"), "distance": Quantity(340, "mi"), "at": None},
        ),
        (
            "the first pump was broken but third time lucky, 28.8 gallons of diesel, 107 bucks",
            {"volume": Quantity(28.8, "gal"), "cost": Quantity(107, "USD")},
        ),
        (
            "would've been cheaper in town but I needed it, 10.5 gallons at 4.599",
            {"volume": Quantity(10.5, "gal"), "place": None},
        ),
        (
            "Dale waved us in at the pumps and we took on 30.2 gallons for $111.14",
            {"volume": Quantity(30.2, "gal"), "place": None},
        ),
        (
            "we did not quite fill it because the pump was so slow, 19 gallons",
            {"volume": Quantity(19, "gal"), "full": False},
        ),
    ],
)
def test_a_fill_amid_many_words(text: str, told: dict[str, object], reads: Reader) -> None:
    verdict = reads(text, on_the_road())
    assert isinstance(verdict, Facts), verdict
    (fill,) = verdict.entries
    assert isinstance(fill, Fill)
    assert {name: getattr(fill, name) for name in told} == told


@pytest.mark.parametrize(
    "text",
    [
        "you would not believe the line at the store, got 4 gallons of milk, $16.92 total",
        "we finally got the pool filled, 12,000 gallons, cost us $90",
        "ended up with 12 gallons of cider, selling for 8 a gallon",
        "that fish tank is 29 gallons, paid $60 for it",
        "we go through 5 gallons of milk a week at 3.89",
        "she said the jug holds 2.5 gallons for 6.99",
        "paint was 31.20 a gallon so I bought 3 gallons",
        "the guy ahead of us pumped 80 gallons, took forever",
        "my dream is a 30 gallon aquarium",
        "the well gives 28 gallons a minute",
        "the sprayer puts out 15 gallons per hour",
        "we pressed 24 gallons of juice, sold it for 96 dollars",
    ],
)
def test_gallons_of_other_things_are_talk(text: str, reads: Reader) -> None:
    assert isinstance(reads(text, on_the_road()), Silent)


def test_a_round_volume_is_pumped_where_one_came(reads: Reader) -> None:
    verdict = reads("arrived 48,488. dropped the flatdeck. 30 gal", on_the_road())
    assert isinstance(verdict, Facts), verdict
    assert [each.volume for each in verdict.entries if isinstance(each, Fill)] == [
        Quantity(30, "gal")
    ]
    milk = reads("arrived 48,488. 30 gal of milk", on_the_road())
    assert isinstance(milk, Facts), milk
    assert [type(each) for each in milk.entries] == [Odometer]


def test_of_two_readings_the_one_beside_the_volume_is_the_fills(reads: Reader) -> None:
    verdict = reads("left 48,100, fuel 48,302 30.1 gal, camp 48,433", on_the_road())
    assert isinstance(verdict, Facts), verdict
    assert [each.odometer for each in verdict.entries if isinstance(each, Fill)] == [
        Quantity(48_302, "mi")
    ]


@pytest.mark.parametrize(
    "text",
    [
        "good news is the coffee was hot, bad news is diesel's $3.949 there, took 21 gal, $82.93",
        "diesel's $3.949 out here! took 21 gal, $82.93",
    ],
)
def test_a_price_told_before_the_volume(text: str, reads: Reader) -> None:
    verdict = reads(text, on_the_road())
    assert isinstance(verdict, Facts), verdict
    (entry,) = verdict.entries
    assert isinstance(entry, Fill)
    assert (entry.unit_price, entry.volume) == (Quantity(3.949, "USD/gal"), Quantity(21, "gal"))
    assert entry.cost == Quantity(82.93, "USD")


@pytest.mark.parametrize(
    ("text", "price"),
    [
        ("21 gal at 3 bucks 84", 3.84),
        ("21 gal at a buck ninety seven", 1.97),
        ("diesel, 21 gal, a buck ninety seven nine a gallon", 1.979),
        ("diesel three eighty four nine, 21 gal", 3.849),
    ],
)
def test_a_price_is_spoken_in_coins(text: str, price: float, reads: Reader) -> None:
    verdict = reads(text, on_the_road())
    assert isinstance(verdict, Facts), verdict
    (entry,) = verdict.entries
    assert isinstance(entry, Fill)
    assert (entry.volume, entry.unit_price) == (Quantity(21, "gal"), Quantity(price, "USD/gal"))
    assert entry.cost is None


def test_so_is_a_total(reads: Reader) -> None:
    verdict = reads("21 gal for 81 bucks 48", on_the_road())
    fill = Fill(volume=Quantity(21, "gal"), cost=Quantity(81.48, "USD"))
    assert verdict == Facts((fill,))


@pytest.mark.parametrize(
    "text",
    ["put $45 in, didn't fill it", "put $45 in the truck, not full", "put 45 bucks in, not full"],
)
def test_what_went_in_for_so_much_was_no_full_tank(text: str, reads: Reader) -> None:
    assert reads(text, on_the_road()) == Facts((Fill(cost=Quantity(45, "USD"), full=False),))


@pytest.mark.parametrize(
    "text",
    [
        "put $45 in",
        "put $45 in the jar, didn't fill it",
        "put $45 in the card, didn't fill it out",
        "paid a buck and a half for coffee",
    ],
)
def test_money_goes_into_other_things(text: str, reads: Reader) -> None:
    assert reads(text, on_the_road()) == Silent()


@pytest.mark.parametrize(
    ("text", "cost"),
    [
        ("28.4 gal cost 104.20", 104.2),
        ("took 28.4 gal costing 104.20", 104.2),
        ("28.4 gal totalling 104.20", 104.2),
        ("28.4 gal bill was 104.20", 104.2),
        ("28.4 gal ouch 104.20", 104.2),
        ("28.4 gal wow", None),
    ],
)
def test_what_a_volume_came_to_is_nothing_that_it_is_of(
    text: str, cost: float | None, reads: Reader
) -> None:
    paid = None if cost is None else Quantity(cost, "USD")
    assert reads(text, on_the_road()) == Facts((Fill(volume=gal(28.4), cost=paid),))


@pytest.mark.parametrize(
    "text",
    [
        "2 gal milk at 4.20",
        "2 gal bleach at 6.50",
        "2 gal milk, the tab was 14.20",
        "harvested 20.5 gal honey",
        "3 gal lemonade was gone",
        "dinner bill was 104.20",
    ],
)
def test_what_else_is_sold_by_the_gallon_is_no_fuel(text: str, reads: Reader) -> None:
    assert reads(text, on_the_road()) == Silent()


@pytest.mark.parametrize(
    ("text", "volume", "cost"),
    [
        ("filled both tanks 31.2 and 18.4", 49.6, None),
        ("filled both tanks 31.2 gal and 18.4 gal, total 188.43", 49.6, 188.43),
        ("filled both tanks, 31.2 and 118.40", 31.2, 118.4),
    ],
)
def test_both_tanks_are_one_fill_of_what_went_into_each(
    text: str, volume: float, cost: float | None, reads: Reader
) -> None:
    paid = None if cost is None else Quantity(cost, "USD")
    assert reads(text, on_the_road()) == Facts((Fill(volume=gal(volume), cost=paid, full=True),))


@pytest.mark.parametrize(
    ("text", "filled"),
    [
        (
            "put 31.2 gal in at 3.759 a galon",
            Fill(volume=gal(31.2), unit_price=Quantity(3.759, "USD/gal")),
        ),
        (
            "truck reckons 10.8 mpg on the dash, pump gave me 26.3 gallons",
            Fill(volume=gal(26.3), dash_economy=Quantity(10.8, "mi/gal")),
        ),
    ],
)
def test_a_slip_of_a_unit_and_a_truck_that_reckons_are_understood(
    text: str, filled: Fill, reads: Reader
) -> None:
    assert reads(text, on_the_road()) == Facts((filled,))


def test_whole_gallons_of_both_tanks_are_one_fill_too(reads: Reader) -> None:
    filled = Fill(volume=gal(33))
    assert reads("both tanks took 19 and 14 gal", on_the_road()) == Facts((filled,))


def test_a_person_who_reckons_guesses(reads: Reader) -> None:
    assert reads("I reckon it took 26.3 gallons", on_the_road()) == Silent()


@pytest.mark.parametrize(
    "text",
    [
        "diesel was three forty nine and nine tenths a gallon got seventeen point oh six gallons",
        "3.49 and nine tenths a gallon, 17.06 gallons",
    ],
)
def test_nine_tenths_of_a_cent_are_told_in_words(text: str, reads: Reader) -> None:
    verdict = reads(text, on_the_road())
    assert isinstance(verdict, Facts)
    (fill,) = verdict.entries
    assert isinstance(fill, Fill)
    assert (fill.unit_price, fill.volume) == (Quantity(3.499, "USD/gal"), Quantity(17.06, "gal"))


@pytest.mark.parametrize(
    ("text", "full"),
    [
        ("vol=33.4 ppg=3.799 tot=126.92 odo=48402 full=y", True),
        ("odo=48402 vol=33.4 ppg=3.799 tot=126.92 full=n", False),
        ("full=n odo=48402 gal=33.4 ppg=3.799 tot=126.92", False),
    ],
)
def test_a_unit_before_its_mark_heads_the_next_figure(text: str, full: bool, reads: Reader) -> None:
    (entry,) = verdict_to_record(reads(text, on_the_road()))["entries"]
    assert entry == {
        "kind": "fill",
        "volume": {"value": 33.4, "unit": "gal"},
        "unit_price": {"value": 3.799, "unit": "USD/gal"},
        "cost": {"value": 126.92, "unit": "USD"},
        "odometer": {"value": 48_402, "unit": "mi"},
        "full": full,
    }


def test_what_figures_come_to_behind_a_mark_is_no_field(reads: Reader) -> None:
    (entry,) = verdict_to_record(reads("33.4 gal = 126.89", on_the_road()))["entries"]
    assert (entry["volume"]["value"], entry["cost"]["value"]) == (33.4, 126.89)
