"""What is put right or taken out, by chat: the answer, and the log that is left."""

from __future__ import annotations

from pathlib import Path

from tests.whole.chatting import replies

FILLS = ["tank 36 gal diesel", "filled up 31.4 gal, 51,260", "filled up 21.4 gal, 51,488"]


def test_an_older_fill_that_is_named_by_its_reading_goes(tmp_path: Path) -> None:
    *_, gone, week = replies([*FILLS, "delete the fill at 51260", "week"], tmp_path / "log.db")
    assert gone[0] == "Taken back: 31.4 gal, odometer 51,260 mi, full."
    assert any("21.4 gal" in line for line in week)
    assert not any("31.4" in line or "52.8" in line for line in week)


def test_a_reading_that_nobody_texted_takes_nothing_out(tmp_path: Path) -> None:
    *_, answer = replies([*FILLS, "delete the fill at 51999"], tmp_path / "log.db")
    assert answer == ["I find no such figure in what was texted lately; nothing is changed."]


def test_two_loads_that_are_mended_at_once_are_answered_once(tmp_path: Path) -> None:
    texts = ["steer 5,200 drive 6,800 trailer 9,100", "make that steer 5,240 drive 6,840"]
    *_, answer = replies(texts, tmp_path / "log.db")
    assert answer[0].startswith("Steer now 5,240 lb, not 5,200 lb. Drive now 6,840 lb, not 6,800 ")
    assert [line.split() for line in answer if "Gross  " in line] == [["Gross", "21,180", "lb"]]


def test_the_wheel_that_was_meant_is_told_with_what_it_showed(tmp_path: Path) -> None:
    texts = ["LR trailer tire 62 psi", "it was the right rear not the left rear"]
    *_, answer = replies(texts, tmp_path / "log.db")
    assert answer == [
        "Position now trailer right rear, not trailer left rear.",
        "Trailer right rear tyre 62 psi.",
    ]


def test_a_fill_is_logged_for_the_day_that_is_told_afterwards(tmp_path: Path) -> None:
    texts = [*FILLS, "that fill was yesterday", "undo"]
    *_, moved, back = replies(texts, tmp_path / "log.db")
    assert moved[0].startswith("Logged for ")
    assert " now, not " in moved[0]
    assert back[0] == "Taken back: 21.4 gal, odometer 51,488 mi, full."


def test_an_older_fill_that_is_named_by_its_reading_is_mended(tmp_path: Path) -> None:
    texts = [*FILLS, "make the 51,260 fill 30.4 gal", "the fill at 51,999 should be 20.4 gal"]
    *_, mended, unknown = replies(texts, tmp_path / "log.db")
    assert mended[0].startswith("Volume now 30.4 gal, not 31.4 gal.")
    assert unknown == ["I find no such figure in what was texted lately; nothing is changed."]


def test_a_load_that_is_taken_out_is_the_one_that_is_named(tmp_path: Path) -> None:
    texts = ["put 60 l of water in the front tank", "loaded 400 lb of feed in the bed"]
    *_, water, load = replies([*texts, "scratch the water", "delete the load"], tmp_path / "log.db")
    assert water == ["Taken back: water 60 L, front tank."]
    assert load == ["Taken back: feed 400 lb, bed."]
