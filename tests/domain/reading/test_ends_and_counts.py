"""'The back at 1,605' is an end and its load; 'two seven thousand pound axles' counts axles."""

from __future__ import annotations

from collections.abc import Mapping

import pytest

from domain.entries import Rating, Weighing
from domain.quantities import Quantity
from domain.verdicts import Facts, Silent
from tests.domain.reading.chats import Reader, chat, on_the_road


@pytest.mark.parametrize(
    ("text", "loads"),
    [
        (
            "front axle 1180 the back at 1540 caravan 1790 kg",
            {"steer": 1_180, "drive": 1_540, "trailer": 1_790},
        ),
        (
            "front axle eleven hundred and eighty and the back at fifteen hundred and forty",
            {"steer": 1_180, "drive": 1_540},
        ),
        ("the front at 1220 the back at 1655", {"steer": 1_220, "drive": 1_655}),
        ("my front axle at 1190 and my back at 1515", {"steer": 1_190, "drive": 1_515}),
        ("front 1205 kg, its back at 1710 kg", {"steer": 1_205, "drive": 1_710}),
        ("truck front was 1,175 but the back at 1,635", {"steer": 1_175, "drive": 1_635}),
    ],
)
def test_the_back_at_a_load_is_the_rear_axle(
    reads: Reader, text: str, loads: Mapping[str, float]
) -> None:
    read = reads(text, chat(units="metric", hitched=True))
    assert isinstance(read, Facts), read
    (entry,) = read.entries
    assert isinstance(entry, Weighing)
    assert entry.loads == {at: Quantity(load, "kg") for at, load in loads.items()}
    assert entry.at is None


@pytest.mark.parametrize(
    "text",
    [
        "back at 1605",
        "we got back at 4",
        "be back at 1605 from the scale",
        "the truck went round the back at 1605",
        "can you grab the trailer from the back at 1430",
    ],
)
def test_coming_back_at_an_hour_is_no_load(reads: Reader, text: str) -> None:
    assert reads(text, chat(units="metric", hitched=True)) == Silent()


def test_behind_the_axles_one_is_back_at_an_hour(reads: Reader) -> None:
    read = reads("front axle 1210, rear axle 1500, back at 1605", chat(units="metric"))
    assert isinstance(read, Facts)
    (entry,) = read.entries
    assert entry.at is not None
    assert entry.at.isoformat()[11:16] == "16:05"


def plate(gvwr: float, axle: float, count: int, trailer: str | None = None) -> tuple[Rating, ...]:
    """A trailer's plate: its gross, and so many axles that bear that much each."""
    return (
        Rating(subject="trailer", rating="gvwr", value=Quantity(gvwr, "lb"), trailer=trailer),
        Rating(
            subject="trailer",
            rating="gawr",
            value=Quantity(axle, "lb"),
            note=f"{count} axles",
            trailer=trailer,
        ),
    )


@pytest.mark.parametrize(
    ("text", "entries"),
    [
        ("gvwr twelve thousand two six thousand pound axles", plate(12_000, 6_000, 2)),
        ("gvwr 12,000, two six thousand pound axles", plate(12_000, 6_000, 2)),
        ("gvwr twenty four thousand three eight thousand pound axles", plate(24_000, 8_000, 3)),
        ("gvwr seven thousand two thirty five hundred pound axles", plate(7_000, 3_500, 2)),
        ("gvwr twelve thousand two axles six thousand each", plate(12_000, 6_000, 2)),
        (
            "flatdeck gvwr ninety nine hundred two fifty two hundred pound axles",
            plate(9_900, 5_200, 2, "flatdeck"),
        ),
    ],
)
def test_a_digit_before_the_axles_of_a_size_counts_them(
    reads: Reader, text: str, entries: tuple[Rating, ...]
) -> None:
    assert reads(text, on_the_road()) == Facts(entries)


@pytest.mark.parametrize(
    ("text", "loads"),
    [
        (
            "axle one five thousand axle two seven thousand axle three six thousand",
            {"steer": 5_000, "drive": 7_000, "trailer": 6_000},
        ),
        (
            "one oh oh eight oh on the drive axle one oh eight oh oh on the trailer axles "
            "two oh eight eight oh on the gross",
            {"drive": 10_080, "trailer": 10_800, "gross": 20_880},
        ),
        (
            "six one oh oh on the drive axle one one oh oh oh on the trailer axles "
            "two one two oh oh on the gross",
            {"drive": 6_100, "trailer": 11_000, "gross": 21_200},
        ),
        ("trailer axles eight thousand forty two", {"trailer": 8_042}),
        (
            "five thousand two hundred six thousand four hundred nine thousand",
            {"steer": 5_200, "drive": 6_400, "trailer": 9_000},
        ),
    ],
)
def test_other_digits_are_part_of_their_number(
    reads: Reader, text: str, loads: Mapping[str, float]
) -> None:
    read = reads(text, on_the_road())
    assert isinstance(read, Facts), read
    (entry,) = read.entries
    assert isinstance(entry, Weighing)
    assert entry.loads == {at: Quantity(load, "lb") for at, load in loads.items()}
