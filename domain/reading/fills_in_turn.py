"""Several fills in one message: where one stop ends and the next is told.

This file decides it by sentences with a volume of their own, by volumes and odometer readings in
turn, and within one sentence by how many there were ('filled up twice, 18.2 and 21.4 gallons'),
or by each one's place, time or number among them.
"""

from __future__ import annotations

from collections.abc import Sequence
from itertools import pairwise

from domain.context import VOLUME_UNIT
from domain.reading.figures import VOLUME, Figure
from domain.reading.label import Label
from domain.reading.places import read_places, stops_named
from domain.reading.scene import Scene
from domain.reading.stops_in_turn import stops_in_turn
from domain.reading.tokens import NUMBER, TIME, WORD, Token


def next_fills(scene: Scene) -> tuple[list[int], int | None]:
    """Where each further fill begins, and before which token what is said holds for each."""
    live = scene.live
    volumes = [figure for figure in live if figure.dimension == VOLUME] if len(live) > 1 else []
    if len(live) >= IN_TURN and (volumes or _tells_of_fills(scene)):
        unit = volumes[0].unit if volumes else None
        cuts = stops_in_turn(scene, live, unit or VOLUME_UNIT[scene.context.units])
        if cuts:
            return cuts, None
    if not volumes:
        return [], None
    again = "pays_with" in scene.groups and scene.phrase_said("paid_again") is not None
    if again:
        volumes = _with_bare(scene, volumes)
    if len(volumes) > 1:
        starts = [scene.sentence_of(figure.start)[0] for figure in volumes]
        cuts = sorted({start for start in starts[1:] if start != starts[0]})
        if cuts:
            return cuts, None
        if again:
            # 'cut off at $100, 25.6 gal, then another 8.2 on the other card'
            _measure(volumes)
            for figure in volumes:
                figure.foreign = None  # 'one card 25.6 gal other card 8.2 gal'
            return [_cut(scene, one, other) for one, other in pairwise(volumes)], None
    return _in_one_sentence(scene, volumes)


def _tells_of_fills(scene: Scene) -> bool:
    """'two stops, ...', '51,520 23.7; 51,810 22.1': where no unit says that fuel was pumped."""
    if "fuel_cue" in scene.by_class or "fill_noun" in scene.groups:
        return True
    return not (scene.unknown or PARTS_STOPS.isdisjoint(scene.text))


PARTS_STOPS = frozenset(";\n@")
"""Marks of which one stands between stops, or the figures of one: '18.4 @ 51,300'."""


def _in_one_sentence(scene: Scene, volumes: Sequence[Figure]) -> tuple[list[int], int | None]:
    """'filled up twice, 18.2 and 21.4 gallons', '18.2 gal in Larkfold, 21.4 gal in Elk Fork'."""
    if (
        TELLS_APART.isdisjoint(scene.groups)
        and TOLD_APART.isdisjoint(scene.by_class)
        and "+" not in scene.text
        and not (scene.unknown and (len(volumes) > 1 or "then" in scene.groups))
    ):
        return [], None
    volumes = _with_bare(scene, volumes)
    own = scene.book.groups["each_way"]  # 'morning fill 24.6 evening fill 18.9 gal'
    if len(volumes) < FEWEST or any(each.foreign and each.foreign not in own for each in volumes):
        return [], None  # 'picked 18.2 gallons of berries going and 21.4 coming back'
    cuts = [_cut(scene, one, other) for one, other in pairwise(volumes)]
    added = all(scene.tokens[cut - 1].raw == "+" == scene.tokens[cut - 1].text for cut in cuts)
    if not (added or _counted(scene, len(volumes)) or _numbered(scene, cuts)) and (
        scene.phrase_said("earlier_fill") or not _each_has_its_own(scene, cuts, volumes)
    ):
        return [], None
    _measure(volumes)
    return cuts, volumes[0].start


def _measure(volumes: Sequence[Figure]) -> None:
    """Give each volume the unit that is said once for all."""
    unit = next((each.unit for each in reversed(volumes) if each.unit), None)
    for figure in volumes:
        figure.unit, figure.dimension = figure.unit or unit, VOLUME


FEWEST = 2
"""Volumes of several stops."""

IN_TURN = 4
"""Figures of two stops, each with a volume and something else."""

TELLS_APART = frozenset(
    ("twice", "so_many_times", "fill_noun", "several_tanks", "leads_to_place", "each_way")
)
TOLD_APART = frozenset(("time", "ordinal"))
"""Groups of words and classes of term of which one says that there were several stops."""


def _with_bare(scene: Scene, volumes: Sequence[Figure]) -> list[Figure]:
    """The volumes, with figures like them whose unit is said once: '18.2 and 21.4 gallons'."""
    unit = volumes[0].unit
    if any(each.unit != unit for each in volumes):
        return list(volumes)
    return [
        figure
        for figure in scene.live
        if figure in volumes
        or (
            figure.dimension is None
            and (figure.label is None or _is_number(figure.label))
            and figure.token.decimals == 1
            and all(figure.value <= MOST_ALIKE * each.value for each in volumes)
            and all(each.value <= MOST_ALIKE * figure.value for each in volumes)
        )
    ]


