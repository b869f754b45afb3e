"""Economy, averages and odometers against published values and examples with printed answers.

Sources stand beside each value. V: read in the named text; V2: in a text that quotes it;
D: worked out from such values.
"""

from __future__ import annotations

import pytest

from domain.entries import Entry, Fill, Rating
from domain.fuel import pooled
from domain.odometer import track
from domain.quantities import Quantity, economy, economy_to
from tests.domain.driving_log import Page, mi


def pooled_mpg(*tanks: tuple[float, float]) -> float:
    """The log's own economy over full tanks of so many miles on so many gallons."""
    page = Page()
    odometer = 10_000.0
    page.fill(0, odometer, 10)
    for index, (miles, gallons) in enumerate(tanks, 1):
        odometer += miles
        page.fill(index, odometer, gallons)
    pool = pooled(page.driven.chain.tanks)
    assert pool is not None
    return economy(Quantity(1, "km"), Quantity(pool.rate, "L"), "mi/gal").value


def test_a_fill_up_worked_by_a_teacher() -> None:
    """Teaching page of 2005: 356.2 miles on 13.3 gallons is 26.78 (V2)."""
    assert pooled_mpg((356.2, 13.3)) == pytest.approx(26.78, abs=0.01)


@pytest.mark.parametrize(
    ("city", "highway", "combined"),
    [
        (27.7, 36.9, 31.2),  # 40 CFR 600 appendix II (a), V
        (27.9, 36.9, 31.3),  # the same, (b), D: the printed result was cut off
    ],
)
def test_city_and_highway_combine_as_the_regulation_combines_them(
    city: float, highway: float, combined: float
) -> None:
    """40 CFR 600.206: harmonic, 0.55 of the miles in the city."""
    assert pooled_mpg((5500, 5500 / city), (4500, 4500 / highway)) == pytest.approx(
        combined, abs=0.05
    )


def test_tanks_are_averaged_by_fuel_and_never_by_their_economies() -> None:
    """Teaching page: 10,000 miles at 17 and 5,000 at 24 burn 796.57 gal, 18.83 in all (V2)."""
    assert pytest.approx(796.57, abs=0.005) == 10_000 / 17 + 5_000 / 24
    assert pooled_mpg((10_000, 10_000 / 17), (5_000, 5_000 / 24)) == pytest.approx(18.83, abs=0.005)


def test_equal_distances_average_harmonically() -> None:
    """Maths problem page: 47.8 and 92.2 over equal distances, 62.96 (it prints 62.95; V2)."""
    assert pooled_mpg((500, 500 / 47.8), (500, 500 / 92.2)) == pytest.approx(62.96, abs=0.01)


def test_fuel_for_distance_and_not_its_inverse_says_what_is_saved() -> None:
    """Article on the mpg illusion: 34 to 50 saves 94.12 gal in 10,000 miles, 18 to 28 198.41."""
    for worse, better, saved in ((34, 50, 94.12), (18, 28, 198.41)):
        litres = [
            economy_to(Quantity(mpg, "mi/gal"), "L/100km").value * mi(10_000).amount("km") / 100
            for mpg in (worse, better)
        ]
        assert Quantity(litres[0] - litres[1], "L").amount("gal") == pytest.approx(saved, abs=0.02)


@pytest.mark.parametrize(
    ("stated", "unit", "value", "within"),
    [
        (Quantity(24, "mi/gal"), "L/100km", 9.8, 0.05),  # NIST SP 811 B.5, V
        (Quantity(1, "mi/gal"), "L/100km", 235.215, 0.0005),  # the same, V
        (Quantity(1, "mi/gal_imp"), "L/100km", 282.481, 0.0005),  # from HB 44 and SP 811, D
    ],
)
def test_economy_converts_as_the_handbook_converts_it(
    stated: Quantity, unit: str, value: float, within: float
) -> None:
    assert economy_to(stated, unit).value == pytest.approx(value, abs=within)


def test_a_five_digit_odometer_goes_on_from_nought() -> None:
    """99,870 to 00,123 is 253 miles, modulo 100,000 (D; COMAR 11.12.01.19 names 99,999)."""
    page = Page()
    page.reads(0, 99_870)
    page.reads(5, 123)
    marks = track(page.log).marks
    assert Quantity(marks[-1].km - marks[0].km, "km").amount("mi") == pytest.approx(253)


def test_taller_tyres_are_made_good_by_the_odometers_factor() -> None:
    """True distance is shown times new diameter over old (general pages, V2)."""
    page = Page()
    factor = 33.0 / 31.0
    page.add(0, Rating(subject="odometer", rating="factor", value=factor))
    page.reads(1, 48_000)
    page.reads(3, 48_310)
    marks = track(page.log).marks
    assert Quantity(marks[-1].km - marks[0].km, "km").amount("mi") == pytest.approx(330)


def test_a_log_in_kilometres_and_litres_tells_the_same_economy() -> None:
    """235.215 / mpg (NIST SP 811): 400 miles on 32 gallons is 18.817 L/100 km."""
    page = Page()
    for hours, shown in ((0, 100_000.0), (5, 100_000 + mi(400).amount("km"))):
        entry: Entry = Fill(
            odometer=Quantity(shown, "km"), volume=Quantity(Quantity(32, "gal").amount("L"), "L")
        )
        page.add(hours, entry)
    (tank,) = page.driven.chain.tanks
    assert 100 * tank.rate.rate == pytest.approx(235.215 / 12.5, rel=1e-5)
