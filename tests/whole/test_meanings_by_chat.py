"""What a word means, through the whole of Drawbar: the definition, where it stands, the figure."""

from __future__ import annotations

import asyncio
from pathlib import Path

import pytest

from bot.answers.answer import Answer
from bot.glossary import glossary_in
from tests.whole.test_language_by_chat import said

RIG = (
    "truck Juniper gvwr 11500 gcwr 27000 front axle 5600 rear axle 7000 payload 3180",
    "trailer flatdeck gvwr 12000 axles 2x6000",
    "hitch rating 14000, tongue rating 1400",
    "hitched flatdeck",
)
AT_THE_SCALE = ("solo: steer 5280 drive 4620", "hitched: steer 4960 drive 6100 trailer 8480")
EN, ES = glossary_in("en").terms, glossary_in("es").terms


def asked(folder: Path, question: str, *before: str, language: str | None = None) -> Answer:
    return asyncio.run(said(folder, *before, question, language=language))[-1]


def rows(answer: Answer) -> dict[str, str]:
    return {row.label: row.figure for row in answer.rows}


def test_a_rating_is_defined_and_this_rigs_stand_beside(tmp_path: Path) -> None:
    answer = asked(tmp_path, "what is GVWR", *RIG)
    assert answer.headline == EN["gvwr"].says
    assert rows(answer) == {"Truck GVWR": "11,500 lb", "Trailer GVWR": "12,000 lb"}
    assert answer.notes == (EN["gvwr"].where,)


def test_an_axles_rating_is_told_of_every_axle(tmp_path: Path) -> None:
    answer = asked(tmp_path, "define gawr", *RIG)
    assert rows(answer) == {
        "Steer axle": "5,600 lb",
        "Drive axle": "7,000 lb",
        "Trailer axle": "6,000 lb",
    }


def test_the_hitchs_ratings_are_the_hitchs_alone(tmp_path: Path) -> None:
    answer = asked(tmp_path, "what is a hitch rating?", *RIG, "truck tow rating 15000")
    assert rows(answer) == {"Hitch": "14,000 lb", "Hitch tongue": "1,400 lb"}


def test_in_an_empty_logbook_a_word_is_defined_all_the_same(tmp_path: Path) -> None:
    answer = asked(tmp_path, "explain payload")
    assert (answer.headline, answer.rows) == (EN["payload"].says, ())
    assert answer.notes == (EN["payload"].where,)


def test_what_was_weighed_is_told_behind_the_word(tmp_path: Path) -> None:
    # By hand: 4,960 + 6,100 hitched less 5,280 + 4,620 alone is 1,160 on the tongue.
    answer = asked(tmp_path, "what's tongue weight", *RIG, *AT_THE_SCALE)
    assert answer.headline == EN["tongue"].says
    assert answer.notes[0] == EN["tongue"].where.format(low=10, high=15)
    assert answer.notes[1].startswith("Tongue 1,160 lb")


def test_the_article_asks_for_the_figure_alone(tmp_path: Path) -> None:
    answer = asked(tmp_path, "what's the tongue weight", *RIG, *AT_THE_SCALE)
    assert answer.headline.startswith("Tongue 1,160 lb")


def test_two_words_are_told_apart_with_their_figures_and_the_caution(tmp_path: Path) -> None:
    answer = asked(tmp_path, "difference between GVWR and GCWR", *RIG)
    assert answer.headline == EN["gvwr"].says
    assert rows(answer)["GCWR"] == "27,000 lb"
    caution = "Door label, manual, local law and a licensed mechanic govern."
    assert answer.notes == (EN["gcwr"].says, caution)


@pytest.mark.parametrize("question", ["what is wll", "what's sway", "what does DEF mean"])
def test_a_word_without_a_figure_is_its_definition(tmp_path: Path, question: str) -> None:
    answer = asked(tmp_path, question, *RIG)
    assert answer.headline in {term.says for term in EN.values()}
    assert answer.rows == ()
    assert len(answer.notes) == 1


def test_every_term_has_its_answer(tmp_path: Path) -> None:
    words = {key: word for word, key in glossary_in("en").words.items()}
    texts = [f"what does {words[key]} mean" for key in EN]
    answers = asyncio.run(said(tmp_path, *texts))
    assert [each.headline for each in answers] == [each.says for each in EN.values()]


def test_in_spanish_it_is_spanish(tmp_path: Path) -> None:
    answer = asked(tmp_path, "qué es el PBV", language="es")
    assert answer.headline == ES["gvwr"].says
    assert answer.notes == (ES["gvwr"].where,)


def test_talk_gets_no_answer(tmp_path: Path) -> None:
    # Alone with it, and with a question mark: what is not understood is said, and nothing defined.
    answers = asyncio.run(said(tmp_path, "what is love", "explain yourself", "honey vs jam?"))
    assert [each.headline[:17] for each in answers] == ["I can't tell what"]
