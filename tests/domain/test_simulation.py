"""The weighing's figures held against a statics simulation that shares no code with them."""

from __future__ import annotations

from collections.abc import Callable

import numpy as np
import pytest
from hypothesis import assume, example, given
from hypothesis import strategies as st

from domain.entries import Rating
from domain.loading import (
    BehindCoupling,
    Effect,
    InBed,
    Lacks,
    OnTrailer,
    Place,
    effect,
    levers,
    place_for_share,
    predicted,
)
from domain.passes import latest_session
from domain.quantities import Quantity
from domain.rig import rig_of
from domain.uncertainty import Measured, spread
from domain.weighing import Weights, weigh
from tests.domain.scale_house import Ticket, flatdeck, juniper, pounds
from tests.domain.statics import ON_TRAILER, Rig, Scale, some_rig
from tests.domain.test_carried import DENSITIES, LITRES

RIGS = 400
POUND = 0.45359237
SEEDS = st.integers(min_value=0, max_value=2**32 - 1)


def weighed(ticket: Ticket) -> Weights:
    session = latest_session(ticket.log)
    assert session is not None
    return weigh(ticket.log, session, rig_of(ticket.log), DENSITIES)[0]


def three_passes(on: list[float], off: list[float], alone: list[float]) -> Ticket:
    return (
        Ticket(*juniper(), *flatdeck())
        .hitched()
        .weighs(bars="on", steer=on[0], drive=on[1], trailer=on[2])
        .weighs(bars="off", steer=off[0], drive=off[1], trailer=off[2])
        .weighs("solo", steer=alone[0], drive=alone[1])
    )


def truth(rig: Rig) -> dict[str, float]:
    on, off, alone = rig.axles(bars=True), rig.axles(), rig.alone()
    return {
        "gross": float(on.sum()),
        "drive": float(on[1]),
        "tongue": rig.tongue,
        "trailer": rig.trailer,
        "share": rig.tongue / rig.trailer,
        "moved": float(on[2] - off[2]),
        "restored": float((on[0] - off[0]) / (alone[0] - off[0])),
    }


def told(weights: Weights) -> dict[str, tuple[float, float]]:
    """Each figure with its stated uncertainty, masses in pounds."""
    tongue, bars, trailer, share = weights.tongue, weights.bars, weights.trailer, weights.share
    assert tongue is not None
    assert trailer is not None
    assert share is not None
    figures: dict[str, Measured] = {
        "gross": weights.loads["gross"] * (1 / POUND),
        "drive": weights.loads["drive"] * (1 / POUND),
        "tongue": tongue.load * (1 / POUND),
        "trailer": trailer * (1 / POUND),
        "share": share,
    }
    if bars is not None:
        figures["moved"] = bars.to_trailer * (1 / POUND)
        if bars.restored is not None:
            figures["restored"] = bars.restored
    return {name: (each.nominal_value, spread(each)) for name, each in figures.items()}


@given(SEEDS)
@example(0)
def test_three_exact_passes_give_back_the_rig_they_came_from(seed: int) -> None:
    rig = some_rig(np.random.default_rng(seed))
    passes = rig.axles(bars=True), rig.axles(), rig.alone()
    found = told(weighed(three_passes(*(list(map(float, each)) for each in passes))))
    for name, value in truth(rig).items():
        assert found[name][0] == pytest.approx(value, rel=1e-9, abs=1e-6), name


@given(SEEDS)
@example(1)
def test_rounding_alone_never_moves_the_tongue_by_more_than_four_half_divisions(seed: int) -> None:
    rig = some_rig(np.random.default_rng(seed))
    rounded = [
        [float(each) for each in np.round(loads / 20) * 20]
        for loads in (rig.axles(bars=True), rig.axles(), rig.alone())
    ]
    tongue = told(weighed(three_passes(*rounded)))["tongue"][0]
    assert abs(tongue - rig.tongue) <= 40 + 1e-6


