"""Pictures as values: kept and brought back, told in words, and attached where they help."""

from __future__ import annotations

import json
import re
from dataclasses import replace
from datetime import date, datetime, timedelta
from itertools import pairwise
from zoneinfo import ZoneInfo

import pytest

from bot.answers.alt_text import alt_text
from bot.answers.answer import Answer, joined
from bot.answers.dispatch import TOPICS, question_answer
from bot.answers.language import language_of, speaking
from bot.answers.limits import left_text, mass_text
from bot.answers.pictures import (
    EconomyPicture,
    MarginsPicture,
    RigPicture,
    WeekPicture,
    picture_from_record,
    picture_to_record,
)
from bot.answers.scale_pictures import MOST_BARS
from bot.answers.spans import week_answer
from bot.answers.weights import weighing_answer
from bot.answers.which_weighing import last_weighed
from bot.store.outbox import answer_from_record, answer_to_record
from domain.entries import Entry, Fill, Hitch, Weighing
from domain.log import Log, Logged
from domain.margins import Unknown
from domain.quantities import Quantity
from domain.verdicts import PICTURE, Question
from tests.domain.day_at_the_scale import three_passes_two_fills
from tests.domain.scale_house import START, Ticket, flatdeck, juniper
from tests.pictures.examples import US, examples, extreme_week, near_and_over, unrated, week

EXAMPLES = examples()
ZONE = ZoneInfo("America/Boise")


@pytest.mark.parametrize("name", EXAMPLES)
def test_a_picture_goes_through_plain_data_and_back(name: str) -> None:
    picture = EXAMPLES[name]
    assert picture_from_record(json.loads(json.dumps(picture_to_record(picture)))) == picture
    assert hash(picture) == hash(replace(picture))


def test_an_answer_waits_with_its_picture() -> None:
    for picture in (None, *EXAMPLES.values()):
        answer = Answer(headline="Over.", urgent=True, picture=picture)
        assert answer_from_record(json.loads(json.dumps(answer_to_record(answer)))) == answer


def test_an_answer_that_was_queued_before_there_were_pictures_has_none() -> None:
    record = answer_to_record(Answer(headline="Kept."))
    del record["picture"]
    assert answer_from_record(record) == Answer(headline="Kept.")


def test_of_answers_that_are_joined_the_first_picture_is_kept() -> None:
    plain, shown = Answer(headline="A."), Answer(headline="B.", picture=week())
    assert joined([plain, shown]).picture == week()
    assert joined([plain]).picture is None


@pytest.mark.parametrize("ticket", [three_passes_two_fills(), near_and_over(), unrated()])
def test_the_alternative_text_tells_the_verdict_and_every_figure(ticket: Ticket) -> None:
    told = last_weighed(ticket.log, US, None)
    assert told is not None
    for wish in ("weight", "margin"):
        answer = shown(ticket.log, wish)
        picture = answer.picture
        if picture is None:
            assert wish == "margin"
            continue
        assert isinstance(picture, RigPicture | MarginsPicture)
        assert picture.alt == alt_text(picture)
        assert answer.headline.rstrip(".") in picture.alt
        assert picture.caution in picture.alt
    rig = shown(ticket.log, "weight").picture
    assert rig is not None
    for name in ("steer", "drive", "trailer", "gross"):
        assert mass_text(told.weights.loads[name], "lb") in rig.alt
    judged = [each for each in told.governing if not isinstance(each, Unknown)]
    margins = shown(ticket.log, "margin").picture
    for margin in judged[:MOST_BARS]:
        assert margins is not None
        assert left_text(margin, "lb") in margins.alt
    if judged:
        assert left_text(judged[0], "lb") in rig.alt


def test_the_alternative_text_of_a_week_tells_all_of_it() -> None:
    said = alt_text(week())
    for figure in ("572 mi", "Towed 412 mi", "71.8 gal", "$278.84", "11.2 ± 0.4 mpg", "17,740 lb"):
        assert figure in said
    assert "60 lb left" in said
    assert "bearings overdue" in said
    assert "Wren 15, Ada 6" in said
    assert ".." not in alt_text(extreme_week())


def shown(log: Log, wish: str, now: datetime = START) -> Answer:
    return question_answer(log, US, now, Question(topic=wish, form=PICTURE))


def test_a_weighing_is_shown_once_every_load_of_it_is_known() -> None:
    ticket = three_passes_two_fills()
    pictures = [
        weighing_answer(ticket.log.until(each.at), US, START, each).picture
        for each in ticket.log.of(Weighing)
    ]
    assert [picture is not None for picture in pictures] == [False, False, True]


def test_a_weighing_without_any_rating_is_not_shown_unasked() -> None:
    ticket = unrated()
    last = ticket.log.of(Weighing)[-1]
    assert weighing_answer(ticket.log, US, START, last).picture is None
    assert isinstance(shown(ticket.log, "weight").picture, RigPicture)


def test_a_tongue_share_that_asks_for_words_gets_no_picture_of_them() -> None:
    ticket = three_passes_two_fills()
    for topic in TOPICS:
        answer = question_answer(ticket.log, US, START, Question(topic=topic))
        assert answer.picture is None or topic == "week", topic


def test_the_lowest_limit_of_a_load_is_the_one_that_is_shown() -> None:
    picture = shown(three_passes_two_fills().log, "weight").picture
    assert isinstance(picture, RigPicture)
    assert picture.drive is not None
    # 6,393 lb of two tyres of load index 121, below the axle's 7,000 lb.
    assert picture.drive.against == "of 6,393 lb tyres"
    assert picture.drive.left == "1,913 lb left"
    assert picture.drive.used == pytest.approx(4480 / 6393, abs=1e-3)
    assert picture.steer is not None
    assert picture.steer.against == "of 5,600 lb GAWR"
    assert [bar.name for bar in picture.sums] == ["Truck", "Trailer", "Gross"]
    assert (picture.axles, picture.pin) == (2, False)


