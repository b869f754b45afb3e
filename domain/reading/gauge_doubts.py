"""What is asked of a gauge that shows what none can: 'trans 2100'.

This file decides which readings are offered, and which figure answers: '212' completes them. Beside
another figure of the message none is whole, and none is offered.
"""

from __future__ import annotations

from dataclasses import replace

from domain.choices import ChoiceLabel
from domain.entries import Observation
from domain.quantities import Quantity
from domain.reading.doubts import Doubt
from domain.reading.figures import Figure
from domain.reading.gauge_values import RUN_HOT, implausible
from domain.reading.label import Label
from domain.reading.label_fit import SUBJECT_DIMENSIONS
from domain.reading.scene import Scene
from domain.verdicts import Choice

SLIP = 10.0
"""A digit too many makes a figure so many times as large."""

LEAST_RUNNING = 100.0
"""Degrees Fahrenheit of what runs: less is no slip of a digit."""


def beyond_gauge(scene: Scene, figure: Figure, read: Observation) -> Doubt:
    """The doubt about a reading that can't be right."""
    value = read.value
    if [each for each in scene.figures if each.claimed is None] != [figure]:
        return Doubt("observation", "implausible", (value,))
    choices = [Choice(ChoiceLabel("figure_as_typed", value), (read,))]
    meant = _without_a_digit(read)
    if meant is not None:
        choices.insert(0, Choice(ChoiceLabel("figure", meant), (replace(read, value=meant),)))
    return Doubt("observation", "implausible", (value,), tuple(choices))


def _without_a_digit(read: Observation) -> Quantity | None:
    """'trans 2100' is 210 °F, in a metric chat, too: nothing runs at 210 °C."""
    value = read.value
    for unit in (value.unit, "degF") if value.unit == "degC" else (value.unit,):
        meant = Quantity(value.value / SLIP, unit)
        if not implausible(read.subject, meant) and _runs(read.subject, meant):
            return meant
    return None


def _runs(subject: str, value: Quantity) -> bool:
    """Whether what runs hot is warm."""
    heat = subject in RUN_HOT and value.unit in ("degF", "degC")
    return not heat or value.amount("degF") >= LEAST_RUNNING


def is_of_other_gauge(figure: Figure, read: Observation) -> bool:
    """'coolant 210', where the gearbox was asked about, or 'RF 65' where it was the left rear."""
    label = figure.label
    if not isinstance(label, Label):
        return False
    if label.subject not in (None, read.subject):
        return True
    said = {each for each in (label.side, label.end_of, label.vehicle) if each}
    return not said <= {"truck", *(read.position or "").split(" ")}


def may_show(scene: Scene, figure: Figure, read: Observation) -> bool:
    """Whether a figure may be what the gauge showed: 'be there in 45' is no answer."""
    if figure.dimension not in (None, *SUBJECT_DIMENSIONS[read.subject]):
        return False
    if figure.start and "in" in scene.tokens[figure.start - 1].groups:
        return False
    value = Quantity(figure.value, figure.unit or read.value.unit)
    return not implausible(read.subject, value) and _runs(read.subject, value)
