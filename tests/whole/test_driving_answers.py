"""What is said about fuel, trips and weeks: short, verdict first, no digit that is not there."""

from __future__ import annotations

import re
from collections.abc import Callable
from datetime import date, timedelta
from typing import cast, get_args

import pytest

from bot.answers import ahead, fuel, spans, trips, upkeep
from bot.answers.answer import Answer
from bot.answers.measures import dates, economy_value, elapsed, mode_phrase
from bot.answers.plain import as_text
from bot.answers.which_weighing import no_weighing
from domain.context import Units
from domain.entries import Check, Fill, Rating, Weighing
from domain.fuel import Rate
from domain.log import Log, Logged, Preferences
from domain.quantities import Quantity
from domain.verdicts import OF_TRIP, Question
from tests.domain.driving_log import START, Page, gal, mi, usd
from tests.domain.simulated import Habits, live

BOISE = Preferences(time_zone="America/Boise")
TOPICS: dict[str, Callable[..., Answer]] = {
    "economy": fuel.economy_answer,
    "cost": spans.cost_answer,
    "range": ahead.range_answer,
    "distance": spans.distance_answer,
    "plan": ahead.plan_answer,
    "trip": trips.trip_answer,
    "week": spans.week_answer,
    "period": spans.period_answer,
    "upkeep": upkeep.upkeep_answer,
}


def text(answer: Answer) -> str:
    """The answer as plain lines, as long as any network would make it."""
    rows = [f"{each.label}  {each.figure}  {each.remark}".rstrip() for each in answer.rows]
    return "\n".join([answer.headline, *rows, *answer.notes])


def row(answer: Answer, label: str) -> str:
    return next(
        f"{each.figure} {each.remark}".strip() for each in answer.rows if each.label == label
    )


@pytest.mark.parametrize("units", get_args(Units))
def test_no_answer_is_longer_than_a_phones_screen(units: Units) -> None:
    preferences = Preferences(units=units, currency="EUR", time_zone="Europe/Lisbon")
    for seed in range(2):
        life = live(seed, Habits(days=120))
        tank = Rating(subject="truck", rating="tank", value=gal(34), note="diesel")
        log = Log([Logged(entry=tank, at=life.now - timedelta(days=140)), *life.entries])
        for days in (0, 3, 40):
            now = life.now + timedelta(days=days)
            for topic, answer in TOPICS.items():
                question = Question(topic=topic, distance=mi(420), trailer="camper")
                for asked in (question, Question(topic=topic)):
                    told = answer(log, preferences, now, asked)
                    assert len(text(told)) <= 900, topic
                    assert text(told).count("\n") < 16, topic
                    assert "!" not in text(told)
                    assert "nan" not in text(told)
                    assert " safe" not in text(told)


def test_every_fill_of_a_life_is_answered_with_the_figure_or_with_what_is_lacking() -> None:
    life = live(2, Habits(days=120))
    for each in life.entries:
        if isinstance(each.entry, Fill):
            logged = Logged(entry=each.entry, at=each.at, by=each.by, key=each.key)
            told = fuel.fill_answer(life.log.until(each.at), BOISE, each.at, logged)
            assert len(text(told)) <= 900
            assert "mpg" in told.headline or told.notes


@pytest.mark.parametrize(
    ("mpg", "half", "said"),
    [
        (11.5, 0.7, "11.5 ± 0.7"),
        (11.5, 0.02, "11.5 ± 0.1"),
        (11.4, 1.2, "about 11 ± 1"),
        (9.6, 3.4, "about 10 ± 3"),
    ],
)
def test_no_digit_is_quoted_that_the_uncertainty_does_not_leave(
    mpg: float, half: float, said: str
) -> None:
    litres = gal(1).amount("L") / mi(1).amount("km")
    high = litres / (mpg + half)
    rate = Rate(rate=litres / mpg, sd=(litres / mpg - high) / 1.6449, tanks=1, km=100)
    told = economy_value(rate, BOISE)
    assert told.split(" ±")[0] == said.split(" ±", maxsplit=1)[0]
    assert float(told.split("± ")[1]) == pytest.approx(float(said.split("± ")[1]), rel=0.3)


