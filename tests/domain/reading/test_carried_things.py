"""What is carried is kept by its name, spelt right where one thing is clearly meant."""

from __future__ import annotations

import pytest

from domain.entries import Cargo, Check, Weighing
from domain.quantities import Quantity
from domain.verdicts import Ask, Facts, Silent
from tests.domain.reading.chats import Reader, on_the_road
from tests.domain.reading.test_told_at_the_scale import told


def item(text: str, reads: Reader) -> str | None:
    """What the one piece of cargo that a message states is called."""
    read = reads(text, on_the_road())
    assert isinstance(read, Facts), read
    (entry,) = read.entries
    assert isinstance(entry, Cargo)
    return entry.item


@pytest.mark.parametrize(
    ("text", "thing"),
    [
        ("genrtr 140 lb in the bed", "generator"),
        ("gnrtr 140 lb in the bed", "generator"),
        ("genertor 140 lb in the bed", "generator"),
        ("the genrator's in the bed, 140 lb", "generator"),
        ("threw the genrtr in the bed, 140 lb", "generator"),
        ("frewood 320 lb in the bed", "firewood"),
        ("honey extracter 110 lb in the bed", "honey extractor"),
        ("hny drums 860 lb on the deck", "honey drums"),
        ("compresser 95 lb in the bed", "compressor"),
        ("320 lb of gravle in the bed", "gravel"),
        ("coolr 60 lb in the bed", "cooler"),
        ("COMPRESSER 95 LB IN THE BED", "COMPRESSOR"),
    ],
)
def test_a_slip_is_spelt_as_the_thing_that_it_is(reads: Reader, text: str, thing: str) -> None:
    assert item(text, reads) == thing


@pytest.mark.parametrize(
    "thing",
    ["kayak", "bolts", "hoggs", "mulcher", "granite", "hay bails", "puppets", "stakes", "Genar"],
)
def test_other_words_stay_as_they_were_typed(reads: Reader, thing: str) -> None:
    assert item(f"{thing} 140 lb in the bed", reads) == thing


@pytest.mark.parametrize(
    ("text", "value"),
    [
        ("loaded drums, 55 pounds each, 12 of them, over the axle", 660),
        ("bales are 60 lb each and there's 30 of them in the bed", 1_800),
        ("loaded 24 supers, 45 lb each", 1_080),
        ("loaded a drum, 55 pounds, over the axle", 55),
        ("loaded 24 hives tonight at 95 lb each", 2_280),
        ("loaded two steers at 1,100 lb each", 2_200),
        ("2 steers loaded at 1,100 each", 2_200),
    ],
)
def test_so_many_that_weigh_so_much_each_weigh_it_together(
    reads: Reader, text: str, value: float
) -> None:
    read = reads(text, on_the_road())
    assert isinstance(read, Facts), read
    (entry,) = read.entries
    assert isinstance(entry, Cargo)
    assert entry.value == Quantity(value, "lb")


@pytest.mark.parametrize(
    ("text", "thing", "position"),
    [
        ("put the generator on the tongue rack, 145 lb", "generator", "tongue"),
        ("pallet of sugar 2,200 lb over the front axle", "sugar", "over front axle"),
        ("honey drums 1,800 lb behind the drive axle", "honey drums", "behind drive axle"),
        ("got 18 hives on the flatdeck around 90 lb apiece", "hives", None),
    ],
)
def test_what_stands_over_an_axle_is_no_load_of_it(
    text: str, thing: str, position: str | None, reads: Reader
) -> None:
    read = reads(text, on_the_road())
    assert isinstance(read, Facts), read
    (entry,) = read.entries
    assert isinstance(entry, Cargo)
    assert (entry.item, entry.position) == (thing, position)


def test_what_the_axles_bear_is(reads: Reader) -> None:
    read = reads("weighed 5,340 over the front axle and 6,920 over the rear axle", on_the_road())
    loads = {"steer": Quantity(5_340, "lb"), "drive": Quantity(6_920, "lb")}
    assert read == Facts((Weighing(loads=loads),))


@pytest.mark.parametrize(
    "text",
    [
        "quad's on the flatdeck, weighs 640 lb",
        "the quad on the flatdeck weighs 640 lb",
        "quad weighs 640 lb, it's on the flatdeck",
    ],
)
def test_what_stands_on_the_trailer_is_weighed_and_not_the_trailer(
    text: str, reads: Reader
) -> None:
    carried = Cargo(item="quad", value=Quantity(640, "lb"), trailer="flatdeck")
    assert reads(text, on_the_road()) == Facts((carried,))


