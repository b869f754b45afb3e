"""Where a journey goes from and to: the names of places in a question.

This file decides which words of a plan are a place. A place begins with a capital letter, or is
a word that nobody knows behind 'to' or before it. It does not know what is asked of the journey.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence

from domain.reading.scene import Scene
from domain.reading.tokens import WORD, Token

LONGEST_PLACE = 3
"""Words of a place's name."""

Place = tuple[int, int]
"""The tokens of a place's name: start, end (exclusive)."""


def destination_of(scene: Scene) -> str | None:
    """Where a plan goes: the name behind 'to'."""
    place = find_destination(scene)
    return scene.words_between(*place) if place else None


def origin_of(scene: Scene) -> str | None:
    """Where a plan starts: the name behind 'from', or else the one before 'to'."""
    place = find_origin(scene)
    return scene.words_between(*place) or None if place else None


def find_destination(scene: Scene) -> Place | None:
    """The tokens of the name behind 'to'."""
    to = scene.book.groups["to"]
    led = not (LEADING.isdisjoint(scene.groups) and ARROWHEADS.isdisjoint(scene.marks))
    if not led and to.isdisjoint(scene.words()):
        return None
    goes_to = tuple(f" {word}" for word in to)
    for index, token in enumerate(scene.tokens):
        heads = "heads_for" in token.groups or _joins_places(scene, index)
        heads = heads or token.raw in ARROWHEADS
        if not (heads or "until" in token.groups or token.text.endswith(goes_to)):
            continue
        words = index + 1
        end = words
        while end < len(scene.tokens) and end - words < LONGEST_PLACE:
            following = scene.tokens[end]
            if (
                following.kind is not WORD
                or "name" in following.senses
                or "glue" in following.senses
                or "time" in following.senses
            ):
                break
            upper = following.raw[0].isupper()
            small = following.senses or "small_word" in following.groups
            ends = end + 1 == len(scene.tokens) or scene.tokens[end + 1].kind is not WORD
            if not upper and (small or (end > words and not ends)):
                break  # of small letters one word is a name, or two and no more words
            end += 1
        named = end > words and _capital(scene.tokens[words])
        on = scene.tokens[end : end + 1] if named and "for" in token.groups else ()
        if any("to" in each.groups for each in on):
            continue  # 'fuel for Elk Fork to Saltlick' goes on to the second
        verb = scene.tokens[words].groups & {"moves", "journey_verb"} if end > words else None
        unsure = (
            token.groups & {"for", "and_alone"} or not heads
        )  # 'going to get there', 'until we stop'
        if named or (end > words and not unsure and not verb):
            return words, end
    return None


ARROWHEADS = frozenset((">", "→"))
"""What ends an arrow from one place to another: 'Alder Bend -> Cutbank'."""

LEADING = frozenset(("heads_for", "until", "between"))
"""Groups of words that lead to a destination, or to the places that a way lies between."""


def _joins_places(scene: Scene, index: int) -> bool:
    """'between Dry Willow and Kettle Lake': what stands behind 'and' is gone to."""
    return "and_alone" in scene.tokens[index].groups and "between" in scene.groups


def find_origin(scene: Scene) -> Place | None:
    """The tokens of the name behind 'from', or of the one before 'to'."""
    tokens = scene.tokens
    for index, token in enumerate(tokens[:-1]):
        if token.groups & {"from", "between"}:
            first = index + 1
            end = _past(tokens, first, 1, _capital)
            if end == first:
                end = _past(tokens, first, 1, _nameless)
                if (
                    end < len(tokens)
                    and tokens[end].kind is WORD
                    and "to" not in tokens[end].groups
                ):
                    return None
            return first, end
    for index, token in enumerate(tokens):
        if "to" in token.groups or token.raw in ARROWHEADS:
            end = index - (token.raw == ">" and tokens[index - 1].raw in "-=")
            for names in (_titled, _strange):  # 'Ashcombe to Marlby', 'elk fork to ...'
                start = _past(tokens, end - 1, -1, names) + 1
                if start == 0 and (tokens[0].senses or tokens[0].groups):
                    start = 1  # 'Plan Elk Fork to Marlby'
                if start < end:
                    return start, end
    return None


def goes_between_places(scene: Scene) -> bool:
    """'from Dry Willow to Kettle Lake': a way between two places, both by their names."""
    tokens = scene.tokens
    for index, token in enumerate(tokens):
        if "from" in token.groups and (end := _past(tokens, index + 1, 1, _capital)) > index + 1:
            behind = tokens[end : end + 2]
            return len(behind) == 2 and "to" in behind[0].groups and _capital(behind[1])
    return False


def goes_between_names(scene: Scene) -> bool:
    """'plan Dry Willow to Kettle Lake': two places by their names, with or without 'from'."""
    places = find_origin(scene), find_destination(scene)
    return all(place and _capital(scene.tokens[place[0]]) for place in places)


def _past(tokens: Sequence[Token], start: int, step: int, names: Callable[[Token], bool]) -> int:
    """The first token from `start` on, going by `step`, that is no part of a name."""
    at = start
    while 0 <= at < len(tokens) and abs(at - start) < LONGEST_PLACE and names(tokens[at]):
        at += step
    return at


def _nameless(token: Token) -> bool:
    return token.kind is WORD and token.senses.keys().isdisjoint(("glue", "name", "vehicle"))


def _strange(token: Token) -> bool:
    return token.kind is WORD and not token.senses and not token.groups


def _titled(token: Token) -> bool:
    """A word of a name, which may be a known one in it: 'Alder Flat', 'Kettle Station'."""
    plain = token.raw.istitle() and "glue" not in token.senses
    return _capital(token) and (plain or not token.senses)


def _capital(token: Token) -> bool:
    return token.kind is WORD and token.raw[0].isupper() and "name" not in token.senses


def tells_plan(scene: Scene) -> bool:
    """'planning to leave Friday, maybe 300 miles', 'plan is to do 300': told, and no order."""
    at = next((i for i, token in enumerate(scene.tokens) if "plans" in token.groups), None)
    if at is None:
        return False
    behind = scene.tokens[at + 1 : at + 2]
    named = bool(behind) and bool(behind[0].groups & {"was", "to"})
    owned = at > 0 and not scene.tokens[at - 1].groups.isdisjoint(("article", "our"))
    return "plans_aloud" in scene.tokens[at].groups or named or owned