@pytest.mark.parametrize(
    ("mode", "said"),
    [("flatdeck", "towing the flatdeck"), ("Wren", "towing Wren"), ("solo", "solo")],
)
def test_a_trailers_own_name_has_no_article(mode: str, said: str) -> None:
    assert mode_phrase(mode) == said


@pytest.mark.parametrize(
    ("trailer", "said"),
    [("flatdeck", "with the flatdeck yet"), ("Matilda", "with Matilda yet")],
)
def test_nor_has_it_where_nothing_was_weighed(trailer: str, said: str) -> None:
    assert said in no_weighing(Preferences(), trailer).headline


def two_fills(**second: object) -> tuple[Log, Logged[Fill]]:
    page = Page()
    page.hitches(0, "flatdeck")
    page.fill(0, 48011, 31.4, unit_price=Quantity(3.899, "USD/gal"))
    last = page.fill(6, 48293, 23.1, **second)
    return page.log, last


def test_a_closed_tank_leads_with_economy_and_what_was_behind() -> None:
    log, last = two_fills(cost=usd(90.5), dash_economy=Quantity(13.2, "mi/gal"))
    told = fuel.fill_answer(log, BOISE, last.at, last)
    assert told.headline == "12.2 ± 0.4 mpg towing the flatdeck: 282 mi on 23.1 gal."
    assert row(told, "Cost") == "$90.50"
    assert row(told, "A mile") == "$0.32/mi"
    assert row(told, "Dash") == "13.2 mpg 8% above the pump"


def test_a_first_fill_says_that_it_only_sets_the_start() -> None:
    page = Page()
    first = page.fill(0, 48011, 31.4, unit_price=Quantity(3.899, "USD/gal"))
    told = fuel.fill_answer(page.log, BOISE, first.at, first)
    assert told.headline == "31.4 gal kept."
    assert row(told, "Cost") == "$122.43 $3.899/gal"
    assert "sets the start" in told.notes[0]


def test_a_fill_of_which_only_the_price_was_texted_has_no_volume_of_nought() -> None:
    paid = Fill(cost=usd(65), odometer=mi(48_211))
    log = Log([Logged(entry=paid, at=START)])
    now = START + timedelta(hours=2)
    for answer in (
        spans.week_answer(log, BOISE, now, Question(topic="week")),
        spans.cost_answer(log, BOISE, now, Question(topic="cost")),
    ):
        assert row(answer, "Fuel") == "1 fill no volume given"


def test_two_currencies_are_told_side_by_side_and_never_added() -> None:
    page = Page()
    page.fill(0, 48000, 30, cost=usd(120))
    page.fill(6, 48300, 25, cost=usd(100))
    page.fill(12, 48600, 25, cost=Quantity(140, "CAD"))
    told = spans.cost_answer(page.log, BOISE, START + timedelta(days=1), Question(topic="cost"))
    assert "$220.00 and 140.00 CAD" in told.headline
    miles = [each.figure for each in told.rows if each.label == "A mile"]
    assert miles == ["$0.33/mi", "0.47 CAD/mi"]


def test_economy_is_told_in_the_chats_own_units() -> None:
    log, last = two_fills()
    metric = Preferences(units="metric", time_zone="America/Boise")
    imperial = Preferences(units="imperial", time_zone="America/Boise")
    # 282 mi on 23.1 US gal: 235.215 / 12.208 = 19.3 L/100 km; 12.208 x 1.20095 = 14.7 mpg imp.
    assert fuel.fill_answer(log, metric, last.at, last).headline.startswith("19.3 ± 0.6 L/100 km")
    assert fuel.fill_answer(log, imperial, last.at, last).headline.startswith("14.7 ± 0.5 mpg imp")


