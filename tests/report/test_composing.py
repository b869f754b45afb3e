"""What a report tells, held against the demo's texts and the chat's own answers."""

from __future__ import annotations

import json
import re
from datetime import UTC, date, datetime

import pytest

from bot.report.composing import Asked, NothingToReport, days_of_year
from bot.report.value import report_from_record, report_to_record
from domain.entries import Rating
from domain.log import Log, Logged, Preferences
from domain.quantities import Quantity
from tests.report.conftest import NOW, Book, column, table

JUNE = Asked(first=date(2026, 6, 1), last=date(2026, 6, 30))


def number(text: str) -> float:
    """The first figure of a text."""
    found = re.search(r"\d[\d,]*(?:\.\d+)?", text)
    assert found is not None, text
    return float(found[0].replace(",", ""))


def test_a_report_of_a_month_says_what_the_chat_says_of_it(season: Book) -> None:
    answer = next(each for each in season.heard if "1 Jun to 30 Jun" in each.headline)
    glance = season.report(JUNE).sections[0]
    assert glance.paragraphs[0] == answer.headline
    rows = dict(zip(column(glance.tables[0], "What"), column(glance.tables[0], "Figure"),
                    strict=True))  # fmt: skip
    assert rows == {row.label: row.figure for row in answer.rows}


def test_fills_one_by_one_add_up_to_what_the_month_cost(season: Book) -> None:
    fills = table(season.report(JUNE), "Fuel and cost")
    assert fills.caption == "Fill by fill"
    spent = sum(number(cell) for cell in column(fills, "Cost"))
    # The total is of prices times volumes, each fill's own row rounded to the cent.
    assert spent == pytest.approx(number(fills.total[-1]), abs=0.005 * len(fills.rows))
    assert fills.total[-1] in season.report(JUNE).sections[0].paragraphs[0]


def test_months_add_up_to_the_year(season: Book) -> None:
    months = table(season.report(), "Fuel and cost", "By month")
    for heading in ("Distance", "Fuel", "Fills", "Spent"):
        place = [each.heading for each in months.columns].index(heading)
        added = sum(number(cell) for cell in column(months, heading))
        assert added == pytest.approx(number(months.total[place]), abs=3), heading


def test_the_year_has_every_trip_and_each_as_its_own_answer_has_it(season: Book) -> None:
    trips = table(season.report(), "Trips")
    assert len(trips.rows) == number(
        next(
            row[1]
            for row in table(season.report(), "At a glance").rows
            if row[0] == "Trips"
        )
    )  # fmt: skip
    (answer,) = (each for each in season.heard if each.headline.startswith("Clover fields trip,"))
    figures = {row.label: row.figure for row in answer.rows}
    last = dict(zip([each.heading for each in trips.columns], trips.rows[-1], strict=True))
    assert last["To"] == "clover fields"
    assert f"{last['Distance']} towing the {last['Trailer']}" in answer.headline
    assert (last["Fuel"], last["Economy"], last["Cost"]) == (
        figures["Fuel"], figures["Economy"], figures["Cost"],
    )  # fmt: skip


def test_a_weighing_is_told_with_its_place_its_loads_and_its_verdict(weekend: Book) -> None:
    """By hand from the ticket: 4,500 + 6,720 + 10,120 = 21,340; 11,220 - 9,660 = 1,560."""
    weighings = table(weekend.report(), "At the scale", "Weighings, in lb")
    told = dict(zip([each.heading for each in weighings.columns], weighings.rows[0], strict=True))
    assert told == {
        "Date": "30 May 2026",
        "Place": "Saltlick",
        "Trailer": "flatdeck",
        "Steer": "4,500",
        "Drive": "6,720",
        "Trailer axles": "10,120",
        "Gross": "21,340",
        "Tongue or pin": "1,560 (13.4 %)",
        "Verdict": "Close: truck GVWR, 280 lb left.",
    }


def test_every_rating_given_stands_with_where_it_is_written(weekend: Book) -> None:
    ratings = table(weekend.report(), "The rig and its ratings", "Juniper")
    told = {row[0]: (row[1], row[-1]) for row in ratings.rows}
    assert told["Truck GVWR"] == ("11,500 lb", "Door label")
    assert told["Hitch's tongue rating"] == ("2,000 lb", "Receiver's label")
    assert told["GCWR"] == ("27,000 lb", "Owner's manual or towing guide")


def test_ratings_that_were_never_given_are_named(weekend: Book) -> None:
    (rig,) = (each for each in weekend.report().sections if each.title.startswith("The rig"))
    assert "Juniper: Not given: truck's tow rating and truck tyres." in rig.paragraphs
    assert "flatdeck: Not given: trailer tyres." in rig.paragraphs


