"""Passes over the scale, and the arithmetic between them, against figures done by hand."""

from __future__ import annotations

import pytest

from domain.entries import Hitch, Weighing
from domain.passes import latest_session, session_of, sessions, with_axles
from domain.quantities import Quantity
from domain.rig import rig_of
from domain.uncertainty import spread
from domain.weighing import Weights, imbalances, weigh, weights_of
from tests.domain.scale_house import Ticket, flatdeck, pounds
from tests.domain.test_carried import DENSITIES


def weights(ticket: Ticket, trailer: str | None = None) -> Weights:
    session = latest_session(ticket.log, trailer)
    assert session is not None
    return weights_of(session)


def load(found: Weights, name: str) -> float:
    return pounds(found.loads[name].nominal_value)


def test_axles_make_the_truck_and_the_gross() -> None:
    found = weights(Ticket().hitched().weighs(steer=5280, drive=6940, trailer=9840))
    assert load(found, "truck") == pytest.approx(12220)
    assert load(found, "gross") == pytest.approx(22060)


@pytest.mark.parametrize("axle", ["steer", "drive"])
def test_an_axle_again_stands_as_the_rig_stood_where_nobody_said_otherwise(axle: str) -> None:
    found = weights(
        Ticket()
        .weighs(rig=None, steer=5180, drive=6700, trailer=9100)
        .later(minutes=20)
        .add(Weighing(loads={axle: Quantity(5440, "lb")}))
    )
    assert load(found, axle) == pytest.approx(5440)
    assert found.session.road is not None
    assert set(found.session.road.loads) == {axle}


def test_both_axles_again_are_of_the_truck_alone() -> None:
    found = weights(
        Ticket()
        .weighs(rig=None, steer=5180, drive=6700, trailer=9100)
        .later(minutes=20)
        .weighs(rig=None, steer=4980, drive=3860)
    )
    assert load(found, "steer") == pytest.approx(5180)
    assert "solo" in found.session.passes


def test_an_axle_weighed_after_unhitching_is_of_the_truck_alone() -> None:
    found = weights(
        Ticket()
        .hitched()
        .weighs(rig=None, steer=5180, drive=6700, trailer=9100)
        .later(minutes=20)
        .add(Hitch(action="unhitched", trailer="flatdeck"))
        .weighs(rig=None, steer=5440)
    )
    assert load(found, "steer") == pytest.approx(5180)


def test_a_gross_and_the_trailer_axles_leave_the_truck() -> None:
    found = weights(Ticket().weighs(gross=5550, trailer=2150, unit="kg"))
    assert found.loads["truck"].nominal_value == pytest.approx(3400)
    assert "steer" not in found.loads


def test_wheels_and_single_axles_add_up() -> None:
    found = weights(
        Ticket()
        .hitched()
        .weighs(
            rig=None,
            steer_left=2660,
            steer_right=2620,
            drive_left=3480,
            drive_right=3420,
            trailer_1=4960,
            trailer_2=5020,
        )
    )
    assert load(found, "steer") == pytest.approx(5280)
    assert load(found, "drive") == pytest.approx(6900)
    assert load(found, "trailer") == pytest.approx(9980)
    assert load(found, "gross") == pytest.approx(22160)


def test_three_axles_are_all_counted() -> None:
    found = weights(Ticket().weighs(trailer_1=3420, trailer_2=3380, trailer_3=3460, truck=12180))
    assert load(found, "trailer") == pytest.approx(10260)
    assert load(found, "gross") == pytest.approx(22440)


def test_a_solo_pass_after_a_hitched_one_gives_the_tongue_weight() -> None:
    found = weights(
        Ticket()
        .hitched()
        .weighs(steer=5280, drive=6940, trailer=9840)
        .weighs("solo", steer=5400, drive=5400)
    )
    assert found.tongue is not None
    assert pounds(found.tongue.load.nominal_value) == pytest.approx(12220 - 10800)
    assert found.trailer is not None
    assert pounds(found.trailer.nominal_value) == pytest.approx(22060 - 10800)
    assert found.share is not None
    assert found.share.nominal_value == pytest.approx(1420 / 11260)


