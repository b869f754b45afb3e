"""Answers in another language: every word of them, and none of English.

The separators, days and months that are wanted here are CLDR's, release 46 (from memory), and in
`unicode.org/cldr` for es, es_MX and es_US.
"""

from __future__ import annotations

import re
import string
from collections.abc import Iterator
from contextlib import contextmanager
from datetime import UTC, date, datetime
from functools import cache
from gettext import NullTranslations
from typing import get_args

import pytest
from babel import Locale
from babel.messages.catalog import Catalog

from bot.answers import dispatch, weights
from bot.answers.answer import Answer
from bot.answers.language import (
    ENGLISH,
    SOURCE,
    Language,
    language_of,
    languages,
    say,
    say_count,
    speaking,
    spoken,
)
from bot.answers.measures import dates
from bot.answers.words import clock, day, figure, number
from bot.language_choice import code_of
from bot.shared_data import read_toml
from domain.context import Units
from domain.entries import Weighing
from domain.log import Preferences
from domain.quantities import Quantity
from domain.verdicts import Question
from tests.whole.catalogues import catalogue, path_of, said, written
from tests.whole.occasions import Occasion, names, occasions, season, words_of

TRANSLATED = [code for code in languages() if code != SOURCE]
SYMBOLS = set(
    re.findall(
        r"\w+",
        "lb kg mi km gal psi kPa rpm mph min degF kN ft mm cm CO USD CHF EUR telegram Juniper",
    )
)
"""What is written alike in every language: symbols of units and money, and what a test names."""

OTHERS_LETTERS = str.maketrans({each: chr(ord(each) + 0xFEE0) for each in string.ascii_letters})
"""Each letter as its full-width twin, which nobody writes by hand (Unicode, U+FF21 on)."""

MEXICO = Preferences(units="metric", currency="MXN", time_zone="America/Mexico_City", language="es")
SPAIN = Preferences(units="metric", currency="EUR", time_zone="Europe/Madrid", language="es")
TEXAS = Preferences(time_zone="America/Chicago", language="es")


class Strange(NullTranslations):
    """A language that says every message in letters that are in no source."""

    def gettext(self, message: str) -> str:
        return _strange(message)

    def ngettext(self, msgid1: str, msgid2: str, n: int) -> str:
        return _strange(msgid1 if n == 1 else msgid2)

    def pgettext(self, context: str, message: str) -> str:
        return _strange(message)


def _strange(message: str) -> str:
    parts = re.split(r"(\{\w+\})", message)
    return "".join(
        part if part.startswith("{") else part.translate(OTHERS_LETTERS) for part in parts
    )


STRANGE = Language("xx", Locale("el"), Strange())
"""Its days and months are Greek, so that no letter of theirs is English either."""


@contextmanager
def as_a_logbook_wants(preferences: Preferences) -> Iterator[None]:
    with speaking(language_of(preferences)):
        yield


def told(occasion: Occasion) -> list[str]:
    _, said_then = occasion
    return list(words_of(said_then()))


def strays(texts: list[str], known: set[str]) -> set[str]:
    """Words of two letters or more in Latin letters that are nobody's."""
    found = {word for text in texts for word in re.findall(r"[^\W\d_]{2,}", text)}
    latin = {word for word in found if word[0] < "\u0370"}
    return {word for word in latin if word.casefold() not in known}


@cache
def _everyones() -> set[str]:
    given = {part for name in names() for part in re.findall(r"[^\W\d_]{2,}", name)}
    return given | {each.casefold() for each in SYMBOLS}


@pytest.mark.parametrize("units", get_args(Units))
def test_nothing_is_said_that_no_catalogue_could_say_otherwise(units: Units) -> None:
    preferences = Preferences(units=units, currency="CHF", time_zone="America/Boise")
    with speaking(STRANGE):
        assert _strays_anywhere(preferences, _everyones()) == {}


def _strays_anywhere(preferences: Preferences, known: set[str]) -> dict[str, set[str]]:
    """The strays of each occasion that has any."""
    found = {each[0]: strays(told(each), known) for each in occasions(preferences)}
    return {name: words for name, words in found.items() if words}


