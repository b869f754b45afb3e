"""What is said of the last entry afterwards: its place, several figures, that it is to go."""

from __future__ import annotations

from typing import Any

import pytest

from domain.quantities import Quantity
from domain.records import verdict_to_record
from domain.verdicts import Facts, Silent
from tests.domain.reading.chats import Reader, on_the_road


def corrections(text: str, reads: Reader) -> list[dict[str, Any]]:
    """What a message corrects, as records without their kind; it states nothing else."""
    entries = verdict_to_record(reads(text, on_the_road()))["entries"]
    assert {each.pop("kind") for each in entries} == {"correction"}
    return list(entries)


@pytest.mark.parametrize(
    ("text", "place"),
    [
        ("that fill was in Alder Creek", "Alder Creek"),
        ("the last fill was in Alder Creek", "Alder Creek"),
        ("that fill was at Pell", "Pell"),
    ],
)
def test_where_the_last_one_was(text: str, place: str, reads: Reader) -> None:
    assert corrections(text, reads) == [{"action": "amend", "field": "place", "value": place}]


@pytest.mark.parametrize(
    "text",
    ["that was in Alder Creek", "the last fill was in the rain", "that movie was in Alder Creek"],
)
def test_talk_of_a_place_corrects_nothing(text: str, reads: Reader) -> None:
    assert isinstance(reads(text, on_the_road()), Silent)


@pytest.mark.parametrize(
    "text", ["change last fill to 24.6 gal at 3.799", "edit that fill 24.6 gal 3.799"]
)
def test_several_figures_are_changed_at_once(text: str, reads: Reader) -> None:
    assert corrections(text, reads) == [
        {"action": "amend", "field": "volume", "value": {"value": 24.6, "unit": "gal"}},
        {"action": "amend", "field": "unit_price", "value": {"value": 3.799, "unit": "USD/gal"}},
    ]


@pytest.mark.parametrize(
    ("text", "field", "value", "was"),
    [
        ("the def was 14.99 not 19.99", "cost", (14.99, "USD"), (19.99, "USD")),
        ("diesel was 91.40 not 94.10", "cost", (91.40, "USD"), (94.10, "USD")),
        ("def was 2.5 not 5.2", "volume", (2.5, "gal"), (5.2, "gal")),
        ("diesel was 24.6 not 26.4", "volume", (24.6, "gal"), (26.4, "gal")),
        ("left rear was 1,750 not 1,570", "drive_left", (1750, "lb"), (1570, "lb")),
    ],
)
def test_what_a_figure_was_of_is_told_by_its_size(
    text: str, field: str, value: tuple[float, str], was: tuple[float, str], reads: Reader
) -> None:
    (mended,) = corrections(text, reads)
    assert mended["field"] == field
    assert (mended["value"]["value"], mended["value"]["unit"]) == value
    assert (mended["was"]["value"], mended["was"]["unit"]) == was


def test_a_wheel_carries_more_than_its_tyre_holds(reads: Reader) -> None:
    assert corrections("left rear was 75 not 57", reads) == [
        {"action": "amend", "field": "tyre", "value": 75, "was": 57}
    ]


@pytest.mark.parametrize(
    ("text", "told"),
    [
        ("take out the 26.4 gal one", {"was": {"value": 26.4, "unit": "gal"}}),
        ("delete the 26.4 one", {"was": 26.4}),
        ("delete yesterdays fill", {"at": "2026-07-10"}),
        ("remove the fill from this morning", {"at": "2026-07-11"}),
    ],
)
def test_which_entry_is_to_go(text: str, told: dict[str, Any], reads: Reader) -> None:
    assert corrections(text, reads) == [{"action": "undo", **told}]


def test_a_figure_with_tenths_stands_instead_of_what_is_scratched(reads: Reader) -> None:
    assert corrections("scratch that, 24.6", reads) == [{"action": "amend", "value": 24.6}]
    assert isinstance(reads("no, 24.6", on_the_road()), Silent)


