"""Ends of a truck where no axle is meant: 'two of us in the front', 'the caravan's on the back'.

This file decides when an end is where somebody sits or where a trailer is hitched, so that no
figure is what an axle there bears. Who sits, or what is hitched, is named right before it.
"""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING

from domain.reading.everyday_words import names_trailer
from domain.reading.tokens import MARK, NUMBER, Token

if TYPE_CHECKING:
    from domain.reading.scene import Scene

OTHER_ENDS = frozenset(("aboard", "pet", "on_the"))
"""The class of term and the groups of words of which one leads to such an end."""

SITS = frozenset(("aboard", "pet"))

INTO = frozenset(("in", "into_the"))
"""Groups of words that lead to a seat."""


def settle_ends(scene: Scene) -> None:
    """Give every end of a message that is no axle the sense that it has there."""
    if not SITS.isdisjoint(scene.said):
        _settle_seats(scene)
    if "behind_truck" in scene.groups and "on_the" in scene.groups:
        _settle_back(scene)


def _settle_back(scene: Scene) -> None:
    """'the caravan's on the back and we're away': it was hitched; 'with the camper on the back'."""
    tokens = scene.tokens
    for index in scene.by_class.get("end", ()):
        if index < FIRST or "behind_truck" not in tokens[index].groups:
            continue
        at = index - 2
        stated = tokens[at].possessive or "is_at" in tokens[at].groups
        if not tokens[at].possessive and stated:
            at -= 1
        if "on_the" not in tokens[index - 1].groups or not names_trailer(tokens[at]):
            continue
        lead = [token for token in tokens[max(0, at - 2) : at] if "article" not in token.groups]
        set_so = "rig" in tokens[at].senses or (bool(lead) and "describes_rig" in lead[-1].groups)
        if _ends(tokens, index + 1, stated=stated or set_so):
            tokens[index].senses = {"rig": "hitched"} if set_so else {"hitch": "hitched"}
            scene.index_terms()
            return


FIRST = 2
"""Tokens before the back of a truck on which a trailer is: 'caravan on the'."""


def _ends(tokens: Sequence[Token], index: int, *, stated: bool) -> bool:
    """Whether nothing more is said of a place, as a load would be: 'camper on the back 1,720'."""
    if index >= len(tokens) or not tokens[index].groups.isdisjoint(("and_alone", "now_word")):
        return True
    behind = tokens[index + 1 : index + 2]
    parted = tokens[index].kind is MARK
    return parted and (stated or not (behind and behind[0].kind is NUMBER))


def _settle_seats(scene: Scene) -> None:
    """Take the sense of an end from every word that is a seat here."""
    ends = scene.by_class["end"]
    seats = [index for index in ends if _is_seat(scene, index)]
    if not seats or (len(ends) > len(seats) and _is_at_figure(scene, seats[-1])):
        return  # '4 aboard in the front 5,180, rear 6,240' tells of axles
    if "axle" in scene.by_class and _is_at_figure(scene, seats[-1]):
        return
    for index in seats:
        scene.tokens[index].senses = {"glue": "function"}
    scene.index_terms()


def _is_seat(scene: Scene, index: int) -> bool:
    """Whether people, or what they keep, are said to be 'in the' end."""
    at = index - 1
    if at < 0 or INTO.isdisjoint(scene.tokens[at].groups):
        return False
    at -= 1
    return at >= 0 and _is_somebody(scene.tokens[at])


def _is_somebody(token: Token) -> bool:
    return "aboard" in token.senses or not token.groups.isdisjoint(("pet", "oneself", "family"))


def _is_at_figure(scene: Scene, index: int) -> bool:
    behind = scene.tokens[index + 1 : index + 2]
    return bool(behind) and behind[0].kind is NUMBER