def test_a_solo_pass_before_the_hitched_one_does_as_well() -> None:
    found = weights(
        Ticket().weighs("solo", truck=10800).hitched().weighs(truck=12220, trailer=9840)
    )
    assert found.tongue is not None
    assert pounds(found.tongue.load.nominal_value) == pytest.approx(1420)


def test_with_bars_the_tongue_comes_from_the_pass_without_them() -> None:
    """The constructed case W15: tongue 800 of 6,800, 75 % restored, 120 lb to the trailer."""
    found = weights(
        Ticket()
        .hitched()
        .weighs(bars="on", steer=3520, drive=3660, trailer=6120)
        .weighs(bars="off", steer=3280, drive=4020, trailer=6000)
        .weighs("solo", steer=3600, drive=2900)
    )
    assert found.tongue is not None
    assert found.trailer is not None
    assert found.bars is not None
    assert found.bars.restored is not None
    assert found.on_hitch is not None
    assert pounds(found.tongue.load.nominal_value) == pytest.approx(800)
    assert pounds(found.trailer.nominal_value) == pytest.approx(6800)
    assert pounds(found.bars.to_steer.nominal_value) == pytest.approx(240)
    assert pounds(found.bars.off_drive.nominal_value) == pytest.approx(360)
    assert pounds(found.bars.to_trailer.nominal_value) == pytest.approx(120)
    assert found.bars.restored.nominal_value == pytest.approx(0.75)
    assert pounds(found.on_hitch.nominal_value) == pytest.approx(680)
    assert load(found, "steer") == pytest.approx(3520)


def test_what_the_bars_do_wants_every_axle_of_both_passes() -> None:
    on_in_full = Ticket().hitched().weighs(bars="on", steer=3520, drive=3660, trailer=6120)
    assert weights(on_in_full).bars is None
    assert weights(on_in_full.weighs(bars="off", truck=7300, trailer=6000)).bars is None
    on_as_a_truck = Ticket().hitched().weighs(bars="on", truck=7180, trailer=6120)
    on_as_a_truck.weighs(bars="off", steer=3280, drive=4020, trailer=6000)
    assert weights(on_as_a_truck).bars is None


def test_without_a_solo_pass_the_bars_are_told_but_not_what_share_they_restored() -> None:
    ticket = Ticket().hitched().weighs(bars="on", steer=3520, drive=3660, trailer=6120)
    found = weights(ticket.weighs(bars="off", steer=3280, drive=4020, trailer=6000))
    assert found.bars is not None
    assert pounds(found.bars.to_steer.nominal_value) == pytest.approx(240)
    assert found.bars.restored is None
    assert found.on_hitch is None
    assert found.tongue is None


@pytest.mark.parametrize(("lost", "told"), [(20, False), (320, True)])
def test_a_share_of_a_loss_within_the_scales_error_is_not_told(lost: float, *, told: bool) -> None:
    ticket = Ticket().hitched().weighs(bars="on", steer=3600, drive=3660, trailer=6120)
    ticket.weighs(bars="off", steer=3600 - lost, drive=4020, trailer=6000)
    found = weights(ticket.weighs("solo", steer=3600, drive=2900))
    assert found.bars is not None
    assert (found.bars.restored is not None) is told


def test_a_solo_pass_of_the_whole_truck_says_nothing_of_the_steer_axle() -> None:
    ticket = Ticket().hitched().weighs(bars="on", steer=3520, drive=3660, trailer=6120)
    ticket.weighs(bars="off", steer=3280, drive=4020, trailer=6000)
    found = weights(ticket.weighs("solo", truck=6500))
    assert found.bars is not None
    assert found.bars.restored is None
    assert found.tongue is not None
    assert pounds(found.tongue.load.nominal_value) == pytest.approx(800)


def test_a_tongue_scale_is_believed_before_a_difference_with_the_bars_on() -> None:
    ticket = Ticket().hitched().weighs(bars="on", steer=3520, drive=3660, trailer=6120)
    ticket.weighs("solo", steer=3600, drive=2900)
    found = weights(ticket.weighs(rig=None, tongue=790, of="flatdeck"))
    assert found.tongue is not None
    assert (found.tongue.by, found.tongue.reads_low) == ("tongue scale", False)
    assert pounds(found.tongue.load.nominal_value) == pytest.approx(790)