def test_a_range_without_the_tanks_size_asks_for_it_and_nothing_else() -> None:
    log, last = two_fills()
    told = ahead.range_answer(log, BOISE, last.at, Question(topic="range"))
    assert told.headline == "I need the tank's size for that."


@pytest.mark.parametrize(
    ("miles", "verdict"), [(100, "Yes"), (302, "Close"), (330, "No"), (900, "No")]
)
def test_whether_it_reaches_is_said_first(miles: float, verdict: str) -> None:
    page = Page()
    page.add(0, Rating(subject="truck", rating="tank", value=gal(34)))
    page.hitches(0, "flatdeck")
    for stop in range(8):
        page.fill(stop * 10, 48000 + 200 * stop, 20)
    question = Question(topic="range", distance=mi(miles))
    told = ahead.range_answer(page.log, BOISE, START + timedelta(days=5), question)
    assert told.headline.startswith(f"{verdict}: ")


def test_a_cost_without_a_distance_says_when_that_comes() -> None:
    one, two = Page(), Page()
    for page in (one, two):
        page.fill(0, 48000, 30, cost=usd(120), full=True)
    two.fill(6, 48300, 25, cost=usd(100), full=True)
    asked, now = Question(topic="cost"), START + timedelta(days=1)
    waits = "What the distance cost comes with the next full tank and its odometer."
    assert waits in spans.cost_answer(one.log, BOISE, now, asked).notes
    told = spans.cost_answer(two.log, BOISE, now, asked)
    assert row(told, "A mile") == "$0.33/mi"
    assert waits not in told.notes


def test_what_a_tow_cost_is_told_of_the_trip_and_without_one_of_a_span() -> None:
    page = Page()
    page.fill(0, 47700, 30, cost=usd(120), full=True)
    page.reads(2, 47700, "arrive", "home")
    page.hitches(24, "flatdeck")
    page.reads(24, 47700, "depart", "home")
    page.fill(30, 48000, 30, cost=usd(120), full=True)
    page.fill(36, 48300, 30, cost=usd(150), full=True)
    page.reads(36, 48300, "arrive", "home")
    asked, now = Question(topic="cost", form=OF_TRIP), START + timedelta(days=3)
    told = trips.trip_cost_answer(page.log, BOISE, now, asked)
    assert told.headline == "About $270 on fuel for the trip."
    assert row(told, "Cost") == "about $270 $0.45/mi"
    assert any("600 mi towing the flatdeck" in note for note in told.notes)
    alone = Page()
    alone.fill(0, 48000, 30, cost=usd(120))
    assert trips.trip_cost_answer(alone.log, BOISE, now, asked) == spans.cost_answer(
        alone.log, BOISE, now, asked
    )


@pytest.mark.parametrize(
    ("full", "remark"),
    [((), "reckoned, no full tank yet"), ((48000, 48300), "reckoned, for the most part")],
)
def test_fuel_that_is_reckoned_is_told_without_tenths_and_how_far_it_is_known(
    full: tuple[int, ...], remark: str
) -> None:
    page = Page()
    page.hitches(0, "flatdeck")
    page.reads(1, 48000, "depart", "home")
    for shown in full:
        page.fill(shown / 100 - 478, shown, 30, full=True)
    page.reads(12, 49000, "arrive", "home")
    told = trips.trip_answer(page.log, BOISE, START + timedelta(days=1), Question(topic="trip"))
    fuel = row(told, "Fuel")
    assert fuel.endswith(remark)
    assert "." not in fuel


def test_an_overload_that_still_stands_leads_the_week() -> None:
    page = Page()
    page.add(0, Rating(subject="truck", rating="gawr_rear", value=Quantity(7000, "lb")))
    page.hitches(1, "flatdeck")
    page.reads(1, 48000, "depart")
    loads = {"steer": Quantity(5200, "lb"), "drive": Quantity(7400, "lb")}
    page.add(2, Weighing(loads={**loads, "trailer": Quantity(9800, "lb")}))
    page.reads(5, 48200, "arrive", "home")
    now = START + timedelta(days=1)
    for answer in (spans.week_answer, trips.trip_answer):
        told = answer(page.log, BOISE, now, Question(topic="week"))
        assert told.headline.startswith("Over when weighed Sat 4 Jul: drive axle by 400 lb.")
        assert any("Don't tow it like that." in note for note in told.notes)


