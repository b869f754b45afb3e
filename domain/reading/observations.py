"""Readings off gauges: temperatures, pressures, speeds, grades, wind.

This file decides which figures are observations, and of what. The subject is
a label's, or that of a heading ('camper hubs: ...'), or follows from a unit that only one gauge
has. A general remark ('speed limit drops to 25') is none.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from domain.entries import Observation
from domain.quantities import Quantity
from domain.reading.bare_pressures import PRESSURE_SIZE, are_all_pressures, is_pressure
from domain.reading.doubts import Doubt
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
from domain.reading.gauge_doubts import beyond_gauge
from domain.reading.gauge_places import (
    aired_anew,
    carried_position,
    follows,
    is_aired_again,
    on_the_same,
    one_of_them,
    place_of_soft_tyre,
    position_of,
)
from domain.reading.gauge_values import POSITIONED, RUN_HOT, implausible, shown
from domain.reading.label import Label
from domain.reading.label_fit import SUBJECT_DIMENSIONS
from domain.reading.rig_signs import (
    EVERYDAY,
    LEAST_WARM,
    MOST_STRANGE_BARE,
    may_be_ours,
    means_the_rig,
    stands_by,
)
from domain.reading.scene import Scene
from domain.reading.tokens import BREAK, MARK, NUMBER, WORD
from domain.reading.tyre_sizes import TREAD_PARTS, is_tread_depth
from domain.reading.whose_part import are_tyres_of_another

LEAST_BARE = 20
"""Degrees: less of what runs hot is not said without a unit."""

LEAST_BAR = 10
"""More bar than any tyre holds: below, 2.45 may be a pressure."""


def read_observations(scene: Scene) -> list[Observation] | Doubt:
    """The observations that a message states, a doubt about one, or none."""
    if not _may_read_gauges(scene):
        return []
    found: list[Observation] = []
    row: tuple[Figure, str] | None = None
    of_trailer = False
    heading = _heading(scene)
    chatty = len(scene.unknown_words()) > MOST_UNKNOWN
    for figure in scene.live:
        if figure.role is not None:
            continue
        subject = _subject(scene, figure, heading) or _of_the_row(scene, figure, row)
        subject = subject or _heads_list(scene, figure, heading)
        subject = subject or _told_last(scene, figure, heading)
        again = subject in (None, "tyre") and is_aired_again(scene, figure, row)
        if again:
            subject = "tyre"
        if subject is None or figure.foreign in scene.book.groups["no_gauge"]:
            continue
        if "product" in scene.by_class and _is_of_fuel(scene, figure):
            continue
        if (
            subject in RUN_HOT
            and "unit" in scene.by_class
            and _is_of_what_was_bought(scene, figure)
        ):
            continue
        value = shown(scene, figure, subject)
        if value is None:
            continue
        if figure.dimension is None and subject in RUN_HOT and value.value < LEAST_BARE:
            continue  # 'oil 3', 'USB 2.0 hub'
        if figure.dimension is None and _is_of_till(figure, subject, value):
            continue
        fault = implausible(subject, value)
        if fault:
            if _insists(scene, figure):
                place = position_of(scene, figure, heading) if subject in POSITIONED else None
                words = (("value", scene.words_between(figure.start, figure.end)),)
                read = Observation(subject=subject, value=value, position=place, words=words)
                return beyond_gauge(scene, figure, read)
            continue
        if chatty and (figure.dimension is None or subject in ("grade", "speed", "wind")):
            continue
        if subject in EVERYDAY and not _means_road(scene, figure, subject, value):
            continue
        figure.role = "observation"
        position = position_of(scene, figure, heading) if subject in POSITIONED else None
        other = position is None if of_trailer else position == "trailer"
        if other and row is not None and follows(scene, figure, row[0]):
            position = "trailer" if of_trailer else None  # 'truck 38 38, trailer 50 50 50 35'
        if row is not None and found and subject in POSITIONED:
            if position in (None, "trailer"):
                position = carried_position(scene, figure, row[0], found[-1]) or position
            elif of_trailer:
                position = on_the_same(scene, figure, row[0], position, found)
        of_trailer = position is not None and position.startswith("trailer")
        others: Sequence[str | None] = ()
        if again and row is not None:
            *others, position = aired_anew(scene, row[0], figure, found)
        row = figure, subject
        read = Observation(
            subject=subject,
            value=value,
            position=position,
            words=(("value", scene.words_between(figure.start, figure.end)),),
        )
        found += [replace(read, position=place) for place in others]
        found.append(read)
    return found


def _is_of_fuel(scene: Scene, figure: Figure) -> bool:
    """'a gallon of coolant and 23.7 of diesel': so much of a fuel, and no gauge's."""
    behind = scene.tokens[figure.end : figure.end + 2]
    return len(behind) > 1 and "of" in behind[0].groups and "product" in behind[1].senses


def _is_of_what_was_bought(scene: Scene, figure: Figure) -> bool:
    """'5 gal hydraulic oil at 22': so much of a fluid, what it cost, and no gauge's name."""
    label = figure.label
    return (
        isinstance(label, Label)
        and figure.dimension is None
        and any(
            each.dimension == VOLUME
            and 0 <= label.start - each.end <= FARTHEST_FLUID
            and scene.clause_of(each.start) == scene.clause_of(label.start)
            for each in scene.figures
        )
    )


