"""Fuel that went into several tanks, and plates that list many ratings."""

from __future__ import annotations

import pytest

from domain.entries import Fill, Rating, Weighing
from domain.quantities import Quantity
from domain.records import verdict_to_record
from domain.verdicts import Facts, Silent
from tests.domain.reading.chats import Reader, on_the_road


def fill(gallons: float, **said: object) -> Fill:
    """A fill of so many gallons, with what else was said of it."""
    return Fill(volume=Quantity(gallons, "gal"), **said)  # type: ignore[arg-type]


AT = Quantity(48_411, "mi")


@pytest.mark.parametrize(
    ("text", "entry"),
    [
        ("swapped to the aux tank, 24.6 gal in", fill(24.6)),
        ("switched tanks, 24.6 gal front", fill(24.6)),
        ("switched to the rear tank, 24.6 gal", fill(24.6)),
        ("fuel tank took 24.6 gal", fill(24.6)),
        ("filled both tanks, 19 gal front 48,411", fill(19, odometer=AT, full=True)),
        (
            "both tanks, 19.2 gal front, 14.6 gal rear, 48,411, $131.40",
            fill(33.8, odometer=AT, cost=Quantity(131.40, "USD")),
        ),
        (
            "filled both tanks, front 19 gal at 3.89, rear 12 gal at 3.79, 48,411",
            fill(31, odometer=AT, cost=Quantity(119.39, "USD"), full=True),
        ),
        (
            "front tank 19 gal at 3.899, rear tank 12.5 gal at 3.799",
            fill(31.5, cost=Quantity(121.57, "USD")),
        ),
        (
            "main 19 gal 3.899, aux 12.5 gal 3.799, 48,411",
            fill(31.5, odometer=AT, cost=Quantity(121.57, "USD")),
        ),
        (
            "front tank 19.2 gal, rear tank 14.6 gal, 3.899 a gallon, 48,411",
            fill(33.8, odometer=AT, unit_price=Quantity(3.899, "USD/gal")),
        ),
        ("put 22.4 in the main and 12.1 in the aux, 48,411", fill(34.5, odometer=AT)),
        ("main 18.1 aux 14.4 gal 48,411 full", fill(32.5, odometer=AT, full=True)),
        ("put 18.2 gal in the rear tank, 48,411", fill(18.2, odometer=AT)),
        (
            "48,411 rear tank 18.2 gal 3.799",
            fill(18.2, odometer=AT, unit_price=Quantity(3.799, "USD/gal")),
        ),
        (
            "odo 48411 gal 31.4 ppg 3.899 tot 122.43 full",
            fill(
                31.4,
                odometer=AT,
                unit_price=Quantity(3.899, "USD/gal"),
                cost=Quantity(122.43, "USD"),
                full=True,
            ),
        ),
    ],
)
def test_what_went_into_the_tanks(text: str, entry: Fill, reads: Reader) -> None:
    verdict = reads(text, on_the_road(currency="USD"))
    assert isinstance(verdict, Facts), verdict
    assert verdict.entries == (entry,)


@pytest.mark.parametrize(
    ("text", "said"),
    [
        ("rear tank 14.1 gal $53.57, front tank 19.2 gal $72.94, 48,411", {"odometer": AT}),
        (
            "48,411: aux tank 14.1 gal for $53.57, then the main tank 19.2 gal for $72.94",
            {"odometer": AT},
        ),
        ("put 14.1 gal in the transfer tank for $53.57 and 19.2 in the main tank for $72.94", {}),
        ("Saddle tank: 14.1 gal, $53.57. Main tank: 19.2 gal, $72.94.", {}),
        (
            "filled both tanks: left tank 14.1 gal ($53.57), right tank 19.2 gal ($72.94)",
            {"full": True},
        ),
        (
            "diesel in the aux tank, 14.1 gal, $53.57, and in the main 19.2 gal, $72.94",
            {"product": "diesel"},
        ),
        (
            "second 14.1 gal $53.57 / main 19.2 gal $72.94 / 48,411 / both full",
            {"odometer": AT, "full": True},
        ),
    ],
)
def test_tanks_that_were_paid_for_apart(text: str, said: dict[str, object], reads: Reader) -> None:
    verdict = reads(text, on_the_road(currency="USD"))
    assert isinstance(verdict, Facts), verdict
    first = fill(14.1, cost=Quantity(53.57, "USD"), **said)
    assert verdict.entries == (first, fill(19.2, cost=Quantity(72.94, "USD"), **said))


