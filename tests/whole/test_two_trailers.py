"""Two trailers that nobody named but by their kind, and what changed since each was weighed."""

from __future__ import annotations

from pathlib import Path

import pytest

from tests.whole.chatting import figures, replies

LABELS = [
    "truck gvwr 11500 gcwr 27000 front axle 5600 rear axle 7000",
    "flatdeck: gvwr 14k, two axles 7k each",
    "camper gvwr 9,000, axles 2 x 5000",
    "hitched the flatdeck",
]
FIRST, AGAIN = (
    "steer 4,460 drive 5,880 trailer 10,940",
    "steer 4,380 drive 6,180 trailer 10,720",
)


@pytest.fixture(scope="module")
def day(tmp_path_factory: pytest.TempPathFactory) -> dict[str, list[str]]:
    """The lines of the answer to each text."""
    database: Path = tmp_path_factory.mktemp("day") / "log.db"
    texts = [*LABELS, FIRST, AGAIN, "what changed?", "hitched the camper", "ratings?"]
    texts += ["steer 4,380 drive 6,000 trailer 8,010", "what changed since last time?", "margins"]
    return dict(zip(texts, replies(texts, database), strict=True))


def test_each_kind_has_its_own_label(day: dict[str, list[str]]) -> None:
    assert day[LABELS[1]][0] == "Flatdeck: 2 ratings kept."
    assert day[LABELS[2]][0] == "Camper: 2 ratings kept."


def test_a_trailer_is_held_against_its_own_label(day: dict[str, list[str]]) -> None:
    assert not any("Over" in line for line in day[FIRST]), "14,000 lb is the flatdeck's"
    assert "10,000 lb" in " ".join(day["margins"]), "two axles of the camper"


def test_a_reweigh_says_what_changed(day: dict[str, list[str]]) -> None:
    note = next(line for line in day[AGAIN] if line.startswith("Since "))
    assert note.endswith(": steer -80 lb, drive +300 lb, trailer axles -220 lb.")


def test_what_changed_is_told_when_asked(day: dict[str, list[str]]) -> None:
    headline, *rest = day["what changed?"]
    assert headline.startswith("Changed since ")
    rows = figures(rest)
    assert rows["Drive"] == "+300 lb"
    assert any("6,180 lb, was 5,880 lb" in line for line in rest)
    assert "Gross" not in rows, "it is the same"


def test_another_trailer_has_nothing_to_be_held_against(day: dict[str, list[str]]) -> None:
    assert day["what changed since last time?"][0] == (
        "There is no earlier weighing to hold the last one against."
    )
