"""Corrections of which trailer it was: 'that last one was the camper', 'flatdeck, not camper'.

This file decides whether a message puts one of the chat's own trailers in the place of another, or
says which one was meant: it is short, has no figure and says nothing else.
"""

from __future__ import annotations

from collections.abc import Sequence

from domain.entries import Correction
from domain.reading.scene import Scene
from domain.reading.tokens import MARK, NUMBER, TIME, Token

LONGEST = 12
"""Tokens of 'oops, that last weigh was with the flatdeck, not the camper'."""


def trailer_meant(scene: Scene) -> Correction | None:
    """The correction of a trailer that a message is, or None where it is none."""
    if scene.figures or len(scene.tokens) > LONGEST or "?" in scene.text:
        return None
    said = [
        (index, key.partition(":")[2])
        for index, _, key in scene.find("name")
        if key.startswith("trailer:")
    ]
    named = [index for index, _ in said]
    if not said or not all(
        index in named or _is_small(token) for index, token in enumerate(scene.tokens)
    ):
        return None
    if len(said) == PAIR:
        return _contrasted(scene, said)
    (index, meant) = said[0]
    was = scene.tokens[index + 1 :]
    ends = all(token.kind is MARK or "apologizes" in token.groups for token in was)
    told = ends and len(said) == 1 and _points_at_entry(scene.tokens[:index])
    return Correction(action="amend", field="trailer", value=meant) if told else None


PAIR = 2
"""Trailers: the right one and the wrong one."""


def _contrasted(scene: Scene, said: Sequence[tuple[int, str]]) -> Correction | None:
    """'it was the flatdeck, not the camper' and 'not the camper, the flatdeck'."""
    (first, one), (second, other) = said
    tokens = scene.tokens
    between = any("contrasts" in token.groups for token in tokens[first:second])
    before = any("contrasts" in token.groups for token in tokens[:first])
    if one == other or between == before:
        return None
    meant, was = (one, other) if between else (other, one)
    return Correction(action="amend", field="trailer", value=meant, was=was)


def _points_at_entry(before: Sequence[Token]) -> bool:
    """'that last one was the', 'wrong trailer, it was the', 'i meant the'."""
    meant = any("marks_meant" in token.groups and "correction" in token.senses for token in before)
    was = any(
        token.raw.isalpha() and not token.groups.isdisjoint(("was", "was_so"))  # no "we're"
        for token in before
    )
    entry = any(
        token.senses.get("ordinal") == "last"
        or "log_entry" in token.groups
        or not token.senses.keys().isdisjoint(("weigh_cue", "ticket"))
        or ("found_wrong" in token.groups and "correction" in token.senses)
        for token in before
    )
    return meant or (was and entry)


def _is_small(token: Token) -> bool:
    """Whether a word may stand in such a message beside the trailers."""
    if token.kind in (NUMBER, TIME):
        return False
    if token.kind is MARK:
        return token.raw in ",.-–"
    return not SMALL.isdisjoint(token.senses) or "log_entry" in token.groups


SMALL = frozenset(
    ("glue", "correction", "reported", "ordinal", "weigh_cue", "vehicle", "ticket", "fee")
)
"""Classes of term of the words beside them: 'sorry, that last weigh was with the ...'."""
