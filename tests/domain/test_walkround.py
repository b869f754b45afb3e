"""Faults that are carried until somebody says that they are put right."""

from __future__ import annotations

from datetime import UTC, datetime, timedelta

import pytest

from domain.entries import Check
from domain.log import Logged
from domain.walkround import open_faults

AT = datetime(2026, 7, 11, 20, 22, tzinfo=UTC)


def carried(*told: tuple[str, str]) -> list[str]:
    """The faults still open after checks of items, each with its state."""
    checks = [
        Logged(entry=Check(item=item, state=state), at=AT + timedelta(hours=hour), key=hour)  # type: ignore[arg-type]
        for hour, (item, state) in enumerate(told, 1)
    ]
    return [each.entry.item for each in open_faults(checks)]


@pytest.mark.parametrize("fixed", ["nearside lamp", "lamp"])
def test_a_fault_is_put_right_by_its_name_or_by_its_kind_where_it_is_the_only_one(
    fixed: str,
) -> None:
    assert carried(("nearside lamp", "fault"), (fixed, "done")) == []


def test_a_kind_does_not_say_which_of_two() -> None:
    both = [("nearside lamp", "fault"), ("number plate lamp", "fault")]
    assert carried(*both, ("lamp", "done")) == ["nearside lamp", "number plate lamp"]
    assert carried(*both, ("plate lamp", "done")) == ["nearside lamp"]


def test_something_else_puts_nothing_right() -> None:
    assert carried(("nearside lamp", "fault"), ("lamps", "done")) == ["nearside lamp"]
