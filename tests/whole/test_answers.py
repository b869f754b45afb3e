"""What is said: every kind has its answer and its line, every topic and doubt its sentence."""

from __future__ import annotations

from dataclasses import replace
from datetime import UTC, datetime, timedelta
from typing import get_args

import pytest

from bot.answers import asking, correcting, dispatch, routine, setup
from bot.answers.answer import Answer, Row, joined
from bot.answers.brief import brief
from bot.answers.measures import interval, price
from bot.answers.words import (
    clock,
    counted,
    either,
    figure,
    listed,
    moment,
    number,
    rounded,
    signed,
)
from domain import corrections
from domain.context import Units
from domain.corrections import Amended, Unclear, Withdrawn
from domain.entries import (
    KINDS,
    Cargo,
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
from domain.log import Log, Logged, Preferences
from domain.quantities import Quantity
from domain.verdicts import TOPICS, Ask, Choice, Question
from tests.domain.scale_house import Ticket
from tests.store.test_logbook import ONE_OF_EACH

AT = datetime(2026, 7, 11, 20, 22, tzinfo=UTC)
HOME = Preferences(time_zone="America/Boise")
PLACES: dict[Units, Preferences] = {
    units: Preferences(units=units, currency="EUR", time_zone="Europe/Lisbon")
    for units in get_args(Units)
}


def lb(value: float) -> Quantity:
    return Quantity(value, "lb")


def logged(*entries: object) -> list[Logged]:  # type: ignore[type-arg]
    return [Logged(entry=each, at=AT, by="Wren", key=key) for key, each in enumerate(entries, 1)]


def test_tyres_without_a_name_are_confirmed_as_whose_they_are() -> None:
    of_truck = Rating(
        subject="tyres", rating="load_index", value=121, words=(("subject", "ute tyres"),)
    )
    of_trailer = Rating(subject="tyres", rating="load_index", value=116)
    for rating, line in (
        (of_truck, "Truck tyres: load index 121."),
        (of_trailer, "Trailer tyres: load index 116."),
    ):
        assert setup.ratings_kept(Log(logged(rating)), HOME, [rating]).headline == line


@pytest.mark.parametrize(
    ("stated", "shown"),
    [
        (Quantity(1.939, "AUD/L"), "1.939 AUD/L"),
        (Quantity(2.019, "NZD/L"), "2.019 NZD/L"),
        (Quantity(1250, "ARS/L"), "1,250.00 ARS/L"),
        (Quantity(3.899, "USD/gal"), "$3.899/gal"),
    ],
)
def test_a_price_is_told_as_pumps_show_it(stated: Quantity, shown: str) -> None:
    assert price(stated) == shown


@pytest.mark.parametrize(
    ("every", "said"), [(365, "12 months"), (183, "6 months"), (90, "90 days"), (30, "30 days")]
)
def test_how_often_is_told_in_months_where_it_is_months(every: float, said: str) -> None:
    assert interval(every) == said


def test_every_kind_that_is_kept_has_its_answer() -> None:
    assert set(dispatch.KINDS) == set(KINDS.values()) - {Correction}


@pytest.mark.parametrize("preferences", PLACES.values(), ids=PLACES.keys())
@pytest.mark.parametrize("entry", ONE_OF_EACH, ids=lambda each: brief(each)[:20])
def test_any_entry_alone_in_a_logbook_is_answered_in_any_units(
    entry: object, preferences: Preferences
) -> None:
    kept = logged(entry)
    answer = dispatch.kept_answer(Log(kept), preferences, AT, kept)
    assert answer.headline
    assert "!" not in answer.headline


def test_every_topic_has_its_answer_even_from_an_empty_logbook() -> None:
    assert set(dispatch.TOPICS) == set(TOPICS)
    for form, answers in dispatch.ASKED.items():
        assert set(answers) <= set(TOPICS)
        for topic in answers:
            question = Question(topic=topic, form=form)
            assert dispatch.question_answer(Log(), HOME, AT, question).headline, question


def test_a_message_of_several_kinds_gets_one_reply_that_names_all() -> None:
    kept = logged(
        Hitch(action="hitched", trailer="flatdeck"),
        Odometer(odometer=Quantity(48011, "mi"), event="depart"),
    )
    assert dispatch.kept_answer(Log(kept), HOME, AT, kept) == Answer(
        headline="Flatdeck hitched.",
        notes=("Also kept: odometer 48,011 mi, leaving.",),
        quiet=True,
    )


def test_fuel_speaks_before_exhaust_fluid_bought_with_it() -> None:
    fuel = Fill(volume=Quantity(31.4, "gal"), odometer=Quantity(48211, "mi"), full=True)
    kept = logged(Fill(product="def", volume=Quantity(2.5, "gal")), fuel)
    answer = dispatch.kept_answer(Log(kept), HOME, AT, kept)
    assert "Also kept: 2.5 gal def." in answer.notes


@pytest.mark.parametrize(
    ("entry", "line"),
    [
        (
            Weighing(
                loads={"steer": lb(5280), "trailer": lb(9840)}, rig="hitched", place="Saltlick"
            ),
            "steer 5,280 lb, trailer axles 9,840 lb at Saltlick",
        ),
        (
            Fill(volume=Quantity(31.4, "gal"), product="diesel", full=False),
            "31.4 gal diesel, partial",
        ),
        (Fill(), "a fill"),
        (
            Rating(
                subject="trailer", rating="gawr", value=lb(6000), trailer="flatdeck", note="2 axles"
            ),
            "flatdeck GAWR 6,000 lb (2 axles)",
        ),
        (
            Rating(subject="tyres", rating="load_index", value=121, trailer="flatdeck"),
            "flatdeck tyres load index 121",
        ),
        (Note(note="pull in from the back", place="Saltlick"), "note: pull in from the back"),
        (Hitch(action="unhitched"), "unhitched"),
        (
            Cargo(item="hives", value=lb(900), position="in front of axles"),
            "hives 900 lb, in front of the axles",
        ),
        (
            Cargo(item="pump", value=lb(90), position="behind axle 2"),
            "pump 90 lb, behind axle 2",
        ),
        (Cargo(item="pump", value=lb(90), position="nose"), "pump 90 lb, nose"),
    ],
)
def test_an_entry_is_quoted_in_one_line(entry: Entry, line: str) -> None:
    assert brief(entry) == line


@pytest.mark.parametrize(
    ("quantity", "written"),
    [
        (lb(5280), "5,280 lb"),
        (Quantity(31.4, "gal"), "31.4 gal"),
        (Quantity(3.899, "USD/gal"), "$3.899/gal"),
        (Quantity(1.5, "EUR/L"), "€1.50/L"),
        (Quantity(67.45, "USD"), "$67.45"),
        (Quantity(15, "CAD"), "15.00 CAD"),
        (Quantity(-3, "USD"), "-$3.00"),
        (Quantity(205, "degF", 190), "190-205 °F"),
        (Quantity(9.8, "L/100km"), "9.8 L/100 km"),
        (Quantity(34, "%"), "34%"),
        (Quantity(5.55, "t"), "5.55 t"),
    ],
)  # fmt: skip
def test_a_quantity_is_written_as_people_write_it(quantity: Quantity, written: str) -> None:
    assert figure(quantity) == written


def test_worked_out_figures_are_rounded_to_what_a_scale_or_a_pump_reads() -> None:
    assert rounded(lb(5279.6)) == "5,280 lb"
    assert rounded(Quantity(11.6763, "mi/gal")) == "11.7 mpg"
    assert rounded(Quantity(3.899, "USD/gal")) == "$3.899/gal"
    assert signed(lb(320)) == "+320 lb"
    assert signed(lb(-1040.2)) == "-1,040 lb"
    assert number(-0.4, 0) == "0"


def test_lists_counts_and_times_read_as_english() -> None:
    assert [listed([]), listed(["a"]), listed(["a", "b"]), either(["a", "b", "c"])] == [
        "", "a", "a and b", "a, b or c",
    ]  # fmt: skip
    assert [counted(1, "entry", "entries"), counted(2, "entry", "entries")] == [
        "1 entry",
        "2 entries",
    ]
    assert moment(AT, HOME) == "Sat 11 Jul 2:22 pm"
    assert clock(AT, "metric") == "20:22"
    assert clock(AT.replace(hour=0)) == "12:22 am"


def test_ratings_are_confirmed_with_the_one_that_is_missed_most() -> None:
    door = Rating(subject="truck", rating="gvwr", value=lb(11500), truck="Juniper")
    rear = Rating(subject="truck", rating="gawr_rear", value=lb(7000), truck="Juniper")
    answer = setup.ratings_kept(Log(logged(door, rear)), HOME, [door, rear])
    assert answer == Answer(
        headline="Juniper: 2 ratings kept.",
        rows=(Row("GVWR", "11,500 lb"), Row("rear GAWR", "7,000 lb")),
        notes=(
            "Still missing: front axle's GAWR (door label).",
            "Text what you find, such as: front gawr 5600, gcwr 27000, payload 3180,"
            " tow rating 16000, tank 34 gal diesel",
        ),
    )
    assert (
        setup.ratings_kept(Log(logged(door)), HOME, [door]).headline == "Juniper: GVWR 11,500 lb."
    )


def test_a_doubt_is_one_sentence_with_the_figures_and_the_ways_to_answer() -> None:
    loads = {"steer": lb(5360), "drive": lb(8820), "trailer": lb(9180)}
    choice = Choice("23,360 lb gross", (Weighing(loads={**loads, "gross": lb(23360)}),))
    ask = Ask("gross", (choice,), "does_not_sum", (lb(23360), lb(24360)))
    assert asking.ask_answer(ask) == Answer(
        headline="The axles make 23,360 lb, the gross reads 24,360 lb. Which figure is wrong?",
        notes=("Answer 1, or send the figure again. Nothing is kept until then.",),
        choices=("23,360 lb gross",),
    )


@pytest.mark.parametrize("reason", asking.BY_REASON)
def test_a_reason_with_too_few_figures_still_makes_a_sentence(reason: str) -> None:
    assert "{" not in asking.ask_answer(Ask("odometer", (), reason)).headline


@pytest.mark.parametrize("about", ["steer", "gross", "unit_price", "observation", "moon"])
def test_a_doubt_without_a_known_reason_still_makes_a_sentence(about: str) -> None:
    headline = asking.ask_answer(Ask(about)).headline
    assert headline.endswith("?")
    assert "{" not in headline


def test_a_correction_says_what_it_is_now_and_what_it_was() -> None:
    before, after = (
        Odometer(odometer=Quantity(47211, "mi")),
        Odometer(odometer=Quantity(48211, "mi")),
    )
    answer = correcting.amended_answer(Amended(logged(before)[0], after, "odometer"))
    assert answer.headline == "Odometer now 48,211 mi, not 47,211 mi."


def test_a_trailer_that_is_named_anew_is_no_load() -> None:
    before = Weighing(loads={"trailer": Quantity(8480, "lb")}, trailer="flatdeck")
    after = replace(before, trailer="camper")
    answer = correcting.amended_answer(Amended(logged(before)[0], after, "trailer"))
    assert answer.headline == "Trailer now camper, not flatdeck."


def test_what_an_undo_takes_back_and_brings_back_is_named() -> None:
    hitch, start = logged(Hitch(action="hitched"), Odometer(odometer=Quantity(48011, "mi")))
    assert correcting.withdrawn_answer(Withdrawn((hitch, start), (start,))) == Answer(
        headline="Taken back: 2 entries.",
        rows=(
            Row("out", "hitched"), Row("out", "odometer 48,011 mi"),
            Row("back", "odometer 48,011 mi"),
        ),
    )  # fmt: skip


def test_every_reason_why_a_correction_does_not_bind_has_its_sentence() -> None:
    reasons = [
        corrections.NOTHING_TO_UNDO, corrections.NOTHING_FITS, corrections.NO_SUCH_FIGURE,
        corrections.WRONG_MEASURE, corrections.ALREADY_SO,
    ]  # fmt: skip
    for reason in reasons:
        assert correcting.unclear_answer(Unclear(reason), HOME).headline.endswith(".")


def test_several_answers_to_one_message_are_one_and_repeat_no_note() -> None:
    one = Answer(headline="One.", rows=(Row("a", "1"),), notes=("Same.",))
    two = Answer(headline="Two.", notes=("Same.",), choices=("x",))
    assert joined([one, two]) == Answer(
        headline="One. Two.", rows=(Row("a", "1"),), notes=("Same.",), choices=("x",)
    )
    with pytest.raises(ValueError, match="nothing to say"):
        joined([])


def test_a_trailer_that_came_off_leaves_the_truck_alone() -> None:
    assert routine.hitch_kept(Hitch(action="unhitched", trailer="camper")).headline == (
        "Camper off; running solo."
    )


def test_a_weighing_told_after_the_fact_meets_the_ratings_told_before() -> None:
    door = Rating(subject="truck", rating="gawr_rear", value=lb(7000), truck="Juniper")
    late = Weighing(
        loads={"steer": lb(4380), "drive": lb(7060), "trailer": lb(9900)}, rig="hitched"
    )
    then = Logged(entry=late, at=AT.replace(day=10), by="Wren", key=2)
    log = Log([Logged(entry=door, at=AT, by="Wren", key=1), then])
    answer = dispatch.kept_answer(log, HOME, AT, [then])
    assert "drive axle" in answer.headline
    assert "60 lb" in answer.headline


def test_a_hot_part_is_said_aloud_with_what_to_do_and_others_get_a_nod() -> None:
    hub = Observation(subject="hub", value=Quantity(240, "degF"), position="trailer right")
    cool = Observation(subject="hub", value=Quantity(110, "degF"), position="trailer left")
    aloud = routine.observations_kept([hub, cool])
    assert not aloud.quiet
    assert aloud.headline == "Hot: trailer right hub 240 °F."
    assert "licensed mechanic" in aloud.notes[0]
    assert "trailer left hub 110 °F" in aloud.notes[-1]
    assert routine.observations_kept([cool]).quiet


def test_a_soft_tyre_is_said_aloud_beside_its_likes() -> None:
    tyres = [
        Observation(subject="tyre", value=Quantity(value, "psi"), position=f"trailer {side}")
        for value, side in ((65, "left"), (48, "right"))
    ]
    aloud = routine.observations_kept(tyres)
    assert not aloud.quiet
    assert aloud.headline == "Soft: trailer right tyre 48 psi."
    assert "label's pressure" in aloud.notes[0]
    assert "65 psi" in aloud.notes[-1]


def test_a_tyre_read_by_itself_is_held_to_those_read_in_the_day_before() -> None:
    of_morning = Observation(subject="tyre", value=Quantity(80, "psi"), position="trailer")
    low = Observation(subject="tyre", value=Quantity(52, "psi"), position="trailer right front")
    for hours, soft in ((3, True), (30, False)):
        then = Logged(entry=of_morning, at=AT - timedelta(hours=hours), by="Wren", key=1)
        now = Logged(entry=low, at=AT, by="Wren", key=2)
        answer = dispatch.kept_answer(Log([then, now]), HOME, AT, [now])
        assert answer.headline.startswith("Soft: ") is soft
        assert answer.quiet is not soft


@pytest.mark.parametrize(
    ("before", "headline"),
    [
        (
            Hitch(action="hitched", trailer="flatdeck"),
            "Camper hitched; the flatdeck counts as off.",
        ),
        (Hitch(action="unhitched", trailer="flatdeck"), "Camper hitched."),
        (Hitch(action="hitched", trailer="Camper"), "Camper hitched."),
        (Hitch(action="hitched"), "Camper hitched."),
    ],
)
def test_a_second_trailer_takes_the_first_one_off(before: Hitch, headline: str) -> None:
    ticket = Ticket().add(before).later(hours=1).hitched("camper")
    kept = [ticket.log.of(Hitch)[-1]]
    answer = dispatch.kept_answer(ticket.log, Preferences(), kept[0].at, kept)
    assert answer.headline == headline
