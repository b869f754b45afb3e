"""What a figure should have been, in the words in which people say so."""

from __future__ import annotations

import pytest

from domain.entries import Correction
from domain.quantities import Quantity
from domain.records import verdict_to_record
from domain.verdicts import Facts
from tests.domain.reading.chats import Reader, on_the_road
from tests.domain.reading.test_told_at_the_scale import told


@pytest.mark.parametrize(
    ("text", "field", "value"),
    [
        ("That steer figure should have been 5,240", "steer", 5240),
        ("the odometer should have read 48,320", "odometer", 48320),
        ("the odo should've read 48,320", "odometer", 48320),
        ("the drive axle should have shown 6,840", "drive", 6840),
        ("trailer figure was meant to be 9,480", "trailer", 9480),
        ("drive figure was supposed to be 6,840", "drive", 6840),
        ("I ought to have typed 6,840 for the drives", "drive", 6840),
        ("I should've said 24.6 gallons", "volume", 24.6),
        ("that should have gone in as 31.4 gallons", "volume", 31.4),
        ("the volume should have read 31.4", "volume", 31.4),
        ("actually the odo was 48,320 at Emu Point", "odometer", 48320),
        ("sorry the odo at Emu Point was 48,320", "odometer", 48320),
        ("actually the odo was 48,320 when we left", "odometer", 48320),
        ("my bad the odo was 48,320 when we got to Pell", "odometer", 48320),
        ("that last fill was 24.6", "volume", 24.6),
        ("the last fill was 24.6 sorry", "volume", 24.6),
        ("the last fill was 118.40", "cost", 118.4),
        ("my last fill was 3.899", "unit_price", 3.899),
        ("the fill at 47,902 was 24.6", "volume", 24.6),
        ("the odo 48,302 was wrong its 48,320", "odometer", 48320),
        ("drive 6,840 is wrong its 6,480", "drive", 6480),
        ("27.4 gal was wrong, its 24.7", "volume", 24.7),
        ("make that 312 miles", "distance", 312),
        ("that should be 200 miles not 260", "distance", 200),
        ("make that 48,312 miles", "odometer", 48312),
        ("gross was wrong, ticket says 21,480", "gross", 21480),
        ("steer isn't right, the slip shows 5,240", "steer", 5240),
        ("drive is off, receipt reads 6,840", "drive", 6840),
        ("the ticket was wrong, it said 4471", "ticket", None),
        ("I told you 31.4 gallons but it was 34.1", "volume", 34.1),
        ("told you 48,312 but I read it upside down; the odometer was 48,321", "odometer", 48321),
    ],
)
def test_what_it_should_have_been_is_mended(
    reads: Reader, text: str, field: str, value: float | None
) -> None:
    (entry,) = verdict_to_record(reads(text, on_the_road()))["entries"]
    assert (entry["kind"], entry["action"]) == ("correction", "amend")
    assert entry["field"] == field
    assert value is None or entry["value"]["value"] == value


@pytest.mark.parametrize(
    "text",
    [
        "next fill should be 26.1 gal",
        "next fill should be 26.1 gal at 3.799",
        "dinner should have been 45 dollars",
        "rent should have read 1,200 dollars",
        "we should have been there by 6",
        "the drive should have been 6 hours",
        "we should have driven 300 miles by now",
        "the odometer should have hit 50,000 by now",
        "he should have been 40 by now",
        "you should have seen it, 6,840 people",
        "should have brought 40 lb of ice",
        "I figure 6,840 of them showed up",
        "told you 40 bucks but it was 45",
        "I told you the trans hit 230",
        "told you so, 5,180 people",
    ],
)
def test_what_people_should_have_done_is_talk(reads: Reader, text: str) -> None:
    assert verdict_to_record(reads(text, on_the_road())) == {"verdict": "silent"}


@pytest.mark.parametrize(
    ("text", "event"),
    [
        ("wrong road, odo was 48,320 when we turned around", "turnaround"),
        ("sorry im late, odo was 48,320 when we left", "depart"),
        ("sorry forgot to text, odo was 48,320 when we left", "depart"),
        ("the odo was 48,320 when we left", "depart"),
    ],
)
def test_what_it_read_there_is_told(reads: Reader, text: str, event: str) -> None:
    (entry,) = verdict_to_record(reads(text, on_the_road()))["entries"]
    assert (entry["kind"], entry["odometer"]["value"], entry["event"]) == ("odometer", 48320, event)


