"""Pressures that were changed, put right or left to the rest, and passes told one after another."""

from __future__ import annotations

import pytest

from domain.context import Context
from domain.entries import EVERY_ONE, Check, Correction, Observation, Rating, Weighing
from domain.quantities import Quantity
from domain.rig import key_of
from domain.verdicts import Facts, Silent
from tests.domain.reading.chats import Reader, on_the_road

TYRES = "tyres"
LF_65 = ("left front", 65)
TRAILERS_OWN = [("trailer", 65), ("trailer front", 62), ("trailer rear", 60)]
IN_TURN = [
    ("trailer left front", 80),
    ("trailer right front", 79),
    ("trailer left rear", 80),
    ("trailer right rear", 81),
]


@pytest.mark.parametrize(
    ("text", "told"),
    [
        ("LR trailer tire lost 12 psi, now 68", [("trailer left rear", 68)]),
        ("right front tire lost 9 psi, its at 56 psi", [("right front", 56)]),
        ("right rear trailer tire was 52, pumped it to 80", [("trailer right rear", 80)]),
        ("left front tire was at 48 psi, aired it up to 65", [("left front", 65)]),
        ("left front tire was 48, brought it up to 65 psi", [("left front", 65)]),
        ("RR trailer tire 62 psi, topped it to 80", [("trailer right rear", 80)]),
        ("RR trailer tire 62 psi, filled it to 80", [("trailer right rear", 80)]),
        ("RR trailer tire was 62, topped up to 80", [("trailer right rear", 80)]),
        ("found the RR at 62 psi, set it to 80", [("right rear", 80)]),
        ("inner dual on the right rear was at 40 psi, filled to 80", [("right rear", 80)]),
        ("trailer tires 72, brought them up to 80", [("trailer", 80)]),
        ("RR trailer tire 62, now 80", [("trailer right rear", 80)]),
        ("LF 65, RR trailer tire 62 psi, brought it up to 80", [LF_65, ("trailer right rear", 80)]),
        ("tires 65 65, RR 62, topped it up to 80", [(None, 65), (None, 65), ("right rear", 80)]),
        ("RR trailer tire 62 psi, 80 miles to go", [("trailer right rear", 62)]),
        ("tires were 62, aired them all up to 80", [(None, 80)]),
        ("tires were at 62 so we pumped them all up to 80 psi", [(None, 80)]),
        ("trailer tires were 58 60 57 58, brought them all up to 65", [("trailer", 65)]),
        ("fronts 60, rears 72, aired them all up to 80", [("front", 80), ("rear", 80)]),
        ("fronts 60, rears 72, aired them up to 80", [("front", 60), ("rear", 80)]),
        ("LF 60 RR 61 psi, pumped them up to 65", [LF_65, ("right rear", 65)]),
        ("LF 65 RR 61 psi, pumped it up to 65", [LF_65, ("right rear", 65)]),
        ("tires were 80, let them down to 40", [(None, 40)]),
        (
            "checked the tires, 70 front 75 back 80 on the camper",
            [("front", 70), ("rear", 75), ("trailer", 80)],
        ),
        (
            "tires 70 front 75 rear on the camper",
            [("trailer front", 70), ("trailer rear", 75)],
        ),
        (
            "tires 60 front 72 rear camper 80",
            [("front", 60), ("rear", 72), ("trailer", 80)],
        ),
        (
            "steers 44 rears 65 all round trailer 80",
            [("front", 44), ("rear", 65), ("trailer", 80)],
        ),
        ("drive tires 71 72, steers 66", [("rear", 71), ("rear", 72), ("front", 66)]),
        ("68 front 74 rear 80 on the flatdeck psi", [("front", 68), ("rear", 74), ("trailer", 80)]),
        ("tires after the drive, 70 71 75 76", [(None, 70), (None, 71), (None, 75), (None, 76)]),
        ("spare's at 30, topped to 65", [("spare", 65)]),
        ("left rear on the camper is low, 48 psi", [("trailer left rear", 48)]),
        ("RR low 48 psi", [("right rear", 48)]),
        ("camper LF 80, RF 79, LR 80, RR 81 psi", IN_TURN),
        ("trailer LF 80, LF 65 psi", [("trailer left front", 80), LF_65]),
        ("trailer RR 80, Juniper LF 65 psi", [("trailer right rear", 80), LF_65]),
        ("added air to the left rear, now at 80", [("left rear", 80)]),
        (
            "left rear outside dual 72 psi, inside 75",
            [("left rear outer", 72), ("left rear inner", 75)],
        ),
        ("fronts 65 66 rears 80 81", [("front", 65), ("front", 66), ("rear", 80), ("rear", 81)]),
        ("van tyres 65psi, cruiser 38 front 44 rear", [("front", 38), ("rear", 44)]),
        ("trailer tires 65 psi, 62 front 60 rear", TRAILERS_OWN),
        ("trailer tires: LF 80 RF 79 LR 80 RR 81", IN_TURN),
        ("aired the fronts to 65 and rears to 80", [("front", 65), ("rear", 80)]),
        ("aired down the rears to 55", [("rear", 55)]),
        ("left rear on the truck is low, 24, the rest are 35", [("left rear", 24), (None, 35)]),
        (
            "tires 65 up front, 80 out back, 75 on the camper",
            [("front", 65), ("rear", 80), ("trailer", 75)],
        ),
    ],
)
def test_what_the_tyres_have_now(
    text: str, told: list[tuple[str | None, float]], reads: Reader
) -> None:
    verdict = reads(text, on_the_road())
    assert isinstance(verdict, Facts), verdict
    assert [
        (entry.position, entry.value.value)
        for entry in verdict.entries
        if isinstance(entry, Observation) and entry.subject == "tyre"
    ] == told
    assert len(verdict.entries) == len(told)


