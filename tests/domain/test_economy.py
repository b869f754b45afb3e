"""Economy by trailer: the fit, its interval, and when it says that it cannot tell."""

from __future__ import annotations

import random

import numpy as np
import pytest
from scipy.optimize import lsq_linear, nnls

from domain.driving import Driving, driving
from domain.economy import as_measured, dash_bias, estimate, nonnegative, towing_rate
from domain.fuel import CLICK_OFF_LITRES, DISPENSER, READING_KM
from domain.log import Log
from domain.modes import SOLO, UNTOLD
from domain.quantities import Quantity
from tests.domain.driving_log import Page
from tests.domain.simulated import Habits, Life, live

MPG = Quantity(1, "mi").amount("km") / Quantity(1, "gal").amount("L")


def mixed_page(*legs: tuple[float, float], solo: float = 16.0, towing: float = 10.0) -> Page:
    """Tanks of so many solo and towed miles, at exactly these economies."""
    page = Page()
    at, odometer = 0.0, 48000.0
    page.fill(at, odometer, 30)
    for solo_miles, towed_miles in legs:
        odometer += solo_miles
        page.hitches(at + 4, "flatdeck")
        page.reads(at + 4, odometer, "depart")
        odometer += towed_miles
        page.reads(at + 8, odometer, "arrive")
        page.unhitches(at + 8, "flatdeck")
        page.fill(at + 9, odometer, solo_miles / solo + towed_miles / towing)
        at += 24
    return page


def test_tanks_that_mix_towing_and_solo_are_told_apart() -> None:
    page = mixed_page((200, 100), (100, 200), (250, 50), (150, 150), (50, 250))
    rates = estimate(page.driven.chain.tanks).rates
    assert 1 / rates[SOLO].rate == pytest.approx(16 * MPG, rel=1e-6)
    assert 1 / rates["flatdeck"].rate == pytest.approx(10 * MPG, rel=1e-6)


def test_tanks_that_always_mix_alike_cannot_be_told_apart() -> None:
    page = mixed_page((200, 100), (200, 100), (200, 100))
    estimates = estimate(page.driven.chain.tanks)
    assert not estimates.rates
    assert set(estimates.unclear) == {SOLO, "flatdeck"}


def test_one_mixed_tank_tells_neither() -> None:
    estimates = estimate(mixed_page((200, 100)).driven.chain.tanks)
    assert set(estimates.unclear) == {SOLO, "flatdeck"}


def test_without_a_tank_nothing_is_estimated() -> None:
    estimates = estimate(())
    assert (estimates.rates, estimates.unclear) == ({}, ())


def test_no_mode_is_ever_given_less_than_no_fuel() -> None:
    """Two tanks whose figures contradict any truth: more solo miles on less fuel."""
    page = Page()
    page.fill(0, 48000, 30)
    page.hitches(1, "flatdeck")
    page.reads(1, 48290, "depart")
    page.reads(2, 48300, "arrive")
    page.unhitches(2)
    page.fill(3, 48300, 12)
    page.fill(30, 48400, 12)
    estimates = estimate(page.driven.chain.tanks)
    assert all(rate.rate > 0 for rate in estimates.rates.values())


def test_a_tank_that_lacks_a_fill_is_set_aside_and_not_averaged_in() -> None:
    page = Page()
    for stop in range(8):
        page.fill(24 * stop, 48000 + 300 * stop + (300 if stop > 4 else 0), 25)
    estimates = estimate(page.driven.chain.tanks)
    assert len(estimates.set_aside) == 1
    assert 1 / estimates.rates[UNTOLD].rate == pytest.approx(12 * MPG, rel=1e-6)


def test_the_interval_narrows_as_tanks_come_in() -> None:
    widths = []
    for count in (3, 6, 12, 24):
        page = Page()
        for stop in range(count):
            page.fill(24 * stop, 48000 + 300 * stop, 25 + (stop % 3 - 1))
        rate = estimate(page.driven.chain.tanks).rates[UNTOLD]
        widths.append(rate.high - rate.low)
    assert widths == sorted(widths, reverse=True)


def test_a_span_that_is_over_is_measured_surer_than_the_mode_in_general() -> None:
    page = Page()
    for stop in range(4):
        page.fill(24 * stop, 48000 + 300 * stop, 25 + stop)
    tanks = page.driven.chain.tanks
    assert as_measured(tanks)[UNTOLD].sd < estimate(tanks).rates[UNTOLD].sd


def test_a_trailer_never_towed_before_is_reckoned_from_the_others_and_less_surely() -> None:
    estimates = estimate(mixed_page((200, 100), (100, 200), (50, 250)).driven.chain.tanks)
    other = towing_rate(estimates)
    assert other is not None
    assert other.rate == pytest.approx(estimates.rates["flatdeck"].rate)
    assert other.sd > 2 * estimates.rates["flatdeck"].sd


def test_a_dash_that_flatters_is_found_out() -> None:
    page = Page()
    for stop in range(6):
        page.fill(24 * stop, 48000 + 300 * stop, 25, dash_economy=Quantity(13.2, "mi/gal"))
    bias = dash_bias(page.driven.chain.tanks)
    assert bias is not None
    assert (round(bias.share, 3), bias.tanks) == (0.1, 5)