FARTHEST_FLUID = 2
"""Tokens between a volume and the fluid that it is of: '5 gal of hydraulic oil'."""


def _is_of_till(figure: Figure, subject: str, value: Quantity) -> bool:
    """'bearing is toast, 46.20', 'fuel's 4.099 out here': no gauge shows hundredths, a till does.

    Less than `LEAST_BAR` may be bar.
    """
    decimals = figure.token.decimals
    in_bar = subject in ("tyre", "oil") and value.value < LEAST_BAR
    return decimals > HUNDREDTHS or (decimals == HUNDREDTHS and not in_bar)


HUNDREDTHS = 2


def _may_read_gauges(scene: Scene) -> bool:
    """Whether a gauge is named, or a figure has a gauge's unit, or a place could have pressure."""
    if "subject" in scene.by_class or not scene.groups.isdisjoint(SAYS_OF_GAUGES):
        return True
    _, most = PRESSURE_SIZE[scene.context.units]
    for figure in scene.live:
        if figure.dimension in GAUGED:
            return True
        if figure.dimension is None and figure.value <= most and figure.label is not None:
            return True
    return False


SAYS_OF_GAUGES = frozenset(("airs_up", "driving_at", "out_of_doors", "spare_tyre"))
"""Groups of words that tell what a figure beside them was read off, without a unit."""

GAUGED = frozenset((PRESSURE, ROTATION, SHARE, SPEED, TEMPERATURE))


def _means_road(scene: Scene, figure: Figure, subject: str, value: Quantity) -> bool:
    """Whether the weather, a speed or a slope is that of the road which the rig is on."""
    return means_the_rig(scene, figure) or may_be_ours(scene, figure, subject, value)


def _of_the_row(scene: Scene, figure: Figure, row: tuple[Figure, str] | None) -> str | None:
    """'hubs 112 118 121 109': a bare figure behind one, of gauges that a rig has many of."""
    if row is None or figure.label is not None or figure.foreign is not None:
        return None
    before, subject = row
    between = scene.tokens[before.end : figure.start]
    close = len(between) <= 1 and all(token.kind is MARK and token.raw in ",/" for token in between)
    close = close or (len(between) == 1 and "and" in between[0].groups)
    close = close or one_of_them(between)
    # 'hubs 48 51 72 degrees': the last one has the unit of them all
    last = before.dimension is None and figure.dimension in SUBJECT_DIMENSIONS[subject]
    alike = last or figure.dimension in (None, before.dimension)
    return subject if subject in POSITIONED and close and alike else None


def _drives_into(scene: Scene, figure: Figure, label: Label) -> bool:
    """'averaged 11.9 towing into the wind': the wind is where it went, and no figure's name."""
    between = scene.tokens[figure.end : label.start]
    return any("article" in token.groups for token in between)


def _heads_list(scene: Scene, figure: Figure, heading: Label | None) -> str | None:
    """'hubs after 40 miles: 118 121 119': bare figures behind the colon of a heading.

    Several in a row need no more than a comma: 'shot the hubs with the gun, 118 121 119'.
    """
    if heading is None or heading.subject not in POSITIONED or heading.end >= figure.start:
        return None
    start, _ = scene.sentence_of(figure.start)
    bare = figure.dimension is None and figure.label is None and figure.foreign is None
    if not bare or start > heading.start:
        return None
    mark = scene.tokens[figure.start - 1].raw
    listed = mark == ":" or (mark == "," and heading.bound is None and _opens_row(scene, figure))
    return heading.subject if listed else None


def _opens_row(scene: Scene, figure: Figure) -> bool:
    """Whether others follow a figure with nothing between, each as large as a gauge shows."""
    behind = scene.tokens[figure.start : figure.start + LEAST_ROW]
    low, high = ROW_SIZE
    return len(behind) == LEAST_ROW and all(
        token.kind is NUMBER and low <= token.value <= high for token in behind
    )


LEAST_ROW = 3
ROW_SIZE = (20, 400)
"""What pressures and temperatures of wheels are told as."""


def _told_last(scene: Scene, figure: Figure, heading: Label | None) -> str | None:
    """'left rear tire lost 12 psi, now 68': what the gauge of the sentence reads now."""
    if heading is None or heading.subject not in POSITIONED or heading.bound is not None:
        return None
    start, _ = scene.sentence_of(figure.start)
    bare = figure.dimension is None and figure.label is None and figure.foreign is None
    before = scene.tokens[figure.start - 1]
    told = start <= heading.start and heading.end < figure.start and "now_word" in before.groups
    return heading.subject if bare and told else None


def _heading(scene: Scene) -> Label | None:
    """A gauge named without a figure of its own: 'trailer tires', 'hub temps'.

    What was aired up is a tyre, too: 'aired up the left front, 80 psi'.
    """
    for label in scene.labels:
        if label.subject in POSITIONED:
            return label
    return place_of_soft_tyre(scene)