@pytest.mark.parametrize(
    ("text", "mended"),
    [
        ("the fill at 48,402 was 24.6 not 26.4", {"value": 24.6, "was": 26.4}),
        ("yesterday's fill should be 24.6", {"value": 24.6}),
        ("flipped the digits, 48,402", {"value": 48402}),
        ("I reversed those numbers its 48,402", {"value": 48402}),
        (
            "bad number, 24.6 gal",
            {"field": "volume", "value": {"value": 24.6, "unit": "gal"}},
        ),
    ],
)
def test_what_a_fill_should_say(text: str, mended: dict[str, Any], reads: Reader) -> None:
    assert corrections(text, reads) == [{"action": "amend", **mended}]


def test_what_stands_behind_not_is_stated_nowhere(reads: Reader) -> None:
    read = verdict_to_record(reads("it was 24.6 gal and 93.99 not 99.93", on_the_road()))
    mended = [(each["field"], each["value"]["value"]) for each in read["entries"]]
    assert mended == [("volume", 24.6), ("cost", 93.99)]
    assert isinstance(reads("wrong number, who is this", on_the_road()), Silent)


@pytest.mark.parametrize(
    ("text", "field", "value", "unit"),
    [
        ("odo on that fill was 48,420", "odometer", 48_420, "mi"),
        ("on the last one the odo was 48,420", "odometer", 48_420, "mi"),
        ("the odometer for the last fill was 48,420", "odometer", 48_420, "mi"),
        ("price on that last fill was 3.799", "unit_price", 3.799, "USD/gal"),
        ("price per gallon on that one was 3.799", "unit_price", 3.799, "USD/gal"),
        ("cost per gallon on that one was 3.799", "unit_price", 3.799, "USD/gal"),
        ("price per litre on that last fill was 1.799", "unit_price", 1.799, "USD/L"),
        ("price a gallon on that one was $3.799", "unit_price", 3.799, "USD/gal"),
        ("cost on that last fill was 91.58", "cost", 91.58, "USD"),
        ("that last fill was $91.58", "cost", 91.58, "USD"),
        ("that last fill was 24.6 gal", "volume", 24.6, "gal"),
        ("gallons on that last fill was 24.6", "volume", 24.6, "gal"),
        ("the steer on that one was 5,240 actually", "steer", 5_240, "lb"),
        ("that last fill was at 48,420", "odometer", 48_420, "mi"),
        ("last fillup was at 48,420 mi", "odometer", 48_420, "mi"),
        ("the volume on the last fill is 24.6", "volume", 24.6, "gal"),
        ("gallons on the last fill is 24.6", "volume", 24.6, "gal"),
        ("price on last fill is 3.799", "unit_price", 3.799, "USD/gal"),
        ("the odometer for that last fill is 48,420", "odometer", 48_420, "mi"),
        ("that last entry was 24.6 gal", "volume", 24.6, "gal"),
        ("the unhitch was at 48,390", "odometer", 48_390, "mi"),
    ],
)
def test_one_figure_of_the_last_entry_is_told_anew(
    text: str, field: str, value: float, unit: str, reads: Reader
) -> None:
    quantity = {"value": value, "unit": unit}
    assert corrections(text, reads) == [{"action": "amend", "field": field, "value": quantity}]


@pytest.mark.parametrize("text", ["that fill was def", "the last fill was def"])
def test_what_the_last_fill_was_of(text: str, reads: Reader) -> None:
    assert corrections(text, reads) == [{"action": "amend", "field": "product", "value": "def"}]


@pytest.mark.parametrize(
    ("text", "mended"),
    [
        ("the 48,402 entry should be 24.6 gal", {"value": {"value": 24.6, "unit": "gal"}}),
        ("48,402 should be 24.6 gal", {"value": {"value": 24.6, "unit": "gal"}}),
        ("at 48,402 I meant 24.6 gal", {"value": {"value": 24.6, "unit": "gal"}}),
        ("for 48,402 make it 24.6 gal", {"value": {"value": 24.6, "unit": "gal"}}),
        ("that 48,402 fill was def", {"field": "product", "value": "def"}),
        ("the 48,402 fill was yesterday", {"field": "at", "value": "2026-07-10"}),
        ("the fill at 48,402 wasnt full", {"field": "full", "value": False}),
        ("the one at 48,402 was 24.6 gal", {"value": {"value": 24.6, "unit": "gal"}}),
        ("the one from 48,402 should be 24.6 gal", {"value": {"value": 24.6, "unit": "gal"}}),
        ("the 48,402 one was 24.6 gal", {"value": {"value": 24.6, "unit": "gal"}}),
        ("the one at 48,402 was partial", {"field": "full", "value": False}),
    ],
)
def test_an_odometer_reading_names_the_fill(
    text: str, mended: dict[str, Any], reads: Reader
) -> None:
    read = reads(text, on_the_road())
    (meant,) = corrections(text, reads)
    meant.pop("was", None)
    assert meant == {"action": "amend", "field": "volume", **mended}
    assert isinstance(read, Facts)
    assert [getattr(each, "about", None) for each in read.entries] == [48_402]


