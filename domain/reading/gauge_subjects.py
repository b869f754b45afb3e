"""Which gauge a figure was read off: what its label, a unit or the words around it say.

This file decides of what a figure is an observation, should it be one: by its label's gauge, a unit
that only one gauge has, or the gauge named nearest. A general remark ('speed limit drops to 25') is
of none. Which figures are observations, and those of a row or a list under one gauge, are decided
in `observations`.
"""

from __future__ import annotations

from domain.reading.bare_pressures import PRESSURE_SIZE, are_all_pressures, is_pressure
from domain.reading.claimed_changes import is_short
from domain.reading.clocks import HAPPENED
from domain.reading.figures import (
    PRESSURE,
    ROTATION,
    SHARE,
    SPEED,
    TEMPERATURE,
    VOLUME,
    Figure,
    follows_odometer,
)
from domain.reading.gauge_values import POSITIONED, RUN_HOT
from domain.reading.label import Label
from domain.reading.label_fit import SUBJECT_DIMENSIONS
from domain.reading.rig_signs import EVERYDAY, LEAST_WARM, means_the_rig, stands_by
from domain.reading.scene import Scene
from domain.reading.tokens import BREAK, MARK, WORD
from domain.reading.tyre_sizes import TREAD_PARTS, is_tread_depth
from domain.reading.whose_part import are_tyres_of_another


def subject_of(scene: Scene, figure: Figure, heading: Label | None) -> str | None:
    """The gauge of a figure, in a sentence where `heading` names one, or none."""
    label = figure.label
    dimension = figure.dimension
    if figure.start and scene.tokens[figure.start - 1].senses.get("unit") in ("mi", "km"):
        return None  # 'broke down at mile 33,107, bearing seized'
    if dimension == PRESSURE and (
        _of_other_air(scene, figure)
        or are_tyres_of_another(scene)
        or _is_step(scene, figure)
        or ("vague_gauge" in scene.groups and _of_compound(scene))
    ):
        return None
    if figure.value == TREAD_PARTS and is_tread_depth(scene.tokens, figure.start):
        return None
    if isinstance(label, Label):
        if label.subject == "wind" and _out_of_doors(scene, figure):
            return "ambient"
        if label.subject == "wind" and dimension is None and _drives_into(scene, figure, label):
            return None
        if label.rating or label.field or label.whole or label.rating_subject:
            return None
        if label.subject == "grade" and _is_no_slope(scene, figure, label):
            return None
        if label.subject == "grade" and _is_one_in(scene, figure):
            figure.value = round(SHARES / figure.value, 1)
        if label.subject:
            if _is_no_gauge(scene, label, figure) or _is_denied(scene, label):
                return None
            if label.subject == "speed" and (_is_posted(scene, figure) or _is_limit(scene, label)):
                return None
            if dimension is not None and dimension not in SUBJECT_DIMENSIONS[label.subject]:
                return None
            if dimension is None and _is_vague(scene, figure, label):
                return None
            if "in_the_shade" in scene.groups and _is_small_talk(scene, figure):
                return None
            return label.subject
        if label.only_vehicle and dimension is None:
            return "tyre" if is_pressure(scene, figure) else None
        if label.places and heading is not None and heading.subject is not None:
            if dimension in SUBJECT_DIMENSIONS[heading.subject]:
                return heading.subject
            return "tyre" if dimension == PRESSURE else None
        if label.places and (dimension == PRESSURE or is_pressure(scene, figure)):
            return "tyre"
        if label.places and dimension == TEMPERATURE and scene.has("subject", "hub"):
            return "hub"
    if _out_of_doors(scene, figure) and _beside_facts(scene, figure):
        return "ambient"
    if dimension is None and "spare_tyre" in scene.groups and _of_the_spare(scene, figure):
        return "tyre"
    if dimension == PRESSURE:
        spare = "spare_tyre" in scene.groups
        if heading is not None or spare or scene.has("subject", "tyre") or are_all_pressures(scene):
            return "tyre"
        return None
    if dimension == ROTATION:
        return None if _of_appliance(scene, figure) else "engine_speed"
    if _drives_at(scene, figure):
        return "speed"
    if dimension == SHARE:
        return "grade" if _is_slope(scene, figure) else None
    if dimension == SPEED:
        return _speed_subject(scene, figure)
    if dimension == TEMPERATURE:
        behind = scene.tokens[figure.end] if figure.end < len(scene.tokens) else None
        if behind is not None and "out_of_doors" in behind.groups:
            return "ambient"
        gauge = _nearest_subject(scene, figure, TEMPERATURE)
        return gauge or ("ambient" if any(map(_is_wind, scene.figures)) else None)
    return None


