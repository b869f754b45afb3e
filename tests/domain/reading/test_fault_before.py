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
    ],
)
def test_nothing_is_at_fault(reads: Reader, text: str) -> None:
    assert reads(text, on_the_road()) == Silent()


def test_a_list_with_a_heading_shares_its_state(reads: Reader) -> None:
    verdict = reads("pre trip: tires, lugs, lights, chains all checked", on_the_road())
    items = ("tires", "lugs", "lights", "chains")
    assert verdict == Facts(tuple(Check(item=item, state="done") for item in items))
