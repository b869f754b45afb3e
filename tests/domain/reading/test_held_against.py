"""What a question holds its answer against: a weight, an economy, a sum, a rating, a part."""

from __future__ import annotations

import pytest

from domain.entries import Correction
from domain.quantities import Quantity
from domain.verdicts import Facts, Question, Silent
from tests.domain.reading.chats import Reader, on_the_road


@pytest.mark.parametrize(
    ("text", "named"),
    [
        ("is the flatdeck heavier than 6,500 lb?", {"value": Quantity(6_500, "lb")}),
        ("do we have 350 lb to spare on the drive axle", {"value": Quantity(350, "lb")}),
        ("are we at least at 11% tongue", {"value": Quantity(11, "%")}),
        ("is 10.2 mpg normal with the camper", {"value": Quantity(10.2, "mi/gal")}),
        ("did we spend more than $300 on fuel in june", {"value": Quantity(300, "USD")}),
        (
            "would another 500 lb of feed in the bed put us over the rear gawr",
            {"value": Quantity(500, "lb"), "rating": "gawr_rear"},
        ),
        (
            "if we put 200 to 250 lb in the bed are we under gvwr",
            {"value": Quantity(250, "lb", 200), "rating": "gvwr"},
        ),
        ("is the coupler overloaded?", {"item": "coupler"}),
        ("whats the ball mount rated for", {"item": "ball mount"}),
        ("is anything due for service in the next 800 miles", {"distance": Quantity(800, "mi")}),
        ("second trailer axle weight?", {"field": "trailer_2"}),
    ],
)
def test_a_question_keeps_what_it_names(text: str, named: dict[str, object], reads: Reader) -> None:
    verdict = reads(text, on_the_road())
    assert isinstance(verdict, Question)
    assert {field: getattr(verdict, field) for field in named} == named


@pytest.mark.parametrize(
    "text", ["leave the porch light on for me ok", "plug the trailer in", "scratch that, lets bowl"]
)
def test_what_somebody_is_told_to_do_is_not_done(text: str, reads: Reader) -> None:
    assert reads(text, on_the_road()) == Silent()


def test_what_is_scratched_is_put_right_by_the_figure_behind(reads: Reader) -> None:
    verdict = reads("scratch that, it was 6,340", on_the_road())
    assert verdict == Facts((Correction(action="amend", value=6_340),))
