"""Labels as people text them: pairs of a stamp, a tank's size, and the name of what they are on."""

from __future__ import annotations

import pytest

from domain.context import Context
from domain.entries import Rating, Weighing
from domain.quantities import Quantity
from domain.verdicts import Ask, Facts, Silent
from tests.domain.reading.chats import Reader, chat, on_the_road


def ratings(reads: Reader, text: str) -> list[Rating]:
    """What a message rates, in a chat on its first day."""
    verdict = reads(text, chat())
    assert isinstance(verdict, Facts), verdict
    found = [each for each in verdict.entries if isinstance(each, Rating)]
    assert len(found) == len(verdict.entries)
    return found


@pytest.mark.parametrize(
    ("text", "subject", "pull", "rest", "unit"),
    [
        ("hitch 14000/1400", "hitch", 14_000, 1_400, "lb"),
        ("receiver label says 12,000 / 1,200", "hitch", 12_000, 1_200, "lb"),
        ("hitch: 12k/1.2k", "hitch", 12_000, 1_200, "lb"),
        ("hitch rated 3500 kg / 350 kg", "hitch", 3_500, 350, "kg"),
        ("ball mount 10000/1000", "ball mount", 10_000, 1_000, "lb"),
        ("hitch is rated 14000 lbs / 1400 tongue", "hitch", 14_000, 1_400, "lb"),
    ],
)
def test_the_two_figures_of_a_stamp_are_pull_and_tongue(
    text: str, subject: str, pull: float, rest: float, unit: str, reads: Reader
) -> None:
    found = ratings(reads, text)
    assert [(each.subject, each.rating) for each in found] == [
        (subject, "tow"),
        (subject, "tongue"),
    ]
    assert [each.value for each in found] == [Quantity(pull, unit), Quantity(rest, unit)]


@pytest.mark.parametrize(
    ("text", "subject"),
    [("hitch says 1,500/15,000", "hitch"), ("ball mount 1000 / 10000", "ball mount")],
)
def test_so_they_are_where_the_tongues_is_first(text: str, subject: str, reads: Reader) -> None:
    found = ratings(reads, text)
    assert [(each.subject, each.rating) for each in found] == [
        (subject, "tongue"),
        (subject, "tow"),
    ]


@pytest.mark.parametrize(
    ("text", "values"),
    [
        ("GAWR RR 7,050 KG 3198", [Quantity(7_050, "lb")]),
        ("GVWR LB 11,500 KG 5216", [Quantity(11_500, "lb")]),
        (
            "GAWR FRT 5,600 KG 2540 GAWR RR 7,050 KG 3198",
            [Quantity(5_600, "lb"), Quantity(7_050, "lb")],
        ),
        ("GVWR 4,490 kg GCWR 9,800", [Quantity(4_490, "kg"), Quantity(9_800, "kg")]),
        ("GVWR 5216 KG 11500 LB", [Quantity(5_216, "kg")]),
        (
            "GVWR 4990 kg 11000 lbs front gawr 2540 5600 rear 3175 7000",
            [Quantity(4_990, "kg"), Quantity(2_540, "kg"), Quantity(3_175, "kg")],
        ),
    ],
)
def test_a_unit_before_the_figure_that_says_it_again_is_that_figures(
    text: str, values: list[Quantity], reads: Reader
) -> None:
    assert [each.value for each in ratings(reads, text)] == values


def test_two_figures_alike_are_no_such_pair(reads: Reader) -> None:
    assert "tongue" not in [each.rating for each in ratings(reads, "hitch 14000/12000")]


@pytest.mark.parametrize("text", ["gcwr 27,000 and a 36 gallon diesel tank", "36 gal tank, diesel"])
def test_a_tank_of_a_product_is_a_size_and_no_fill(text: str, reads: Reader) -> None:
    tank = ratings(reads, text)[-1]
    assert (tank.rating, tank.value, tank.note) == ("tank", Quantity(36, "gal"), "diesel")


@pytest.mark.parametrize(
    "text",
    [
        "truck is Juniper, door sticker says gvwr 11500",
        "our truck's called Juniper, gvwr 11500",
        "truck: Juniper. gvwr 11,500",
        "my truck Juniper has gvwr 11500",
    ],
)
def test_a_truck_is_given_its_name(text: str, reads: Reader) -> None:
    assert [each.truck for each in ratings(reads, text)] == ["Juniper"]


@pytest.mark.parametrize("text", ["truck is a diesel, gvwr 11500", "truck is fine, gvwr 11500"])
def test_what_a_truck_is_is_no_name(text: str, reads: Reader) -> None:
    assert [each.truck for each in ratings(reads, text)] == [None]


