"""A load on an axle of the truck's own, told beside a trailer that is said to stand alone.

'camper only puts 6,240 on its axles, front of the truck is 4,610' is a hitched rig; 'camper by
itself 7,100, truck front 4,610' is two weighings. This file decides when a truck's axle is told.
"""

from __future__ import annotations

from collections.abc import Sequence

from domain.reading.figures import LEAST_LOAD, Figure
from domain.reading.label import Label
from domain.reading.scene import Scene


def has_trucks_own(scene: Scene, figures: Sequence[Figure]) -> bool:
    """Whether a load is on an axle that only a truck has, or on one that is called the truck's.

    It stands beside another load: 'the trucks may not drive from 0 to 22' tells none.
    """
    loads = [figure for figure in figures if figure.value >= LEAST_LOAD]
    for figure in loads if len(loads) > 1 else ():
        label = figure.label
        if not isinstance(label, Label) or label.vehicle == "trailer":
            continue
        named = scene.tokens[label.start].groups
        if label.axle and label.vehicle is None and "trucks_axle" in named:
            return True
        if label.vehicle == "truck" and (label.axle or label.end_of):
            return True
    return False
