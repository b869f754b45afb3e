"""What is answered with yes or no, and goods that were not bought.

'Full: no' on a list of fields says that the tank was not full, and 'diesel, not the def' that
there was no exhaust fluid. This file decides which word such an answer, or such a denial, is
about, before figures are looked for: the field says what the answer makes of it, and what was
denied says nothing.
"""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING

from domain.reading.taken_back import FILLER
from domain.reading.tokens import NO_GROUPS, NUMBER, WORD, Token

if TYPE_CHECKING:
    from domain.reading.scene import Scene

REPLIES = frozenset(("answers_yes", "answers_no", "bars_word"))
"""Groups of words of which one stands where a field is answered."""

LINKS = ":=?-–—"
"""Marks that may stand between a field and its answer."""

OPPOSITE = {"hitched": "unhitched", "unhitched": "hitched", "on": "off", "off": "on"}

LONGEST_DENIAL = 3
"""Tokens from a denial to what it denies: 'didn't need any def'."""


def settle_answers(scene: Scene) -> None:
    """'Full: no', 'Bars: yes', 'DEF: none': the field says what the answer makes of it."""
    if "says_naw" in scene.groups:
        _settle_naw(scene)
    settled = False
    for index, token in enumerate(scene.tokens):
        if not (token.senses.keys() & ANSWERED or "bars_word" in token.groups):
            continue
        answer = _answer_to(scene, index)
        if answer is None or not _answered(token, answer):
            continue
        reply = scene.tokens[_reply_at(scene.tokens, index)]
        reply.senses, reply.groups, settled = FILLER, NO_GROUPS, True
    if settled:
        scene.index_terms()


def _settle_naw(scene: Scene) -> None:
    """'naw, mileage was 58,920 no 58,902': who says 'naw' says 'no' for 'not'."""
    tokens = scene.tokens
    for index in range(2, len(tokens) - 1):
        token, behind = tokens[index], tokens[index + 1]
        said = (tokens[index - 1], tokens[index - 2])
        told = said[0].kind is NUMBER or ("unit" in said[0].senses and said[1].kind is NUMBER)
        if told and behind.kind is NUMBER and "no_alone" in token.groups:
            token.senses, token.groups = scene.book.terms["not"]
            token.text = "not"
            scene.groups = scene.groups.union(token.groups)
            scene.index_terms()


ANSWERED = frozenset(("full", "hitch", "bars", "missed", "missed_verb", "product", "vehicle"))
"""Classes of term of the fields of a list that are answered with yes or no."""


def _reply_at(tokens: Sequence[Token], index: int) -> int:
    """Where the answer to a field stands, behind the marks that link them."""
    at = index + 1
    while at < len(tokens) and tokens[at].raw in LINKS:
        at += 1
    return at


def _answer_to(scene: Scene, index: int) -> bool | None:
    """Yes or no where it stands by itself behind a field, as a field of a list does."""
    tokens = scene.tokens
    at = _reply_at(tokens, index)
    if at >= len(tokens) or tokens[at].kind is not WORD:
        return None
    # 'Home? no, full' answers a question: what is said in a clause of its own is no field.
    linked = at > index + 1
    if not linked and index and tokens[index - 1].kind is WORD:
        return None
    field = tokens[index]
    state = "bars_word" in field.groups or not OF_A_STATE.isdisjoint(field.senses)
    if linked and state and not tokens[at].groups.isdisjoint(SHORT_OF_IT):
        return False  # 'Full: not quite'
    said = tokens[at].raw.casefold()
    ended = said.endswith(".")  # 'no.' is read as one word
    behind = tokens[at + 1] if at + 1 < len(tokens) else None
    more = behind is not None and behind.kind in (WORD, NUMBER) and behind.raw not in LINKS
    if more and not (ended or _heads_next(tokens, at + 1)):
        return None
    said = said.rstrip(".")
    groups, switch = scene.book.groups, scene.book.keys["switch"]
    if "bars_word" in tokens[index].groups and said in switch:
        return switch[said] == "hitched"
    if said in groups["answers_yes"]:
        return True
    return False if said in groups["answers_no"] else None


def _heads_next(tokens: Sequence[Token], index: int) -> bool:
    """'full=n vol=20.1': the next field begins where an answer ends."""
    mark = tokens[index + 1] if index + 1 < len(tokens) else None
    return mark is not None and mark.raw in ("=", ":") and tokens[index].kind is WORD


OF_A_STATE = frozenset(("full", "hitch", "bars"))
"""Classes of term that say how something stands."""

SHORT_OF_IT = frozenset(("not", "short_of_it"))
"""Groups of words that say no of a field, whatever follows."""


def _answered(token: Token, answer: bool) -> bool:
    """Let a field say what the answer makes of it. Whether it says anything."""
    senses = dict(token.senses)
    if "bars_word" in token.groups:
        senses = {"bars": "on" if answer else "off"}
    elif "bars" in senses:
        senses = {"bars": senses["bars"] if answer else OPPOSITE[senses["bars"]]}
    elif "full" in senses:
        senses["full"] = "true" if answer == (senses["full"] != "false") else "false"
        if not answer:
            senses.pop("level", None)
    elif "hitch" in senses:
        said = senses["hitch"]
        senses = {"hitch": said if answer else OPPOSITE[said]}
    elif "product" in senses or "vehicle" in senses:
        if answer or senses.get("vehicle", "trailer") != "trailer":
            return False
        senses = {"rig": "solo"} if "vehicle" in senses else FILLER
    else:
        senses = {"missed": "true"} if answer else FILLER
    token.senses = senses
    return True


def settle_denied(scene: Scene) -> None:
    """'23.5 gal of diesel, not the def this time': what was not bought is no fill of its own.

    Where no volume is told, or another word corrects, the message mends an earlier one.
    """
    pumped = any(token.kind is NUMBER and token.decimals > 0 for token in scene.tokens)
    if not (pumped or tells_volume(scene.tokens)):
        return
    denied = [
        (start, index)
        for index in scene.by_class["product"]
        if (start := _denial_before(scene, index)) is not None
    ]
    others = set(scene.by_class.get("correction", ())) - {start for start, _ in denied}
    if not denied or others:
        return  # 'sorry, the 2.5 gal was def not diesel'
    for start, index in denied:
        for token in scene.tokens[start : index + 1]:
            token.senses, token.groups = FILLER, NO_GROUPS
    scene.index_terms()


def tells_volume(tokens: Sequence[Token]) -> bool:
    """Whether a volume is told, with its unit."""
    return any(
        token.senses.get("unit") in VOLUMES and index and tokens[index - 1].kind is NUMBER
        for index, token in enumerate(tokens)
    )


VOLUMES = frozenset(("gal", "gal_imp", "L"))


def _denial_before(scene: Scene, index: int) -> int | None:
    """Where the words begin that deny what stands at a token; None where nothing does."""
    tokens = scene.tokens
    for at in range(index - 1, max(index - LONGEST_DENIAL, 0) - 1, -1):
        if "denies_goods" in tokens[at].groups:
            return at
        if tokens[at].groups.isdisjoint(GETS):
            return None
    return None


GETS = frozenset(("article", "gets_goods"))
"""Groups of words between a denial and what it denies."""