KINDS = chat(names_by_kind=True)
FLATDECK = chat(names_by_kind=True, trailers=("flatdeck",))
NAMED = chat(names_by_kind=True, trailers=("Bumblebee",))


@pytest.mark.parametrize(
    ("text", "context", "trailer"),
    [
        ("flatdeck: gvwr 14k", KINDS, "flatdeck"),
        ("fifth wheel gvwr 14,000", KINDS, "fifth wheel"),
        ("flatbed gvwr 14,000", FLATDECK, "flatdeck"),
        ("camper gvwr 9,000", FLATDECK, "camper"),
        ("trailer gvwr 9,000", FLATDECK, None),
        ("camper gvwr 9,000", NAMED, None),
        ("camper gvwr 9,000", chat(), None),
    ],
)
def test_a_kind_names_a_trailer_that_has_no_other_name(
    text: str, context: Context, trailer: str | None, reads: Reader
) -> None:
    verdict = reads(text, context)
    assert isinstance(verdict, Facts)
    assert [each.trailer for each in verdict.entries] == [trailer]


def test_somebody_elses_trailer_names_none(reads: Reader) -> None:
    assert isinstance(reads("Bob's gooseneck is rated 25,000 he says", FLATDECK), Silent)


@pytest.mark.parametrize(
    "text",
    [
        "front axle 5600 max, rear 7000 max",
        "front axle 5,600 limit and rear axle 7,000 limit",
        "max front axle 5600 and rear 7000",
    ],
)
def test_an_axle_with_a_limit_behind_it_is_rated(text: str, reads: Reader) -> None:
    told = [(each.rating, each.value) for each in ratings(reads, text)]
    assert told == [("gawr_front", Quantity(5600, "lb")), ("gawr_rear", Quantity(7000, "lb"))]


@pytest.mark.parametrize(
    "text", ["steer 5280 drive 6940 max", "most we saw: steer 5,240, drive 6,100"]
)
def test_an_axle_off_the_scale_is_not(text: str, reads: Reader) -> None:
    verdict = reads(text, chat())
    assert isinstance(verdict, Facts)
    assert [type(each) for each in verdict.entries] == [Weighing]


def test_a_hitch_rated_for_both_uses_says_which_is_which(reads: Reader) -> None:
    for text in (
        "hitch is 12000/1200 weight distributing, 10000/1000 without",
        "hitch sticker WD 12000/1200 WC 10000/1000",
    ):
        told = [(each.rating, each.note) for each in ratings(reads, text)]
        bars, carrying = ("with bars", "carrying")
        assert told == [("tow", bars), ("tongue", bars), ("tow", carrying), ("tongue", carrying)]


@pytest.mark.parametrize(
    "text",
    [
        "gvwr 14000, two axles 7000 each",
        "GVWR 9,950 LB GAWR 5,200 LB EACH AXLE",
        "gvwr 9,900, two 5,200 lb axles",
    ],
)
def test_equal_axles_that_bear_the_whole_are_a_trailers(text: str, reads: Reader) -> None:
    assert {each.subject for each in ratings(reads, text)} == {"trailer"}


def test_a_trucks_two_axles_are_not(reads: Reader) -> None:
    found = ratings(reads, "gvwr 11500 front 5600 rear 7000")
    assert {each.subject for each in found} == {"truck"}


def test_a_name_over_a_label_is_whose_it_is(reads: Reader) -> None:
    truck = ratings(reads, "Bess: GVWR 10,000, front GAWR 5,200, rear GAWR 6,084")
    assert {each.truck for each in truck} == {"Bess"}
    trailer = ratings(reads, "Bumblebee: gvwr 7000, axles 2x3500")
    assert {each.trailer for each in trailer} == {"Bumblebee"}


@pytest.mark.parametrize("text", ["Sticker: GVWR 10,000", "OK: gvwr 10,000", "LABEL: GVWR 10,000"])
def test_what_a_label_is_called_is_no_name(text: str, reads: Reader) -> None:
    assert [(each.truck, each.trailer) for each in ratings(reads, text)] == [(None, None)]


@pytest.mark.parametrize(
    "text",
    [
        "ball 2 inch 8000",
        "ball is 2 inch, 8,000 lb",
        "ball 2 5/16 8000",
        "2 5/16 ball, 8000 stamped on it",
    ],
)
def test_what_stands_behind_a_balls_size_is_its_rating(text: str, reads: Reader) -> None:
    (found,) = ratings(reads, text)
    assert (found.subject, found.rating, found.value) == ("ball", "tow", Quantity(8000, "lb"))


