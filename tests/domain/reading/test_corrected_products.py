"""A product that was texted wrongly is put right without a figure; talk of fuel is not."""

from __future__ import annotations

import pytest

from domain.entries import Correction, Fill
from domain.quantities import Quantity
from domain.verdicts import Ask, Choice, Facts, Silent
from tests.domain.reading.chats import Reader, on_the_road


@pytest.mark.parametrize(
    ("text", "meant", "wrong"),
    [
        ("that was def, not diesel", "def", "diesel"),
        ("it was diesel not gas", "diesel", "gasoline"),
        ("not diesel but def", "def", "diesel"),
        ("not gas, diesel", "diesel", "gasoline"),
        ("I meant def", "def", None),
        ("should be diesel", "diesel", None),
        ("make that diesel", "diesel", None),
        ("no, diesel", "diesel", None),
    ],
)
def test_a_product_is_put_right(text: str, meant: str, wrong: str | None, reads: Reader) -> None:
    told = Correction(action="amend", field="product", value=meant, was=wrong)
    assert reads(text, on_the_road()) == Facts((told,))


@pytest.mark.parametrize(
    ("text", "meant", "wrong", "about"),
    [
        ("the 24.6 was def sorry", "def", None, 24.6),
        ("that 24.6 was def, sorry", "def", None, 24.6),
        ("oops the 24.6 gal was diesel", "diesel", None, Quantity(24.6, "gal")),
        ("the 2.5 was def, not diesel, my bad", "def", "diesel", 2.5),
        ("wait the 24.6 gal was gas not diesel", "gasoline", "diesel", Quantity(24.6, "gal")),
    ],
)
def test_what_was_poured_may_tell_the_fill(
    text: str, meant: str, wrong: str | None, about: Quantity | float, reads: Reader
) -> None:
    told = Correction(action="amend", field="product", value=meant, was=wrong, about=about)
    assert reads(text, on_the_road()) == Facts((told,))


def test_a_volume_behind_its_product_is_put_right_itself(reads: Reader) -> None:
    verdict = reads("oops the diesel was 24.6", on_the_road())
    assert isinstance(verdict, Facts)
    (entry,) = verdict.entries
    assert isinstance(entry, Correction)
    assert (entry.field, entry.value) == ("volume", Quantity(24.6, "gal"))


@pytest.mark.parametrize(
    "text",
    [
        "diesel",
        "no diesel",
        "no, regular",
        "sorry, diesel",
        "sorry no diesel today",
        "no, gas prices are nuts",
        "we need diesel not gas",
        "I prefer diesel not gas",
        "was that diesel, not gas?",
    ],
)
def test_talk_of_fuel_puts_nothing_right(text: str, reads: Reader) -> None:
    assert reads(text, on_the_road()) == Silent()


def test_whoever_is_spoken_to_is_no_part_of_an_answer(reads: Reader) -> None:
    volume, money = Fill(volume=Quantity(31.2, "gal")), Fill(cost=Quantity(31.2, "USD"))
    asked = Ask("fill", (Choice("31.2 gallons", (volume,)), Choice("$31.20", (money,))))
    for text in ("that was gallons son", "gallons, boss", "gallons dad"):
        assert reads(text, on_the_road(asked=asked)) == Facts((volume,))
