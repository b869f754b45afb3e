"""Parts and faults of the rig, and those of other things in the same words."""

from __future__ import annotations

import pytest

from domain.entries import Check, Fill, Observation
from domain.verdicts import Facts, Silent
from tests.domain.reading.chats import Reader, on_the_road
from tests.domain.reading.test_told_at_the_scale import told


@pytest.mark.parametrize(
    ("text", "item"),
    [
        ("landing gear motor quit on us", "landing gear motor"),
        ("trailer light socket is cracked", "trailer light socket"),
        ("brake lining is worn", "brake lining"),
        ("brake controller keeps throwing an error", "brake controller"),
        ("pin fell out of the coupler", "pin"),
        ("blew a tire", "tire"),
        ("tarp over the hives is torn", "tarp"),
        ("left rear trailer tire blew up", "left rear trailer tire"),
        ("trailer brakes squeal", "trailer brakes"),
        ("left front brake squeals", "left front brake"),
        ("u bolt snapped", "u bolt"),
        ("electric jack won't retract", "electric jack"),
        ("awning wont roll up", "awning"),
        ("U-bolt cracked", "U-bolt"),
        ("abs sensor bad", "abs sensor"),
    ],
)
def test_a_fault_of_the_rig(reads: Reader, text: str, item: str) -> None:
    assert reads(text, on_the_road()) == Facts((Check(item=item, state="fault"),))


@pytest.mark.parametrize("text", ["bled the brakes", "brakes bled"])
def test_brakes_are_bled(reads: Reader, text: str) -> None:
    assert reads(text, on_the_road()) == Facts((Check(item="brakes", state="done"),))


def test_a_door_that_the_wind_tore_at_is_the_campers_where_it_is_said(reads: Reader) -> None:
    said = Check(item="camper door", state="fault", trailer="camper")
    assert reads("the camper door blew open", on_the_road()) == Facts((said,))


@pytest.mark.parametrize(
    "text",
    [
        "the tire swing broke",
        "door prize broke",
        "the tarp blew away",
        "the door blew open",
        "tarp blew off on the highway",
        "oil's at 350, drop the wings in",
        "mixed up 18.2 gal",
        "tarp over the woodpile is torn",
        "drill press runs 620 rpm",
        "oil temp 375 for the fish fry",
        "he bled all over the floor",
        "flushed the toilet",
        "cooked up 12.5 gal",
    ],
)
def test_what_is_no_matter_of_the_rig(reads: Reader, text: str) -> None:
    assert reads(text, on_the_road()) == Silent()


@pytest.mark.parametrize("text", ["loaded up 18.2 gal", "fixed it, 18.2 gal", "tanked up 18.2 gal"])
def test_what_was_poured_is_a_fill(reads: Reader, text: str) -> None:
    read = reads(text, on_the_road())
    assert isinstance(read, Facts)
    assert isinstance(read.entries[0], Fill)


@pytest.mark.parametrize(
    ("text", "item", "trailer"),
    [
        ("trans is running hot", "trans", None),
        ("coolant's running hot", "coolant", None),
        ("transmission overheating", "transmission", None),
        ("trans is slipping going up the grade", "trans", None),
        ("alternator died", "alternator", None),
        ("got a flat on the camper", "flat", "camper"),
        ("camper has a flat", "flat", "camper"),
        ("had a blowout on the trailer", "blowout", None),
        ("got a flat tire on the camper", "tire", "camper"),
    ],
)
def test_a_fault_of_the_engine_or_a_tyre(
    reads: Reader, text: str, item: str, trailer: str | None
) -> None:
    said = Check(item=item, state="fault", trailer=trailer)
    assert reads(text, on_the_road()) == Facts((said,))


@pytest.mark.parametrize(
    "text",
    [
        "got a flat",
        "ray got a flat on his camper",
        "neighbor's camper had a flat",
        "my bike got a flat on the way",
        "i've got a flat screen tv in the camper",
        "ray's trans is running hot again",
        "starter went out on the tractor",
        "radiator in the bathroom is leaking",
    ],
)
def test_a_fault_of_somebody_elses(reads: Reader, text: str) -> None:
    assert reads(text, on_the_road()) == Silent()


def test_a_gauge_that_was_read_is_no_fault(reads: Reader) -> None:
    verdict = reads("trans is 214 running hot", on_the_road())
    assert isinstance(verdict, Facts)
    assert [type(each) for each in verdict.entries] == [Observation]


@pytest.mark.parametrize(
    "text", ["tied the spare transmission down", "checked the spare fuses", "spare coolant checked"]
)
def test_a_thing_to_spare_is_no_wheel(reads: Reader, text: str) -> None:
    assert isinstance(reads(text, on_the_road()), Silent)


@pytest.mark.parametrize("text", ["checked the spare", "checked the spare twice", "spare checked"])
def test_the_spare_alone_is_the_wheel(reads: Reader, text: str) -> None:
    assert reads(text, on_the_road()) == Facts((Check(item="spare", state="done"),))


def test_what_is_carried_to_spare_is_no_wheel(reads: Reader) -> None:
    read = reads("strapped the spare winch down, 88 lb", on_the_road())
    assert isinstance(read, Facts), read
    assert not [each for each in read.entries if isinstance(each, Check)]


@pytest.mark.parametrize(
    ("text", "kinds"),
    [
        ("tires 80 psi, hubs cool", ["Observation", "Check"]),
        ("bearings cool, tires 80", ["Check", "Observation"]),
        ("coolant 205, oil good", ["Observation", "Check"]),
        ("hubs 120, all cool", ["Observation"]),
        ("tires good, 80 psi", ["Observation"]),
    ],
)
def test_a_part_may_be_checked_beside_another_that_is_measured(
    text: str, kinds: list[str], reads: Reader
) -> None:
    verdict = reads(text, on_the_road())
    assert isinstance(verdict, Facts)
    assert [type(entry).__name__ for entry in verdict.entries] == kinds


@pytest.mark.parametrize(
    ("text", "entries"),
    [
        (
            "Lights, gas locker and corner steadies all checked",
            [
                "check item=Lights state=done",
                "check item=gas locker state=done",
                "check item=corner steadies state=done",
            ],
        ),
        (
            "lights, awning latch and steps all checked",
            [
                "check item=lights state=done",
                "check item=awning latch state=done",
                "check item=steps state=done",
            ],
        ),
        (
            "breakaway cable, coupler lock and lights checked",
            [
                "check item=breakaway cable state=done",
                "check item=coupler lock state=done",
                "check item=lights state=done",
            ],
        ),
        (
            "checked the kingpin lock and the breakaway cable",
            ["check item=kingpin lock state=done", "check item=breakaway cable state=done"],
        ),
        ("found the awning latch broken", ["check item=awning latch state=fault"]),
        (
            "chains pins brakes all good",
            [
                "check item=chains state=done",
                "check item=pins state=done",
                "check item=brakes state=done",
            ],
        ),
        ("filled with gas, doors locked", ["silent"]),
        ("the patio awning latch broke at moms", ["silent"]),
    ],
)
def test_parts_that_are_named_by_two_words(text: str, entries: list[str], reads: Reader) -> None:
    assert told(reads, text) == entries
