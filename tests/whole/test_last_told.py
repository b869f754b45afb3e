"""What is told of the last readings of a gauge, and of what was loaded."""

from __future__ import annotations

from datetime import timedelta

from bot.answers import last_told
from bot.answers.answer import Answer
from domain.entries import Cargo, Observation
from domain.log import Preferences
from domain.quantities import Quantity
from domain.verdicts import CARGO, GAUGE, Question
from tests.domain.driving_log import START, Page

BOISE = Preferences(time_zone="America/Boise")


def read(subject: str, value: float, unit: str, position: str | None = None) -> Observation:
    return Observation(subject=subject, value=Quantity(value, unit), position=position)


def gauged(page: Page, field: str, position: str | None = None) -> Answer:
    asked = Question(topic="upkeep", form=GAUGE, field=field, position=position)
    return last_told.gauge_answer(page.log, BOISE, START + timedelta(days=1), asked)


def loaded(page: Page, days: float = 1, **said: str) -> Answer:
    asked = Question(topic="weight", form=CARGO, **said)  # type: ignore[arg-type]
    return last_told.cargo_answer(page.log, BOISE, START + timedelta(days=days), asked)


def test_the_last_reading_at_each_place_is_told() -> None:
    page = Page()
    page.add(0, read("tyre", 62, "psi", "rear"))
    page.add(1, read("tyre", 65, "psi", "rear"))
    page.add(1, read("tyre", 55, "psi", "left front"))
    page.add(2, read("hub", 140, "degF", "left rear"))
    rear = gauged(page, "tyre", "rear")
    assert rear.headline == "Rear tyre 65 psi, read Sat 4 Jul 8:00 am."
    assert rear.rows == ()
    assert rear.notes == ("What the pressure should be, cold, is on the door label.",)
    every = gauged(page, "tyre")
    told = [every.headline.partition(",")[0], *(row.label for row in every.rows)]
    assert sorted(told) == ["Left front tyre 55 psi", "Rear tyre 65 psi"]
    assert gauged(page, "hub").headline == "Left rear hub 140 °F, read Sat 4 Jul 9:00 am."
    assert gauged(page, "coolant").headline == "No such reading was texted."


def test_what_was_loaded_is_told_with_its_place_and_what_it_weighs() -> None:
    page = Page()
    page.add(0, Cargo(item="water", value=Quantity(40, "gal")))
    page.add(1, Cargo(item="feed", value=Quantity(300, "lb"), position="bed"))
    answer = loaded(page)
    # 40 US gallons of water weigh 334 lb: 8.345 lb a gallon, as handbooks print it; from memory.
    assert answer.headline == "2 loads as texted, 634 lb together."
    assert [(row.label, row.figure) for row in answer.rows] == [
        ("Water", "40 gal"),
        ("Feed", "300 lb"),
    ]
    assert answer.rows[1].remark == "bed, Sat 4 Jul 8:00 am"
    assert loaded(page, item="water").headline == "1 load as texted, 334 lb."
    assert loaded(page, position="bed").headline == "1 load as texted, 300 lb."
    assert "Only a scale tells" in answer.notes[0]


def test_a_load_of_long_ago_is_not_told_as_aboard() -> None:
    page = Page()
    page.add(0, Cargo(item="hives", value=Quantity(900, "lb")))
    assert loaded(page, days=29).headline == "1 load as texted, 900 lb."
    assert loaded(page, days=31).headline == "Nothing was texted as loaded."


def test_a_load_texted_anew_counts_once() -> None:
    page = Page()
    page.add(0, Cargo(item="water", value=Quantity(40, "gal")))
    page.add(5, Cargo(item="water", value=Quantity(20, "gal")))
    assert loaded(page).headline == "1 load as texted, 167 lb."
