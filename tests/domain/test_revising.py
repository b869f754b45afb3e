"""An edit changes what its author changed, and nothing that others have corrected meanwhile."""

from __future__ import annotations

import pytest

from domain.entries import Entry, Fill, Odometer, Weighing
from domain.log import Logged
from domain.quantities import Quantity
from domain.revising import Line, differences, merge, revised
from tests.domain.driving_log import START, gal, mi
from tests.domain.scale_house import lb


def weighing(**loads: float) -> Weighing:
    return Weighing(loads={name: lb(value) for name, value in loads.items()})


def line(read: Entry, standing: Entry | None) -> Line:
    return Line(read, None if standing is None else Logged(entry=standing, at=START, key=1))


def says(line: Line, now: Entry) -> Entry | None:
    """What the logbook says from now on; None where nothing changes."""
    (anew,) = revised([line], [now]).anew
    return anew.says


@pytest.mark.parametrize(
    ("now", "expected"),
    [
        pytest.param(
            weighing(steer=5280, drive=6940, trailer=9840),
            weighing(steer=5280, drive=6900, trailer=9840),
            id="a load that the edit adds",
        ),
        pytest.param(weighing(drive=6940), weighing(drive=6900), id="one that it leaves out"),
        pytest.param(
            weighing(steer=5200, drive=6940),
            weighing(steer=5200, drive=6900),
            id="one that it changes",
        ),
        pytest.param(
            weighing(steer=5280, drive=6490),
            weighing(steer=5280, drive=6490),
            id="one that both changed: the edit stands",
        ),
    ],
)
def test_an_edit_of_one_load_leaves_another_as_it_was_corrected(
    now: Weighing, expected: Weighing
) -> None:
    corrected = line(weighing(steer=5280, drive=6940), weighing(steer=5280, drive=6900))
    assert says(corrected, now) == expected


def test_an_edit_that_says_the_same_changes_nothing() -> None:
    told = weighing(steer=5280, drive=6940)
    revision = revised([line(told, weighing(steer=5280, drive=6900))], [told])
    assert [each.says for each in revision.anew] == [None]
    assert revision.gone == ()


def test_an_edit_to_what_was_corrected_already_changes_nothing() -> None:
    corrected = line(weighing(steer=5280, drive=6940), weighing(steer=5280, drive=6900))
    assert says(corrected, weighing(steer=5280, drive=6900)) is None


def test_what_was_taken_back_stays_so_until_its_words_change() -> None:
    undone = line(weighing(drive=6940), None)
    assert says(undone, weighing(drive=6940)) is None
    assert says(undone, weighing(drive=6900)) == weighing(drive=6900)


def test_an_entry_that_the_new_text_has_no_more_is_gone() -> None:
    fill = line(Fill(volume=gal(31.4)), Fill(volume=gal(31.4)))
    odometer = line(Odometer(odometer=mi(48211)), Odometer(odometer=mi(48211)))
    revision = revised([odometer, fill], [Fill(volume=gal(31.4))])
    assert revision.gone == (odometer,)
    assert [each.says for each in revision.anew] == [None]


def test_two_changes_that_leave_no_load_at_all_give_way_to_the_newer_text() -> None:
    """A correction moved the steer axle's figure to the drive axle; the edit drops the drive's."""
    before, standing = weighing(steer=5280, drive=6940), weighing(drive=5280)
    assert merge(before, weighing(steer=5280), standing) == weighing(steer=5280)


def test_an_entry_made_another_kind_meanwhile_gives_way_to_the_newer_text() -> None:
    now = Odometer(odometer=mi(48112))
    assert merge(Odometer(odometer=mi(48211)), now, Fill(odometer=mi(48211))) == now


def test_what_differs_is_named_as_a_correction_names_it() -> None:
    before = Fill(volume=gal(31.4), odometer=mi(48211))
    after = Fill(
        volume=gal(31.4), odometer=mi(48112), full=False, unit_price=Quantity(4, "USD/gal")
    )
    assert set(differences(before, after)) == {"odometer", "full", "unit_price"}
    assert differences(weighing(steer=5280), weighing(drive=5280)) == ("steer", "drive")