def test_a_tank_of_several_may_be_larger_than_the_known_one(reads: Reader) -> None:
    verdict = reads("main tank 22.4 gal $87.14, transfer tank 52 gal $202.28", on_the_road())
    assert isinstance(verdict, Facts), verdict
    assert [each.volume for each in verdict.entries if isinstance(each, Fill)] == [
        Quantity(22.4, "gal"),
        Quantity(52, "gal"),
    ]


def stamped(*ratings: tuple[str, str, float]) -> tuple[tuple[str, str, float], ...]:
    """Ratings as what they are of, which they are, and pounds or gallons."""
    return ratings


@pytest.mark.parametrize(
    ("text", "ratings"),
    [
        (
            "camper plate: GVWR 9,880, UVW 7,260, CCC 2,620, GAWR 5,080 each",
            stamped(
                ("trailer", "gvwr", 9_880),
                ("trailer", "curb", 7_260),
                ("trailer", "payload", 2_620),
                ("trailer", "gawr", 5_080),
            ),
        ),
        (
            "the flatdeck sticker says gvwr 14,000, payload 10,900",
            stamped(("trailer", "gvwr", 14_000), ("trailer", "payload", 10_900)),
        ),
        (
            "camper gvwr 9,880; truck payload 3,480",
            stamped(("trailer", "gvwr", 9_880), ("truck", "payload", 3_480)),
        ),
        ("door sticker payload 3,480", stamped(("truck", "payload", 3_480))),
        (
            "GVWR 9,990 lb, GAWR each axle 5,200",
            stamped(("trailer", "gvwr", 9_990), ("trailer", "gawr", 5_200)),
        ),
        (
            "truck GVWR 11,500, front GAWR 5,600, rear GAWR 7,000",
            stamped(
                ("truck", "gvwr", 11_500),
                ("truck", "gawr_front", 5_600),
                ("truck", "gawr_rear", 7_000),
            ),
        ),
        (
            "MAX TRAILER WT 16,000 LB MAX TONGUE WT 1,600 LB on the receiver",
            stamped(("hitch", "tow", 16_000), ("hitch", "tongue", 1_600)),
        ),
        (
            "gvwr 11,500, payload 3,480, tank 36",
            stamped(("truck", "gvwr", 11_500), ("truck", "payload", 3_480), ("truck", "tank", 36)),
        ),
        (
            "coupler plate 14,000 trailer 1,400 tongue",
            stamped(("coupler", "tow", 14_000), ("coupler", "tongue", 1_400)),
        ),
        ("front tank holds 19 gal, rear tank holds 16", stamped(("truck", "tank", 35))),
        ("tanks are 26 gal front and 10 gal rear", stamped(("truck", "tank", 36))),
    ],
)
def test_what_a_plate_says(
    text: str, ratings: tuple[tuple[str, str, float], ...], reads: Reader
) -> None:
    verdict = reads(text, on_the_road())
    assert isinstance(verdict, Facts), verdict
    assert [
        (each.subject, each.rating, each.value.value)
        for each in verdict.entries
        if isinstance(each, Rating) and isinstance(each.value, Quantity)
    ] == list(ratings)


@pytest.mark.parametrize(
    "text",
    [
        "both tanks of fish, 19 gal front 12 gal rear",
        "the front tank at the aquarium is 500 gal",
        "propane tanks, front one has 4 gal left",
        "we have a 20 gal fish tank, rear window view",
        "tank 36 rolled past us in the parade",
        "the rear tank is leaking, 3 gal a day",
        "we need both tanks filled, maybe 30 gal",
        "tank top 36 bucks",
        "60 gal transfer tank for $900 on the classifieds, 40 gal tank for $600",
        "main tank is cracked, second one is fine",
        "transfer the 40.00 to my main account, second one 22.00",
    ],
)
def test_other_tanks_are_talk(text: str, reads: Reader) -> None:
    assert isinstance(reads(text, on_the_road()), Silent)