def fill(text: str, reads: Reader) -> tuple[object, ...]:
    """Volume, distance and whether it was filled up."""
    (entry,) = verdict_to_record(reads(text, on_the_road()))["entries"]
    assert entry["kind"] == "fill"
    assert "odometer" not in entry
    distance = entry.get("distance", {}).get("value")
    return entry["volume"]["value"], distance, entry.get("full")


@pytest.mark.parametrize(
    ("text", "told"),
    [
        ("trip meter had 301 miles on it when I filled up, took 24.2 gallons", (24.2, 301, True)),
        ("the trip meter has 288 miles on her, 23.1 gal", (23.1, 288, None)),
        ("it took 25.8 gallons to top it off", (25.8, None, True)),
        ("took 20 gallons to top him up", (20, None, True)),
        ("19.9 gal to brim it", (19.9, None, True)),
    ],
)
def test_a_meter_and_a_full_tank_told_in_a_clause(
    reads: Reader, text: str, told: tuple[object, ...]
) -> None:
    assert fill(text, reads) == told


@pytest.mark.parametrize(
    ("text", "loads"),
    [
        (
            "Truck's two axles weighed as one read 12,340, the trailer's 9,480",
            {"truck": 12340, "trailer": 9480},
        ),
        (
            "12,340 on the truck's two axles, 9,480 on the trailer's three axles",
            {"truck": 12340, "trailer": 9480},
        ),
    ],
)
def test_how_many_axles_stands_within_what_they_are_called(
    reads: Reader, text: str, loads: dict[str, int]
) -> None:
    (entry,) = verdict_to_record(reads(text, on_the_road()))["entries"]
    assert {place: load["value"] for place, load in entry["loads"].items()} == loads


@pytest.mark.parametrize(
    "text", ["coolant was 230, oops", "trans got to 240, oops", "coolant was 230, whoops"]
)
def test_who_cries_out_at_a_gauge_mends_nothing(reads: Reader, text: str) -> None:
    (entry,) = verdict_to_record(reads(text, on_the_road()))["entries"]
    assert entry["kind"] == "observation"


@pytest.mark.parametrize("text", ["oops, coolant was 230", "oops coolant was 230 not 220"])
def test_who_begins_with_a_cry_mends(reads: Reader, text: str) -> None:
    (entry,) = verdict_to_record(reads(text, on_the_road()))["entries"]
    assert (entry["kind"], entry["field"]) == ("correction", "coolant")


FIRST, SECOND = Quantity(24.6, "gal"), Quantity(24.1, "gal")


@pytest.mark.parametrize(
    ("text", "field", "value", "about"),
    [
        ("on the 48,302 fill make that 24.6 gal", "volume", FIRST, 48_302),
        ("for the fill at 48,302 it should be 24.6 gal", "volume", FIRST, 48_302),
        ("change the 48,302 fill to 24.6 gal", "volume", FIRST, 48_302),
        ("make the 48,302 fill 24.6", None, 24.6, 48_302),
        ("fix the 48,302 fill, its 24.6 gal", "volume", FIRST, 48_302),
        ("the fill at 48,302 was at Pell not Dorset", "place", "Pell", 48_302),
        ("that fill at 48,302 was gas not diesel", "product", "gasoline", 48_302),
        ("the 48,302 one was partial", "full", False, 48_302),
        ("on the fill at 47,802 the cost should be 95.94", "cost", Quantity(95.94, "USD"), 47_802),
        ("make the dorset fill 24.6 gal", "volume", FIRST, "dorset"),
        ("the odo on the 24.6 gal fill was 48,302", "odometer", Quantity(48_302, "mi"), FIRST),
        (
            "the price on the 24.6 gal fill was 3.799",
            "unit_price",
            Quantity(3.799, "USD/gal"),
            FIRST,
        ),
        ("that 24.6 gal fill was at Dorset", "place", "Dorset", FIRST),
        ("the 24.6 gallon one was at Dorset", "place", "Dorset", FIRST),
        ("the fill at 47,902 was at Emu Point", "place", "Emu Point", 47_902),
        ("the Dorset fill should be 24.6", None, 24.6, "Dorset"),
        ("correct the 24.1 gal fill to 24.6", "volume", FIRST, None),
        ("make that last fill 24.6", None, 24.6, None),
    ],
)
def test_which_entry_is_put_right_may_be_said(
    reads: Reader, text: str, field: str | None, value: object, about: object
) -> None:
    verdict = reads(text, on_the_road())
    assert isinstance(verdict, Facts)
    (entry,) = verdict.entries
    assert isinstance(entry, Correction)
    assert (entry.field, entry.value, entry.about) == (field, value, about)


