"""Figures that somebody says he told wrongly, and whom he says it to."""

from __future__ import annotations

import pytest

from tests.domain.reading.chats import Reader
from tests.domain.reading.test_told_at_the_scale import told


@pytest.mark.parametrize(
    ("text", "entries"),
    [
        (
            "gross is 21,970 - I fat fingered it, sorry",
            ["correction action=amend field=gross value=21970"],
        ),
        ("drive is 6,140, typo", ["correction action=amend field=drive value=6140"]),
        (
            "steer is 5,140, I read it wrong, sorry mate",
            ["correction action=amend field=steer value=5140"],
        ),
        ("gross is 21,970 lb, sorry", ["weighing gross=21970 rig=hitched"]),
    ],
)
def test_a_slip_owned_up_to_behind_a_figure(reads: Reader, text: str, entries: list[str]) -> None:
    assert told(reads, text)[0].split(" rig")[0] == entries[0].split(" rig")[0]


@pytest.mark.parametrize(
    ("text", "entries"),
    [
        (
            "I told you 48,944 for the odometer but I misread it, should be 48,994.",
            ["correction action=amend field=odometer value=48994 was=48944"],
        ),
        (
            "I said odometer 48,944 but I misread it, should be 48,994",
            ["correction action=amend field=odometer value=48994 was=48944"],
        ),
        (
            "told you the gross was 14,200, my mistake, it was 14,020",
            ["correction action=amend field=gross value=14020 was=14200"],
        ),
        (
            "I'm afraid I gave you the wrong price earlier; it was 3.849 a gallon",
            ["correction action=amend field=unit_price value=3.849"],
        ),
        (
            "I sent you 48,210, typo, should be 48,120",
            ["correction action=amend value=48120 was=48210"],
        ),
        ("told you 31.4 but the slip says 34.1", ["silent"]),
        ("I gave you the wrong change earlier; it was 12.50", ["silent"]),
        ("told you we'd be 20 minutes, sorry, its more like 40", ["silent"]),
        ("steer 5,360, no sorry, 5,460", ["weighing steer=5460"]),
    ],
)
def test_what_was_told_before_is_put_right(reads: Reader, text: str, entries: list[str]) -> None:
    assert told(reads, text) == entries


@pytest.mark.parametrize(
    ("text", "entries"),
    [
        (
            "sorry love that was 48,655 not 48,665",
            ["correction action=amend value=48655 was=48665"],
        ),
        ("whoops hon, 31.2 not 32.1", ["correction action=amend value=31.2 was=32.1"]),
        (
            "naw hoss I meant steer, not drive",
            ["correction action=amend field=steer was=drive"],
        ),
        ("ack ignore what i just sent", ["correction action=undo"]),
        ("sorry love we're running late", ["silent"]),
    ],
)
def test_whom_one_speaks_to_says_nothing(reads: Reader, text: str, entries: list[str]) -> None:
    assert told(reads, text) == entries


@pytest.mark.parametrize(
    ("text", "entries"),
    [
        (
            "naw, mileage was 48,920 no 48,902",
            ["correction action=amend field=odometer value=48920 was=48902"],
        ),
        (
            "naw, volume wis 60.1L no 61L",
            ["correction action=amend field=volume value=60.1 was=61"],
        ),
        ("naw, 31 litres, no more", ["silent"]),
        ("no, volume was 60.1L, no, 61L", ["silent"]),
    ],
)
def test_who_says_naw_says_no_for_not(reads: Reader, text: str, entries: list[str]) -> None:
    assert told(reads, text) == entries