@pytest.mark.parametrize(
    "text",
    [
        "fuel tank on Juniper holds 36 gal",
        "the tank on the truck takes 36 gallons",
        "Juniper's diesel tank holds 36 gal",
    ],
)
def test_what_a_tank_holds_is_its_size(text: str, reads: Reader) -> None:
    verdict = reads(text, on_the_road())
    assert isinstance(verdict, Facts)
    (tank,) = verdict.entries
    assert isinstance(tank, Rating)
    assert (tank.rating, tank.value) == ("tank", Quantity(36, "gal"))
    assert tank.truck in (None, "Juniper")


@pytest.mark.parametrize(
    ("text", "gallons"),
    [
        ("Bess GVWR 13,300, GCWR 30,000, payload 3,900, 48 gal diesel", 48),
        ("aux tank is 50 gallons", 50),
        ("tank is 50 aux plus 32 main", 82),
        ("main tank 32 gal, aux tank 50", 82),
        ("two tanks, 19 gal front and 18 rear", 37),
    ],
)
def test_what_several_tanks_hold_is_added_and_a_list_of_limits_fills_none(
    text: str, gallons: float, reads: Reader
) -> None:
    verdict = reads(text, on_the_road())
    assert isinstance(verdict, Facts)
    (tank,) = [each for each in verdict.entries if getattr(each, "rating", None) == "tank"]
    assert isinstance(tank, Rating)
    assert tank.value == Quantity(gallons, "gal")


@pytest.mark.parametrize(
    ("text", "subject", "rating", "value"),
    [
        ("camper plate: GVWR 7,000, ball max 900", "ball", "tongue", Quantity(900, "lb")),
        ("hitch rated 350 kg", "hitch", "tongue", Quantity(350, "kg")),
        ("coupler stamped 2,000 lb", "coupler", "tow", Quantity(2000, "lb")),
        ("hitch rated 1,200 lb", "hitch", "tongue", Quantity(1200, "lb")),
        ("gooseneck ball is 25k/6,250", "ball", "tongue", Quantity(6250, "lb")),
        ('ball 2 5/16" 25,000/2,500', "ball", "tongue", Quantity(2500, "lb")),
        ("coupler is stamped 2 5/16 14,000", "coupler", "tow", Quantity(14000, "lb")),
        ("coupler says 2 5/16, 14,000", "coupler", "tow", Quantity(14000, "lb")),
        ("gvwr on the new trailer is 9,990", "trailer", "gvwr", Quantity(9990, "lb")),
        ("truck tires 3,195 lb @ 80 psi", "tyres", "tyre_load", Quantity(3195, "lb")),
        ("the camper's tires carry 2,540 lb at 65 psi", "tyres", "tyre_load", Quantity(2540, "lb")),
        ("camper axles 6000 x 2", "trailer", "gawr", Quantity(6000, "lb")),
    ],
)
def test_what_a_figure_can_be_for_its_size_and_what_stands_beside_it(
    text: str, subject: str, rating: str, value: Quantity, reads: Reader
) -> None:
    found = [(each.subject, each.rating, each.value) for each in ratings(reads, text)]
    assert (subject, rating, value) in found


@pytest.mark.parametrize("said", ["6000x2", "6,000 x 2", "6000 each x2", "6,000 lb each (x2)"])
def test_how_many_axles_may_be_told_behind_what_each_bears(said: str, reads: Reader) -> None:
    (_, axles) = ratings(reads, f"camper gvwr 12,000, axles {said}")
    assert (axles.value, axles.note) == (Quantity(6000, "lb"), "2 axles")


@pytest.mark.parametrize(
    "text", ["fish tank in the den holds 36 gallons", "water tank on the camper holds 40 gal"]
)
def test_another_tank_is_none_of_the_log(text: str, reads: Reader) -> None:
    assert isinstance(reads(text, on_the_road()), Silent)


@pytest.mark.parametrize(
    "text",
    [
        "VIN plate:\nGVW 3200 kg\nGTW 6700 kg",
        "plate gvw 3200 kg gtw 6700 kg",
        "door label GVW 3200 kg, gross train 6700 kg",
    ],
)
def test_a_train_on_a_trucks_plate_is_the_combination(text: str, reads: Reader) -> None:
    found = ratings(reads, text)
    assert [(each.subject, each.rating) for each in found] == [("truck", "gvwr"), ("truck", "gcwr")]


def test_the_same_letters_on_a_hitch_are_the_trailers(reads: Reader) -> None:
    found = ratings(reads, "hitch label: GTW 10,000 lb, TW 1,000 lb")
    assert [(each.subject, each.rating) for each in found] == [
        ("hitch", "tow"),
        ("hitch", "tongue"),
    ]


