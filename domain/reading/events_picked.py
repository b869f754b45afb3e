"""Answers by what happened, or by what a sum was: 'we were just setting off', 'the whole bill'.

This file decides which choice of an open question such words pick, where a message says no more.
"""

from __future__ import annotations

from domain.reading.scene import Scene
from domain.reading.tokens import MARK, Token
from domain.verdicts import Ask, Choice


def by_event(scene: Scene, asked: Ask) -> Choice | None:
    """'oh we were just setting off': the reading where that happened, and no other."""
    said = {key for _, _, key in scene.find("event")}
    fitting = [
        choice
        for choice in asked.choices
        if {getattr(entry, "event", None) for entry in choice.entries} == said
    ]
    if len(said) != 1 or len(fitting) != 1:
        return None
    alone = all(_says_no_more(token) or "event" in token.senses for token in scene.tokens)
    return fitting[0] if alone else None


def by_total(scene: Scene, asked: Ask) -> Choice | None:
    """'yeah thats the whole bill': the fill of which the sum is what it cost, and no other."""
    if asked.about != "cost":
        return None
    paid = [
        choice
        for choice in asked.choices
        if any(getattr(entry, "cost", None) is not None for entry in choice.entries)
    ]
    whole = any("whole" in t.senses or t.groups & OF_THE_BILL for t in scene.tokens)
    alone = whole and all(
        _says_no_more(token)
        or "whole" in token.senses
        or token.groups & (OF_THE_BILL | {"entire", "agrees"})
        for token in scene.tokens
    )
    return paid[0] if alone and len(paid) == 1 and "?" not in scene.text else None


OF_THE_BILL = frozenset(("cost_word", "money_total"))
"""Groups of words for what was paid in all."""


def _says_no_more(token: Token) -> bool:
    """A mark, a small word or a pronoun that nobody denies anything with."""
    small = token.kind is MARK or "glue" in token.senses or "pronoun" in token.groups
    return (small or "answer_filler" in token.groups) and token.groups.isdisjoint(DENYING)


DENYING = frozenset(("not", "denies", "neither", "refuses"))
