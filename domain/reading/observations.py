"""Readings off gauges: temperatures, pressures, speeds, grades, wind.

This file decides which figures are observations, and reads a row or a list of them under one gauge
('camper hubs: ...'). Of which gauge a figure is, is told in `gauge_subjects`.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from domain.context import PRESSURE_UNIT
from domain.entries import Observation
from domain.quantities import Quantity
from domain.reading.bare_pressures import PRESSURE_SIZE
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
    share_vehicle,
)
from domain.reading.gauge_subjects import subject_of
from domain.reading.gauge_values import (
    POSITIONED,
    RUN_HOT,
    implausible,
    is_of_other_water,
    reads_gauge_behind,
    shown,
)
from domain.reading.label import Label
from domain.reading.label_fit import SUBJECT_DIMENSIONS
from domain.reading.rig_signs import (
    EVERYDAY,
    MOST_STRANGE,
    MOST_STRANGE_BARE,
    may_be_ours,
    means_the_rig,
    stands_by,
)
from domain.reading.scene import Scene
from domain.reading.tokens import MARK, NUMBER

LEAST_BARE = 20
"""Degrees: less of what runs hot is not said without a unit."""

PRESSURE_UNITS = frozenset(PRESSURE_UNIT.values())

LEAST_BAR = 10
"""More bar than any tyre holds: below, 2.45 may be a pressure."""

MOST_UNKNOWN = 8
"""Words that no phrase knows: among more of them a figure without a unit is not off a gauge."""


def read_observations(scene: Scene) -> list[Observation] | Doubt:
    """The observations that a message states, a doubt about one, or none."""
    if not _may_read_gauges(scene):
        return []
    found: list[Observation] = []
    row: tuple[Figure, str] | None = None
    of_trailer = False
    heading = _heading(scene)
    if heading is not None and len(scene.figures) > LEAST_ROW:
        share_vehicle(scene)
    chatty = len(scene.unknown_words()) > MOST_UNKNOWN
    for figure in scene.live:
        if figure.role is not None:
            continue
        subject = subject_of(scene, figure, heading) or _of_the_row(scene, figure, row)
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
        if "any_water" in scene.groups and is_of_other_water(scene, figure, value):
            continue
        cold = figure.dimension is None and subject in RUN_HOT and value.value < LEAST_BARE
        if cold and value.unit not in PRESSURE_UNITS:
            continue  # 'oil 3', 'USB 2.0 hub', and not 'oil pressure 12'
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
            else:
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
        and "product" not in scene.tokens[label.start - 1].senses
        and any(
            each.dimension == VOLUME
            and 0 <= label.start - each.end <= FARTHEST_FLUID
            and not reads_gauge_behind(scene, each)
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
    if row is None or figure.label is not None:
        return None
    if figure.foreign is not None and figure.foreign not in scene.book.groups["how_warm"]:
        return None  # 'tires 65 65 80 80 cold'
    before, subject = row
    between = scene.tokens[before.end : figure.start]
    close = len(between) <= 1 and all(token.kind is MARK and token.raw in ",/" for token in between)
    close = close or (len(between) == 1 and "and" in between[0].groups)
    close = close or one_of_them(between)
    # 'hubs 48 51 72 degrees': the last one has the unit of them all
    last = before.dimension is None and figure.dimension in SUBJECT_DIMENSIONS[subject]
    alike = last or figure.dimension in (None, before.dimension)
    return subject if subject in POSITIONED and close and alike else None


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


MOST_IN_A_TYRE = 1_000
"""A bare figure so large is no slip of a pressure."""


def _are_new(scene: Scene, label: Label) -> bool:
    """'4 new tires': bought, and not read."""
    return label.start > 0 and "new_thing" in scene.tokens[label.start - 1].groups


def _was_paid(scene: Scene, figure: Figure) -> bool:
    """'tires, 640 installed': what is said behind a sum."""
    behind = scene.tokens[figure.end : figure.end + 1]
    return bool(behind) and "repaired" in behind[0].groups


def _of_gearbox(scene: Scene, label: Label) -> bool:
    """'trans temp': nothing in a house has one."""
    words = scene.words_between(label.start, label.end).casefold().split()
    return label.subject == "transmission" and not scene.book.groups["temps_word"].isdisjoint(words)


def _insists(scene: Scene, figure: Figure) -> bool:
    """Whether the message is surely about the gauge, so that an impossible figure is a slip."""
    label = figure.label
    if not isinstance(label, Label):
        return False
    if figure.dimension in (TEMPERATURE, PRESSURE, ROTATION):
        return True
    if len(scene.unknown) > (MOST_STRANGE if _of_gearbox(scene, label) else MOST_STRANGE_BARE):
        return False  # 'oil temp 375 for the fish fry'
    if label.subject == "tyre" and (figure.value >= MOST_IN_A_TYRE or _are_new(scene, label)):
        return False  # 'tires were 1,200', 'new tires for the camper 680': what they cost
    if label.subject == "tyre" and _was_paid(scene, figure):
        return False
    if follows_odometer(figure.value, scene.context):
        return False  # 'greased the bearings 51,700'
    before = scene.tokens[figure.start - 1] if figure.start else None
    glued = before is not None and before.end == scene.tokens[figure.start].start
    if not stands_by(scene, figure) or glued:
        return False  # 'atf967' is somebody's name
    words = scene.words_between(label.start, label.end).casefold()
    gauge = label.places or any(word in words for word in scene.book.groups["gauge_word"])
    return gauge or label.subject in ("transmission", "coolant", "tyre", "hub")
