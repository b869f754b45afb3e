"""Where on the rig a gauge was read: 'trailer left rear', 'spare'.

This file decides the position of a tyre's or a hub's reading by its label, a heading over it, or
the vehicle that its clause names behind it.
"""

from __future__ import annotations

from collections.abc import Sequence

from domain.entries import Entry, Observation
from domain.reading.figures import PRESSURE, TEMPERATURE, Figure
from domain.reading.gauge_values import POSITIONED
from domain.reading.label import Label
from domain.reading.scene import Scene
from domain.reading.tokens import MARK, NUMBER, WORD, Token


def _stands_under(scene: Scene, figure: Figure) -> str | None:
    """The vehicle of the last heading before a figure: 'Truck: 62 LF ... Camper: 79 LF'."""
    return next(
        (
            label.vehicle
            for label in reversed(scene.labels)
            if label.bound is None
            and label.end <= figure.start
            and label.only_vehicle
            and not _was_hitched(scene, label)
        ),
        None,
    )


def _was_hitched(scene: Scene, label: Label) -> bool:
    """'hitched the camper, tires 65 front': what was hitched heads no list."""
    return any(
        "hitch" in token.senses for token in scene.tokens[max(0, label.start - 2) : label.start]
    )


def share_vehicle(scene: Scene) -> None:
    """'hubs 98 101 99 100 trailer': a vehicle behind a row is that of each of its figures.

    They are alike: in 'tires 65 65 80 80 trailer' the first may be the truck's.
    """
    last = scene.figures[-1]
    label = last.label
    if not isinstance(label, Label) or not label.only_vehicle or label.start < last.end:
        return
    between = scene.tokens[last.end : label.start]
    if not all("standing_on" in token.groups for token in between):
        return
    row = [each for each in scene.figures if each.label is None and each.dimension is None]
    closed = label.end == scene.clause_of(last.start)[1]
    values = [each.value for each in (*row, last)]
    alike = max(values) <= MOST_APART * min(values)
    if closed and alike and len(row) >= LEAST_SHARING and row[-1].end == last.start:
        last.label = label.bound = None


LEAST_SHARING, MOST_APART = 2, 1.2
"""Figures of a row, beside its first and its last, and how many times one is another."""


def _vehicle_behind(scene: Scene, figure: Figure) -> str | None:
    """'all 80 on the trailer, 65 front 75 rear on the truck': whose the figures of a clause are.

    In '70 front 75 rear 80 on the camper' one figure alone is the camper's.
    """
    _, end = scene.clause_of(figure.start)
    return next(
        (
            label.vehicle
            for label in scene.labels
            if label.vehicle
            and figure.end <= label.start < end
            and not (label.only_vehicle and label.bound not in (None, figure))
            and not VEHICLES.isdisjoint(scene.tokens[label.end - 1].senses)
            and (
                "standing_on" in scene.tokens[label.end - 2].groups
                or (label.bound is None and scene.tokens[label.start - 1].kind is NUMBER)
            )
        ),
        None,
    )


VEHICLES = frozenset(("vehicle", "name"))
"""Classes of term for the truck or a trailer as such, and for no axle of theirs."""


def _alone_in_sentence(scene: Scene, figure: Figure, heading: Label) -> bool:
    """Whether a gauge and a figure are the only ones of their sentence."""
    start, end = scene.sentence_of(figure.start)
    if heading.bound is not None or not start <= heading.start < end:
        return False
    live = [each for each in scene.figures if start <= each.start < end and each.claimed is None]
    return live == [figure]


def _told_apart(scene: Scene, figure: Figure, gauge: Label) -> Label | None:
    """Where a gauge is that was named without its place, when that is told apart from it.

    It stands before the figure, 'hot hub, left rear flatdeck, 190 degrees', or right behind it.
    """
    if gauge.side or gauge.end_of or gauge.axle:
        return None
    start, end = scene.sentence_of(figure.start)
    if len([each for each in scene.figures if start <= each.start < end]) > 1:
        return None
    spots = [each for each in scene.labels if each.bound is None and (each.side or each.end_of)]
    for spot in spots:
        if any(token.kind is WORD for token in scene.tokens[spot.end : spot.end + 1]):
            continue  # 'tires all 65, rear brakes squeal'
        between = scene.tokens[figure.end : spot.start]
        small = all(token.raw == "," or "glue" in token.senses for token in between)
        if gauge.end <= spot.start < (end if small else figure.start):
            return spot
    return None


def is_aired_again(scene: Scene, figure: Figure, row: tuple[Figure, str] | None) -> bool:
    """'left rear tire was at 58, aired it back up to 80': the same tyre, and what it has now.

    `row` is the reading before it, and of what that was.
    """
    if row is None or row[1] != "tyre" or scene.groups.isdisjoint(AIRS):
        return False
    label = figure.label
    if figure.dimension not in (None, PRESSURE):
        return False
    if label is not None and not (
        isinstance(label, Label) and label.whole and row[0].end < label.start < figure.start
    ):
        return False  # no rig's gross is told by 'aired them all up to 80'
    between = scene.tokens[row[0].end : figure.start]
    return any("airs_up" in token.groups for token in between) or _brought_to(between)


