"""Tyres held against the load index table and published date codes.

Load indices as in ISO 4000-1 and UN Regulations 30 and 54: seven independent tables were
compared, the annexes themselves were not read.
"""

from __future__ import annotations

from datetime import date
from itertools import pairwise

import pytest

from bot.reference import references
from domain.tyres import Made, Undated, axle_load, date_code, tyre_load

TABLE = references().load_index
TODAY = date(2026, 7, 11)

CUT_OFF = {35, 37, 61, 63, 67, 75, 77, 79, 81, 83}
"""Indices whose half kilogram was cut off, so that eighty steps are not quite tenfold."""


def test_the_table_has_every_index_and_rises() -> None:
    assert list(TABLE) == list(range(181))
    loads = list(TABLE.values())
    assert all(one < other for one, other in pairwise(loads))


def test_eighty_steps_are_ten_times_the_load() -> None:
    off = {n for n in range(101) if TABLE[n + 80] != pytest.approx(10 * TABLE[n])}
    assert off == CUT_OFF


def test_no_index_is_more_than_two_percent_from_the_geometric_series() -> None:
    for index, kilograms in TABLE.items():
        assert kilograms == pytest.approx(45 * 10 ** (index / 80), rel=0.02)


@pytest.mark.parametrize(
    ("index", "right", "wrong"),
    [(53, 206, 205), (61, 257, 265), (62, 265, 165), (83, 487, 478), (135, 2180, 2190)],
)
def test_errors_met_in_other_tables_are_not_in_ours(index: int, right: float, wrong: float) -> None:
    assert TABLE[index] == right
    assert tyre_load(TABLE, index) != wrong


def test_four_tyres_of_index_91() -> None:
    """Y02, a tyre seller's page: 91 is 615 kg, four of them 2,460 kg."""
    one = tyre_load(TABLE, 91)
    assert one is not None
    assert axle_load(one, 4) == 2460


def test_a_dual_marking_of_96_94() -> None:
    """Y03, a trailer parts page: two tyres of 96 carry 1,420 kg, four of 94 carry 2,680."""
    single, dual = tyre_load(TABLE, 96), tyre_load(TABLE, 94)
    assert single is not None
    assert dual is not None
    assert axle_load(single, 2) == 1420
    assert axle_load(dual, 4) == 2680


def test_an_index_that_no_table_has_is_no_load() -> None:
    assert tyre_load(TABLE, 181) is None
    assert tyre_load(TABLE, 12.5) is None


@pytest.mark.parametrize(
    ("code", "week", "year"),
    [
        pytest.param("2501", 25, 2001, id="Y04: owner's manual"),
        pytest.param("0301", 3, 2001, id="Y05: owner's manual"),
        pytest.param("3197", 31, 1997, id="Y06: trailer maker's note"),
        pytest.param("2719", 27, 2019, id="this century"),
    ],
)
def test_a_date_code_is_week_then_year(code: str, week: int, year: int) -> None:
    """49 CFR 574.5."""
    assert date_code(code, TODAY) == Made(week, year)


@pytest.mark.parametrize(
    ("code", "why"),
    [
        pytest.param("031", "three digits", id="before 2000 the decade is not told"),
        pytest.param("5419", "no such week", id="no year has 54 weeks"),
        pytest.param("0019", "no such week", id="weeks start at one"),
        pytest.param("5026", "no such week", id="not made yet"),
        pytest.param("DOT2", "not a code", id="letters"),
    ],
)
def test_a_code_that_tells_no_date_is_said_to_tell_none(code: str, why: str) -> None:
    assert date_code(code, TODAY) == Undated(code, why)


@pytest.mark.parametrize(
    ("year", "first"),
    [
        (2022, date(2022, 1, 2)),
        (2023, date(2023, 1, 1)),
        (2024, date(2024, 1, 7)),
        (2025, date(2025, 1, 5)),
        (2026, date(2026, 1, 4)),
    ],
)
def test_week_one_is_the_first_full_week_from_sunday(year: int, first: date) -> None:
    """Derived from the rule of 574.5, which is from memory: these are not ISO weeks."""
    assert Made(1, year).week_of == first


def test_the_age_of_a_tyre() -> None:
    assert Made(27, 2019).age(TODAY) == pytest.approx(7.0, abs=0.05)