def test_a_difference_without_bars_is_believed_before_a_tongue_scale() -> None:
    ticket = Ticket().hitched().weighs(steer=5280, drive=6940, trailer=9840)
    ticket.weighs("solo", steer=5400, drive=5400)
    found = weights(ticket.weighs(rig=None, tongue=1380, of="flatdeck"))
    assert found.tongue is not None
    assert (found.tongue.by, found.tongue.reads_low) == ("difference", False)
    assert found.tongue.scaled is not None
    assert pounds(found.tongue.scaled.nominal_value) == pytest.approx(1380)
    assert not found.tongue.at_odds


def test_a_tongue_scale_that_the_axles_do_not_bear_out_is_at_odds_with_them() -> None:
    ticket = Ticket().hitched().weighs(steer=5280, drive=6940, trailer=9840)
    ticket.weighs("solo", steer=5400, drive=5400)
    found = weights(ticket.weighs(rig=None, tongue=900, of="flatdeck"))
    assert found.tongue is not None
    assert found.tongue.at_odds


def test_with_the_bars_on_the_trailer_alone_gives_no_tongue() -> None:
    ticket = Ticket().hitched().weighs(bars="on", steer=3520, drive=3660, trailer=6120)
    found = weights(ticket.weighs("trailer", gross=6800, of="flatdeck"))
    assert found.tongue is None
    assert found.trailer is not None
    assert pounds(found.trailer.nominal_value) == pytest.approx(6800)
    assert found.share is None


def test_with_bars_on_only_the_tongue_is_said_to_read_low() -> None:
    found = weights(
        Ticket()
        .hitched()
        .weighs(bars="on", steer=3520, drive=3660, trailer=6120)
        .weighs("solo", steer=3600, drive=2900)
    )
    assert found.tongue is not None
    assert found.tongue.reads_low
    assert pounds(found.tongue.load.nominal_value) == pytest.approx(680)


def test_a_tongue_scale_gives_the_tongue_and_with_the_axles_the_trailer() -> None:
    found = weights(
        Ticket()
        .hitched()
        .weighs(steer=5280, drive=6940, trailer=9840)
        .weighs(rig=None, tongue=1180, of="flatdeck")
    )
    assert found.tongue is not None
    assert found.trailer is not None
    assert found.tongue.by == "tongue scale"
    assert pounds(found.trailer.nominal_value) == pytest.approx(11020)


def test_the_trailer_weighed_alone_gives_the_tongue_from_its_axles() -> None:
    found = weights(
        Ticket()
        .hitched()
        .weighs(steer=5280, drive=6940, trailer=7220)
        .weighs("trailer", gross=8100, of="flatdeck")
    )
    assert found.tongue is not None
    assert found.tongue.by == "trailer alone"
    assert pounds(found.tongue.load.nominal_value) == pytest.approx(880)


def test_a_trailer_alone_is_its_axles_and_its_tongue() -> None:
    found = weights(Ticket().weighs("trailer", tongue=880, trailer_1=3600, trailer_2=3620))
    assert found.trailer is not None
    assert pounds(found.trailer.nominal_value) == pytest.approx(8100)


def test_bars_are_not_judged_where_the_load_changed_between_passes() -> None:
    """The later pass counts; with its bars on, the tongue reads low."""
    ticket = Ticket().hitched().weighs(bars="off", steer=3280, drive=4020, trailer=6000)
    ticket.weighs("solo", steer=3600, drive=2900)
    ticket.weighs(steer=3520, drive=3660, trailer=6620)
    session = latest_session(ticket.log)
    assert session is not None
    found, _ = weigh(ticket.log, session, rig_of(ticket.log), DENSITIES)
    assert found.bars is None
    assert found.drift is not None
    assert pounds(found.drift.nominal_value) == pytest.approx(500)
    assert load(found, "truck") == pytest.approx(3520 + 3660)
    assert found.tongue is not None
    assert found.tongue.reads_low
    assert pounds(found.tongue.load.nominal_value) == pytest.approx(7180 - 6500)


