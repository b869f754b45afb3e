"""Conversions held against the standards, against scipy's constants and against pint itself.

The figures are those of NIST Special Publication 811, appendix B (guide to the SI), and of
NIST Handbook 44, appendix C (general tables of units of measurement), which agree. They were
read in reprints; those of SP 811 B.5 for fuel economy were read in the publication itself.
"""

from __future__ import annotations

import pint
import pytest
from scipy import constants

from domain.quantities import (
    FOOT_M,
    GALLON_L,
    MILE_KM,
    PINT_NAMES,
    POUND_KG,
    MixedDimensions,
    Quantity,
    converted,
    economy,
    economy_to,
)

EXACT = 1e-14
"""What binary floating point leaves of an exact factor."""


@pytest.mark.parametrize(
    ("stated", "unit", "amount", "tolerance"),
    [
        pytest.param(Quantity(1, "lb"), "kg", 0.45359237, EXACT, id="HB 44 app. C: pound"),
        pytest.param(Quantity(1, "ton"), "lb", 2000, EXACT, id="HB 44 app. C: short ton"),
        pytest.param(
            Quantity(1, "ton"), "kg", 907.18474, EXACT, id="HB 44 app. C: short ton in kg"
        ),
        pytest.param(Quantity(1, "t"), "kg", 1000, EXACT, id="SP 811 app. B: metric ton"),
        pytest.param(Quantity(1, "t"), "lb", 2204.6226, 5e-8, id="HB 44 app. C: metric ton in lb"),
        pytest.param(Quantity(1, "gal"), "L", 3.785411784, EXACT, id="HB 44 app. C: US gallon"),
        pytest.param(Quantity(1, "gal_imp"), "L", 4.54609, EXACT, id="SP 811 app. B: imp. gallon"),
        pytest.param(
            Quantity(1, "gal_imp"), "gal", 1.200950, 5e-7, id="imperial gallon in US ones"
        ),
        pytest.param(Quantity(1, "mi"), "km", 1.609344, EXACT, id="international mile"),
        pytest.param(Quantity(1, "mi"), "ft", 5280, EXACT, id="HB 44 app. C: mile in feet"),
        pytest.param(Quantity(1, "in"), "m", 0.0254, EXACT, id="SP 811 app. B: inch"),
        pytest.param(Quantity(1, "ft"), "in", 12, EXACT, id="HB 44 app. C: foot"),
        pytest.param(Quantity(1, "psi"), "kPa", 6.894757, 1e-7, id="SP 811 app. B: psi"),
        pytest.param(Quantity(1, "bar"), "kPa", 100, EXACT, id="SP 811 app. B: bar"),
        pytest.param(Quantity(1, "bar"), "psi", 14.5038, 5e-6, id="owner's manual: bar in psi"),
        pytest.param(Quantity(1, "mph"), "km/h", 1.609344, EXACT, id="SP 811 app. B: mph"),
        pytest.param(Quantity(1, "h"), "min", 60, EXACT, id="SP 811 table 6: hour"),
        # SP 811 B.8 gives t/degC = (t/degF - 32)/1.8; the fixed points of water follow.
        pytest.param(Quantity(32, "degF"), "degC", 0, 1e-12, id="SP 811 B.8: ice"),
        pytest.param(Quantity(212, "degF"), "degC", 100, 1e-12, id="SP 811 B.8: steam"),
        pytest.param(Quantity(-40, "degC"), "degF", -40, 1e-13, id="SP 811 B.8: where both meet"),
    ],
)
def test_a_conversion_gives_the_published_factor(
    stated: Quantity, unit: str, amount: float, tolerance: float
) -> None:
    assert stated.amount(unit) == pytest.approx(amount, rel=tolerance, abs=1e-12)


@pytest.mark.parametrize(
    ("stated", "unit", "amount", "tolerance"),
    [
        pytest.param(Quantity(24, "mi/gal"), "L/100km", 9.8, 0.05, id="SP 811 B.5: 24 mpg"),
        pytest.param(Quantity(1, "mi/gal"), "L/100km", 235.215, 0.0005, id="SP 811 B.5: 1 mpg"),
        # Derived from the gallon and the mile above, not printed anywhere.
        pytest.param(Quantity(1, "mi/gal_imp"), "L/100km", 282.481, 0.0005, id="derived: imp."),
        pytest.param(Quantity(9.8, "L/100km"), "mi/gal", 24.0, 0.05, id="SP 811 B.5 turned round"),
        pytest.param(Quantity(10, "L/100km"), "km/L", 10.0, 1e-12, id="by definition"),
    ],
)
def test_an_economy_gives_the_published_figure(
    stated: Quantity, unit: str, amount: float, tolerance: float
) -> None:
    assert economy_to(stated, unit).value == pytest.approx(amount, abs=tolerance)


def test_a_fill_of_13_3_gallons_after_356_2_miles_is_26_78_miles_a_gallon() -> None:
    # A teaching page of 2005; read in the page.
    assert economy(Quantity(356.2, "mi"), Quantity(13.3, "gal"), "mi/gal").value == pytest.approx(
        26.78, abs=0.005
    )


@pytest.mark.parametrize(
    ("unit", "base", "constant"),
    [
        ("lb", "kg", constants.pound),
        ("t", "kg", constants.metric_ton),
        ("ton", "kg", constants.short_ton),
        ("mi", "m", constants.mile),
        ("km", "m", constants.kilo),
        ("ft", "m", constants.foot),
        ("in", "m", constants.inch),
        ("gal", "L", constants.gallon_US / constants.liter),
        ("gal_imp", "L", constants.gallon_imp / constants.liter),
        ("psi", "kPa", constants.psi / constants.kilo),
        ("bar", "kPa", constants.bar / constants.kilo),
        ("mph", "km/h", constants.mph / constants.kmh),
        ("h", "min", constants.hour / constants.minute),
    ],
)
def test_a_factor_agrees_with_scipys_constants(unit: str, base: str, constant: float) -> None:
    assert Quantity(1, unit).amount(base) == pytest.approx(constant, rel=1e-12)


@pytest.mark.parametrize(
    ("constant", "unit", "base"),
    [(POUND_KG, "lb", "kg"), (MILE_KM, "mi", "km"), (FOOT_M, "ft", "m"), (GALLON_L, "gal", "L")],
)
def test_a_factor_of_bounds_is_that_of_conversions(constant: float, unit: str, base: str) -> None:
    assert Quantity(1, unit).amount(base) == pytest.approx(constant, rel=EXACT)


WHOLE: pint.UnitRegistry[float] = pint.UnitRegistry(cache_folder=None)
"""All units that pint has, in its own definitions."""


@pytest.mark.parametrize("source", PINT_NAMES)
def test_a_unit_converts_to_every_other_as_pint_converts_it(source: str) -> None:
    stated = WHOLE.Quantity(37.25, PINT_NAMES[source])
    none, one = (WHOLE.Quantity(value, PINT_NAMES[source]) for value in (0.0, 1.0))
    for target, name in PINT_NAMES.items():
        if stated.is_compatible_with(name):
            assert Quantity(37.25, source).amount(target) == pytest.approx(
                stated.to(name).magnitude, rel=1e-12
            )
            # To the last bit: a figure is rounded for people, and must not tip over on the way.
            offset = none.to(name).magnitude
            scale = one.to(name).magnitude - offset
            assert source == target or converted(37.25, source, target) == 37.25 * scale + offset
        else:
            with pytest.raises(MixedDimensions, match="measure different things"):
                Quantity(37.25, source).to(target)
