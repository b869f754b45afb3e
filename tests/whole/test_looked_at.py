"""What is told of whether something was looked at or done, as far as the log has it."""

from __future__ import annotations

from datetime import timedelta

from bot.answers import looked_at, upkeep
from bot.answers.answer import Answer
from domain.entries import Check, Rating
from domain.log import Log, Preferences
from domain.quantities import Quantity
from domain.verdicts import DONE, Question
from tests.domain.driving_log import START, Page

BOISE = Preferences(time_zone="America/Boise")


def told(page: Page, hours: float, item: str | None, trailer: str | None = None) -> Answer:
    asked = Question(topic="upkeep", form=DONE, item=item, trailer=trailer)
    return looked_at.done_answer(page.log, BOISE, START + timedelta(hours=hours), asked)


def test_a_check_is_told_by_its_time_and_the_way_since() -> None:
    page = Page()
    page.reads(0, 48000)
    page.add(0, Check(item="safety chains", state="done"))
    page.reads(5, 48240)
    answer = told(page, 6, "chains")
    assert answer.headline == (
        "Safety chains: last logged as done Sat 4 Jul 7:00 am, by Ana. 240 mi since."
    )


def test_a_whole_walk_round_looked_at_every_point() -> None:
    page = Page()
    page.add(0, Check(item="walk around", state="done"))
    assert told(page, 1, "coupler").headline.startswith("Walk around: last logged as done")
    assert told(page, 1, "bearings").headline == "Bearings: never logged as done."


def test_a_point_not_looked_at_on_this_trip_is_to_be_looked_at_again() -> None:
    page = Page()
    page.add(0, Check(item="jack", state="done"))
    assert told(page, 1, "jack").notes == ()
    (note,) = told(page, 60, "jack").notes
    assert note == "Not ticked on this walk-round: look again before you pull away."


def test_what_is_broken_is_told_and_never_that_it_is_well() -> None:
    page = Page()
    page.add(0, Check(item="jack", state="done"))
    page.add(1, Check(item="jack", state="fault"))
    assert told(page, 2, "jack").notes == ("Not put right yet: jack (since Sat 4 Jul).",)
    never = told(page, 2, "mirrors")
    assert never.headline == "Mirrors: never logged as done."
    assert never.notes == ("Text it when it is done: mirrors done.",)


def test_of_two_trailers_the_one_asked_about_counts() -> None:
    page = Page()
    page.add(0, Check(item="bearings", state="done", trailer="camper"))
    assert told(page, 1, "bearings", "flatdeck").headline == "Bearings: never logged as done."
    assert told(page, 1, "bearings", "camper").headline.startswith("Bearings on the camper: last")


def test_without_a_part_the_walk_round_is_told() -> None:
    assert told(Page(), 0, None).headline == "Walk-round: 11 of 11 left."
    assert told(Page(), 0, "walk-round").headline == "Walk-round: 11 of 11 left."


def test_a_reminder_that_is_set_is_told_beside_it() -> None:
    page = Page()
    page.reads(0, 48000)
    page.add(0, Rating(subject="bearings", rating="every", value=Quantity(12_000, "mi")))
    page.add(1, Check(item="bearing repack", state="done"))
    answer = told(page, 2, "bearings")
    assert [row.figure for row in answer.rows] == ["due in 12,000 mi"]
    assert answer.notes == ("Intervals are the ones you set; the maker's manual governs.",)


def test_what_is_asked_when_due_and_has_no_reminder_is_told_by_when_it_was_done() -> None:
    page = Page()
    page.reads(0, 48000)
    page.add(0, Check(item="oil change", state="done"))
    asked = Question(topic="upkeep", item="oil changed")
    answer = upkeep.upkeep_answer(page.log, BOISE, START + timedelta(hours=1), asked)
    assert answer.headline == (
        "Oil change: last logged as done Sat 4 Jul 7:00 am, by Ana. No reminder set for oil."
    )
    nothing = upkeep.upkeep_answer(Log([]), BOISE, START, asked)
    assert nothing.headline == "No reminder set for oil."