@pytest.mark.parametrize(
    "text", ["truck gvwr 11,500, gvwr 14,000", "door sticker gvwr 11,500, gross 23,000"]
)
def test_a_rating_given_twice_is_asked_about(text: str, reads: Reader) -> None:
    verdict = reads(text)
    assert isinstance(verdict, Ask)
    assert (verdict.about, verdict.why) == ("rating", "two_said")


def test_a_rating_repeated_is_one(reads: Reader) -> None:
    assert len(ratings(reads, "gvwr 11,500, max payload 3,140, payload 3140")) == 2


@pytest.mark.parametrize(
    "text",
    [
        "flatdeck gvwr 14,000, camper gvwr 9,500",
        "gvwr of the flatdeck 14,000 and the camper 9,500",
    ],
)
def test_of_several_trailers_each_has_its_rating(text: str, reads: Reader) -> None:
    verdict = reads(text, on_the_road())
    assert isinstance(verdict, Facts)
    found = [(each.trailer, each.value) for each in verdict.entries if isinstance(each, Rating)]
    assert found == [("flatdeck", Quantity(14_000, "lb")), ("camper", Quantity(9_500, "lb"))]


def rated(reads: Reader, text: str, context: Context) -> list[tuple[str, str, object]]:
    verdict = reads(text, context)
    assert isinstance(verdict, Facts), verdict
    found = [each for each in verdict.entries if isinstance(each, Rating)]
    assert len(found) == len(verdict.entries)
    return [(each.subject, each.rating, each.value) for each in found]


@pytest.mark.parametrize(
    "text",
    [
        "VIN plate: GVW 3,010 kg, train weight 5,510 kg, axle 1 1,450 kg, axle 2 1,750 kg",
        "plate: gvw 3010 kg, gtw 5510 kg, axle 1: 1450 kg, axle 2: 1750 kg",
    ],
)
def test_numbered_axles_beside_a_train_weight_are_the_trucks(text: str, reads: Reader) -> None:
    assert rated(reads, text, on_the_road(units="imperial")) == [
        ("truck", "gvwr", Quantity(3_010, "kg")),
        ("truck", "gcwr", Quantity(5_510, "kg")),
        ("truck", "gawr_front", Quantity(1_450, "kg")),
        ("truck", "gawr_rear", Quantity(1_750, "kg")),
    ]


def test_numbered_axles_of_a_trailers_plate_are_the_trailers(reads: Reader) -> None:
    text = "trailer plate: gvm 3500 kg, axle 1 1,750 kg, axle 2 1,750 kg"
    found = rated(reads, text, on_the_road(units="metric"))
    assert {subject for subject, _, _ in found} == {"trailer"}


@pytest.mark.parametrize(
    ("text", "subject", "value"),
    [
        ("ball is stamped 3.5 t", "ball", Quantity(3.5, "t")),
        ("coupling stamped 2.8 t", "coupler", Quantity(2.8, "t")),
    ],
)
def test_a_stamp_may_be_in_tonnes(text: str, subject: str, value: Quantity, reads: Reader) -> None:
    assert rated(reads, text, on_the_road(units="metric")) == [(subject, "tow", value)]


def test_whose_tank_is_how_large(reads: Reader) -> None:
    found = rated(reads, "Juniper has a 34 gallon tank", on_the_road())
    assert found == [("truck", "tank", Quantity(34, "gal"))]


@pytest.mark.parametrize(
    "text",
    [
        "our guppies have a 30 gallon tank",
        "new fish, 34 gallon tank",
        "a 75 gallon tank for the turtles",
    ],
)
def test_a_tank_of_somebody_else_is_no_rating(text: str, reads: Reader) -> None:
    assert isinstance(reads(text, on_the_road()), Silent)


TRUCKS_LABEL = [("truck", "gawr_front", 5_250), ("truck", "gawr_rear", 6_900)]


@pytest.mark.parametrize(
    "text",
    [
        "GAWR F 5,250 R 6,900",
        "gawr: f 5250, r 6900",
        "axle ratings F 5,250 lb R 6,900 lb",
        "front 5,250 rear 6,900 GAWR",
        "steer axle 5250 and drive axle 6900 it says gawr",
    ],
)
def test_axles_beside_their_word_on_a_label_are_rated_and_not_weighed(
    text: str, reads: Reader
) -> None:
    found = ratings(reads, text)
    assert [(each.subject, each.rating, each.value) for each in found] == [
        (subject, name, Quantity(value, "lb")) for subject, name, value in TRUCKS_LABEL
    ]


