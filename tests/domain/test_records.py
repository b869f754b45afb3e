"""Every kind of record survives the way out as plain data and back."""

from __future__ import annotations

import json
import re
from datetime import UTC, date, datetime, timedelta, timezone
from string import Formatter
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from domain.choices import LABELS, ChoiceLabel, english
from domain.context import Context
from domain.entries import KINDS, POSITIONS, Entry, ImpossibleEntry, Observation, Rating, Weighing
from domain.quantities import PINT_NAMES, Quantity
from domain.records import (
    NotARecord,
    ask_from_record,
    ask_to_record,
    context_from_record,
    entry_from_record,
    entry_to_record,
    quantity_from_record,
    verdict_to_record,
)
from domain.verdicts import TOPICS, Ask, Choice, Facts, Question, Silent

SENT_AT = datetime(2026, 7, 11, 14, 22, tzinfo=timezone(timedelta(hours=-6)))

figures = st.one_of(
    st.integers(min_value=0, max_value=100_000),
    st.floats(min_value=0, max_value=100_000, allow_nan=False),
)
quantities = st.builds(
    Quantity,
    figures,
    st.sampled_from([*PINT_NAMES, "USD", "CAD", "USD/gal", "mi/gal", "L/100km"]),
    st.none() | figures,
)
moments = st.one_of(
    st.dates(),
    st.datetimes(timezones=st.sampled_from([UTC, timezone(timedelta(hours=-6))])),
    st.datetimes(),
)
st.register_type_strategy(Quantity, quantities)
st.register_type_strategy(float, figures)
stated = st.none() | quantities | figures | st.text() | st.booleans()

OWN_RULES: dict[str, dict[str, st.SearchStrategy[Any]]] = {
    "weighing": {
        "loads": st.dictionaries(st.sampled_from(POSITIONS), quantities, min_size=1),
        "fuel_level": st.none() | st.floats(min_value=0, max_value=1),
    },
    "correction": {"value": stated, "was": stated},
}
"""Fields whose type alone says too little."""


def entries_of(kind: str) -> st.SearchStrategy[Entry]:
    return st.builds(
        KINDS[kind], at=st.none() | moments, words=st.just(()), **OWN_RULES.get(kind, {})
    )


entries = st.sampled_from(sorted(KINDS)).flatmap(entries_of)
labels = st.builds(
    ChoiceLabel,
    st.sampled_from(sorted(LABELS)),
    st.none() | quantities,
    st.none() | st.text(min_size=1),
    st.dictionaries(st.text(min_size=1), quantities, max_size=2),
)
asks = st.builds(
    Ask,
    st.text(),
    st.lists(
        st.builds(Choice, st.text() | labels, st.lists(entries, max_size=3).map(tuple)), max_size=3
    ).map(tuple),
    st.text(),
    st.lists(quantities, max_size=3).map(tuple),
)


def through_json(record: Any) -> Any:
    return json.loads(json.dumps(record, allow_nan=False))


@pytest.mark.parametrize("kind", KINDS)
@given(st.data())
def test_every_kind_of_entry_comes_back_as_it_was(kind: str, data: st.DataObject) -> None:
    entry = data.draw(entries_of(kind))
    assert entry_from_record(through_json(entry_to_record(entry))) == entry


@given(asks)
def test_an_open_question_comes_back_as_it_was(ask: Ask) -> None:
    assert ask_from_record(through_json(ask_to_record(ask, named=True))) == ask


@given(entries)
def test_a_field_that_was_left_open_is_left_out(entry: Entry) -> None:
    record = entry_to_record(entry)
    assert None not in record.values()
    assert "words" not in record


def test_a_weighing_looks_as_the_contract_shows_it() -> None:
    weighing = Weighing(
        rig="hitched",
        loads={"steer": Quantity(5280, "lb"), "trailer": Quantity(9200.0, "lb")},
        at=SENT_AT,
        place="Stonecreek elevator",
    )
    assert entry_to_record(weighing) == {
        "kind": "weighing",
        "loads": {
            "steer": {"value": 5280, "unit": "lb"},
            "trailer": {"value": 9200, "unit": "lb"},
        },
        "rig": "hitched",
        "at": "2026-07-11T14:22:00-06:00",
        "place": "Stonecreek elevator",
    }


def test_a_range_carries_its_lower_end() -> None:
    record = entry_to_record(
        Observation(subject="transmission", value=Quantity(205, "degF", low=190))
    )
    assert record["value"] == {"value": 205, "unit": "degF", "low": 190}


def test_a_load_index_is_a_bare_number() -> None:
    record = entry_to_record(Rating(subject="tyres", rating="load_index", value=121))
    assert record["value"] == 121


def test_a_date_alone_stays_a_date() -> None:
    entry = entry_from_record({"kind": "note", "note": "queen excluder in", "at": "2026-07-11"})
    assert entry.at == date(2026, 7, 11)


