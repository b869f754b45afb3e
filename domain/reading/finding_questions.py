"""The question of a message that may have several sentences or clauses.

This file decides which part of a message asks, and that the rest is why it is asked, how politely,
or talk. What a part by itself asks is decided in `questions`.
"""

from __future__ import annotations

from collections.abc import Sequence

from domain.reading.lexer import LINK
from domain.reading.plain_questions import understands
from domain.reading.questions import read_question
from domain.reading.scene import Scene
from domain.reading.short_questions import asks_if_enough
from domain.reading.talk import ADVERT, OTHER
from domain.reading.tokens import NUMBER
from domain.verdicts import Question

LEAST_OF_A_RIG = 1000
"""A load of a rig is no less, in pounds or in kilograms."""


def find_question(scene: Scene) -> Question | None:
    """The question of a message; of several sentences, one alone must ask it.

    'how far have we come since the last fill? feels like forever': the rest is talk.
    """
    question = read_question(scene) or _in_a_clause(scene) or _before_forgetting(scene)
    if "?" not in scene.text and (question is None or scene.has("talk", ADVERT)):
        return None  # 'asking price is 14,500, GVWR 14,000'
    if question is not None and question.topic == "margin" and "signs_off" in scene.groups:
        said = _before_signing_off(scene)
        if said is not None:
            return find_question(Scene(said, scene.context, scene.book))
    if LINK in scene.text:
        return None  # a page is shown to people
    if question is not None and question.topic == "tiedown" and asks_if_enough(scene):
        return question
    if question is not None and _of_another_rig(scene):
        return None
    ends = [index for index, token in enumerate(scene.tokens) if token.ends_sentence]
    if not [index for index in ends if index + 1 < len(scene.tokens)]:
        return question
    if question is not None and question.topic == "plan" and understands(scene):
        return question  # 'thinking of Quail Lake, 420 miles. What will the fuel cost?'
    starts = sorted({scene.sentence_of(index)[0] for index in range(len(scene.tokens))})
    for start in starts:
        _, end = scene.sentence_of(start)
        last = end == len(scene.tokens)
        if end - start <= SHORTEST_ASKED:
            if last and question is not None and scene.tokens[-1].raw == "?":
                return question  # 'with the camper on. How heavy?'
            continue
        if end < len(scene.tokens) and scene.tokens[end].ends_sentence:
            end += 1  # its mark
        said = scene.text[scene.tokens[start].start : scene.tokens[end - 1].end]
        alone = read_question(Scene(said, scene.context, scene.book))
        if alone is None or (question is None and not said.endswith("?")):
            continue
        figured = any(token.kind is NUMBER for token in scene.tokens[end:])
        return question or (None if figured else alone)
    return _of_a_heading(scene, starts)


def _of_a_heading(scene: Scene, starts: Sequence[int]) -> Question | None:
    """'Tongue weight. How much now?': what is asked about stands alone before the question."""
    if len(starts) != HEADED or scene.tokens[-1].raw != "?" or scene.figures:
        return None
    asked = scene.tokens[starts[1]]
    if "asks_indirectly" not in asked.groups and not asked.text.startswith("how "):
        return None
    head, tail = scene.text[: scene.tokens[starts[1] - 1].start], scene.text[asked.start :]
    if read_question(Scene(head, scene.context, scene.book)) is None:
        return None
    return read_question(Scene(f"{head}, {tail}", scene.context, scene.book))


HEADED = 2
"""Sentences: a heading, and what is asked of it."""


def _before_signing_off(scene: Scene) -> str | None:
    """'fuel cost this month, over': what is said before the end of a radio call; None if no end."""
    last = len(scene.tokens) - 1
    while last > 0 and scene.tokens[last].raw in (".", "!"):
        last -= 1
    parted = last > 0 and (
        scene.tokens[last - 1].raw == "," or scene.tokens[last - 1].ends_sentence
    )
    if not parted or "signs_off" not in scene.tokens[last].groups:
        return None
    return scene.text[: scene.tokens[last - 1].start]


def _in_a_clause(scene: Scene) -> Question | None:
    """'sanity check before we go, are we legal?', 'this week's numbers, when you get a sec'.

    One comma or stop parts what is asked from why it is asked, or from how politely.
    """
    if scene.book.asking_behind.isdisjoint(scene.words()):
        return None
    parting = [
        index
        for index, token in enumerate(scene.tokens[:-1])
        if token.raw in (",", ":") or token.ends_sentence
    ]
    if not parting or len(parting) > 1 or parting[0] < SHORTEST_HEAD:
        return None
    before, behind = scene.tokens[: parting[0]], scene.tokens[parting[0] + 1 :]
    groups = scene.book.groups
    if not behind:
        return None
    polite = len(behind) <= SHORT_TAIL and scene.phrase_said("when_it_suits", parting[0] + 1)
    if polite:
        said = scene.text[: before[-1].end]
    elif (
        behind[0].text.split(" ")[0] in groups["opens_clause"]
        and not groups["of_trade"].isdisjoint(scene.words())
        and not any(token.kind is NUMBER for token in before)
        and OTHER not in scene.talk[parting[0] + 1 :]
    ):
        said = scene.text[behind[0].start :]
    else:
        return None
    return _asked_of(scene, said)


def _before_forgetting(scene: Scene) -> Question | None:
    """'whats our gross again i forgot what you said': why it is asked is no part of it."""
    if "forgets_word" not in scene.groups:
        return None
    found = scene.book.patterns["forgets"].search(scene.text)
    return None if found is None else _asked_of(scene, scene.text[: found.start()])


def asked_last(scene: Scene) -> Question | None:
    """'gross on the last ticket was what again': asked by what stands last, without its mark."""
    if ASKS_LAST.isdisjoint(scene.groups):
        return None
    tokens = scene.tokens
    end = len(tokens) - ("now_word" in tokens[-1].groups)
    words = " ".join([token.text for token in tokens[max(0, end - 2) : end]]).split()
    if end < SHORTEST_HEAD or len(words) < SHORTEST_HEAD:
        return None
    groups = scene.book.groups
    told = words[-2] in groups["was"] and words[-1] in groups["asks_indirectly"]
    return _asked_of(scene, f"{scene.text}?") if told else None


def _asked_of(scene: Scene, said: str) -> Question | None:
    """The question that a part of a message is by itself."""
    return read_question(Scene(said, scene.context, scene.book)) if said else None


ASKS_LAST = frozenset(("asks_indirectly", "was_what"))
"""Groups of words with which a message ends that asks what something is."""

SHORTEST_HEAD = 2
"""Tokens before what is asked."""

SHORT_TAIL = 6
"""Tokens of a clause that is no more than polite."""


def _of_another_rig(scene: Scene) -> bool:
    """'his flatdeck weighs 2,180 and he wants 4,500 for it, should we?': an offer."""
    named = [*scene.by_class.get("vehicle", ()), *scene.by_class.get("name", ())]
    offered = OTHER in scene.talk and all(scene.talk[index] is not None for index in named)
    return (
        bool(named) and offered and any(figure.value >= LEAST_OF_A_RIG for figure in scene.figures)
    )


SHORTEST_ASKED = 3
"""Tokens: less before a question mark takes up what was said: 'odometer? isn't that a perfume'."""
