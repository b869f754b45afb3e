"""What is told along the way: where one is, what a wheel shows, what was looked at and carried."""

from __future__ import annotations

import pytest

from domain.records import verdict_to_record
from tests.domain.reading.chats import Reader, on_the_road


def stated(text: str, reads: Reader) -> list[dict[str, object]]:
    """The entries that a message states."""
    entries = verdict_to_record(reads(text, on_the_road())).get("entries", [])
    assert isinstance(entries, list)
    return entries


@pytest.mark.parametrize(
    "text",
    ["hit 48,312 on the way home", "almost home 48,312", "halfway home, 48,312"],
)
def test_who_is_on_the_way_home_has_not_come_there(reads: Reader, text: str) -> None:
    assert stated(text, reads) == [{"kind": "odometer", "odometer": {"value": 48312, "unit": "mi"}}]


@pytest.mark.parametrize(
    ("text", "position"),
    [
        ("RR tire 62 psi", "right rear"),
        ("rr 62 psi", "right rear"),
        ("rr tire on the trailer 62", "trailer right rear"),
        ("RR trailer tire 62 psi", "trailer right rear"),
        ("rr hub 180 F", "right rear"),
    ],
)
def test_a_wheel_has_its_side(reads: Reader, text: str, position: str) -> None:
    (entry,) = stated(text, reads)
    assert (entry["kind"], entry["position"]) == ("observation", position)


def test_an_axle_has_none(reads: Reader) -> None:
    (entry,) = stated("frnt 5,020 rr 6,310", reads)
    loads = entry["loads"]
    assert isinstance(loads, dict)
    assert list(loads) == ["steer", "drive"]


@pytest.mark.parametrize(
    ("text", "items"),
    [
        ("brakes tested at the gate", ["brakes"]),
        ("chocks out, lights good", ["chocks", "lights"]),
        ("gate latched, lights checked at the ramp", ["gate", "lights"]),
    ],
)
def test_where_it_was_looked_at_was_not_looked_at(
    reads: Reader, text: str, items: list[str]
) -> None:
    assert [(each["item"], each["state"]) for each in stated(text, reads)] == [
        (item, "done") for item in items
    ]


@pytest.mark.parametrize(
    ("text", "item", "pounds"),
    [
        ("3 heifers loaded, 650 lb a head", "heifers", 1950),
        ("loaded 4 ewes, 160 lb a head", "ewes", 640),
        ("loaded 12 hives at 90 lb apiece", "hives", 1080),
    ],
)
def test_so_much_a_head_is_of_all_of_them(
    reads: Reader, text: str, item: str, pounds: float
) -> None:
    (entry,) = stated(text, reads)
    assert (entry["item"], entry["value"]) == (item, {"value": pounds, "unit": "lb"})


@pytest.mark.parametrize(
    "text",
    [
        "20 gal of diesel in cans",
        "filled 4 jerry cans, 20 gal",
        "5 gal gas can in the bed",
        "spare fuel 20 gal in jerry cans in the bed",
    ],
)
def test_fuel_in_cans_is_in_no_tank(reads: Reader, text: str) -> None:
    assert stated(text, reads) == []


@pytest.mark.parametrize(
    "text", ["put in 10 gal from the cans", "two jerry cans of diesel went in, 10 gal"]
)
def test_fuel_out_of_cans_is_a_fill(reads: Reader, text: str) -> None:
    (entry,) = stated(text, reads)
    assert (entry["kind"], entry["volume"]) == ("fill", {"value": 10, "unit": "gal"})


@pytest.mark.parametrize("text", ["swapped the fuel filter 51,300", "switched the diesel 48,300"])
def test_no_tank_takes_thousands_of_gallons(reads: Reader, text: str) -> None:
    assert all(each["kind"] != "correction" for each in stated(text, reads))