def _is_denied(scene: Scene, label: Label) -> bool:
    """'75 and no wind', 'fuel pressure 55': there is none, or no tyre has it."""
    if not label.start:
        return False
    before = scene.tokens[label.start - 1]
    if "no_alone" in before.groups:
        return True
    if label.subject != "tyre" or "vague_gauge" not in scene.tokens[label.start].groups:
        return False
    strange = before.kind is WORD and not (before.senses or before.groups)
    return strange or "pressed_otherwise" in before.groups


def _drives_into(scene: Scene, figure: Figure, label: Label) -> bool:
    """'averaged 11.9 towing into the wind': the wind is where it went, and no figure's name."""
    between = scene.tokens[figure.end : label.start]
    return any("article" in token.groups for token in between)


def _of_other_air(scene: Scene, figure: Figure) -> bool:
    """'air bags at 40 psi', '120 psi in the compressor': what holds air and is no tyre."""
    if "holds_air" not in scene.groups:
        return False
    start, end = scene.clause_of(figure.start)
    start, end = max(start, figure.start - NEAR_AIR), min(end, figure.end + NEAR_AIR)
    return any("holds_air" in token.groups for token in scene.tokens[start:end])


def _of_compound(scene: Scene) -> bool:
    """'pressure cooker 15 psi': what is pressed is a thing that no phrase knows, and no tyre."""
    gauges = scene.by_class.get("subject", ())
    if len(gauges) != 1 or "vague_gauge" not in scene.tokens[gauges[0]].groups:
        return False
    behind = gauges[0] + 1
    return behind in scene.unknown and not scene.tokens[behind].groups


NEAR_AIR = 3
"""Tokens from what holds air to how much: 'in the bags'."""


def _is_step(scene: Scene, figure: Figure) -> bool:
    """'put 10 psi in', 'down 12 psi', '10 psi under the others': no tyre is left with so little."""
    if not is_short(figure):
        return False
    before = scene.tokens[figure.start - 1].groups if figure.start else frozenset()
    behind = scene.tokens[figure.end : figure.end + 3]
    apart = bool(behind) and behind[0].text.split(" ")[0] in scene.book.groups["past_or_short"]
    return not STEPS.isdisjoint(before) or (
        apart and any("one_of_them" in token.groups for token in behind)
    )


STEPS = frozenset(("steps", "putting"))
"""Groups of words before so much air."""


def _of_appliance(scene: Scene, figure: Figure) -> bool:
    """'1,200 rpm on the blender': what turns is a thing that no phrase knows."""
    behind = scene.tokens[figure.end : figure.end + 3]
    if len(behind) < 2 or "on_the" not in behind[0].groups:
        return False
    thing = behind[1]
    return thing.kind is WORD and not (thing.senses or thing.groups) and thing.raw.islower()


def _of_the_spare(scene: Scene, figure: Figure) -> bool:
    """'spare is at 50': what stands in the spare tyre, and nothing behind it."""
    low, high = PRESSURE_SIZE[scene.context.units]
    at = figure.start - 1
    while at >= 0 and "copula" in scene.tokens[at].senses.get("glue", "").split():
        at -= 1
    ends = figure.end == scene.clause_of(figure.start)[1]
    ends = (
        ends
        or scene.tokens[figure.end].kind is MARK
        or "subject" in scene.tokens[figure.end].senses
    )
    return (
        at >= 0 and "spare_tyre" in scene.tokens[at].groups and ends and low <= figure.value <= high
    )


