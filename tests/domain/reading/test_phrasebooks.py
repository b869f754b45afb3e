"""The phrasebooks against each other: what one language has words for, the others have too."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

import pytest

from bot.answers.language import SOURCE, languages
from bot.shared_data import read_toml

OWN = {"alias", "misspelt", "letter", "number"}
"""Tables that each language fills by its own spelling and its own way to count."""

WORD_BY_WORD = (
    "asks_why",
    "before",
    "each",
    "help_asked",
    "help_head",
    "help_itself",
    "help_logs",
    "help_way",
    "help_word",
    "help_works",
    "many",
    "needs_doing",
    "odometer_word",
    "on_fuel",
    "pays_out",
    "plain_ahead",
    "plain_asks_you",
    "plain_averages",
    "plain_before",
    "plain_better",
    "plain_bill",
    "plain_burns",
    "plain_counted",
    "plain_does",
    "plain_driven",
    "plain_due",
    "plain_each",
    "plain_economy",
    "plain_far",
    "plain_fills",
    "plain_fuel",
    "plain_has",
    "plain_head",
    "plain_is",
    "plain_left",
    "plain_may",
    "plain_measures",
    "plain_money",
    "plain_needs",
    "plain_next",
    "plain_opens",
    "plain_past",
    "plain_plan",
    "plain_polite",
    "plain_price",
    "plain_rate",
    "plain_requests",
    "plain_states",
    "plain_still",
    "plain_stops",
    "plain_sums",
    "plain_upkeep",
    "plain_wants",
    "plain_volumes",
    "plain_whether",
    "plain_word",
    "run",
    "to_date",
    "total",
    "towed_over",
    "also_of_people",
    "asks_aside",
    "asks_for_it",
    "asks_inverted",
    "of_other_rig",
    "of_trade",
    "points_out",
    "says_its_weight",
    "opens_clause",
    "tells_how",
    "when_it_suits",
)
"""Groups by which a question is understood to its last word, which so far is done in English."""

NOT_NEEDED: Mapping[str, Mapping[str, str]] = {
    "es": {
        "money.AUD": "no Spanish-speaking country pays in it",
        "money.NZD": "no Spanish-speaking country pays in it",
        "money.CHF": "no Spanish-speaking country pays in it",
        "money.SEK": "no Spanish-speaking country pays in it",
        "money.NOK": "no Spanish-speaking country pays in it",
        "money.DKK": "no Spanish-speaking country pays in it",
        "money.pence": "the coins of pounds sterling",
        "corner.left_front_trailer": "no abbreviation of Spanish is a trailer and its corner",
        "corner.right_front_trailer": "no abbreviation of Spanish is a trailer and its corner",
        "corner.left_rear_trailer": "no abbreviation of Spanish is a trailer and its corner",
        "corner.right_rear_trailer": "no abbreviation of Spanish is a trailer and its corner",
        "group.trailer_or_corner": "no abbreviation of Spanish is a trailer and its corner",
        "group.left_then_right": "no abbreviation of Spanish is both sides and a wheel",
        "group.rear_or_right": "no abbreviation of Spanish is both a rear and a right",
        "group.looks_shortened": "nothing is shortened with an apostrophe",
        "group.fuel_or_register": "no short word of Spanish is both a fuel and a register",
        "group.exact_or_tongue": "no Spanish word for a tongue also says that a figure is exact",
        "group.caravan": "a van is no caravan in Spanish",
        "group.litre_or_version": "'lts' is litros wherever Spanish is spoken",
        "group.weak_odometer": "what an odometer is called in Spanish is called so alone",
        "group.coins_per_litre": "no Spanish-speaking pump shows coins a litre",
        "group.van_or_wagon": "the Spanish words for trailers are no words for cars",
        "group.towed_wagon": "the Spanish words for trailers are no words for cars",
        "group.street_or_axle": "no Spanish word is both a street and an axle",
        "group.says_naw": "'no' is the Spanish word for 'not', too",
        "group.behind_truck": "'atrás' is said of whatever is behind",
        "group.runs_it": "what is done with a truck on a scale is a word for weighing it",
        "group.over_it": "what is done with a truck on a scale is a word for weighing it",
        "group.no_alone": "'no' is said before what was wrong, not before what is right",
        "group.with_article": "no name of a vehicle has its article in it",
        "group.beside_us": "where a rig is and where an axle is has the same words in Spanish",
        "group.behind": "where a rig is and where an axle is has the same words in Spanish",
        "group.front": "where a rig is and where an axle is has the same words in Spanish",
        "group.numbered_place": "in Spanish the number of a place has a word of its own before it",
        "group.rear_or_return": "where a rig is and where an axle is has the same words in Spanish",
        "group.in_or_up": "where a rig is and where an axle is has the same words in Spanish",
        "group.alerts": "where a rig is and where an axle is has the same words in Spanish",
        "group.weighed_out": "what somebody owns has no mark of its own in Spanish",
        "key.sounds_like.one": "no small word of Spanish sounds like a number",
        "key.sounds_like.two": "no small word of Spanish sounds like a number",
        "key.sounds_like.four": "no small word of Spanish sounds like a number",
        "key.sounds_like.eight": "no small word of Spanish sounds like a number",
        "group.sterling": "pounds are no money in Spanish",
        "group.price_or_people": "the letters for pence per litre",
        "group.heard_for_weigh": "no other word of Spanish sounds like the verb of weighing",
        "group.heard_for_weight": "no other word of Spanish sounds like 'peso'",
        "group.sets_free": "'soltar' says it in one word",
        "group.over_there": "'over' has no Spanish word that also says where something is",
        "group.scale_word": "where one asks about the scale in Spanish, one says which",
        "group.does": "Spanish asks without an auxiliary verb",
        "group.man": "Spanish asks without an auxiliary verb",
        "group.gets_it": "Spanish asks without an auxiliary verb",
        "group.inverts": "Spanish asks in the order in which it tells",
        "group.inverts_somebody": "Spanish asks in the order in which it tells",
        "group.of_what_is_done": "Spanish asks in the order in which it tells",
        "group.asks_which": "Spanish asks in the order in which it tells",
        "group.asks_when_or_where": "Spanish asks in the order in which it tells",
        "group.of_trailer_or_train": "no Spanish letters are of a trailer and of a train",
        **{f"group.{name}": "Spanish questions are found by their form" for name in WORD_BY_WORD},
    }
}
"""What a language has no words for, each with the reason."""


def keys_of(language: str) -> set[str]:
    tables: Mapping[str, Any] = read_toml(f"phrasebook/{language}.toml")
    found: set[str] = set()
    for name, table in tables.items():
        if isinstance(table, Mapping) and name not in OWN:
            found |= _keys(name, table)
    return found


def _keys(path: str, table: Mapping[str, Any]) -> set[str]:
    found: set[str] = set()
    for name, value in table.items():
        inner = f"{path}.{name}"
        found |= _keys(inner, value) if isinstance(value, Mapping) else {inner}
    return found


OTHERS = [code for code in languages() if code != SOURCE]


@pytest.mark.parametrize("language", OTHERS)
def test_a_language_has_words_for_all_that_english_has(language: str) -> None:
    missing = keys_of(SOURCE) - keys_of(language)
    assert missing == set(NOT_NEEDED[language])


@pytest.mark.parametrize("language", OTHERS)
def test_no_group_of_a_language_is_empty(language: str) -> None:
    tables = read_toml(f"phrasebook/{language}.toml")
    assert all(words for table in ("group", "topic") for words in tables[table].values())


@pytest.mark.parametrize("language", languages())
def test_phrases_are_spelled_as_the_reader_spells_their_words(language: str) -> None:
    tables = read_toml(f"phrasebook/{language}.toml")
    respelled = {word for words in tables.pop("alias", {}).values() for word in words}
    phrases = {
        phrase
        for keyed in tables.values()
        if isinstance(keyed, Mapping)
        for words in keyed.values()
        if isinstance(words, list)
        for phrase in words
    }
    never_found = [
        each for each in phrases if " " in each and not respelled.isdisjoint(each.split())
    ]
    assert never_found == []


@pytest.mark.parametrize("language", languages())
def test_no_list_has_a_phrase_twice(language: str) -> None:
    lists = {
        f"{table}.{key}": words
        for table, keyed in read_toml(f"phrasebook/{language}.toml").items()
        if isinstance(keyed, Mapping)
        for key, words in keyed.items()
        if isinstance(words, list)
    }
    assert [name for name, words in lists.items() if len(words) > len(set(words))] == []


@pytest.mark.parametrize("language", OTHERS)
def test_standing_matters_can_be_said_in_every_language(language: str) -> None:
    english, other = (read_toml(f"phrasebook/standing.{code}.toml") for code in (SOURCE, language))
    assert english.keys() == other.keys()
    assert english["unit"].keys() == other["unit"].keys()


LOAD_NEEDS_NO_WORDS = {"es": {"material": {"wire rope"}, "place": {"truck"}}}
"""Where what English says for a load will do: a cable is one, and a truck is named by its place."""


@pytest.mark.parametrize("language", OTHERS)
def test_load_and_tie_downs_can_be_asked_for_in_every_language(language: str) -> None:
    english, other = (read_toml(f"phrasebook/asked.{code}.toml") for code in (SOURCE, language))
    assert english.keys() == other.keys()
    assert len(english["counts"]) == len(other["counts"])
    for table in english.keys() - {"language", "counts"}:
        missing = english[table].keys() - {name for name, said in other[table].items() if said}
        assert missing == LOAD_NEEDS_NO_WORDS[language].get(table, set())