@pytest.mark.parametrize("topic", TOPICS)
def test_every_topic_has_its_line(topic: str) -> None:
    assert verdict_to_record(Question(topic=topic, text="as it was texted")) == {
        "verdict": "question",
        "question": {"topic": topic},
    }


def test_a_question_about_a_period_says_from_and_to() -> None:
    question = Question(topic="period", since=date(2026, 7, 1), until=date(2026, 7, 31))
    assert verdict_to_record(question)["question"] == {
        "topic": "period",
        "from": "2026-07-01",
        "to": "2026-07-31",
    }


@given(st.lists(entries, max_size=3).map(tuple))
def test_facts_keep_the_order_in_which_they_were_stated(stated: tuple[Entry, ...]) -> None:
    record = through_json(verdict_to_record(Facts(stated)))
    assert record["verdict"] == "entry"
    assert tuple(entry_from_record(each) for each in record["entries"]) == stated


def test_silence_is_a_verdict_and_nothing_else() -> None:
    assert verdict_to_record(Silent()) == {"verdict": "silent"}


def test_a_doubt_is_put_out_and_taken_back_as_context() -> None:
    ask = Ask("drive", (Choice("drive 6,110 lb", ()),), "sum", (Quantity(6110, "lb"),))
    record = verdict_to_record(ask)
    assert record["verdict"] == "ask"
    assert context_from_record({"asked": record["ask"]}, SENT_AT).asked == ask


def test_a_choice_is_put_out_under_its_english_name_and_nothing_else() -> None:
    load = Quantity(9180, "lb")
    ask = Ask("weighing", (Choice(ChoiceLabel("trailer_axles", load), ()),))
    record = verdict_to_record(ask)["ask"]
    assert record["choices"] == [{"label": "9,180 lb on the trailer axles", "entries": []}]


@pytest.mark.parametrize("way", LABELS)
def test_every_way_to_name_a_choice_is_said_with_all_that_it_holds(way: str) -> None:
    load = Quantity(2440.5, "kg")
    label = ChoiceLabel(way, load, "trailer_1", {"trailer_1": load})
    said = english(label)
    assert not re.search("[{}_]", said)
    assert ("2,440.5" in said) == bool({"number", "figure", "loads"} & places(LABELS[way]))
    assert ("trailer 1" in said) == bool({"position", "loads"} & places(LABELS[way]))


def places(template: str) -> set[str | None]:
    return {name for _, name, _, _ in Formatter().parse(template)}


def test_a_context_says_what_the_chat_knows() -> None:
    assert context_from_record(
        {
            "units": "metric",
            "currency": "CAD",
            "time_zone": "America/Edmonton",
            "odometer": {"value": 48010, "unit": "km"},
            "tank": {"value": 128, "unit": "L"},
            "fuel": "diesel",
            "hitched": True,
            "truck": "Juniper",
            "trailers": ["flatdeck", "camper"],
        },
        SENT_AT,
    ) == Context(
        sent_at=SENT_AT,
        units="metric",
        currency="CAD",
        time_zone="America/Edmonton",
        odometer=Quantity(48010, "km"),
        tank=Quantity(128, "L"),
        fuel="diesel",
        hitched=True,
        truck="Juniper",
        trailers=("flatdeck", "camper"),
    )


def test_an_empty_context_is_us_units_and_nothing_known() -> None:
    assert context_from_record({}, SENT_AT) == Context(sent_at=SENT_AT)


@pytest.mark.parametrize(
    ("record", "fault"),
    [
        ({}, "no such kind"),
        ({"kind": "sighting"}, "no such kind of entry: 'sighting'"),
        ({"kind": "weighing"}, "a weighing lacks a field"),
        ({"kind": "odometer"}, "odometer lacks a field"),
        ({"kind": "fill", "volume": {"unit": "gal"}}, "a quantity lacks 'value'"),
        ({"kind": "fill", "volume": {"value": 31.4}}, "a quantity lacks 'unit'"),
    ],
)
def test_what_is_not_in_the_form_of_the_contract_is_refused(
    record: dict[str, Any], fault: str
) -> None:
    with pytest.raises(NotARecord, match=fault):
        entry_from_record(record)


@pytest.mark.parametrize("loads", [{}, {"front": {"value": 5280, "unit": "lb"}}])
def test_a_weighing_without_a_known_position_cannot_be(loads: dict[str, Any]) -> None:
    with pytest.raises(ImpossibleEntry):
        entry_from_record({"kind": "weighing", "loads": loads})


def test_units_are_one_of_three() -> None:
    with pytest.raises(NotARecord, match="us, metric or imperial, not 'nautical'"):
        context_from_record({"units": "nautical"}, SENT_AT)


@given(quantities)
def test_a_quantity_alone_comes_back_as_it_was(quantity: Quantity) -> None:
    record = {"value": quantity.value, "unit": quantity.unit, "low": quantity.low}
    assert quantity_from_record(through_json(record)) == quantity
