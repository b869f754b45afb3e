"""Figures are kept as they were measured, and shown as they are kept."""

from __future__ import annotations

from pathlib import Path

from tests.bench.figures import Figures, figures_table, read


def test_a_figure_that_is_measured_again_takes_the_place_of_the_first_and_the_rest_stay(
    tmp_path: Path,
) -> None:
    kept = Figures(tmp_path / "figures.json")
    kept.note("messages a second", 71.25678, "/s")
    kept.note("a weighing's answer", 4.1, "ms", "5 ms")
    kept.note("messages a second", 80.1, "/s", "10")
    found = read(tmp_path / "figures.json")["figures"]
    assert found == {
        "a weighing's answer": {"value": 4.1, "unit": "ms", "limit": "5 ms"},
        "messages a second": {"value": 80.1, "unit": "/s", "limit": "10"},
    }


def test_the_table_has_a_row_for_each_figure_and_names_the_machine(tmp_path: Path) -> None:
    file = tmp_path / "figures.json"
    Figures(file).note("summaries", 123456.7, "", "more")
    machine, _, head, rule, row, end = figures_table(file).split("\n")
    assert "cores" in machine
    assert "Python 3" in machine
    assert head.count("|") == rule.count("|") == row.count("|") == 4
    assert row == "| summaries | 123,500  | more |"
    assert end == ""
