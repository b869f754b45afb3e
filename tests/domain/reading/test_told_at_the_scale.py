"""What people text from a scale: how the rig stood, loads beside limits, and each of several."""

from __future__ import annotations

from typing import Any

import pytest

from domain.records import verdict_to_record
from tests.domain.reading.chats import Reader, on_the_road


def told(reads: Reader, text: str, **known: Any) -> list[str]:
    """The entries of a message, each on a line: 'weighing gross=21300 rig=hitched'."""
    record = verdict_to_record(reads(text, on_the_road(**known)))
    if record["verdict"] != "entry":
        return [record["verdict"]]
    return [_in_short(entry) for entry in record["entries"]]


def _in_short(entry: dict[str, Any]) -> str:
    fields = {**entry.pop("loads", {}), **entry}
    kind = fields.pop("kind")
    figures = {key: _figure(value) for key, value in fields.items()}
    return " ".join([kind, *(f"{key}={figures[key]}" for key in sorted(figures))])


def _figure(value: Any) -> str:
    return f"{value['value']:g}" if isinstance(value, dict) else str(value)


@pytest.mark.parametrize(
    ("text", "entries"),
    [
        (
            "scales had us at 23,080 all in, hooked to the camper",
            ["weighing gross=23080 rig=hitched trailer=camper"],
        ),
        (
            "coupled to the flatdeck, gross 21,300",
            ["weighing gross=21300 rig=hitched trailer=flatdeck"],
        ),
        # What was done before it was weighed is news.
        (
            "swapped to the flatdeck, gross 21,300",
            [
                "hitch action=hitched trailer=flatdeck",
                "weighing gross=21300 rig=hitched trailer=flatdeck",
            ],
        ),
        (
            "hooked to the camper and rolling, 48,102",
            ["hitch action=hitched trailer=camper", "odometer event=depart odometer=48102"],
        ),
    ],
)
def test_to_what_a_rig_was_hitched_is_no_news_of_a_scale(
    reads: Reader, text: str, entries: list[str]
) -> None:
    assert told(reads, text) == entries


@pytest.mark.parametrize(
    ("text", "entries"),
    [
        (
            "22,900 is what she grossed, bars off, and steer was down to 4,940",
            ["weighing bars=off gross=22900 rig=hitched steer=4940"],
        ),
        (
            "steer 5,300, bars on, drive 6,900, trailer 9,800",
            ["weighing bars=on drive=6900 rig=hitched steer=5300 trailer=9800"],
        ),
        ("steer 5,300, bars off, 4,960", ["weighing steer=5300", "weighing bars=off steer=4960"]),
        (
            "steer 5,300, bars off, steer 4,960",
            ["weighing steer=5300", "weighing bars=off steer=4960"],
        ),
    ],
)
def test_bars_between_two_places_are_of_both(reads: Reader, text: str, entries: list[str]) -> None:
    assert told(reads, text) == entries


@pytest.mark.parametrize(
    ("text", "entries"),
    [
        ("2,200 lb each on the steer and drive", ["weighing drive=2200 steer=2200"]),
        ("steers and drives were 5,200 lb apiece", ["weighing drive=5200 steer=5200"]),
        (
            "each of the two trailer axles 4,240",
            ["weighing trailer_1=4240 trailer_2=4240"],
        ),
        ("each trailer axle 4,800", ["silent"]),  # of how many is not said
        ("weighed each axle: steer 5,160 drive 6,880", ["weighing drive=6880 steer=5160"]),
    ],
)
def test_one_load_of_each(reads: Reader, text: str, entries: list[str]) -> None:
    assert told(reads, text) == entries


@pytest.mark.parametrize(
    ("text", "entries"),
    [
        (
            "truck gvwr 11,500 and it weighed 12,080",
            ["rating rating=gvwr subject=truck value=11500", "weighing truck=12080"],
        ),
        (
            "rear gawr 7,050 actual 6,880",
            ["rating rating=gawr_rear subject=truck value=7050", "weighing drive=6880"],
        ),
        (
            "gcwr 24,000, actual 21,300",
            ["rating rating=gcwr subject=truck value=24000", "weighing gross=21300"],
        ),
        (
            "we came in at 21,300 on a 24,000 gcwr",
            ["weighing gross=21300", "rating rating=gcwr subject=truck value=24000"],
        ),
        (
            "at 21,300 of our 24,000 gcwr",
            ["weighing gross=21300", "rating rating=gcwr subject=truck value=24000"],
        ),
        # A trailer may have been weighed by its axles, or whole.
        (
            "camper gvwr 11,200 and it weighed 10,400",
            ["rating rating=gvwr subject=trailer trailer=camper value=11200"],
        ),
        # A price.
        (
            "saw one for 21,000 on a 24,000 gcwr",
            ["rating rating=gcwr subject=truck value=24000"],
        ),
        ("actual 6,880, gawr 7,050 rear", ["rating rating=gawr_rear subject=truck value=7050"]),
    ],
)
def test_what_was_weighed_beside_its_limit(reads: Reader, text: str, entries: list[str]) -> None:
    assert told(reads, text) == entries
