"""Where one pass over the scale ends and the next begins.

'Pass 2', a second 'bars on', 'solo', or an axle that was already given start a new pass.
"""

from __future__ import annotations

from bisect import bisect_left
from collections.abc import Sequence
from copy import copy
from itertools import pairwise
from typing import NamedTuple

from domain.reading.both_ways import OWN_PASS
from domain.reading.figures import LEAST_LOAD, MASS, Figure
from domain.reading.label import Label
from domain.reading.lexer import tokenize
from domain.reading.phrasebook import Phrasebook
from domain.reading.scene import Scene
from domain.reading.tokens import NUMBER, WORD


class Pass(NamedTuple):
    """The figures of one pass over the scale, with what was said of it."""

    figures: tuple[Figure, ...]
    start: int
    end: int


def passes_of(scene: Scene, figures: Sequence[Figure]) -> list[Pass]:
    """Split at 'pass 2', at a second 'bars on', at 'solo', or where a labelled position returns."""
    whole = Pass(tuple(figures), 0, len(scene.tokens))
    if len(figures) < 2:
        return [whole]
    if not scene.labels and PARTING.isdisjoint(scene.by_class):
        return _two_rows(scene, figures) if len(figures) in TWO_ROWS else [whole]
    marks = sorted(
        {
            *scene.by_class.get("bars", ()),
            *scene.by_class.get("passes", ()),
            *_numbered(scene, figures),
            *[index for index, _, key in scene.find("rig") if _sets_rig(scene, index, key)],
        }
    )
    leading = [mark for mark in marks if mark < figures[0].start]
    between = [mark for mark in marks if figures[0].start < mark < figures[-1].start]
    trailing = [mark for mark in marks if mark > figures[-1].start]
    cuts: list[int] = []
    if between and (leading or not trailing):
        cuts = [mark for mark in between if _opens_pass(scene, mark, figures)]
        if len(marks) == 1:
            (mark,) = marks
            aside = _trails(scene, mark) or _of_both(scene, mark, figures)
            cuts = [] if aside or _parts_axles(mark, figures) else cuts
    elif between and trailing:
        cuts = [mark + 1 for mark in between]
    elif leading and trailing and len(figures) == TWICE:
        cuts = _stood_otherwise(scene, leading[-1], trailing[0], figures[1])
    elif trailing and len(figures) == TWICE and not leading:
        cuts = _last_alone(scene, trailing[0], *figures)
    cuts = cuts or _repeats(figures)
    if not cuts:
        return _two_rows(scene, figures) if len(figures) in TWO_ROWS else [whole]
    edges = [0, *cuts, len(scene.tokens)]
    starts = [figure.start for figure in figures]
    passes = []
    for start, end in pairwise(edges):
        own = tuple(figures[bisect_left(starts, start) : bisect_left(starts, end)])
        if own:
            passes.append(Pass(own, start, end))
    if len(passes) > 1 and _axle_by_axle(scene, passes):
        return [whole]
    return passes


def _stood_otherwise(scene: Scene, ahead: int, behind: int, second: Figure) -> list[int]:
    """'truck by itself was 8,560 and 16,980 with the camper': each load by its own side."""
    keys = [scene.tokens[at].senses.get("rig", "").split(" ")[0] for at in (ahead, behind)]
    off = any("slack" in token.groups for token in scene.tokens[behind + 1 : behind + 2])
    return [second.start] if set(keys) == {"hitched", "solo"} and not off else []


def _last_alone(scene: Scene, mark: int, first: Figure, last: Figure) -> list[int]:
    """'steer 4,860, 5,210 solo': the axle with the trailer, and without it.

    'steer 4,980, 3,860 solo' may be both axles of the truck: alone it bears more in front.
    """
    label = first.label
    steers = isinstance(label, Label) and label.axle == "steer" and label.end <= first.start
    bare = last.label is None and last.end == mark and last.start <= first.end + 1
    solo = scene.tokens[mark].senses.get("rig", "").startswith("solo")
    more = 1 <= last.value / first.value <= ALIKE
    return [last.start] if steers and bare and solo and more else []