@cache
def _spoken_words(code: str) -> set[str]:
    """Every word of a language's catalogue, with its days and months."""
    texts: list[str] = []
    for message in catalogue(code):
        texts += _strings(message.string)
    locale = Locale(code)
    calendar = [
        name
        for kind in (locale.days, locale.months)
        for widths in kind.values()
        for each in widths.values()
        for name in each.values()
    ]
    bare = (re.sub(r"\{\w+\}", " ", text) for text in (*texts, *calendar))
    return {word.casefold() for text in bare for word in re.findall(r"[^\W\d_]{2,}", text)}


@pytest.mark.parametrize("code", TRANSLATED)
@pytest.mark.parametrize("units", get_args(Units))
def test_every_word_of_an_answer_is_of_the_language_that_it_is_in(code: str, units: Units) -> None:
    preferences = Preferences(units=units, time_zone="America/Boise", language=code)
    known = _everyones() | _spoken_words(code) | {"am", "pm", "sep", "sept"}
    with as_a_logbook_wants(preferences):
        assert _strays_anywhere(preferences, known) == {}


def test_no_answer_holds_a_place_that_was_left_open() -> None:
    for language in (ENGLISH, language_of(TEXAS)):
        with speaking(language):
            for occasion in occasions(Preferences(time_zone="America/Boise")):
                assert not re.search(r"[{}]", " ".join(told(occasion))), occasion[0]


@pytest.mark.parametrize("code", TRANSLATED)
def test_a_catalogue_holds_what_is_said_and_nothing_else(code: str) -> None:
    assert _ids(catalogue(code)) == _ids(said()), "run make messages, and translate what is new"


def _ids(messages: Catalog) -> set[object]:
    return {(message.context, message.id) for message in messages}


@pytest.mark.parametrize("code", TRANSLATED)
def test_a_catalogue_is_written_as_it_is_read(code: str) -> None:
    assert path_of(code).read_text(encoding="utf-8") == written(catalogue(code))


@pytest.mark.parametrize("code", TRANSLATED)
def test_every_message_is_translated(code: str) -> None:
    missing = [
        message.id
        for message in catalogue(code)
        if message.id and (message.fuzzy or not all(_strings(message.string)))
    ]
    assert missing == []


@pytest.mark.parametrize("code", TRANSLATED)
def test_a_translation_has_the_places_of_its_message(code: str) -> None:
    for message in catalogue(code):
        for wanted, given in zip(_strings(message.id), _strings(message.string), strict=False):
            # A number of things may stand in words in its singular, in either language.
            assert places(wanted) == places(given), message.id


@pytest.mark.parametrize("code", TRANSLATED)
def test_a_translation_keeps_the_tone(code: str) -> None:
    for message in catalogue(code):
        for wanted, given in zip(_strings(message.id), _strings(message.string), strict=False):
            if not message.id:
                continue
            assert not re.search("[!¡]", given)
            assert not re.search(r"\bsegur[oa]s?\b", given, re.I), "nothing is called safe"
            assert wanted.endswith("?") == given.endswith("?"), given
            assert given.count("?") == given.count("¿"), given
            assert wanted.endswith(".") == given.endswith("."), given
            assert len(given) <= 1.6 * len(wanted) + 24, given


def _strings(text: str | tuple[str, ...] | list[str] | None) -> list[str]:
    return [text or ""] if isinstance(text, str | None) else list(text)


def places(text: str) -> set[str]:
    return {name for _, name, _, _ in string.Formatter().parse(text) if name is not None}


def test_every_place_of_a_message_has_a_name() -> None:
    for message in said():
        for each in _strings(message.id):
            assert all(places(each)), each


def test_nothing_is_said_twice_under_two_spellings() -> None:
    ids = [text for message in said() if message.id for text in _strings(message.id)[:1]]
    plain = [re.sub(r"\s+", " ", each) for each in ids]
    assert ids == plain