def aired_anew(
    scene: Scene, before: Figure, figure: Figure, found: list[Observation]
) -> list[str | None]:
    """Take out what tyres had before they were aired again; gives the places of those aired.

    'it' is the last of them, 'them' a row of corners or those of a place, 'them all' every one.
    """
    last = found[-1]
    between = scene.tokens[before.end : figure.start]
    every = any("whole" in each.senses or not EVERY.isdisjoint(each.groups) for each in between)
    several = any("them" in token.groups for token in between)
    places: list[str | None] = []
    while found and found[-1].subject == "tyre" and found[-1].value.unit == last.value.unit:
        position = found[-1].position
        row = position == last.position or (_is_corner(position) and _is_corner(last.position))
        if places and not (every or (several and row)):
            break
        found.pop()
        if position not in places:
            places.insert(0, position)
    return places


def _is_corner(position: str | None) -> bool:
    return position is not None and len(position.removeprefix("trailer ").split(" ")) == CORNER


CORNER = 2
"""Words of a corner: 'left front'."""

EVERY = frozenset(("every_one", "of_all"))
"""Groups of words for all of what is meant."""


def _of_trailer(position: str | None) -> bool:
    return position is not None and position.startswith("trailer")


AIRS = frozenset(("airs_up", "airs_to", "now_word"))
"""Groups of words for putting air into a tyre, for bringing it to what it has, and for now."""


def _brought_to(between: Sequence[Token]) -> bool:
    """'62 psi, topped it to 80', '62, now 80': what was done to it, and then how much it is."""
    if not between:
        return False
    verbs = [token for token in between if "airs_to" in token.groups]
    to = not between[-1].groups.isdisjoint(("to", "down_to"))
    said = any("it_or_them" in token.groups for token in between) or between[-2:-1] == verbs
    done = to and len(verbs) == 1 and said  # 'topped it up to 80', 'filled to 80'
    told = done or (not verbs and between[0].raw == "," and "now_word" in between[-1].groups)
    return told and all(
        token in verbs or token.kind is MARK or not SMALL.isdisjoint(token.senses)
        for token in between
    )


SMALL = frozenset(("glue", "unit", "talk", "whole"))
"""Classes of the words beside it; 'them' is also said of people, and 'all up' of a gross."""


def carried_position(scene: Scene, figure: Figure, before: Figure, told: Observation) -> str | None:
    """'left hubs 131 and 128': the place of the reading before it, where several wheels are there.

    Others than 'left trailer hub at 172, others 120' are of that trailer.

    A tyre's pressure and its heat are of the same one: 'right rear 71 and 118 degrees'.
    """
    if told.position is None or not follows(scene, figure, before):
        return None
    if any("the_others" in token.groups for token in scene.tokens[before.end : figure.start]):
        return "trailer" if _of_trailer(told.position) else None
    of_one = {figure.dimension, before.dimension} >= {TEMPERATURE}
    of_one = of_one and figure.dimension != before.dimension and told.subject == "tyre"
    *_, last = told.position.split(" ")
    several = told.position.removeprefix("trailer ") in SIDES_AND_ENDS or last.isdigit()
    return told.position if of_one or several else None


SIDES_AND_ENDS = frozenset(("left", "right", "front", "rear"))


def follows(scene: Scene, figure: Figure, before: Figure) -> bool:
    """Whether a figure without a name is the next one of a list."""
    between = scene.tokens[before.end : figure.start]
    listed = all(token.raw in ",/" for token in between) or one_of_them(between)
    listed = listed or (len(between) == 1 and "and" in between[0].groups)
    return figure.label is None and listed


def one_of_them(between: Sequence[Token]) -> bool:
    """'tires at 65, one at 48': what stands between two of them, and says that it is another."""
    said = [token for token in between if token.raw != ","]
    ones = [token for token in said if "one_of_them" in token.groups]
    rest = [token for token in said if token not in ones]
    return len(ones) == 1 and all(
        token.groups & {"and", "at", "roughly"} or "glue" in token.senses for token in rest
    )


def place_of_soft_tyre(scene: Scene) -> Label | None:
    """'left rear is low, 48 psi', 'aired up the left front': a place, of which a tyre is meant."""
    if "airs_up" not in scene.groups and (
        "soft_tyre" not in scene.groups or all(f.dimension != PRESSURE for f in scene.figures)
    ):
        return None
    return next((each for each in scene.labels if each.places and not each.whole), None)