@pytest.mark.parametrize(
    "text", ["steer 5,120 drive 6,480, under gawr", "steer 5120 drive 6480 trailer 8900, gawr ok"]
)
def test_a_weighing_held_against_the_label_is_a_weighing(text: str, reads: Reader) -> None:
    verdict = reads(text, chat())
    assert isinstance(verdict, Facts)
    assert [type(each) for each in verdict.entries] == [Weighing]


@pytest.mark.parametrize("told", ["3/4 ton", "1/2 ton", "half ton", "one ton"])
def test_the_class_of_a_truck_lends_its_tons_to_no_rating(told: str, reads: Reader) -> None:
    [gvwr] = ratings(reads, f"{told} diesel, gvwr 9,900")
    assert gvwr.value == Quantity(9_900, "lb")


@pytest.mark.parametrize(
    "text",
    [
        "dump trailer has 7k axles, gvwr 14k",
        "trailer 7,000 lb axles gvwr 14,000",
        "flatdeck with 7k axles two of em, gvwr 14,000",
    ],
)
def test_axles_of_a_size_are_no_second_gvwr_of_their_trailer(text: str, reads: Reader) -> None:
    found = [(each.subject, each.rating, each.value) for each in ratings(reads, text)]
    assert sorted(found, key=str) == [
        ("trailer", "gawr", Quantity(7_000, "lb")),
        ("trailer", "gvwr", Quantity(14_000, "lb")),
    ]


def test_the_load_of_a_trailer_before_its_axles_is_no_axles_size(reads: Reader) -> None:
    assert isinstance(reads("flatdeck 9,200 axles 4600 4600", chat()), Silent)


@pytest.mark.parametrize(
    "text",
    [
        "camper dry 6,900 gvwr 8,800",
        "camper gvwr 8,800, empty 6,900",
        "camper empty 6,900 lb, gvwr 8,800",
    ],
)
def test_what_a_trailer_weighs_dry_is_no_limit_of_it(text: str, reads: Reader) -> None:
    found = {each.rating: each.value for each in ratings(reads, text)}
    assert found == {"gvwr": Quantity(8_800, "lb"), "curb": Quantity(6_900, "lb")}
    assert {each.trailer for each in ratings(reads, text)} == {None}


@pytest.mark.parametrize(
    ("text", "loads", "pressure"),
    [
        ("trailer tires 225/75R15 LRE 2830 at 80", [2_830], 80),
        ("trailer tires 2,540 lb at 65", [2_540], 65),
        (
            "tires on the truck LT245/75R17 load range E 3195 single 2910 dual at 80psi",
            [3_195, 2_910],
            80,
        ),
    ],
)
def test_a_sidewall_states_loads_and_the_pressure_for_them(
    text: str, loads: list[float], pressure: float, reads: Reader
) -> None:
    found = ratings(reads, text)
    assert [each.value for each in found if each.rating == "tyre_load"] == [
        Quantity(load, "lb") for load in loads
    ]
    assert [each.value for each in found if each.rating == "pressure"] == [
        Quantity(pressure, "psi")
    ]


@pytest.mark.parametrize(
    ("text", "truck", "trailer"),
    [
        ("half ton gas truck, name Wren. gvwr 7,100", "Wren", None),
        ("pickup's name is Wren, gvwr 7,100", "Wren", None),
        ("bumper pull called Clover gvwr 7,100", None, "Clover"),
        ("gooseneck Clover gvwr 7,100", None, "Clover"),
    ],
)
def test_a_name_is_given_with_the_word_for_it(
    text: str, truck: str | None, trailer: str | None, reads: Reader
) -> None:
    for context in (chat(), on_the_road()):
        verdict = reads(text, context)
        assert isinstance(verdict, Facts)
        assert {each.truck for each in verdict.entries} == {truck}
        assert {each.trailer for each in verdict.entries} == {trailer}


@pytest.mark.parametrize(
    ("text", "pin"),
    [
        ("fifth wheel gvwr 16,500", True),
        ("fiver gvwr 16,500", True),
        ("hitch 20k, 5k pin", True),
        ("camper gvwr 9,500", False),
        ("hitch 14000/1400", False),
    ],
)
def test_a_trailer_that_rests_on_a_pin_is_kept_as_one(text: str, pin: bool, reads: Reader) -> None:
    words = [part for each in ratings(reads, text) for part, _ in each.words]
    assert ("coupling" in words) is pin


