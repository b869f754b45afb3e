"""Which topic a question asks for.

The topics' rules are tried in the order of `RULES`; the first that holds names the topic. The
rules of loads and of the road stand in files of their own, those of upkeep and other people's
business here. The forms of a question, and what it names, are no matter of this file.
"""

from __future__ import annotations

from collections.abc import Callable
from itertools import pairwise

from domain.reading.asked import MOST_NAMED, Asked
from domain.reading.evidence import names_rig, speaks_trade
from domain.reading.help_topics import asks_help
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

Rule = Callable[[Scene, Asked], bool]


def topic_of(scene: Scene, asked: Asked) -> str | None:
    """The topic that is asked for, or None where it is talk."""
    for topic, asks in RULES:
        if asks(scene, asked):
            return topic
    return None


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
        and not _of_another_thing(scene)
        and asked.strangers == 0
        and not (asked.other or asked.says("day_ahead") or scene.has("time"))
        and (asked.says("service_word") or not asked.says("points_at_a_thing"))
    )
    return names_rig(scene) or nothing_else


def _of_another_thing(scene: Scene) -> bool:
    """'¿cuándo toca el partido?': what is due has a name, and it is nothing of a rig.

    Nor is what is due somewhere: 'when am i due back'.
    """
    if "due_somewhere" in scene.groups and any(
        "surely_due" in due.groups and "due_somewhere" in behind.groups
        for due, behind in pairwise(scene.tokens)
    ):
        return True
    return any(
        index > 0 and "article" in scene.tokens[index - 1].groups
        for index, _, _ in scene.find("claim")
    )


RULES: tuple[tuple[str | None, Rule], ...] = (
    ("help", asks_help),
    ("ratings", asks_what_it_may_tow),
    ("tiedown", asks_tiedown),
    ("whatif", asks_whatif),
    (None, _of_others),
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