@pytest.mark.parametrize(
    ("text", "told"),
    [
        ("hot hub, left rear flatdeck, 190 degrees", [("trailer left rear", 190)]),
        ("hub's at 165 right rear", [("right rear", 165)]),
        ("one hub is at 172, right rear trailer", [("trailer right rear", 172)]),
        ("hub 165, right turn at the light", [(None, 165)]),
        (
            "left trailer hub at 172 others around 120",
            [("trailer left", 172), ("trailer", 120)],
        ),
        ("left hubs 131 and 128", [("left", 131), ("left", 128)]),
        (
            "shot the hubs with the temp gun, 118 121 119, right rear 172",
            [(None, 118), (None, 121), (None, 119), ("right rear", 172)],
        ),
    ],
)
def test_where_hubs_were_hot(
    text: str, told: list[tuple[str | None, float]], reads: Reader
) -> None:
    verdict = reads(text, on_the_road())
    assert isinstance(verdict, Facts), verdict
    read = [each for each in verdict.entries if isinstance(each, Observation)]
    assert [(each.position, each.value.value) for each in read] == told
    assert {each.subject for each in read} == {"hub"}


def test_whose_tyres_are_told_of_both(reads: Reader) -> None:
    verdict = reads("tires 65 front on Juniper, camper tires 80", on_the_road())
    assert isinstance(verdict, Facts), verdict
    assert [(entry.truck, entry.trailer) for entry in verdict.entries] == [
        ("Juniper", None),
        (None, "camper"),
    ]


@pytest.mark.parametrize("text", ["left rear is low on the list, 48 of them", "RR is 6,200, low"])
def test_what_is_low_and_has_no_pressure_is_no_tyre(text: str, reads: Reader) -> None:
    verdict = reads(text, on_the_road())
    assert not isinstance(verdict, Facts) or not any(
        isinstance(entry, Observation) for entry in verdict.entries
    )


SOLO = Weighing(loads={"steer": Quantity(5_280, "lb"), "drive": Quantity(4_620, "lb")}, rig="solo")
HITCHED = Weighing(
    loads={
        "steer": Quantity(4_960, "lb"),
        "drive": Quantity(6_100, "lb"),
        "trailer": Quantity(8_480, "lb"),
    },
    rig="hitched",
)