def test_a_trailer_that_is_called_so_is_no_correction(reads: Reader) -> None:
    found = ratings(reads, "stock trailer called Clover, gvwr 7k, tandem 3500s")
    assert {each.trailer for each in found} == {"Clover"}
    assert found[0].value == Quantity(7_000, "lb")


def test_what_a_pin_weighs_dry_is_no_limit(reads: Reader) -> None:
    found = ratings(reads, "5er gvwr 17,100, pin 3,250 dry")
    assert [(each.subject, each.rating) for each in found] == [("trailer", "gvwr")]


@pytest.mark.parametrize(
    "text",
    [
        "flatdeck gvwr 14k two 7k axles",
        "flatdeck gvwr 14k, two 7k axles",
        "flatdeck gvwr 14000 two 7k axles",
    ],
)
def test_a_count_behind_thousands_is_no_part_of_them(text: str, reads: Reader) -> None:
    found = {each.rating: (each.value, each.note) for each in ratings(reads, text)}
    assert found == {
        "gvwr": (Quantity(14_000, "lb"), None),
        "gawr": (Quantity(7_000, "lb"), "2 axles"),
    }


@pytest.mark.parametrize("text", ["gvwr 11,400 F 5,250 R 6,900", "gvwr 11,400 FA 5,250 RA 6,900"])
def test_two_letters_behind_a_gvwr_are_its_axles(text: str, reads: Reader) -> None:
    found = [(each.subject, each.rating, each.value) for each in ratings(reads, text)]
    assert found[1:] == [
        (subject, name, Quantity(value, "lb")) for subject, name, value in TRUCKS_LABEL
    ]


@pytest.mark.parametrize(
    ("text", "subject", "pounds"),
    [
        ("trailer tare 3200 lb", "trailer", 3200),
        ("the camper's tare weight is 4,100 lb", "trailer", 4100),
        ("tare of the camper is 4100 lb", "trailer", 4100),
        ("trailer tare 3200 lb gvwr 9990 lb", "trailer", 3200),
        ("camper gvwr 9,990 lb, tare 3,200 lb", "trailer", 3200),
        ("truck gvwr 11,500 lb tare 7,900 lb", "truck", 7900),
        ("tare 1840 lb, mtplm 2800 lb", "trailer", 1840),
        ("gvwr 11,500 lb tare 7,900 lb", "truck", 7900),
        ("gooseneck tare mass 6,200 lb", "trailer", 6200),
        ("tare wt of the trailer is 3,200 lb", "trailer", 3200),
    ],
)
def test_a_tare_on_a_plate_is_what_it_weighs_empty(
    text: str, subject: str, pounds: float, reads: Reader
) -> None:
    tare = next(each for each in ratings(reads, text) if each.rating == "curb")
    assert (tare.subject, tare.value) == (subject, Quantity(pounds, "lb"))


@pytest.mark.parametrize(
    "text",
    [
        "gross 19,840 tare 12,400 net 7,440",
        "ticket 4411 gross 19,840 trailer tare 3,200",
        "tare 3200",
        "truck tare 8400",
        "the jar has a tare of 320 g",
        "his trailer's tare is 3200",
        "tare the scale first, 450 g of flour",
        "Davo reckons the new caravan's 2.8 tonne tare",
        "what's the trailer's tare",
        "net 2,140 tare 800",
    ],
)
def test_a_tare_of_something_else_is_no_rating(text: str, reads: Reader) -> None:
    verdict = reads(text, chat())
    entries = verdict.entries if isinstance(verdict, Facts) else ()
    assert not [each for each in entries if isinstance(each, Rating)]


@pytest.mark.parametrize(
    ("text", "subject"),
    [
        ("caravan nose weight limit 100 kg", "trailer"),
        ("nose weight limit on the caravan 100 kg", "trailer"),
        ("max nose weight of the caravan is 100kg", "trailer"),
        ("the trailer's tongue limit is 100 kg", "trailer"),
        ("trailer max tongue weight 100 kg", "trailer"),
        ("truck max tongue 100 kg", "truck"),
        ("tongue limit 100 kg", "truck"),
        ("towbar nose weight limit 100 kg", "hitch"),
    ],
)
def test_the_tongues_limit_is_of_what_is_named(text: str, subject: str, reads: Reader) -> None:
    (found,) = ratings(reads, text)
    assert (found.subject, found.rating, found.value) == (subject, "tongue", Quantity(100, "kg"))


@pytest.mark.parametrize(
    ("text", "rating"),
    [
        ("gawr steer axle 5,200", "gawr_front"),
        ("gawr drive axle 6,800", "gawr_rear"),
        ("gawr rear axle 6,800", "gawr_rear"),
    ],
)
def test_an_axle_named_behind_its_rating(text: str, rating: str, reads: Reader) -> None:
    assert [(each.subject, each.rating) for each in ratings(reads, text)] == [("truck", rating)]