def test_where_the_load_changed_the_pass_without_bars_counts_if_it_was_the_later() -> None:
    ticket = Ticket().hitched().weighs(bars="on", steer=3520, drive=3660, trailer=6620)
    ticket.weighs(bars="off", steer=3280, drive=4020, trailer=6000)
    ticket.weighs("solo", steer=3600, drive=2900)
    session = latest_session(ticket.log)
    assert session is not None
    found, _ = weigh(ticket.log, session, rig_of(ticket.log), DENSITIES)
    assert found.bars is None
    assert found.drift is not None
    assert pounds(found.drift.nominal_value) == pytest.approx(500)
    assert load(found, "gross") == pytest.approx(13300)
    assert found.tongue is not None
    assert not found.tongue.reads_low
    assert pounds(found.tongue.load.nominal_value) == pytest.approx(800)


@pytest.mark.parametrize("trailer", [6120, 6160], ids=["the same", "forty pounds more"])
def test_a_change_of_gross_that_the_scale_explains_is_no_change_of_load(trailer: float) -> None:
    ticket = Ticket().hitched().weighs(bars="on", steer=3520, drive=3660, trailer=trailer)
    ticket.weighs(bars="off", steer=3280, drive=4020, trailer=6000)
    session = latest_session(ticket.log)
    assert session is not None
    found, _ = weigh(ticket.log, session, rig_of(ticket.log), DENSITIES)
    assert found.drift is None
    assert found.bars is not None


def test_passes_without_a_gross_are_not_compared() -> None:
    ticket = Ticket().hitched().weighs(bars="on", steer=3520, drive=3660)
    ticket.weighs(bars="off", steer=3280, drive=4020, trailer=6000)
    session = latest_session(ticket.log)
    assert session is not None
    found, _ = weigh(ticket.log, session, rig_of(ticket.log), DENSITIES)
    assert found.drift is None


def test_the_latest_pass_of_a_kind_governs() -> None:
    found = weights(
        Ticket()
        .hitched()
        .weighs(steer=5280, drive=7340, trailer=9840)
        .weighs(steer=5360, drive=6900, trailer=9860)
    )
    assert load(found, "drive") == pytest.approx(6900)
    assert load(found, "gross") == pytest.approx(22120)


def test_axles_texted_one_by_one_are_one_pass() -> None:
    found = weights(Ticket().hitched().weighs(steer=5280).weighs(drive=6940).weighs(trailer=9840))
    assert load(found, "gross") == pytest.approx(22060)


def test_passes_hours_apart_are_two_weighings() -> None:
    ticket = Ticket().hitched().weighs(steer=5280, drive=6940, trailer=9840).later(hours=5)
    ticket.weighs("solo", steer=5400, drive=5400)
    assert len(list(sessions(ticket.log))) == 2
    assert weights(ticket).tongue is None


def test_the_camper_and_the_flatdeck_are_two_weighings() -> None:
    ticket = (
        Ticket()
        .weighs("trailer", gross=8140, of="flatdeck")
        .weighs("trailer", gross=6200, of="camper")
    )
    assert load(weights(ticket, "flatdeck"), "gross") == pytest.approx(8140)
    assert load(weights(ticket, "camper"), "gross") == pytest.approx(6200)


def test_bare_truck_axles_are_hitched_where_a_trailer_is_on() -> None:
    hitched = Ticket().hitched().weighs(rig=None, steer=5280, drive=6940)
    assert set(next(sessions(hitched.log)).passes) == {"hitched"}
    alone = Ticket().weighs(rig=None, steer=5280, drive=6940)
    assert set(next(sessions(alone.log)).passes) == {"solo"}


def test_a_pass_belongs_to_the_weighing_that_it_was_texted_in() -> None:
    morning = Ticket().hitched().weighs(steer=5280, drive=6940, trailer=9840)
    ticket = morning.weighs("solo", truck=10800).later(hours=5).weighs(truck=12400, trailer=9800)
    first, *_, last = ticket.log.of(Weighing)
    found = session_of(ticket.log, first)
    assert found is not None
    assert set(found.passes) == {"hitched", "solo"}
    later = session_of(ticket.log, last)
    assert later is not None
    assert set(later.passes) == {"hitched"}
    assert session_of(Ticket().log, first) is None


