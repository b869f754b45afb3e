"""Which topic a question asks for.

The topics' rules are tried in the order of `RULES`; the first that holds names the topic. The
rules of loads and of the road stand in files of their own, those of help, upkeep and other
people's business here. The forms of a question, and what it names, are no matter of this file.
"""

from __future__ import annotations

from collections.abc import Callable

from domain.reading.asked import MOST_NAMED, Asked
from domain.reading.evidence import names_rig, speaks_trade
from domain.reading.load_topics import (
    asks_margin,
    asks_ratings,
    asks_tiedown,
    asks_tongue,
    asks_weight,
    asks_what_it_may_tow,
    asks_whatif,
)
from domain.reading.scene import Scene
from domain.reading.travel_topics import (
    asks_cost,
    asks_distance,
    asks_economy,
    asks_last_week,
    asks_period,
    asks_plan,
    asks_range,
    asks_trip,
    asks_week,
)

LOGGED_CLASSES = frozenset(
    ("weigh_cue", "odometer", "rating", "axle", "axle_noun", "product", "ticket", "subject")
)
"""Classes of term for what is logged: who asks for help with the log names one."""

Rule = Callable[[Scene, Asked], bool]


def topic_of(scene: Scene, asked: Asked) -> str | None:
    """The topic that is asked for, or None where it is talk."""
    return next((topic for topic, asks in RULES if asks(scene, asked)), None)


def _help(scene: Scene, asked: Asked) -> bool:
    """What can be texted, and how something is logged; 'how do i look' asks a person."""
    if "help" not in asked.topics:
        return False
    if asked.phrased("help", "whole_help") and _nothing_beside(scene, asked):
        return True
    told = asked.phrased("help", "surely_help") and not asked.stands("logs_in")
    texts = asked.phrased("help", "texts_drawbar") and "what" in asked.forms
    thing = asked.stands("logged_thing")
    logged = thing or not LOGGED_CLASSES.isdisjoint(scene.by_class)
    if told or (texts and asked.says("may_text")):
        return asked.strangers <= 1 or logged
    mended = asked.says("mends") and (thing or scene.has("odometer") or scene.has("rating"))
    return asked.strangers == 0 and (mended or (logged and asked.stands("records")))


def _nothing_beside(scene: Scene, asked: Asked) -> bool:
    """Whether a message asks for help and for nothing else: 'what can you do about it' does."""
    phrases = {word for phrase in asked.topics["help"] for word in phrase.split()}
    beside = scene.book.groups["beside_help"]
    return all(word in phrases or word in beside or not word.isalpha() for word in asked.words)


def _of_others(scene: Scene, asked: Asked) -> bool:
    """What is asked of other people, without a word of the trade, is talk."""
    return asked.other and not speaks_trade(scene)


def _upkeep(scene: Scene, asked: Asked) -> bool:
    if "upkeep" not in asked.topics or not asked.says("when_due"):
        return False
    if asked.strangers > MOST_NAMED or asked.says("summary_asked"):
        return False
    if asked.within("upkeep", "chore_done") and not asked.says("asks_when"):
        return asked.strangers == 0  # 'got my oil changed, any idea why it knocks'
    if not asked.within("upkeep", "needs_the_rig_named"):
        return True
    if not (asked.phrased("upkeep", "service") and asked.says("surely_due")):
        return False
    nothing_else = (
        bool(asked.forms)
        and asked.strangers == 0
        and not (asked.other or asked.says("day_ahead") or scene.has("time"))
        and (asked.says("service_word") or not asked.says("points_at_a_thing"))
    )
    return names_rig(scene) or nothing_else


RULES: tuple[tuple[str | None, Rule], ...] = (
    ("help", _help),
    ("ratings", asks_what_it_may_tow),
    ("whatif", asks_whatif),
    (None, _of_others),
    ("tiedown", asks_tiedown),
    ("plan", asks_plan),
    ("range", asks_range),
    ("upkeep", _upkeep),
    ("margin", asks_margin),
    ("tongue", asks_tongue),
    ("ratings", asks_ratings),
    ("economy", asks_economy),
    ("cost", asks_cost),
    ("trip", asks_trip),
    ("weight", asks_weight),
    ("distance", asks_distance),
    ("period", asks_last_week),
    ("week", asks_week),
    ("period", asks_period),
)
"""The topics in the order in which they are tried; None is talk."""
