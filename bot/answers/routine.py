"""Answers to the entries that only need a nod: odometer, hitch, gauge, load, note.

This file decides how short a confirmation can be while the texter can still see that the
right figures were kept. It works nothing out.
"""

from __future__ import annotations

from collections.abc import Sequence

from bot.answers.answer import Answer
from bot.answers.brief import at_place, brief, on_the_way
from bot.answers.language import say
from bot.answers.words import figure, listed, rounded, sentence
from domain.entries import Cargo, Hitch, Note, Observation, Odometer
from domain.quantities import VOLUMES
from domain.water import mass_of


def odometer_kept(entry: Odometer) -> Answer:
    """An odometer reading was kept."""
    reading = on_the_way(figure(entry.odometer), entry)
    return Answer(headline=say("Odometer {figure}.", figure=reading), quiet=True)


def hitch_kept(entry: Hitch) -> Answer:
    """A trailer went on or came off."""
    which = sentence(entry.trailer) if entry.trailer else say("Trailer")
    went_on = entry.action == "hitched"
    done = (
        say("{trailer} hitched", trailer=which) if went_on else say("{trailer} off", trailer=which)
    )
    if entry.place:
        done = at_place(done, entry.place)
    headline = f"{done}." if went_on else say("{unhitched}; running solo.", unhitched=done)
    return Answer(headline=headline, quiet=True)


def observations_kept(entries: Sequence[Observation]) -> Answer:
    """Gauges were read."""
    told = sentence(listed([brief(entry) for entry in entries]))
    return Answer(headline=say("{entries}, kept.", entries=told), quiet=True)


def cargo_kept(entries: Sequence[Cargo]) -> Answer:
    """Something was loaded; water, which is told by its volume, with what it weighs."""
    poured = [mass_of(entry.value) for entry in entries if entry.value.unit in VOLUMES]
    masses = [rounded(mass) for mass in poured if mass is not None]
    weighs = (say("Water weighs: {masses}.", masses=listed(masses)),) if masses else ()
    return Answer(
        headline=say("Loaded: {entries}.", entries=listed([brief(entry) for entry in entries])),
        notes=(*weighs, say("Only a scale tells what it does to the axles.")),
    )


def note_kept(entry: Note) -> Answer:
    """Words were kept."""
    return Answer(headline=say("Noted: {words}", words=entry.note), quiet=True)
