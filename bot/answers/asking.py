"""What is asked back when a message is in doubt.

This file decides the one sentence that says what was not understood and what to send
instead, by the reason that the reader gave and else by the field in doubt. It does not know
how a doubt arises, nor how its answer is bound.
"""

from __future__ import annotations

from collections.abc import Mapping

from bot.answers.answer import Answer
from bot.answers.brief import brief, field_name
from bot.answers.words import figure, listed, sentence
from domain.verdicts import Ask

FAR_OVER = "far_over"
PHOTO = "photo"
WHICH_TRAILER = "which_trailer"
WHICH_FIGURE = "which_figure"

BY_REASON: Mapping[str, str] = {
    "does_not_sum": "The axles make {0}, the gross reads {1}. Which figure is wrong?",
    "lone_load": "{0} of what?",
    "two_loads": "{0} and {1}: which axles are those?",
    "implausible": "{0} can't be right for the {field}. What was it?",
    FAR_OVER: "{0} on the {field} is far beyond its rating, {1}. Is that right?",
    "swapped": "Steer {0} and drive {1}: are they the wrong way round?",
    "backwards": "{0} is behind the last reading, {1}. What does the odometer show?",
    "jump": "{0} is a long way past the last reading, {1}. What does the odometer show?",
    "over_tank": "{0} is more than the tank holds, {1}. How much went in?",
    "price_does_not_fit": "Volume and price make {0}, not {1}. Which figure is wrong?",
    WHICH_TRAILER: "Which trailer is on?",
    WHICH_FIGURE: "Which figure do you mean?",
}
"""A sentence for each reason, with the figures in doubt in the order in which they are given."""

BY_FIELD: Mapping[str, str] = {
    "gross": "The axles don't make the gross. Which figure is wrong?",
    "weighing": "Which axles are those?",
    "odometer": "That odometer doesn't follow from the last one. What does it show?",
    "volume": "That is more than the tank holds. How much went in?",
    "cost": "Volume and price don't make that total. Which figure is wrong?",
    "fill": "Is that the odometer or the volume?",
    PHOTO: "Is this what the photo says?",
    "rating": "Which rating is that, and of what: truck, trailer or hitch?",
    "trailer": "Which trailer do you mean?",
    "truck": "Which truck do you mean?",
}
"""A sentence for each kind or field, where the reason has none."""

LAST_RESORT = "I'm not sure of the {field}. Can you send it again, with a word for each figure?"

NOT_KEPT = "Nothing is kept until then."
SEND_AGAIN = "Send the figure again."


FIELD_WORDS: Mapping[str, str] = {"observation": "gauge", "weighing": "scale", "cargo": "load"}
"""What a kind in doubt is called in a sentence, where it is not called what it is."""


def ask_answer(ask: Ask, *, kept: bool = False) -> Answer:
    """The question back. `kept` where the message's facts stand whatever the answer is."""
    # A doubt about a whole photo is only settled by seeing what was read.
    read = [each for choice in ask.choices for each in choice.entries if ask.about == PHOTO]
    shown = tuple(f"{sentence(brief(each))}." for each in read)
    return Answer(
        headline=_sentence(ask),
        notes=shown if kept else (*shown, f"{_how(ask)} {NOT_KEPT}"),
        choices=tuple(choice.label for choice in ask.choices),
        urgent=ask.why == FAR_OVER,
    )


def held_answer() -> Answer:
    """What is said of a doubt while the texter may be at the wheel."""
    return Answer(headline="Got it. One thing to ask about that, at the next stop.")


def stuck_answer(text: str) -> Answer:
    """What is said of a message on which the program failed again and again."""
    return Answer(
        headline="I can't make this out, and it's not in the log yet.",
        notes=(f"It's kept, and will be read again: {text}", SEND_AGAIN),
    )


def still_open_answer(ask: Ask) -> Answer:
    """What is said where a correction meets a doubt of which nothing was kept."""
    return Answer(
        headline="Nothing is kept of that yet. Send the whole line again with the right figures.",
        notes=(_sentence(ask),),
        choices=tuple(choice.label for choice in ask.choices),
    )


def _sentence(ask: Ask) -> str:
    field = FIELD_WORDS.get(ask.about) or field_name(ask.about)
    figures = [figure(each) for each in ask.figures]
    try:
        return BY_REASON[ask.why].format(*figures, field=field)
    except (KeyError, IndexError):
        # A reason without a sentence, or with fewer figures than its sentence names.
        return BY_FIELD.get(ask.about, LAST_RESORT).format(field=field)


def _how(ask: Ask) -> str:
    numbers = [str(number) for number in range(1, len(ask.choices) + 1)]
    if not numbers:
        return SEND_AGAIN
    return f"Answer {listed(numbers, 'or')}, or send the figure again."