@pytest.mark.parametrize(
    ("text", "passes"),
    [
        ("solo 5,280/4,620 then hitched 4,960/6,100/8,480", (SOLO, HITCHED)),
        ("solo: 5,280 4,620. hitched: 4,960 6,100 8,480", (SOLO, HITCHED)),
        ("hitched 4,960/6,100/8,480, solo 5,280/4,620", (HITCHED, SOLO)),
    ],
)
def test_either_way_of_standing_heads_a_pass(
    text: str, passes: tuple[Weighing, ...], reads: Reader
) -> None:
    verdict = reads(text, on_the_road())
    assert isinstance(verdict, Facts), verdict
    assert verdict.entries == passes


@pytest.mark.parametrize(
    "text",
    [
        "drop the fill",
        "take the fill out",
        "delete the fuel entry",
        "remove the weighing",
        "scrap the fillup please",
        "can you delete the fill",
        "delete the odometer entry",
    ],
)
def test_an_entry_is_taken_out_by_its_kind(text: str, reads: Reader) -> None:
    verdict = reads(text, on_the_road())
    assert isinstance(verdict, Facts), verdict
    assert verdict.entries == (Correction(action="undo"),)


@pytest.mark.parametrize(
    "text",
    [
        "added 10 psi to the rears",
        "dropped 15 psi in the tires for the sand",
        "lost 30 psi in my bike tire, now flat",
        "lost 12 pounds, now 168",
        "my grade was 52, brought it up to 80",
        "the house was 52, brought it up to 80 offers",
        "drop the fill dirt by the gate",
        "delete the fuel app",
        "remove the hitch",
        "take the fuel out of the shed",
        "drop the ticket in the mail",
        "dont drop the fill hose",
        "did you drop the fill",
        "her dually scaled 8,140",
        "her toy hauler is 11,400 loaded",
        "her ute weighs 2,900",
        "their fiver is 14,200",
    ],
)
def test_what_is_of_others_or_is_said_of_other_things_is_talk(text: str, reads: Reader) -> None:
    assert isinstance(reads(text, on_the_road()), Silent)


@pytest.mark.parametrize(
    ("text", "every"),
    [
        ("repacked all bearings", "all bearings"),
        ("repacked all the bearings on the flatdeck", "all the bearings"),
        ("repacked the bearings", None),
    ],
)
def test_a_check_says_that_it_was_of_all_of_them(
    text: str, every: str | None, reads: Reader
) -> None:
    verdict = reads(text, on_the_road())
    assert isinstance(verdict, Facts), verdict
    (check,) = verdict.entries
    assert isinstance(check, Check)
    assert (check.item, check.state) == ("bearings", "done")
    assert dict(check.words).get(EVERY_ONE) == every


@pytest.mark.parametrize(
    ("text", "pair"),
    [
        ("truck tyres 121/118", (121, 118)),
        ("truck tires 121/118S", (121, 118)),
        ("tyres are 115/112", (115, 112)),
        ("load index 126/123", (126, 123)),
        ("li 123/120", (123, 120)),
        ("tires 121/118 load range E", (121, 118)),
        ("tyre load index 104/102Q", (104, 102)),
        ("tyres index 121/118, load range E", (121, 118)),
        ("new tires on the flatdeck, 124/121", (124, 121)),
        ("camper tyres stamped 112/110", (112, 110)),
        ("front tires 126/123", (126, 123)),
    ],
)
def test_two_load_indexes_are_of_one_tyre_alone_and_of_one_of_two(
    text: str, pair: tuple[int, int], reads: Reader
) -> None:
    verdict = reads(text, on_the_road())
    assert isinstance(verdict, Facts), verdict
    assert [
        (each.subject, each.rating, each.value, each.note)
        for each in verdict.entries
        if isinstance(each, Rating)
    ] == [("tyres", "load_index", pair[0], "single"), ("tyres", "load_index", pair[1], "dual")]
    assert len(verdict.entries) == 2


@pytest.mark.parametrize(
    "text",
    [
        "tires 80/65",
        "tyres 65/80 psi",
        "tires 110/108/109/110",
        "tire pressure 112/110",
        "tire temps 121/118",
        "hubs 121/118",
        "trailer tires 50/48",
        "truck tires 80/78",
        "tires front/rear 65/80",
        "tyres 118/121",
    ],
)
def test_pairs_off_a_gauge_are_no_load_indexes(text: str, reads: Reader) -> None:
    verdict = reads(text, on_the_road())
    assert isinstance(verdict, Facts), verdict
    assert all(isinstance(each, Observation) for each in verdict.entries)


