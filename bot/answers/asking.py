"""What is asked back when a message is in doubt.

This file decides the one sentence that says what was not understood and what to send
instead, by the reason that the reader gave and else by the field in doubt. It does not know
how a doubt arises, nor how its answer is bound.
"""

from __future__ import annotations

from collections.abc import Mapping

from bot.answers.answer import Answer
from bot.answers.brief import brief, field_name, load_name
from bot.answers.language import marked, say
from bot.answers.words import either, figure, number, sentence
from domain.choices import LABELS, ChoiceLabel
from domain.pictured import PHOTO
from domain.plausible import FAR_OVER
from domain.verdicts import Ask

WHICH_TRAILER = "which_trailer"
WHICH_FIGURE = "which_figure"

BY_REASON: Mapping[str, str] = {
    "does_not_sum": marked("The axles make {one}, the gross reads {other}. Which figure is wrong?"),
    "lone_load": marked("{one} of what?"),
    "two_loads": marked("{one} and {other}: which axles are those?"),
    "implausible": marked("{one} can't be right for the {field}. What was it?"),
    FAR_OVER: marked("{one} on the {field} is far beyond its rating, {other}. Is that right?"),
    "swapped": marked("Steer {one} and drive {other}: are they the wrong way round?"),
    "backwards": marked("{one} is behind the last reading, {other}. What does the odometer show?"),
    "jump": marked(
        "{one} is a long way past the last reading, {other}. What does the odometer show?"
    ),
    "over_tank": marked("{one} is more than the tank holds, {other}. How much went in?"),
    "price_does_not_fit": marked(
        "Volume and price make {one}, not {other}. Which figure is wrong?"
    ),
    WHICH_TRAILER: marked("Which trailer is on?"),
    WHICH_FIGURE: marked("Which figure do you mean?"),
}
"""A sentence for each reason, with the `one` and the `other` figure in doubt as they are given."""

BY_FIELD: Mapping[str, str] = {
    "gross": marked("The axles don't make the gross. Which figure is wrong?"),
    "weighing": marked("Which axles are those?"),
    "odometer": marked("That odometer doesn't follow from the last one. What does it show?"),
    "volume": marked("That is more than the tank holds. How much went in?"),
    "cost": marked("Volume and price don't make that total. Which figure is wrong?"),
    "fill": marked("Is that the odometer or the volume?"),
    PHOTO: marked("Is this what the photo says?"),
    "rating": marked("Which rating is that, and of what: truck, trailer or hitch?"),
    "trailer": marked("Which trailer do you mean?"),
    "truck": marked("Which truck do you mean?"),
}
"""A sentence for each kind or field, where the reason has none."""

LAST_RESORT = marked(
    "I'm not sure of the {field}. Can you send it again, with a word for each figure?"
)

NOT_KEPT = marked("Nothing is kept until then.")
SEND_AGAIN = marked("Send the figure again.")


FIELD_WORDS: Mapping[str, str] = {
    "observation": marked("gauge"),
    "weighing": marked("scale"),
    "cargo": marked("load"),
}
"""What a kind in doubt is called in a sentence, where it is not called what it is."""


def ask_answer(ask: Ask, *, kept: bool = False) -> Answer:
    """The question back. `kept` where the message's facts stand whatever the answer is."""
    # A doubt about a whole photo is only settled by seeing what was read.
    read = [each for choice in ask.choices for each in choice.entries if ask.about == PHOTO]
    shown = tuple(f"{sentence(brief(each))}." for each in read)
    return Answer(
        headline=_sentence(ask),
        notes=(*shown, _pick(ask)) if kept else (*shown, f"{_how(ask)} {say(NOT_KEPT)}"),
        choices=_choices(ask),
        urgent=ask.why == FAR_OVER,
    )


def held_answer() -> Answer:
    """What is said of a doubt while the texter may be at the wheel."""
    return Answer(headline=say("Got it. One thing to ask about that, at the next stop."))


def stuck_answer(text: str) -> Answer:
    """What is said of a message on which the program failed again and again."""
    return Answer(
        headline=say("I can't make this out, and it's not in the log yet."),
        notes=(say("It's kept, and will be read again: {text}", text=text), say(SEND_AGAIN)),
    )


def still_open_answer(ask: Ask) -> Answer:
    """What is said where a correction meets a doubt of which nothing was kept."""
    return Answer(
        headline=say(
            "Nothing is kept of that yet. Send the whole line again with the right figures."
        ),
        notes=(_sentence(ask), _pick(ask)) if ask.choices else (_sentence(ask),),
        choices=_choices(ask),
    )


def _choices(ask: Ask) -> tuple[str, ...]:
    return tuple(choice_label(each.label) for each in ask.choices)


def choice_label(label: ChoiceLabel | str) -> str:
    """What a choice is called, in the language in force."""
    if isinstance(label, str):
        return label
    shown = label.figure
    loads = (f"{load_name(name)} {figure(load)}" for name, load in label.loads.items())
    return say(
        LABELS[label.way],
        number=number(shown.value) if shown else "",
        figure=figure(shown) if shown else "",
        position=load_name(label.position or ""),
        loads=", ".join(loads),
    )


def _sentence(ask: Ask) -> str:
    words = FIELD_WORDS.get(ask.about)
    field = say(words) if words else field_name(ask.about)
    figures = dict(zip(("one", "other"), map(figure, ask.figures), strict=False))
    try:
        return say(BY_REASON[ask.why], field=field, **figures)
    except KeyError:
        # A reason without a sentence, or with fewer figures than its sentence names.
        return say(BY_FIELD.get(ask.about, LAST_RESORT), field=field)


def _how(ask: Ask) -> str:
    if not ask.choices:
        return say(SEND_AGAIN)
    return say("Answer {numbers}, or send the figure again.", numbers=_numbers(ask))


def _pick(ask: Ask) -> str:
    """How to answer where no figure is in doubt, or the whole line is to be sent again."""
    if not ask.choices:
        return say(SEND_AGAIN)
    return say("Answer {numbers}.", numbers=_numbers(ask))


def _numbers(ask: Ask) -> str:
    return either([str(number) for number in range(1, len(ask.choices) + 1)])
