"""Corrections, as they were texted, against what had been texted before."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from datetime import UTC, date, datetime, timedelta, timezone

import pytest

from domain.corrections import (
    ALREADY_SO,
    NO_SUCH_FIGURE,
    NOTHING_FITS,
    NOTHING_TO_UNDO,
    SEVERAL_FIT,
    WRONG_MEASURE,
    Amended,
    Change,
    Redated,
    Unclear,
    Withdrawn,
    bind,
    figures,
    stated,
)
from domain.entries import (
    KINDS,
    Check,
    Correction,
    Entry,
    Fill,
    Hitch,
    Note,
    Observation,
    Odometer,
    Rating,
    Weighing,
)
from domain.log import Logged
from domain.quantities import Quantity
from tests.domain.driving_log import gal, mi
from tests.domain.scale_house import lb

AT = datetime(2026, 7, 11, 20, 22, tzinfo=UTC)


def usd(value: float) -> Quantity:
    return Quantity(value, "USD")


def loads(**figures: float) -> Weighing:
    return Weighing(loads={name: lb(value) for name, value in figures.items()})


def after(*messages: Entry | Sequence[Entry]) -> tuple[Change, ...]:
    """Messages as changes, the last one texted first; each states one entry or several."""
    changes = []
    key = 0
    for each in messages:
        entries = [each] if isinstance(each, Entry) else list(each)
        kept = []
        for entry in entries:
            key += 1
            kept.append(Logged(entry=entry, at=AT, by="Ana", key=key))
        changes.append(Change(kept=tuple(kept)))
    return tuple(reversed(changes))


def amend(value: object = None, field: str | None = None, was: object = None) -> Correction:
    return Correction(action="amend", field=field, value=value, was=was)  # type: ignore[arg-type]


def amended(correction: Correction, recent: tuple[Change, ...]) -> Entry:
    outcome = bind(correction, recent)
    assert isinstance(outcome, Amended), outcome
    return outcome.after


TICKET = loads(steer=5280, drive=6940, trailer=11140, gross=23360)
FILL = Fill(volume=gal(34.1), odometer=mi(48211), unit_price=Quantity(3.899, "USD/gal"), full=True)


@pytest.mark.parametrize(
    ("said", "before", "expected"),
    [
        ("make that 5,230", TICKET, loads(steer=5230, drive=6940, trailer=11140, gross=23360)),
        ("*8,860", loads(steer=5360, drive=8820), loads(steer=5360, drive=8860)),
        ("make that 23,630", TICKET, loads(steer=5280, drive=6940, trailer=11140, gross=23630)),
        ("*5320", loads(steer=53200, drive=8860), loads(steer=5320, drive=8860)),
        ("*31.4", FILL, replace(FILL, volume=gal(31.4))),
        ("*48,311", FILL, replace(FILL, odometer=mi(48311))),
        ("*205", Observation(subject="transmission", value=Quantity(195, "degF")),
         Observation(subject="transmission", value=Quantity(205, "degF"))),
        ("*11400", Rating(subject="truck", rating="gvwr", value=lb(11500)),
         Rating(subject="truck", rating="gvwr", value=lb(11400))),
    ],
)  # fmt: skip
def test_a_bare_figure_corrects_the_one_that_it_is_most_like(
    said: str, before: Entry, expected: Entry
) -> None:
    figure = float(said.removeprefix("make that ").removeprefix("*").replace(",", ""))
    assert amended(amend(figure), after(before)) == expected


def test_a_bare_figure_corrects_the_last_message_that_holds_one_like_it() -> None:
    recent = after(loads(steer=5100, drive=6000), TICKET, Check(item="lug nuts", state="done"))
    outcome = bind(amend(5230.0), recent)
    assert isinstance(outcome, Amended)
    assert outcome.before.entry == TICKET


def test_a_bare_figure_unlike_the_last_fill_corrects_the_weighing_before_it() -> None:
    outcome = bind(amend(5230.0), after(TICKET, FILL))
    assert isinstance(outcome, Amended)
    assert (outcome.before.entry, outcome.field) == (TICKET, "steer")


def test_a_bare_figure_like_two_others_is_asked_about_with_both() -> None:
    outcome = bind(amend(5270.0), after(loads(trailer_1=5280, trailer_2=5260)))
    assert isinstance(outcome, Unclear)
    assert outcome.why == SEVERAL_FIT
    assert {each.field for each in outcome.choices} == {"trailer_1", "trailer_2"}


@pytest.mark.parametrize("figure", [12.0, 999999.0, 0.0, -5280.0])
def test_a_bare_figure_unlike_all_others_changes_nothing(figure: float) -> None:
    assert bind(amend(figure), after(TICKET)) == Unclear(NOTHING_FITS)


def test_nothing_texted_before_leaves_nothing_to_correct_or_undo() -> None:
    assert bind(amend(5230.0), ()) == Unclear(NOTHING_FITS)
    assert bind(amend(lb(5230), "steer"), ()) == Unclear(NOTHING_FITS)
    assert bind(Correction(action="undo"), ()) == Unclear(NOTHING_TO_UNDO)


def test_steer_was_5360_mends_the_steer_axle() -> None:
    assert amended(amend(lb(5360), "steer"), after(TICKET)) == loads(
        steer=5360, drive=6940, trailer=11140, gross=23360
    )


def test_gallons_was_31_4_not_34_1_finds_the_fill_that_said_34_1() -> None:
    old, new = Fill(volume=gal(34.1)), Fill(volume=gal(29.9))
    assert amended(amend(gal(31.4), "volume", gal(34.1)), after(old, new)) == Fill(volume=gal(31.4))


def test_that_last_one_was_the_camper_names_the_newest_entrys_trailer() -> None:
    weighed = Weighing(loads={"trailer": lb(8480)})
    known = after(Hitch(action="hitched", trailer="flatdeck"), weighed)
    outcome = bind(amend("camper", "trailer"), known)
    assert isinstance(outcome, Amended)
    assert outcome.after == replace(weighed, trailer="camper")


def test_the_flatdeck_not_the_camper_finds_the_weighing_that_said_camper() -> None:
    weighed = Weighing(loads={"trailer": lb(8480)}, trailer="camper")
    known = after(weighed, Odometer(odometer=mi(48211)))
    outcome = bind(amend("flatdeck", "trailer", "camper"), known)
    assert isinstance(outcome, Amended)
    assert outcome.after == replace(weighed, trailer="flatdeck")
    assert bind(amend("flatdeck", "trailer", "dump"), known) == Unclear(NO_SUCH_FIGURE)


def test_a_figure_that_no_one_texted_is_not_found() -> None:
    correction = amend(gal(31.4), "volume", gal(34.7))
    assert bind(correction, after(FILL)) == Unclear(NO_SUCH_FIGURE)
    assert bind(amend(31.4, was=34.7), after(FILL)) == Unclear(NO_SUCH_FIGURE)


def test_5360_not_5280_finds_the_figure_by_what_it_was() -> None:
    outcome = bind(amend(5360.0, was=5280.0), after(TICKET, FILL))
    assert isinstance(outcome, Amended)
    assert outcome.field == "steer"


def test_odo_should_be_48211_mends_a_reading_or_a_fill_whichever_was_last() -> None:
    correction = amend(mi(48211), "odometer")
    reading = Odometer(odometer=mi(47211), event="depart")
    assert amended(correction, after(FILL, reading)) == Odometer(odometer=mi(48211), event="depart")
    assert amended(correction, after(reading, Fill(odometer=mi(47999)))) == Fill(odometer=mi(48211))


def test_i_meant_drive_not_trailer_moves_the_figure() -> None:
    before = Weighing(loads={"steer": lb(5280), "trailer": lb(6940)}, rig="hitched")
    moved = amended(amend(field="drive", was="trailer"), after(before))
    assert moved == Weighing(loads={"steer": lb(5280), "drive": lb(6940)}, rig=None)


def test_i_meant_drive_not_trailer_exchanges_the_two_where_both_were_given() -> None:
    moved = amended(amend(field="drive", was="trailer"), after(TICKET))
    assert moved == loads(steer=5280, drive=11140, trailer=6940, gross=23360)


def test_i_meant_the_odometer_not_the_trip_meter_empties_the_one_and_fills_the_other() -> None:
    trip = Fill(volume=gal(31.4), distance=mi(48211))
    moved = amended(amend(field="odometer", was="distance"), after(trip))
    assert moved == Fill(volume=gal(31.4), odometer=mi(48211))


def test_a_figure_that_moves_may_change_on_the_way() -> None:
    moved = amended(amend(lb(6900), field="drive", was="steer"), after(FILL, loads(steer=6940)))
    assert moved == loads(drive=6900)


def test_what_nobody_texted_cannot_move() -> None:
    assert bind(amend(field="drive", was="tongue"), after(TICKET)) == Unclear(NO_SUCH_FIGURE)


def test_a_rig_said_to_be_hitched_stays_so() -> None:
    before = Weighing(
        loads={"steer": lb(5280), "trailer": lb(6940)}, rig="hitched", words=(("rig", "hitched"),)
    )
    moved = amended(amend(field="drive", was="trailer"), after(before))
    assert isinstance(moved, Weighing)
    assert moved.rig == "hitched"


def test_a_volume_cannot_become_an_odometer() -> None:
    correction = amend(field="odometer", was="volume")
    assert bind(correction, after(Fill(volume=gal(31.4), odometer=mi(48211)))) == Unclear(
        WRONG_MEASURE
    )
    assert bind(amend(gal(31.4), "steer"), after(TICKET)) == Unclear(WRONG_MEASURE)
    assert bind(amend(usd(94), "steer"), after(TICKET)) == Unclear(WRONG_MEASURE)


def test_a_place_is_no_number_and_a_count_no_quantity() -> None:
    weighed = Weighing(loads={"gross": lb(8840)}, place="Drybone Fork", aboard=2)
    assert bind(amend(12.0, "place"), after(weighed)) == Unclear(WRONG_MEASURE)
    assert bind(amend(lb(3), "aboard"), after(weighed)) == Unclear(WRONG_MEASURE)
    fixed = amended(amend(3.0, "aboard"), after(weighed))
    assert isinstance(fixed, Weighing)
    assert fixed.aboard == 3


def test_that_last_fill_was_only_partial_mends_the_fill_even_where_nothing_was_said() -> None:
    correction = amend(False, "full")
    assert amended(correction, after(Fill(volume=gal(31.4)), TICKET)) == Fill(
        volume=gal(31.4), full=False
    )


def test_it_was_cobblewick_not_drybone_fork_mends_the_place() -> None:
    weighed = Weighing(loads={"gross": lb(8840)}, place="Drybone Fork")
    fixed = amended(amend("Cobblewick", "place", "drybone fork"), after(weighed, FILL))
    assert fixed == Weighing(loads={"gross": lb(8840)}, place="Cobblewick")


def test_saying_again_what_stands_changes_nothing() -> None:
    assert bind(amend(lb(5280), "steer"), after(TICKET)) == Unclear(ALREADY_SO)


def test_a_figure_without_a_unit_takes_that_of_the_one_it_corrects() -> None:
    tonnes = Weighing(loads={"gross": Quantity(5.55, "t")})
    assert amended(amend(5.65), after(tonnes)) == Weighing(loads={"gross": Quantity(5.65, "t")})


def test_the_other_wheel_is_meant_of_a_gauge_that_was_read_at_one() -> None:
    hub = Observation(subject="hub", value=Quantity(140, "degF"), position="trailer left rear")
    meant = Correction(action="amend", field="drive_right", was="drive_left")
    assert amended(meant, after(TICKET, hub)) == replace(hub, position="trailer right rear")
    front = Correction(action="amend", field="steer_right", was="steer_left")
    assert bind(front, after(hub)) == Unclear(NO_SUCH_FIGURE)


def test_undo_takes_back_the_last_message_whole() -> None:
    both = (Hitch(action="hitched"), Odometer(odometer=mi(48011), event="depart"))
    recent = after(FILL, both)
    outcome = bind(Correction(action="undo"), recent)
    assert outcome == Withdrawn(recent[0].kept)


def test_undo_of_a_kind_takes_back_the_last_of_that_kind_and_leaves_the_rest() -> None:
    hitched = Hitch(action="hitched")
    recent = after([FILL, hitched], TICKET, FILL)

    def undo(kind: str) -> object:
        return bind(Correction(action="undo", words=((kind, kind),)), recent)

    newest = next(change for change in recent if len(change.kept) == 1)
    assert undo("weighing") == Withdrawn(
        tuple(each for change in recent for each in change.kept if each.entry == TICKET)
    )
    fills = [each for change in recent for each in change.kept if each.entry == FILL]
    assert undo("fill") == Withdrawn((fills[0],))
    assert undo("hitch") == Withdrawn(
        tuple(each for change in recent for each in change.kept if each.entry == hitched)
    )
    assert undo("odometer") == Unclear(NOTHING_TO_UNDO)
    assert bind(Correction(action="undo"), recent) == Withdrawn(recent[0].kept)
    assert newest in recent


def test_undo_of_a_figure_takes_back_the_entry_that_states_it() -> None:
    early, late = Odometer(odometer=mi(48_260)), Odometer(odometer=mi(48_900))
    both = [Fill(volume=gal(21)), early]
    recent = after(both, late)
    older = next(change for change in recent if len(change.kept) == 2)
    filled = next(each for each in older.kept if isinstance(each.entry, Fill))
    read = next(each for each in older.kept if each.entry == early)

    def undo(was: object, *kinds: str) -> object:
        named = Correction(action="undo", was=was, words=tuple((k, k) for k in kinds))  # type: ignore[arg-type]
        return bind(named, recent)

    assert undo(48_260.0) == Withdrawn((read,))
    assert undo(48_260.0, "fill") == Withdrawn((filled,))
    assert undo(Quantity(21, "gal")) == Withdrawn((filled,))
    assert undo(48_620.0) == Unclear(NO_SUCH_FIGURE)
    assert undo(48_900.0, "fill") == Unclear(NO_SUCH_FIGURE)
    assert undo(48_270.0) == Unclear(NO_SUCH_FIGURE)  # near by, and another reading


def test_undo_of_a_day_takes_back_what_happened_then() -> None:
    newest, older = after(FILL, FILL)
    (early,) = older.kept
    yesterday = replace(early, at=AT - timedelta(days=1))
    recent = (newest, Change(kept=(yesterday,)))
    named = Correction(action="undo", at=date(2026, 7, 10), words=(("fill", "fill"),))
    assert bind(named, recent) == Withdrawn((yesterday,))
    assert bind(replace(named, at=date(2026, 7, 3)), recent) == Unclear(NOTHING_TO_UNDO)
    # At 20:22 UTC it is the next morning in Auckland.
    ahead = timezone(timedelta(hours=12))
    assert bind(replace(named, at=date(2026, 7, 11)), recent, ahead) == Withdrawn((yesterday,))


def test_undo_of_a_correction_brings_back_what_it_replaced() -> None:
    (first,) = after(TICKET)
    mended = Logged(entry=loads(steer=5230), at=AT, key=9)
    corrected = Change(kept=(mended,), replaced=first.kept)
    assert bind(Correction(action="undo"), (corrected,)) == Withdrawn((mended,), first.kept)


def redate(value: str, *words: tuple[str, str]) -> Correction:
    return Correction(action="amend", field="at", value=value, words=words)


def test_a_new_day_moves_all_of_the_kind_that_one_message_told() -> None:
    newest, older = after([FILL, FILL], [TICKET, Hitch(action="hitched"), TICKET])
    recent = (newest, older)
    first, hitched, last = newest.kept
    day = date(2026, 7, 10)

    def moved(*logged: Logged[Entry]) -> Redated:
        return Redated(tuple((each, replace(each.entry, at=day)) for each in logged))

    assert bind(redate("2026-07-10", ("weighing", "weighing")), recent) == moved(first, last)
    assert bind(redate("2026-07-10", ("fill", "fill")), recent) == moved(*older.kept)
    assert bind(redate("2026-07-10"), recent) == moved(first, hitched, last)
    assert bind(redate("2026-07-11", ("fill", "fill")), recent) == Unclear(ALREADY_SO)
    assert bind(redate("2026-07-10", ("odometer", "odo")), recent) == Unclear(NOTHING_FITS)


@pytest.mark.parametrize(
    ("at", "correction", "meant"),
    [
        # Of the day on which it was logged, unless that hour is still to come.
        (AT, redate("2026-07-12T14:00:00+00:00"), "2026-07-11T14:00:00+00:00"),
        (AT, redate("2026-07-10T22:00:00+00:00"), "2026-07-10T22:00:00+00:00"),
        (AT, redate("2026-07-12T14:00:00+00:00", ("day", "today")), "2026-07-12T14:00:00+00:00"),
    ],
)
def test_a_clock_time_is_of_the_entrys_own_day(
    at: datetime, correction: Correction, meant: str
) -> None:
    outcome = bind(correction, (Change(kept=(Logged(entry=FILL, at=at, key=1),)),))
    assert isinstance(outcome, Redated)
    assert outcome.entries[0][1].at == datetime.fromisoformat(meant)


def test_another_day_keeps_the_clock_time_that_was_told() -> None:
    told = replace(FILL, at=AT)
    outcome = bind(redate("2026-07-09"), (Change(kept=(Logged(entry=told, at=AT, key=1),)),))
    assert isinstance(outcome, Redated)
    assert outcome.entries[0][1].at == AT - timedelta(days=2)


def test_an_entry_that_is_named_is_the_one_that_is_mended() -> None:
    at_pell = replace(FILL, odometer=mi(48_700), place="Pell")
    recent = after([Odometer(odometer=mi(48_490)), FILL], [at_pell], [FILL])
    newest, middle, oldest = recent
    meant: dict[float | str, Logged[Entry]] = {
        48_700.0: middle.kept[0],
        "pell": middle.kept[0],
        48_490.0: oldest.kept[1],
    }
    for about, logged in meant.items():
        outcome = bind(replace(amend(gal(30.4), "volume"), about=about), recent)
        assert isinstance(outcome, Amended)
        assert (outcome.before, stated(outcome.after, "volume")) == (logged, gal(30.4))
    nowhere = replace(amend(gal(30.4), "volume"), about=49_999.0)
    assert bind(nowhere, recent) == Unclear(NO_SUCH_FIGURE)
    named = replace(redate("2026-07-10", ("fill", "fill")), about=48_700.0)
    for each, logged in ((named, middle.kept[0]), (replace(named, about=None), newest.kept[0])):
        moved = bind(each, recent)
        assert isinstance(moved, Redated)
        assert [before for before, _ in moved.entries] == [logged]


def test_an_empty_correction_changes_nothing() -> None:
    assert bind(amend(), after(TICKET)) == Unclear(NOTHING_FITS)
    assert bind(amend(True), after(TICKET)) == Unclear(NOTHING_FITS)


SAMPLES: dict[str, Entry] = {
    "weighing": TICKET,
    "fill": FILL,
    "odometer": Odometer(odometer=mi(48011)),
    "hitch": Hitch(action="hitched", place="barn"),
    "observation": Observation(subject="oil", value=Quantity(210, "degF")),
    "rating": Rating(subject="tyres", rating="load_index", value=121.0),
    "cargo": KINDS["cargo"](item="hives", value=lb(1680)),  # type: ignore[call-arg]
    "check": Check(item="lug nuts", state="done"),
    "note": Note(note="brakes grab when wet"),
}


@pytest.mark.parametrize("kind", [kind for kind in KINDS if kind != "correction"])
def test_every_figure_of_every_kind_can_be_called_and_corrected(kind: str) -> None:
    entry = SAMPLES[kind]
    for field, value in figures(entry).items():
        new: Quantity | float = (
            Quantity(value.value + 1, value.unit) if isinstance(value, Quantity) else value + 1
        )
        fixed = amended(amend(new, field, value), after(entry))
        assert stated(fixed, field) == new
