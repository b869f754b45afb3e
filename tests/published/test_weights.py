"""Weights held against published tickets, placards and lever examples.

Each case names where it was printed; the identifiers are those of our list of worked
examples. Status V2: read in a secondary text. D: derived by arithmetic from such a text.
"""

from __future__ import annotations

import pytest

from domain.bounds import margins
from domain.carried import PERSON
from domain.countries import ANYWHERE, country_of
from domain.entries import Weighing
from domain.loading import BehindCoupling, Effect, InBed, Lacks, Levers, effect, place_for_share
from domain.log import Log, Logged
from domain.margins import Over, Unknown
from domain.passes import latest_session
from domain.quantities import Quantity
from domain.rig import rig_of
from domain.uncertainty import exact
from domain.weighing import Weights, weights_of
from tests.domain.scale_house import START, Ticket, pounds, truck_ratings


def weighed(*entries: Weighing) -> Weights:
    log = Log(Logged(entry=each, at=START, key=key) for key, each in enumerate(entries))
    session = latest_session(log)
    assert session is not None
    return weights_of(session)


def quantities(unit: str, **loads: float) -> dict[str, Quantity]:
    return {name: Quantity(value, unit) for name, value in loads.items()}


@pytest.mark.parametrize(
    ("steer", "drive", "trailer", "gross"),
    [
        pytest.param(11590, 34700, 32100, 78390, id="W01: freight-broker course page, example 1"),
        pytest.param(11320, 31300, 35050, 77670, id="W02: freight-broker course page, example 2"),
    ],
)
def test_a_scale_ticket_closes(steer: float, drive: float, trailer: float, gross: float) -> None:
    found = weighed(
        Weighing(rig="hitched", loads=quantities("lb", steer=steer, drive=drive, trailer=trailer))
    )
    assert pounds(found.loads["gross"].nominal_value) == pytest.approx(gross)


def test_progressive_weighing_closes() -> None:
    """W03 to W06, a vehicle-weighing method page, in kg: truck 5,100 + 2,200, trailer 6,400."""
    alone = Weighing(rig="solo", loads=quantities("kg", steer=5100, gross=7300))
    coupled = Weighing(
        rig="hitched",
        loads=quantities("kg", truck=8550, trailer_1=1800, trailer_2=1700, trailer_3=1650),
    )
    found = weighed(alone, coupled)
    drive = found.session.passes["solo"].loads["drive"]
    assert drive.nominal_value == pytest.approx(2200)
    assert found.loads["gross"].nominal_value == pytest.approx(13700)
    assert found.trailer is not None
    assert found.trailer.nominal_value == pytest.approx(6400)
    assert found.tongue is not None
    assert found.tongue.load.nominal_value == pytest.approx(1250)


@pytest.mark.parametrize(
    ("tongue", "wheels", "percent"),
    [
        pytest.param(1025, 7200, 12.46, id="W08: axle-positioning page, example 1"),
        pytest.param(300, 8200, 3.5, id="W09: axle-positioning page, example 2"),
    ],
)
def test_the_tongue_share_is_of_the_whole_trailer(
    tongue: float, wheels: float, percent: float
) -> None:
    found = weighed(Weighing(rig="trailer", loads=quantities("lb", tongue=tongue, trailer=wheels)))
    assert found.share is not None
    assert 100 * found.share.nominal_value == pytest.approx(percent, abs=0.05)


@pytest.mark.parametrize(
    ("trailer", "low", "high"),
    [
        pytest.param(5000, 500, 750, id="W12: towing article, load-check section"),
        pytest.param(1500, 150, 225, id="W14: small-trailer manual, page 8"),
    ],
)
def test_ten_to_fifteen_percent_of_a_trailer(trailer: float, low: float, high: float) -> None:
    custom = ANYWHERE.tongue
    assert [share * trailer for share in (custom.low, custom.high)] == pytest.approx([low, high])


@pytest.mark.parametrize(
    ("currency", "end", "laden", "load"),
    [
        pytest.param("GBP", "low", 1400, 70, id="caravan maker's page for beginners, lower end"),
        pytest.param("GBP", "high", 1400, 98, id="caravan maker's page for beginners, upper end"),
        pytest.param("EUR", "low", 600, 24, id="driving school's question on StVZO 44(3)"),
    ],
)
def test_a_noseweight_is_held_to_what_is_customary_where_it_is_towed(
    currency: str, end: str, laden: float, load: float
) -> None:
    """Britain's trade body and Germany's StVZO 44(3), as others work them out (V2)."""
    share: float = getattr(country_of(currency).tongue, end)
    assert share * laden == pytest.approx(load)


def test_ten_percent_is_customary_down_under() -> None:
    """New Zealand's transport agency, 21 December 2020: a good rule of thumb is 10 percent."""
    for currency in ("NZD", "AUD"):
        custom = country_of(currency).tongue
        assert custom.low < 0.10 < custom.high


