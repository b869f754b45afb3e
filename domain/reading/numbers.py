"""Numbers as people say them: 'fifty-one forty', 'nineteen thousand four hundred'.

This file decides which figure a run of number words is. People read a scale in groups of
digits, so groups are joined as they would be typed ('forty-eight two eleven' is 48211), and
'hundred', 'thousand' and 'point' keep their meaning. It does not know what a figure is of.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import NamedTuple

HUNDRED, THOUSAND, POINT, AND, A, HALF = "hundred", "thousand", "point", "and", "a", "half"

Atom = str | int | float
"""A number word as the phrasebook keys it (a rule word or an int), or a figure typed in digits."""

MOST_DIGITS = 12
"""Digits: a longer run of number words is no figure at all."""

LONGEST_FIGURE = 7
"""Digits: an odometer has six and a ticket seven; more is several figures read in one breath."""


MOST_DECIMALS = 3
"""Digits behind the point of the finest figure that is said: a price in mills."""


@dataclass(frozen=True, slots=True)
class Spoken:
    """A figure put together from atoms `start` to `end`, with the digits said after 'point'."""

    value: float
    decimals: int
    start: int
    end: int
    words: int


def compose(atoms: Sequence[Atom]) -> list[Spoken]:
    """The figures in a run of atoms, in order; atoms that make none are passed over."""
    figures: list[Spoken] = []
    position = 0
    while position < len(atoms):
        figure, position = _figure(atoms, position)
        figures.extend(figure)
    return figures


def other_meanings(atoms: Sequence[Atom]) -> tuple[float, ...]:
    """What the words of one figure could mean besides, where people shorten thousands.

    'twenty-two one' is 221, and 22,100; 'sixty-nine' is 69, and 6,900; 'seventy oh forty' is
    70,040, and 7,040.
    """
    groups, end = _groups(atoms, 0, opening=True)
    if end != len(atoms) or any(not isinstance(atom, int) for atom in atoms):
        return ()
    first, *rest = (int(group.value) for group in groups)
    if not rest:
        return (first * 100.0,) if 10 <= first <= 99 else ()
    if len(rest) == 1 and rest[0] <= 9 and 1 <= first <= 99:
        return (first * 1000.0 + rest[0] * 100,)
    if len(rest) == 2 and rest[0] == 0 and 10 <= first <= 99 and 10 <= rest[1] <= 99:
        return (first * 100.0 + rest[1],)
    return ()


def _figure(atoms: Sequence[Atom], start: int) -> tuple[list[Spoken], int]:
    groups, position = _groups(atoms, start, opening=True)
    if not groups and not (position < len(atoms) and atoms[position] == POINT):
        if tuple(atoms[start : start + 2]) == (HALF, A):
            return [Spoken(0.5, 1, start, start + 2, 2)], start + 2  # 'half a tonne'
        return [], max(position, start) + 1
    if len(groups) > 1 and not _separate(groups) and _digits(groups) > MOST_DIGITS:
        return [], position
    whole: float = 0
    if position < len(atoms) and atoms[position] == THOUSAND and groups:
        whole = round(_joined(groups) * 1000, 3)
        rest, after = _groups(atoms, position + 1, opening=False)
        # 'five thousand three sixty | six thousand': the group before a thousand is its own.
        while rest and after < len(atoms) and atoms[after] == THOUSAND:
            last = rest.pop()
            after = last.start
            if atoms[after + 1] == HUNDRED and last.end == after + 3:
                # 'five thousand two hundred | six thousand'
                rest, after = [_Group(last.value // 100 * 100, after, after + 2)], after + 2
                break
        below = _joined(rest) if rest else 0
        if below < 1000:
            whole, position = whole + below, after
        else:
            position += 1
    elif len(groups) > 1 and (pairs := _separate(groups)):
        return pairs, position
    elif (
        len(groups) > 1
        and position < len(atoms)
        and atoms[position] == POINT
        and _digits(groups) > LONGEST_FIGURE - 1
    ):
        # 'one thirty one six oh two | thirty-eight point one': the point belongs to the last.
        last = groups[-1]
        before = groups[:-1]
        whole = _joined(before)
        return [Spoken(whole, 0, start, last.start, last.start - start)], last.start
    elif groups:
        whole = _joined(groups)
    decimals = 0
    if position < len(atoms) and atoms[position] == POINT:
        fraction, after = _fraction(atoms, position + 1)
        if fraction:
            decimals = len(fraction)
            whole += float(f"0.{fraction}")
            whole = round(whole, decimals)
            position = after
            if position < len(atoms) and atoms[position] == THOUSAND:
                whole, decimals, position = round(whole * 1000, 3), 0, position + 1
        elif not groups:
            return [], position + 1
    elif tuple(atoms[position : position + 3]) == (AND, A, HALF):
        whole, decimals, position = whole + 0.5, 1, position + 3
        if position < len(atoms) and atoms[position] == THOUSAND:
            whole, decimals, position = whole * 1000, 0, position + 1
    return [Spoken(whole, decimals, start, position, position - start)], position


class _Group(NamedTuple):
    """Up to three digits, or a whole number of hundreds, said together."""

    value: float
    start: int
    end: int


def _groups(atoms: Sequence[Atom], position: int, *, opening: bool) -> tuple[list[_Group], int]:
    groups: list[_Group] = []
    while position < len(atoms):
        if atoms[position] == AND and not opening and not groups:
            position += 1
            continue
        group = _group(atoms, position)
        if group is None:
            break
        if groups and (isinstance(atoms[position], float) or group.value >= 1000):
            break
        groups.append(group)
        position = group.end
        if isinstance(atoms[group.start], float) or group.value >= 1000:
            break
    return groups, position


def _group(atoms: Sequence[Atom], start: int) -> _Group | None:
    """'forty', 'sixty five', 'two hundred and five', 'hundred ten', or digits."""
    first = atoms[start]
    position = start + 1
    if first == A:
        if position < len(atoms) and atoms[position] in (HUNDRED, THOUSAND):
            value: float = 1
        else:
            return None
    elif first == HUNDRED:
        value, position = 1, start  # 'hundred and twelve litres'
    elif isinstance(first, float):
        value = first
    elif isinstance(first, int):
        value = first
        tens = 20 <= first <= 90 and first % 10 == 0
        if tens and position < len(atoms) and _is_digit(atoms[position]):
            value += int(atoms[position])
            position += 1
    else:
        return None
    if position < len(atoms) and atoms[position] == HUNDRED:
        value *= 100
        position += 1
        tail_start = position + 1 if position < len(atoms) and atoms[position] == AND else position
        if tail_start < len(atoms) and isinstance(atoms[tail_start], (int, float)):
            tail = _group(atoms, tail_start)
            follows = atoms[tail.end] if tail and tail.end < len(atoms) else None
            # 'one hundred eighteen thousand', but 'fifty-two hundred | six thousand'.
            absorbed = follows != THOUSAND or value < 1000
            if tail and tail.value < 100 and absorbed:
                value, position = value + tail.value, tail.end
    return _Group(value, start, position)


def _is_digit(atom: Atom) -> bool:
    return isinstance(atom, int) and 1 <= atom <= 9


def _joined(groups: Sequence[_Group]) -> float:
    """Groups as one figure: 48, 2, 11 is 48211."""
    if len(groups) == 1:
        return groups[0].value
    return int("".join(str(int(group.value)) for group in groups))


def _digits(groups: Sequence[_Group]) -> int:
    return sum(len(str(int(group.value))) for group in groups)


def _separate(groups: Sequence[_Group]) -> list[Spoken]:
    """Several figures of two pairs each, read without a breath; empty where they are one figure."""
    digits = _digits(groups)
    pairs = all(10 <= group.value <= 99 for group in groups) and len(groups) % 2 == 0
    if digits <= LONGEST_FIGURE or not pairs:
        return []
    return [
        Spoken(_joined((first, second)), 0, first.start, second.end, second.end - first.start)
        for first, second in zip(groups[::2], groups[1::2], strict=True)
    ]


def _fraction(atoms: Sequence[Atom], position: int) -> tuple[str, int]:
    """The digits said after 'point': 'eight four', 'eighty-four', 'oh five'."""
    digits = ""
    while position < len(atoms):
        atom = atoms[position]
        if isinstance(atom, float):
            if digits or not float(atom).is_integer():
                break
            return str(int(atom)), position + 1
        group = _group(atoms, position)
        if group is None or group.value >= 100:
            break
        if digits and group.end < len(atoms) and atoms[group.end] == POINT:
            break  # 'two eighty one point six | twenty four point three'
        if len(digits) >= MOST_DECIMALS:
            break  # 'three point eight four nine | forty eight two eleven'
        digits += str(int(group.value))
        position = group.end
    return digits, position
