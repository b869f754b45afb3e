"""Figures in people's talk that are of something else, and the statements that look like them.

Years, versions, sizes, prices, counts and codes are in every chat. Each kind is held here in
words of our own, in a chat on its first day and on the road, beside statements that are as short
and that the log must not lose.
"""

from __future__ import annotations

import pytest

from domain.entries import Fill, Odometer, Weighing
from domain.quantities import Quantity
from domain.verdicts import Ask, Facts, Silent
from tests.domain.reading.chats import Reader, chat, on_the_road

TALK = [
    # Years.
    "in 2016 the band put out a solo record",
    "they got back together in 2009",
    "their solo album, dropping 2018",
    "new season drops 2027, can't wait",
    "Q drop 2236",
    "class of 2004 drop in on Friday",
    "the 2017 mirage is a nice car",
    "2017 was filled with long drives and flying solo",
    # What is counted.
    "there are paintings in there going back 50,000 years",
    "if this gets 100,000 likes I'm shaving my head",
    "we just hit 30k on the channel",
    "I just checked, 50,000",
    "it dropped to like 600,000 after that",
    "attendance was 48,900 people",
    # Letters and numbers: generations, models, versions, sizes, plates, links, files.
    "she has a 3G phone still",
    "got the G6 for the photos, regular price",
    "the D7000 with a 50mm 1.2, full manual",
    "anyone on 14.04 LTS",
    "kernel 2.6.35 compiles fine here",
    "it does 1280x800 or 1920x1080",
    "jo_99999: not home",
    "have a look at https://example.org/4f8009/df7efacd2f30168d/full",
    "16772.backup (attached)",
    "15g of pepper for $3.00",
    # What else is full, taken, put or dear.
    "I have a 4.0 so I get a full tuition",
    "a full day, 9.5 hours of it",
    "full of people, 30 at least",
    "the whole box set of films was only 50.00, bought it for the kids",
    "regular coffee is 3.80 now",
    "that thing has like a 15 gallon capacity",
    "only half done and the high is 9.6 this time",
    "sold the shirt for $60 last week, the other one for 15",
    "meet me for a ride at 5, 20 bucks",
    "took our time and finished in about 1.5",
    "altogether it's 128 pounds, the bench and the plates",
    "one vehicle pass, up to 6 adults",
    "lol my back weighs 5 tonne today",
    # Long ago, and somebody else's.
    "remember last year when Pa filled it with gas instead of diesel, 20 gallons of it",
    "back when we had the old one, filled up 40 gal every week",
    "The neighbor's ticket, just for a laugh:\nSTEER 11,940\nDRIVE 33,600\nGROSS 79,640",
    # What phones send.
    "txt WIN to 80086 for a £1000 cash prize",
    "free entry, call 09061701461, 150p/msg",
    "your code is 481920, do not share it",
    "48211 is the zip",
    "I put in 3 new windows for 1,240",
    "put in 3 new windows",
]


@pytest.mark.parametrize("text", TALK)
def test_a_figure_of_something_else_gets_silence(text: str, reads: Reader) -> None:
    assert isinstance(reads(text), Silent)
    assert isinstance(reads(text, on_the_road()), Silent)


@pytest.mark.parametrize(
    ("text", "gallons"),
    [
        ("30g 48,290", 30),
        ("29.8g 109.93 48290", 29.8),
        ("full, 31.4", 31.4),
        ("topped off, 28.2, hot day", 28.2),
        ("put 25.7 gal of regular in her", 25.7),
        ("def 2.5", 2.5),
        ("bought 30.2 at the co-op, 112.40", 30.2),
        ("filled her up at cedar bend, 31.2 for 118.40", 31.2),
        ("21.5 gal bt didnt fill it", 21.5),
        (
            "put the quad on, 610 lb, 4 ft behind the trailer axle. then got 16.3 gal, trip 188",
            16.3,
        ),
    ],
)
def test_a_short_fill_is_still_one(text: str, gallons: float, reads: Reader) -> None:
    verdict = reads(text, on_the_road())
    assert isinstance(verdict, Facts), verdict
    fills = [entry for entry in verdict.entries if isinstance(entry, Fill)]
    assert [fill.volume for fill in fills] == [Quantity(gallons, "gal")]


