"""Answers to the entries that only need a nod: odometer, hitch, gauge, load, note.

This file decides how short a confirmation can be while the texter can still see that the
right figures were kept. It works nothing out.
"""

from __future__ import annotations

from collections.abc import Sequence

from bot.answers.answer import Answer
from bot.answers.brief import EVENT_WORDS, brief
from bot.answers.words import figure, listed, sentence
from domain.entries import Cargo, Hitch, Note, Observation, Odometer


def odometer_kept(entry: Odometer) -> Answer:
    """An odometer reading was kept."""
    words = f"{figure(entry.odometer)}"
    event = f", {EVENT_WORDS[entry.event]}" if entry.event else ""
    where = f" at {entry.place}" if entry.place else ""
    return Answer(headline=f"Odometer {words}{event}{where}.", quiet=True)


def hitch_kept(entry: Hitch) -> Answer:
    """A trailer went on or came off."""
    which = sentence(entry.trailer) if entry.trailer else "Trailer"
    where = f" at {entry.place}" if entry.place else ""
    if entry.action == "hitched":
        return Answer(headline=f"{which} hitched{where}.", quiet=True)
    return Answer(headline=f"{which} off{where}; running solo.", quiet=True)


def observations_kept(entries: Sequence[Observation]) -> Answer:
    """Gauges were read."""
    told = sentence(listed([brief(entry) for entry in entries]))
    return Answer(headline=f"{told}, kept.", quiet=True)


def cargo_kept(entries: Sequence[Cargo]) -> Answer:
    """Something was loaded."""
    return Answer(
        headline=f"Loaded: {listed([brief(entry) for entry in entries])}.",
        notes=("Only a scale tells what it does to the axles.",),
    )


def note_kept(entry: Note) -> Answer:
    """Words were kept."""
    return Answer(headline=f"Noted: {entry.note}", quiet=True)