def _is_slope(scene: Scene, figure: Figure) -> bool:
    near = range(max(0, figure.start - 3), min(figure.end + 3, len(scene.tokens)))
    return not _is_part(scene, figure) and any(
        "slope" in scene.tokens[index].groups and not _is_owned(scene, index) for index in near
    )


def _out_of_doors(scene: Scene, figure: Figure) -> bool:
    """'97 out and windy': what is said right behind the figure is of it."""
    behind = scene.tokens[figure.end : figure.end + 2]
    return (
        figure.dimension is None
        and bool(behind)
        and "out_of_doors" in behind[0].groups
        and not (len(behind) == 2 and "of" in behind[1].groups)
    )


def _beside_facts(scene: Scene, figure: Figure) -> bool:
    """'31 out, oil temp 224', '31 out, filled 70 L': a bare 'out' is of the air beside the log's.

    Beside no gauge it stands in a clause of its own; frost may stand beside a part of the rig:
    'minus 31 out there, block heater earned its keep'.
    """
    at = figure.end + 1
    if figure.negative and at < len(scene.tokens) and "out_there" in scene.tokens[at].groups:
        at += 1
    behind = scene.tokens[at : at + 1]
    ends = not behind or behind[0].kind in (MARK, BREAK)
    ends = ends or not behind[0].groups.isdisjoint(("and", "but"))
    # '111 outside lol', '101 out in the canyon'
    ends = ends or not {"filler", "onto"}.isdisjoint(behind[0].senses.get("glue", "").split())
    ends = ends or (figure.negative and "time" in behind[0].senses)
    if not ends or (figure.value < LEAST_WARM and not figure.negative):
        return False
    if (figure.negative and "check_item" in scene.by_class) or _is_beside_gauge(scene, figure):
        return True
    start, end = scene.clause_of(figure.start)
    told = {index for each in scene.figures for index in range(each.start, each.end)}
    said = [
        scene.tokens[index]
        for index in range(start, end)
        if index not in told and index != figure.end
    ]
    if not all(token.kind is MARK or "glue" in token.senses for token in said):
        return False
    return not HAPPENED.isdisjoint(scene.by_class) or any(
        other.dimension == VOLUME or follows_odometer(other.value, scene.context)
        for other in scene.figures
        if other.claimed is None
    )


def _is_small_talk(scene: Scene, figure: Figure) -> bool:
    """'running hot today, 101 in the shade': what anybody says of the day, beside no other fact."""
    behind = scene.tokens[figure.end : figure.end + 1]
    bare = figure.dimension is None and bool(behind) and "in_the_shade" in behind[0].groups
    return bare and not (means_the_rig(scene, figure) or _is_beside_gauge(scene, figure))


def _is_beside_gauge(scene: Scene, figure: Figure) -> bool:
    return any(
        isinstance(other.label, Label) and other.label.subject is not None
        for other in scene.figures
        if other is not figure
    )


def _is_no_slope(scene: Scene, figure: Figure, label: Label) -> bool:
    """'30% of my grade', 'grade 70 chains', 'grade 7 piano': marks at school, and of steel."""
    if scene.has("check_item") or (figure.dimension is None and scene.unknown_words()):
        return True
    return _is_owned(scene, label.start) or _is_part(scene, figure)


def _is_one_in(scene: Scene, figure: Figure) -> bool:
    """'a gradient of one in eight', which is 12.5 percent."""
    if figure.start < 2 or figure.dimension is not None or figure.value <= 1:
        return False
    one, within = scene.tokens[figure.start - 2 : figure.start]
    return "one" in one.groups and "in" in within.groups


SHARES = 100.0
"""Percent."""


def _is_owned(scene: Scene, index: int) -> bool:
    before = scene.tokens[index - 1] if index else None
    return before is not None and "of_a_person" in before.groups


def _is_part(scene: Scene, figure: Figure) -> bool:
    """'20% of the grade'."""
    return figure.end < len(scene.tokens) and "of" in scene.tokens[figure.end].groups


