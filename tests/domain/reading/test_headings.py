"""What a heading or a field's name says of the figures behind it."""

from __future__ import annotations

import pytest

from domain.entries import Cargo, Fill, Weighing
from domain.quantities import Quantity
from domain.verdicts import Facts
from tests.domain.reading.chats import Reader, on_the_road
from tests.domain.scale_house import lb


@pytest.mark.parametrize(
    "text",
    [
        "odo:48402 gal:24.6 ppg:3.549",
        "odo: 48402 gal: 24.6 price: 3.549",
        "gal 24.6 ppg: 3.549 odo: 48402",
        "48,402 gal: 24.6 ppg: 3.549",
    ],
)
def test_a_unit_before_a_colon_heads_the_next_figure(text: str, reads: Reader) -> None:
    verdict = reads(text, on_the_road())
    assert isinstance(verdict, Facts)
    (fill,) = verdict.entries
    assert isinstance(fill, Fill)
    assert fill.volume == Quantity(24.6, "gal")
    assert fill.unit_price == Quantity(3.549, "USD/gal")
    assert fill.odometer == Quantity(48_402, "mi")


def test_a_volume_before_a_colon_stays_one(reads: Reader) -> None:
    verdict = reads("24.6 gal: $88.20", on_the_road())
    assert isinstance(verdict, Facts)
    (fill,) = verdict.entries
    assert isinstance(fill, Fill)
    assert (fill.volume, fill.cost) == (Quantity(24.6, "gal"), Quantity(88.2, "USD"))


@pytest.mark.parametrize("said", ["people:2", "passengers=2", "people: 2"])
def test_people_are_counted_behind_their_name(said: str, reads: Reader) -> None:
    verdict = reads(f"s:5180 d:6400 t:8860 g:20440 bars:on {said}", on_the_road())
    assert isinstance(verdict, Facts)
    (weighing,) = verdict.entries
    assert isinstance(weighing, Weighing)
    assert weighing.aboard == 2


@pytest.mark.parametrize(
    "text",
    [
        "Cargo on the flatdeck:\n- mower 780 lb over the axles\n- bucket 520 lb",
        "on the flatdeck: mower 780 lb, bucket 520 lb",
    ],
)
def test_what_stands_below_a_heading_is_carried(text: str, reads: Reader) -> None:
    verdict = reads(text, on_the_road())
    assert isinstance(verdict, Facts)
    carried = [entry for entry in verdict.entries if isinstance(entry, Cargo)]
    assert [(each.item, each.value, each.trailer) for each in carried] == [
        ("mower", lb(780), "flatdeck"),
        ("bucket", lb(520), "flatdeck"),
    ]


def test_loads_below_a_heading_are_weighed(reads: Reader) -> None:
    verdict = reads("on the flatdeck: steer 5,180 drive 6,900 trailer 8,400", on_the_road())
    assert isinstance(verdict, Facts)
    (entry,) = verdict.entries
    assert isinstance(entry, Weighing)


@pytest.mark.parametrize(
    ("text", "loads"),
    [
        (
            "Gooseneck by wheel:\n- axle 1 left 3,460\n- axle 1 right 3,380\n"
            "- axle 2 left 3,590\n- axle 2 right 3,510",
            ["trailer_1_left", "trailer_1_right", "trailer_2_left", "trailer_2_right"],
        ),
        (
            "camper wheel by wheel: axle 1 left 3,460 right 3,380, axle 2 left 3,590 right 3,510",
            ["trailer_1_left", "trailer_1_right", "trailer_2_left", "trailer_2_right"],
        ),
        ("weighed the camper. axle one 3,640 axle two 3,710", ["trailer_1", "trailer_2"]),
        ("weighed with the camper on. axle 1 5,180 axle 2 5,900", ["steer", "drive"]),
        ("weighed the camper. axle one 5,140 axle two 8,260", ["steer", "drive"]),
    ],
)
def test_axles_below_a_trailer_are_its_own(text: str, loads: list[str], reads: Reader) -> None:
    verdict = reads(text, on_the_road())
    assert isinstance(verdict, Facts)
    (entry,) = verdict.entries
    assert isinstance(entry, Weighing)
    assert sorted(entry.loads) == sorted(loads)


@pytest.mark.parametrize(
    ("text", "place"),
    [
        ("FUEL LOG app\nVolume 21.604 gal\nTotal $71.06\nOdometer 48,402 mi", None),
        ("Kelby Co-op\nVolume 21.604 gal\nTotal $71.06\nOdometer 48,402 mi", "Kelby Co-op"),
    ],
)
def test_volume_heads_its_figure_on_a_line(text: str, place: str | None, reads: Reader) -> None:
    verdict = reads(text, on_the_road())
    assert isinstance(verdict, Facts)
    (fill,) = verdict.entries
    assert isinstance(fill, Fill)
    assert (fill.volume, fill.cost) == (Quantity(21.604, "gal"), Quantity(71.06, "USD"))
    assert (fill.odometer, fill.place) == (Quantity(48_402, "mi"), place)


def test_milk_on_a_line_of_its_own_is_no_fuel(reads: Reader) -> None:
    assert not isinstance(reads("MILK 2 GAL\nBREAD 3.49\nTOTAL 9.10", on_the_road()), Facts)


def test_a_card_owns_no_price(reads: Reader) -> None:
    verdict = reads("card lock 25.6 gal 3.389 = 86.76, odo 48,402", on_the_road())
    assert isinstance(verdict, Facts)
    (fill,) = verdict.entries
    assert isinstance(fill, Fill)
    assert fill.unit_price == Quantity(3.389, "USD/gal")
