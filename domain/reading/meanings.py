"""What a word means: asked of what else is talk, or asks for a figure.

This file decides what becomes of a message that asks for the meaning of a term: it stays the
question that it was, or becomes one of the term's own topic. When a message asks so is decided
in `domain/glossary.py`; where it asks what figures of its own mean, here.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from functools import partial

from domain.entries import Entry, Rating
from domain.glossary import FIGURES, TOPICS, may_ask, meaning_asked
from domain.reading.phrasebook import Phrasebook
from domain.reading.scene import Scene
from domain.verdicts import Question, Silent, Verdict

UNTOLD = (Silent, Question)
"""Verdicts that a meaning may stand behind; facts and doubts are about figures."""


def meaning_first(text: str, verdict: Verdict, book: Phrasebook) -> Verdict:
    """A verdict on a message, or the question for a meaning where the message asks for one."""
    glossary = book.glossary
    if glossary is None or not isinstance(verdict, UNTOLD) or not may_ask(text, glossary):
        return verdict
    terms = meaning_asked(text, glossary, partial(_respelled, book))
    if not terms:
        return verdict
    if isinstance(verdict, Question):
        return replace(verdict, meaning=terms)
    first = terms[0]
    if first in FIGURES:
        return Question(topic="ratings", rating=FIGURES[first][-1][1], meaning=terms, text=text)
    topic, field = TOPICS.get(first, ("help", None))
    return Question(topic=topic, field=field, meaning=terms, text=text)


def meaning_of_figures(scene: Scene, stated: Sequence[Entry]) -> Question | Silent | None:
    """'tires 121/118 what do those numbers mean': a question, of ratings that nobody told.

    Silence where the glossary has no such word, and None where something is told: figures off a
    label that is named are.
    """
    rated = [each for each in stated if isinstance(each, Rating)]
    asked = scene.book.patterns["asks_meaning"].search(scene.text)
    if asked is None or len(rated) < len(stated) or scene.has("rating_cue"):
        return None
    named = {(subject, each.rating) for each in rated for subject in (None, each.subject)}
    terms = [term for term, figures in FIGURES.items() if not named.isdisjoint(figures)]
    if not terms:
        return Silent()
    rating = FIGURES[terms[0]][-1][1]
    return Question(topic="ratings", rating=rating, meaning=(terms[0],), text=scene.text)


def _respelled(book: Phrasebook, word: str) -> str:
    """A word as it is spelled, where it is a known slip of another."""
    return book.aliases.get(word) or book.respelled.get(word) or word