@pytest.mark.parametrize("train", ["gtw 7000", "train weight 7000"])
def test_a_plate_says_vehicle_and_train_in_round_steps(train: str, reads: Reader) -> None:
    chat = on_the_road(units="metric")
    assert reads(f"gvw 3500 {train}", chat) == Facts(
        (
            Rating(subject="truck", rating="gvwr", value=Quantity(3_500, "kg")),
            Rating(subject="truck", rating="gcwr", value=Quantity(7_000, "kg")),
        )
    )


@pytest.mark.parametrize("text", ["weighbridge gvw 3100 gtw 5700", "gvw 3110 gtw 5730"])
def test_what_a_scale_shows_of_vehicle_and_train_is_weighed(text: str, reads: Reader) -> None:
    verdict = reads(text, on_the_road(units="metric"))
    assert isinstance(verdict, Facts)
    assert {type(each) for each in verdict.entries} == {Weighing}


@pytest.mark.parametrize(
    ("text", "subject"),
    [
        ("MTPLM 1,650 kg, max noseweight 95 kg", "trailer"),
        ("max noseweight 95 kg, MTPLM 1,650 kg", "trailer"),
        ("MTPLM 1,650 kg. noseweight limit 95 kg", "trailer"),
        ("caravan plate MTPLM 1,650 kg, MIRO 1,380 kg, max nose weight 95 kg", "trailer"),
        ("ATM 2,750 kg GTM 2,600 kg max ball weight 95 kg", "trailer"),
        ("camper gvwr 9,650, max tongue weight 95 kg", "trailer"),
        ("MTPLM 1,650 kg, towbar max noseweight 95 kg", "hitch"),
        ("MTPLM 1,650 kg, car noseweight limit 95 kg", "truck"),
        ("caravan MTPLM 1,650 kg, ute max noseweight 95 kg", "truck"),
        ("GVM 3,350 kg GCM 6,000 kg max noseweight 95 kg", "truck"),
        ("max trailer 4,500 kg, max tongue 95 kg", "truck"),
    ],
)
def test_whose_plate_a_tongues_limit_is_on(text: str, subject: str, reads: Reader) -> None:
    read = reads(text, on_the_road(units="metric"))
    assert isinstance(read, Facts), read
    (tongue,) = [each for each in read.entries if getattr(each, "rating", None) == "tongue"]
    assert isinstance(tongue, Rating)
    assert (tongue.subject, tongue.value) == (subject, Quantity(95, "kg"))


@pytest.mark.parametrize(
    "text", ["two tanks, 18 gallon each", "truck has 2 tanks, 18 gallons each"]
)
def test_tanks_of_one_size_hold_it_together(text: str, reads: Reader) -> None:
    verdict = reads(text, on_the_road())
    assert isinstance(verdict, Facts)
    (entry,) = verdict.entries
    assert isinstance(entry, Rating)
    assert entry.value == Quantity(36, "gal")


@pytest.mark.parametrize(
    ("text", "told"),
    [
        ("camper CCC 2,246", ("trailer", "payload", 2_246)),
        ("yellow sticker on the camper says cargo 1,846", ("trailer", "payload", 1_846)),
        ("door sticker cargo 1,846", ("truck", "payload", 1_846)),
        ("gross train weight 5,950 on the plate", ("truck", "gcwr", 5_950)),
        ("GVW 3,500 on the plate", ("truck", "gvwr", 3_500)),
    ],
)
def test_what_a_label_lets_it_carry_and_a_whole_off_a_plate(
    reads: Reader, text: str, told: tuple[str, str, float]
) -> None:
    read = reads(text, on_the_road())
    assert isinstance(read, Facts)
    (rating,) = read.entries
    assert isinstance(rating, Rating)
    assert isinstance(rating.value, Quantity)
    assert (rating.subject, rating.rating, rating.value.value) == told