@pytest.mark.parametrize(
    ("known", "kind"), [(48_402, "correction"), (48_510, "correction"), (48_010, "fill")]
)
def test_a_fill_is_in_the_log_where_the_odometer_has_read_more(
    known: int, kind: str, reads: Reader
) -> None:
    chat = on_the_road(odometer=Quantity(known, "mi"))
    (entry,) = verdict_to_record(reads("the fill at 48,402 was 24.6 gal", chat))["entries"]
    assert entry["kind"] == kind


@pytest.mark.parametrize(
    "text",
    [
        "48,402 make that 24.6 gal",
        "48,402 was the odo, 24.6 gal",
        "24.2 gal at 48,402, make that 24.6 gal",
        "this fill is 24.6 gal",
        "the fill was full, 24.6 gal 48,402",
    ],
)
def test_a_reading_beside_a_volume_is_of_this_fill(text: str, reads: Reader) -> None:
    record = verdict_to_record(reads(text, on_the_road()))
    assert [(each["kind"], each["volume"]["value"]) for each in record["entries"]] == [
        ("fill", 24.6)
    ]


@pytest.mark.parametrize("text", ["the fill before last was 24.6 gal", "the last fill is in Pell"])
def test_what_cannot_be_bound_is_left(text: str, reads: Reader) -> None:
    assert isinstance(reads(text, on_the_road()), Silent)


@pytest.mark.parametrize("text", ["that one was 51 bucks", "that last mile was 24.6"])
def test_figures_of_something_else_that_was_last_are_talk(text: str, reads: Reader) -> None:
    assert isinstance(reads(text, on_the_road()), Silent)


def test_a_fill_is_told_beside_the_one_before(reads: Reader) -> None:
    record = verdict_to_record(reads("last fill was 31 gal, this ones 29.4", on_the_road()))
    assert [each["volume"]["value"] for each in record["entries"]] == [29.4]


def test_which_of_two_meters_it_was_is_no_question(reads: Reader) -> None:
    (meant,) = corrections("that was the trip meter not the odometer", reads)
    assert meant == {"action": "amend", "field": "distance", "was": "odometer"}


@pytest.mark.parametrize(
    ("text", "full"),
    [
        ("last fill not full, 48,402 now", False),
        ("last fill wasnt full. odo now 48,402", False),
        ("last fill was partial, now at 48,402", False),
        ("last fill was full, 48,402 now", True),
    ],
)
def test_how_full_the_last_fill_was_is_told_beside_a_reading(
    text: str, full: bool, reads: Reader
) -> None:
    assert verdict_to_record(reads(text, on_the_road()))["entries"] == [
        {"kind": "correction", "action": "amend", "field": "full", "value": full},
        {"kind": "odometer", "odometer": {"value": 48_402, "unit": "mi"}},
    ]


@pytest.mark.parametrize("text", ["24.6 gal not full, 48,402 now", "filled up, 48,402 now"])
def test_what_is_told_of_this_fill_corrects_none(text: str, reads: Reader) -> None:
    (entry,) = verdict_to_record(reads(text, on_the_road()))["entries"]
    assert (entry["kind"], entry["odometer"]["value"]) == ("fill", 48_402)


@pytest.mark.parametrize(
    ("text", "kind"),
    [
        ("26.2 gallons i mean", "correction"),
        ("i mean 26.2 gallons", "correction"),
        ("i mean 26.2 gal at 48,402", "fill"),
        ("i mean its 40 degrees out", "observation"),
    ],
)
def test_what_was_meant_is_put_right_where_nothing_else_is_told(
    text: str, kind: str, reads: Reader
) -> None:
    (entry,) = verdict_to_record(reads(text, on_the_road()))["entries"]
    assert entry["kind"] == kind