def test_a_real_scale_comes_back_within_the_stated_uncertainty(
    capsys: pytest.CaptureFixture[str],
) -> None:
    """At least 95 in a hundred of every figure, over random rigs on random scales."""
    draw = np.random.default_rng(20260711)
    hits: dict[str, list[bool]] = {}
    for _ in range(RIGS):
        rig, scale = some_rig(draw), Scale(draw)
        ticket = three_passes(
            scale.read(rig.axles(bars=True)), scale.read(rig.axles()), scale.read(rig.alone())
        )
        for name, (value, doubt) in told(weighed(ticket)).items():
            hits.setdefault(name, []).append(abs(value - truth(rig)[name]) <= doubt)
    coverage = {name: float(np.mean(each)) for name, each in hits.items()}
    with capsys.disabled():
        shown = ", ".join(f"{name} {share:.1%}" for name, share in coverage.items())
        print(f"\ncoverage over {RIGS} rigs: {shown}")
    assert min(coverage.values()) >= 0.95
    assert len(hits["restored"]) > 0.9 * RIGS


def test_with_fuel_and_people_between_the_passes_the_tongue_still_comes_back(
    capsys: pytest.CaptureFixture[str],
) -> None:
    draw = np.random.default_rng(20260712)
    hits = []
    for _ in range(RIGS):
        rig, scale = some_rig(draw), Scale(draw)
        gallons = draw.uniform(5, 30)
        fuel = gallons * LITRES * draw.uniform(0.820, 0.845) / POUND
        people = float(draw.normal(68, 16, 2).sum()) / POUND
        steer_share = draw.uniform(0.3, 0.7)
        change = (fuel - people) * np.array([steer_share, 1 - steer_share])
        off, alone = scale.read(rig.axles()), scale.read(rig.alone() + change)
        ticket = Ticket(*juniper(), *flatdeck()).hitched()
        ticket.weighs(aboard=3, steer=off[0], drive=off[1], trailer=off[2])
        ticket.fills(gallons * (1 + draw.uniform(-0.005, 0.005)))
        ticket.weighs("solo", aboard=1, steer=alone[0], drive=alone[1])
        value, doubt = told(weighed(ticket))["tongue"]
        hits.append(abs(value - rig.tongue) <= doubt)
    with capsys.disabled():
        print(f"\ncoverage of the corrected tongue over {RIGS} rigs: {np.mean(hits):.1%}")
    assert np.mean(hits) >= 0.95


def test_predicted_loads_come_back_within_their_uncertainty(
    capsys: pytest.CaptureFixture[str],
) -> None:
    """The lever learned from rounded passes, then 600 lb put down four feet ahead of the axle."""
    draw = np.random.default_rng(20260713)
    hits: dict[str, list[bool]] = {}
    for _ in range(RIGS):
        rig, scale = some_rig(draw), Scale(draw)
        off, alone = scale.read(rig.axles()), scale.read(rig.alone())
        reach = Rating(subject="trailer", rating="coupler_to_axle", value=Quantity(rig.reach, "in"))
        ticket = Ticket(reach).hitched().weighs(steer=off[0], drive=off[1], trailer=off[2])
        ticket.weighs("solo", steer=alone[0], drive=alone[1])
        weights = weighed(ticket)
        change = effect(OnTrailer(1.2192), levers(rig_of(ticket.log), weights), weights)
        assert isinstance(change, Effect)
        after = predicted(weights, change, 600 * POUND)
        expected = rig.axles(((600, on_trailer_ahead(48)(rig)),))
        for name, value in zip(("steer", "drive", "trailer"), expected, strict=True):
            left = pounds(after.loads[name].nominal_value) - float(value)
            hits.setdefault(name, []).append(abs(left) <= pounds(spread(after.loads[name])))
    coverage = {name: float(np.mean(each)) for name, each in hits.items()}
    with capsys.disabled():
        shown = ", ".join(f"{name} {share:.1%}" for name, share in coverage.items())
        print(f"\ncoverage of predicted loads over {RIGS} rigs: {shown}")
    assert min(coverage.values()) >= 0.95


