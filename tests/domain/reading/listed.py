"""Texts that a test lists a line each."""

from __future__ import annotations


def lines(block: str) -> list[str]:
    """The texts of a block, without blank lines."""
    return [line.strip() for line in block.splitlines() if line.strip()]
