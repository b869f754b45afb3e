"""Gauges that are read out to whoever writes them down, and water that no engine has in it."""

from __future__ import annotations

import pytest

from domain.entries import Observation, Weighing
from domain.verdicts import Facts, Silent
from tests.domain.reading.chats import Reader, on_the_road


@pytest.mark.parametrize(
    ("text", "read"),
    [
        ("for ya trans 188 coolant 204", {"transmission": 188, "coolant": 204}),
        ("got the gauges for ya oil 212 trans 188", {"oil": 212, "transmission": 188}),
        ("got some numbers for u coolant 204", {"coolant": 204}),
        ("water temp 204", {"coolant": 204}),
        ("coolant temp 110 at the start", {"coolant": 110}),
        ("tires 80 off the gauge", {"tyre": 80}),
        ("coolant pegged at 230", {"coolant": 230}),
        ("wind 30, 24 degrees", {"wind": 30, "ambient": 24}),
        ("running 55 into a 20 headwind", {"speed": 55, "wind": 20}),
        ("put 80 psi in the left front", {"tyre": 80}),
        ("left rear down to 48 psi", {"tyre": 48}),
        ("104 in the shade, coolant 215", {"ambient": 104, "coolant": 215}),
        ("104 degrees in the shade", {"ambient": 104}),
        ("38 in the shade and 40 mph headwind", {"ambient": 38, "wind": 40}),
        ("air pressure 65 all around", {"tyre": 65}),
        ("65 air pressure", {"tyre": 65}),
        ("pressure check 65 psi all round", {"tyre": 65}),
        ("oil pressure zero", {"oil": 0}),
        ("oil pressure 12", {"oil": 12}),
    ],
)
def test_a_gauge_of_ours_is_read(reads: Reader, text: str, read: dict[str, float]) -> None:
    verdict = reads(text, on_the_road())
    assert isinstance(verdict, Facts), verdict
    told = {
        each.subject: each.value.value for each in verdict.entries if isinstance(each, Observation)
    }
    assert told == read


def test_a_scale_is_read_out_to_somebody(reads: Reader) -> None:
    verdict = reads("numbers for ya steer 4880 drive 5720 trailer 9140", on_the_road())
    assert isinstance(verdict, Facts), verdict
    (entry,) = verdict.entries
    assert isinstance(entry, Weighing)
    assert {axle: load.value for axle, load in entry.loads.items()} == {
        "steer": 4880,
        "drive": 5720,
        "trailer": 9140,
    }


@pytest.mark.parametrize(
    ("text", "read"),
    [
        ("tires 65 65 80 80 cold", [(65, None), (65, None), (80, None), (80, None)]),
        ("tires 80 81 before we left", [(80, None), (81, None)]),
        ("tyres all 65 except the spare 40", [(65, None), (40, "spare")]),
        ("lft trlr tire 32psi rt 34", [(32, "trailer left"), (34, "trailer right")]),
        ("tpms 80 81 79 78 trailer", [(each, "trailer") for each in (80, 81, 79, 78)]),
        ("hubs 98 101 99 97 on the trailer", [(each, "trailer") for each in (98, 101, 99, 97)]),
        ("all trailer tires 65, spare 60", [(65, "trailer"), (60, "spare")]),
        ("tires 65 65 80 80 trailer", [(65, None), (65, None), (80, None), (80, "trailer")]),
        ("left tires 65, right 66", [(65, "left"), (66, "right")]),
        ("spare 50 tires 65", [(50, "spare"), (65, None)]),
    ],
)
def test_where_each_tyre_of_a_row_is(
    reads: Reader, text: str, read: list[tuple[float, str | None]]
) -> None:
    verdict = reads(text, on_the_road())
    assert isinstance(verdict, Facts), verdict
    told = [each for each in verdict.entries if isinstance(each, Observation)]
    assert [(each.value.value, each.position) for each in told] == read


@pytest.mark.parametrize(
    "text",
    [
        "got a beer for ya trans 188",
        "your trans 188",
        "for ya 40 lb of honey in the bed",
        "pool water temp 82",
        "lake water temp's 71 today",
        "hot tub water temp 102",
        "water temp in the pond 61",
        "sous vide water temp 140",
        "costco has tires 150 off",
        "tires are 80 off at the shop",
        "tires 15 off each with the card",
        "tires 100 off a set",
        "tires 640 mounted",
        "well pump pressure 60",
        "my car needs tires, 640 installed",
        "fuel pressure 55",
        "put 10 psi in the left front trailer tire",
        "put 5 psi in the rears",
        "rr camper down 12 psi",
        "left rear is 10 psi under the others",
        "24 degrees, no wind",
        "boost pressure 28 psi",
        "took rt 34 out of Arden",
        "picnic was lovely, wind 30, 24 degrees",
        "picnic was great, 75 and no wind",
        "40 mph gusts at the beach",
        "wheelbarrow tire is flat, 20 psi tops",
        "running hot today, 101 in the shade",
        "its 97 in the shade here",
        "air pressure at the gym is 14.7",
        "pressure cooker 15 psi for 20 min",
        "oil 3",
    ],
)
def test_what_is_theirs_or_no_engines_is_not(reads: Reader, text: str) -> None:
    assert reads(text, on_the_road()) == Silent()