def test_corners_of_dual_wheels_by_their_letters(reads: Reader) -> None:
    verdict = reads("lf 62 rf 63 lri 71 lro 72 rri 70 rro 69", on_the_road())
    assert isinstance(verdict, Facts), verdict
    assert {
        each.position: each.value.value for each in verdict.entries if isinstance(each, Observation)
    } == {
        "left front": 62,
        "right front": 63,
        "left rear inner": 71,
        "left rear outer": 72,
        "right rear inner": 70,
        "right rear outer": 69,
    }


@pytest.mark.parametrize("symbol", ["L", "M", "N", "P", "Q", "R", " R", "S", "T"])
def test_a_load_index_with_its_speed_symbol(symbol: str, reads: Reader) -> None:
    """The symbol is a letter of UN Regulation 54, table 2; some are units of other things."""
    read = reads(f"tires are 118/115{symbol}", on_the_road())
    assert isinstance(read, Facts), read
    assert read.entries == (
        Rating(subject="tyres", rating="load_index", value=118, note="single"),
        Rating(subject="tyres", rating="load_index", value=115, note="dual"),
    )


@pytest.mark.parametrize(
    ("text", "pounds"),
    [
        ("the front tires are rated 2680 lb each", 2680),
        ("drive tires rated 3195 dual", 3195),
        ("steer tires are rated for 3,195", 3195),
        ("tires on the camper are rated 2830 lb each", 2830),
        ("the camper's tires are good for 2,910 lb", 2910),
    ],
)
def test_what_tyres_are_rated_for_is_no_axles_rating(
    text: str, pounds: float, reads: Reader
) -> None:
    verdict = reads(text, on_the_road())
    assert isinstance(verdict, Facts), verdict
    (rating,) = verdict.entries
    assert isinstance(rating, Rating)
    assert (rating.subject, rating.rating) == ("tyres", "tyre_load")
    assert rating.value == Quantity(pounds, "lb")


@pytest.mark.parametrize(
    "text",
    [
        "truck Juniper gvwr 14000 rear axle 9900 tires 3640 each",
        "Juniper gvwr 14000, rear axle 9900, tyres 3640",
    ],
)
def test_tyres_on_a_plate_stand_beside_its_axles(text: str, reads: Reader) -> None:
    verdict = reads(text, on_the_road())
    assert isinstance(verdict, Facts), verdict
    found = {
        entry.rating: entry.value.value
        for entry in verdict.entries
        if isinstance(entry, Rating) and isinstance(entry.value, Quantity)
    }
    assert found == {"gvwr": 14000, "gawr_rear": 9900, "tyre_load": 3640}


@pytest.mark.parametrize("text", ["tires cost 1200", "paid 1,400 for tires"])
def test_what_tyres_cost_is_no_load(text: str, reads: Reader) -> None:
    assert reads(text, on_the_road()) == Silent()


def test_drive_tyres_on_a_scale_are_an_axle(reads: Reader) -> None:
    verdict = reads("drive tires 6940, steer tires 5280", on_the_road())
    assert isinstance(verdict, Facts)
    assert [type(entry) for entry in verdict.entries] == [Weighing]


METRIC = on_the_road(units="metric", tank=Quantity(80, "L"), odometer=Quantity(61_000, "km"))


@pytest.mark.parametrize(
    "text",
    [
        "LF 610 RF 580 LR 700 RR 580 trailer 2060",
        "front left 610 right 580, rear left 700 right 580, trailer 2060",
    ],
)
def test_corners_beside_the_trailers_load_are_loads(text: str, reads: Reader) -> None:
    verdict = reads(text, METRIC)
    assert isinstance(verdict, Facts)
    (weighing,) = verdict.entries
    assert isinstance(weighing, Weighing)
    assert {name: load.value for name, load in weighing.loads.items()} == {
        "steer_left": 610,
        "steer_right": 580,
        "drive_left": 700,
        "drive_right": 580,
        "trailer": 2060,
    }


