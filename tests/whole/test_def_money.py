"""What exhaust fluid cost is told apart from what the fuel cost."""

from __future__ import annotations

from bot.answers import spans
from domain.entries import Fill
from domain.log import Preferences
from domain.verdicts import Question
from tests.domain.driving_log import START, Page, gal, usd

BOISE = Preferences(units="us", time_zone="America/Boise")
ASKED = Question(topic="cost", product="def")


def a_fill_of_each() -> Page:
    page = Page()
    page.fill(0, 48000, 20, cost=usd(80))
    page.add(1, Fill(product="def", volume=gal(2.5), cost=usd(11.99)))
    return page


def test_what_the_fluid_cost_is_told_without_the_fuel() -> None:
    told = spans.cost_answer(a_fill_of_each().log, BOISE, START, ASKED)
    assert told.headline == "$11.99 on DEF in the last 12 months."
    assert told.rows[0].figure == "2.5 gal"
    fuel = spans.cost_answer(a_fill_of_each().log, BOISE, START, Question(topic="cost"))
    assert fuel.headline.startswith("$80.00 on fuel ")


def test_a_fluid_without_a_price_or_none_at_all_is_said_to_be() -> None:
    page = Page()
    page.fill(0, 48000, 20, cost=usd(80))
    told = spans.cost_answer(page.log, BOISE, START, ASKED)
    assert told.headline == "No DEF bought in the last 12 months."
    page.add(1, Fill(product="def", volume=gal(2.5)))
    told = spans.cost_answer(page.log, BOISE, START, ASKED)
    assert told.headline == "No prices told on DEF in the last 12 months."
    page.add(2, Fill(product="def", volume=gal(1), cost=usd(5)))
    told = spans.cost_answer(page.log, BOISE, START, ASKED)
    assert told.headline.startswith("$5.00 on DEF ")
    assert told.notes == ("1 fill without a price left out of the money.",)


def test_the_week_has_the_fluids_money_beside_it() -> None:
    told = spans.week_answer(a_fill_of_each().log, BOISE, START, Question(topic="week"))
    assert next(row for row in told.rows if row.label == "DEF").remark == "$11.99"
    assert "$80.00 on fuel" in told.headline