def test_what_is_more_than_a_centre_axle_trailer_puts_on_its_coupling_is_high_in_europe() -> None:
    """ISO 3833: no more than 10 % of the trailer's greatest mass."""
    for currency in ("GBP", "EUR"):
        assert country_of(currency).tongue.most == 0.10


@pytest.mark.parametrize(
    ("capacity", "people", "cargo", "tongue", "left"),
    [
        pytest.param(1400, [150] * 5, 0, 0, 650, id="P01: 49 CFR 575.6(a), as manuals print it"),
        pytest.param(1000, [150] * 2, 0, 0, 700, id="P02: owner's manual, example 1"),
        pytest.param(1000, [150] * 5, 0, 0, 250, id="P03: owner's manual, example 2"),
        pytest.param(1000, [200] * 5, 0, 0, 0, id="P04: owner's manual, example 3"),
        pytest.param(900, [154], 662, 0, 84, id="P05: owner's manual, capacity 1A"),
        pytest.param(900, [154, 176], 662, 0, -92, id="P06: owner's manual, capacity 1B"),
        pytest.param(900, [165], 375 + 22, 176, 162, id="P07: owner's manual, capacity 2A"),
    ],
)
def test_a_placard_bounds_people_cargo_and_tongue(
    capacity: float, people: list[float], cargo: float, tongue: float, left: float
) -> None:
    """The truck as the placard sees it: a curb weight, with all of that put aboard."""
    curb = 4000
    ticket = Ticket(*truck_ratings(payload=capacity, curb=curb)).hitched()
    ticket.weighs(truck=curb + sum(people) + cargo + tongue, trailer=1764 - tongue)
    session = latest_session(ticket.log)
    assert session is not None
    margin = next(
        each
        for each in margins(rig_of(ticket.log), weights_of(session), {})
        if each.limit.rating == "payload"
    )
    assert not isinstance(margin, Unknown)
    assert pounds(margin.left.nominal_value) == pytest.approx(left, abs=1e-6)
    assert isinstance(margin, Over) is (left < 0)


def arms(wheelbase: float, overhang: float = 0.0) -> Levers:
    """Lengths in one unit, which cancels."""
    return Levers(
        overhang=exact(overhang / wheelbase), learned=False, reach=None, wheelbase=wheelbase
    )


SOME = weighed(Weighing(rig="solo", loads=quantities("lb", steer=5000, drive=3600)))


def test_a_load_between_the_axles_divides_by_its_distances() -> None:
    """S01, a truck maker's body-builder manual, app. B: 100 lb at 133 of 214 in; the front's
    printed 38.86 is a slip for 37.86."""
    change = effect(InBed(214 - 133), arms(214), SOME)
    assert isinstance(change, Effect)
    assert 100 * change.drive.nominal_value == pytest.approx(62.15, abs=0.01)
    assert 100 * change.steer.nominal_value == pytest.approx(37.85, abs=0.01)


def test_a_tongue_behind_the_drive_axle_lifts_the_steer_axle() -> None:
    """S03, statics: 800 lb at 60 in behind the drive axle of a 150 in wheelbase."""
    change = effect(BehindCoupling(0.0), arms(150, 60), SOME)
    assert isinstance(change, Effect)
    assert 800 * change.steer.nominal_value == pytest.approx(-320)
    assert 800 * change.drive.nominal_value == pytest.approx(1120)


def test_a_pin_ahead_of_the_drive_axle_loads_both() -> None:
    """Statics: a pin P ahead of the drive axle by e puts P e / w in front, P (1 - e / w) behind."""
    change = effect(BehindCoupling(0.0), arms(160, -8), SOME)
    assert isinstance(change, Effect)
    assert change.steer.nominal_value == pytest.approx(8 / 160)
    assert change.drive.nominal_value == pytest.approx(1 - 8 / 160)


@pytest.mark.parametrize(
    ("tongue", "wheels", "inches"),
    [
        pytest.param(1025, 7200, 6.5, id="W10: axle-positioning page, example 1"),
        pytest.param(300, 8200, -17.08, id="W11: axle-positioning page, example 2"),
    ],
)
def test_an_axle_moved_for_ten_percent_is_the_whole_load_moved_the_other_way(
    tongue: float, wheels: float, inches: float
) -> None:
    """Ball to axle 264 in: the axle goes forward so far, or the load back, and so with signs."""
    found = weighed(Weighing(rig="trailer", loads=quantities("lb", tongue=tongue, trailer=wheels)))
    lengths = Levers(overhang=None, learned=False, reach=264, wheelbase=None)
    whole = Quantity(tongue + wheels, "lb").amount("kg")
    spot = place_for_share(found, lengths, 0.10, whole, standing=0.0)
    assert not isinstance(spot, Lacks)
    assert spot.nominal_value == pytest.approx(-inches, abs=0.05)


def test_an_occupant_is_a_hundred_and_fifty_pounds() -> None:
    """49 CFR 571.110, as owners' manuals restate it: 150 lb, 68 kg."""
    assert pytest.approx(Quantity(150, "lb").amount("kg"), abs=0.05) == PERSON
