"""`drawbar report` as its keeper runs it."""

from __future__ import annotations

from pathlib import Path

import pytest
from click.testing import CliRunner, Result

from bot.cli import main
from tests.report.conftest import Book


def reported(book: Book, *arguments: str | Path) -> Result:
    chosen = [str(each) for each in ("report", *arguments, "--database", book.path)]
    return CliRunner().invoke(main, chosen)


@pytest.mark.parametrize(("name", "begins"), [("trip.pdf", b"%PDF-"), ("trip.HTML", b"<!doctype")])
def test_a_report_is_written_in_the_form_that_the_file_ends_in(
    weekend: Book, tmp_path: Path, name: str, begins: bytes
) -> None:
    done = reported(weekend, tmp_path / name, "--trip")
    assert done.exit_code == 0, done.output
    assert done.output == f"{tmp_path / name}: Orchard trip, 30 May 2026 to 31 May 2026.\n"
    assert (tmp_path / name).read_bytes().startswith(begins)


def test_days_are_asked_for_by_date(season: Book, tmp_path: Path) -> None:
    file = tmp_path / "june.html"
    done = reported(season, file, "--since", "2026-06-01", "--until", "2026-06-30")
    assert done.output == f"{file}: Logbook of Juniper, 1 Jun 2026 to 30 Jun 2026.\n"


@pytest.mark.parametrize(
    ("arguments", "sentence"),
    [
        (("page.doc",), "page.doc ends in none of .html, .pdf."),
        (("page.pdf", "--year", "1999"), "1 Jan 1999 to 31 Dec 1999: nothing logged."),
        (("page.pdf", "--truck", "Hawthorn"), "No truck called Hawthorn in the log."),
        (("page.pdf", "--chat", "nowhere"), "nowhere"),
        (("page.pdf", "--trip", "--year", "2026"), "Say one of --trip, --year, and --since"),
        (("page.pdf", "--since", "June"), "June"),
    ],
)
def test_a_wish_that_cannot_be_met_is_told_in_a_sentence_and_nothing_is_written(
    weekend: Book, tmp_path: Path, arguments: tuple[str, ...], sentence: str
) -> None:
    name, *options = arguments
    done = reported(weekend, tmp_path / name, *options)
    assert done.exit_code == 2
    assert sentence in done.output
    assert list(tmp_path.iterdir()) == []


def test_a_file_that_is_there_is_left_as_it_is(weekend: Book, tmp_path: Path) -> None:
    file = tmp_path / "page.pdf"
    file.write_text("mine")
    assert "is there already" in reported(weekend, file, "--trip").output
    assert file.read_text() == "mine"
