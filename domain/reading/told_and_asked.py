"""What a message tells before it asks about it: '5,180 / 6,900 / 9,420, are we legal?'.

This file decides where such a question begins, and whether what stands before it may be told. What
that is worth is read as any message is; a figure that is only supposed, or that is the load to be
tied down or the way to go, stays the question's own.
"""

from __future__ import annotations

from domain.entries import Check, Entry, Fill, Hitch, Observation, Odometer, Weighing
from domain.reading.phrasebook import ASKS_BESIDES
from domain.reading.scene import LEAST_LOAD, Scene
from domain.reading.tokens import MARK, Token
from domain.verdicts import Question

OPENS = frozenset(("opens_clause", "inverts", "inverts_somebody"))
"""Groups of words that a question begins with."""

SUPPOSES = frozenset(("supposes", "supposed_move", "asks_first", "inverts", "asks_people"))
"""Groups of words with one of which a message asks or supposes from its first word."""

OF_OWN_FIGURES = frozenset(("plan", "whatif", "tiedown", "ratings", "help"))
"""Topics whose figures are what is asked about."""

OF_TOLD = OPENS | {"asks_of_told", "judges", "judges_reading", "ours"}
"""Groups of words in which it is asked about what was told, where no topic is asked for."""

OF_RIG = frozenset(("name", "vehicle", "axle", "axle_noun", "whole", "rating", "rating_subject"))
"""Classes of term that may be asked about so."""

OF_WHAT_IS_DONE = frozenset(("name", "vehicle", "check_item"))
"""Classes of term for what was hitched or looked after: 'camper hitched', 'lugs torqued'."""

WEIGHED = OF_RIG | {"weigh_cue"}
"""With them, classes of term for what may be asked of a figure that was told."""

SEVERAL = 2
"""Figures that are told, where nothing marks the question."""

SHORT_ASKED = 5
"""Tokens of a question without a verb: 'over anything?'."""


def may_ask_besides(scene: Scene) -> bool:
    """Whether a message that is no question states a figure and may ask of it, too."""
    return not MAY_ASK_BESIDES.isdisjoint(scene.said) and bool(scene.figures)


MAY_ASK_BESIDES = ASKS_BESIDES | {"?"}


def told_head(scene: Scene, question: Question | None) -> str | None:
    """The words before the question that a message ends with, where they can tell something."""
    if not scene.figures or (question is not None and question.topic in OF_OWN_FIGURES):
        return None
    marked = scene.tokens[-1].raw == "?"
    several = len(scene.figures) >= SEVERAL or "weigh_cue" in scene.by_class
    several = several and "asks_indirectly" in scene.groups
    if question is None and not (marked or several):
        return None
    said = [each for each in scene.tokens if "before_question" not in each.groups]
    if not said or not SUPPOSES.isdisjoint(said[0].groups):
        return None
    start = _asked_from(scene)
    if start is None or (question is None and not _is_of_told(scene, start, marked=marked)):
        return None
    return scene.text[: scene.tokens[start - 1].end].rstrip(" ,;:-/.")


def asked_tail(scene: Scene) -> str | None:
    """The clause behind the figures that may ask by itself: 'hitched at 51,600, what do we weigh'.

    A message as a whole is no question where it states a figure before a word that asks.
    """
    if scene.tokens[-1].raw != "?" and "opens_clause" not in scene.groups:
        return None
    start = _asked_from(scene)
    if start is None or scene.tokens[start - 1].kind != MARK:
        return None
    return scene.text[scene.tokens[start].start :]


def done_head(scene: Scene, question: Question | None) -> str | None:
    """The words before a comma that say what was done: 'hitched the camper, what does it weigh'."""
    done = scene.by_class.get("hitch") or scene.by_class.get("check_done")
    if question is None or scene.figures or not done:
        return None
    tokens = scene.tokens
    if tokens[-1].raw != "?" and OPENS.isdisjoint(scene.groups):
        return None
    parting = next((at for at, each in enumerate(tokens) if each.kind == MARK), len(tokens))
    if not done[0] < parting < len(tokens) - 1:
        return None
    if not all(_names_who(token) for token in tokens[: done[0]]):
        return None  # 'with the camper hitched, what do we weigh'
    asks = tokens[-1].raw == "?" or not OPENS.isdisjoint(tokens[parting + 1].groups)
    return scene.text[: tokens[parting - 1].end] if asks else None


def _names_who(token: Token) -> bool:
    """'we just hitched', 'so camper is off': nothing before what was done makes it a condition."""
    if "with" in token.groups or "rig" in token.senses:
        return False
    named = not OF_WHAT_IS_DONE.isdisjoint(token.senses)
    return named or "pronoun" in token.groups or "before_question" in token.groups


def _is_of_told(scene: Scene, start: int, *, marked: bool) -> bool:
    """'is that ok?', 'how'd we do', and not 'which one should we pick?'.

    Nor is it where words before it that nobody knows may be what the figures are of.
    """
    if not marked and "asks_indirectly" not in scene.tokens[start].groups:
        return False
    strange = any(index < start for index in scene.unknown)
    if strange and WEIGHED.isdisjoint(scene.by_class):
        return False
    return all(
        token.kind == MARK
        or not OF_TOLD.isdisjoint(token.groups)
        or not WEIGHED.isdisjoint(token.senses)
        for token in scene.tokens[start:]
    )


def _asked_from(scene: Scene) -> int | None:
    """The token behind the last figure from which it is asked."""
    last = scene.figures[-1].end
    tokens = scene.tokens
    for index in range(last, len(tokens)):
        if not OPENS.isdisjoint(tokens[index].groups):
            return index
    marks = [index for index in range(last, len(tokens) - 1) if tokens[index].kind == MARK]
    gauged = bool(marks) and all(
        token.kind == MARK or "judges_reading" in token.groups for token in tokens[marks[-1] :]
    )
    if gauged:
        return marks[-1] + 1  # 'trans is at 215, too hot?'
    if scene.figures[-1].value < LEAST_LOAD:
        return None  # 'the cooker says 15 psi, right?'
    if last < len(tokens) and "judges" in tokens[last].groups:
        return last  # '5180 6900 9420 legal?'
    if marks and len(tokens) - marks[-1] <= SHORT_ASKED + 1:
        return marks[-1] + 1
    return None


def is_told(entries: tuple[Entry, ...], question: Question | None) -> bool:
    """Whether entries are readings that nobody asks about without having taken them.

    A lone weight without a place may be any load: '9,640 lb, is that too much for the hitch?'. What
    a gauge shows may be a condition: 'at 62 mph what mpg should i get?'.
    """
    return all(
        isinstance(each, (Fill, Odometer, Hitch))
        or (isinstance(each, Check) and question is not None)
        or (isinstance(each, Observation) and question is None)
        or (isinstance(each, Weighing) and set(each.loads) != {"gross"})
        for each in entries
    )
