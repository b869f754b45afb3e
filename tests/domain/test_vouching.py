"""Figures on a page that bear each other out."""

from __future__ import annotations

import pytest

from domain.vouching import borne_out


@pytest.mark.parametrize(
    ("figures", "places"),
    [
        ([48211, 5280, 6140, 8520, 19940], {1, 2, 3, 4}),
        ([5280, 6140, 11420, 5300, 6180, 11480], {0, 1, 2, 3, 4, 5}),
        ([5280, 6140, 8520, 19960], set()),
        ([7, 31.402, 3.899, 122.44], {1, 2, 3}),
        ([31.402, 3.899, 122.45, 4411], {0, 1, 2}),
        ([31.402, 3.899, 122.54], set()),
        ([78.42, 1.719, 134.80], {0, 1, 2}),
        ([2.31, 1.93, 4.24], {0, 1, 2}),
        ([1, 3.49, 3.49], set()),
        ([5280], set()),
        ([], set()),
        ([0, 0, 0], set()),
    ],
)
def test_axles_bear_out_their_gross_and_volume_and_price_their_total(
    figures: list[float], places: set[int]
) -> None:
    assert borne_out(figures) == places


def test_a_product_far_below_its_factors_is_chance() -> None:
    assert borne_out([31.402, 3.899, *(float(7000 + 997 * n) for n in range(9)), 122.44]) == set()