def test_one_reading_is_no_distance() -> None:
    page = Page()
    page.reads(0, 48000)
    asked = Question(topic="distance")
    told = spans.distance_answer(page.log, BOISE, START, asked)
    assert told.headline == "One odometer reading so far; the next one tells how far."
    page.reads(2, 48120)
    later = START + timedelta(hours=3)
    assert spans.distance_answer(page.log, BOISE, later, asked).headline.startswith("120 mi ")


def test_every_rating_that_still_is_over_is_named_in_the_week() -> None:
    """By hand: 5,200 and 7,400 are 12,600 lb, 1,100 over 11,500."""
    page = Page()
    page.add(0, Rating(subject="truck", rating="gawr_rear", value=Quantity(7000, "lb")))
    page.add(0, Rating(subject="truck", rating="gvwr", value=Quantity(11500, "lb")))
    page.hitches(1, "flatdeck")
    loads = {"steer": Quantity(5200, "lb"), "drive": Quantity(7400, "lb")}
    page.add(2, Weighing(loads={**loads, "trailer": Quantity(9800, "lb")}))
    told = spans.week_answer(page.log, BOISE, START + timedelta(days=1), Question(topic="week"))
    over = "Over when weighed Sat 4 Jul: truck GVWR by 1,100 lb and drive axle by 400 lb."
    assert told.headline.startswith(over)


def test_an_open_fault_and_overdue_upkeep_are_named_in_the_week() -> None:
    page = Page()
    page.add(0, Rating(subject="oil", rating="every", value=mi(5000)))
    page.reads(0, 48000)
    page.add(0, Check(item="oil change", state="done"))
    page.add(1, Check(item="left marker light", state="fault", trailer="camper"))
    page.reads(20, 53100)
    told = spans.week_answer(
        page.log, BOISE, START + timedelta(days=1), Question(topic="week"), unanswered=2
    )
    assert told.notes == (
        "Not put right yet: left marker light on the camper (since Sat 4 Jul).",
        "Oil overdue by 100 mi.",
        "2 questions of mine still open.",
    )


def checked(page: Page, hours: float, *checks: Check) -> Answer:
    """What is said to checks of one message."""
    keys = len(page.entries)
    page.add(hours, *checks)
    told = [each for each in page.entries if each.key > keys]
    now = START + timedelta(hours=hours)
    return upkeep.checks_answer(page.log, BOISE, now, cast(list[Logged[Check]], told))


def test_upkeep_that_was_done_says_when_it_is_due_again_and_nothing_of_the_walk_round() -> None:
    page = Page()
    page.add(0, Rating(subject="oil", rating="every", value=mi(5000)))
    page.reads(0, 48000)
    page.hitches(1, "flatdeck")
    page.reads(1, 48000, "depart")
    page.add(1, Check(item="safety chains", state="done"))
    answer = checked(page, 2, Check(item="oil change", state="done"))
    assert as_text(answer) == "Done: oil change.\n  Oil  due in 5,000 mi"
    # No reminder is set for it, and it is no point of the walk-round.
    assert as_text(checked(page, 3, Check(item="air filter", state="done"))) == "Done: air filter."
    looked = checked(page, 4, Check(item="lights", state="done"), Check(item="oil", state="done"))
    assert looked.headline == "Done: oil. Checked: lights."
    assert looked.notes[0].startswith("Walk-round: 9 left")