def test_nothing_weighed_is_no_weighing() -> None:
    assert latest_session(Ticket(*flatdeck()).log) is None


def test_the_heavier_side_and_the_heavier_axle_are_found() -> None:
    found = weights(
        Ticket().weighs(
            "trailer",
            trailer_1_left=1820,
            trailer_1_right=1960,
            trailer_2_left=1880,
            trailer_2_right=2040,
        )
    )
    by_pair = {(each.heavy, each.light): each for each in imbalances(found)}
    right = by_pair["trailer_1_right", "trailer_1_left"]
    assert pounds(right.by.nominal_value) == pytest.approx(140)
    assert right.share == pytest.approx(140 / 3780)
    assert pounds(by_pair["trailer_2", "trailer_1"].by.nominal_value) == pytest.approx(140)


def test_only_neighbouring_axles_and_the_sides_of_one_are_compared() -> None:
    found = weights(
        Ticket().weighs("trailer", trailer_1=3420, trailer_2=3380, trailer_3=3460, steer_left=2660)
    )
    assert [(each.heavy, each.light) for each in imbalances(found)] == [
        ("trailer_1", "trailer_2"),
        ("trailer_3", "trailer_2"),
    ]


def test_figures_keep_their_unit_until_they_are_computed_with() -> None:
    mixed = Ticket().weighs(steer=1.48, drive=1.92, trailer=2.15, unit="t")
    assert weights(mixed).loads["gross"].nominal_value == pytest.approx(5550)
    assert Quantity(5550, "kg").amount("t") == pytest.approx(5.55)


def test_a_truck_heavier_alone_than_hitched_gives_no_tongue() -> None:
    found = weights(
        Ticket().hitched().weighs(truck=12000, trailer=9800).weighs("solo", truck=12100)
    )
    assert found.tongue is None
    assert found.trailer is None
    assert found.misfit is not None
    assert pounds(found.misfit.nominal_value) == pytest.approx(100)
    assert set(found.session.passes) == {"hitched", "solo"}
    assert load(found, "gross") == pytest.approx(21800)


def test_a_truck_alone_heavier_by_what_the_scale_explains_is_no_misfit() -> None:
    found = weights(
        Ticket().hitched().weighs(truck=12000, trailer=9800).weighs("solo", truck=12020)
    )
    assert found.misfit is None
    assert found.tongue is not None
    assert pounds(found.tongue.load.nominal_value) == pytest.approx(-20)


@pytest.mark.parametrize("heavier", range(1, 40))
def test_a_misfit_begins_where_the_scales_error_ends(heavier: int) -> None:
    """A scale that shows every kilogram, and a truck so much heavier alone than hitched."""
    ticket = Ticket().hitched().weighs(truck=5003, trailer=4000, unit="kg")
    found = weights(ticket.weighs("solo", truck=5003 + heavier, unit="kg"))
    difference = found.misfit if found.tongue is None else found.tongue.load
    assert difference is not None
    assert (found.misfit is not None) is (heavier > spread(difference))


@pytest.mark.parametrize("trailer", range(40))
def test_a_trailer_begins_where_the_scales_error_ends(trailer: int) -> None:
    ticket = Ticket().hitched().weighs(gross=5003 + trailer, unit="kg")
    found = weights(ticket.weighs("solo", truck=5003, unit="kg"))
    difference = found.misfit if found.trailer is None else found.trailer
    assert difference is not None
    assert (found.trailer is not None) is (trailer > spread(difference))


def test_a_misfit_leaves_what_a_tongue_scale_said() -> None:
    ticket = Ticket().hitched().weighs(truck=12000, trailer=9800).weighs("solo", truck=12100)
    found = weights(ticket.weighs(rig=None, tongue=900, of="flatdeck"))
    assert found.misfit is not None
    assert found.tongue is not None
    assert found.tongue.by == "tongue scale"
    assert found.trailer is not None
    assert pounds(found.trailer.nominal_value) == pytest.approx(10700)


