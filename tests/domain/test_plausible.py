"""A weighing that the rig's own ratings say can't be right is asked about."""

from __future__ import annotations

import pytest

from domain.choices import ChoiceLabel, english
from domain.entries import Hitch, Weighing
from domain.plausible import doubt_of
from domain.quantities import Quantity
from domain.rig import Rig, rig_of
from tests.domain.scale_house import Ticket, flatdeck, juniper


def rig() -> Rig:
    return rig_of(Ticket(*juniper(), *flatdeck()).log)


def weighing(unit: str = "lb", **loads: float) -> Weighing:
    return Weighing(rig="hitched", loads={name: Quantity(v, unit) for name, v in loads.items()})


def test_tonnes_for_thousands_of_pounds_are_asked_about() -> None:
    ask = doubt_of([weighing("t", steer=5.2, drive=6.9)], rig())
    assert ask is not None
    assert ask.why == "far_over"
    assert ask.choices[0].entries == (weighing("lb", steer=5200, drive=6900),)
    assert english(ask.choices[0].label) == "steer 5,200 lb, drive 6,900 lb"
    assert ask.choices[1].label == ChoiceLabel("as_texted")
    assert ask.choices[1].entries == (weighing("t", steer=5.2, drive=6.9),)


def test_kilograms_that_must_be_pounds_are_asked_about() -> None:
    ask = doubt_of([weighing("kg", steer=5200, drive=6900, trailer=9800)], rig())
    assert ask is not None
    assert ask.choices[0].entries == (weighing("lb", steer=5200, drive=6900, trailer=9800),)


def test_steer_and_drive_the_wrong_way_round_are_asked_about() -> None:
    hitch = Hitch(action="hitched")
    ask = doubt_of([hitch, weighing(steer=6900, drive=5100, trailer=9800)], rig())
    assert ask is not None
    assert ask.why == "swapped"
    assert ask.choices[0].entries == (hitch, weighing(steer=5100, drive=6900, trailer=9800))


def test_a_load_that_nobody_carries_is_asked_about_and_may_stand() -> None:
    ask = doubt_of([weighing(steer=9400, drive=4100, trailer=9800)], rig())
    assert ask is not None
    assert ask.about == "steer"
    assert ask.figures == (Quantity(9400, "lb"), Quantity(5600, "lb"))
    assert [choice.label for choice in ask.choices] == [ChoiceLabel("as_texted")]


@pytest.mark.parametrize(
    "loads",
    [
        {"steer": 5280, "drive": 6940, "trailer": 9840},
        {"steer": 5700, "drive": 9100, "trailer": 12800},
        {"gross": 29000},
        {"tongue": 1400},
        {"steer_left": 2600, "steer_right": 2640},
    ],
    ids=["inside", "really overloaded", "over GCWR", "tongue alone", "wheels"],
)
def test_what_can_happen_is_kept_without_a_question(loads: dict[str, float]) -> None:
    assert doubt_of([weighing("lb", **loads)], rig()) is None


def test_without_ratings_nothing_is_doubted() -> None:
    assert doubt_of([weighing("t", steer=52.0, drive=7.1)], rig_of(Ticket().log)) is None
