"""The commands of whoever keeps the database, as they are typed."""

from __future__ import annotations

import json
from pathlib import Path

import pytest
from click.testing import CliRunner

from bot.cli import main

OLD = """Date,Odometer,Gallons,Price/gal,Total
2026-05-02,47100,30.2,3.9,117.78
2026-05-09,46900,20,,
"""


@pytest.fixture
def database(tmp_path: Path) -> Path:
    """Where the commands keep their database."""
    return tmp_path / "logbook.db"


def drawbar(database: Path, *words: str, text: str | None = None) -> str:
    done = CliRunner().invoke(
        main, list(words), input=text, env={"DRAWBAR_DATABASE": str(database)}
    )
    assert done.exception is None or isinstance(done.exception, SystemExit), done.exc_info
    return f"{done.exit_code}\n{done.output}"


@pytest.fixture
def told(database: Path) -> Path:
    """A logbook that two people texted to."""
    drawbar(database, "chat", "--as", "Nora", text="odo 48211\n")
    drawbar(database, "chat", "--as", "Ben", text="odo 48300\n")
    return database


def test_an_old_sheet_is_shown_first_and_kept_when_asked(database: Path, tmp_path: Path) -> None:
    old = tmp_path / "old.csv"
    old.write_text(OLD)
    shown = drawbar(database, "import", str(old), "--time-zone", "America/Boise")
    assert shown.splitlines() == [
        "0",
        "Columns: Date = at, Odometer = odometer, Gallons = volume, Price/gal = unit_price,"
        " Total = cost",
        "row 3: not kept. 46,900 mi is behind the last reading, 47,100 mi. What does the"
        " odometer show?",
        "row 2: 2026-05-02 30.2 gal, odometer 47,100 mi, $3.90/gal, total $117.78",
        "1 entry would be kept; nothing is yet. --apply keeps them.",
    ]
    assert drawbar(database, "chats") == "0\n"
    assert drawbar(database, "import", str(old), "--apply").endswith("1 entry kept.\n")
    again = drawbar(database, "import", str(old), "--apply")
    assert "1 entry known already." in again
    assert again.endswith("0 entries kept.\n")
    assert drawbar(database, "chats") == "0\nterminal:home  logbook 1, keeper, 1 entry\n"


def test_a_logbook_is_exported_and_no_file_is_overwritten(told: Path, tmp_path: Path) -> None:
    target = tmp_path / "out.jsonl"
    assert drawbar(told, "export", str(target)).endswith("out.jsonl: 2 entries.\n")
    first, second = map(json.loads, target.read_text().splitlines())
    assert (first["odometer"]["value"], first["by"]) == (48211, "Nora")
    assert (second["odometer"]["value"], second["by"]) == (48300, "Ben")
    assert drawbar(told, "export", str(target)).startswith("2\n")


def test_a_backup_is_taken_and_restored(told: Path, tmp_path: Path) -> None:
    copy = tmp_path / "copy.db"
    assert "rows, whole." in drawbar(told, "backup", str(copy))
    assert drawbar(told, "backup", str(copy)).startswith("2\n")
    assert "--replace" in drawbar(told, "restore", str(copy))
    assert "What was there before is" in drawbar(told, "restore", str(copy), "--replace")


def test_a_database_is_moved(told: Path, tmp_path: Path) -> None:
    new = tmp_path / "new.db"
    assert "rows moved and compared" in drawbar(told, "move", str(told), str(new))
    assert drawbar(new, "chats") == drawbar(told, "chats")
    assert "nothing was moved" in drawbar(told, "move", str(told), str(new))


def test_a_person_is_forgotten_once_that_is_confirmed(told: Path) -> None:
    assert drawbar(told, "forget", "--person", "Nora", text="n\n").startswith("1\n")
    assert b"Nora" in told.read_bytes()
    assert "rows deleted" in drawbar(told, "forget", "--person", "Nora", text="y\n")
    assert b"Nora" not in told.read_bytes()
    assert "No person is called 'Nora'." in drawbar(told, "forget", "--person", "Nora", "--yes")
    assert "Say one of" in drawbar(told, "forget")


def test_people_and_the_weeks_hour_are_set(told: Path) -> None:
    assert "Nora Hale: terminal:nora" in drawbar(told, "person", "Nora", "--call", "Nora Hale")
    joined = drawbar(told, "person", "Nora Hale", "--also", "Ben")
    assert joined.endswith("Nora Hale: terminal:nora, terminal:ben\n")
    week = drawbar(told, "week", "sunday", "18")
    assert week.endswith("The week's summary leaves on Sunday at 18:00.\n")
    assert "only chat that keeps" in drawbar(told, "share", "home", "home", "--reader")