@pytest.mark.parametrize(
    "text", ["flatdeck with the quad on it weighs 3,740 lb", "flatdeck weighs 3,100 lb"]
)
def test_a_trailer_is_weighed_with_what_stands_on_it(text: str, reads: Reader) -> None:
    assert isinstance(reads(text, on_the_road()), Ask)


def test_a_rack_is_where_things_are(reads: Reader) -> None:
    read = reads("bikes on the tongue rack, 90 lb", on_the_road())
    carried = Cargo(item="bikes", value=Quantity(90, "lb"), position="tongue")
    assert read == Facts((carried,))


@pytest.mark.parametrize(
    ("text", "thing", "where"),
    [
        ("put hay on the deck, straw in the bed, 300 lb", "straw", "bed"),
        ("put the generator in the bed, behind the cab, 210 lb", "generator", "behind cab"),
    ],
)
def test_the_last_of_two_things_that_were_put_somewhere_has_the_mass(
    text: str, thing: str, where: str, reads: Reader
) -> None:
    read = reads(text, on_the_road())
    assert isinstance(read, Facts)
    (entry,) = read.entries
    assert isinstance(entry, Cargo)
    assert (entry.item, entry.position) == (thing, where)


@pytest.mark.parametrize(
    ("text", "thing"),
    [
        ("90 lb floor jack in the bed", "floor jack"),
        ("20 ton press, 340 lb, in the bed", "press"),
        ("3 tons of gravel in the bed", "gravel"),
    ],
)
def test_a_tool_has_a_weight_of_its_own(text: str, thing: str, reads: Reader) -> None:
    assert item(text, reads) == thing


@pytest.mark.parametrize(
    "text",
    [
        "3 ton jack in the bed",
        "threw the 3 ton floor jack in the bed",
        "10,000 lb winch on the flatdeck",
    ],
)
def test_what_a_tool_is_made_for_is_not_its_weight(text: str, reads: Reader) -> None:
    assert isinstance(reads(text, on_the_road()), Silent)


@pytest.mark.parametrize(
    ("text", "value"),
    [
        ("40 bales x 55 lb in the bed", 2_200),
        ("12 bags x 25 lb of feed in the bed", 300),
        ("bales, 55 lb in the bed", 55),
    ],
)
def test_a_sign_may_stand_between_a_count_and_what_each_weighs(
    text: str, value: float, reads: Reader
) -> None:
    read = reads(text, on_the_road())
    assert isinstance(read, Facts)
    assert [each.value for each in read.entries if isinstance(each, Cargo)] == [
        Quantity(value, "lb")
    ]


@pytest.mark.parametrize(
    ("text", "thing", "pounds"),
    [
        ("picked up a load of hay, 1,900 lb", "hay", 1_900),
        ("grabbed 1,400 lb of gravel", "gravel", 1_400),
        ("picked up 40 bags of feed, 2,000 lb", "feed", 2_000),
        ("got a yard of gravel in the bed, 2,400 lb", "gravel", 2_400),
        ("threw a load of mulch in the bed, 900 lb", "mulch", 900),
    ],
)
def test_what_was_fetched_is_carried_by_its_name(
    reads: Reader, text: str, thing: str, pounds: float
) -> None:
    read = reads(text, on_the_road())
    assert isinstance(read, Facts), read
    (entry,) = read.entries
    assert isinstance(entry, Cargo)
    assert (entry.item, entry.value) == (thing, Quantity(pounds, "lb"))


@pytest.mark.parametrize(
    "text",
    [
        "picked up the kids, 120 lb",
        "picked up milk, 2 lb of butter",
        "grabbed 1,400 lb of gravel for the drive",
    ],
)
def test_shopping_and_a_driveway_are_no_load(reads: Reader, text: str) -> None:
    read = reads(text, on_the_road())
    assert not isinstance(read, Facts) or all(isinstance(each, Cargo) for each in read.entries)
    assert not isinstance(read, Ask)


@pytest.mark.parametrize(
    ("text", "things"),
    [
        ("awning's in over the axle, 28 kg", ["awning"]),
        ("ramps are in at the front, 120 lb", ["ramps"]),
        ("batteries in the bed 128 lb, lights good", ["batteries", "lights"]),
        ("awning's in", ["awning"]),
    ],
)
def test_of_a_part_that_is_carried_only_its_place_is_told(
    reads: Reader, text: str, things: list[str]
) -> None:
    read = reads(text, on_the_road())
    assert isinstance(read, Facts), read
    assert [each.item for each in read.entries if isinstance(each, (Cargo, Check))] == things