def test_the_least_squares_solution_without_negatives_is_scipys() -> None:
    rng = np.random.default_rng(7)
    for _ in range(300):
        rows, columns = int(rng.integers(1, 12)), int(rng.integers(1, 6))
        design, observed = rng.normal(size=(rows, columns)), rng.normal(size=rows)
        ours = nonnegative(design, observed)
        theirs, norm = nnls(design, observed)
        assert (ours >= 0).all()
        assert np.linalg.norm(design @ ours - observed) == pytest.approx(norm, abs=1e-9)
        if np.linalg.matrix_rank(design) == columns:
            assert ours == pytest.approx(theirs, abs=1e-7)


def test_the_fit_agrees_with_a_weighted_fit_worked_out_apart_with_scipy() -> None:
    """The same equations set up here by hand at the fitted scatter, and solved by scipy."""
    driven = driving(live(11).log)
    estimates = estimate(driven.chain.tanks)
    tanks = [tank for tank in driven.chain.tanks if tank not in estimates.set_aside and tank.split]
    names = list(estimates.rates)
    km = np.array([[tank.split.get(name, 0.0) for name in names] for tank in tanks])
    litres = np.array([tank.litres for tank in tanks])
    rates = np.array([estimates.rates[name].rate for name in names])
    shared = CLICK_OFF_LITRES**2 + (litres.sum() / km.sum() * READING_KM) ** 2
    covariance = np.diag(estimates.scatter**2 * 100.0 * km @ rates**2)
    for index, tank in enumerate(tanks):
        volumes = [fill.entry.volume.amount("L") for fill in tank.fills if fill.entry.volume]
        covariance[index, index] += 2 * shared + DISPENSER**2 * sum(v**2 for v in volumes)
        if index and tanks[index - 1].closed == tank.opened:
            covariance[index, index - 1] = covariance[index - 1, index] = -shared
    white = np.linalg.inv(np.linalg.cholesky(covariance))
    theirs = lsq_linear(white @ km, white @ litres, bounds=(0, np.inf)).x
    assert rates == pytest.approx(theirs, rel=0.003)
    sds = np.sqrt(np.diag(np.linalg.inv((white @ km).T @ white @ km)))
    ours = np.array([estimates.rates[name].sd for name in names])
    assert ours == pytest.approx(np.hypot(sds, 0.004 * rates), rel=0.25)


def hits_of(life: Life, driven: Driving) -> tuple[list[bool], list[bool]]:
    """Whether each tank's and each mode's interval holds the truth.

    A tank that a fill went missing from is wrong by an amount that no interval can know.
    """
    tanks = []
    for tank in driven.chain.tanks:
        start, end = tank.opened.at, tank.closed.at
        if any(start < unsaid < end for unsaid in life.unsaid):
            continue
        miles = life.miles_by[end] - life.miles_by[start]
        true = miles / (life.burnt_by[end] - life.burnt_by[start]) * MPG
        tanks.append(tank.rate.low <= true <= tank.rate.high)
    modes = [
        rate.low <= MPG / life.truth[mode] <= rate.high
        for mode, rate in estimate(driven.chain.tanks).rates.items()
    ]
    return tanks, modes


@pytest.mark.parametrize(
    ("what", "habits", "lives"),
    [
        ("two months", Habits(days=60), 60),
        ("a year", Habits(), 50),
        ("two and a half years", Habits(days=900), 15),
    ],
)
def test_the_true_economy_lies_in_nine_stated_intervals_of_ten(
    what: str, habits: Habits, lives: int
) -> None:
    tanks: list[bool] = []
    modes: list[bool] = []
    for seed in range(lives):
        life = live(seed, habits)
        of_tanks, of_modes = hits_of(life, driving(life.log))
        tanks += of_tanks
        modes += of_modes
    in_tanks, in_modes = sum(tanks) / len(tanks), sum(modes) / len(modes)
    print(
        f"coverage of the 90 % interval over {what}: "
        f"tanks {in_tanks:.1%} of {len(tanks)}, modes {in_modes:.1%} of {len(modes)}"
    )
    assert 0.85 <= in_tanks <= 0.95
    # Few intervals: two standard errors are granted beside the bounds.
    slack = 2 * (0.09 / len(modes)) ** 0.5
    assert 0.85 - slack <= in_modes <= 0.95 + slack


def test_the_order_of_arrival_never_changes_a_result() -> None:
    for seed in range(8):
        life = live(seed, Habits(days=120))
        shuffled = list(life.entries)
        random.Random(seed).shuffle(shuffled)
        one, other = driving(life.log), driving(Log(shuffled))
        assert one.chain == other.chain
        assert one.trips == other.trips
        assert estimate(one.chain.tanks) == estimate(other.chain.tanks)


def test_putting_an_old_fill_right_recomputes_what_follows() -> None:
    page = Page()
    page.fill(0, 48000, 30)
    wrong = page.fill(24, 48300, 52)
    page.fill(48, 48600, 25)
    before = estimate(page.driven.chain.tanks).rates[UNTOLD].rate
    page.entries = [each for each in page.entries if each.key != wrong.key]
    page.fill(24, 48300, 25)
    after = estimate(page.driven.chain.tanks).rates[UNTOLD].rate
    assert before > after
    assert 1 / after == pytest.approx(12 * MPG)