def _is_posted(scene: Scene, figure: Figure) -> bool:
    """'a 40 mph road', '55 mph speed limit': what may be driven there, and not what was."""
    behind = scene.tokens[figure.end : figure.end + 2]
    return bool(behind) and (
        "posted_behind" in behind[0].groups
        or ("subject" in behind[0].senses and "posted_behind" in behind[-1].groups)
    )


def _is_limit(scene: Scene, label: Label) -> bool:
    """'el límite de velocidad es 120': what may be driven, and not what was."""
    before = scene.tokens[max(0, label.start - 2) : label.start]
    return any("posted_behind" in token.groups for token in before)


def _is_vague(scene: Scene, figure: Figure, label: Label) -> bool:
    """'exam pressure 100', 'outside 7': an everyday word and a figure without a unit."""
    if label.subject == "ambient" and label.start < figure.start and not figure.negative:
        return figure.value < LEAST_WARM
    if label.subject in POSITIONED and label.side:
        return False
    if "off" in scene.groups and _is_taken_off(scene, figure):
        return True
    if _numbers_something(scene, figure, label):
        return True
    if label.start >= figure.end and figure.foreign is not None:
        return True  # '200 gigger have fluid bearings'
    behind = scene.tokens[label.end] if label.end < len(scene.tokens) else None
    thing = behind is not None and behind.kind is WORD and not behind.senses
    if "anybodys_air" in scene.groups and not stands_by(scene, figure):
        return True  # 'air pressure at the gym is 14.7'
    if "vague_gauge" not in scene.tokens[label.start].groups:
        said = scene.tokens[label.end + 1 : label.end + 2]
        return thing and any("is_at" in token.groups for token in said)  # 'trans rate is 200'
    # 'ten speed', '48x60 oil on canvas', 'oil paint 5', 'the oil pump went in my 99 pickup'
    return label.compound or label.start >= figure.end or thing or not stands_by(scene, figure)


def _numbers_something(scene: Scene, figure: Figure, label: Label) -> bool:
    """'tires went off at lap 12', 'hubs fine by stop 9': the number of what no phrase knows."""
    named = figure.start - 1
    if named not in scene.unknown or not label.end < named or figure.value >= MOST_NUMBERED:
        return False  # 'trans at Pell 214'
    return not scene.tokens[named - 1].groups.isdisjoint(LEADS_TO_NUMBERED)


MOST_NUMBERED = 30
"""Laps and stops are numbered from one on, and hardly a tyre or a gearbox shows so little."""

LEADS_TO_NUMBERED = frozenset(("at", "by_so_much", "on_or_in"))
"""Groups of words that lead to a lap, a stop or a turn by its number."""


def _is_taken_off(scene: Scene, figure: Figure) -> bool:
    """'the club has tires 150 off', 'tires are 80 off at the shop': so much cheaper."""
    behind = scene.tokens[figure.end : figure.end + 2]
    if not behind or "off" not in behind[0].groups:
        return False
    return "article" not in behind[-1].groups or "a_thing" in behind[-1].groups


def _drives_at(scene: Scene, figure: Figure) -> bool:
    """'sitting on 95, 2100 rpm': a speed beside how fast the engine turned, or the wind blew.

    Right behind the turns 'at' says it: '2,100 revs at 90'.
    """
    if figure.dimension is not None or not figure.start:
        return False
    if not FASTEST_BARE[0] <= figure.value <= FASTEST_BARE[1]:
        return False
    led = scene.tokens[figure.start - 1].groups
    if "driving_at" in led:
        return any(other.dimension == ROTATION or _is_wind(other) for other in scene.figures)
    return "at_alone" in led and any(
        other.dimension == ROTATION and other.end == figure.start - 1 for other in scene.figures
    )


def _is_wind(figure: Figure) -> bool:
    """'headwind 25 mph, holding 55': how fast the wind is that one drives in."""
    label = figure.label
    blows = isinstance(label, Label) and label.subject == "wind"
    return blows and figure.dimension in (None, SPEED)


FASTEST_BARE = (15, 130)