@pytest.mark.parametrize(
    ("text", "name"),
    [
        ("trailer sled deck gvwr 9990", "sled deck"),
        ("the trailer is called sled deck, gvwr 9990", "sled deck"),
        ("trailer Blue Ox gvwr 9990", "Blue Ox"),
        ("trailer little deck plate gvwr 9990", "little deck"),
        ("trailer hay rack gvwr 9990", "hay rack"),
        ("trailer camper gvwr 9990", "camper"),
        ("trailer Wren gvwr 9990", "Wren"),
        ("trailer is a 2 horse slant we call Wren, gvwr 9990", "Wren"),
        ("the trailer goes by Wren, gvwr 9990", "Wren"),
        ("this is Wren, the horse trailer, gvwr 9990", "Wren"),
        ("Wren, our boat trailer, gvwr 9990", "Wren"),
        ("the trailer we call a toy hauler: gvwr 9990", None),
        ("Plate, the trailer: gvwr 9990", None),
        ("trailer tandem axle gvwr 9990", None),
        ("trailer plate says gvwr 9990", None),
        ("trailer Wren finally got weighed gvwr 9990", "Wren"),
    ],
)
def test_a_trailer_is_given_a_name_of_one_word_or_more(
    text: str, name: str | None, reads: Reader
) -> None:
    assert [each.trailer for each in ratings(reads, text)] == [name]


@pytest.mark.parametrize("text", ["truck Old Nell gvwr 11,500", "Old Nell: gvwr 11,500"])
def test_so_is_a_truck(text: str, reads: Reader) -> None:
    assert [each.truck for each in ratings(reads, text)] == ["Old Nell"]


def test_a_hitch_is_rated_with_bars_and_without(reads: Reader) -> None:
    found = ratings(reads, "receiver 12k/1200 wd, 6k/600 wc")
    assert [(each.rating, each.value, each.note) for each in found] == [
        ("tow", Quantity(12_000, "lb"), "with bars"),
        ("tongue", Quantity(1_200, "lb"), "with bars"),
        ("tow", Quantity(6_000, "lb"), "carrying"),
        ("tongue", Quantity(600, "lb"), "carrying"),
    ]


def test_a_tare_beside_what_rests_on_the_ball_is_a_plates(reads: Reader) -> None:
    verdict = reads("ATM 2,800 tare 2,140 ball load 220", on_the_road(units="metric"))
    assert isinstance(verdict, Facts), verdict
    assert [each.rating for each in verdict.entries if isinstance(each, Rating)] == [
        "gvwr",
        "curb",
        "tongue",
    ]


@pytest.mark.parametrize(
    ("text", "stated"),
    [
        (
            "camper's gvwr 9,880, dry 7,160, hitch 860",
            [("trailer", "gvwr"), ("trailer", "curb")],
        ),
        (
            "MTPLM 1,800 MIRO 1,450 nose limit 100",
            [("trailer", "gvwr"), ("trailer", "curb"), ("trailer", "tongue")],
        ),
        (
            "ATM 3,500 GTM 3,150 tare 2,480 ball 220",
            [("trailer", "gvwr"), ("trailer", "gtm"), ("trailer", "curb"), ("trailer", "tongue")],
        ),
        ("gcwr 26k minus the truck leaves 14k", [("truck", "gcwr")]),
        (
            "camper sticker: gvwr 7,600 uvw 6,240 hitch 690",
            [("trailer", "gvwr"), ("trailer", "curb")],
        ),
        ("front tires 60 psi rear 80 per the door", [("tyres", "pressure"), ("tyres", "pressure")]),
        ("sticker says tires 60 front 80 rear", [("tyres", "pressure"), ("tyres", "pressure")]),
    ],
)
def test_each_figure_of_a_plate_is_of_what_it_is_on(
    text: str, stated: list[tuple[str, str]], reads: Reader
) -> None:
    found = ratings(reads, text)
    assert [(each.subject, each.rating) for each in found] == stated
    assert {each.truck for each in found} == {None}


@pytest.mark.parametrize("text", ["we've got 1,100 lb of payload left", "payload left is 1,100"])
def test_what_is_left_of_a_limit_is_none(text: str, reads: Reader) -> None:
    assert isinstance(reads(text, chat()), Silent)


def test_what_was_read_off_the_gauge_is_told_from_the_sticker(reads: Reader) -> None:
    read = reads("sticker says 60 front 80 rear on the tires, we had 58 front 76 rear", chat())
    assert isinstance(read, Facts)
    kinds = [type(each).__name__ for each in read.entries]
    assert kinds == ["Rating", "Rating", "Observation", "Observation"]


