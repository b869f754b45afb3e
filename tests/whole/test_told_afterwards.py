"""What is told after the scale, and what it makes of the last weighing: by chat."""

from __future__ import annotations

from pathlib import Path

import pytest

from tests.whole.chatting import replies

RIG = [
    "truck Juniper gvwr 11500 rear axle 7000",
    "trailer flatdeck gvwr 12000",
    "hitched the flatdeck",
    "solo: steer 4980 drive 3620",
    "steer 5080 drive 5900 trailer 8600",
]
LOWER, HITCH, LESS, MORE = (
    "rear axle rating 5800",
    "hitch rating 9000 lb",
    "make that 10000",
    "gvwr 12500",
)


@pytest.fixture(scope="module")
def told(tmp_path_factory: pytest.TempPathFactory) -> dict[str, list[str]]:
    """The lines of the answer to each text."""
    texts = [*RIG, LOWER, HITCH, LESS, MORE]
    return dict(zip(texts, replies(texts, tmp_path_factory.mktemp("told") / "log.db"), strict=True))


@pytest.mark.parametrize(
    ("text", "over"),
    [
        (LOWER, "drive axle by 100 lb"),  # 5,900 of 5,800
        (HITCH, "hitch by 1,980 lb"),  # 19,580 less 8,600 alone is 10,980, of 9,000
        (LESS, "hitch by 980 lb"),  # of 10,000
    ],
)
def test_a_rating_that_the_last_weighing_exceeds_says_so_first(
    text: str, over: str, told: dict[str, list[str]]
) -> None:
    head, *rest = told[text]
    assert head.startswith("Over when weighed ")
    assert f": {over}. " in head
    assert rest[0].startswith("Don't tow it like that. Door label")


def test_a_rating_with_room_is_kept_without_a_caution(told: dict[str, list[str]]) -> None:
    assert told[MORE][0] == "Juniper: GVWR 12,500 lb."
    assert not any("tow it like" in line or "govern" in line for line in told[MORE])


def test_only_what_was_told_is_held_against_the_scale(tmp_path: Path) -> None:
    """The hitch is over already, and the tank's size changes nothing about that."""
    *_, last = replies([*RIG, HITCH, "tank 34 gal diesel"], tmp_path / "log.db")
    assert not any("Over" in line for line in last)