def test_a_hitched_pass_of_the_trailer_alone_is_no_tongue() -> None:
    ticket = Ticket().hitched().weighs(trailer=9800).weighs("solo", steer=5400, drive=5400)
    found = weights(ticket)
    assert (found.tongue, found.on_hitch, found.trailer) == (None, None, None)


def test_a_truck_alone_of_which_one_axle_was_weighed_gives_no_tongue() -> None:
    ticket = Ticket().hitched().weighs(steer=5280, drive=6940, trailer=9840)
    found = weights(ticket.weighs("solo", steer=5400))
    assert (found.tongue, found.on_hitch, found.trailer) == (None, None, None)


@pytest.mark.parametrize("gross", [11500, 12000, 12010], ids=["less", "as much", "hardly more"])
def test_a_rig_that_weighs_no_more_than_its_truck_alone_gives_no_trailer(gross: float) -> None:
    ticket = Ticket().hitched().weighs(gross=gross).weighs("solo", truck=12000)
    found = weights(ticket.weighs(rig=None, tongue=900, of="flatdeck"))
    assert found.misfit is not None
    assert pounds(found.misfit.nominal_value) == pytest.approx(12000 - gross)
    assert found.trailer is None
    assert found.share is None
    assert load(found, "gross") == pytest.approx(gross)


def test_a_light_trailer_that_the_scale_can_tell_is_one() -> None:
    ticket = Ticket().hitched().weighs(gross=12100).weighs("solo", truck=12000)
    found = weights(ticket)
    assert found.misfit is None
    assert found.trailer is not None
    assert pounds(found.trailer.nominal_value) == pytest.approx(100)


def test_places_that_carry_nothing_have_no_heavier_side_and_no_share() -> None:
    found = weights(Ticket().weighs("trailer", trailer_left=0, trailer_right=0, tongue=0))
    assert found.trailer is not None
    assert imbalances(found) == ()
    assert found.share is None


def gauged(ticket: Ticket) -> Weights:
    """The last weighing, which is of the tongue alone, beside the axles of before."""
    session = latest_session(ticket.log)
    assert session is not None
    return weights_of(with_axles(ticket.log, session))


def test_a_tongue_weighed_by_itself_stands_beside_the_axles_of_before() -> None:
    ticket = Ticket().hitched().weighs("solo", steer=5280, drive=4620)
    ticket.weighs(steer=4960, drive=6100, trailer=8480)
    found = gauged(ticket.later(days=40).weighs(None, tongue=900))
    assert load(found, "gross") == pytest.approx(19540)
    # The truck alone of that day would make 1,160 lb; what the gauge says now counts.
    assert found.tongue is not None
    assert pounds(found.tongue.load.nominal_value) == pytest.approx(900)
    assert found.trailer is not None
    assert pounds(found.trailer.nominal_value) == pytest.approx(8480 + 900)
    assert found.session.axles_at is not None
    assert found.session.ended > found.session.axles_at


@pytest.mark.parametrize("days", [0, 366], ids=["of the same hour", "over a year ago"])
def test_a_tongue_is_put_beside_no_axles_but_those_of_the_year_before(days: int) -> None:
    ticket = Ticket().hitched().weighs(steer=4960, drive=6100, trailer=8480)
    found = gauged(ticket.later(days=days).weighs(None, tongue=900))
    assert found.session.axles_at is None
    assert ("gross" in found.loads) is (days == 0)


def test_a_tongue_is_put_beside_no_other_trailers_axles() -> None:
    ticket = Ticket().hitched().weighs(steer=4960, drive=6100, trailer=8480)
    ticket.later(days=3).hitched("camper")
    assert "gross" not in gauged(ticket.weighs(None, tongue=600)).loads
    again = gauged(ticket.later(days=3).hitched("flatdeck").weighs(None, tongue=600))
    assert load(again, "gross") == pytest.approx(19540)


def test_axles_weighed_anew_need_no_older_ones() -> None:
    ticket = Ticket().hitched().weighs(steer=4960, drive=6100, trailer=8480)
    session = latest_session(ticket.later(days=3).weighs(steer=4900, drive=6000, trailer=8000).log)
    assert session is not None
    assert with_axles(ticket.log, session) is session
