"""Loads that were said short: 'sixty-nine even', 'twenty-two one', 'seventy oh forty'.

This file decides which meaning of a dictated load counts, where its words have several: that by
which the axles make the gross, else the only one that the position can weigh.
"""

from __future__ import annotations

from itertools import product

from domain.reading.figures import Figure
from domain.reading.load_doubts import is_possible
from domain.reading.loads import loads_of, makes_gross
from domain.reading.scene import Scene

MOST_SAID = 5
"""Figures with several meanings that are tried against each other."""


def settle_said(scene: Scene, placed: dict[str, Figure], rig: str | None) -> None:
    """Give dictated figures the meaning that counts; leaves them where none is beyond doubt."""
    said = {position: figure for position, figure in placed.items() if figure.token.said.others}
    if not said or _by_sum(scene, placed, said, rig) or _all_short(scene, placed, said, rig):
        return
    for position, figure in said.items():
        if _fits(scene, placed, position, rig):
            continue
        following = scene.tokens[figure.end] if figure.end < len(scene.tokens) else None
        even = following is not None and "even_hundreds" in following.groups
        (other,) = figure.token.said.others
        if even or other < figure.value:
            face, figure.value = figure.value, other
            if not _fits(scene, placed, position, rig):
                figure.value = face


def _fits(scene: Scene, placed: dict[str, Figure], position: str, rig: str | None) -> bool:
    """Whether the position of a figure can weigh as much as it says now."""
    return is_possible(position, loads_of(scene, placed)[position].amount("kg"), rig)


def _all_short(
    scene: Scene, placed: dict[str, Figure], said: dict[str, Figure], rig: str | None
) -> bool:
    """'five three on the steer, seven oh on the drive': said alike, and no axle weighs 53 lb.

    Two-digit numbers could be pressures: 'steer ninety drive eighty' is asked about.
    """
    if len(said) < max(2, len(placed)):
        return False
    if not any(_by_digits(scene, figure) for figure in said.values()):
        return False
    faces = {position: figure.value for position, figure in said.items()}
    if any(_fits(scene, placed, at, rig) for at in said):
        return False
    for figure in said.values():
        (figure.value,) = figure.token.said.others
    if all(_fits(scene, placed, at, rig) for at in said):
        return True
    for position, figure in said.items():
        figure.value = faces[position]
    return False


def _by_digits(scene: Scene, figure: Figure) -> bool:
    words = figure.token.raw.casefold().replace("-", " ").split()
    return len(words) > 1 and all(len(scene.book.numbers.get(word, "")) == 1 for word in words)


def _by_sum(
    scene: Scene, placed: dict[str, Figure], said: dict[str, Figure], rig: str | None
) -> bool:
    """Take the meanings by which the axles make the gross, where one choice does."""
    if "gross" not in placed or len(said) > MOST_SAID:
        return False
    faces = [figure.value for figure in said.values()]
    for values in product(*[(figure.value, *figure.token.said.others) for figure in said.values()]):
        for figure, value in zip(said.values(), values, strict=True):
            figure.value = value
        loads = loads_of(scene, placed)
        if makes_gross(loads) and all(
            is_possible(at, load.amount("kg"), rig) for at, load in loads.items()
        ):
            return True
    for figure, face in zip(said.values(), faces, strict=True):
        figure.value = face
    return False