@pytest.mark.parametrize(
    "text",
    [
        "GVM 3,350 GCM 6,850 braked towing 3,500 ball 350",
        "GVM 3,350, GCM 6,850, braked tow 3,500, towball download 350",
    ],
)
def test_a_ball_beside_what_the_truck_tows_is_on_the_trucks_plate(reads: Reader, text: str) -> None:
    read = reads(text, on_the_road(units="metric"))
    assert isinstance(read, Facts)
    ratings = [each for each in read.entries if isinstance(each, Rating)]
    assert {each.subject for each in ratings} == {"truck"}
    assert [each.rating for each in ratings] == ["gvwr", "gcwr", "tow", "tongue"]


def test_a_whole_in_a_scales_steps_is_no_plates(reads: Reader) -> None:
    read = reads("gross 5,948 on the plate", on_the_road(units="metric"))
    assert isinstance(read, Facts)
    assert not isinstance(read.entries[0], Rating)


def test_wheels_so_heavy_are_no_pressures(reads: Reader) -> None:
    chat = on_the_road(units="metric")
    read = reads("nearside 680 offside 705 on the van", chat)
    assert isinstance(read, Facts)
    assert [type(each) for each in read.entries] == [Weighing]
    assert isinstance(reads("nearside 380 offside 385 on the van", chat), Facts)


@pytest.mark.parametrize(
    ("text", "told"),
    [
        ("cargo capacity 2,620 on the camper", [("trailer", "payload", 2_620)]),
        ("payload 3,412 with the camper on", [("truck", "payload", 3_412)]),
        ("registered for 26,000 combined", [("truck", "gcwr", 26_000)]),
        ("GVM upgraded from 3,100 to 3,500", [("truck", "gvwr", 3_500)]),
        (
            "kerb 1,880 gross 2,450 train 4,250",
            [("truck", "curb", 1_880), ("truck", "gvwr", 2_450), ("truck", "gcwr", 4_250)],
        ),
        (
            "kerb weight 1480 gvw 2020 train weight 3070",
            [("truck", "curb", 1_480), ("truck", "gvwr", 2_020), ("truck", "gcwr", 3_070)],
        ),
        (
            "gvw 2120 train weight 3170 front axle 1000 rear axle 1270",
            [
                ("truck", "gvwr", 2_120),
                ("truck", "gcwr", 3_170),
                ("truck", "gawr_front", 1_000),
                ("truck", "gawr_rear", 1_270),
            ],
        ),
        (
            "ATM 3,200 tare 2,510 ball at tare 190",
            [("trailer", "gvwr", 3_200), ("trailer", "curb", 2_510)],
        ),
        (
            "flatdeck gvwr 14,000 axles 7,000 each",
            [("trailer", "gvwr", 14_000), ("trailer", "gawr", 7_000)],
        ),
    ],
)
def test_more_that_plates_tell(
    reads: Reader, text: str, told: list[tuple[str, str, float]]
) -> None:
    read = reads(text, on_the_road(units="metric"))
    assert isinstance(read, Facts)
    assert [
        (each.subject, each.rating, each.value.value)
        for each in read.entries
        if isinstance(each, Rating) and isinstance(each.value, Quantity)
    ] == told
    assert len(read.entries) == len(told)


@pytest.mark.parametrize(
    ("text", "load"),
    [
        ("trailer axles 9,200 and the gvwr is 9,900", {"trailer": 9_200}),
        ("GVWR on the truck 11,500, gross 21,480", {"gross": 21_480}),
        ("kerb 1,880, gross 2,448 on the weighbridge", {"gross": 2_448}),
    ],
)
def test_what_was_weighed_beside_a_plates_limit(
    reads: Reader, text: str, load: dict[str, float]
) -> None:
    read = reads(text, on_the_road())
    assert isinstance(read, Facts)
    (weighing,) = (each for each in read.entries if isinstance(each, Weighing))
    assert {at: each.value for at, each in weighing.loads.items()} == load


@pytest.mark.parametrize(
    "text",
    [
        "train weight 3,070, front axle 1,000 rear axle 1,150",
        "solo gvw 2,120, train weight 3,170, front 1,000 rear 1,270",
        "weighed: gvw 2,120 front 1,000 rear 1,120",
    ],
)
def test_a_train_on_a_scale_is_no_plates(reads: Reader, text: str) -> None:
    read = reads(text, on_the_road(units="metric"))
    assert isinstance(read, Facts)
    assert not any(isinstance(each, Rating) for each in read.entries)