@pytest.mark.parametrize(
    ("preferences", "written"),
    [
        (Preferences(), "19,460.5"),
        (TEXAS, "19,460.5"),
        (MEXICO, "19,460.5"),
        (SPAIN, "19.460,5"),
        (Preferences(currency="ARS", language="es"), "19.460,5"),
        (Preferences(currency="HNL", language="es"), "19,460.5"),
    ],
)
def test_a_number_is_written_as_the_scales_of_its_country_print_it(
    preferences: Preferences, written: str
) -> None:
    with as_a_logbook_wants(preferences):
        assert number(19460.5) == written
        assert figure(Quantity(19460.5, "kg")) == f"{written} kg"


def test_money_stands_as_its_country_writes_it() -> None:
    euros, dollars = Quantity(1122.4, "EUR"), Quantity(3.899, "USD/gal")
    with as_a_logbook_wants(SPAIN):
        assert figure(euros) == "1.122,40 €"
    with as_a_logbook_wants(TEXAS):
        assert figure(dollars) == "$3.899/gal"
        assert figure(Quantity(-40.0, "USD")) == "-$40.00"
    with as_a_logbook_wants(MEXICO):
        assert figure(Quantity(812.5, "MXN")) == "812.50 MXN"


def test_days_and_hours_are_said_in_the_language() -> None:
    saturday = date(2026, 7, 11)
    with as_a_logbook_wants(TEXAS):
        assert day(saturday) == "sáb 11 jul"
        assert dates(date(2026, 7, 4), saturday, saturday) == "4 jul a 11 jul"
        assert dates(date(2025, 12, 30), date(2026, 1, 2), saturday) == "30 dic 2025 a 2 ene 2026"
        assert clock(datetime(2026, 7, 11, 14, 22, tzinfo=UTC)) == "2:22 pm"


def test_one_thing_and_several_are_told_apart() -> None:
    with as_a_logbook_wants(TEXAS):
        assert [say_count("{count} fill", "{count} fills", count) for count in (1, 2, 1200)] == [
            "1 llenado",
            "2 llenados",
            "1,200 llenados",
        ]


def test_a_language_is_in_force_for_as_long_as_it_is_spoken() -> None:
    with speaking(language_of(TEXAS)):
        assert spoken().code == "es"
        with speaking(ENGLISH):
            assert say("full") == "full"
        assert say("full") == "lleno"
    assert spoken() is ENGLISH


def test_what_people_wrote_is_never_taken_for_a_message_with_places() -> None:
    with as_a_logbook_wants(TEXAS):
        assert say("note: {words}", words="{full} {0}") == "nota: {full} {0}"
        assert say("{full} {0}") == "{full} {0}"


def test_a_weighing_in_spanish() -> None:
    log = season().log
    last = log.of(Weighing)[-1]
    with as_a_logbook_wants(TEXAS):
        answer = weights.weighing_answer(log, TEXAS, last.at, last)
    assert re.match(r"(Excedido|Cerca|Dentro|Demasiado)", answer.headline)
    assert {row.label for row in answer.rows} >= {"Peso bruto", "Camioneta", "Ejes del remolque"}
    assert "mecánico certificado" in answer.notes[-1]


@pytest.mark.parametrize("topic", dispatch.TOPICS)
def test_an_answer_in_spanish_has_the_figures_of_the_english_one(topic: str) -> None:
    here, question = season(), Question(topic=topic)
    both = []
    for preferences in (Preferences(time_zone="America/Boise"), TEXAS):
        at = Preferences(time_zone="America/Boise", language=preferences.language)
        with as_a_logbook_wants(at):
            answer = dispatch.question_answer(here.log, at, here.now, question)
        both.append([re.findall(r"\d[\d.,]*", row.figure) for row in answer.rows])
    # A longer language has room for fewer margins; the examples of the help are no figures.
    shared = min(map(len, both)) if topic != "help" else 0
    assert both[0][:shared] == both[1][:shared]
    assert topic == "help" or shared >= len(both[0]) - 2


def test_every_language_is_known_by_the_names_that_are_read() -> None:
    table = read_toml("phrasebook/standing.en.toml")
    known = {code_of(name) for name in table["languages"]}
    assert known == set(languages())
    assert code_of("klingon") is None


def test_an_answer_without_a_word_of_its_own_is_an_answer_still() -> None:
    with as_a_logbook_wants(SPAIN):
        assert Answer(headline=say("")).headline == ""
