"""What the figure of a rating states: a quantity in its unit, or a number on a tyre.

This file decides the unit of a bare figure, which figures can't be such a rating, and when two
units tell one. Which rating a figure is, is decided in `ratings`.
"""

from __future__ import annotations

from collections.abc import Sequence

from domain.context import MASS_UNIT, VOLUME_UNIT
from domain.quantities import Quantity
from domain.reading.beside import own_unit
from domain.reading.claimed_dates import is_bare_year
from domain.reading.figures import FORCE, LENGTH, MASS, PRESSURE, VOLUME, Figure, follows_odometer
from domain.reading.framing import LABEL_STEP
from domain.reading.label import Label
from domain.reading.loads import SMALLER
from domain.reading.scene import Scene

MASS_KG = (90.0, 40_000.0)


TONGUE_KG = (20.0, 4_500.0)


TANK_L = (20.0, 600.0)


TANKS = frozenset(("tank", "def_tank"))


LOAD_INDEX = (50, 180)


def value_of(scene: Scene, figure: Figure, name: str) -> Quantity | float | None:
    """What a figure states as a rating of that name; None where it can be none."""
    if name == "load_index":
        whole = figure.whole and LOAD_INDEX[0] <= figure.value <= LOAD_INDEX[1]
        return figure.value if whole else None
    if name in TANKS:
        if figure.dimension == VOLUME and figure.unit:
            return Quantity(figure.value, figure.unit)
        named = _named_unit(scene, figure)
        return Quantity(figure.value, named or VOLUME_UNIT[scene.context.units])
    if name == "date_code":
        whole = figure.whole and 100 <= figure.value <= 5399
        return figure.value if whole else None
    if name in ("overhang", "coupler_to_axle", "deck"):
        unit = figure.unit if figure.dimension == LENGTH else None
        return Quantity(figure.value, unit) if unit else None
    if name == "d_value":
        return Quantity(figure.value, "kN") if figure.dimension in (FORCE, None) else None
    if name == "wheelbase":
        unit = figure.unit if figure.dimension == LENGTH else None
        return Quantity(figure.value, unit or ("in" if figure.value > 60 else "m"))
    if name == "pressure":
        unit = figure.unit if figure.dimension == PRESSURE else "psi"
        return Quantity(figure.value, unit or "psi")
    if figure.dimension == MASS and figure.unit:
        if _said_in_kg(scene, figure):
            return Quantity(figure.value, "lb")
        return Quantity(figure.value, figure.unit)
    if figure.dimension is None and (figure.value >= 100 or name == "tongue"):
        return Quantity(figure.value, mass_unit(scene))
    if figure.dimension is None and figure.token.decimals > 0 and mass_unit(scene) == "kg":
        # 'MMA 3.050', 'GVM 3.5': tonnes, whichever sign stands before the decimals.
        return Quantity(figure.value, "t") if figure.value < LEAST_IN_KG else None
    return None


def _named_unit(scene: Scene, figure: Figure) -> str | None:
    """'80 litre tank', '36 gal tank': the unit with which the name of the tank begins."""
    if not isinstance(figure.label, Label):
        return None
    first = scene.tokens[figure.label.start].text.split(" ")[0]
    unit = scene.book.words.get(first, {}).get("unit")
    return own_unit(unit, scene.context) if unit else None


def _said_in_kg(scene: Scene, figure: Figure) -> bool:
    """'GAWR RR 7,050 KG 3198': a unit that is printed before its figure, which says it again."""
    if figure.unit != "kg" or scene.context.units != "us":
        return False
    behind = _right_behind(scene, figure)
    return behind is not None and _are_one(Quantity(figure.value, "lb"), behind, "kg")


def leave_said_again(scene: Scene, figure: Figure, value: Quantity | float) -> None:
    """'front gawr 2540 5600', 'GVWR 4990 kg 11000 lbs': the figure behind is one with it."""
    behind = _right_behind(scene, figure)
    other = OTHER_UNIT.get(value.unit) if isinstance(value, Quantity) else None
    if behind is None or other is None or not isinstance(value, Quantity):
        return
    if _are_one(value, behind, behind.unit or other):
        behind.role = "rating"