def test_no_report_is_without_the_caution_nor_calls_a_rig_safe(weekend: Book, season: Book) -> None:
    for of in (weekend.report(Asked(trip=True)), season.report()):
        words = json.dumps(report_to_record(of))
        assert of.caution == "Door label, manual, local law and a licensed mechanic govern."
        assert "'Inside every rating given' is no promise" in words
        assert not re.search(r"\bsafe\b", words)


def test_a_report_of_the_trip_has_what_was_weighed_on_its_days_and_no_other_trip(
    weekend: Book,
) -> None:
    of = weekend.report(Asked(trip=True))
    assert (of.title, of.span) == ("Orchard trip", "30 May 2026 to 31 May 2026")
    assert len(table(of, "Trips").rows) == 1
    assert len(table(of, "At the scale").rows) == 1
    (scale,) = (each for each in of.sections if each.title == "At the scale")
    assert [picture.alt.partition(",")[0] for picture in scale.pictures] == [
        "At the scale", "Margins",
    ]  # fmt: skip


def test_upkeep_is_told_with_its_reading_and_a_fault_until_it_is_put_right(season: Book) -> None:
    of = season.report()
    (done,) = table(of, "Upkeep", "Done").rows
    assert done == ("17 Sep 2026", "Oil change", "55,779 mi", "Wren")
    (due,) = table(of, "Upkeep", "Due").rows
    assert due == ("Oil", "due in 5,000 mi", "17 Sep 2026")
    (fault,) = table(of, "Faults").rows
    assert fault[1:] == ("Left marker light on the flatdeck", "Wren", "not put right yet")
    assert column(table(of, "Notes"), "Note") == ["the spring hanger was welded"]


def test_points_of_the_walk_round_are_no_upkeep(season: Book) -> None:
    of = season.report(Asked(first=date(2026, 4, 1), last=date(2026, 4, 30)))
    assert "Upkeep" not in [each.title for each in of.sections]


def test_a_report_of_earlier_days_tells_what_stood_then(season: Book) -> None:
    titles = [each.title for each in season.report(JUNE).sections]
    assert "Faults" not in titles
    assert "Notes" not in titles


def test_who_logged_it_adds_up_to_every_entry_of_the_days(season: Book) -> None:
    whole = season.report(Asked(first=date(2026, 1, 1)))
    people = table(whole, "Who logged it")
    assert sum(number(cell) for cell in column(people, "Entries")) == len(season.log)


def test_a_year_has_its_own_days_alone(season: Book) -> None:
    first, last = days_of_year(2026)
    assert season.report(Asked(first=first, last=last)).span == "1 Jan 2026 to 25 Nov 2026"


def test_days_that_are_given_the_wrong_way_round_are_the_same_days(season: Book) -> None:
    turned = Asked(first=JUNE.last, last=JUNE.first)
    assert season.report(turned) == season.report(JUNE)


def test_days_without_an_entry_are_told_in_a_sentence(season: Book) -> None:
    with pytest.raises(NothingToReport) as told:
        season.report(Asked(first=date(2020, 1, 1), last=date(2020, 12, 31)))
    assert str(told.value) == "1 Jan 2020 to 31 Dec 2020: nothing logged."


def test_a_logbook_without_a_trip_is_told_so() -> None:
    with pytest.raises(NothingToReport, match="No trip in the log yet"):
        Book(Log(), Preferences(), None, ()).report(Asked(trip=True))  # type: ignore[arg-type]


def test_a_truck_that_nobody_named_is_asked_about_in_vain(season: Book) -> None:
    with pytest.raises(NothingToReport, match="No truck called Hawthorn in the log"):
        season.report(Asked(truck="Hawthorn"))


def test_a_report_is_of_one_truck_and_names_the_others(season: Book) -> None:
    other = Logged(
        entry=Rating(subject="truck", truck="Hawthorn", rating="gvwr", value=Quantity(9900, "lb")),
        at=datetime(2026, 9, 18, tzinfo=UTC),
        key=99_999,
    )
    both = Book(Log((*season.log, other)), season.preferences, season.path, ())
    (rig,) = (each for each in both.report().sections if each.title.startswith("The rig"))
    assert "Not in this report: Hawthorn." in rig.paragraphs
    assert both.report(Asked(truck="hawthorn")).title == "Logbook of Hawthorn"


def test_a_report_goes_through_plain_data_and_back(weekend: Book) -> None:
    of = weekend.report(Asked(trip=True))
    assert report_from_record(json.loads(json.dumps(report_to_record(of)))) == of


def test_figures_are_in_the_logbooks_units(weekend: Book) -> None:
    metric = Preferences(units="metric", currency="USD", time_zone="America/Boise")
    of = Book(weekend.log, metric, weekend.path, ()).report(Asked(trip=True), NOW)
    weighings = table(of, "At the scale", "Weighings, in kg")
    # 21,340 lb at 0.45359237 kg to the pound (NIST SP 811, B.8).
    assert column(weighings, "Gross") == [f"{21340 * 0.45359237:,.0f}"]
    assert column(table(of, "Trips"), "Distance")[0].endswith(" km")
