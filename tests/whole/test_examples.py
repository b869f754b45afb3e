"""Every example that a chat is given is one that it can text itself: it is read as it is meant."""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass, fields, is_dataclass
from datetime import UTC, datetime
from typing import Any

import pytest

from bot.answers import examples
from bot.answers.examples import FIGURES, PRICES, fill_texted, texted
from bot.answers.language import language_of, say, speaking
from bot.answers.setup import QUESTIONS
from bot.phrasebook import book_for
from domain.context import DISTANCE_UNIT, MASS_UNIT, VOLUME_UNIT, Context, Units
from domain.entries import Entry, Fill
from domain.log import Log, Logged, Preferences
from domain.quantities import Quantity
from domain.reading import read
from domain.rig import rig_of
from domain.verdicts import Facts, Question, Verdict
from domain.wanted import given
from tests.whole.catalogues import said

AT = datetime(2026, 7, 11, 20, 22, tzinfo=UTC)


def chat(units: Units, currency: str, language: str = "en") -> Preferences:
    return Preferences(units=units, currency=currency, language=language, time_zone="UTC")


CHATS = (
    chat("us", "USD"),
    chat("metric", "AUD"),
    chat("metric", "CHF"),
    chat("metric", "NZD"),
    chat("imperial", "GBP"),
    chat("us", "USD", "es"),
    chat("us", "EUR", "es"),
    chat("metric", "EUR", "es"),
    chat("metric", "MXN", "es"),
    chat("metric", "ARS", "es"),
    chat("imperial", "GBP", "es"),
)
"""Each system of units, with points and commas before decimals; a price is known to some."""

WHERE_READ = {
    examples.TRUCK: ("rating", "rating", "rating"),
    examples.TRAILER: ("rating", "rating"),
    examples.A_TRUCK: ("rating", "rating", "rating"),
    examples.A_TRAILER: ("rating", "rating"),
    examples.WEIGHING: ("weighing",),
    examples.TRUCK_ALONE: ("weighing",),
    examples.WHEELS: ("weighing",),
    examples.PRICED_FILL: ("fill",),
    examples.FILL: ("fill",),
    examples.TRIP: ("hitch", "odometer"),
    examples.HOME: ("odometer",),
    examples.PUT_RIGHT: ("correction",),
    examples.PUT_RIGHT_BY_NAME: ("correction",),
    examples.TAKEN_BACK: ("correction",),
    examples.PICTURE: ("weight?",),
    examples.MEANING: ("meaning?",),
    examples.TANK: ("rating",),
    examples.DEF_TANK: ("rating",),
    examples.PLAN: ("plan?",),
    examples.REMINDER: ("rating",),
    examples.TIES: ("tiedown?",),
    examples.CARGO: ("cargo",),
    examples.WHAT_IF: ("whatif?",),
    examples.WHAT_IF_AHEAD: ("whatif?",),
    examples.WHERE_FOR: ("whatif?",),
    examples.COUPLER_TO_AXLE: ("rating",),
    examples.WHEELBASE: ("rating",),
    examples.LEVER: ("rating", "rating"),
    examples.DUAL_TYRES: ("rating",),
    examples.TYRE_DATE: ("rating",),
    **dict.fromkeys(examples.RATED.values(), ("rating",)),
}
"""The kinds of entry, or the topic of the question, that each example is read as."""


@dataclass(frozen=True, slots=True)
class Shown:
    """An example as a chat is given it, and what the reader makes of it there."""

    text: str
    verdict: Verdict

    @property
    def entries(self) -> tuple[Entry, ...]:
        return self.verdict.entries if isinstance(self.verdict, Facts) else ()

    @property
    def read_as(self) -> tuple[str, ...]:
        if isinstance(self.verdict, Question):
            return ("meaning?" if self.verdict.meaning else f"{self.verdict.topic}?",)
        return tuple(type(each).__name__.lower() for each in self.entries)


def shown(example: str, preferences: Preferences, **named: str) -> Shown:
    with speaking(language_of(preferences)):
        text = fill_texted(preferences)
        if example != examples.PRICED_FILL:
            text = texted(example, preferences, **named)
    return Shown(text, heard(text, preferences))


def heard(text: str, preferences: Preferences) -> Verdict:
    """What the reader makes of a text in a chat."""
    context = Context(
        sent_at=AT,
        units=preferences.units,
        currency=preferences.currency,
        language=preferences.language,
        truck="Juniper",
        trailers=("flatdeck", "camper"),
    )
    return read(text, context, book_for(context))


