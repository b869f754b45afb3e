"""What the trade's words mean: when a message asks for it, in every language that has a glossary.

The definitions name their sources in the data; what they say in figures is held against the
tables that Drawbar works with, which are held against sources of their own.
"""

from __future__ import annotations

import re

import pytest

from bot.answers.meanings import SHARES
from bot.glossary import glossaries, glossary_in
from bot.reference import references
from domain.glossary import FIGURES, TOPICS, Glossary, folded, meaning_asked
from domain.quantities import Quantity
from domain.verdicts import TOPICS as ASKED

LANGUAGES = sorted(glossaries())

BREATH = 320
"""Characters of a definition and where it stands: what is read aloud in some twenty seconds."""

ASKS = {
    "what is GVWR": ("gvwr",),
    "what is MAM": ("mam",),
    "what's the meaning of maximum authorised mass": ("mam",),
    "what is ATM": ("atm",),
    "what does GTM stand for?": ("gtm",),
    "difference between ATM and GTM": ("atm", "gtm"),
    "whats towball mass": ("tongue",),
    "What's a GVWR?": ("gvwr",),
    "whats gvwr again": ("gvwr",),
    "what is g.v.w.r.": ("gvwr",),
    "what does GCWR mean": ("gcwr",),
    "what does the gvwr mean?": ("gvwr",),
    "what does “GAWR” stand for?": ("gawr",),
    "define gawr": ("gawr",),
    "explain payload": ("payload",),
    "can you explain what payload is": ("payload",),
    "what does combined weight of occupants and cargo mean": ("payload",),
    "payload meaning?": ("payload",),
    "definition of curb weight": ("curb",),
    "what is the meaning of tare": ("tare",),
    "what is meant by dry weight": ("dry",),
    "what is wll": ("wll",),
    "remind me what WLL means": ("wll",),
    "what does margin mean?": ("margin",),
    "what do you mean by margin": ("margin",),
    "what's tongue weight": ("tongue",),
    "what is a pin weight?": ("pin",),
    "pin weight, what is that?": ("pin",),
    "hey drawbar, what's a fifth-wheel": ("fifth_wheel",),
    "I don't know what a king pin is": ("kingpin",),
    "i don't know what kingpin is": ("kingpin",),
    "what are weight distribution bars": ("weight_distribution",),
    "what is load range E?": ("load_range",),
    "what does load index stand for": ("load_index",),
    "what is DEF please": ("def",),
    "difference between GVWR and GCWR": ("gvwr", "gcwr"),
    "what's the difference between tongue weight and pin weight?": ("tongue", "pin"),
    "is payload the same as tow rating": ("payload", "tow"),
    "how is curb weight different from dry weight": ("curb", "dry"),
    "GVWR vs. GCWR?": ("gvwr", "gcwr"),
    "what do GVWR, GAWR and GCWR mean?": ("gvwr", "gawr", "gcwr"),
    "gvwr/gcwr meaning": ("gvwr", "gcwr"),
    "what exactly is payload": ("payload",),
    "what the heck is a gawr??": ("gawr",),
    "what does the gvwr number on the door sticker mean": ("gvwr",),
    "what does WLL on the strap stand for": ("wll",),
    "what's that GCWR thing": ("gcwr",),
    "what counts as payload": ("payload",),
    "how is tongue weight defined": ("tongue",),
    "explain GVWR vs GCWR": ("gvwr", "gcwr"),
    "diffrence btw gvw and gvwr": ("gross", "gvwr"),
    "is the GVWR the same thing as the GCWR?": ("gvwr", "gcwr"),
    "are tare and curb weight the same": ("tare", "curb"),
    "how does pin weight differ from tongue weight": ("pin", "tongue"),
}

OF_THIS_RIG = (
    "what is our gvwr",
    "what is juniper's gvwr",
    "what's the tongue weight",
    "what is the GCWR?",
    "whats my payload",
    "what is the payload on the truck",
    "what's the margin",
    "what's left to the gvwr",
    "remind me what the GVM is?",
    "what is the flatdeck's gawr",
    "gvwr?",
    "tongue weight?",
    "what was the pin weight yesterday",
    "what range do we have",
    "what's the difference in tongue weight",
    "what is tongue weight on the camper",
    "explain the margins for the flatdeck",
    "what is a tandem bike good for",
    "what's the range of that radio",
    "what's up with the payload people",
)
"""What asks for a figure, or for something else of which a term is a part."""

TALK = (
    "what is love",
    "what is the atm fee",
    "wheres an atm",
    "what is mam up to",
    "what does mam want",
    "explain yourself",
    "define normal",
    "what does that mean",
    "what does she mean by that",
    "what's the meaning of life",
    "what's a good price for honey",
    "what is a hive tool",
    "what's the difference between honey and nectar",
    "what's the difference anyway",
    "honey vs jam?",
    "is tuesday the same as last week",
    "what are you doing",
    "what is up",
    "what a load",
    "what a tongue",
    "what is wrong with the coupler",
    "whats on the hitch",
    "what's a fifth wheel worth these days",
    "what is range anxiety",
    "explain the economy to a kid",
    "what does your tongue look like",
    "what does grandpa mean by payload of pancakes",
    "i don't know what payload and pancakes mean",
    "no idea what you mean",
    "define margin of error",
    "what is gross about it",
    "that's gross, what is it",
    "payload means nothing to me",
    "meaning to ask about the coupler",
    "what is DEF...",
    "what the heck is that",
    "what does the sticker on the door say",
    "what's that thing",
    "what counts as honey",
    "how is dad figured",
    "are you two the same",
    "what does the number on the door mean",
    "mean old coupler",
    "explain tomorrow",
    "what's def gonna happen",
    "it makes no difference between us",
    "what is payload and why does nobody at the dealership ever talk about it with any of us",
)
"""What people say to each other in the same frames, or with the same words."""