def _two_rows(scene: Scene, figures: Sequence[Figure]) -> list[Pass]:
    """'4,860 7,300 9,120, tightened up and got 5,160 6,920 9,200': a row, and one alike.

    Words stand between the two, and nothing but marks within each.
    """
    weighed = scene.context.hitched or "weigh_cue" in scene.by_class
    plain = all(each.label is None or _is_numbered(each.label) for each in figures)
    half = len(figures) // 2
    rows = tuple(figures[:half]), tuple(figures[half:])
    gap = range(rows[0][-1].end, rows[1][0].start)
    parted = any(scene.tokens[at].kind is WORD for at in gap)
    alike = all(
        first.value >= LEAST_LOAD and 1 / ALIKE < second.value / first.value < ALIKE
        for first, second in zip(*rows, strict=True)
    )
    close = all(right.start - left.end <= 1 for row in rows for left, right in pairwise(row))
    if not (weighed and plain and parted and alike and close):
        return [Pass(tuple(figures), 0, len(scene.tokens))]
    for each in figures:
        each.label = None  # 'first time through' numbers no axle
    return [Pass(rows[0], 0, gap.stop), Pass(rows[1], gap.stop, len(scene.tokens))]


TWO_ROWS, ALIKE = (6, 8), 1.3
"""Figures of two rows, the gross among them or not, and how unlike a place is the next time."""


def _numbered(scene: Scene, figures: Sequence[Figure]) -> list[int]:
    """'1st: 5240 6820 9060. 2nd: 5180 6900 9040': where each of two rows or more is numbered.

    The number is no axle's from then on.
    """
    if "ordinal" not in scene.by_class or len(figures) < LEAST_NUMBERED:
        return []
    heads = [each for each in figures if _is_numbered(each.label)]
    if len(heads) < TWICE or heads[0] is not figures[0]:
        return []
    at = [number for number, each in enumerate(figures) if each in heads]
    rows = [figures[start:end] for start, end in pairwise([*at, len(figures)])]
    bare = all(each.label is None for row in rows for each in row[1:])
    if not bare or len({len(row) for row in rows}) > 1 or len(rows[0]) < TWICE:
        return []
    starts = [head.label.start for head in heads if isinstance(head.label, Label)]
    for head in heads:
        head.label = None
    return starts


def _is_numbered(label: object) -> bool:
    return isinstance(label, Label) and label.only_ordinal


TWICE, LEAST_NUMBERED = 2, 4
"""Rows, and figures in all of them, at least."""

PARTING = frozenset(("bars", "passes", "rig"))
"""Classes of term that can part two passes."""


def heads_loads(book: Phrasebook, name: str) -> bool:
    """Whether a row or a column of a table is named for how the rig stood: 'bars off'."""
    tokens = tokenize(name, book)
    return bool(tokens) and not any(PARTING.isdisjoint(token.senses) for token in tokens)


def _axle_by_axle(scene: Scene, passes: Sequence[Pass]) -> bool:
    """'pass 1 steer 4,860, pass 2 drive 6,700': the steps of one weighing, a place in each."""
    if scene.has("bars") or any(len(each.figures) > 1 for each in passes):
        return False
    labels = [each.figures[0].label for each in passes]
    if any(isinstance(label, Label) and label.of_both for label in labels):
        return False  # 'truck and camper 18,940, camper alone 9,120'
    places = {
        (label.axle, label.vehicle, label.whole, label.ordinal, label.side)
        for label in labels
        if isinstance(label, Label)
    }
    stood = {key.split()[0] for index, _, key in scene.find("rig") if _sets_rig(scene, index, key)}
    return len(places) == len(passes) and len(stood) <= 1


def _opens_pass(scene: Scene, mark: int, figures: Sequence[Figure]) -> bool:
    """A second mark right behind the first ('pass 1 no bars') opens nothing."""
    before = [figure for figure in figures if figure.start < mark]
    if not before:
        return False
    if any(label.end == mark and label.bound in figures for label in scene.labels):
        return False  # 'total with camper 22,140'
    if _ends_row(scene, mark, figures):
        return False
    last = before[-1].end
    return not any(
        last <= index < mark and not _ends_row(scene, index, figures)
        for term in ("bars", "passes")
        for index in scene.by_class.get(term, ())
    )


def _ends_row(scene: Scene, mark: int, figures: Sequence[Figure]) -> bool:
    """'5,180 6,940 9,200. bars on. then bars off: ...': of the row before, as another follows."""
    following = next((f.start for f in figures if f.start > mark), mark)
    others = [index for index in scene.by_class.get("bars", ()) if mark < index < following]
    between = scene.tokens[mark + 1 : others[0]] if others else ()
    return any(token.ends_sentence for token in between)


def _trails(scene: Scene, mark: int) -> bool:
    """'5280 6940 solo, gross 12220': the one mark ends its clause, and is of what stands before."""
    start, end = scene.clause_of(mark)
    return start < mark == end - 1 and end < len(scene.tokens) and scene.tokens[end].raw == ","