def with_lengths(rig: Rig, **inches: float) -> Ticket:
    """Bars off and solo, exactly, with some lengths told, by the rating's name."""
    ratings = [
        Rating(
            subject="trailer" if name == "coupler_to_axle" else "truck",
            rating=name,
            value=Quantity(length, "in"),
        )
        for name, length in inches.items()
    ]
    off, alone = (list(map(float, each)) for each in (rig.axles(), rig.alone()))
    ticket = Ticket(*ratings).hitched().weighs(steer=off[0], drive=off[1], trailer=off[2])
    return ticket.weighs("solo", steer=alone[0], drive=alone[1])


def on_trailer_ahead(inches: float) -> Callable[[Rig], float]:
    return lambda rig: ON_TRAILER + rig.reach - inches


PLACES: dict[str, tuple[Place, Callable[[Rig], float]]] = {
    "four feet ahead of the trailer's axles": (OnTrailer(1.2192), on_trailer_ahead(48)),
    "two feet behind them": (OnTrailer(-0.6096), on_trailer_ahead(-24)),
    "eighteen inches behind the coupling": (BehindCoupling(0.4572), lambda rig: ON_TRAILER + 18),
    "in the bed over the drive axle": (InBed(0.0), lambda rig: rig.wheelbase),
    "in the bed two feet ahead of it": (InBed(0.6096), lambda rig: rig.wheelbase - 24),
}


@pytest.mark.parametrize("where", PLACES)
@given(seed=SEEDS, mass=st.floats(50, 3000))
def test_a_load_put_down_ends_on_the_axles_where_statics_puts_it(
    where: str, seed: int, mass: float
) -> None:
    rig = some_rig(np.random.default_rng(seed))
    place, behind = PLACES[where]
    ticket = with_lengths(
        rig, wheelbase=rig.wheelbase, overhang=rig.overhang, coupler_to_axle=rig.reach
    )
    same_statics(ticket, rig, place, mass, behind(rig))


@given(seed=SEEDS, mass=st.floats(50, 3000))
def test_the_overhang_is_learned_from_what_the_tongue_took_off_the_steer_axle(
    seed: int, mass: float
) -> None:
    rig = some_rig(np.random.default_rng(seed))
    ticket = with_lengths(rig, coupler_to_axle=rig.reach)
    arms = levers(rig_of(ticket.log), weighed(ticket))
    assert arms.learned
    assert arms.overhang is not None
    assert arms.overhang.nominal_value == pytest.approx(rig.overhang / rig.wheelbase)
    same_statics(ticket, rig, OnTrailer(1.2192), mass, on_trailer_ahead(48)(rig))


def same_statics(ticket: Ticket, rig: Rig, place: Place, mass: float, behind: float) -> None:
    weights = weighed(ticket)
    change = effect(place, levers(rig_of(ticket.log), weights), weights)
    assert isinstance(change, Effect)
    after = predicted(weights, change, mass * POUND)
    expected = rig.axles(((mass, behind),))
    for name, value in zip(("steer", "drive", "trailer"), expected, strict=True):
        assert pounds(after.loads[name].nominal_value) == pytest.approx(float(value), rel=1e-6)


@given(seed=SEEDS, mass=st.floats(500, 3000), share=st.floats(0.08, 0.18))
def test_a_load_put_where_it_was_said_to_go_gives_the_tongue_share_asked_for(
    seed: int, mass: float, share: float
) -> None:
    rig = some_rig(np.random.default_rng(seed))
    ticket = with_lengths(rig, coupler_to_axle=rig.reach)
    weights = weighed(ticket)
    arms = levers(rig_of(ticket.log), weights)
    spot = place_for_share(weights, arms, share, mass * POUND, standing=None)
    assert not isinstance(spot, Lacks)
    inches = spot.nominal_value / 0.0254
    assume(inches < rig.reach)
    after = rig.axles(((mass, on_trailer_ahead(inches)(rig)),))
    trailer = rig.trailer + mass
    assert (trailer - after[2]) / trailer == pytest.approx(share)