def measured(value: Any) -> Iterator[Quantity]:
    """Every quantity in a verdict."""
    if isinstance(value, Quantity):
        yield value
    elif isinstance(value, dict):
        yield from measured(tuple(value.values()))
    elif isinstance(value, tuple):
        for each in value:
            yield from measured(each)
    elif is_dataclass(value):
        for field in fields(value):
            yield from measured(getattr(value, field.name))


def meant(example: str, preferences: Preferences) -> set[Quantity]:
    """The figures of an example, as a chat with these preferences texts them."""
    places = re.findall(r"\{(\w+)\}", example)
    return {FIGURES[each].in_units(preferences.units) for each in places if each in FIGURES}


def upkeep(preferences: Preferences) -> str:
    return "aceite" if preferences.language == "es" else "oil"


def named(preferences: Preferences) -> str:
    return f"{preferences.units} {preferences.currency} {preferences.language}"


every_chat = pytest.mark.parametrize("preferences", CHATS, ids=named)


@every_chat
@pytest.mark.parametrize("example", WHERE_READ)
def test_an_example_is_read_as_it_is_meant(example: str, preferences: Preferences) -> None:
    words = {"upkeep": upkeep(preferences)} if example == examples.REMINDER else {}
    told = shown(example, preferences, **words)
    assert told.read_as == WHERE_READ[example], told
    figures = meant(example, preferences)
    if WHERE_READ[example] == ("correction",):
        values = {getattr(each, "value", None) for each in told.entries} - {None}
        assert values <= {each.value for each in figures} | figures, told
    else:
        assert figures <= set(measured(told.verdict)), told


@every_chat
@pytest.mark.parametrize("wanted", examples.RATED, ids=" ".join)
def test_a_rating_texted_as_it_is_shown_is_given(
    wanted: tuple[str, str], preferences: Preferences
) -> None:
    told = shown(examples.RATED[wanted], preferences)
    log = Log([Logged(entry=each, at=AT) for each in told.entries])
    assert given(rig_of(log, AT, trailer="flatdeck"), wanted), told


@every_chat
def test_dual_tyres_texted_as_they_are_shown_are_the_trucks(preferences: Preferences) -> None:
    (rating,) = shown(examples.DUAL_TYRES, preferences).entries
    rig = rig_of(Log([Logged(entry=rating, at=AT)]), AT)
    assert rig.number("truck tyres", "load_index", "dual") == 118


@every_chat
def test_a_fill_is_shown_with_a_price_in_the_chats_money(preferences: Preferences) -> None:
    (fill,) = shown(examples.PRICED_FILL, preferences).entries
    assert isinstance(fill, Fill)
    assert fill.odometer == Quantity(48211, DISTANCE_UNIT[preferences.units])
    assert fill.full
    price = f"{preferences.currency}/{VOLUME_UNIT[preferences.units]}"
    assert (fill.unit_price.unit if fill.unit_price else None) == (
        price if preferences.currency in PRICES else None
    )


@every_chat
def test_every_question_that_help_names_is_read_as_one(preferences: Preferences) -> None:
    with speaking(language_of(preferences)):
        asked = [f"{each}?" for each in say(QUESTIONS).partition(": ")[2].split("?") if each]
    assert len(asked) == 5
    for text in asked:
        assert isinstance(heard(text, preferences), Question), text


def test_a_gallon_costs_as_much_as_its_litres() -> None:
    with speaking(language_of(CHATS[0])):
        assert fill_texted(chat("us", "EUR")) == "48211, 31.4 gal at 6.053, full"
        assert fill_texted(chat("metric", "USD")) == "48211, 118.9 L at 1.03, full"


def test_a_figure_is_what_somebody_would_text() -> None:
    labels = {name: FIGURES[name].in_units("metric").value for name in ("front_axle", "tank")}
    assert labels == {"front_axle": 2550, "tank": 130}
    assert FIGURES["interval"].in_units("metric") == Quantity(8000, "km")
    assert FIGURES["interval"].in_units("imperial") == Quantity(5000, "mi")
    assert FIGURES["steer"].in_units("imperial") == Quantity(2390, MASS_UNIT["imperial"])


def test_every_example_is_tried_and_no_figure_of_one_stands_elsewhere() -> None:
    here: set[str] = set()
    elsewhere: set[str] = set()
    for message in said():
        if message.id:
            ids = {message.id} if isinstance(message.id, str) else set(message.id)
            where = {path for path, _ in message.locations}
            (here if "bot/answers/examples.py" in where else elsewhere).update(ids)
    assert here - {"miles"} == set(WHERE_READ)
    figured = re.compile(r"\b\d{4,}|\d ?(lb|kg|gal|L|mi|miles|km|ft|in|m|psi|kPa)\b")
    assert [each for each in elsewhere if figured.search(each)] == []