def _is_number(label: object) -> bool:
    """'8.2 on the second card': which of several it is, and nothing that is measured."""
    return isinstance(label, Label) and label.only_ordinal


MOST_ALIKE = 8
"""What one stop took is never so many times what another did."""


def _cut(scene: Scene, one: Figure, other: Figure) -> int:
    """Where the second of two stops begins: behind the last word that joins them, else mark."""
    between = range(one.end, other.start)
    if "another" in scene.tokens[other.start - 1].groups:
        return other.start - 1
    words = [at for at in between if "then" in scene.tokens[at].groups]
    marks = [at for at in between if scene.tokens[at].raw in PARTING]
    if words or marks:
        return (words or marks)[-1] + 1
    cut = other.start
    while cut > one.end and _heads_stop(scene.tokens[cut - 1]):
        cut -= 1
    return cut


def _heads_stop(token: Token) -> bool:
    """'Fri 22.1 gal Sat 19.4 gal': a time, a number or a name that is told before a stop."""
    named = token.kind is WORD and not token.senses and token.raw[0].isupper()
    return named or token.kind is TIME or not TOLD_APART.isdisjoint(token.senses)


PARTING = ",;&+/"


def _counted(scene: Scene, count: int) -> bool:
    """'filled up twice', 'here and again there', 'two stops': whether so many fills are told."""
    twice = "twice" in scene.groups or (
        "each_way" in scene.groups and scene.phrase_said("once_more") is not None
    )
    if twice and count == FEWEST and speaks_of_stops(scene):
        return True
    for one, other in pairwise(scene.tokens):
        tankfuls = "several_tanks" in other.groups and "all_of_it" in scene.groups
        if not tankfuls and other.groups.isdisjoint(COUNTED):
            continue  # '2 tanks this trip', but not 'filled both tanks'
        if one.kind is NUMBER and one.value == count and one.decimals == 0:
            return True
        if "pair" in one.groups and count == FEWEST:
            return True
    return False


def speaks_of_stops(scene: Scene) -> bool:
    """'stopped twice', and not 'milked twice': that no unknown word tells what was done."""
    if not FUELLED.isdisjoint(scene.by_class) or not STOPPED.isdisjoint(scene.groups):
        return True
    return all(scene.tokens[index].groups for index in scene.unknown)


FUELLED = frozenset(("fuel_cue", "full", "product"))
STOPPED = frozenset(("fill_noun", "stops_there"))
"""Classes of term and groups of words that say that a truck stopped and was filled."""

COUNTED = frozenset(("fill_noun", "so_many_times"))
"""Groups of words behind how many fills there were."""


def _each_has_its_own(scene: Scene, cuts: Sequence[int], volumes: Sequence[Figure]) -> bool:
    """Whether each stop is told with a time, a place or a number among them of its own."""
    tokens = scene.tokens
    clocks = [index for index, token in enumerate(tokens) if token.kind is TIME]
    places = read_places(scene) if "leads_to_place" in scene.groups else []
    edges = list(pairwise([0, *cuts, len(tokens)]))
    if "each_way" in scene.groups and _differ(scene, edges):
        return True
    if scene.unknown and stops_named(scene, volumes):
        return True
    return any(
        all(any(start <= at < end for at in found) for start, end in edges)
        for found in (
            [*clocks, *scene.by_class.get("time", ())],
            [at for at in scene.by_class.get("ordinal", ()) if not _is_of_tank(scene, at)],
            [index for index, _ in places],
        )
    )


def _numbered(scene: Scene, cuts: Sequence[int]) -> bool:
    """'first fill 22.1 gal, second 19.4 gal': whether each stop has its number."""
    if "ordinal" not in scene.by_class:
        return False
    numbers = [
        at
        for at, _, key in scene.find("ordinal")
        if key.split()[0].isdigit() and not _is_of_tank(scene, at)
    ]
    return all(
        any(start <= at < end for at in numbers)
        for start, end in pairwise([0, *cuts, len(scene.tokens)])
    )


def _is_of_tank(scene: Scene, ordinal: int) -> bool:
    """'first tank 22.1 gal, second tank 19.4': told of one stop."""
    behind = scene.tokens[ordinal + 1 : ordinal + 2]
    return bool(behind) and "tank" in behind[0].senses


def _differ(scene: Scene, edges: Sequence[tuple[int, int]]) -> bool:
    """'18.2 gal at lunch, 21.4 at dinner', '... going, ... coming back': each by another word."""
    told = [
        {word for token in scene.tokens[start:end] for word in token.text.split()}
        & scene.book.groups["each_way"]
        for start, end in edges
    ]
    return all(told) and all(not one & other for one, other in pairwise(told))