@pytest.mark.parametrize(
    ("text", "context"),
    [
        ("LF 250 RF 250 LR 300 RR 300", METRIC),
        ("LF 65 RF 66 LR 78 RR 80, trailer 8480", on_the_road()),
    ],
)
def test_corners_that_no_load_stands_beside_are_pressures(
    text: str, context: Context, reads: Reader
) -> None:
    verdict = reads(text, context)
    assert isinstance(verdict, Facts)
    assert sum(isinstance(entry, Observation) for entry in verdict.entries) == 4


@pytest.mark.parametrize(
    ("text", "end"),
    [
        ("truck Juniper gvwr 14000 rear axle 9900 tires 3640 each rear, payload 5800", "rear"),
        ("front tires rated 2680 each", "front"),
        ("tires rated 2680 front, 3195 rear", "front"),
        ("tires on the truck rated 2680", ""),
    ],
)
def test_tyres_are_of_the_end_that_stands_beside_their_figure(
    text: str, end: str, reads: Reader
) -> None:
    verdict = reads(text, on_the_road())
    assert isinstance(verdict, Facts)
    loads = [each for each in verdict.entries if isinstance(each, Rating)]
    tyres = next(each for each in loads if each.rating == "tyre_load")
    assert key_of(tyres) == ("truck tyres", "load", end)


@pytest.mark.parametrize(
    ("text", "tyres"),
    [
        ("tires rated 2680 front, 3195 rear", [2680, 3195]),
        ("tires rated 2680 each. steer 4980 drive 5200", [2680]),
        ("front tires rated 2680, rear axle 7000", [2680]),
    ],
)
def test_what_follows_the_tyres_of_one_end(text: str, tyres: list[float], reads: Reader) -> None:
    verdict = reads(text, on_the_road())
    assert isinstance(verdict, Facts)
    found = [each for each in verdict.entries if isinstance(each, Rating)]
    assert [
        each.value.value
        for each in found
        if each.rating == "tyre_load" and isinstance(each.value, Quantity)
    ] == tyres


@pytest.mark.parametrize(
    ("text", "places"),
    [
        ("left hubs 131 and 128, right hubs 133 and 170", ["left", "left", "right", "right"]),
        ("axle 1 hubs 131 128, axle 2 hubs 133 170", ["axle 1", "axle 1", "axle 2", "axle 2"]),
        ("RR hubs 118 121", ["right rear", None]),
        ("axle 2 left hub 165, axle 1 left hub 140", ["left axle 2", "left axle 1"]),
        ("trailer axle 2 right hub 165", ["trailer right axle 2"]),
    ],
)
def test_hubs_of_a_side_and_of_an_axle(text: str, places: list[str | None], reads: Reader) -> None:
    verdict = reads(text, on_the_road())
    assert isinstance(verdict, Facts), verdict
    assert [each.position for each in verdict.entries if isinstance(each, Observation)] == places


def test_a_tyres_heat_and_its_pressure_are_in_one_place(reads: Reader) -> None:
    verdict = reads("tpms says right rear 71 and 118 degrees", on_the_road())
    assert isinstance(verdict, Facts)
    places = [each.position for each in verdict.entries if isinstance(each, Observation)]
    assert places == ["right rear", "right rear"]


@pytest.mark.parametrize(
    ("text", "unit"),
    [
        ("n/s front 36 n/s rear 42 o/s front 36 o/s rear 41", "psi"),
        ("n/s front 240 n/s rear 260 o/s front 240 o/s rear 260", "kPa"),
    ],
)
def test_corners_of_little_pressure_are_in_psi(text: str, unit: str, reads: Reader) -> None:
    verdict = reads(text, METRIC)
    assert isinstance(verdict, Facts), verdict
    read = [each for each in verdict.entries if isinstance(each, Observation)]
    assert [(each.subject, each.value.unit) for each in read] == [("tyre", unit)] * 4


def test_corners_of_a_loads_size_are_no_tyres(reads: Reader) -> None:
    verdict = reads("n/s front 720 n/s rear 1,010 o/s front 740 o/s rear 990", METRIC)
    assert isinstance(verdict, Facts), verdict
    assert isinstance(verdict.entries[0], Weighing)