def exactly(word: str) -> str:
    return word


def asked(text: str, language: str = "en") -> tuple[str, ...]:
    return meaning_asked(text, glossary_in(language), exactly)


@pytest.mark.parametrize(("text", "terms"), ASKS.items(), ids=ASKS.keys())
def test_a_meaning_is_asked_for(text: str, terms: tuple[str, ...]) -> None:
    assert asked(text) == terms


@pytest.mark.parametrize("text", OF_THIS_RIG)
def test_what_stands_around_a_term_makes_it_another_matter(text: str) -> None:
    assert asked(text) == ()


@pytest.mark.parametrize("text", TALK)
def test_talk_is_left_alone(text: str) -> None:
    assert asked(text) == ()


def test_a_slip_is_what_it_is_a_slip_of() -> None:
    assert meaning_asked("what is gvrw", glossary_in("en"), {"gvrw": "gvwr"}.__getitem__) == (
        "gvwr",
    )


def test_four_words_at_once_are_too_many() -> None:
    assert asked("what do payload, tare and wll mean") == ("payload", "tare", "wll")
    assert asked("what do payload, tare, gawr and wll mean") == ()


@pytest.fixture(params=LANGUAGES)
def glossary(request: pytest.FixtureRequest) -> Glossary:
    return glossary_in(request.param)


def test_every_language_has_the_same_terms(glossary: Glossary) -> None:
    assert glossary.terms.keys() == glossary_in("en").terms.keys()
    assert set(glossary.words.values()) == glossary.terms.keys()


def test_a_word_names_one_term(glossary: Glossary) -> None:
    from bot.shared_data import read_toml

    language = next(each for each in LANGUAGES if glossary_in(each) is glossary)
    words = [
        folded(word)
        for term in read_toml(f"glossary/{language}.toml")["term"].values()
        for word in term["words"]
    ]
    assert len(words) == len(set(words)) == len(glossary.words)


def test_every_definition_names_its_source_and_how_far_it_was_checked(glossary: Glossary) -> None:
    for key, term in glossary.terms.items():
        assert len(term.source) > 10, key
        assert term.status in ("V", "V2", "M"), key
        assert term.status == "M" or "common practice" not in term.source, key


def test_a_definition_is_one_breath(glossary: Glossary) -> None:
    for key, term in glossary.terms.items():
        assert len(f"{term.says} {term.where}") <= BREATH, key
        for said in (term.says, term.where):
            assert said.endswith("."), key
            assert not re.search(r"[!(]|\bsafe|\bsegur[oa]s? (?!que)", said), key


def test_every_term_of_a_figure_is_in_the_glossary(glossary: Glossary) -> None:
    assert FIGURES.keys() | TOPICS.keys() <= glossary.terms.keys()
    assert {topic for topic, _ in TOPICS.values()} <= set(ASKED)
    subjects = {subject for each in FIGURES.values() for subject, _ in each}
    assert subjects <= {None, "truck", "trailer", "hitch"}


def test_every_term_is_asked_for_by_each_of_its_names(glossary: Glossary) -> None:
    language = next(each for each in LANGUAGES if glossary_in(each) is glossary)
    frame = {"en": "what does {} mean?", "es": "¿qué significa {}?"}[language]
    for word, key in glossary.words.items():
        assert meaning_asked(frame.format(word), glossary, exactly) == (key,), word


def figures(text: str) -> list[float]:
    return [float(each.replace(",", "")) for each in re.findall(r"\d[\d,]*(?:\.\d+)?", text)]


def test_the_customary_shares_are_left_to_the_country(glossary: Glossary) -> None:
    for name, term in glossary.terms.items():
        places = re.findall(r"\{(\w+)\}", term.where)
        assert places == (["low", "high"] if name in SHARES else []), name
        assert "{" not in term.says


def test_the_load_index_of_the_example_is_the_tables() -> None:
    says = glossary_in("en").terms["load_index"].says
    index, pounds = figures(says)
    kilograms = references().load_index[int(index)]
    assert pounds == pytest.approx(Quantity(kilograms, "kg").amount("lb"), abs=0.5)


def test_breaking_strength_is_a_multiple_of_the_working_load_limit() -> None:
    # 49 CFR 393.108 gives 3/8 grade 70 chain 6,600 lb; makers print 26,400 lb as what breaks it.
    chain = next(
        each
        for each in references().working_loads
        if each.material == "chain" and each.size == "3/8" and "70" in each.type
    )
    assert 26_400 / chain.lb == 4
    assert "a quarter" in glossary_in("en").terms["breaking"].says