def _right_behind(scene: Scene, figure: Figure) -> Figure | None:
    found = (other for other in scene.figures if other.start == figure.end)
    return next((each for each in found if each.dimension in (None, MASS)), None)


def _are_one(value: Quantity, figure: Figure, unit: str) -> bool:
    if unit == value.unit:
        return False
    kilos = Quantity(figure.value, unit).amount("kg")
    return abs(value.amount("kg") - kilos) <= ROUNDED * kilos


OTHER_UNIT = {"kg": "lb", "lb": "kg"}

ROUNDED = 0.01
"""How far apart one mass in two units may be."""

LEAST_IN_KG = 60
"""A rating below this, in a chat that weighs in kilograms, is in tonnes."""


def mass_unit(scene: Scene) -> str:
    """That of the other masses in the message, else the chat's; hundreds of tonnes are none.

    So it is kilograms in 'GVM 3.5 t, GCM 7000', and pounds in '3/4 ton, gvwr 10,000'.
    """
    for figure in scene.figures:
        if figure.dimension == MASS and figure.unit:
            return SMALLER.get(figure.unit, figure.unit)
    return MASS_UNIT[scene.context.units]


def is_implausible(name: str, value: Quantity) -> bool:
    """Whether no pickup, trailer or hitch has such a limit."""
    if name == "tank":
        return not TANK_L[0] <= value.amount("L") <= TANK_L[1]
    if value.unit not in ("lb", "kg", "t", "ton"):
        return False
    low, high = TONGUE_KG if name == "tongue" else MASS_KG
    return not low <= value.amount("kg") <= high


def is_repeated(alike: Sequence[Quantity | float], name: str, value: Quantity | float) -> bool:
    """A label in two units (4,990 kg / 11,000 lb) states one rating."""
    if name in (*ONE_EACH, *TOLD_ONCE) and value in alike:
        return True
    unit = "kPa" if name == "pressure" else "kg"
    return isinstance(value, Quantity) and any(
        isinstance(before, Quantity)
        and before.unit != value.unit
        and abs(before.amount(unit) - value.amount(unit)) < 0.02 * value.amount(unit)
        for before in alike
    )


ONE_EACH = frozenset(("gvwr", "gcwr", "gawr_front", "gawr_rear", "payload"))
"""Ratings that a vehicle has one of: whose a second figure is, nobody said."""

TOLD_ONCE = frozenset(("tow", "tongue"))
"""Ratings of a hitch that may have two values, with bars and without; one value is one rating."""


def is_reading(scene: Scene, figure: Figure) -> bool:
    """'flatdeck on the hitch, 51,300': what follows the last odometer, where nothing is rated."""
    label = figure.label
    rated = isinstance(label, Label) and bool(label.rating)
    bare = figure.dimension is None and not (rated or scene.has("rating_cue"))
    if not bare or not follows_odometer(figure.value, scene.context):
        return False
    return scene.has("hitch") or figure.value > MOST_RATED  # 'hitch on 51,240'


MOST_RATED = 40_000
"""Pounds or kilograms: no hitch of a pickup is made for more."""


def is_year_of_make(scene: Scene, figure: Figure, name: str) -> bool:
    """'Senior Ball 2016', '2 axles / 2018': a year, where no label stands right before it."""
    if not is_bare_year(figure) or name == "date_code" or figure.value % LABEL_STEP == 0:
        return False
    label = figure.label
    if not isinstance(label, Label) or label.start > figure.start:
        return True
    if not (label.rating or label.axle or label.end_of or label.whole):
        return True
    between = scene.tokens[label.end : figure.start]
    plain = all("copula" in token.senses.get("glue", "") for token in between)
    return not plain or scene.tokens[figure.start].glued
