"""Wheels of which the second is told by its side alone."""

from __future__ import annotations

import pytest

from domain.entries import Observation
from domain.verdicts import Facts
from tests.domain.reading.chats import Reader, on_the_road


@pytest.mark.parametrize(
    ("text", "places"),
    [
        ("front left tire 65, right 66", "left front,right front"),
        ("left rear hub 140, right 152", "left rear,right rear"),
        ("left 65, right 66 psi", "left,right"),
        ("left front 65 psi, left rear 70 psi", "left front,left rear"),
        ("hubs: camper left 148, right 152", "trailer left,trailer right"),
        ("camper left 78 psi, right front 66 psi", "trailer left,right front"),
        (
            "trailer left hub 140, right 141, truck left hub 120, right 118",
            "trailer left,trailer right,left,right",
        ),
        (
            "truck left hub 120, right 118, trailer left hub 140, right 141",
            "left,right,trailer left,trailer right",
        ),
    ],
)
def test_the_other_side_is_of_the_same(text: str, places: str, reads: Reader) -> None:
    read = reads(text, on_the_road())
    assert isinstance(read, Facts)
    assert [each.position for each in read.entries if isinstance(each, Observation)] == (
        places.split(",")
    )
