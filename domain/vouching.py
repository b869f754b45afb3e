"""Printed figures that vouch for each other.

This file decides which figures of a page are borne out by the others: axles that make the gross
printed below them, and a volume and a price that make a total. Digits that were misread do not
add up, so such figures are right though each was made out poorly. It does not know what any of
them is; whether an entry's own figures close is decided in `pictured`.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import combinations

LEAST_PARTS, MOST_PARTS = 2, 6
NEARBY = 8
"""How many figures away, at most, the last of three stands that make a product."""

ROUNDED = 0.015
"""Money: half a cent of rounding, and that of a volume shown in hundredths of a litre."""
LEAST_STEP = 0.005
"""Less than the last digit of any scale's print, in tonnes too."""
LEAST_FACTOR = 1.1
"""A factor of about one bears nothing out: the other would be the product."""


def borne_out(figures: Sequence[float]) -> set[int]:
    """Which figures, by their place in the order printed, are parts of a sum or a product."""
    return {index for group in (*_sums(figures), *_products(figures)) for index in group}


def _sums(figures: Sequence[float]) -> Iterator[range]:
    """Figures that come one after the other, and the last is what the others make."""
    for start in range(len(figures)):
        total = 0.0
        for end in range(start, min(start + MOST_PARTS, len(figures) - 1)):
            total += figures[end]
            parts = end - start + 1
            if parts >= LEAST_PARTS and total > 0 and abs(figures[end + 1] - total) < LEAST_STEP:
                yield range(start, end + 2)


def _products(figures: Sequence[float]) -> Iterator[tuple[int, int, int]]:
    """Two figures, and one not far below that is what they make."""
    for one, factor in enumerate(figures):
        near = range(one + 1, min(one + NEARBY, len(figures)))
        for other, product in combinations(near, 2):
            made = factor * figures[other]
            factors_count = min(factor, figures[other]) >= LEAST_FACTOR
            if factors_count and abs(made - figures[product]) <= ROUNDED:
                yield one, other, product
