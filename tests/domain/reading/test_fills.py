"""Fills in people's own words: prices in pence, what was full, whose the odometer is."""

from __future__ import annotations

import pytest

from domain.entries import Fill, Hitch, Odometer
from domain.quantities import Quantity
from domain.verdicts import Ask, Facts, Silent
from tests.domain.reading.chats import Reader, chat, on_the_road

BRITISH = chat(
    units="imperial",
    currency="GBP",
    time_zone="Europe/London",
    odometer=Quantity(48_010, "mi"),
    tank=Quantity(18, "gal_imp"),
    fuel="diesel",
    truck="Juniper",
    trailers=("caravan",),
)


def fill(text: str, reads: Reader) -> Fill:
    """The one fill that a message in a British chat states."""
    verdict = reads(text, BRITISH)
    assert isinstance(verdict, Facts)
    (entry,) = verdict.entries
    assert isinstance(entry, Fill)
    return entry


@pytest.mark.parametrize(
    "text",
    [
        "Receipt: DERV 52.40 LTR  PPL 147.9  £77.50  mileage 48,210",
        "52.4 litres at 147.9 ppl, £77.50, 48,210 miles",
        "ppl 147.9 vol 52.40 total £77.50 odo 48,210",
        "52.4 litres at 147.9, £77.50, odo 48,210",
        "52.4 litres 147.9 £77.50 odo 48,210",
        "52.40 L 1.479 £77.50 odo 48,210",
    ],
)
def test_a_price_in_pence_is_one_of_a_litre(text: str, reads: Reader) -> None:
    read = fill(text, reads)
    assert read.volume == Quantity(52.4, "L")
    assert read.unit_price == Quantity(1.479, "GBP/L")
    assert read.cost == Quantity(77.5, "GBP")
    assert read.odometer == Quantity(48_210, "mi")
    assert read.distance is None


def test_the_same_decimals_of_miles_are_a_trip(reads: Reader) -> None:
    assert fill("52.4 litres, 147.9 miles since last fill", reads).distance == Quantity(147.9, "mi")


def test_letters_for_pence_are_people_beside_a_count(reads: Reader) -> None:
    assert isinstance(reads("12 ppl coming at 7.30", BRITISH), Silent)


@pytest.mark.parametrize("price", ["1479.00 per litre", "1479.9/L", "£1479.00/L"])
def test_a_price_a_thousand_times_too_dear_is_asked_about(price: str, reads: Reader) -> None:
    verdict = reads(f"52.4 L at {price}, odo 48,210", BRITISH)
    assert isinstance(verdict, Ask)
    assert (verdict.about, verdict.why) == ("unit_price", "implausible")


@pytest.mark.parametrize(
    ("text", "full"),
    [
        ("filled the Juniper up, 31.4 gal at 3.699", True),
        ("filled Juniper, 31.4 gal at 3.699", True),
        ("filled Juniper with 20 gal at 3.699", None),
        ("forgot to log the fill up before this, 31.4 gal at 3.699", None),
    ],
)
def test_a_truck_filled_by_its_name_is_full(text: str, full: bool | None, reads: Reader) -> None:
    verdict = reads(text, on_the_road())
    assert isinstance(verdict, Facts)
    (entry,) = verdict.entries
    assert isinstance(entry, Fill)
    assert entry.full is full


@pytest.mark.parametrize("said", ["fergot to log", "frgot to log", "forgt to log"])
def test_forgotten_in_any_spelling_was_left_out(said: str, reads: Reader) -> None:
    verdict = reads(f"{said} the one before this. 31.4 gal odo 48,210", on_the_road())
    assert isinstance(verdict, Facts)
    (entry,) = verdict.entries
    assert isinstance(entry, Fill)
    assert entry.missed is True


@pytest.mark.parametrize(
    "text",
    [
        "31.4 gal, $112.80. hooked up the camper. 48,210 miles, off we go",
        "fuel 31.4 gal\nhitched the camper\nleft at 48,210",
    ],
)
def test_a_reading_on_leaving_is_not_of_the_fill_two_sentences_before(
    text: str, reads: Reader
) -> None:
    verdict = reads(text, on_the_road(hitched=False))
    assert isinstance(verdict, Facts)
    filled, hitched, left = verdict.entries
    assert isinstance(filled, Fill)
    assert filled.odometer is None
    assert isinstance(hitched, Hitch)
    assert isinstance(left, Odometer)
    assert (left.odometer, left.event) == (Quantity(48_210, "mi"), "depart")


@pytest.mark.parametrize(
    "text", ["31.4 gal. odo 48,210, off we go", "31.4 gal, $112.80. grabbed a coffee. odo 48,210"]
)
def test_a_reading_beside_a_fill_stays_its_own(text: str, reads: Reader) -> None:
    verdict = reads(text, on_the_road())
    assert isinstance(verdict, Facts)
    assert isinstance(verdict.entries[0], Fill)
    assert verdict.entries[0].odometer == Quantity(48_210, "mi")


@pytest.mark.parametrize("text", ["hooked up the camper and left 48,210", "left 48,210"])
def test_so_high_a_figure_behind_left_is_no_side(text: str, reads: Reader) -> None:
    verdict = reads(text, on_the_road(hitched=False))
    assert isinstance(verdict, Facts)
    left = verdict.entries[-1]
    assert isinstance(left, Odometer)
    assert (left.odometer, left.event) == (Quantity(48_210, "mi"), "depart")