@pytest.mark.parametrize(
    ("text", "miles"),
    [
        ("48,211", 48_211),
        ("left home 49,000", 49_000),
        ("leaving saltlick odometer forty eight seven ninety", 48_790),
        ("just hit 50,000 miles", 50_000),
        ("was 48,010 when I last wrote, its 48,164 now", 48_164),
        ("48,010 last time and now 48,164", 48_164),
        ("got there at 5, 48,164", 48_164),
    ],
)
def test_an_odometer_is_still_one(text: str, miles: float, reads: Reader) -> None:
    verdict = reads(text, on_the_road())
    assert isinstance(verdict, Facts), verdict
    (reading,) = verdict.entries
    assert isinstance(reading, Odometer)
    assert reading.odometer == Quantity(miles, "mi")


@pytest.mark.parametrize(
    ("text", "loads"),
    [
        ("bobtail 8,140", {"gross": 8140}),
        ("dropped the camper, truck weighed 8,140", {"gross": 8140}),
        ("gross of 1980 on the scale", {"gross": 1980}),
        ("scaled first, 5,180/6,600/8,220/20,000", (5180, 6600, 8220, 20_000)),
        ("scale cost fifteen dollars steer fifty two sixty drive sixty nine twenty", (5260, 6920)),
    ],
)
def test_a_short_weighing_is_still_one(
    text: str, loads: dict[str, float] | tuple[float, ...], reads: Reader
) -> None:
    verdict = reads(text, on_the_road())
    assert isinstance(verdict, Facts), verdict
    (weighing,) = [entry for entry in verdict.entries if isinstance(entry, Weighing)]
    stated = {place: load.value for place, load in weighing.loads.items()}
    assert (stated if isinstance(loads, dict) else tuple(stated.values())) == loads


def test_what_happened_is_told_before_its_reading(reads: Reader) -> None:
    verdict = reads("so we left early, 48,050 showing, and pulled in late, 48,318", on_the_road())
    assert isinstance(verdict, Facts)
    events = [entry.event for entry in verdict.entries if isinstance(entry, Odometer)]
    assert events == ["depart", "arrive"]


def test_a_figure_poured_in_is_asked_about(reads: Reader) -> None:
    for text in ("put in 30", "threw in 40"):
        verdict = reads(text, on_the_road())
        assert isinstance(verdict, Ask)
        assert (verdict.about, verdict.why) == ("fill", "volume_or_money")
    assert isinstance(reads("put in 30 for the pizza", on_the_road()), Silent)


def test_what_is_said_for_both_fills_stands_in_each(reads: Reader) -> None:
    verdict = reads("diesel 29.3 gal, def 2.5 gal, odo 48,402 for both", on_the_road())
    assert isinstance(verdict, Facts)
    odometers = [entry.odometer for entry in verdict.entries if isinstance(entry, Fill)]
    assert odometers == [Quantity(48_402, "mi")] * 2
    verdict = reads("24.6 gal at 48,120\n27.8 gal at 48,402\nboth full", on_the_road())
    assert isinstance(verdict, Facts)
    assert [entry.full for entry in verdict.entries if isinstance(entry, Fill)] == [True, True]


@pytest.mark.parametrize(
    ("text", "price", "cost"),
    [
        ("38.5L / 148.9p / £57.33", 1.489, 57.33),
        ("took 41.2 litres, 1.799, £74.12", 1.799, 74.12),
        ("48 litres at 2.799, didn't fill it right up", 2.799, None),
    ],
)
def test_figures_that_multiply_settle_each_other(
    text: str, price: float, cost: float | None, reads: Reader
) -> None:
    verdict = reads(text, chat(units="metric", currency="GBP"))
    assert isinstance(verdict, Facts)
    (fill,) = verdict.entries
    assert isinstance(fill, Fill)
    assert fill.unit_price is not None
    assert fill.unit_price.value == price
    assert (fill.cost.value if fill.cost else None) == cost