@pytest.mark.parametrize(
    ("text", "thing", "trailer"),
    [
        ("race car on the flatdeck 2,780 lb", "race car", "flatdeck"),
        ("boat on the flatdeck 2,780 lb", "boat", "flatdeck"),
        ("tractor on the trailer 4,150 lb", "tractor", None),
        ("swapped the mower for the tractor on the flatdeck, 1,480 lb", "tractor", "flatdeck"),
    ],
)
def test_another_vehicle_on_ours_is_carried(
    text: str, thing: str, trailer: str | None, reads: Reader
) -> None:
    read = reads(text, on_the_road())
    assert isinstance(read, Facts), read
    (entry,) = read.entries
    assert isinstance(entry, Cargo)
    assert (entry.item, entry.trailer) == (thing, trailer)


@pytest.mark.parametrize(
    "text",
    [
        "car on the trailer weighed 2,780 lb",
        "my buddy had a car on the trailer 3,000 lb",
        "Dave's car on the trailer 3,000 lb",
        "car on the driveway 2,780 lb",
        "need 24 hives loaded tonight at 95 lb each",
        "bought 2 steers at 1,100 each",
        "tractor on the trailer up front, 4,150 lb",
        "swapped the quad for the side by side, 1,480 lb",
    ],
)
def test_what_nobody_loaded_is_not_carried(text: str, reads: Reader) -> None:
    assert isinstance(reads(text, on_the_road()), Silent)


def test_a_place_as_it_is_now_is_no_cargo(reads: Reader) -> None:
    text = "put 1,200 lb of honey supers on over the trailer axles, trailer now 9,860"
    read = reads(text, on_the_road())
    assert isinstance(read, Facts), read
    (entry,) = read.entries
    assert isinstance(entry, Cargo)
    assert entry.value == Quantity(1_200, "lb")


def test_a_steer_axle_as_it_is_now_is_weighed(reads: Reader) -> None:
    read = reads("took the quad off, steer now 5,120", on_the_road())
    assert read == Facts((Weighing(loads={"steer": Quantity(5_120, "lb")}),))


def test_both_ends_of_one_steer_axle_are_no_animals(reads: Reader) -> None:
    read = reads("steers 2,560 each", on_the_road())
    assert isinstance(read, Facts), read
    (entry,) = read.entries
    assert isinstance(entry, Weighing)
    assert entry.loads.keys() == {"steer_left", "steer_right"}


@pytest.mark.parametrize(
    ("text", "entries"),
    [
        (
            "Firewood loaded in the load bed, 80 lb, and the odometer is at 48,302",
            ["cargo item=Firewood position=load bed value=80", "odometer odometer=48302"],
        ),
        (
            "Gravel loaded, 800 lb, and the odometer is at 48,302",
            ["cargo item=Gravel value=800", "odometer odometer=48302"],
        ),
        ("Cobblewick, odometer 48,302", ["odometer odometer=48302 place=Cobblewick"]),
    ],
)
def test_what_is_carried_is_no_place(text: str, entries: list[str], reads: Reader) -> None:
    assert told(reads, text) == entries


@pytest.mark.parametrize(
    ("text", "thing"),
    [
        ("hooked the flatdeck, bales are 9600 lb", "bales"),
        ("hooked the flatdeck, pavers weigh 9600 lb, leaving 48,233", "pavers"),
        ("hitched up the camper the drums are nineteen hundred pounds", "drums"),
    ],
)
def test_what_rides_on_the_trailer_that_was_hitched(text: str, thing: str, reads: Reader) -> None:
    verdict = reads(text, on_the_road(hitched=False))
    assert isinstance(verdict, Facts)
    assert [each.item for each in verdict.entries if isinstance(each, Cargo)] == [thing]
    assert not any(isinstance(each, Weighing) for each in verdict.entries)


@pytest.mark.parametrize(
    "text", ["dropped the flatdeck, bales are 9600 lb", "unhooked the flatdeck, hay weighs 9600 lb"]
)
def test_what_goods_weigh_is_no_rigs_weight(text: str, reads: Reader) -> None:
    verdict = reads(text, on_the_road())
    assert isinstance(verdict, Facts)
    assert not any(isinstance(each, Weighing | Cargo) for each in verdict.entries)


def test_a_trailer_with_goods_on_it_was_weighed(reads: Reader) -> None:
    verdict = reads("flatdeck hitched with the hay weighed 9,600 lb", on_the_road())
    assert isinstance(verdict, Facts)
    (weighing,) = verdict.entries
    assert isinstance(weighing, Weighing)