def test_margins_come_the_tightest_first_with_their_doubt_and_what_is_missing() -> None:
    picture = shown(near_and_over().log, "margin").picture
    assert isinstance(picture, MarginsPicture)
    assert [bar.state for bar in picture.bars][:2] == ["over", "near"]
    assert all(one.used >= other.used for one, other in pairwise(picture.bars))
    assert all(bar.doubt > 0 for bar in picture.bars)
    assert any(note.startswith("Not given: hitch rating") for note in picture.notes)


def driven_weeks(weeks: int) -> Log:
    """A fill of 30 gal a week: 330 miles of towing, then 480 alone; two people text in turn."""
    entries: list[Logged[Entry]] = []
    odometer, at = 40000.0, datetime(2026, 5, 4, 18, tzinfo=ZONE)
    for number in range(weeks):
        towed = number % 2 == 0
        fill = Fill(
            volume=Quantity(30, "gal"), odometer=Quantity(odometer, "mi"), cost=Quantity(120, "USD")
        )
        hitch = Hitch(action="hitched" if towed else "unhitched", trailer="flatdeck")
        by = "Wren" if towed else "Ada"
        entries.append(Logged(entry=fill, at=at, by=by, key=2 * number + 1))
        entries.append(Logged(entry=hitch, at=at + timedelta(minutes=5), by=by, key=2 * number + 2))
        odometer += 330 if towed else 480
        at += timedelta(days=7)
    return Log(entries)


def test_economy_over_time_has_each_tank_in_its_series_at_its_day() -> None:
    log = driven_weeks(14)
    now = log.of(Fill)[-1].at
    picture = shown(log, "economy", now).picture
    assert isinstance(picture, EconomyPicture)
    by_name = {each.name: each for each in picture.series}
    assert set(by_name) == {"Flatdeck", "Solo"}
    for name, miles, count in (("Flatdeck", 330, 7), ("Solo", 480, 6)):
        points = by_name[name].points
        assert len(points) == count
        # Miles over gallons by hand.
        assert all(point.value == pytest.approx(miles / 30, rel=0.02) for point in points)
        assert all(point.low < point.value < point.high for point in points)
        assert by_name[name].low < miles / 30 < by_name[name].high
    places = sorted(point.at for each in picture.series for point in each.points)
    assert places == pytest.approx([week / 12 for week in range(13)])
    assert [tick.label for tick in picture.ticks] == ["Jun", "Jul", "Aug"]
    assert picture.headline == "Last tank 11.0 ± 0.3 mpg towing the flatdeck."
    assert "11.0" in picture.alt


def test_a_picture_speaks_the_language_of_its_logbook() -> None:
    spanish = replace(US, language="es", currency="MXN")
    ticket = three_passes_two_fills()
    log = driven_weeks(14)
    now = log.of(Fill)[-1].at
    words = set()
    for told, wish in ((ticket.log, "weight"), (ticket.log, "margin"), (log, "week")):
        question = Question(topic=wish, form=PICTURE)
        with speaking(language_of(spanish)):
            picture = question_answer(told, spanish, now, question).picture
        assert picture is not None
        words |= set(re.findall(r"[a-zñáéíóú]+", picture.alt.casefold()))
    english = {"of", "left", "over", "steer", "drive", "weighed", "fill", "fills", "the", "and"}
    assert not words & english
    assert {"de", "eje"} <= words


def test_economy_asked_for_over_time_is_shown_and_otherwise_told() -> None:
    log = driven_weeks(14)
    now = log.of(Fill)[-1].at
    spring = Question(topic="economy", since=date(2026, 5, 1))
    assert question_answer(log, US, now, spring).picture is not None
    assert question_answer(log, US, now, Question(topic="economy")).picture is None
    assert shown(driven_weeks(3), "economy", now).picture is None


def test_the_week_is_set_against_the_usual_and_says_who_logged_what() -> None:
    log = driven_weeks(14)
    last = log.of(Fill)[-1]
    answer = week_answer(log, US, last.at, Question(topic="week"))
    picture = answer.picture
    assert isinstance(picture, WeekPicture)
    sections = {each.title: each for each in picture.sections}
    assert picture.total == "330 mi"
    assert [(part.name, part.share) for part in picture.parts] == [("Towed", 1.0)]
    assert sections["Fuel"].facts[0].figure == "30.0 gal"
    assert sections["Fuel"].facts[0].remark == "$120.00, 1 fill"
    (economy,) = sections["Economy"].facts
    assert economy.name == "Flatdeck"
    assert economy.remark.startswith("as usual, 11.0")
    assert sections["Logged by"].lines == ("Ada 2",)


def test_a_week_at_the_scale_has_its_heaviest_weighing_and_its_tightest_margin() -> None:
    ticket = Ticket(*juniper(), *flatdeck()).hitched()
    ticket.weighs(steer=5100, drive=4480, trailer=8020)
    picture = shown(ticket.log, "week", ticket.log.of(Weighing)[-1].at).picture
    assert isinstance(picture, WeekPicture)
    scale = next(each for each in picture.sections if each.title == "At the scale")
    assert [fact.figure for fact in scale.facts] == ["17,600 lb"]
    assert scale.bar is not None
    assert scale.bar.left == "500 lb left"
