"""Trailers that were put on or taken off at an odometer reading, told with 'on' and 'off'."""

from __future__ import annotations

import pytest

from domain.entries import Hitch, Odometer
from domain.verdicts import Facts
from tests.domain.reading.chats import Reader, on_the_road


@pytest.mark.parametrize(
    ("text", "told"),
    [
        (
            "camper on at 48,114, off at 48,290",
            [("hitched", "camper"), 48_114, ("unhitched", "camper"), 48_290],
        ),
        ("camper on 48,114", [("hitched", "camper"), 48_114]),
        ("took the flatdeck off at 48,290", [("unhitched", "flatdeck"), 48_290]),
        (
            "trailer on at 48,114, off at 48,290",
            [("hitched", None), 48_114, ("unhitched", None), 48_290],
        ),
        ("flatdeck on at 48,114, home 48,290", [("hitched", "flatdeck"), 48_114, 48_290]),
        ("forgot to say we unhitched at 48,290", [("unhitched", None), 48_290]),
        (
            "trailer off 48,114 camper on 48,115",
            [("unhitched", None), 48_114, ("hitched", "camper"), 48_115],
        ),
        (
            "dropped the trailer, hooked up the camper",
            [("unhitched", None), ("hitched", "camper")],
        ),
        (
            "unhitched the camper, weighed, hitched it back up",
            [("unhitched", "camper"), ("hitched", "camper")],
        ),
        (
            "hitched 48,114 unhitched 48,290",
            [("hitched", None), 48_114, ("unhitched", None), 48_290],
        ),
    ],
)
def test_what_was_done_is_told_before_the_reading(
    text: str, told: list[object], reads: Reader
) -> None:
    verdict = reads(text, on_the_road())
    assert isinstance(verdict, Facts), text
    assert [
        (each.action, each.trailer)
        if isinstance(each, Hitch)
        else isinstance(each, Odometer) and each.odometer.value
        for each in verdict.entries
    ] == told


@pytest.mark.parametrize(
    "text",
    [
        "camper on craigslist 48,114",
        "camper on at 7, off at 9",
        "heater on in the camper 48,114",
        "camper off 48,114 acres",
        "camper lights on at 48,300",
        "not hitched yet",
        "camper not hitched",
        "not hitched yet, ignore that",
    ],
)
def test_what_else_is_on_was_not_hitched(text: str, reads: Reader) -> None:
    verdict = reads(text, on_the_road())
    entries = verdict.entries if isinstance(verdict, Facts) else ()
    assert not [each for each in entries if isinstance(each, Hitch)]


def test_a_trailer_was_dropped_at_its_own_reading(reads: Reader) -> None:
    verdict = reads("dropped the camper 48,114, home 48,290", on_the_road())
    assert isinstance(verdict, Facts)
    assert [(type(each), getattr(each, "place", None)) for each in verdict.entries] == [
        (Hitch, None),
        (Odometer, None),
        (Odometer, "home"),
    ]
