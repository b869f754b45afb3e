"""Where on the rig a gauge was read: 'trailer left rear', 'spare'.

This file decides the position of a tyre's or a hub's reading by its label, a heading over it, or
the vehicle that its clause names behind it.
"""

from __future__ import annotations

from domain.reading.figures import PRESSURE, Figure
from domain.reading.label import Label
from domain.reading.scene import Scene


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


def _vehicle_behind(scene: Scene, figure: Figure) -> str | None:
    """'all 80 on the trailer, 65 front 75 rear on the truck': whose the figures of a clause are."""
    _, end = scene.clause_of(figure.start)
    return next(
        (
            label.vehicle
            for label in scene.labels
            if label.vehicle
            and figure.end <= label.start < end
            and not VEHICLES.isdisjoint(scene.tokens[label.end - 1].senses)
            and "standing_on" in scene.tokens[label.end - 2].groups
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


def is_aired_again(scene: Scene, figure: Figure, heading: Label | None) -> bool:
    """'left rear tire was at 58, aired it back up to 80': the same tyre, and what it has now."""
    if "airs_up" not in scene.groups or heading is None or heading.bound is None:
        return False
    if figure.label is not None or figure.dimension not in (None, PRESSURE):
        return False
    behind = heading.bound.end
    between = scene.tokens[behind : figure.start]
    return behind <= figure.start and any("airs_up" in token.groups for token in between)


def position_of(scene: Scene, figure: Figure, heading: Label | None) -> str | None:
    """The position of a reading, such as 'trailer left rear'; None where nothing tells it."""
    label = figure.label
    parts: list[str] = []
    own = label if isinstance(label, Label) else None
    if own is None and heading is not None and _alone_in_sentence(scene, figure, heading):
        own = heading  # 'right rear tire looked low at 62 psi'
    elif is_aired_again(scene, figure, heading):
        own = heading
    heads = heading is not None and (heading.start < figure.start or heading.bound is None)
    trailer = (own is not None and own.vehicle == "trailer") or (
        heading is not None and heads and heading.vehicle == "trailer" and heading is not own
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
        if own.side:
            parts.append(own.side)
        if own.ordinal:
            parts.append(f"axle {own.ordinal}")
        end = own.end_of or {"steer": "front", "drive": "rear"}.get(own.axle or "")
        if end:
            parts.append(end)
            parts.extend(_of_dual(scene, own, figure))
    if not parts and _is_spare(scene, figure):
        return "spare"
    if parts in ([], ["trailer"]):
        return parts[0] if parts else None
    return " ".join(parts)


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
    return any("spare_tyre" in token.groups for token in scene.tokens[start:end])
