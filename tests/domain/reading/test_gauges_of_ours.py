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
        "wheelbarrow tire is flat, 20 psi tops",
    ],
)
def test_what_is_theirs_or_no_engines_is_not(reads: Reader, text: str) -> None:
    assert reads(text, on_the_road()) == Silent()
