"""Corrections that name no field: 'make that 5,230', 'oops that was 208', '31.4 not 34.1'.

Nothing but the figure tells what is mended, so that it must look like one of the log's, and the
message say no more. What else corrects is decided in `corrections`.
"""

from __future__ import annotations

from domain.entries import Correction
from domain.reading.amendments import amend
from domain.reading.claimed_dates import is_bare_year
from domain.reading.dearest_fuel import dearest
from domain.reading.figures import (
    DURATION,
    LENGTH,
    MASS,
    MONEY,
    SHARE,
    SPEED,
    TEMPERATURE,
    Figure,
    token_at,
)
from domain.reading.label import Label
from domain.reading.mistakes import said_of_a_stranger
from domain.reading.scene import Scene
from domain.reading.tokens import WORD

SHORTEST = 8
BARELY, LEAST_BARE = 2, 30
"""Tokens of 'make that 99', and the least that it is said of: fewer are pizzas and people."""
LEAST_READ_OFF = 100
"""What a gauge shows that is corrected without a word for it: a temperature."""

MOST_WITHOUT_FIELD = 14
"""Tokens of a correction that names no field: it says little else than the figure."""

MOST_BARE = 500_000
"""Pounds or miles: no load or odometer of a pickup and its trailer is beyond."""
MOST_UNITS = 50
"""Gallons at the dearest price of all: no fill of a pickup costs more."""

STEP = {"us": 10}
"""Pounds that a truck scale reads in; in kilograms 5. Common practice, no source."""
LEAST_STEP = 5


def without_field(
    scene: Scene, value: Figure, was: Figure | None, *, opens: bool, restates: bool
) -> Correction | None:
    """'make that 5,230': nothing but the figure tells what is meant, so it must look like it."""
    strong = restates or any("surely_corrects" in token.groups for token in scene.tokens[:6])
    only = len(scene.tokens) == BARELY and "surely_corrects" in scene.tokens[0].groups
    # 'oops that was 208' points back at a gauge, and '208 not 218' names what was told.
    read_off = value.dimension is None and value.value >= LEAST_READ_OFF
    if not (
        log_sized(value)
        or (restates and _of_last(scene, value))
        or (only and value.value >= LEAST_BARE)
        or (read_off and opens and (was is not None or _points_back(scene, value)))
    ):
        return None
    if was is None and not strong and not (opens and len(scene.tokens) <= SHORTEST):
        return None
    if restates and was is None and said_of_a_stranger(scene, value):
        return None
    if was is None and not opens and value.dimension in FORESEEN:
        return None
    if is_year(scene, value, weak=was is None and not strong):
        return None
    before = token_at(scene.tokens, value.start - 1)
    if value.dimension == MONEY and (
        any("changes_field" in token.groups for token in scene.tokens[value.end :])
        or (before is not None and "before_money" in before.groups)
        or value.value > MOST_UNITS * dearest(scene.context.currency)
    ):
        return None  # '$50 in change', 'make it for $150', 'sorry, $2,400 for rent'
    if not nothing_else(scene, value, was, spare=1 if is_clear(value) else 0):
        return None
    return amend(scene, value, None, was)


def is_clear(figure: Figure) -> bool:
    """Whether a figure has a separator, a point or a unit: it is none that is said of anything."""
    return figure.token.grouped or figure.token.decimals > 0 or figure.unit is not None


def _of_last(scene: Scene, value: Figure) -> bool:
    """'that last one should be 51': of the entry before, whatever that was of."""
    told = value.value >= LEAST_BARE and value.dimension not in NEVER_BARE
    return told and any(
        "ordinal" in t.senses and "points_back" in t.groups for t in scene.tokens[:2]
    )


def _points_back(scene: Scene, value: Figure) -> bool:
    before = scene.tokens[max(0, value.start - 2) : value.start]
    groups = ("points_back", "was")
    return len(before) == 2 and all(g in t.groups for g, t in zip(groups, before, strict=True))


FORESEEN = (SPEED, TEMPERATURE)
"""What 'should be' says of the weather and the road ahead."""


def nothing_else(scene: Scene, value: Figure, was: Figure | None, spare: int = 0) -> bool:
    """Whether a message has the figure, words for a correction and of the log, and no more.

    `spare` unknown words may open or end it: 'drat, make that 7,260'.
    """
    tokens, label = scene.tokens, value.label
    if len(tokens) > MOST_WITHOUT_FIELD or is_part_of_word(scene, value):
        return False
    for index, token in enumerate(tokens):
        if (
            value.start <= index < value.end
            or (was is not None and was.start <= index < was.end)
            or (isinstance(label, Label) and label.start <= index < label.end)
            or token.kind is not WORD
            or not OF_A_FIGURE.isdisjoint(token.senses)
            or token.groups & {"log_entry", "points_back", "agrees", "asks_politely", "addresses"}
            or (value.dimension == MASS and "carried_thing" in token.groups)
            or ("time" in token.senses and "fuel_cue" in scene.by_class)  # 'yesterday's fill'
        ):
            continue
        if token.senses or spare == 0 or 0 < index < len(tokens) - 1:
            return False
        spare -= 1
    return True


OF_A_FIGURE = frozenset(
    ("glue", "correction", "reported", "weigh_cue", "fuel_cue", "ticket", "ordinal")
)
"""Classes of term that a correction can have that names no field."""


def is_part_of_word(scene: Scene, figure: Figure) -> bool:
    """'i386', 'kernel_4': digits behind letters are part of a name."""
    at = figure.token.start
    return at > 0 and (scene.text[at - 1].isalnum() or scene.text[at - 1] == "_")


def log_sized(figure: Figure) -> bool:
    """A figure that no field names must look like one of the log's, not like 'make it 7'."""
    if figure.dimension in NEVER_BARE:
        return False
    if figure.dimension == MONEY:
        return figure.value >= 10
    if figure.dimension is not None:
        return True
    if figure.token.decimals == 2 and figure.value < 13 and round(figure.value * 100) % 5 == 0:
        return figure.value % 1 >= 0.6  # 'sorry, 7.30 not 8.30'
    return (
        1000 <= figure.value <= MOST_BARE
        or (figure.token.decimals > 0 and figure.value >= 1)
        or (figure.value >= 100 and figure.token.said.spoken)
    )


NEVER_BARE = (DURATION, LENGTH, SHARE)
"""Dimensions of figures that people put right in talk, and of which no entry is made up."""


def is_year(scene: Scene, figure: Figure, *, weak: bool = False) -> bool:
    """'no, it's from 1994': no scale shows a load that ends in 4.

    Where the words for a correction are `weak`, no load is meant by it in pounds at all: a
    ton on an axle is a small trailer's.
    """
    if not is_bare_year(figure):
        return False
    before = token_at(scene.tokens, figure.start - 1)
    if before is not None and "before_year" in before.groups:
        return True
    if scene.context.units in STEP and weak:
        return True
    return figure.value % STEP.get(scene.context.units, LEAST_STEP) != 0
