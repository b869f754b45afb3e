"""Several stops of which each is told by the same figures, and where each of them was."""

from __future__ import annotations

import pytest

from domain.entries import Fill
from domain.verdicts import Facts, Silent
from tests.domain.reading.chats import Reader, on_the_road


def stops(text: str, reads: Reader) -> list[Fill]:
    """The fills that a message states, which states nothing else."""
    verdict = reads(text, on_the_road())
    assert isinstance(verdict, Facts), text
    found = [each for each in verdict.entries if isinstance(each, Fill)]
    assert len(found) == len(verdict.entries)
    return found


def pumped(fill: Fill) -> float | None:
    """What went in, as typed."""
    return fill.volume.value if fill.volume else None


@pytest.mark.parametrize(
    "text",
    [
        "18.1 gal at 48,310; 22.7 at 48,620",
        "18.1 gal at 48,310 and 22.7 at 48,620",
        "18.1 gal at 48,310 then 22.7 at 48,620",
        "48,310 18.1 gal; 48,620 22.7",
        "two stops 18.1 at 48,310 and 22.7 at 48,620",
        "first stop 18.1 gal 48,310, second stop 22.7 gal 48,620",
        "morning 18.1 gal 48,310, evening 22.7 gal 48,620",
        "48,310 18.1; 48,620 22.7",
        "got fuel twice, 48,310 and 48,620, 18.1 and 22.7 gal",
        "two fills 18.1 and 22.7 gal at 48,310 and 48,620",
    ],
)
def test_each_stop_has_its_own_reading(text: str, reads: Reader) -> None:
    told = [(pumped(each), each.odometer and each.odometer.value) for each in stops(text, reads)]
    assert told == [(18.1, 48_310), (22.7, 48_620)]


@pytest.mark.parametrize(
    "text",
    [
        "18.1 gal $70.23, 22.7 gal $88.30",
        "18.1 gal for 70.23 and 22.7 for 88.30",
        "stop 1 18.1 gal 70.23, stop 2 22.7 gal 88.30",
    ],
)
def test_each_stop_has_what_it_cost(text: str, reads: Reader) -> None:
    told = [(pumped(each), each.cost and each.cost.value) for each in stops(text, reads)]
    assert told == [(18.1, 70.23), (22.7, 88.30)]


@pytest.mark.parametrize(
    "text",
    [
        "31.2 gal at 48,402, got 14.1, home 48,733",
        "24.6 gal 48,402 3.899 95.92",
        "18.1 gal at 48,620, 22.7 at 48,310",
    ],
)
def test_figures_that_do_not_take_turns_are_of_one_stop(text: str, reads: Reader) -> None:
    verdict = reads(text, on_the_road())
    assert isinstance(verdict, Facts)
    assert len([each for each in verdict.entries if isinstance(each, Fill)]) == 1


@pytest.mark.parametrize(
    "text",
    [
        "Dorset 18.1 gal 48,310, Harlow 22.7 gal 48,620",
        "Dorset 48,310 18.1 gal, Harlow 48,620 22.7 gal",
        "two fill ups today: Dorset 18.1 gal at 48,310 and Harlow 22.7 at 48,620",
        "6am Dorset 18.1 gal, noon Harlow 22.7 gal",
        "Dorset: 18.1 gal, Harlow: 22.7 gal",
        "fuel at Dorset 18.1 gal, Harlow 22.7 gal",
        "Dorset 18.1 gal then Harlow 22.7",
    ],
)
def test_a_name_before_the_figures_of_a_stop_is_where_it_was(text: str, reads: Reader) -> None:
    told = [(pumped(each), each.place) for each in stops(text, reads)]
    assert told == [(18.1, "Dorset"), (22.7, "Harlow")]


@pytest.mark.parametrize(
    ("text", "moments"),
    [
        (
            "first fill 22.1 gal this morning, second 19.4 gal at 1pm",
            ["2026-07-11", "2026-07-11T13:00:00-06:00"],
        ),
        ("Thu 22.1 gal Fri 19.4 gal", ["2026-07-09", "2026-07-10"]),
        ("yesterday 22.1 gal, 19.4 gal at 3pm", ["2026-07-10", "2026-07-10T15:00:00-06:00"]),
    ],
)
def test_each_stop_has_its_time(text: str, moments: list[str], reads: Reader) -> None:
    assert [each.at.isoformat() for each in stops(text, reads) if each.at] == moments


def test_a_time_beside_one_fill_is_all_its_own(reads: Reader) -> None:
    (fill,) = stops("yesterday 22.1 gal, 6pm, 48,310", reads)
    assert fill.at is not None
    assert fill.at.isoformat() == "2026-07-10T18:00:00-06:00"


def test_fuel_and_fluid_in_sentences_of_their_own(reads: Reader) -> None:
    told = stops("23.119 @ 3.899 = 90.14; def 2.512 @ 3.99 = 10.02", reads)
    assert [(each.product, pumped(each)) for each in told] == [(None, 23.119), ("def", 2.512)]


def test_what_else_is_bought_is_neither_a_stop_nor_a_place(reads: Reader) -> None:
    (fill,) = stops("Diesel 21.2 gal, Milk 2 gal", reads)
    assert (pumped(fill), fill.place) == (21.2, None)
    assert isinstance(reads("picked 18.2 gal of Plums and 21.4 gal of Pears"), Silent)