def test_an_oil_pressure_that_dropped_is_a_pressure(reads: Reader) -> None:
    read = reads("oil pressure dropped to 28 at idle", chat())
    assert isinstance(read, Facts)
    assert [getattr(each, "value", None) for each in read.entries] == [Quantity(28, "psi")]


def test_a_pin_that_leads_to_another_figure_is_not_of_this_one(reads: Reader) -> None:
    found, _ = ratings(reads, "max tow with bumper is 14,000 and gooseneck 20,100")
    assert (found.value, found.note) == (Quantity(14_000, "lb"), None)


@pytest.mark.parametrize(
    ("text", "told"),
    [
        (
            "tow rating 14,000 conventional and 20,100 fifth wheel",
            [(14_000, None), (20_100, "fifth wheel")],
        ),
        (
            "tow rating is 14,000, gooseneck 20,100",
            [(14_000, None), (20_100, "gooseneck")],
        ),
        (
            "towing capacity 20,100 fifth wheel, 14,000 on the ball",
            [(20_100, "fifth wheel"), (14_000, None)],
        ),
        ("tow rating 20,000 fifth wheel", [(20_000, "fifth wheel")]),
    ],
)
def test_what_is_towed_by_each_kind_of_hitch(
    reads: Reader, text: str, told: list[tuple[float, str | None]]
) -> None:
    read = reads(text, on_the_road())
    assert isinstance(read, Facts)
    ratings = [each for each in read.entries if isinstance(each, Rating)]
    assert all(each.rating == "tow" for each in ratings)
    values = [each.value for each in ratings]
    assert [
        (value.value, each.note)
        for value, each in zip(values, ratings, strict=True)
        if isinstance(value, Quantity)
    ] == told


def test_what_a_fifth_wheel_weighs_is_no_limit(reads: Reader) -> None:
    read = reads("tow rating 14,000 and fifth wheel weighs 12,400", on_the_road())
    assert not isinstance(read, Facts)


def test_the_size_of_a_ball_hides_no_label(reads: Reader) -> None:
    first, second = ratings(reads, "ball 2 5/16 rated 16k, receiver rated 18,000")
    assert (first.subject, first.value) == ("ball", Quantity(16_000, "lb"))
    assert (second.subject, second.value) == ("hitch", Quantity(18_000, "lb"))


def test_what_a_caravan_actually_weighs_is_no_limit(reads: Reader) -> None:
    metric = on_the_road(units="metric")
    assert isinstance(reads("actual ATM 3,050 kg, GTM 2,790", metric), Silent)
    assert isinstance(reads("ATM 3,050 kg, GTM 2,790", metric), Facts)


@pytest.mark.parametrize(
    ("text", "rated"),
    [
        ("sticker on the truck says 11,500 pounds GVWR", [("truck", "gvwr", 11_500)]),
        ("plate on the trailer reads 14,000 lb GVWR", [("trailer", "gvwr", 14_000)]),
        (
            "truck is 11,500 GVWR and 25,000 GCWR",
            [("truck", "gvwr", 11_500), ("truck", "gcwr", 25_000)],
        ),
        (
            "truck is 11,500 gvwr, 25,000 gcwr, trailer is 12,000 gvwr",
            [("truck", "gvwr", 11_500), ("truck", "gcwr", 25_000), ("trailer", "gvwr", 12_000)],
        ),
        ("truck 10,200 gvwr 11,500", [("truck", "gvwr", 11_500)]),
    ],
)
def test_a_limit_behind_its_figure_is_of_the_vehicle_before(
    text: str, rated: list[tuple[str, str, float]], reads: Reader
) -> None:
    found = ratings(reads, text)
    values = [
        each.value.value if isinstance(each.value, Quantity) else each.value for each in found
    ]
    assert [
        (each.subject, each.rating, value) for each, value in zip(found, values, strict=True)
    ] == rated


@pytest.mark.parametrize(
    ("text", "rating", "value"),
    [
        ("max on the hitch is 1,500 and we're 1,180", "tongue", 1_500),
        ("max on the hitch is 1,500", "tongue", 1_500),
        ("max on the hitch is 12,000", "tow", 12_000),
    ],
)
def test_what_may_rest_on_a_hitch_is_no_pull(
    text: str, rating: str, value: float, reads: Reader
) -> None:
    (only,) = ratings(reads, text)
    assert (only.subject, only.rating, only.value) == ("hitch", rating, Quantity(value, "lb"))
