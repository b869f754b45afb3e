"""Number words that add up: 'treinta y uno' is 31, 'cinco mil doscientos ochenta' is 5280.

This file decides which words of a run make one number together, in a language that has words for
the hundreds. What is said digit by digit or pair by pair ('cincuenta y dos ochenta') stays in
groups, and `numbers` joins them. It does not know what a figure is of.
"""

from __future__ import annotations

from collections.abc import Sequence

from domain.reading.numbers import AND, HALF, THOUSAND, A, Atom

Part = tuple[Atom, int, int]
"""An atom, and the words that it is made of: start, end (exclusive)."""


def summed(atoms: Sequence[Atom]) -> list[Part]:
    """The atoms of a run, with those that add up as one; `atoms` are as `numbers` takes them."""
    parts: list[Part] = []
    at = 0
    while at < len(atoms):
        value, end = _below_thousand(atoms, at)
        if end == at and atoms[at] == AND and atoms[at + 1 : at + 2] == [HALF]:
            # 'y medio', as `numbers` knows it
            parts += [(AND, at, at), (A, at, at + 1), (HALF, at + 1, at + 2)]
            at += 2
            continue
        if end < len(atoms) and atoms[end] == THOUSAND and (end > at or _opens(parts, atoms, at)):
            rest, after = _below_thousand(atoms, end + 1)
            parts.append(((value if end > at else 1) * 1000 + rest, at, after))
            at = after
        elif end > at:
            parts.append((value, at, end))
            at = end
        else:
            parts.append((atoms[at], at, at + 1))
            at += 1
    return parts


def _opens(parts: Sequence[Part], atoms: Sequence[Atom], at: int) -> bool:
    """Whether 'mil' begins a number: no figure in digits stands before it ('48 mil')."""
    return not (at and parts and parts[-1][2] == at and isinstance(atoms[at - 1], float))


def _below_thousand(atoms: Sequence[Atom], at: int) -> tuple[int, int]:
    """'doscientos treinta y uno': the value and where it ends; `at` where none begins."""
    value, end = 0, at
    if end < len(atoms) and _is_whole(atoms[end], 100, 900):
        value, end = int(atoms[end]), end + 1
    if end < len(atoms) and _is_whole(atoms[end], 20, 90):
        value, end = value + int(atoms[end]), end + 1
        joined = end + 1 < len(atoms) and atoms[end] == AND and _is_whole(atoms[end + 1], 1, 9)
        return (value + int(atoms[end + 1]), end + 2) if joined else (value, end)
    if end < len(atoms) and _is_whole(atoms[end], 0 if end == at else 1, 99):
        return value + int(atoms[end]), end + 1
    return value, end


def _is_whole(atom: Atom, low: int, high: int) -> bool:
    return isinstance(atom, int) and low <= atom <= high