def test_a_fault_that_was_put_right_is_named_as_it_was_told() -> None:
    page = Page()
    page.add(0, Check(item="left rear marker light", state="fault"))
    page.add(0, Check(item="right front tire", state="fault", trailer="camper"))
    answer = checked(page, 1, Check(item="marker light", state="done"))
    assert answer.headline == "Put right: left rear marker light."
    assert answer.notes == ("Not put right yet: right front tire on the camper (since Sat 4 Jul).",)
    again = checked(page, 2, Check(item="marker light", state="done"))
    assert again.headline == "Checked: marker light."


def test_who_puts_a_fault_right_is_not_yet_walking_round() -> None:
    page = Page()
    page.add(0, Check(item="brake lights", state="fault"))
    mended = checked(page, 1, Check(item="brake lights", state="done"))
    assert mended.headline == "Put right: brake lights."
    assert not any(note.startswith("Walk-round") for note in mended.notes)
    page.add(2, Check(item="coupler", state="done"))
    page.add(3, Check(item="brake lights", state="fault"))
    walking = checked(page, 4, Check(item="brake lights", state="done"))
    assert any(note.startswith("Walk-round") for note in walking.notes)


def test_upkeep_done_before_it_was_logged_is_told_by_its_reading() -> None:
    page = Page()
    page.reads(0, 50300)
    every = Rating(subject="oil", rating="every", value=mi(5000))
    then = Rating(subject="oil", rating="done_at", value=mi(46000))
    page.add(1, every, then)
    answer = upkeep.standing_answer(page.log, [every, then])
    assert answer is not None
    assert answer.headline == "Reminder set: oil every 5,000 mi. Oil last done at 46,000 mi."
    asked = upkeep.upkeep_answer(
        page.log, BOISE, START + timedelta(days=1), Question(topic="upkeep")
    )
    assert asked.headline == "Nothing overdue; next is oil, due in 700 mi."


def test_upkeep_that_is_due_once_is_told_by_what_is_left() -> None:
    page = Page()
    page.reads(0, 48000)
    once = Rating(subject="bearings", rating="due_in", value=mi(9000), trailer=None)
    page.add(1, once)
    kept = upkeep.standing_answer(page.log, [once])
    assert kept is not None
    assert kept.headline == "Reminder set: bearings in 9,000 mi."
    assert kept.notes == ("Text it when it is done: bearings done.",)
    page.reads(20, 49500)
    now = START + timedelta(days=1)
    asked = upkeep.upkeep_answer(page.log, BOISE, now, Question(topic="upkeep"))
    assert asked.headline == "Nothing overdue; next is bearings, due in 7,500 mi."


def test_upkeep_by_the_calendar_is_not_counted_from_a_day_that_nobody_knows() -> None:
    page = Page()
    page.reads(0, 50300)
    page.add(1, Rating(subject="service", rating="every_days", value=365.0))
    page.add(1, Rating(subject="service", rating="done_at", value=mi(46000)))
    now = START + timedelta(days=1)
    asked = upkeep.upkeep_answer(page.log, BOISE, now, Question(topic="upkeep"))
    assert asked.headline == "Service not counted yet."


def test_a_plan_to_a_place_takes_the_distance_of_the_last_trip_there() -> None:
    page = Page()
    page.hitches(0, "camper")
    page.reads(0, 48000, "depart")
    page.reads(5, 48200, "arrive", "Lake Orrin")
    page.reads(26, 48200, "depart")
    page.reads(31, 48400, "arrive", "home")
    now = START + timedelta(days=3)
    question = Question(topic="plan", trailer="camper", until="Lake Orrin")
    told = ahead.plan_answer(page.log, BOISE, now, question)
    assert told.headline.startswith("400 mi towing the camper: about 40 gal")
    assert "As far as the last trip to Lake Orrin was." in told.notes
    asked = ahead.plan_answer(page.log, BOISE, now, Question(topic="plan", until="Pine Hollow"))
    assert asked.headline == "How far is it?"


