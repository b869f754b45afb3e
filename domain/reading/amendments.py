"""The correction that puts one figure in the place of another, with its field and its unit."""

from __future__ import annotations

from domain.entries import Correction
from domain.quantities import Quantity
from domain.reading.corrected_fields import value_of
from domain.reading.figures import Figure
from domain.reading.scene import Scene


def amend(scene: Scene, value: Figure, field: str | None, was: Figure | None) -> Correction:
    """A figure as what a field should be; `was` is the one that stood there."""
    meant = value_of(scene.context, value, field)
    mistake: Quantity | float | None = None
    if was is not None:
        mistake = value_of(scene.context, was, field)
        # '88 kg not 98', '88 not 98 kg': the unit is said once, for both.
        if was.unit is None and value.unit is not None and isinstance(meant, Quantity):
            mistake = _in_unit(mistake, meant.unit)
        elif value.unit is None and was.unit is not None and isinstance(mistake, Quantity):
            meant = _in_unit(meant, mistake.unit)
    return Correction(
        action="amend",
        field=field,
        value=meant,
        was=mistake,
        words=(("value", scene.words_between(value.start, value.end)),),
    )


def _in_unit(value: Quantity | float, unit: str) -> Quantity:
    """A value as so many of a unit."""
    return Quantity(value.value if isinstance(value, Quantity) else value, unit)
