"""What is taken back in the same breath, and what a correction of an earlier message is of."""

from __future__ import annotations

from typing import Any

import pytest

from domain.entries import Correction, Entry, Fill, Hitch, Observation, Weighing
from domain.quantities import Quantity
from domain.verdicts import Facts, Silent
from tests.domain.driving_log import gal
from tests.domain.reading.chats import Reader, on_the_road
from tests.domain.scale_house import lb


def weighed(rig: Any = None, bars: Any = None, **loads: float) -> Weighing:
    return Weighing(loads={at: lb(load) for at, load in loads.items()}, rig=rig, bars=bars)


def gauge(subject: Any, value: float) -> Observation:
    return Observation(subject=subject, value=Quantity(value, "degF"))


AXLES = {"steer": 5_220, "drive": 6_940, "trailer": 9_310}


@pytest.mark.parametrize(
    ("text", "entry"),
    [
        (
            "steer 5,220 drive 6,490. hang on, misread that, drive 6,940. trailer 9,310",
            weighed("hitched", **AXLES),
        ),
        (
            "front 5,220 rear 6,490, nah read it wrong, rear 6,940. trailer 9,310",
            weighed("hitched", **AXLES),
        ),
        (
            "steer 5,220, drive 6,940 and trailer 9,130. wait no I read the trailer wrong: 9,310",
            weighed("hitched", **AXLES),
        ),
        ("tongue 980, no hang on the kids were standing on it, 860 lb", weighed(tongue=860)),
        ("tongue 980, wait, the jack was still down, 1,040 lb", weighed(tongue=1_040)),
        ("31.2 gal, I tell a lie, 32.1 gal", Fill(volume=gal(32.1))),
        ("31.2 gal, no wait I was looking at the other pump, 28.8 gal", Fill(volume=gal(28.8))),
        ("31.2 gallons. er, 32.1 gallons", Fill(volume=gal(32.1))),
        ("28.8 gal, actually the pump says 31.2", Fill(volume=gal(31.2))),
        ("steer 5,420. disregard that, steer 5,220", weighed(steer=5_220)),
        ("5,220 / 6,940 / 9,130 oops last one's 9,310", weighed("hitched", **AXLES)),
        ("5,220, 6,490, 9,310. sorry the middle one is 6,940", weighed("hitched", **AXLES)),
    ],
)
def test_the_later_figure_counts(text: str, entry: Entry, reads: Reader) -> None:
    assert reads(text, on_the_road()) == Facts((entry,))


@pytest.mark.parametrize(
    ("text", "entries"),
    [
        (
            "coolant 187, sorry that's trans. coolant 204",
            (gauge("transmission", 187), gauge("coolant", 204)),
        ),
        (
            "trans 208, oops thats coolant. coolant 208, trans 187",
            (gauge("coolant", 208), gauge("transmission", 187)),
        ),
        ("steer 6,940, no that was the drive. steer 5,220", (weighed(steer=5_220, drive=6_940),)),
        (
            "hooked up the camper. er no the flatdeck",
            (Hitch(action="hitched", trailer="flatdeck"),),
        ),
        (
            "unhooked the camper. nah, the flatdeck it was",
            (Hitch(action="unhitched", trailer="flatdeck"),),
        ),
    ],
)
def test_the_later_name_counts(text: str, entries: tuple[Entry, ...], reads: Reader) -> None:
    assert reads(text, on_the_road()) == Facts(entries)


@pytest.mark.parametrize(
    ("said", "bars"),
    [
        ("bars were on. no sorry they were off", "off"),
        ("bars off. no wait, on", "on"),
        ("bars on, sorry bars off", "off"),
        ("bars were on. sorry about the mess", "on"),
        ("bars on. oops, we're off", "on"),
        ("(that's with the bars off, no, on)", "on"),
    ],
)
def test_the_later_state_counts(said: str, bars: str, reads: Reader) -> None:
    verdict = reads(f"5,220 / 6,940 / 9,310, {said}", on_the_road())
    assert isinstance(verdict, Facts)
    weighing = verdict.entries[0]
    assert isinstance(weighing, Weighing)
    assert weighing == weighed("hitched", bars, **AXLES)


FILLED = Fill(volume=gal(28.8), cost=Quantity(108.4, "USD"), full=True)


