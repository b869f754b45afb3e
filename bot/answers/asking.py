"""What is asked back when a message is in doubt.

This file decides the one sentence that says what was not understood and what to send
instead, by the reason that the reader gave and else by the field in doubt. It does not know
how a doubt arises, nor how its answer is bound.
"""

from __future__ import annotations

from collections.abc import Mapping

from bot.answers.answer import Answer
from bot.answers.brief import field_name
from bot.answers.words import figure, listed
from domain.context import Units
from domain.entries import POSITIONS
from domain.log import Preferences
from domain.verdicts import Ask

WHICH_TRAILER = "which trailer"
WHICH_FIGURE = "which figure"

BY_REASON: Mapping[str, str] = {
    WHICH_TRAILER: "Which trailer is on?",
    WHICH_FIGURE: "Which figure do you mean?",
}
"""A sentence for each reason; the figures in doubt stand after it where there are any."""

BY_FIELD: Mapping[str, str] = {
    "gross": "The axles don't add up to the gross. Which figure is wrong?",
    "weighing": "Which axle is that: steer, drive, trailer axles or gross?",
    "odometer": "That odometer doesn't follow from the last reading. What does it show?",
    "volume": "That is more than the tank holds. How much went in?",
    "cost": "Volume and price don't make that total. Which one is wrong?",
    "unit_price": "That price looks off. What was it for one {volume}?",
    "fill": "Is that the odometer or the volume?",
    "observation": "That reading can't be right. What does the gauge show?",
    "rating": "Which rating is that, and of what: truck, trailer or hitch?",
    "place": "Which place do you mean?",
    "trailer": "Which trailer do you mean?",
    "truck": "Which truck do you mean?",
}
"""A sentence for each kind or field that can be in doubt."""

VOLUME_WORDS: Mapping[Units, str] = {"us": "gallon", "metric": "litre", "imperial": "litre"}

NOT_KEPT = "Nothing is kept until you say."


def ask_answer(ask: Ask, preferences: Preferences, *, kept: bool = False) -> Answer:
    """The question back. `kept` where the message's facts stand whatever the answer is."""
    known = BY_REASON.get(ask.why) or BY_FIELD.get(ask.about)
    headline = known or f"I'm not sure of the {field_name(ask.about)}. Can you send it again?"
    figures = listed([figure(each) for each in ask.figures], "and")
    notes = [f"In doubt: {figures}."] if figures else []
    if ask.about in POSITIONS and ask.about != "gross" and not ask.why:
        headline = f"The {field_name(ask.about)} figure can't be right. What did the scale read?"
    if not kept:
        notes.append(NOT_KEPT)
    return Answer(
        headline=headline.format(volume=VOLUME_WORDS[preferences.units]),
        notes=tuple(notes),
        choices=tuple(choice.label for choice in ask.choices),
    )
