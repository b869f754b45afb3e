"""What a question of a few words is told: the faults, the rule, the last fill, fuel as distance."""

from __future__ import annotations

from datetime import timedelta

from bot.answers import ahead, fuel, spans, tiedowns, trips, upkeep
from bot.answers.answer import Answer
from domain.entries import Check, Hitch
from domain.log import Log, Preferences
from domain.quantities import Quantity
from domain.verdicts import Question
from tests.domain.driving_log import START, Page, gal, usd

BOISE = Preferences(time_zone="America/Boise")
LATER = START + timedelta(days=3)


def text(answer: Answer) -> str:
    rows = [f"{each.label}  {each.figure}  {each.remark}".rstrip() for each in answer.rows]
    return "\n".join([answer.headline, *rows, *answer.notes])


def test_open_faults_are_told_and_those_of_one_trailer() -> None:
    page = Page()
    page.add(0, Check(item="marker light", state="fault", trailer="camper"))
    page.add(1, Check(item="plug", state="fault"))
    page.add(2, Check(item="plug", state="done"))
    told = upkeep.faults_answer(page.log, BOISE, LATER, Question(topic="upkeep"))
    assert told.headline == "1 fault open."
    assert [row.label for row in told.rows] == ["Marker light on the camper"]
    flatdeck = Question(topic="upkeep", trailer="flatdeck")
    assert upkeep.faults_answer(page.log, BOISE, LATER, flatdeck).headline == "No fault open."


def test_the_working_rule_is_told_with_what_governs() -> None:
    told = text(tiedowns.rule_answer(Log([]), BOISE, LATER, Question(topic="tiedown")))
    # 49 CFR 393.106(d): half the weight; 393.110: two up to ten feet, one up to 5 ft and 1,100 lb
    assert "half of the cargo's weight" in told
    assert "at least 2  up to 10 ft" in told
    assert "up to 5 ft and 1,100 lb" in told
    assert "The weakest part counts" in told
    assert "Local law governs" in told


def test_ties_without_a_cargo_are_told_what_they_hold() -> None:
    asked = Question(topic="tiedown", text="how much will four 3/8 g70 chains hold")
    told = text(tiedowns.tiedown_answer(Log([]), BOISE, LATER, asked))
    # 49 CFR 393.108, table 1: 3/8 grade 70 chain 6,600 lb; 393.106(d): half of it each
    assert told.startswith("4 x 3/8 grade 70 chain: good for 26,400 lb of cargo, by strength.")
    assert "Counting for  13,200 lb" in told
    unknown = Question(topic="tiedown", text="what is a 9/16 grade 43 chain good for")
    told = text(tiedowns.tiedown_answer(Log([]), BOISE, LATER, unknown))
    assert told.startswith("No default limit for that size")
    bare = Question(topic="tiedown", text="how many tie downs do i need")
    told = text(tiedowns.tiedown_answer(Log([]), BOISE, LATER, bare))
    assert told.startswith("How heavy is it?")


def test_the_last_fill_is_told_and_the_odometer() -> None:
    page = Page()
    page.fill(0, 48000, 30, cost=usd(120))
    page.fill(6, 48300, 25, cost=usd(100))
    told = fuel.last_fill_answer(page.log, BOISE, LATER, Question(topic="cost"))
    assert told.headline.startswith("$100.00 for 25.0 gal on ")
    told = spans.odometer_answer(page.log, BOISE, LATER, Question(topic="distance"))
    assert told.headline.startswith("48,300 mi on ")
    empty = Log([])
    assert "No fill" in fuel.last_fill_answer(empty, BOISE, LATER, Question(topic="cost")).headline
    asked = Question(topic="distance")
    assert "No odometer" in spans.odometer_answer(empty, BOISE, LATER, asked).headline


def test_so_much_fuel_is_told_as_a_distance() -> None:
    page = Page()
    page.fill(0, 48000, 30, full=True)
    page.fill(6, 48300, 30, full=True)
    page.fill(12, 48600, 30, full=True)
    asked = Question(topic="range", value=gal(10))
    told = ahead.range_answer(page.log, BOISE, START + timedelta(hours=13), asked)
    # 300 miles on 30 gallons is 10 miles a gallon, so ten gallons are 100 miles
    assert told.headline.startswith("About 100 mi")
    assert told.headline.endswith("on 10.0 gal.")
    half = Question(topic="range", value=Quantity(50, "%"))
    lacks = ahead.range_answer(page.log, BOISE, START + timedelta(hours=13), half)
    assert lacks.headline == "I need the tank's size for that."


def test_a_trip_without_an_odometer_is_told_by_what_was_bought_on_it() -> None:
    page = Page()
    page.add(0, Hitch(action="hitched", trailer="camper"))
    page.fill(2, None, 20, cost=usd(80))
    page.add(5, Hitch(action="unhitched", trailer="camper"))
    asked = Question(topic="cost", form="trip")
    told = trips.trip_cost_answer(page.log, BOISE, LATER, asked)
    assert told.headline == "$80.00 of fuel bought on the trip."
    bare = Page()
    bare.add(0, Hitch(action="hitched", trailer="camper"))
    bare.add(5, Hitch(action="unhitched", trailer="camper"))
    told = trips.trip_cost_answer(bare.log, BOISE, LATER, asked)
    assert told.headline == "No prices told for the fuel of the trip."