@pytest.mark.parametrize(
    ("text", "entries"),
    [
        ("5,220, uh, 6,940, um, 9,310", (weighed("hitched", **AXLES),)),
        ("5,220 hang on 6,940 9,310", (weighed("hitched", **AXLES),)),
        (
            "steer 5,220, drive 6,940, hold on for the trailer. trailer 9,310",
            (weighed("hitched", **AXLES),),
        ),
        (
            "steer 5,220, wait there's more, drive 6,940, trailer 9,310",
            (weighed("hitched", **AXLES),),
        ),
        ("steer 5,220 drive 6,940, no trailer", (weighed("solo", steer=5_220, drive=6_940),)),
        ("hooked up the camper, no flatdeck", (Hitch(action="hitched", trailer="camper"),)),
        (
            "unhitched the camper. wait, the flatdeck is still on",
            (Hitch(action="unhitched", trailer="camper"),),
        ),
        ("filled 28.8 gal, oh wait, forgot the receipt, $108.40", (FILLED,)),
    ],
)
def test_a_pause_or_more_to_come_takes_nothing_back(
    text: str, entries: tuple[Entry, ...], reads: Reader
) -> None:
    verdict = reads(text, on_the_road())
    assert isinstance(verdict, Facts)
    assert verdict.entries == entries


@pytest.mark.parametrize(
    ("text", "field", "value", "was"),
    [
        ("steer on that ticket was 5,220 not 5,420", "steer", lb(5_220), lb(5_420)),
        ("trailer on that slip should be 9,310 not 9,130", "trailer", lb(9_310), lb(9_130)),
        ("the ticket was 4471 not 4417", "ticket", 4471, 4417),
        ("my typo, gross on the ticket was 21,470", "gross", lb(21_470), None),
        ("drive off the last slip is 6,940, I put 9,640", "drive", lb(6_940), lb(9_640)),
        ("that ticket was $14.50 not $15.40", "cost", Quantity(14.5, "USD"), Quantity(15.4, "USD")),
        ("tongue was 410 kg not 140", "tongue", Quantity(410, "kg"), Quantity(140, "kg")),
        ("tongue was 410 not 140 kg", "tongue", Quantity(410, "kg"), Quantity(140, "kg")),
        ("wrong town, it was Cobblewick not Drybone Flat", "place", "Cobblewick", "Drybone Flat"),
        ("wrong station, it was Larkfold", "place", "Larkfold", None),
    ],
)
def test_what_names_the_figure_is_its_field(
    text: str, field: str, value: object, was: object, reads: Reader
) -> None:
    verdict = reads(text, on_the_road())
    assert isinstance(verdict, Facts)
    (entry,) = verdict.entries
    assert isinstance(entry, Correction)
    assert (entry.field, entry.value, entry.was) == (field, value, was)


@pytest.mark.parametrize(
    "text",
    [
        "Marlow's ticket: steer 5,880 drive 9,120 trailer 14,300",
        "here's Odette's slip, steer 5,880 drive 9,120",
        "Pete's numbers: front 4,480 rear 6,050 trailer 8,980",
        "the bloke in front was doing 60 with a flatdeck on, hub smoking",
        "truck ahead of us lost a chain, safety chain dragging",
        "the car behind had a trailer on, tail light out",
        "lady in the next bay had a camper on, tire flat",
    ],
)
def test_what_is_of_others_is_theirs(text: str, reads: Reader) -> None:
    assert isinstance(reads(text, on_the_road()), Silent)


@pytest.mark.parametrize(
    ("text", "count"),
    [
        ("Juniper's ticket: steer 5,220 drive 6,940 trailer 9,310", 1),
        ("today's ticket: steer 5,220 drive 6,940 trailer 9,310", 1),
        ("guy behind us flashed, left trailer light out", 1),
        ("hub smoking on the camper", 1),
        ("last week's weights: steer 5,220 drive 6,940 trailer 9,310", 1),
        ("filled up next to a guy with a camper, 31.4 gal at 3.89", 1),
        ("car ahead braked hard, trailer brakes felt weak", 1),
        ("he had a look, left trailer light is out", 1),
    ],
)
def test_what_is_ours_is_kept_beside_others(text: str, count: int, reads: Reader) -> None:
    verdict = reads(text, on_the_road())
    assert isinstance(verdict, Facts)
    assert len(verdict.entries) == count


@pytest.mark.parametrize(
    ("text", "kind"),
    [
        ("scratch the fill", "fill"),
        ("delete that weighing", "weighing"),
        ("undo the last fill", "fill"),
        ("please delete that fill up", "fill"),
        ("that last fill was wrong, delete it", "fill"),
        ("take the last fill out", "fill"),
        ("delete the last odometer reading", "odometer"),
        ("undo that last weigh-in", "weighing"),
        ("drop the fuel entry", "fill"),
        ("scratch that", None),
        ("delete that, wrong odometer", None),
        ("scratch that, wrong fuel", None),
        ("undo, wrong fill", None),
    ],
)
def test_what_kind_is_taken_back(text: str, kind: str | None, reads: Reader) -> None:
    verdict = reads(text, on_the_road())
    assert isinstance(verdict, Facts), verdict
    (entry,) = verdict.entries
    assert isinstance(entry, Correction)
    assert entry.action == "undo"
    assert {name for name, _ in entry.words} == ({kind} if kind else set())
