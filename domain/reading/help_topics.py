"""Questions about Drawbar itself: how it works, what can be texted, how something is logged.

This file decides whether a message asks for help. Where each of its words is one of such a
question, any form will do ('explain how to use this bot'); else only phrases that are sure.
"""

from __future__ import annotations

from collections.abc import Sequence

from domain.reading.asked import Asked
from domain.reading.scene import Scene
from domain.reading.tokens import WORD

LOGGED_CLASSES = frozenset(
    ("weigh_cue", "odometer", "rating", "axle", "axle_noun", "product", "ticket", "subject")
)
"""Classes of term for what is logged: who asks for help with the log names one."""


def may_ask_help(scene: Scene, words: Sequence[str]) -> bool:
    """Whether a message has a word that such questions are about; a cheap look beforehand."""
    return not scene.book.groups["help_head"].isdisjoint(words)


def asks_how_it_works(scene: Scene, asked: Asked) -> bool:
    """Whether a message of nothing but words for asking and logging asks what Drawbar can do.

    'how does this bot work', 'what kind of stuff can i ask you', 'the right way to log a fill'.
    """
    known = scene.book.groups["help_word"]
    thing = asked.stands("logged_thing") or not LOGGED_CLASSES.isdisjoint(scene.by_class)
    logged = thing or asked.says("fuel")
    for token in scene.tokens:
        if token.kind is not WORD or not LOGGED_CLASSES.isdisjoint(token.senses):
            continue
        strange = [word for word in token.text.split(" ") if word not in known]
        if strange and not (logged and token.groups & {"fill_noun", "fuel", "log_entry"}):
            return False
    if scene.figures:
        return False
    if asked.says("help_itself"):
        return asked.says("help_works")
    if asked.stands("help_asked"):
        return bool(asked.forms & {"what", "which"}) or asked.says("help_way")
    return logged and asked.says("help_way") and asked.stands("help_logs")


def asks_help(scene: Scene, asked: Asked) -> bool:
    """What can be texted, and how something is logged; 'how do i look' asks a person."""
    if "help" not in asked.topics or asked.stands("reads_back"):
        return False
    if asked.phrased("help", "whole_help") and _nothing_beside(scene, asked):
        return True
    others = asked.words & scene.book.groups["other_people"]
    if not others <= scene.book.groups["addressed"]:
        return False  # 'what do you understand about them'
    told = asked.phrased("help", "surely_help") and not asked.stands("logs_in")
    texts = asked.phrased("help", "texts_drawbar") and "what" in asked.forms
    thing = asked.stands("logged_thing")
    logged = thing or not LOGGED_CLASSES.isdisjoint(scene.by_class)
    if told or (texts and asked.says("may_text")):
        return asked.strangers <= 1 or logged
    mended = asked.says("mends") and (thing or scene.has("odometer") or scene.has("rating"))
    return asked.strangers == 0 and (mended or (logged and asked.stands("records")))


def _nothing_beside(scene: Scene, asked: Asked) -> bool:
    """Whether a message asks for help and for nothing else: 'what can you do about it' does."""
    phrases = {word for phrase in asked.topics["help"] for word in phrase.split()}
    beside = scene.book.groups["beside_help"]
    return all(word in phrases or word in beside or not word.isalpha() for word in asked.words)