def test_the_walk_round_offers_what_is_left_and_ends_with_all_ticked() -> None:
    page = Page()
    page.hitches(1, "flatdeck")
    page.reads(1, 48000, "depart")
    page.add(1, Check(item="safety chains", state="done"))
    question = Question(topic="upkeep", item="walkaround")
    now = START + timedelta(hours=2)
    told = upkeep.upkeep_answer(page.log, BOISE, now, question)
    assert told.headline == "Walk-round: 10 of 11 left."
    assert "brake test" in told.choices
    page.add(1.5, Check(item="walkaround", state="done"))
    told = upkeep.upkeep_answer(page.log, BOISE, now, question)
    assert (told.headline, told.choices) == ("Walk-round done, all 11.", ())


@pytest.mark.parametrize(
    ("first", "last", "said"),
    [
        (date(2026, 7, 4), date(2026, 7, 4), "Sat 4 Jul"),
        (date(2026, 7, 4), date(2026, 7, 5), "Sat 4 to Sun 5 Jul"),
        (date(2026, 6, 1), date(2026, 7, 5), "1 Jun to 5 Jul"),
        (date(2025, 6, 1), date(2025, 6, 30), "1 Jun to 30 Jun 2025"),
        (date(2025, 12, 20), date(2026, 1, 5), "20 Dec 2025 to 5 Jan 2026"),
    ],
)
def test_days_are_written_as_short_as_they_can_be(first: date, last: date, said: str) -> None:
    assert dates(first, last, date(2026, 7, 20)) == said


@pytest.mark.parametrize(
    ("minutes", "said"),
    [(368, "6 h 10 min"), (60, "1 h"), (15 * 60 + 20, "15 h"), (2880, "2 days")],
)
def test_time_on_the_road_is_written_no_finer_than_it_matters(minutes: int, said: str) -> None:
    assert elapsed(START, START + timedelta(minutes=minutes)) == said


def test_figures_carry_thousands_separators() -> None:
    life = live(1, Habits(days=300))
    told = spans.distance_answer(life.log, BOISE, life.now, Question(topic="distance"))
    assert re.match(r"\d{1,3}(,\d{3})+ mi", told.headline)


def test_two_intervals_of_one_upkeep_are_one_reminder() -> None:
    told = [
        Rating(subject="oil", rating="every", value=mi(5000)),
        Rating(subject="oil", rating="every_days", value=365),
    ]
    answer = upkeep.standing_answer(Log(()), told)
    assert answer is not None
    assert answer.headline == (
        "Reminder set: oil every 5,000 mi or 12 months, whichever comes first."
    )
    assert answer.notes == ("Text it when it is done: oil done.",)


@pytest.mark.parametrize(
    ("rating", "said"),
    [
        (
            Rating(subject="oil", rating="every", value=mi(5000)),
            "Reminder set: oil every 5,000 mi.",
        ),
        (
            Rating(subject="bearings", rating="every_days", value=365, trailer="camper"),
            "Reminder set: bearings on the camper every 12 months.",
        ),
        (
            Rating(subject="odometer", rating="factor", value=0.982),
            "Odometer taken to read 1.8% high.",
        ),
        (
            Rating(subject="odometer", rating="replaced", value=mi(12)),
            "New odometer, going on from 12 mi.",
        ),
        (
            Rating(subject="walk-round", rating="hive straps", value=1.0),
            "Hive straps added to the walk-round: 12 points.",
        ),
        (
            Rating(subject="walk-round", rating="mirrors", value=0.0),
            "Mirrors taken off the walk-round: 10 points.",
        ),
    ],
)
def test_what_was_set_to_last_is_said_in_a_sentence(rating: Rating, said: str) -> None:
    page = Page()
    page.add(0, rating)
    told = upkeep.standing_answer(page.log, [rating])
    assert told is not None
    assert told.headline == said


def test_a_makers_rating_is_answered_as_one() -> None:
    rating = Rating(subject="truck", rating="gvwr", value=Quantity(11500, "lb"))
    assert upkeep.standing_answer(Log(), [rating]) is None