def test_the_volume_that_names_a_fill_is_what_it_was(reads: Reader) -> None:
    verdict = reads("24.1 gal fill should have been 24.6", on_the_road())
    assert verdict == Facts((Correction(action="amend", field="volume", value=FIRST, was=SECOND),))


@pytest.mark.parametrize(
    "text",
    [
        "at the 48,302 fill up we put in 24.6 gal",
        "the 48,302 fill took 24.6 gal",
        "the 48,302 fill was 24.6 gal",
        "fill at 48,302, 24.6 gal, not full",
    ],
)
def test_a_fill_that_is_told_by_its_reading_is_one(reads: Reader, text: str) -> None:
    (entry,) = verdict_to_record(reads(text, on_the_road()))["entries"]
    assert entry["kind"] == "fill"
    assert (entry["volume"]["value"], entry["odometer"]["value"]) == (24.6, 48_302)


def test_a_figure_told_to_be_wrong_was_told_before(reads: Reader) -> None:
    (entry,) = verdict_to_record(reads("48,302 was wrong, its 48,320", on_the_road()))["entries"]
    assert (entry["kind"], entry["value"], entry["was"]) == ("correction", 48_320, 48_302)
    (weighing,) = verdict_to_record(reads("steer 5,280 no wait 5,260 drive 6,640", on_the_road()))[
        "entries"
    ]
    assert weighing["kind"] == "weighing"


def test_what_the_last_fill_should_be_is_no_fill_more(reads: Reader) -> None:
    verdict = reads("last fill should be 26.1 gal at 3.799", on_the_road())
    assert isinstance(verdict, Facts)
    assert [
        (each.field, each.value) for each in verdict.entries if isinstance(each, Correction)
    ] == [("volume", Quantity(26.1, "gal")), ("unit_price", Quantity(3.799, "USD/gal"))]


@pytest.mark.parametrize(
    ("text", "entries"),
    [
        ("change 48,243 to 48,234", ["correction action=amend value=48234 was=48243"]),
        ("change 48,243 to 48,234 please", ["correction action=amend value=48234 was=48243"]),
        ("could you fix 24.6 to 26.4", ["correction action=amend value=26.4 was=24.6"]),
        ("correct 5,230 to 5,320", ["correction action=amend value=5320 was=5230"]),
        ("update 31.4 to 34.1", ["correction action=amend value=34.1 was=31.4"]),
        (
            "change the drive from 6,240 to 6,420",
            ["correction action=amend field=drive value=6420 was=6240"],
        ),
        (
            "change 24.6 gal to 26.4 gal",
            ["correction action=amend field=volume value=26.4 was=24.6"],
        ),
        (
            "the odometer i sent was wrong, change 48,243 to 48,234",
            ["correction action=amend field=odometer value=48234 was=48243"],
        ),
        (
            "my last fill was off, correct 24.6 to 26.4",
            ["correction action=amend value=26.4 was=24.6"],
        ),
        ("I'm afraid it was 52.8, not 52.3", ["correction action=amend value=52.8 was=52.3"]),
        ("change 5,000 to 7,500 mile oil changes", ["silent"]),
        ("change the filter at 15,000 to 20,000 miles", ["silent"]),
        ("fix the 1,200 to 1,500 lb bales", ["silent"]),
        ("trans 190 to 204", ["observation subject=transmission value=204"]),
        ("we went from 48,020 to 48,234", ["odometer odometer=48234"]),
        ("I'm afraid it was 98 out there", ["silent"]),
    ],
)
def test_what_stood_there_and_what_is_meant_are_told_in_one(
    text: str, entries: list[str], reads: Reader
) -> None:
    assert told(reads, text) == entries


@pytest.mark.parametrize(
    ("text", "entries"),
    [
        (
            "Please put the place down as Millbrook Junction instead",
            ["correction action=amend field=place value=Millbrook Junction"],
        ),
        (
            "I am embarrassed, but could you take back my last entry, please?",
            ["correction action=undo"],
        ),
        ("i am sorry can you delete that photo?", ["silent"]),
        ("lets go to Millbrook instead", ["silent"]),
        ("put me down as a maybe for Saltlick", ["silent"]),
    ],
)
def test_courtesies_are_no_part_of_what_is_put_right(
    text: str, entries: list[str], reads: Reader
) -> None:
    assert told(reads, text) == entries
