"""Volumes whose unit stands before them, as on a receipt, and the currency of such a fill."""

from __future__ import annotations

import pytest

from domain.entries import Fill, Odometer
from domain.quantities import Quantity
from domain.verdicts import Facts, Silent
from tests.domain.reading.chats import Reader, on_the_road


@pytest.mark.parametrize(
    ("text", "volume", "unit"),
    [
        ("LITRES 88.20", 88.2, "L"),
        ("Litres: 88.20", 88.2, "L"),
        ("diesel\nLITERS = 88.20", 88.2, "L"),
        ("Vol L 88.20", 88.2, "L"),
        ("Volume (L): 88.20", 88.2, "L"),
        ("GALLONS 28.412\nPRICE/GAL 3.799", 28.412, "gal"),
        ("odo 51612 gal 31.4", 31.4, "gal"),
        ("price per gallon 3.899, 31.4 total 122.43", 31.4, "gal"),
        ("31.4 gallons 122.43 dollars", 31.4, "gal"),
    ],
)
def test_a_unit_before_a_figure_is_its_unit(
    text: str, volume: float, unit: str, reads: Reader
) -> None:
    verdict = reads(text, on_the_road())
    assert isinstance(verdict, Facts)
    (fill,) = verdict.entries
    assert isinstance(fill, Fill)
    assert fill.volume == Quantity(volume, unit)


def test_gallons_are_gallons_in_a_metric_chat(reads: Reader) -> None:
    metric = on_the_road(units="metric", tank=Quantity(140, "L"))
    verdict = reads("GALLONS 28.20", metric)
    assert verdict == Facts((Fill(volume=Quantity(28.2, "gal")),))


def test_a_price_is_in_the_currency_of_the_sum_beside_it(reads: Reader) -> None:
    abroad = on_the_road(currency="USD")
    verdict = reads("LITRES 88.20\n$/L 1.679\nTOTAL CAD 148.09", abroad)
    assert isinstance(verdict, Facts)
    (fill,) = verdict.entries
    assert isinstance(fill, Fill)
    assert (fill.unit_price, fill.cost) == (Quantity(1.679, "CAD/L"), Quantity(148.09, "CAD"))


def test_a_sum_before_the_odometer_is_no_reading_of_it(reads: Reader) -> None:
    verdict = reads("26.4 gal at 3.799 a gallon, 100.29, odo 51,488 mi", on_the_road())
    assert isinstance(verdict, Facts)
    (fill,) = verdict.entries
    assert isinstance(fill, Fill)
    assert (fill.cost, fill.odometer) == (Quantity(100.29, "USD"), Quantity(51_488, "mi"))


def test_a_letter_alone_heads_nothing(reads: Reader) -> None:
    assert reads("def heapify(n):\n    l = 2 * i + 1\n    r = 2 * i + 2", on_the_road()) == Silent()


@pytest.mark.parametrize("text", ["filled upppp 29.3 gal", "fulllll tank, 29.3 gal"])
def test_a_word_that_is_drawn_out_is_the_word(text: str, reads: Reader) -> None:
    assert reads(text, on_the_road()) == Facts((Fill(volume=Quantity(29.3, "gal"), full=True),))


EARLY = on_the_road(odometer=Quantity(31_300, "mi"))
"""A chat whose odometer follows on to what a pump shows in thousandths."""


@pytest.mark.parametrize(
    "text",
    [
        "GALLONS 31.418\nPRICE/GAL $3.649\nTOTAL $114.64",
        "qty 31.418 amount 114.64",
        "31.418 @ 3.649 = 114.64",
        "pumped 31.418 for $114.64",
    ],
)
def test_thousandths_beside_what_was_paid_were_pumped(text: str, reads: Reader) -> None:
    verdict = reads(text, EARLY)
    assert isinstance(verdict, Facts)
    (fill,) = verdict.entries
    assert isinstance(fill, Fill)
    assert (fill.volume, fill.odometer) == (Quantity(31.418, "gal"), None)


@pytest.mark.parametrize(
    "text",
    [
        "odo 31.418, $114.64",
        "got home 31.418, dinner $30",
        "31.418, 28.2 gal, $101.30",
        "fuel 28.2 at 31.418, $101.30",
        "28.2 gal 31.418 3.649",
        "31.418",
    ],
)
def test_thousands_behind_a_dot_are_a_reading_elsewhere(text: str, reads: Reader) -> None:
    verdict = reads(text, EARLY)
    assert isinstance(verdict, Facts)
    (entry,) = verdict.entries
    assert isinstance(entry, Fill | Odometer)
    assert entry.odometer == Quantity(31_418, "mi")