def _of_both(scene: Scene, mark: int, figures: Sequence[Figure]) -> bool:
    """'grossed 22,900, bars off, steer 4,940': a clause between two places of one pass."""
    if "bars" not in scene.tokens[mark].senses or scene.clause_of(mark) != (mark, mark + 1):
        return False
    labels = [each.label for each in figures]
    named = [label for label in labels if isinstance(label, Label) and not label.only_ordinal]
    places = {(label.axle, label.vehicle, label.whole, label.end_of, label.side) for label in named}
    return len(named) == len(figures) == len(places)


def _parts_axles(mark: int, figures: Sequence[Figure]) -> bool:
    """'steer 4,870 with the trailer on, drive 5,930': between the two axles of one truck.

    Each is told once, with all else: whoever weighed twice tells an axle twice.
    """
    labels = [each.label for each in figures if isinstance(each.label, Label)]
    trucks = [label for label in labels if label.axle and label.vehicle != "trailer"]
    if {label.axle for label in trucks} != {"steer", "drive"} or len(trucks) != TWICE:
        return False
    first, last = trucks
    return first.start < mark < last.start and len(labels) == len(figures) and not first.side


def _sets_rig(scene: Scene, index: int, key: str) -> bool:
    return (
        key.split(maxsplit=1)[0] != "hitched"
        or scene.tokens[index].groups >= OWN_PASS
        or scene.tokens[index].text.split()[0] in scene.book.groups["with"]
        or _heads_pass(scene, index)
    )


def _heads_pass(scene: Scene, index: int) -> bool:
    """'solo 5,280/4,620 then hitched 4,960/6,100/8,480': the other way of standing is told too."""
    behind = scene.tokens[index + 1 : index + 2]
    loaded = bool(behind) and behind[0].kind is NUMBER and behind[0].value >= LEAST_LOAD
    loaded = loaded or (bool(behind) and behind[0].raw in ":=")
    return loaded and any(
        key.split(maxsplit=1)[0] != "hitched" and at != index for at, _, key in scene.find("rig")
    )


def _repeats(figures: Sequence[Figure]) -> list[int]:
    """Where an axle that was already given is given again, a new pass begins."""
    seen: set[tuple[str, bool]] = set()
    cuts: list[int] = []
    for figure in figures:
        label = figure.label
        if not isinstance(label, Label) or label.side or label.ordinal:
            continue
        name = label.axle or label.whole or label.end_of
        if name is None:
            continue
        place = (name, label.vehicle == "trailer")  # a trailer's front axle is no steer axle
        if place in seen and not (label.end_of and _of_vehicles(figures)):
            cuts.append(min(figure.start, label.start))
            seen = set()
        seen.add(place)
    return cuts


def _of_vehicles(figures: Sequence[Figure]) -> bool:
    """'truck front 5,240 rear 6,890 trailer front 4,400 rear 4,500': the ends of each are told."""
    labels = [each.label for each in figures]
    return any(isinstance(each, Label) and each.end_of and each.vehicle for each in labels)


def carry_place(passes: Sequence[Pass]) -> None:
    """'steer with bars 5,180, without 4,860': the one place that is told of, in every pass.

    It may be told last: 'bars on 5,300, bars off 4,960 on the steer'.
    """
    figures = [figure for each in passes for figure in each.figures]
    told = next((each.label for each in figures if each.label is not None), None)
    single = len(figures) == len(passes)
    if not single or not isinstance(told, Label) or not told.places_load:
        return
    for figure in figures:
        if figure.label is None:
            label = copy(told)
            label.bound, figure.label = figure, label


def share_unit(passes: Sequence[Pass]) -> None:
    """'car and van 3,700 kg together, car alone 2,180': the unit said once for every pass."""
    figures = [figure for each in passes for figure in each.figures]
    masses = {figure.unit: figure.value for figure in figures if figure.dimension == MASS}
    if len(masses) != 1:
        return
    ((unit, mass),) = masses.items()
    for figure in figures:
        alike = mass / MOST_UNLIKE < figure.value < mass * MOST_UNLIKE
        if figure.dimension is None and alike:
            figure.unit, figure.dimension = unit, MASS


MOST_UNLIKE = 8
"""How many times as heavy as another a load of a rig may be that is in the same unit."""


def weigh_again(scene: Scene, figures: Sequence[Figure]) -> None:
    """'gross 21,480, reweighed 21,320 after dumping the grey': the one place, weighed twice."""
    if len(figures) != TWICE:
        return
    first, second = figures
    again = any("weighs_again" in each.groups for each in scene.tokens[first.end : second.start])
    alike = 1 / MOST_CHANGED < second.value / first.value < MOST_CHANGED
    if again and alike and second.label is None and isinstance(first.label, Label):
        label = copy(first.label)
        label.start = label.end = second.start
        label.bound, second.label = second, label


MOST_CHANGED = 1.5
"""How many times as heavy a place may be the next time; common practice, no source."""
