"""Parts and tyres that are a house's or somebody else's, carried, or not seen to at all."""

from __future__ import annotations

import pytest

from domain.entries import Cargo, Check, Fill, Hitch, Observation, Odometer, Rating, Weighing
from domain.quantities import Quantity
from domain.verdicts import Facts, Silent
from tests.domain.reading.chats import Reader, on_the_road


def lb(value: float) -> Quantity:
    return Quantity(value, "lb")


@pytest.mark.parametrize(
    ("text", "cargo"),
    [
        (
            "spare truck tire is on the flatdeck, 90 lb",
            Cargo(item="spare truck tire", value=lb(90), trailer="flatdeck"),
        ),
        (
            "spare tire's in the bed, 85 lbs",
            Cargo(item="spare tire", value=lb(85), position="bed"),
        ),
        (
            "two spare tires on the deck, 90 lb each",
            Cargo(item="spare tires", value=lb(180), position="deck"),
        ),
        ("threw a tire in the bed, 70 lb", Cargo(item="tire", value=lb(70), position="bed")),
        ("4 tires in the bed, 60 lb each", Cargo(item="tires", value=lb(240), position="bed")),
        (
            "tire chains in the bed, 60 lb",
            Cargo(item="tire chains", value=lb(60), position="bed"),
        ),
    ],
)
def test_a_tyre_that_lies_somewhere_is_carried(text: str, cargo: Cargo, reads: Reader) -> None:
    assert reads(text, on_the_road()) == Facts((cargo,))


@pytest.mark.parametrize(
    ("text", "position", "pressure"),
    [
        ("trailer tires at 80 lbs", "trailer", 80),
        ("tires on the camper 80 lb", "trailer", 80),
        ("spare tire on the flatdeck at 60 lbs", "trailer", 60),
        ("front tires 65 lb", "front", 65),
    ],
)
def test_a_tyre_on_its_axle_presses(
    text: str, position: str, pressure: float, reads: Reader
) -> None:
    verdict = reads(text, on_the_road())
    assert isinstance(verdict, Facts)
    (read,) = verdict.entries
    assert isinstance(read, Observation)
    assert (read.subject, read.position) == ("tyre", position)
    assert read.value == Quantity(pressure, "psi")


@pytest.mark.parametrize(
    "text",
    [
        "haven't checked the chains yet",
        "havent checked the chains yet",
        "never greased the hubs",
        "not checked the tires yet",
        "we never hooked up the chains",
        "nobody checked the lights",
        "haven't fixed the left blinker",
    ],
)
def test_what_was_not_seen_to_is_no_check(text: str, reads: Reader) -> None:
    assert reads(text, on_the_road()) == Silent()


@pytest.mark.parametrize(
    ("text", "check"),
    [
        ("checked the chains", Check(item="chains", state="done")),
        ("no problems, greased the hubs", Check(item="hubs", state="done")),
        ("chains not checked yet", Check(item="chains", state="fault")),
        ("fixed the left blinker", Check(item="left blinker", state="done")),
    ],
)
def test_what_was_seen_to_is_one(text: str, check: Check, reads: Reader) -> None:
    verdict = reads(text, on_the_road())
    assert isinstance(verdict, Facts)
    (read,) = verdict.entries
    assert isinstance(read, Check)
    assert (read.item, read.state) == (check.item, check.state)


@pytest.mark.parametrize(
    ("text", "items"),
    [
        ("straps snug — net checked too", ["straps", "net"]),
        ("antifreeze a bit low topped it up", ["antifreeze"]),
        ("trans fluid low, topped it off", ["trans fluid"]),
        ("plug corroded cleaned it", ["plug"]),
        ("tarp flapping retied", ["tarp"]),
        ("tires look ok", ["tires"]),
        ("torqued the wheels", ["wheels"]),
        ("lts all good", ["lights"]),
        ("left the yard, chocks out", ["chocks"]),
        ("forgot to say lights checked", ["lights"]),
        ("chains dragging shortened em", ["chains"]),
        ("left marker light on", ["left marker light"]),
    ],
)
def test_what_was_seen_to_or_topped_up(text: str, items: list[str], reads: Reader) -> None:
    done = tuple(Check(item=item, state="done") for item in items)
    assert reads(text, on_the_road()) == Facts(done)


@pytest.mark.parametrize(
    "text",
    [
        "porch light is burned out",
        "pin fell out of the gate",
        "gate pin fell out",
        "the gate latch is broke",
        "fixed the gate",
        "finished the deck boards, 310 bucks",
        "bob blew a tire by Ontario",
        "dave lost a hub cap",
    ],
)
def test_parts_of_houses_and_of_other_people(text: str, reads: Reader) -> None:
    assert reads(text, on_the_road()) == Silent()


@pytest.mark.parametrize(
    ("text", "items"),
    [
        ("the porch light on the camper is burned out", ["porch light"]),
        ("gate latched, lights checked", ["gate", "lights"]),
        ("hitch pin fell out", ["hitch pin"]),
        ("lost a hub cap", ["hub cap"]),
        ("bob blew a tire on the flatdeck", ["tire"]),
        ("Juniper blew a tire", ["tire"]),
        ("replaced the deck boards on the flatdeck", ["deck boards"]),
    ],
)
def test_the_same_parts_of_the_rig(text: str, items: list[str], reads: Reader) -> None:
    verdict = reads(text, on_the_road())
    assert isinstance(verdict, Facts)
    assert [each.item for each in verdict.entries if isinstance(each, Check)] == items


