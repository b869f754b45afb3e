"""Answers by what happened, what a sum was or what was not there: 'the whole bill', 'no van on it'.

This file decides which choice of an open question such words pick, where a message says no more,
and that a trailer is said not to have been on.
"""

from __future__ import annotations

from domain.reading.everyday_words import names_trailer
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


def had_no_trailer(scene: Scene) -> bool:
    """'just the car, no van on it', 'the camper wasn't on': it is named, and was not there.

    'no the van was on' and 'no, van was on' only answer before they tell.
    """
    if ABSENT.isdisjoint(scene.groups):
        return False
    for index, token in enumerate(scene.tokens):
        if not names_trailer(token):
            continue
        led = index > 0 and "article" in scene.tokens[index - 1].groups
        led = led or "with_article" in token.groups
        before = scene.tokens[index - 1 - ("article" in scene.tokens[index - 1].groups)]
        if index and "absent" in before.groups and not (led and "no_alone" in before.groups):
            return True
        behind = scene.tokens[index + 1 : index + FARTHEST_DENIED]
        if any("denies" in each.groups for each in behind) and "alone" not in scene.by_class:
            return True
    return False


ABSENT = frozenset(("absent", "denies"))
"""Groups of words with which one says that something was not there."""

FARTHEST_DENIED = 3
"""Tokens from a trailer to the word that denies: 'was not'."""
