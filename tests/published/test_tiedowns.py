"""Tie-downs held against published worked examples of 49 CFR 393.102 to 393.136.

The identifiers are those of our list of worked examples; V2 unless said otherwise.
"""

from __future__ import annotations

import pytest

from bot.reference import references
from domain.quantities import Quantity
from domain.tiedowns import Article, Kind, Run, Ties, needed, supports, wanted, working_load

WORKING_LOADS = references().working_loads


def kg(pounds: float) -> float:
    return Quantity(pounds, "lb").amount("kg")


def lb(kilograms: float) -> float:
    return Quantity(kilograms, "kg").amount("lb")


def feet(length: float) -> float:
    return Quantity(length, "ft").amount("m")


def article(
    weight: float, length: float | None = None, *, kind: Kind = "article", blocked: bool = False
) -> Article:
    metres = None if length is None else feet(length)
    return Article(weight=kg(weight), length=metres, kind=kind, blocked=blocked)


@pytest.mark.parametrize(
    ("cargo", "aggregate"),
    [
        pytest.param(30000, 15000, id="T01: insurer's summary of 393.106(d)"),
        pytest.param(14000, 7000, id="T06: tractor club's note"),
        pytest.param(40200, 20100, id="T03: Water Well Journal, June 2015, page 30"),
    ],
)
def test_tie_downs_count_for_half_the_cargo(cargo: float, aggregate: float) -> None:
    assert lb(wanted(article(cargo)).aggregate) == pytest.approx(aggregate)


@pytest.mark.parametrize(
    ("length", "weight", "blocked", "count"),
    [
        pytest.param(5, 1100, False, 1, id="T10: regulator's page on 393.110"),
        pytest.param(5, 1101, False, 2, id="T11: 393.110"),
        pytest.param(6, 200, False, 2, id="T12: 393.110"),
        pytest.param(10, 200, False, 2, id="393.110: ten feet is still two"),
        pytest.param(12, 3000, False, 3, id="T13: answer page restating 393.110"),
        pytest.param(18, 40200, False, 3, id="T03: Water Well Journal"),
        pytest.param(22, 3000, False, 4, id="T14: answer page"),
        pytest.param(22, 3000, True, 3, id="T15: 393.110(c)"),
        pytest.param(4, 900, True, 1, id="393.110(c): blocked, one a ten feet"),
    ],
)
def test_the_number_goes_by_length_and_weight(
    length: float, weight: float, blocked: bool, count: int
) -> None:
    assert wanted(article(weight, length, blocked=blocked)).count == count


def test_a_light_vehicle_is_tied_at_both_ends() -> None:
    """T16, FMCSA Driver Handbook on Cargo Securement, ch. 9: two in front, two behind (V)."""
    assert wanted(article(6200, 10, kind="vehicle")).count == 4


def test_machinery_over_ten_thousand_pounds_takes_four() -> None:
    """393.130(c), university extension note of 2024; lighter machinery goes by 393.110."""
    assert wanted(article(10_001, 10, kind="machinery")).count == 4
    assert wanted(article(10_000, 10, kind="machinery")).count == 2


def test_a_sling_makers_count() -> None:
    """T02: 24,000 lb with 3,335 lb straps counted in full: 3.598, so four."""
    assert needed(article(24000, 8), kg(3335), "over the load") == 4


def test_count_by_weight_can_govern() -> None:
    """T03: 20,100 lb by 5,000 lb tie-downs counted in full are five, more than the three."""
    assert needed(article(40200, 18), kg(5000), "over the load") == 5


@pytest.mark.parametrize(("each_kg", "count"), [(100, 3), (50, 6), (200, 3)])
def test_the_canadian_manual_agrees(each_kg: float, count: int) -> None:
    """T07 to T09, Driving Commercial Vehicles, ch. 5, page 95: 3.65 m, 600 kg, not blocked."""
    cargo = Article(weight=600, length=3.65)
    assert wanted(cargo).aggregate == 300
    assert needed(cargo, each_kg, "over the load") == count


@pytest.mark.parametrize(
    ("grade", "aggregate", "cargo"),
    [
        pytest.param("grade 70", 13200, 26400, id="T04: tractor club's note, grade 70"),
        pytest.param("", 5300, 10600, id="T05: the same, unmarked"),
    ],
)
def test_four_three_eighths_chains_from_trailer_to_load(
    grade: str, aggregate: float, cargo: float
) -> None:
    row = working_load(WORKING_LOADS, "chain", "3/8", grade)
    assert row is not None
    ties = Ties(count=4, limit=kg(row.lb), run="to the load")
    assert lb(ties.aggregate) == pytest.approx(aggregate)
    assert lb(supports(ties)) == pytest.approx(cargo)


@pytest.mark.parametrize(
    ("material", "size", "grade", "pounds"),
    [
        ("synthetic webbing", "2", "", 2000),
        ("synthetic webbing", "4", "", 4000),
        ("chain", "5/16", "grade 80", 4500),
        ("chain", "5/16", "grade 70", 4700),
        ("chain", "1/2", "grade 100", 15000),
        ("chain", "8 mm", "grade 70", 4700),
        ("wire rope", "1/2", "", 5300),
        ("manila rope", "1/2", "", 315),
    ],
)
def test_default_working_load_limits(material: str, size: str, grade: str, pounds: float) -> None:
    """49 CFR 393.108 tables, in two reprints; grade 80 below grade 70 is as printed."""
    row = working_load(WORKING_LOADS, material, size, grade)
    assert row is not None
    assert row.lb == pounds
    assert row.status == "V2"


def test_both_columns_of_the_table_agree_to_their_rounding() -> None:
    for row in WORKING_LOADS:
        assert row.kg == pytest.approx(kg(row.lb), rel=0.025, abs=8), row


@pytest.mark.parametrize("run", ["to the load", "over the load"])
def test_what_is_needed_is_strong_enough_and_one_fewer_is_not(run: Run) -> None:
    for weight in range(500, 40_000, 730):
        cargo = article(weight, 4)
        count = needed(cargo, kg(3300), run)
        held = [Ties(count=each, limit=kg(3300), run=run).aggregate for each in (count, count - 1)]
        assert held[0] >= wanted(cargo).aggregate - 1e-6
        assert held[1] < wanted(cargo).aggregate or count == wanted(cargo).count
