"""Caravans, utes and boats as their people text them: kilograms, plates, fluids and torques."""

from __future__ import annotations

from dataclasses import replace

import pytest

from domain.context import Context
from domain.entries import Cargo, Check, Entry, Fill, Odometer, Rating, Weighing
from domain.quantities import Quantity
from domain.verdicts import Facts, Silent
from tests.domain.reading.chats import Reader, chat


def kg(value: float) -> Quantity:
    return Quantity(value, "kg")


def litres(value: float) -> Quantity:
    return Quantity(value, "L")


CARAVAN: Context = replace(
    chat(trailers=("Camper",)), units="metric", currency="AUD", odometer=Quantity(51_200, "km")
)


@pytest.mark.parametrize(
    ("text", "rating", "value"),
    [
        ("ute gvm 3300 kg, front axle 1480, rear axle 1985", "gawr_rear", 1985),
        ("gvm 3200, rear axle 1995, front axle 1450", "gawr_rear", 1995),
        ("gvm 3,050 kg front axle 1990 kg rear axle 1850", "gawr_front", 1990),
    ],
)
def test_an_axles_limit_may_look_like_a_year(
    text: str, rating: str, value: float, reads: Reader
) -> None:
    verdict = reads(text, CARAVAN)
    assert isinstance(verdict, Facts)
    rated = {each.rating: each.value for each in verdict.entries if isinstance(each, Rating)}
    assert len(rated) == len(verdict.entries) == 3
    assert rated[rating] == kg(value)


@pytest.mark.parametrize("text", ["gvwr 9,000, axles / 1998", "Winter Ball 2019, gvwr 9000"])
def test_a_year_beside_a_plate_is_no_limit(text: str, reads: Reader) -> None:
    verdict = reads(text, chat())
    assert isinstance(verdict, Facts)
    assert [each.rating for each in verdict.entries if isinstance(each, Rating)] == ["gvwr"]


@pytest.mark.parametrize(
    ("text", "subject", "rating"),
    [
        ("payload of the caravan is 240", "trailer", "payload"),
        ("payload on the caravan 240 kg", "trailer", "payload"),
        ("payload with the caravan on is 240", "truck", "payload"),
        ("caravan mro 240 kg", "trailer", "curb"),
    ],
)
def test_whose_payload_and_empty_weight_it_is(
    text: str, subject: str, rating: str, reads: Reader
) -> None:
    verdict = reads(text, CARAVAN)
    assert isinstance(verdict, Facts)
    (entry,) = verdict.entries
    assert isinstance(entry, Rating)
    assert (entry.subject, entry.rating, entry.value) == (subject, rating, kg(240))


@pytest.mark.parametrize(
    ("text", "volume"),
    [
        ("water tanks full now, 2 x 95 L", 190),
        ("filled both water tanks, 95 L each", 190),
        ("three water tanks, 60 litres each", 180),
        ("topped up the water tank with 80 L", 80),
    ],
)
def test_water_tanks_hold_no_fuel(text: str, volume: float, reads: Reader) -> None:
    verdict = reads(text, CARAVAN)
    assert isinstance(verdict, Facts)
    (entry,) = verdict.entries
    assert isinstance(entry, Cargo)
    assert (entry.item, entry.value) == ("water", litres(volume))


@pytest.mark.parametrize(
    "text",
    [
        "coolant 2 L added",
        "topped up the coolant with 2 L",
        "oil topped up, 1.5 L",
        "5 L oil in",
        "put 5 litres of oil in",
        "gearbox oil 3 L",
    ],
)
def test_oil_and_coolant_are_no_fuel(text: str, reads: Reader) -> None:
    verdict = reads(text, CARAVAN)
    entries = verdict.entries if isinstance(verdict, Facts) else ()
    assert not [each for each in entries if isinstance(each, Fill)]


@pytest.mark.parametrize(
    "text", ["oil fine, filled up 62.8 L", "checked the oil and filled up, 62.8 L"]
)
def test_fuel_beside_oil_is_fuel(text: str, reads: Reader) -> None:
    verdict = reads(text, CARAVAN)
    assert isinstance(verdict, Facts)
    assert [each.volume for each in verdict.entries if isinstance(each, Fill)] == [litres(62.8)]


@pytest.mark.parametrize(
    ("text", "entries"),
    [
        ("van tyres torqued 90 nm", (Check(item="van tyres", state="done"),)),
        ("wheel nuts torqued to 90 Nm", (Check(item="wheel nuts", state="done"),)),
        ("lug nuts torqued to 100 ft-lbs", (Check(item="lug nuts", state="done"),)),
        (
            "greased the bearings 51 700",
            (
                Check(item="bearings", state="done"),
                Odometer(
                    odometer=Quantity(51_700, "km"),
                    words=(("odometer", "51 700"),),
                ),
            ),
        ),
    ],
)
def test_a_torque_is_no_pressure_and_an_odometer_no_heat(
    text: str, entries: tuple[Entry, ...], reads: Reader
) -> None:
    assert reads(text, CARAVAN) == Facts(entries)


