"""Answers with something said beside them: 'the first, never put 8 of the blue stuff in at once'.

This file decides which part of a message answers the open question: what stands before 'not',
or a first clause with a reason behind it; a figure that is put right there takes the place of
the one in doubt. How a part picks one of the choices is decided in `open_questions`.
"""

from __future__ import annotations

from domain.reading.figures import Figure
from domain.reading.lexer import clean
from domain.reading.mistakes import value_and_mistake
from domain.reading.open_questions import by_position, picked, values_of, with_figure
from domain.reading.scene import Scene
from domain.reading.talk import NEGATION, PLAN
from domain.reading.tokens import TIME
from domain.verdicts import Ask, Choice, Facts

LONGEST_HEAD = 7
"""Tokens of a clause that answers and has a reason behind it."""

ALIKE = (0.5, 2.0)
"""What a figure that is put right is to the one that was in doubt."""


def answer_of(scene: Scene, asked: Ask) -> Facts | None:
    """The entries that a message picks or completes, or None where it does not answer."""
    if "somebody_says" in scene.groups and (said := _behind_who_says(scene)):
        return answer_of(Scene(said, scene.context, scene.book), asked)
    if "contrasts" in scene.groups:
        apart = _told_apart(scene, asked)
        if apart is not None:
            return apart
    parts = _parts(scene)
    if parts is None:
        return picked(scene, asked)
    head, tail = parts
    # 'first, wash your hands' begins something else, and 'first, nobody pays 39' does not.
    counted = _counts(head) and (len(head.words()) > 1 or _denies(tail))
    placed = by_position(head, asked) if counted and "neither" not in head.groups else None
    if placed is not None and _may_be_reason(tail):
        return _with_figure(tail, placed)
    chosen = picked(head, asked) if not head.figures and by_position(head, asked) is None else None
    choice = next((each for each in asked.choices if Facts(each.entries) == chosen), None)
    if choice is not None and _put_right(tail, choice) is not None:
        return _with_figure(tail, choice)
    if choice is None:
        return picked(scene, asked)
    if _reasons(tail, asked) and not _picks_another(tail, asked, choice):
        return Facts(choice.entries)
    return picked(scene, asked)


def _behind_who_says(scene: Scene) -> str:
    """'first one' of 'dad says first one', 'my wife said the second': no words for none."""
    for index, token in enumerate(scene.tokens[1:SAID_BY], start=1):
        if "somebody_says" in token.groups:
            who = scene.tokens[index - 1]
            led = scene.tokens[: index - 1]
            known = "family" in who.groups or index - 1 in scene.unknown
            told = known and all("article" in each.groups for each in led)
            return scene.text[token.end :].strip() if told else ""
    return ""


SAID_BY = 3
"""Tokens in which it is told who says it: 'my wife said'."""


def _told_apart(scene: Scene, asked: Ask) -> Facts | None:
    """'def, not diesel': what stands before 'not'; of two choices, 'not the def' is the other."""
    token = next((token for token in scene.tokens if "contrasts" in token.groups), None)
    if token is None:
        return None  # it took back a figure, and says no more
    texts = scene.text[: token.start], scene.text[token.end :]
    meant, other = (picked(Scene(text, scene.context, scene.book), asked) for text in texts)
    if other is None or meant == other:
        return None
    left = [each for each in asked.choices if Facts(each.entries) != other]
    if meant is None and len(left) == 1 == len(asked.choices) - 1:
        return Facts(left[0].entries)
    return meant


def _parts(scene: Scene) -> tuple[Scene, Scene] | None:
    """The first clause, and what is said behind it."""
    for index, token in enumerate(scene.tokens[:LONGEST_HEAD]):
        parts = token.ends_sentence or token.raw in DASHES or "parts_talk" in token.groups
        if index and index + 1 < len(scene.tokens) and (parts or token.raw == ","):
            texts = scene.text[: token.start], scene.text[token.end :]
            head, tail = (Scene(clean(text), scene.context, scene.book) for text in texts)
            return (head, tail) if head.tokens and tail.tokens else None
    return None


DASHES = frozenset("-–—,(")


def _may_be_reason(tail: Scene) -> bool:
    """Whether nothing is asked behind an answer, nor a time told."""
    return TIME not in tail.kinds and "?" not in tail.text


def _reasons(tail: Scene, asked: Ask) -> bool:
    """Whether what is said behind an answer may be its reason, and has no figure of its own."""
    known = {value for each in asked.choices for value in values_of(each.entries)}
    return _may_be_reason(tail) and all(figure.value in known for figure in tail.figures)


def _picks_another(tail: Scene, asked: Ask, choice: Choice) -> bool:
    """'def. who buys 2.4 gal of diesel': what is behind speaks of another, and denies nothing.

    'it was def, 2.5 gal of diesel wouldn't get us far' only supposes the other.
    """
    other = picked(tail, asked)
    if other is None or other == Facts(choice.entries) or _denies(tail):
        return False
    # 'def, only diesel i bought was friday'
    then = "time" in tail.by_class or TIME in tail.kinds
    return not then or bool(tail.figures) or "?" in tail.text


def _counts(head: Scene) -> bool:
    """Whether a word counts to a choice; 'that's the one' and 'on top of that' do not."""
    places, one = head.book.keys["choice"], head.book.groups["one"]
    counting = [word for word in head.words() if word in places and word not in one]
    return any(word.isdigit() or len(word) > 1 for word in counting)


def _denies(tail: Scene) -> bool:
    denying = (NEGATION, PLAN)
    return any(token.senses.get("talk", "").startswith(denying) for token in tail.tokens)


def _put_right(tail: Scene, choice: Choice) -> Figure | None:
    """'..., and its 9,240 not 9,180': a figure in the place of the only one of the choice."""
    figures = [figure for figure in tail.figures if figure.claimed is None]
    if not figures or len(figures) > 2:
        return None
    value, _ = value_and_mistake(tail, figures)
    doubted = values_of(choice.entries)
    if value is None or len(doubted) != 1 or doubted[0] <= 0 or not _is_meant(tail, value):
        return None
    return value if ALIKE[0] < value.value / doubted[0] < ALIKE[1] else None


def _is_meant(tail: Scene, value: Figure) -> bool:
    """'but its 9,240', 'it should be 9,240'; 'the tank holds 36' is of something else."""
    before = tail.tokens[value.start - 1].groups if value.start else frozenset()
    return not before.isdisjoint(("marks_meant", "restates", "was"))


def _with_figure(tail: Scene, choice: Choice) -> Facts:
    """The entries of a choice, with the figure that is put right behind it."""
    value = _put_right(tail, choice)
    if value is None:
        return Facts(choice.entries)
    return Facts(tuple(with_figure(entry, value) for entry in choice.entries))
