"""Answers to the entries that only need a nod: odometer, hitch, gauge, load, check, note.

This file decides how short a confirmation can be while the texter can still see that the
right figures were kept. It works nothing out.
"""

from __future__ import annotations

from collections.abc import Sequence

from bot.answers.answer import Answer
from bot.answers.brief import EVENT_WORDS, brief
from bot.answers.words import figure, listed, sentence
from domain.entries import Cargo, Check, Hitch, Note, Observation, Odometer

FAULT_NOTE = "See to it before you pull away; a licensed mechanic where you are not sure."


def odometer_kept(entry: Odometer) -> Answer:
    """An odometer reading was kept."""
    words = f"{figure(entry.odometer)}"
    event = f", {EVENT_WORDS[entry.event]}" if entry.event else ""
    where = f" at {entry.place}" if entry.place else ""
    return Answer(headline=f"Odometer {words}{event}{where}.")


def hitch_kept(entry: Hitch) -> Answer:
    """A trailer went on or came off."""
    which = sentence(entry.trailer) if entry.trailer else "Trailer"
    where = f" at {entry.place}" if entry.place else ""
    on = "hitched" if entry.action == "hitched" else "off; running solo"
    return Answer(headline=f"{which} {on}{where}.")


def observations_kept(entries: Sequence[Observation]) -> Answer:
    """Gauges were read."""
    return Answer(headline=f"{sentence(listed([brief(entry) for entry in entries]))}, kept.")


def cargo_kept(entries: Sequence[Cargo]) -> Answer:
    """Something was loaded."""
    return Answer(
        headline=f"Loaded: {listed([brief(entry) for entry in entries])}.",
        notes=("Only a scale tells what it does to the axles.",),
    )


def checks_kept(entries: Sequence[Check]) -> Answer:
    """Points of the walk-round were seen to, or found at fault."""
    done = [entry.item for entry in entries if entry.state == "done"]
    faults = [
        f"{entry.item} ({entry.trailer})" if entry.trailer else entry.item
        for entry in entries
        if entry.state == "fault"
    ]
    checked = f"Checked: {listed(done)}." if done else ""
    if not faults:
        return Answer(headline=checked)
    notes = (FAULT_NOTE, checked) if checked else (FAULT_NOTE,)
    return Answer(headline=f"Fault noted: {listed(faults)}.", notes=notes)


def note_kept(entry: Note) -> Answer:
    """Words were kept."""
    return Answer(headline=f"Noted: {entry.note}")
