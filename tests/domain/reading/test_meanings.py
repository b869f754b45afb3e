"""What a word means, asked in a chat: a question of its own, and silence for talk as before."""

from __future__ import annotations

import pytest

from bot.phrasebook import phrasebook
from domain.reading import read
from domain.records import verdict_to_record
from domain.verdicts import Ask, Facts, Question, Silent, Verdict
from tests.domain.reading.chats import Reader, on_the_road
from tests.domain.test_glossary import OF_THIS_RIG, TALK

ASKED = {
    "what is gvwr": {"topic": "ratings", "rating": "gvwr", "meaning": ["gvwr"]},
    "what is gvrw": {"topic": "ratings", "rating": "gvwr", "meaning": ["gvwr"]},
    "explain payload": {"topic": "ratings", "rating": "payload", "meaning": ["payload"]},
    "define gawr": {"topic": "ratings", "rating": "gawr", "meaning": ["gawr"]},
    "what's a pin weight": {"topic": "tongue", "meaning": ["pin"]},
    "what does margin mean?": {"topic": "margin", "meaning": ["margin"]},
    "what is gross weight": {"topic": "weight", "field": "gross", "meaning": ["gross"]},
    "what is wll": {"topic": "help", "meaning": ["wll"]},
    "difference between GVWR and GCWR": {
        "topic": "ratings",
        "rating": "gvwr",
        "meaning": ["gvwr", "gcwr"],
    },
}

SPANISH = {
    "qué es el PBV": {"topic": "ratings", "rating": "gvwr", "meaning": ["gvwr"]},
    "que es pbvc": {"topic": "ratings", "rating": "gcwr", "meaning": ["gcwr"]},
    "¿Qué significa carga útil?": {"topic": "ratings", "rating": "payload", "meaning": ["payload"]},
    "qué es un acoplador": {"topic": "help", "meaning": ["coupler"]},
    "diferencia entre el PBV y el PBVC": {
        "topic": "ratings",
        "rating": "gvwr",
        "meaning": ["gvwr", "gcwr"],
    },
    "no sé qué es el GAWR": {"topic": "ratings", "rating": "gawr", "meaning": ["gawr"]},
    "el peso en la lanza, ¿qué es?": {"topic": "tongue", "meaning": ["tongue"]},
    "¿son lo mismo tara y peso seco?": {"topic": "help", "meaning": ["tare", "dry"]},
    "¿Qué significa el PBV de la puerta?": {
        "topic": "ratings",
        "rating": "gvwr",
        "meaning": ["gvwr"],
    },
    "qué es eso del coleo": {"topic": "help", "meaning": ["sway"]},
    "qué cuenta como carga útil": {"topic": "ratings", "rating": "payload", "meaning": ["payload"]},
    "en qué se diferencia el perno rey de la quinta rueda": {
        "topic": "tongue",
        "meaning": ["kingpin", "fifth_wheel"],
    },
    "alguien sabe qué es la carga de rotura": {"topic": "help", "meaning": ["breaking"]},
}

SPANISH_TALK = (
    "qué es el amor",
    "qué es eso",
    "qué es lo mismo",
    "explícate",
    "no sé qué es",
    "qué significa esto para nosotros",
    "define normal",
    "diferencia entre miel y mermelada",
    "qué quiere decir tu abuela",
    "qué es un conjunto musical",
    "no es lo mismo",
    "que es la carga de la vida",
    "qué rayos es eso",
    "qué cuenta tu hermana",
    "cómo se define la amistad",
    "en qué se diferencia mi primo del tuyo",
)


def lee(text: str) -> Verdict:
    return read(text, on_the_road(language="es"), phrasebook("es"))


@pytest.mark.parametrize(("text", "question"), ASKED.items(), ids=ASKED.keys())
def test_a_meaning_is_a_question_of_the_terms_own_topic(
    reads: Reader, text: str, question: dict[str, object]
) -> None:
    assert verdict_to_record(reads(text, on_the_road()))["question"] == question


@pytest.mark.parametrize(("text", "question"), SPANISH.items(), ids=SPANISH.keys())
def test_so_it_is_in_spanish(text: str, question: dict[str, object]) -> None:
    assert verdict_to_record(lee(text))["question"] == question


@pytest.mark.parametrize("text", OF_THIS_RIG)
def test_another_matter_stays_what_it_was(reads: Reader, text: str) -> None:
    verdict = reads(text, on_the_road())
    assert not (isinstance(verdict, Question) and verdict.meaning)


@pytest.mark.parametrize("text", ["cuál es el PBV", "cuál es nuestra carga útil", "¿PBV?"])
def test_so_it_does_in_spanish(text: str) -> None:
    verdict = lee(text)
    assert isinstance(verdict, Question)
    assert not verdict.meaning


@pytest.mark.parametrize("text", TALK)
def test_talk_with_the_same_words_stays_talk(reads: Reader, text: str) -> None:
    verdict = reads(text, on_the_road())
    assert isinstance(verdict, Silent)


@pytest.mark.parametrize("text", SPANISH_TALK)
def test_talk_in_spanish_stays_talk(text: str) -> None:
    assert isinstance(lee(text), Silent)


def test_a_meaning_can_be_asked_while_something_else_is_open(reads: Reader) -> None:
    verdict = reads("what is payload?", on_the_road(asked=Ask("weighing", (), "unplaced")))
    assert isinstance(verdict, Question)
    assert verdict.meaning == ("payload",)


@pytest.mark.parametrize(
    ("text", "term"),
    [
        ("tires 115/112 what do those numbers mean", "load_index"),
        ("what do the numbers 115/112 on the tyres mean?", "load_index"),
        ("tire says 115/112R no idea what that means", "load_index"),
        ("load index 115, what does it stand for", "load_index"),
        ("gvwr 10,200 what does that mean", "gvwr"),
    ],
)
def test_figures_whose_meaning_is_asked_are_not_kept(text: str, term: str, reads: Reader) -> None:
    read = reads(text, on_the_road())
    assert isinstance(read, Question), read
    assert (read.topic, read.meaning) == ("ratings", (term,))


def test_figures_of_no_word_that_is_explained(reads: Reader) -> None:
    assert reads("d value 9.4 kn what does that stand for", on_the_road()) == Silent()


@pytest.mark.parametrize(
    "text",
    [
        "door sticker gvwr 10,200, front 4,850, what does it all mean",
        "gvwr is 10,200 which means 1,900 to spare",
        "gvwr is 10,200, that's what I mean",
        "tires are 115/112",
    ],
)
def test_figures_that_are_told_are_kept(text: str, reads: Reader) -> None:
    assert isinstance(reads(text, on_the_road()), Facts)