@pytest.mark.parametrize(
    "text",
    [
        "swapped the tank, it now holds 60 gal",
        "swapped in a 60 gal tank",
        "we swapped in a 60 gallon tank",
        "swapped tanks, new one holds 60 gal",
        "new bigger tank, holds 60 gallons",
        "got a new bigger tank, holds 60 gallons",
    ],
)
def test_a_new_tank_holds_so_much(text: str, reads: Reader) -> None:
    assert verdict_to_record(reads(text, on_the_road()))["entries"] == [
        {
            "kind": "rating",
            "subject": "truck",
            "rating": "tank",
            "value": {"value": 60, "unit": "gal"},
        }
    ]


@pytest.mark.parametrize(
    "text",
    [
        "swapped the water tank, it holds 40 gal",
        "fish tank, holds 62 gallons",
        "need a bigger tank that holds 60 gal",
    ],
)
def test_what_another_tank_holds_is_not_kept(text: str, reads: Reader) -> None:
    assert isinstance(reads(text, on_the_road()), Silent)


@pytest.mark.parametrize(
    ("text", "told"),
    [
        ("tank 34 gal diesel, DEF tank 7 gal", [("tank", 34, "diesel"), ("def_tank", 7, None)]),
        ("fuel tank 34 gal, def tank 7 gal", [("tank", 34, None), ("def_tank", 7, None)]),
        ("tank 34 gal, def 7 gal", [("tank", 34, None), ("def_tank", 7, None)]),
        ("truck holds 36 gal of diesel and 6 gal of def",
         [("tank", 36, "diesel"), ("def_tank", 6, None)]),
        ("36 gallon diesel tank", [("tank", 36, "diesel")]),
        ("fuel tank 34 gal def tank 6 gal", [("tank", 34, None), ("def_tank", 6, None)]),
        ("34 gal fuel tank, 6 gal def tank", [("tank", 34, None), ("def_tank", 6, None)]),
        ("34 gal fuel tank 6 gal def tank", [("tank", 34, None), ("def_tank", 6, None)]),
        ("6 gal def tank 34 gal fuel tank", [("def_tank", 6, None), ("tank", 34, None)]),
        ("36 gallon diesel tank 5 gallon def tank",
         [("tank", 36, "diesel"), ("def_tank", 5, None)]),
        ("def tank 5 gal fuel tank 36", [("def_tank", 5, None), ("tank", 36, None)]),
        ("def tank 5 gal and the fuel tank is 36 gal", [("def_tank", 5, None), ("tank", 36, None)]),
    ],
)  # fmt: skip
def test_a_tank_of_fluid_is_not_the_fuels(
    text: str, told: list[tuple[str, float, str | None]], reads: Reader
) -> None:
    verdict = reads(text, on_the_road())
    assert isinstance(verdict, Facts)
    assert verdict.entries == tuple(
        Rating(subject="truck", rating=name, value=Quantity(size, "gal"), note=note)
        for name, size, note in told
    )


@pytest.mark.parametrize(
    ("text", "told"),
    [
        ("def tank 2.4 gal", [("def", 2.4)]),
        ("fuel tank 24.6 gal def tank 2.4 gal", [(None, 24.6), ("def", 2.4)]),
        ("fuel tank took 30 gal def tank took 3 gal", [(None, 30), ("def", 3)]),
        ("def tank took 3 gal fuel tank took 30 gal", [("def", 3), (None, 30)]),
        ("24.6 gal def 2.4 gal", [(None, 24.6), ("def", 2.4)]),
    ],
)
def test_what_both_tanks_took_is_no_size(
    text: str, told: list[tuple[str | None, float]], reads: Reader
) -> None:
    verdict = reads(text, on_the_road())
    assert verdict == Facts(
        tuple(Fill(product=product, volume=Quantity(size, "gal")) for product, size in told)
    )


def test_fluid_that_was_filled_is_no_tanks_size(reads: Reader) -> None:
    verdict = reads("filled the def tank 4.8 gal, gvwr 11,500", on_the_road())
    assert isinstance(verdict, Facts)
    assert isinstance(verdict.entries[0], Fill)
