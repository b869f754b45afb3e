"""What a chat already knows when a message arrives.

The reader is a function of a message and this record; two messages that differ only in
context may rightly be read differently.
"""

from __future__ import annotations

from dataclasses import dataclass
from datetime import datetime
from typing import Literal

from domain.quantities import Quantity
from domain.verdicts import Ask

Units = Literal["us", "metric", "imperial"]

MASS_UNIT = {"us": "lb", "metric": "kg", "imperial": "kg"}
DISTANCE_UNIT = {"us": "mi", "metric": "km", "imperial": "mi"}
VOLUME_UNIT = {"us": "gal", "metric": "L", "imperial": "L"}
TEMPERATURE_UNIT = {"us": "degF", "metric": "degC", "imperial": "degC"}
PRESSURE_UNIT = {"us": "psi", "metric": "kPa", "imperial": "psi"}
SPEED_UNIT = {"us": "mph", "metric": "km/h", "imperial": "mph"}
ECONOMY_UNIT = {"us": "mi/gal", "metric": "L/100km", "imperial": "mi/gal_imp"}
SHORT_LENGTH_UNIT = {"us": "ft", "metric": "m", "imperial": "m"}
"""The unit meant where a figure of each kind has none, by the chat's units."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Context:
    """The chat's units, money and place in time, its rig, and the question it has open.

    `sent_at` anchors 'yesterday' and is aware; `odometer` is the truck's latest reading,
    `tank` its capacity, `asked` the doubt that the last answer put to the texter, `language`
    (ISO 639-1) the one that its people text in. `names_by_kind` where 'the camper' names a
    trailer that nobody gave another name.
    """

    sent_at: datetime
    units: Units = "us"
    currency: str = "USD"
    time_zone: str | None = None
    odometer: Quantity | None = None
    tank: Quantity | None = None
    fuel: str | None = None
    hitched: bool | None = None
    truck: str | None = None
    trailers: tuple[str, ...] = ()
    asked: Ask | None = None
    language: str = "en"
    names_by_kind: bool = False

    @property
    def odometer_unit(self) -> str:
        """The unit meant where an odometer reading has none: that of the last, or the chat's."""
        return self.odometer.unit if self.odometer else DISTANCE_UNIT[self.units]
