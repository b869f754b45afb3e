"""Whether something was done or is so, asked without a mark: nobody told it.

This file decides by the order of the words that a message asks: 'is the camper hitched', 'did we
put in 31.4 gal', 'was the tongue 1160'. It does not know what is asked, nor of whom.
"""

from __future__ import annotations

from collections.abc import Sequence
from itertools import dropwhile

from domain.reading.phrasebook import ASKS_WHETHER
from domain.reading.scene import Scene
from domain.reading.tokens import NUMBER, WORD, Token

OWNED = frozenset(("pronoun", "article", "our"))
NAMED = frozenset(("name", "vehicle"))
"""What the subject of such a question is: groups of its first word, and classes of its term."""


def asks_whether(scene: Scene) -> bool:
    """'which trailer is on', 'when was it unhitched', 'have the lug nuts been torqued'."""
    if ASKS_WHETHER.isdisjoint(scene.groups):
        return False
    if any(each.raw in ",.;:" or each.ends_sentence for each in scene.tokens):
        return False
    if scene.figures and "contrasts" in scene.groups:
        return False  # 'was the drive axle 6100 not 6010' corrects
    led = dropwhile(lambda each: "before_question" in each.groups, scene.tokens)
    first, *behind = [*led] or scene.tokens[-1:]
    groups = scene.book.groups
    if "room_word" in first.groups:
        return bool(behind) and "for" in behind[0].groups  # 'room for another hive box 80 lb'
    if first.text in groups["asks_which"]:
        return not scene.figures
    if behind and first.text in groups["asks_when_or_where"]:
        first, *behind = behind
    if not behind:
        return False
    if first.text in groups["inverts_somebody"]:
        return "pronoun" in behind[0].groups or _was_done(behind)
    if "a_thing" in behind[0].groups and scene.has("correction"):
        return False  # 'wasn't a full tank actually'
    if behind[0].kind is NUMBER:
        return first.text in groups["inverts"] and "judges" in scene.groups
    return first.text in groups["inverts"] and _is_subject(behind[0])


def _was_done(behind: Sequence[Token]) -> bool:
    """'did the turn signal get fixed', and not 'did the oil change'."""
    subject = _is_subject(behind[0]) or "it" in behind[0].groups
    return subject and any("of_what_is_done" in each.groups for each in behind[1:])


def _is_subject(token: Token) -> bool:
    if not token.senses and not token.groups:
        return token.kind is WORD  # 'is Juniper hitched', by a name that the chat never gave
    return not OWNED.isdisjoint(token.groups) or not NAMED.isdisjoint(token.senses)