def _is_no_gauge(scene: Scene, label: Label, figure: Figure) -> bool:
    """'wind's max 40', 'the speed sign says 35'; what a gauge of the rig says was read off it."""
    return "no_gauge" in scene.groups and any(
        "no_gauge" in token.groups
        and not ("as_it_is" in token.groups and label.subject not in ANYBODYS)
        for token in scene.tokens[label.start : figure.start]
    )


ANYBODYS = EVERYDAY - {"engine_speed"}
"""What is also said by a sign on the road or a forecast."""


def _speed_subject(scene: Scene, figure: Figure) -> str | None:
    start = _driven_since(scene, figure)
    if any(
        "no_gauge" in scene.tokens[index].groups
        for index in range(max(0, figure.start - 4), figure.start)
    ) or any("posted_word" in token.groups for token in scene.tokens[start : figure.start]):
        return None
    if _is_posted(scene, figure):
        return None
    nearest = _nearest_subject(scene, figure, SPEED)
    driven = figure.start > 0 and "driving_at" in scene.tokens[figure.start - 1].groups
    if driven and (nearest == "wind" or (nearest is None and scene.has("subject", "wind"))):
        return "speed"  # 'crosswind 30, holding 55 mph'
    beside = scene.tokens[max(0, figure.start - 3) : figure.end + 2]
    if nearest == "speed" or (
        nearest is not None and any("subject" in token.senses for token in beside)
    ):
        return nearest
    before = scene.tokens[max(0, figure.start - 3) : figure.start]
    moving = any("moving" in token.senses for token in before)
    # Who texts one speed alone talks of traffic.
    ours = len(scene.tokens) <= 6 or means_the_rig(scene, figure)
    return "speed" if _has_gauge(scene) or (moving and ours) else None


def _driven_since(scene: Scene, figure: Figure) -> int:
    """'the sign said 9 percent, and we crawled up at 28': where one's own driving is told."""
    start, _ = scene.sentence_of(figure.start)
    for index in range(figure.start - 1, start, -1):
        told = "moving" in scene.tokens[index].senses
        if told and "ours" in scene.tokens[index - 1].groups:
            return index
    return start


def _has_gauge(scene: Scene) -> bool:
    """Whether a gauge of the engine is told beside it, before or behind: '62 mph, trans 194'."""
    return any(
        other.dimension in (ROTATION, TEMPERATURE)
        or (isinstance(other.label, Label) and other.label.subject == "engine_speed")
        or other.role == "observation"
        or (other.dimension == SHARE and _is_slope(scene, other))
        or (isinstance(other.label, Label) and other.label.subject in RUN_HOT)
        for other in scene.figures
    )


def _nearest_subject(scene: Scene, figure: Figure, dimension: str) -> str | None:
    start, end = scene.sentence_of(figure.start)
    best: tuple[int, str] | None = None
    for index, _, key in scene.find("subject"):
        subject = key.split()[0]
        if not start <= index < end or dimension not in SUBJECT_DIMENSIONS[subject]:
            continue
        if _of_another(scene, index, figure):
            continue
        last = max(
            (
                each.end - 1
                for each in scene.labels
                if each.start <= index < each.end <= figure.start
            ),
            default=index,
        )  # 'hub on the left rear of the van hot, 95 C'
        distance = abs(last - figure.start)
        if best is None or distance < best[0]:
            best = (distance, subject)
    if best is None:
        return None
    alone = len(scene.by_class["subject"]) == 1 and best[1] not in EVERYDAY
    return best[1] if best[0] <= (FARTHEST_ALONE if alone else FARTHEST_SUBJECT) else None


FARTHEST_SUBJECT, FARTHEST_ALONE = 6, 10
"""Tokens from a gauge to its figure, and from one of the rig's that no other is named beside."""


def _of_another(scene: Scene, index: int, figure: Figure) -> bool:
    """Whether a gauge's word is of another figure: 'egt 1150F clt temp 208F'."""
    return any(
        label.start <= index < label.end and label.bound not in (None, figure)
        for label in scene.labels
    )
