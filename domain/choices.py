"""What a choice of a question back is called.

This file decides which ways there are to name a choice, and how each reads in English, which is
what the `read` contract promises. A label is a value: the way, with the figure and the position
that stand in it; whoever shows it to people says it in their language. Which choices a doubt has
is decided where it arises.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field

from domain.quantities import Quantity

LABELS: Mapping[str, str] = {
    "number": "{number}",
    "number_as_typed": "{number}, as typed",
    "figure": "{figure}",
    "figure_as_typed": "{figure}, as typed",
    "as_texted": "as texted",
    "as_read": "as read",
    "loads": "{loads}",
    "gross": "{figure} gross",
    "no_gross": "the axles, without a gross",
    "rest": "the rest, without the {position}",
    "one_axle": "{figure} on the {position} axle",
    "trailer_axles": "{figure} on the trailer axles",
    "axles_hitched": "{figure} on its axles, hitched",
    "all_unhitched": "{figure} in all, unhitched",
    "steer_and_drive": "steer and drive",
    "truck_and_trailer": "truck and trailer axles",
}
"""Each way to name a choice, in English. `number` is the figure without its unit."""

AS_TYPED = ("as typed", "as texted")
"""So end the labels that say: what was texted is right."""


@dataclass(frozen=True, slots=True)
class ChoiceLabel:
    """One of the `LABELS`, with what stands in it; `loads` are by position."""

    way: str
    figure: Quantity | None = None
    position: str | None = None
    loads: Mapping[str, Quantity] = field(default_factory=dict)


def english(label: ChoiceLabel | str) -> str:
    """A label as the contract promises it; a name or a text is as it is."""
    if isinstance(label, str):
        return label
    figure = label.figure
    return LABELS[label.way].format(
        number=f"{figure.value:,.10g}" if figure else "",
        figure=_figure(figure) if figure else "",
        position=_position(label.position or ""),
        loads=", ".join(f"{_position(name)} {_figure(load)}" for name, load in label.loads.items()),
    )


def _figure(figure: Quantity) -> str:
    return f"{figure.value:,.10g} {figure.unit}"


def _position(name: str) -> str:
    return name.replace("_", " ")