def test_money_that_was_paid_for_fuel_is_a_fill(reads: Reader) -> None:
    verdict = reads("we paid ninety six dollars and forty cents for diesel at saltlick")
    assert isinstance(verdict, Facts)
    (fill,) = verdict.entries
    assert isinstance(fill, Fill)
    assert (fill.product, fill.cost) == ("diesel", Quantity(96.4, "USD"))
    assert isinstance(reads("just paid $2.59 for gas"), Silent)


@pytest.mark.parametrize(
    "text",
    [
        "the steer weighed 1,240 at the fair",
        "steer weighs 1,200",
        "got quotes 4200, 4900 and 5600. what do you think?",
        "shop quoted us 1,240 for the drive axle",
        "trailer tires carrying 2,330 each",
    ],
)
def test_an_ox_a_quote_and_what_tyres_carry_are_no_loads(reads: Reader, text: str) -> None:
    assert isinstance(reads(text, on_the_road()), Silent)


@pytest.mark.parametrize(
    "text", ["steer weighs 5,200", "with the bars cranked steer went to 5,240"]
)
def test_a_front_axle_is_no_ox(reads: Reader, text: str) -> None:
    assert isinstance(reads(text, on_the_road()), Facts)


@pytest.mark.parametrize(
    "text",
    [
        "weight limit on the ferry is 10,000 lbs per vehicle",
        "paid 5,240 for the drive axle rebuild",
        "we grossed 21,480 at the market this season",
        "carrying capacity of the raft is 900 lbs",
        "saw a trailer with a GVWR of 16,000 for 4,500",
    ],
)
def test_a_ferrys_limit_a_repair_and_a_season_are_no_loads(reads: Reader, text: str) -> None:
    assert isinstance(reads(text, on_the_road()), Silent)


@pytest.mark.parametrize(
    "text",
    [
        "paid 15.25 for the weigh, gross 21,480",
        "we grossed 21,480 this trip",
        "payload of the truck is 3,412",
        "found a trailer tire at 48 psi",
    ],
)
def test_what_is_told_alike_of_the_own_rig_is_kept(reads: Reader, text: str) -> None:
    assert isinstance(reads(text, on_the_road()), Facts)


@pytest.mark.parametrize(
    "text",
    [
        "paid 12,400 for the truck, just the camper was 9,900",
        "the truck cost 12,400 and the camper 9,900",
        "bought the truck for 12,400, camper was 9,900",
        "sold the flatdeck for 3,900, camper was 9,900",
        "got home 48,402 steps all day",
        "home safe 48,402 kids asleep",
    ],
)
def test_what_a_vehicle_cost_and_what_is_counted_is_not_kept(reads: Reader, text: str) -> None:
    assert isinstance(reads(text, on_the_road()), Silent)


@pytest.mark.parametrize(
    ("text", "cost"),
    [
        ("the weigh cost 14, truck 8,940 camper 9,900", 14),
        ("paid 14, truck 8,940 camper 9,900", 14),
        ("bought a new camper, truck 8,940 camper 9,900", None),
    ],
)
def test_who_pays_at_the_scale_weighs(reads: Reader, text: str, cost: float | None) -> None:
    verdict = reads(text, on_the_road())
    assert isinstance(verdict, Facts)
    (weighing,) = verdict.entries
    assert isinstance(weighing, Weighing)
    assert sorted(weighing.loads) == ["trailer", "truck"]
    assert (weighing.cost.value if weighing.cost else None) == cost


@pytest.mark.parametrize(
    "text",
    [
        "diesel's up to 5.10 in california",
        "diesel is 5.10 in california",
        "gas hit 5.10 in california",
    ],
)
def test_what_a_gallon_costs_elsewhere_is_no_litres(reads: Reader, text: str) -> None:
    assert isinstance(reads(text, on_the_road(units="metric", currency="AUD")), Silent)


def test_so_few_litres_beside_the_odometer_are_a_fill(reads: Reader) -> None:
    known = on_the_road(units="metric", currency="AUD", odometer=Quantity(118_200, "km"))
    verdict = reads("put 5.10 in at 118,300", known)
    assert isinstance(verdict, Facts)
    (fill,) = verdict.entries
    assert isinstance(fill, Fill)
    assert (fill.volume, fill.odometer) == (Quantity(5.1, "L"), Quantity(118_300, "km"))