@pytest.mark.parametrize(
    "text",
    [
        "ute and van on the deck 5.12t",
        "D/T 1.8 t on the trailer plate",
        "we've got the awning in the boot and two gas bottles up front",
        "spare chairs and the jack up front",
    ],
)
def test_a_rig_or_a_plate_is_no_cargo_and_up_front_no_state(text: str, reads: Reader) -> None:
    assert isinstance(reads(text, CARAVAN), Silent)


def test_a_plate_of_steel_is_cargo(reads: Reader) -> None:
    verdict = reads("steel plate 300 kg in the tray", CARAVAN)
    assert isinstance(verdict, Facts)
    (entry,) = verdict.entries
    assert isinstance(entry, Cargo)
    assert entry.item == "steel plate"


@pytest.mark.parametrize(("hitched", "rig"), [(None, "hitched"), (False, "hitched"), (True, None)])
@pytest.mark.parametrize("text", ["train weight 3,690", "gross train weight 3690 kg", "GTW 3690"])
def test_a_train_is_truck_and_trailer(
    text: str, hitched: bool | None, rig: str | None, reads: Reader
) -> None:
    verdict = reads(text, replace(CARAVAN, hitched=hitched))
    assert isinstance(verdict, Facts)
    (entry,) = verdict.entries
    assert isinstance(entry, Weighing)
    assert (entry.loads, entry.rig) == ({"gross": kg(3690)}, rig)


@pytest.mark.parametrize("text", ["noseweight 76", "nose weight now 76", "ball weight 76"])
def test_a_caravans_nose_is_light(text: str, reads: Reader) -> None:
    verdict = reads(text, CARAVAN)
    assert isinstance(verdict, Facts)
    (entry,) = verdict.entries
    assert isinstance(entry, Weighing)
    assert entry.loads == {"tongue": kg(76)}


@pytest.mark.parametrize("text", ["noseweight 12", "tongue 76"])
def test_so_little_is_said_of_other_tongues(text: str, reads: Reader) -> None:
    assert isinstance(reads(text, chat(trailers=("Camper",))), Silent)


@pytest.mark.parametrize(
    "text",
    [
        "camper atm 2800 kg gtm 2570 kg, axles 2 x 1500",
        "gtm 2570, atm 2800, 2 axles 1500 each",
        "atm 2,800 kg. gross trailer mass 2,570 kg. axles rated 1500 kg x 2",
    ],
)
def test_what_the_axles_may_weigh_together_is_no_rating_of_one(text: str, reads: Reader) -> None:
    verdict = reads(text, CARAVAN)
    assert isinstance(verdict, Facts)
    rated = {
        each.rating: (each.subject, each.value)
        for each in verdict.entries
        if isinstance(each, Rating)
    }
    assert rated == {
        "gvwr": ("trailer", kg(2800)),
        "gtm": ("trailer", kg(2570)),
        "gawr": ("trailer", kg(1500)),
    }


@pytest.mark.parametrize(
    ("text", "items"),
    [
        ("checked lights, chains and the breakaway cable", ["lights", "chains", "breakaway cable"]),
        ("lights, chains and brakes checked", ["lights", "chains", "brakes"]),
        ("greased the hubs, checked the tyres and lights", ["hubs", "tyres", "lights"]),
        ("lights, left marker light and chains good", ["lights", "left marker light", "chains"]),
        ("checked the straps, the binders, and the ramps", ["straps", "binders", "ramps"]),
        ("checked the lights, chains are next", ["lights"]),
        ("checked lights, chains, breakaway and pins", ["lights", "chains", "breakaway", "pins"]),
        ("lights, chains and clevises checked", ["lights", "chains", "clevises"]),
        ("checked the lights, will do the chains and pin later", ["lights"]),
    ],
)
def test_a_list_shares_what_was_done_with_it(text: str, items: list[str], reads: Reader) -> None:
    verdict = reads(text, CARAVAN)
    assert verdict == Facts(tuple(Check(item=item, state="done") for item in items))


@pytest.mark.parametrize(
    "text",
    [
        "who checked the lights, chains and pin",
        "need to check lights, chains and the plug",
        "did you check the lights and the chains?",
    ],
)
def test_a_list_that_is_to_be_checked_was_not(text: str, reads: Reader) -> None:
    assert not isinstance(reads(text, CARAVAN), Facts)