@pytest.mark.parametrize(
    ("text", "asked"),
    [
        ("door label: tires 65 front 80 rear", [("front", 65), ("rear", 80)]),
        ("door tag: front tires 65 psi rear tires 80 psi", [("front", 65), ("rear", 80)]),
        ("tire placard: front 35 rear 38", [("front", 35), ("rear", 38)]),
        (
            "gvwr 11,300 front gawr 5,800 rear gawr 7,000 tires front 60 rear 80 psi",
            [("front", 60), ("rear", 80)],
        ),
        (
            "door sticker: gvwr 11,400, front 6,000, rear 7,200. tires 75 front 80 rear",
            [("front", 75), ("rear", 80)],
        ),
    ],
)
def test_each_pressure_off_a_label_is_of_the_end_that_it_is_told_for(
    text: str, asked: list[tuple[str, float]], reads: Reader
) -> None:
    verdict = reads(text)
    assert isinstance(verdict, Facts)
    tyres = [each for each in verdict.entries if isinstance(each, Rating) and each.subject == TYRES]
    assert [(key_of(each), each.value) for each in tyres] == [
        (("truck tyres", "pressure", end), Quantity(psi, "psi")) for end, psi in asked
    ]


def test_pressures_of_a_trailers_label_are_the_trailers_whichever_end_is_named(
    reads: Reader,
) -> None:
    verdict = reads("placard: trailer tires front 65 rear 70")
    assert isinstance(verdict, Facts)
    told = [each for each in verdict.entries if isinstance(each, Rating)]
    assert [key_of(each)[0] for each in told] == ["trailer tyres", "trailer tyres"]


@pytest.mark.parametrize(
    "text",
    [
        "gvwr 11,300 rear gawr 7,000. aired the tires to 80 psi",
        "gvwr 11,300, tires 80 psi",
        "gvwr 11,400 payload 3,100. left rear tire 80 psi",
        "gvwr 11,400 gcwr 24,000, tires are at 80 psi",
    ],
)
def test_what_a_tyre_was_filled_to_beside_limits_is_no_limit(text: str, reads: Reader) -> None:
    verdict = reads(text)
    assert isinstance(verdict, Facts)
    pressures = [each for each in verdict.entries if isinstance(each, Observation)]
    assert [each.value for each in pressures] == [Quantity(80, "psi")]


@pytest.mark.parametrize(
    ("text", "loads"),
    [
        ("5180 front 6860 rear trailer 8120", {"steer": 5180, "drive": 6860, "trailer": 8120}),
        ("steer 5180 drive 6860 trailer 8120 all round good", {"steer": 5180, "trailer": 8120}),
    ],
)
def test_what_axles_weigh_in_the_same_order(
    text: str, loads: dict[str, float], reads: Reader
) -> None:
    verdict = reads(text, on_the_road())
    assert isinstance(verdict, Facts)
    weighing = verdict.entries[0]
    assert isinstance(weighing, Weighing)
    assert {where: weighing.loads[where].value for where in loads} == loads


@pytest.mark.parametrize(
    ("text", "told"),
    [
        (
            "trailer tires: port side 61 psi, starboard 58",
            [("trailer left", 61), ("trailer right", 58)],
        ),
        ("starboard trailer tire 57 psi", [("trailer right", 57)]),
    ],
)
def test_a_boats_sides_are_left_and_right(
    text: str, told: list[tuple[str, float]], reads: Reader
) -> None:
    read = reads(text, on_the_road())
    assert isinstance(read, Facts), read
    assert [
        (each.position, each.value.value) for each in read.entries if isinstance(each, Observation)
    ] == told


def test_what_begins_with_a_port_has_no_side(reads: Reader) -> None:
    assert isinstance(reads("phone port side is bent", on_the_road()), Silent)


@pytest.mark.parametrize(
    ("text", "told"),
    [
        ("water temp's on 201 and oil temp's on 214", [("coolant", 201), ("oil", 214)]),
        ("coolant temps 203, trans temps 188", [("coolant", 203), ("transmission", 188)]),
    ],
)
def test_each_gauge_has_its_own_figure(
    text: str, told: list[tuple[str, float]], reads: Reader
) -> None:
    read = reads(text, on_the_road())
    assert isinstance(read, Facts), read
    assert [
        (each.subject, each.value.value) for each in read.entries if isinstance(each, Observation)
    ] == told