def on_the_same(
    scene: Scene,
    figure: Figure,
    before: Figure,
    position: str | None,
    found: Sequence[Observation],
) -> str | None:
    """'camper left front 79, left rear 77': a corner behind one of the trailer's is the trailer's.

    Of a side alone the rest is said before: 'left front 65, right 66', 'camper left 78, right 80'.

    One that was told of the trailer before is the truck's, and so is one that the truck heads.
    """
    told = found[-1].position
    if told is None or position is None:
        return position
    side = figure.label.side if isinstance(figure.label, Label) and figure.label.only_side else None
    beside = OTHER_SIDE.get(side or "")
    if side and beside in told.split(" "):
        meant = " ".join([side if word == beside else word for word in told.split(" ")])
    elif _of_trailer(position):
        return position
    elif _of_trailer(told) and _is_corner(told) and _is_corner(position):
        meant = f"trailer {position}"
    else:
        return position
    between = scene.tokens[before.end : figure.start]
    apart = any(token.ends_sentence or not VEHICLES.isdisjoint(token.senses) for token in between)
    known = meant == told or any(each.position == meant for each in found)
    return position if apart or known else meant


OTHER_SIDE = {"left": "right", "right": "left"}


def wheels_of_both(entries: Sequence[Entry]) -> Sequence[Observation]:
    """'tires 70 on Juniper, 80 on the camper': the wheels, where truck's and trailer's are told."""
    wheels = [
        each for each in entries if isinstance(each, Observation) and each.subject in POSITIONED
    ]
    return wheels if len({is_on_trailer(each) for each in wheels}) > 1 else ()


def is_on_trailer(wheel: Observation) -> bool:
    """Whether a wheel that was read is told to be a trailer's."""
    return _of_trailer(wheel.position)


def position_of(scene: Scene, figure: Figure, heading: Label | None) -> str | None:
    """The position of a reading, such as 'trailer left rear'; None where nothing tells it."""
    label = figure.label
    parts: list[str] = []
    own = label if isinstance(label, Label) else None
    if own is None and heading is not None and _alone_in_sentence(scene, figure, heading):
        own = heading  # 'right rear tire looked low at 62 psi'
    if own is not None and len(scene.labels) > 1:
        own = _told_apart(scene, figure, own) or own
    apart = heading is not None and heading is not own and _of_a_stranger(scene, figure, heading)
    heads = heading is not None and (heading.start < figure.start or heading.bound is None)
    trailer = (own is not None and own.vehicle == "trailer") or (
        heading is not None
        and heads
        and heading.vehicle == "trailer"
        and heading is not own
        and not apart
    )
    if own is not None and own.vehicle == "truck":
        trailer = False
    behind = _vehicle_behind(scene, figure) if own is None or own.vehicle is None else None
    if behind is not None:
        trailer = behind == "trailer"
    elif own is not None and own.vehicle is None:
        under = _stands_under(scene, figure)
        trailer = trailer if under is None else under == "trailer"
    if trailer:
        parts.append("trailer")
    if own is not None:
        side = own.side
        if heading is not None and heads and not apart and own.only_end:
            side = heading.side  # 'right side trailer tires: front 80, rear 78'
        if side:
            parts.append(side)
        if own.ordinal:
            parts.append(f"axle {own.ordinal}")
        end = own.end_of or {"steer": "front", "drive": "rear"}.get(own.axle or "")
        if end:
            parts.append(end)
            parts.extend(_of_dual(scene, own, figure))
    if parts in ([], ["trailer"]) and own is None and _is_spare(scene, figure):
        return "spare"
    if parts in ([], ["trailer"]):
        return parts[0] if parts else None
    return " ".join(parts)


def _of_a_stranger(scene: Scene, figure: Figure, heading: Label) -> bool:
    """'van tyres 65, cruiser 38 front 44 rear': what heads the clause is another vehicle's name."""
    start, _ = scene.clause_of(figure.start)
    if heading.bound is None or start <= heading.end:
        return False
    first = scene.tokens[start]
    return first.kind is WORD and not (first.senses or first.groups)


def _of_dual(scene: Scene, label: Label, figure: Figure) -> list[str]:
    """'rr outer 78', 'inner rr 71': which of two wheels side by side; none where nobody says."""
    duals = scene.book.keys["dual_wheel"]
    first, last = min(label.start, figure.start), max(label.end, figure.end)
    said = " ".join(token.text for token in scene.tokens[max(first - 1, 0) : last])
    return [duals[word] for word in said.split() if word in duals][:1]


def _is_spare(scene: Scene, figure: Figure) -> bool:
    if "spare_tyre" not in scene.groups:
        return False
    start, end = scene.clause_of(figure.start)
    before = [each.end for each in scene.figures if start <= each.end <= figure.start]
    if any(figure.end <= each.start < end for each in scene.figures):
        end = figure.start  # 'tires all 65 except the spare 40'
    return any("spare_tyre" in token.groups for token in scene.tokens[max([start, *before]) : end])
