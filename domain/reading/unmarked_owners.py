"""Whose a vehicle is, where the apostrophe was left out: 'jaxons truck', 'the hendersons rig'.

This file decides which unknown words own the vehicle that they stand before, in a message that is
typed without such marks. What follows from that is decided in `talk`.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from domain.reading.scene import Scene

VEHICLES = frozenset(("vehicle", "rig"))
"""Classes of term for what somebody owns."""

SHORTEST = 4
"""Letters of a name and its s: 'neds'."""

NO_NAMES = ("ss", "us", "is")
"""How words end that are no name with an s behind it: 'class', 'various', 'Chris'."""


def settle_owners(scene: Scene) -> None:
    """Let such words own what stands behind them, as with an apostrophe."""
    for index in scene.unknown:
        word = scene.tokens[index].text
        if not word.endswith("s") or len(word) < SHORTEST or word.endswith(NO_NAMES):
            continue
        before, behind = scene.tokens[index - 1 : index], scene.tokens[index + 1 : index + 3]
        if behind and "new_thing" in behind[0].groups:
            behind = behind[1:]  # 'the in-laws new caravan'
        ours = bool(before) and "of_a_person" in before[0].groups  # 'our supers trailer'
        if behind and word.isalpha() and not (ours or VEHICLES.isdisjoint(behind[0].senses)):
            scene.tokens[index].possessive = True