@pytest.mark.parametrize(
    "text",
    [
        "Dave's hauling 40 bales, 60 lb each",
        "jim is carrying 900 lb in the bed",
        "jim's carrying 900 lb in the bed",
        "payload's only 1,400 on jim's",
        "boat trailer light's out on dave's",
        "tail light out on jim's",
        "we always run 80 in the trailer tires",
        "i'd run 80 in the trailer tires",
        "mowed the back 40, took 3 hours and 4 gallons of gas",
        "baled all day, burned 22 gal of diesel",
        "trailer for the new season dropped, 9/10",
        "got 2 steers at 1,100 each",
        "lost the pin for the baler",
    ],
)
def test_what_others_haul_run_and_burn(text: str, reads: Reader) -> None:
    assert reads(text, on_the_road()) == Silent()


@pytest.mark.parametrize(
    ("text", "kinds"),
    [
        ("carrying 900 lb of feed in the bed", [Cargo]),
        ("the flatdeck's carrying 900 lb of hay", [Cargo]),
        ("payload is 1,400 on Juniper", [Rating]),
        ("tail light out on the camper", [Check]),
        ("run 80 in the trailer tires", [Observation]),
        ("mowed the lawn then got 24.1 gal diesel", [Fill]),
        ("stopped at Ned's, 48,300", [Odometer]),
        ("dropped the trailer", [Hitch]),
        ("lost the pin for the flatdeck", [Check]),
        ("steers 2,550 each", [Weighing]),
    ],
)
def test_what_we_do_in_the_same_words(text: str, kinds: list[type], reads: Reader) -> None:
    verdict = reads(text, on_the_road())
    assert isinstance(verdict, Facts)
    assert [type(each) for each in verdict.entries] == kinds


@pytest.mark.parametrize(
    ("text", "told"),
    [
        (
            "lights chains pins brakes all good",
            [("lights", "done"), ("chains", "done"), ("pins", "done"), ("brakes", "done")],
        ),
        (
            "chains lights breakaway ok",
            [("chains", "done"), ("lights", "done"), ("breakaway", "done")],
        ),
        (
            "walkaround done, all good but the left marker light",
            [("walkaround", "done"), ("left marker light", "fault")],
        ),
        (
            "I checked the safety chains before we pulled out and they're good",
            [("safety chains", "done")],
        ),
        ("wd bars on, chains on", [("chains", "done")]),
        ("everythings good except the right blinker", [("right blinker", "fault")]),
        ("emergency cable hooked", [("emergency cable", "done")]),
        ("hub bearings checked", [("bearings", "done")]),
    ],
)
def test_parts_in_a_row_and_the_one_that_is_excepted(
    text: str, told: list[tuple[str, str]], reads: Reader
) -> None:
    verdict = reads(text, on_the_road())
    assert isinstance(verdict, Facts)
    assert [(each.item, each.state) for each in verdict.entries if isinstance(each, Check)] == told


@pytest.mark.parametrize(
    "text",
    [
        "lights chains bought at the store",
        "everything's checked except the breakaway",
        "all good but the weather",
        "tire tread 6/32 on the rears",
        "5/32 lf 6/32 rf",
    ],
)
def test_what_is_no_check_and_no_pressure(text: str, reads: Reader) -> None:
    assert reads(text, on_the_road()) == Silent()


@pytest.mark.parametrize(
    ("text", "kept"),
    [
        ("bike tyres need air, 40 psi", False),
        ("bike tyres pumped, 40 psi", False),
        ("mower tires need air, 14 psi", False),
        ("truck tires need air, 40 psi", True),
        ("camper tyres pumped, 65 psi", True),
    ],
)
def test_what_a_bike_has_in_its_tyres_is_talk(text: str, kept: bool, reads: Reader) -> None:
    assert isinstance(reads(text, on_the_road()), Facts if kept else Silent)


@pytest.mark.parametrize(
    ("text", "kept"),
    [
        ("bus was full", False),
        ("my plate was full", False),
        ("coolant was low, topped it off", False),
        ("fresh water tank was low, topped it up", False),
        ("it was full", True),
    ],
)
def test_a_tank_was_full_and_not_a_bus(text: str, kept: bool, reads: Reader) -> None:
    assert isinstance(reads(text, on_the_road()), Facts if kept else Silent)


@pytest.mark.parametrize(
    ("text", "kept"),
    [
        ("boat trailer lights dont work, Uncle Roy's", False),
        ("left tail light out, that's Dad's", False),
        ("brake lights dead, my uncle's.", False),
        ("left hub is hot, the camper's", True),
        ("right rear tire is flat, Juniper's", True),
        ("torqued the lugs, back at Molly's", True),
    ],
)
def test_whose_a_part_is_may_be_told_last(text: str, kept: bool, reads: Reader) -> None:
    assert isinstance(reads(text, on_the_road()), Facts if kept else Silent)
