"""Where it happened: the place that a message names.

This file decides which words are a place: a name behind 'at' or 'arrived', a ticket's heading,
or capitalized words beside the figures that mean nothing else. Places are kept as typed.
"""

from __future__ import annotations

from domain.reading.scene import OTHER, REQUEST, Scene
from domain.reading.tokens import BREAK, MARK, NUMBER, TIME, WORD, Token

LONGEST = 4
LEAST_BREAKS = 3
"""Line breaks: a ticket has at least as many."""
NO_PLACE = frozenset(("axle_noun", "passes", "product"))
"""Classes of words that head figures."""


def read_place(scene: Scene) -> str | None:
    """The place that a message names, as typed and without 'the', or None."""
    heading = _heading(scene)
    if heading is not None:
        return heading
    tokens = scene.tokens
    for index, token in enumerate(tokens):
        if "leads_to_place" not in token.groups or token.kind is not WORD:
            continue
        if scene.talk[index] in (OTHER, REQUEST):
            continue  # 'see you at supper'
        start = index + 1
        while start < len(tokens) and "before_name" in tokens[start].groups:
            start += 1
        end = _name_end(tokens, start)
        if end > start:
            return scene.words_between(start, end)
    at_home = [index for index, token, _ in scene.find("event") if "home" in token.groups]
    if any(
        index + 1 == len(tokens) or "until_then" not in tokens[index + 1].groups
        for index in at_home
    ):
        return "home"
    return _standing_alone(scene)


def _heading(scene: Scene) -> str | None:
    """The first line of a pasted ticket, where it is words and names a scale or a station."""
    if scene.text.count("\n") < LEAST_BREAKS:
        return None
    tokens = scene.tokens
    end = next((index for index, token in enumerate(tokens) if token.kind is BREAK), None)
    if end is None or end == 0 or end > 8 or sum(t.kind is BREAK for t in tokens) < LEAST_BREAKS:
        return None
    line = tokens[:end]
    if any(token.kind in (NUMBER, TIME) or not NO_PLACE.isdisjoint(token.senses) for token in line):
        return None  # 'wheel weights' and 'first weigh' head the figures, and name no place
    return scene.words_between(0, end)


def _name_end(tokens: list[Token], start: int) -> int:
    end = start
    while end < len(tokens) and end - start < LONGEST and _is_name(tokens[end], first=end == start):
        end += 1
    return end


def _is_name(token: Token, *, first: bool) -> bool:
    if token.kind is not WORD or "name" in token.senses or "time" in token.senses:
        return False
    if token.raw[0].isupper():
        return "unit" not in token.senses and "axle" not in token.senses
    plain = not token.senses or bool(token.senses.keys() & {"street"})
    return plain and len(token.raw) > 2


def _standing_alone(scene: Scene) -> str | None:
    """Capitalized unknown words in a clause of their own: '30.1 gal · Two Elders'."""
    tokens = scene.tokens
    if scene.text.isupper():
        return None
    for index in scene.unknown_words():
        token = tokens[index]
        if not token.raw[0].isupper():
            continue
        if token.groups & {"heads_field", "greeting"}:
            continue  # 'Date: 07/11/2026' on a pasted ticket, 'Evening folks.'
        before = tokens[index - 1] if index else None
        if before is None or before.kind in (MARK, BREAK) or before.kind is NUMBER:
            end = _name_end(tokens, index)
            return scene.words_between(index, end)
    return None
