"""The report as PDF: read back by another library, page by page."""

from __future__ import annotations

import io
from dataclasses import replace
from time import perf_counter
from typing import cast

import pytest
from pypdf import PdfReader
from pypdf.generic import DictionaryObject

from bot.pictures.drawing import png
from bot.report.composing import Asked
from bot.report.page import html
from bot.report.paper import pdf
from bot.report.value import Column, Paper, Report, Section, table
from tests.report.conftest import Book, grey

POINTS: dict[Paper, tuple[float, float]] = {"a4": (595.28, 841.89), "letter": (612, 792)}
"""Width and height in points: ISO 216 and ANSI/ASME Y14.1, at 72 to the inch."""

Places = list[tuple[float, float]]


def opened(data: bytes) -> PdfReader:
    return PdfReader(io.BytesIO(data), strict=True)


def words(data: bytes) -> str:
    return "\n".join(page.extract_text() for page in opened(data).pages)


def long_report(count: int, note: str = "bees were cross") -> Report:
    rows = [(f"entry {each:,}", note, f"{each:,} lb") for each in range(count)]
    columns = (Column("Entry"), Column("Note"), Column("Load", "right"))
    return Report(
        language="en",
        title="Logbook of Juniper",
        span="2026",
        made="Made on 25 Nov 2026",
        page="Page {number} of {all}",
        paper="a4",
        sections=(Section(title="Notes", tables=table("As texted", columns, rows)),),
        caution="Door label, manual, local law and a licensed mechanic govern.",
    )


def test_the_paper_holds_every_figure_of_the_report(season: Book, weekend: Book) -> None:
    for of in (season.report(), weekend.report(Asked(trip=True))):
        printed = "".join(words(pdf(of, grey)).split())
        for section in of.sections:
            assert "".join(section.title.split()) in printed
            for each in section.tables:
                for cell in (*(cell for row in each.rows for cell in row), *each.total):
                    assert "".join(cell.split()) in printed


@pytest.mark.parametrize("paper", ["a4", "letter"])
def test_the_paper_has_its_size_and_everything_is_inside_the_margins(
    weekend: Book, paper: Paper
) -> None:
    document = opened(pdf(replace(weekend.report(), paper=paper), grey))
    width, height = POINTS[paper]
    for page in document.pages:
        assert float(page.mediabox.width) == pytest.approx(width, abs=0.1)
        assert float(page.mediabox.height) == pytest.approx(height, abs=0.1)
        places: Places = []

        def note(
            text: str, _: object, matrix: list[float], *font: object, into: Places = places
        ) -> None:
            if text.strip():
                into.append((matrix[4], matrix[5]))

        page.extract_text(visitor_text=note)
        assert places
        assert all(40 < x < width - 40 and 20 < y < height - 40 for x, y in places)


def test_the_document_has_a_title_a_language_and_bookmarks(weekend: Book) -> None:
    """PDF 1.7 (ISO 32000-1): /Lang in the catalogue, /DisplayDocTitle in the preferences."""
    of = weekend.report()
    document = opened(pdf(of, grey))
    assert document.metadata is not None
    assert document.metadata.title == f"{of.title}, {of.span}"
    root = cast(DictionaryObject, document.trailer["/Root"])
    assert str(root["/Lang"]) == "en"
    assert "/DisplayDocTitle" in cast(DictionaryObject, root["/ViewerPreferences"])
    bookmarks = [str(cast(DictionaryObject, each)["/Title"]) for each in document.outline]
    assert bookmarks == [each.title for each in of.sections]


def test_every_page_has_the_caution_and_its_number(season: Book) -> None:
    of = season.report()
    pages = opened(pdf(of, grey)).pages
    for number, page in enumerate(pages, start=1):
        text = page.extract_text()
        assert of.caution in text
        assert f"Page {number} of {len(pages)}" in text


def test_a_table_has_its_head_on_every_page(season: Book) -> None:
    pages = opened(pdf(long_report(300), grey)).pages
    assert len(pages) > 3
    assert all("Load" in page.extract_text() for page in pages)


def test_pictures_stand_on_the_paper_as_they_are_drawn(weekend: Book) -> None:
    of = weekend.report(Asked(trip=True))
    shown = [picture for section in of.sections for picture in section.pictures]
    images = [each for page in opened(pdf(of, png)).pages for each in page.images]
    assert len(images) == len(shown) == 2
    assert all(each.image is not None and each.image.width == 1080 for each in images)


def test_a_note_that_fills_pages_is_printed_in_whole() -> None:
    note = " ".join(f"word{each}" for each in range(4000))
    printed = words(pdf(long_report(1, note), grey)).split()
    assert [each for each in printed if each.startswith("word")] == note.split()


def test_a_name_without_an_end_is_broken_and_stays_on_the_page() -> None:
    printed = "".join(words(pdf(long_report(1, "Bienenwagen" * 60), grey)).split())
    assert printed.count("Bienenwagen") == 60


@pytest.mark.parametrize("text", ["", " ", "\n\t", "蜂 🐝 נחל", "a\nb\n\nc", "\u200fabc\u200e"])
def test_whatever_was_texted_can_be_printed(text: str) -> None:
    of = long_report(3, text)
    titled = replace(of, title=f"Logbook of {text}", caution=of.caution + text)
    assert opened(pdf(titled, grey)).pages


def test_the_same_report_is_the_same_file(weekend: Book) -> None:
    of = weekend.report()
    assert pdf(of, grey) == pdf(of, grey)


def test_twenty_thousand_entries_are_printed_in_bounded_time() -> None:
    """Quiet, it takes some six seconds here; ten times that is allowed."""
    of = long_report(20_000)
    began = perf_counter()
    page, paper = html(of, grey), pdf(of, grey)
    assert perf_counter() - began < 60
    assert page.count("<tr>") == 20_001
    last = opened(paper).pages[-1].extract_text()
    assert "19,999 lb" in last
