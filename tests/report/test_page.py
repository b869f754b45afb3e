"""The report as HTML: valid, whole in one file, and nothing in it that a person texted as code.

Contrast is computed as WCAG 2.2 has it (success criterion 1.4.3; relative luminance, its
definition of that name; both from memory).
"""

from __future__ import annotations

import re
from dataclasses import replace
from importlib.resources import files
from typing import Any

import html5lib
import pytest

from bot.report.page import html
from bot.report.value import Column, Report, Section, table
from tests.report.conftest import ONE_PIXEL, Book, grey

HOSTILE = "</td><script>alert('bees')</script><img src=x onerror=alert(1)> & \"Söhne\""
HTML = "{http://www.w3.org/1999/xhtml}"


def parsed(page: str) -> Any:
    """The page as a tree; raises where it breaks a rule of the standard."""
    return html5lib.HTMLParser(strict=True).parse(page)


def all_of(page: str, name: str) -> list[Any]:
    return list(parsed(page).iter(f"{HTML}{name}"))


def report_with(*cells: str) -> Report:
    return Report(
        language="en",
        title=HOSTILE,
        span=HOSTILE,
        made="Made on 25 Nov 2026",
        page="Page {number} of {all}",
        paper="a4",
        sections=(
            Section(
                title=HOSTILE,
                paragraphs=(HOSTILE,),
                tables=table(HOSTILE, [Column(HOSTILE)] * len(cells), [cells], cells),
            ),
        ),
        caution="Door label, manual, local law and a licensed mechanic govern.",
    )


def test_the_page_is_valid_html(season: Book, weekend: Book) -> None:
    for book in (season, weekend):
        assert parsed(html(book.report(), grey)) is not None


def test_whatever_was_texted_is_shown_as_the_letters_that_it_is() -> None:
    page = html(report_with(HOSTILE, HOSTILE), grey)
    assert all_of(page, "script") == []
    assert all_of(page, "img") == []
    cells = [each.text for each in (*all_of(page, "td"), *all_of(page, "th"), *all_of(page, "p"))]
    assert cells.count(HOSTILE) >= 6


def test_a_name_in_a_picture_cannot_leave_its_words(weekend: Book) -> None:
    of = weekend.report()
    hostile = [
        replace(
            each, pictures=tuple(replace(one, alt='" onload="alert(1)') for one in each.pictures)
        )
        for each in of.sections
    ]
    images = all_of(html(replace(of, sections=tuple(hostile)), grey), "img")
    assert images
    assert {image.get("alt") for image in images} == {'" onload="alert(1)'}
    assert not any(image.get("onload") for image in images)


def test_the_page_is_one_file_that_asks_for_nothing(weekend: Book) -> None:
    page = html(weekend.report(), grey)
    sources = [each.get("src") for each in all_of(page, "img")]
    assert sources
    assert all(source.startswith("data:image/png;base64,") for source in sources)
    assert not re.search(r"https?://|@import|url\(|<link|<script", page)


def test_every_picture_is_told_in_words_too(weekend: Book) -> None:
    images = all_of(html(weekend.report(), grey), "img")
    assert all("Truck" in image.get("alt") for image in images)


def test_a_table_says_what_its_rows_and_columns_are(season: Book) -> None:
    """WCAG 2.2, 1.3.1, technique H63: `scope` on the headers of a table."""
    page = html(season.report(), grey)
    headers = all_of(page, "th")
    assert {each.get("scope") for each in headers} == {"col", "row"}
    tables = all_of(page, "table")
    assert all(each.find(f"{HTML}caption") is not None for each in tables)
    rows = [row for each in tables for row in each.iter(f"{HTML}tr")]
    assert all(row[0].tag == f"{HTML}th" for row in rows)


def test_the_page_says_its_language(weekend: Book) -> None:
    spanish = replace(weekend, preferences=replace(weekend.preferences, language="es"))
    for book, language in ((weekend, "en"), (spanish, "es")):
        root = parsed(html(book.report(), grey))
        assert root.get("lang") == language


def luminance(colour: str) -> float:
    parts = [int(colour[at : at + 2], 16) / 255 for at in (1, 3, 5)]
    red, green, blue = (
        each / 12.92 if each <= 0.04045 else ((each + 0.055) / 1.055) ** 2.4 for each in parts
    )
    return 0.2126 * red + 0.7152 * green + 0.0722 * blue


@pytest.mark.parametrize("name", ["ink", "soft"])
def test_words_stand_out_from_the_page(name: str) -> None:
    style = (files("bot.report") / "templates" / "report.css").read_text(encoding="utf-8")
    (colour,) = re.findall(rf"--{name}: (#[0-9a-f]{{6}});", style)
    assert (luminance("#ffffff") + 0.05) / (luminance(colour) + 0.05) >= 4.5


def test_the_pixel_that_stands_for_pictures_is_a_png() -> None:
    assert ONE_PIXEL.startswith(b"\x89PNG\r\n\x1a\n")
