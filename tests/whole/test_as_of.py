"""As of when an answer from a weighing is, and that the rig is over elsewhere than was asked."""

from __future__ import annotations

from datetime import timedelta

import pytest

from bot.answers.answer import Answer
from bot.answers.dispatch import question_answer
from bot.answers.plain import as_text
from domain.log import Preferences
from domain.quantities import Quantity
from domain.verdicts import Question
from tests.domain.scale_house import START, Ticket, flatdeck, juniper, truck_ratings

US = Preferences(units="us", time_zone="America/Boise")
LATER = "Loaded since, and not counted: pallets 400 lb."
ASKED = {
    "payload": Question(topic="margin", rating="payload"),
    "drive axle": Question(topic="margin", field="drive"),
    "tyres": Question(topic="margin", text="are the tyres ok"),
    "tongue": Question(topic="tongue"),
    "what if": Question(
        topic="whatif", text="what if we take 100 lb out of the bed", value=Quantity(100, "lb")
    ),
    "what changed": Question(topic="weight", form="change"),
}


def at_the_scale() -> Ticket:
    ticket = Ticket(*juniper(), *flatdeck()).weighs("solo", steer=5060, drive=3580).hitched()
    ticket.weighs(steer=4900, drive=5600, trailer=8300)
    return ticket.weighs(steer=4900, drive=5500, trailer=8400)


def asked(ticket: Ticket, what: str, **later: float) -> Answer:
    now = START + timedelta(**(later or {"hours": 2}))
    return question_answer(ticket.log, US, now, ASKED[what])


@pytest.mark.parametrize("what", ASKED)
def test_what_was_loaded_since_the_weighing_is_said_to_be_in_no_figure(what: str) -> None:
    assert LATER not in asked(at_the_scale(), what).notes
    assert LATER in asked(at_the_scale().loads("pallets", 400, "bed"), what).notes


@pytest.mark.parametrize("what", ASKED)
def test_figures_of_another_day_say_of_which(what: str) -> None:
    assert "Weighed" not in as_text(asked(at_the_scale(), what))
    assert "Weighed Sat 11 Jul" in as_text(asked(at_the_scale(), what, days=3))


def test_a_load_that_the_question_names_is_not_told_as_left_out() -> None:
    ticket = at_the_scale().loads("pallets", 400, "bed")
    question = Question(topic="whatif", text="what if we take the pallets off", item="pallets")
    told = question_answer(ticket.log, US, START + timedelta(hours=2), question)
    assert "pallets" in told.headline.casefold()
    assert LATER not in told.notes


@pytest.mark.parametrize(
    ("question", "lead"),
    [
        (Question(topic="weight", field="steer"), "Steer 4,900 lb."),
        (Question(topic="tongue"), "Tongue 1,760 lb"),
        (Question(topic="margin", field="steer"), "Steer axle: "),
    ],
)
def test_a_part_that_is_well_does_not_hide_what_is_over(question: Question, lead: str) -> None:
    """By hand: 4,900 and 5,500 are 10,400 lb, 400 over 10,000; the tongue is 1,760 less 40."""
    ratings = truck_ratings(gvwr=10000, gawr_front=5600)
    ticket = Ticket(*ratings).weighs("solo", steer=5060, drive=3580).hitched()
    ticket.weighs(steer=4900, drive=5500, trailer=8400)
    told = question_answer(ticket.log, US, START + timedelta(hours=1), question)
    assert told.headline.startswith(lead)
    assert told.headline.endswith("But over on truck GVWR. Don't tow it like this.")
    assert told.notes[-1].startswith("Door label")


def test_a_truck_by_itself_is_not_to_be_driven_like_that() -> None:
    ticket = Ticket(*truck_ratings(gvwr=8000)).weighs("solo", steer=5060, drive=3580)
    question = Question(topic="weight", field="steer")
    told = question_answer(ticket.log, US, START + timedelta(hours=1), question)
    assert told.headline.endswith("Don't drive it like this.")


def test_a_payload_that_nobody_gave_goes_with_the_gvwr() -> None:
    """By hand: 11,500 less 10,400 lb."""
    ratings = truck_ratings(gvwr=11500, gawr_front=5600, gawr_rear=7000)
    ticket = Ticket(*ratings).hitched().weighs(steer=4900, drive=5500, trailer=8400)
    told = question_answer(ticket.log, US, START + timedelta(hours=1), ASKED["payload"])
    assert told.headline == "Truck GVWR: 1,100 lb left of 11,500 lb."
    assert "Not given: payload." in told.notes
