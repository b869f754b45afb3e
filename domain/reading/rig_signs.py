"""Whether a message speaks of the rig, where its words are everybody's too.

'97 outside', 'wind 30 mph' and 'doing 60' are said of holidays, forecasts and bicycles as well.
This file decides what beside such a figure shows that the log is meant: another figure of the
log, a name or a vehicle of the chat, or that hardly a word is strange to the trade.
"""

from __future__ import annotations

from domain.quantities import Quantity
from domain.reading.figures import PRESSURE, ROTATION, TEMPERATURE, VOLUME, Figure
from domain.reading.label import Label
from domain.reading.scene import Scene
from domain.reading.talk import OTHER_VEHICLE
from domain.reading.tokens import WORD

EVERYDAY = frozenset(("ambient", "wind", "speed", "grade", "engine_speed"))
"""What is also measured where no rig is: the weather, roads, and whatever else turns or moves."""

WEATHER = frozenset(("ambient", "wind"))

SIGNS = frozenset(("name", "weigh_cue", "odometer"))
"""Classes of term that only a log has."""

MOST_STRANGE, MOST_STRANGE_BARE = 2, 1
"""Words that no phrase knows: among more of them an everyday figure, or a bare one, is talk."""

LEAST_KMH = {"wind": 16.0, "speed": 24.0}
"""Less is no news to anybody who tows, and stands in weather reports."""

LEAST_WARM = 15
"""Degrees: who says less of the air says what they are of."""


def means_the_rig(scene: Scene, figure: Figure) -> bool:
    """Whether something besides an everyday figure says that the rig is meant."""
    return _has_sign(scene) or any(
        _of_the_log(other) for other in scene.figures if other is not figure
    )


def may_be_ours(scene: Scene, figure: Figure, subject: str, value: Quantity) -> bool:
    """Whether an everyday figure may stand in the log although nothing else is said of the rig."""
    if subject != "grade" and ("weather_report" in scene.groups or _of_a_weekday(scene)):
        return False
    if subject in WEATHER and scene.book.patterns["away_from_road"].search(scene.text):
        return False  # 'picnic was lovely, wind 30', '40 mph gusts at the beach'
    start, _ = scene.sentence_of(figure.start)
    if _somebody_does(scene, start):
        return False
    ahead = scene.tokens[start : figure.start]
    if "whenever" in scene.groups and any("whenever" in token.groups for token in ahead):
        return False  # 'when it's 85 degrees out'
    if subject in LEAST_KMH and value.amount("km/h") < LEAST_KMH[subject]:
        return False
    bare = figure.dimension is None
    if bare and subject == "ambient" and value.value < LEAST_WARM and not figure.negative:
        return False
    if subject == "grade" and _heads_noun(scene, figure):
        return False
    if subject == "engine_speed" and start in scene.unknown and len(scene.figures) == 1:
        return False  # 'drill press runs 620 rpm'
    strange = len([index for index in scene.unknown_words() if not scene.tokens[index].groups])
    alone = bare and not (
        "out_of_doors" in scene.groups
        and any(other.dimension == TEMPERATURE for other in scene.figures)
    )
    most = MOST_STRANGE_BARE if alone else MOST_STRANGE  # 'gusting 70, 4 degrees outside'
    if subject == "speed" and len(scene.figures) == 1:
        most = 0  # 'doing 70 mph on the freeway'
    return strange <= most and (not bare or stands_by(scene, figure))


def _somebody_does(scene: Scene, start: int) -> bool:
    """'Bram snores at about 2,400 rpm': a name that nobody knows, and what its bearer does."""
    if start not in scene.unknown or start + 1 not in scene.unknown:
        return False
    who, does = scene.tokens[start : start + 2]
    return who.raw[0].isupper() and does.raw.islower() and does.text.endswith("s")


def _of_a_weekday(scene: Scene) -> bool:
    """'97 sat and 101 sunday, wind 20', 'winds 20 to 30 tonight': weather by the day, or to come.

    'It sat at 25' names no day.
    """
    return "day_ahead" in scene.groups or any(
        "weekday" in key and not _stayed(scene, index) for index, _, key in scene.find("time")
    )


def _stayed(scene: Scene, index: int) -> bool:
    behind = scene.tokens[index + 1 : index + 2]
    return "moves_back" in scene.tokens[index].groups and any("at" in t.groups for t in behind)


def _heads_noun(scene: Scene, figure: Figure) -> bool:
    """'a 10% grade bump': a noun behind makes the slope something else."""
    label = figure.label
    if not isinstance(label, Label) or label.end >= len(scene.tokens):
        return False
    behind = scene.tokens[label.end]
    return behind.kind is WORD and not behind.senses and behind.raw.islower()


def stands_by(scene: Scene, figure: Figure) -> bool:
    """'wind's a steady 25': between a word and its bare figure stands no other matter."""
    label = figure.label
    if not isinstance(label, Label):
        return True
    between = scene.tokens[label.end : figure.start]
    return all(token.kind is not WORD or token.senses.keys() & BETWEEN for token in between)


BETWEEN = {"glue", "moving", "unit", "time"}


def _of_the_log(figure: Figure) -> bool:
    if figure.claimed is not None:
        return False
    if figure.role not in (None, "observation") or figure.dimension in (ROTATION, PRESSURE):
        return True
    label = figure.label
    if not isinstance(label, Label):
        return figure.dimension == VOLUME and figure.foreign is None
    gauge = label.subject is not None and label.subject not in EVERYDAY
    fits = figure.dimension in (None, TEMPERATURE)
    return bool(label.axle or label.whole or label.rating or label.field) or (gauge and fits)


def _has_sign(scene: Scene) -> bool:
    if not SIGNS.isdisjoint(scene.by_class):
        return True
    return any(
        token.senses.get("talk") != OTHER_VEHICLE and "anybodys_vehicle" not in token.groups
        for _, token, _ in scene.find("vehicle")
    )
