"""A figure: a number of the message, with its unit and what claims it.

This file decides what a figure is and what each unit measures. How a figure is found is
decided in `figure_search`, what stands beside it in `beside`, who else owns it in `claims`;
what it stands for in the log is decided later, from labels and context.
"""

from __future__ import annotations

from collections.abc import Sequence
from operator import attrgetter

from domain.context import Context
from domain.quantities import converted
from domain.reading.tokens import NUMBER, WORD, Token

LAST_DAY = 31
"""A figure up to this may be the day of a date."""

MASS, VOLUME, DISTANCE, TEMPERATURE, PRESSURE, SPEED = (
    "mass",
    "volume",
    "distance",
    "temperature",
    "pressure",
    "speed",
)


ROTATION, LENGTH, DURATION, SHARE, MONEY, PRICE, ECONOMY, FORCE, TORQUE = (
    "rotation",
    "length",
    "duration",
    "share",
    "money",
    "price",
    "economy",
    "force",
    "torque",
)


DIMENSION_OF = {
    "lb": MASS,
    "kg": MASS,
    "t": MASS,
    "ton": MASS,
    "gal": VOLUME,
    "gal_imp": VOLUME,
    "L": VOLUME,
    "mi": DISTANCE,
    "km": DISTANCE,
    "degF": TEMPERATURE,
    "degC": TEMPERATURE,
    "degree": TEMPERATURE,
    "psi": PRESSURE,
    "kPa": PRESSURE,
    "bar": PRESSURE,
    "mph": SPEED,
    "km/h": SPEED,
    "rpm": ROTATION,
    "ft": LENGTH,
    "in": LENGTH,
    "m": LENGTH,
    "cm": LENGTH,
    "mm": LENGTH,
    "h": DURATION,
    "min": DURATION,
    "%": SHARE,
    "mi/gal": ECONOMY,
    "L/100km": ECONOMY,
    "km/L": ECONOMY,
    "kN": FORCE,
    "Nm": TORQUE,
    "lbf ft": TORQUE,
}


class Figure:
    """A number and what its neighbours say of it, made by `make_figure`.

    `unit` is a contract symbol or currency code or None, `dimension` what it measures; `claimed`
    says who else owns the number; `foreign` is an unknown noun that it counts. `start` and `end`
    are token indexes, the unit and currency included, end exclusive; `counted_to` is that of the
    token that says the count, where it stands behind.
    """

    __slots__ = (
        "claimed",
        "count",
        "counted_to",
        "dimension",
        "end",
        "foreign",
        "label",
        "low",
        "marked",
        "negative",
        "role",
        "start",
        "token",
        "unit",
        "value",
    )

    claimed: str | None
    count: int | None
    counted_to: int
    dimension: str | None
    end: int
    foreign: str | None
    label: object | None
    low: float | None
    marked: bool
    negative: bool
    role: str | None
    start: int
    token: Token
    unit: str | None
    value: float

    @property
    def whole(self) -> bool:
        """Whether it is a whole number, written without decimals."""
        return self.token.decimals == 0


DIMENSION = attrgetter("dimension")
"""What a figure measures, for each of many."""


def make_figure(token: Token, start: int, end: int) -> Figure:
    """A figure of which nothing is known but where it stands; a function as `make_token` is."""
    figure = Figure()
    figure.token = token
    figure.value = token.value
    figure.start = start
    figure.end = end
    figure.unit = figure.dimension = figure.claimed = figure.foreign = figure.role = None
    figure.low = figure.count = figure.label = None
    figure.counted_to = -1
    figure.negative = figure.marked = False
    return figure


def token_at(tokens: Sequence[Token], index: int) -> Token | None:
    """The token at an index, or None outside of the message."""
    return tokens[index] if 0 <= index < len(tokens) else None


def follows_odometer(value: float, context: Context) -> bool:
    """Whether a value could be the truck's next odometer reading."""
    return context.odometer is not None and 0 <= value - context.odometer.value <= NEXT_READING


def kilograms(figure: Figure, unit: str = "lb") -> float:
    """What a figure weighs; `unit` is that of one without, which is taken for pounds."""
    return converted(figure.value, figure.unit or unit, "kg")


def mean_kilometres(figure: Figure) -> None:
    """Take the k of a bare figure for kilometres, and not for thousands: '480 k'."""
    if figure.dimension is None and figure.token.raw.endswith(("k", "K")):
        figure.value, figure.unit, figure.dimension = figure.value / 1000, "km", DISTANCE


BARE_STEP = 2_500
"""Miles or kilometres: how far ahead of the last reading a figure without a label may be."""

NEXT_READING = 5_000
"""Miles or kilometres: further than this between two readings is a jump that is asked about."""


def unit_key(token: Token | None) -> str | None:
    """The unit that a word is, as the contract writes it."""
    return token.senses.get("unit") if token is not None and token.kind is WORD else None


def heads_gauge(tokens: Sequence[Token], figure: Figure) -> bool:
    """'egt 1,280 rpm 2,150': a gauge whose figure follows, and no unit of the gauge before."""
    gauge, behind = tokens[figure.end].senses, token_at(tokens, figure.end + 1)
    if "subject" not in gauge or behind is None or behind.kind is not NUMBER or not figure.start:
        return False
    before = tokens[figure.start - 1].senses.get("subject")
    return before is not None and before != gauge["subject"]


TONS = frozenset(("t", "ton"))
"""Units of so much that a load is told in them with a point, or by halves."""

LEAST_LOAD = 400
