"""Whatever a logbook holds, every question about driving gets an answer and nothing raises."""

from __future__ import annotations

from datetime import timedelta
from typing import get_args

import pytest
from hypothesis import given
from hypothesis import strategies as st

from bot.answers import fuel
from bot.answers.answer import Answer
from domain.context import Units
from domain.entries import Check, Entry, Fill, Hitch, Observation, Odometer, Rating, Weighing
from domain.log import Log, Logged, Preferences
from domain.quantities import Quantity
from domain.verdicts import Question
from tests.domain.driving_log import START
from tests.whole.test_driving_answers import TOPICS, text

AMOUNTS = st.one_of(
    st.sampled_from([0.0, 0.1, 1.0, 20.0, 48000.0, 99999.0, 999999.0]),
    st.floats(min_value=0, max_value=1e6, allow_nan=False).map(lambda value: round(value, 1)),
)
LOADS = st.integers(5, 2000).map(lambda tens: 10.0 * tens)
DISTANCES = st.builds(Quantity, AMOUNTS, st.sampled_from(["mi", "km"]))
ODOMETERS = st.builds(
    Quantity, st.floats(47000, 49000).map(lambda value: round(value, 1)), st.just("mi")
)
VOLUMES = st.builds(Quantity, AMOUNTS, st.sampled_from(["gal", "L", "gal_imp"]))
PRICES = st.builds(Quantity, AMOUNTS, st.sampled_from(["USD/gal", "EUR/L"]))
MONEY = st.builds(Quantity, AMOUNTS, st.sampled_from(["USD", "CAD"]))
TRAILERS = st.sampled_from([None, "flatdeck", "camper"])
PLACES = st.sampled_from([None, "home", "Lake Orrin"])
DATES = st.sampled_from([None, START.date(), (START + timedelta(days=3)).date()])

ENTRIES: st.SearchStrategy[Entry] = st.one_of(
    st.builds(
        Fill,
        at=DATES,
        product=st.sampled_from([None, "diesel", "gasoline", "def"]),
        volume=st.none() | VOLUMES,
        odometer=st.none() | ODOMETERS | DISTANCES,
        distance=st.none() | DISTANCES,
        unit_price=st.none() | PRICES,
        cost=st.none() | MONEY,
        full=st.sampled_from([None, True, False]),
        missed=st.sampled_from([None, True]),
        dash_economy=st.none()
        | st.builds(Quantity, AMOUNTS, st.sampled_from(["mi/gal", "L/100km"])),
    ),
    st.builds(
        Odometer,
        odometer=ODOMETERS | DISTANCES,
        event=st.sampled_from([None, "depart", "arrive", "turnaround"]),
        place=PLACES,
    ),
    st.builds(
        Hitch,
        action=st.sampled_from(["hitched", "unhitched"]),
        trailer=TRAILERS,
        place=PLACES,
    ),
    st.builds(
        Rating,
        subject=st.just("truck"),
        rating=st.sampled_from(["tank", "def_tank"]),
        value=VOLUMES,
    ),
    st.builds(
        Rating,
        subject=st.sampled_from(["odometer", "oil", "walk-round", "tyres"]),
        rating=st.sampled_from(["factor", "digits", "every_days", "date_code", "mirrors"]),
        value=AMOUNTS,
    ),
    st.builds(
        Rating,
        subject=st.sampled_from(["odometer", "oil"]),
        rating=st.sampled_from(["replaced", "every"]),
        value=DISTANCES,
    ),
    st.builds(
        Observation,
        subject=st.sampled_from(["transmission", "ambient"]),
        value=st.builds(Quantity, AMOUNTS, st.sampled_from(["degF", "degC", "psi"])),
    ),
    st.builds(
        Check,
        item=st.sampled_from(["oil change", "chains", "walkaround", "left marker light"]),
        state=st.sampled_from(["done", "fault"]),
        trailer=TRAILERS,
    ),
    st.builds(
        Weighing,
        loads=st.dictionaries(
            st.sampled_from(["steer", "drive", "trailer", "gross"]),
            st.builds(Quantity, LOADS, st.sampled_from(["lb", "kg"])),
            min_size=1,
        ),
    ),
)
LOGS = st.lists(st.tuples(st.floats(0, 60 * 24), ENTRIES), max_size=25).map(
    lambda found: [
        Logged(entry=entry, at=START + timedelta(hours=hours), by="Ana", key=key)
        for key, (hours, entry) in enumerate(found, 1)
    ]
)


@pytest.mark.parametrize("topic", TOPICS)
@given(entries=LOGS, units=st.sampled_from(get_args(Units)), distance=st.none() | DISTANCES)
def test_any_logbook_can_be_asked_anything(
    topic: str, entries: list[Logged[Entry]], units: Units, distance: Quantity | None
) -> None:
    preferences = Preferences(units=units, time_zone="America/Boise")
    now = START + timedelta(days=61)
    question = Question(topic=topic, distance=distance, trailer="camper")
    told = TOPICS[topic](Log(entries), preferences, now, question)
    assert isinstance(told, Answer)
    assert "nan" not in text(told)
    assert len(text(told)) <= 1100


@given(entries=LOGS, units=st.sampled_from(get_args(Units)))
def test_any_fill_can_be_answered(entries: list[Logged[Entry]], units: Units) -> None:
    preferences = Preferences(units=units, time_zone="America/Boise")
    for each in entries:
        if isinstance(each.entry, Fill):
            logged = Logged(entry=each.entry, at=each.at, by=each.by, key=each.key)
            assert fuel.fill_answer(Log(entries), preferences, each.at, logged).headline