def _subject(scene: Scene, figure: Figure, heading: Label | None) -> str | None:
    label = figure.label
    dimension = figure.dimension
    if figure.start and scene.tokens[figure.start - 1].senses.get("unit") in ("mi", "km"):
        return None  # 'broke down at mile 33,107, bearing seized'
    if dimension == PRESSURE and (_of_other_air(scene, figure) or are_tyres_of_another(scene)):
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
            if _is_no_gauge(scene, label, figure):
                return None
            if label.subject == "speed" and (_is_posted(scene, figure) or _is_limit(scene, label)):
                return None
            if dimension is not None and dimension not in SUBJECT_DIMENSIONS[label.subject]:
                return None
            if dimension is None and _is_vague(scene, figure, label):
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
        return _nearest_subject(scene, figure, TEMPERATURE)
    return None


def _of_other_air(scene: Scene, figure: Figure) -> bool:
    """'air bags at 40 psi', '120 psi in the compressor': what holds air and is no tyre."""
    if "holds_air" not in scene.groups:
        return False
    start, end = scene.clause_of(figure.start)
    start, end = max(start, figure.start - NEAR_AIR), min(end, figure.end + NEAR_AIR)
    return any("holds_air" in token.groups for token in scene.tokens[start:end])


NEAR_AIR = 3
"""Tokens from what holds air to how much: 'in the bags'."""


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
    ends = figure.end == scene.clause_of(figure.start)[1] or scene.tokens[figure.end].kind is MARK
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

    Beside no gauge it stands in a clause of its own.
    """
    behind = scene.tokens[figure.end + 1 : figure.end + 2]
    ends = not behind or behind[0].kind in (MARK, BREAK) or behind[0].groups & {"and", "but"}
    if not ends or (figure.value < LEAST_WARM and not figure.negative):
        return False
    if any(isinstance(other.label, Label) and other.label.subject for other in scene.figures):
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


HAPPENED = frozenset(("event", "hitch"))
"""Classes of term that say what the rig did."""


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
    if label.start >= figure.end and figure.foreign is not None:
        return True  # '200 gigger have fluid bearings'
    behind = scene.tokens[label.end] if label.end < len(scene.tokens) else None
    thing = behind is not None and behind.kind is WORD and not behind.senses
    if "vague_gauge" not in scene.tokens[label.start].groups:
        said = scene.tokens[label.end + 1 : label.end + 2]
        return thing and any("is_at" in token.groups for token in said)  # 'trans rate is 200'
    # 'ten speed', '48x60 oil on canvas', 'oil paint 5', 'the oil pump went in my 99 pickup'
    return label.compound or label.start >= figure.end or thing or not stands_by(scene, figure)


def _drives_at(scene: Scene, figure: Figure) -> bool:
    """'sitting on 95, 2100 rpm': a speed beside how fast the engine turned, or the wind blew."""
    return (
        "driving_at" in scene.groups
        and figure.dimension is None
        and figure.start > 0
        and "driving_at" in scene.tokens[figure.start - 1].groups
        and FASTEST_BARE[0] <= figure.value <= FASTEST_BARE[1]
        and any(other.dimension == ROTATION or _is_wind(other) for other in scene.figures)
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

MOST_UNKNOWN = 8
"""Words that no phrase knows: among more of them a figure without a unit is not off a gauge."""


def _speed_subject(scene: Scene, figure: Figure) -> str | None:
    start, _ = scene.sentence_of(figure.start)
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


def _has_gauge(scene: Scene) -> bool:
    return any(
        other.dimension in (ROTATION, TEMPERATURE)
        or other.role == "observation"
        or (other.dimension == SHARE and _is_slope(scene, other))
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


MOST_IN_A_TYRE = 1_000
"""A bare figure so large is no slip of a pressure."""


def _are_new(scene: Scene, label: Label) -> bool:
    """'4 new tires': bought, and not read."""
    return label.start > 0 and "new_thing" in scene.tokens[label.start - 1].groups


def _insists(scene: Scene, figure: Figure) -> bool:
    """Whether the message is surely about the gauge, so that an impossible figure is a slip."""
    label = figure.label
    if not isinstance(label, Label):
        return False
    if figure.dimension in (TEMPERATURE, PRESSURE, ROTATION):
        return True
    if len(scene.unknown) > MOST_STRANGE_BARE:
        return False  # 'oil temp 375 for the fish fry'
    if label.subject == "tyre" and (figure.value >= MOST_IN_A_TYRE or _are_new(scene, label)):
        return False  # 'tires were 1,200', 'new tires for the camper 680': what they cost
    if follows_odometer(figure.value, scene.context):
        return False  # 'greased the bearings 51,700'
    before = scene.tokens[figure.start - 1] if figure.start else None
    glued = before is not None and before.end == scene.tokens[figure.start].start
    if not stands_by(scene, figure) or glued:
        return False  # 'atf967' is somebody's name
    words = scene.words_between(label.start, label.end).casefold()
    gauge = label.places or any(word in words for word in scene.book.groups["gauge_word"])
    return gauge or label.subject in ("transmission", "coolant", "tyre", "hub")
