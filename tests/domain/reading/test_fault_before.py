"""Faults told before the part that they are of, and parts that are not at fault."""

from __future__ import annotations

import pytest

from domain.entries import Check
from domain.verdicts import Facts, Silent
from tests.domain.reading.chats import Reader, on_the_road


@pytest.mark.parametrize(
    ("text", "item"),
    [
        ("no trailer lights", "trailer lights"),
        ("no trailer brakes", "trailer brakes"),
        ("we have no left blinker", "left blinker"),
        ("no brake lights on the trailer", "brake lights"),
        ("hot hub right rear trailer", "hub"),
        ("hot bearing on the left side", "bearing"),
        ("safety pin missing on the coupler", "safety pin"),
        ("tread separating on left rear trailer tire", "left rear trailer tire"),
        ("found a crack in the left spring hanger", "left spring hanger"),
        ("brake controller says no trailer connected", "brake controller"),
        ("trailer brake light on dash", "trailer brake light"),
        ("got the trailer brake light on the dash", "trailer brake light"),
        ("abs light on the dash", "abs light"),
        ("everything works but the left blinker", "left blinker"),
        ("spare wheel is flat", "spare wheel"),
        ("left rear is flat", "left rear"),
        ("left rear's flat", "left rear"),
        ("right front is losing air", "right front"),
        ("well, pump quit", "pump"),
        ("my left rear is flat", "left rear"),
        ("deer broke a mirror", "mirror"),
        ("a rock broke the marker light", "marker light"),
        ("plugged in but no trailer brakes", "trailer brakes"),
        ("mirror came off the bracket", "mirror"),
        ("truck won't start battery dead", "battery"),
        ("net is torn", "net"),
        ("the brake light on right side not working", "brake light"),
        ("tail light on passenger side out", "tail light"),
        ("ramp latch is iced up", "ramp latch"),
        ("trailer plug froze up", "trailer plug"),
        ("left hub weeping grease", "left hub"),
        ("oil leaking", "oil"),
        ("left marker isnt lighting", "left marker"),
        ("left blinker not blinking", "left blinker"),
        ("everything works except the left marker", "left marker"),
        ("tires look low", "tires"),
        ("trans hot", "trans"),
        ("coolant boiling over", "coolant"),
        ("left mkr out", "left marker"),
        ("strap tore", "strap"),
        ("no left signal", "left signal"),
        ("grease leaking out of the left hub", "left hub"),
        ("oil dripping from the hub", "hub"),
        ("hydraulic fluid leaking at the jack", "hydraulic fluid"),
        ("smoke from the left trailer brake", "left trailer brake"),
        ("grinding noise from the left front wheel bearing", "left front wheel bearing"),
        ("trans warning light came on", "trans warning light"),
        ("warning light came on", "warning light"),
        ("flat on the left rear", "left rear"),
        ("puncture on the right front, pulling over", "right front"),
        ("flat on the trailer", "flat"),
        ("oil pressure is low", "oil pressure"),
        ("lost oil pressure", "oil pressure"),
        ("no oil pressure", "oil pressure"),
        ("brakes pulsing", "brakes"),
        ("trailer plug wont stay in", "trailer plug"),
        ("breakaway cable keeps coming unhooked", "breakaway cable"),
        ("latch keeps popping open", "latch"),
        ("no juice on the 7 pin", "7 pin"),
        ("no clearance lights on the right side", "clearance lights"),
    ],
)
def test_one_part_is_at_fault(reads: Reader, text: str, item: str) -> None:
    assert reads(text, on_the_road()) == Facts((Check(item=item, state="fault"),))


@pytest.mark.parametrize(
    "text",
    [
        "tires not worn",
        "bearings not hot",
        "straps arent loose",
        "no lights",
        "no brakes no fear",
        "no tail lights yet from the parts place",
        "hot tires",
        "brake controller on dash",
        "is the left rear flat",
        "left rear might be flat",
        "dave's left rear is flat",
        "the left rear corner of the yard is flat",
        "the road on the left rear is flat",
        "battery's dead on my phone",
        "phone battery's dead",
        "battery on the laptop died",
        "well pump quit",
        "sump pump quit",
        "her left rear was flat in the parking lot",
        "the baler lost a pin",
        "the baler broke a chain",
        "dog broke her chain",
        "mirror fell off the wall",
        "picture fell off the door",
        "strap tore off my sandal",
        "that looks bad",
        "left the chocks in",
        "left the awning out",
        "forgot to take the chocks out",
        "watch strap broke",
        "quad won't start battery dead",
        "the kitchen scale battery is dead",
        "trailer brake light on",
        "airbag light on",
        "trailer disconnected message on dash",
        "dash says trailer disconnected",
        "truck says trailer disconnected",
        "truck keeps saying trailer disconnected",
        "trailer disconnected on the dash",
        "no loose straps",
        "no leaks on the hubs",
        "smoke from the battery plant",
        "smoke from the hub of the fire",
        "noise from the porch door",
        "flat on my back",
        "flat on the right side of the road",
        "flat on the right rear of the picture",
        "flat on her trailer",
        "is the oil pressure low",
        "oil pressure is fine",
        "oil pressure light on",
        "no lights or music",
        "no lights on the right side of the street",
        "signals weak out here",
        "hand signals work better than yelling",
        "turn signal etiquette is dead",
        "straps wont be tight enough",
        "trailer plug would stay in",
        "hubs are supposed to be checked",
        "marker lights stay on",
        "fell off the ramp",
        "tripped on the step",
        "oil is hot, drop the fries",
        "bearing up ok",
        "unhooked the phone",
        "gusts to 45 they say",
        "door looks bad, needs paint",
    ],
)
def test_nothing_is_at_fault(reads: Reader, text: str) -> None:
    assert reads(text, on_the_road()) == Silent()


@pytest.mark.parametrize(
    ("text", "items"),
    [
        ("no trailer brakes no brake lights", ("trailer brakes", "brake lights")),
        ("no brake lights and no turn signals", ("brake lights", "turn signals")),
        ("no trailer brakes or lights", ("trailer brakes", "lights")),
        ("no left blinker or brake light", ("left blinker", "brake light")),
    ],
)
def test_there_is_none_of_several(text: str, items: tuple[str, ...], reads: Reader) -> None:
    faults = tuple(Check(item=item, state="fault") for item in items)
    assert reads(text, on_the_road()) == Facts(faults)


def test_a_list_with_a_heading_shares_its_state(reads: Reader) -> None:
    verdict = reads("pre trip: tires, lugs, lights, chains all checked", on_the_road())
    items = ("tires", "lugs", "lights", "chains")
    assert verdict == Facts(tuple(Check(item=item, state="done") for item in items))


@pytest.mark.parametrize(
    ("text", "fault"),
    [
        ("lights all work except the right blinker", "right blinker"),
        ("lights good except left blinker", "left blinker"),
        ("lights good but the left blinker is slow", None),
        ("lights good but no brakes", "brakes"),
        ("lights work, no brakes needed", None),
        ("lights ok, no signals", "signals"),
    ],
)
def test_lights_are_good_but_for_one(reads: Reader, text: str, fault: str | None) -> None:
    lights = Check(item="lights", state="done")
    told = (lights,) if fault is None else (lights, Check(item=fault, state="fault"))
    assert reads(text, on_the_road()) == Facts(told)


def test_a_corner_is_the_trailers_where_it_is_named(reads: Reader) -> None:
    verdict = reads("left rear of the flatdeck went flat", on_the_road())
    assert verdict == Facts((Check(item="left rear", state="fault", trailer="flatdeck"),))