def test_a_marker_may_be_what_a_walk_round_found(reads: Reader) -> None:
    verdict = reads("walkround done but the left marker is out", CARAVAN)
    assert verdict == Facts(
        (Check(item="walkround", state="done"), Check(item="left marker", state="fault"))
    )


def test_a_fault_is_not_shared(reads: Reader) -> None:
    verdict = reads("tyres low, lights and chains good", CARAVAN)
    assert verdict == Facts(
        (
            Check(item="tyres", state="fault"),
            Check(item="lights", state="done"),
            Check(item="chains", state="done"),
        )
    )


@pytest.mark.parametrize(
    ("text", "loads"),
    [
        (
            "2.48 t on the van axles, 215 ball",
            {"trailer": Quantity(2.48, "t"), "tongue": kg(215)},
        ),
        (
            "caravan axles 1.42t noseweight 85",
            {"trailer": Quantity(1.42, "t"), "tongue": kg(85)},
        ),
        ("van on: 2480 axles 265 ball", {"trailer": kg(2480), "tongue": kg(265)}),
        (
            "nearside 690 offside 720 nose 85",
            {"trailer_left": kg(690), "trailer_right": kg(720), "tongue": kg(85)},
        ),
        (
            "whole rig 6.48 tonne, ute 3.12 and van 3.36",
            {"gross": Quantity(6.48, "t"), "truck": Quantity(3.12, "t")}
            | {"trailer": Quantity(3.36, "t")},
        ),
    ],
)
def test_what_a_van_bears_and_what_rests_on_the_ball(
    text: str, loads: dict[str, Quantity], reads: Reader
) -> None:
    verdict = reads(text, CARAVAN)
    assert isinstance(verdict, Facts)
    (only,) = verdict.entries
    assert isinstance(only, Weighing)
    assert only.loads == loads


def test_axles_of_a_size_are_a_makers(reads: Reader) -> None:
    verdict = reads("van has 2,500 axles", CARAVAN)
    assert isinstance(verdict, Facts)
    assert [each.rating for each in verdict.entries if isinstance(each, Rating)] == ["gawr"]


@pytest.mark.parametrize(
    ("text", "rated"),
    [
        ("car gross 2,520, train 4,520 from the plate", {"gvwr": 2520, "gcwr": 4520}),
        ("truck gross 2,520, train 4,520 on the plate", {"gvwr": 2520, "gcwr": 4520}),
        ("kerb 1,880 gross 2,450 train 4,250", {"curb": 1880, "gvwr": 2450, "gcwr": 4250}),
        (
            "vin plate gross 2,520 train 4,520 axle 1 1,240 axle 2 1,420",
            {"gvwr": 2520, "gcwr": 4520, "gawr_front": 1240, "gawr_rear": 1420},
        ),
    ],
)
def test_a_train_on_a_plate_is_no_railways(
    text: str, rated: dict[str, float], reads: Reader
) -> None:
    verdict = reads(text, CARAVAN)
    assert isinstance(verdict, Facts)
    found = [each for each in verdict.entries if isinstance(each, Rating)]
    assert len(found) == len(verdict.entries)
    assert {each.rating: each.value for each in found} == {
        name: kg(value) for name, value in rated.items()
    }
    assert {each.subject for each in found} == {"truck"}


def test_the_number_of_a_train_is_no_load(reads: Reader) -> None:
    assert isinstance(reads("train 4,520 was late", CARAVAN), Silent)


def test_a_users_payload_is_a_caravans(reads: Reader) -> None:
    verdict = reads("MTPLM 1,495, MIRO 1,310, user payload 185", CARAVAN)
    assert isinstance(verdict, Facts)
    assert [
        (each.subject, each.rating) for each in verdict.entries if isinstance(each, Rating)
    ] == [
        ("trailer", "gvwr"),
        ("trailer", "curb"),
        ("trailer", "payload"),
    ]


@pytest.mark.parametrize(
    ("text", "loads"),
    [
        (
            "2.76 tonne van, 265 on the ball",
            {"trailer": Quantity(2.76, "t"), "tongue": kg(265)},
        ),
        (
            "van on the weighbridge, 1,420 kg on the axle and 95 on the nose",
            {"trailer": kg(1420), "tongue": kg(95)},
        ),
    ],
)
def test_a_van_that_is_weighed_in_kilograms_is_one_in_any_chat(
    text: str, loads: dict[str, Quantity], reads: Reader
) -> None:
    for known in (CARAVAN, chat()):
        verdict = reads(text, known)
        assert isinstance(verdict, Facts)
        (only,) = verdict.entries
        assert isinstance(only, Weighing)
        assert only.loads == loads
