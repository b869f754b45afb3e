"""The table of attacks: each row is a test, and stands in DEVELOPERS.md as `attack` words it."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any, TypeVar

import pytest

Test = TypeVar("Test", bound=Callable[..., Any])
ROWS: list[tuple[str, str]] = []
"""What is tried, and what happens."""


def attack(tried: str, happens: str) -> Callable[[Test], Test]:
    """Give a test its row in the table."""
    ROWS.append((tried, happens))
    return pytest.mark.attack


def attack_table() -> str:
    """The table, in Markdown."""
    rows = ["| what is tried | what happens |", "|---|---|"]
    return "\n".join([*rows, *(f"| {tried} | {happens} |" for tried, happens in ROWS)]) + "\n"
